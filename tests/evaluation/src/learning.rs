//! Learning from a shop's own jobs, on simulated jobs of an invented unit whose true values are not those of its sheet.
//!
//! The unit changes gear as every simulated gearbox does, but its limits sheet allows less time: healthy drives show
//! false findings. Jobs come one after another, each on a vehicle of its own; of each a person says truly what was
//! found. After so many jobs the proposed limits are adopted as far as they move by themselves, and fresh cases are
//! examined with them. The same with one outcome in ten wrong: healthy units called faulty and faulty ones healthy.

use crate::case::{CaseSpec, case_name};
use crate::evaluate::{compare, in_parallel, read_truths};
use crate::program::Answer;
use crate::said::Said;
use crate::score::Outcome as Score;
use crate::table::Table;
use crate::truth::Truth;
use anyhow::Context;
use baybrief::AppContext;
use baybrief::context::standing_limit;
use learn::known_good::samples;
use learn::sheet::{Adoption, Own, Proposal, propose};
use learn::text::number;
use learn::{InForce, Job, LearnedSheet, UnitKey};
use model::outcome::{Found, Outcome, Said as SaidVerdict};
use model::{Case, Grade};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// Name of the invented unit, its system, and the limit of its sheet that is wrong.
const UNIT: &str = "meadow-six";
const SYSTEM: &str = "dual-dry-clutch";
const LIMIT: &str = "shift-time";
const KIND: &str = "shift";

/// Sheet of the invented unit; healthy drives take 0.2 to 0.4 s.
const SHEET: &str = r#"
name = "meadow-six"
system = "dual-dry-clutch"
description = "An invented gearbox, whose sheet is wrong"
[value.shift-time]
high = 0.2
unit = "s"
source = "invented, and too strict"
"#;

/// Classes of the jobs, in their turn: half of them healthy.
const CLASSES: [&str; 8] = [
    "healthy-road",
    "slip",
    "healthy-road",
    "double-engagement",
    "healthy-road",
    "sensor-dead",
    "healthy-road",
    "slip",
];

/// Extent of a run.
#[derive(Debug, Clone)]
pub struct Extent {
    /// Seed of the jobs; the fresh cases have others.
    pub seed: u64,
    /// Number of jobs.
    pub jobs: usize,
    /// Number of simulated recordings; further jobs repeat them on other vehicles.
    pub recordings: usize,
    /// Number of fresh cases that are examined after each change of the limits.
    pub probes: usize,
    /// Folder with cases/ and truth/ whose cases are examined with the fresh ones, as jobs of the unit.
    pub set: Option<PathBuf>,
    /// Numbers of jobs after which the limits are adopted.
    pub steps: Vec<usize>,
    /// Cases at once.
    pub at_once: usize,
}

/// State of the shop after some jobs.
#[derive(Debug, Clone)]
pub struct Step {
    /// Number of jobs.
    pub jobs: usize,
    /// Vehicles that are proven good for the limit.
    pub vehicles: usize,
    /// Upper limit in force.
    pub limit: f64,
    /// Results of the fresh cases.
    pub probes: Probes,
}

/// Results of the fresh cases.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Probes {
    /// Healthy cases.
    pub healthy: usize,
    /// Abnormal findings of the limit's kind in them.
    pub false_findings: usize,
    /// Findings whose limit names the shop's own jobs as its source.
    pub sourced: usize,
    /// Verdicts by their relation to the truth.
    pub scores: BTreeMap<&'static str, usize>,
    /// State and cause of each verdict.
    pub verdicts: Vec<(String, Option<String>)>,
}

impl Probes {
    /// Number of sound parts that were condemned.
    pub fn false_teardowns(&self) -> usize {
        self.scores
            .get(Score::FalseTeardown.heading())
            .copied()
            .unwrap_or(0)
    }
}

/// Curves of a run.
#[derive(Debug, Clone)]
pub struct Learned {
    /// With true outcomes.
    pub honest: Vec<Step>,
    /// With one outcome in ten wrong.
    pub poisoned: Vec<Step>,
}

/// The shop: its settings, and the cases that it examines.
struct Shop {
    folder: TempDir,
}

thread_local! {
    static CONTEXT: RefCell<Option<(PathBuf, AppContext)>> = const { RefCell::new(None) };
}

impl Shop {
    fn open() -> anyhow::Result<Shop> {
        let folder = tempfile::tempdir().context("a temporary folder")?;
        let limits = folder.path().join("sheets/limits");
        std::fs::create_dir_all(&limits).context("a temporary folder")?;
        std::fs::write(limits.join("meadow-six.toml"), SHEET).context("a limits sheet")?;
        let settings = "[sheets]\nfolders = [\"sheets\"]\n";
        std::fs::write(folder.path().join("shop.toml"), settings).context("shop.toml")?;
        Ok(Shop { folder })
    }

    fn settings(&self) -> PathBuf {
        self.folder.path().join("shop.toml")
    }

    /// Examines a case with what is in force.
    fn examine(&self, job: &Path, in_force: &InForce) -> anyhow::Result<Case> {
        CONTEXT.with_borrow_mut(|kept| {
            let settings = self.settings();
            let context = match kept {
                Some((of, context)) if *of == settings => context,
                _ => {
                    let opened = AppContext::open(Some(&settings), false)?;
                    &mut kept.insert((settings, opened)).1
                }
            };
            context.learned = in_force.clone();
            baybrief::job::examine_folder(job, context)
        })
    }

    /// Writes a case as a job of this unit on a vehicle of its own.
    fn write(&self, spec: &CaseSpec, name: &str) -> anyhow::Result<(PathBuf, Truth)> {
        let case = spec.make(name);
        let folder = self.folder.path().join(name);
        case.folder
            .write(&folder)
            .with_context(|| format!("cannot write {}", folder.display()))?;
        name_vehicle(&folder, name)?;
        Ok((folder, case.truth))
    }

    /// Copies a case of a set as a job of this unit on a vehicle of its own.
    fn copy(&self, set: &Path, name: &str) -> anyhow::Result<PathBuf> {
        let folder = self.folder.path().join(name);
        std::fs::create_dir(&folder).context("a temporary folder")?;
        for entry in std::fs::read_dir(set.join("cases").join(name))
            .with_context(|| format!("the case {name}"))?
        {
            let entry = entry.with_context(|| format!("the case {name}"))?;
            std::fs::copy(entry.path(), folder.join(entry.file_name()))
                .with_context(|| format!("the case {name}"))?;
        }
        name_vehicle(&folder, name)?;
        Ok(folder)
    }
}

/// Makes a job one of the invented unit, on a vehicle that is named after it.
fn name_vehicle(folder: &Path, name: &str) -> anyhow::Result<()> {
    let file = folder.join("job.toml");
    let of_job = || format!("job.toml of {name}");
    let text = match std::fs::read_to_string(&file) {
        Err(e) if e.kind() == std::io::ErrorKind::NotFound => String::new(),
        read => read.with_context(of_job)?,
    };
    let mut job: toml::Table = toml::from_str(&text).with_context(of_job)?;
    let vehicle = toml::Table::from_iter([
        ("make".into(), "Meadow".into()),
        ("model".into(), "Six".into()),
        ("unit".into(), UNIT.into()),
        ("plate".into(), toml::Value::String(name.into())),
    ]);
    job.insert("vehicle".into(), vehicle.into());
    std::fs::write(&file, toml::to_string(&job).with_context(of_job)?).with_context(of_job)
}

/// Person's word on a job; `wrong`: the opposite of the truth.
fn outcome(case: &Case, truth: &Truth, wrong: bool, minute: usize) -> Outcome {
    let said = case.verdict.cause.clone();
    let cause = match (&truth.true_cause, wrong) {
        (Some(cause), false) => Some(cause.clone()),
        (None, true) => Some("something else".into()),
        (None, false) | (Some(_), true) => None,
    };
    let found = match cause {
        None => Found::Healthy,
        Some(cause) if said.as_ref() == Some(&cause) => Found::Confirmed,
        Some(cause) => Found::OtherCause { cause },
    };
    let day = chrono::NaiveDate::from_ymd_opt(2026, 3, 2).unwrap_or_default();
    let start = day.and_hms_opt(8, 0, 0).unwrap_or_default();
    Outcome {
        at: start + chrono::Duration::minutes(minute as i64),
        by: "A. Technician".into(),
        system: SYSTEM.into(),
        found,
        is_mended: false,
        part: None,
        photo: None,
        note: None,
        said: SaidVerdict {
            revision: 1,
            state: case.verdict.state,
            cause: said,
        },
    }
}

/// Runs the jobs, and the fresh cases after each change of the limits.
///
/// # Errors
/// A case that cannot be written or examined.
pub fn run(extent: &Extent) -> anyhow::Result<Learned> {
    let shop = Shop::open()?;
    let classes = CLASSES.map(String::from);
    let spec = |seed, i: usize| CaseSpec {
        class: classes[i % classes.len()].clone(),
        ..CaseSpec::numbered(seed, i, &classes)
    };
    let nothing = InForce::default();
    let examined = in_parallel(extent.recordings, extent.at_once, |i| {
        let name = case_name(i);
        let (folder, truth) = shop.write(&spec(extent.seed, i), &name)?;
        let case = shop.examine(&folder, &nothing)?;
        let _ = std::fs::remove_dir_all(folder);
        Ok((case, truth))
    });
    let examined = examined.into_iter().collect::<anyhow::Result<Vec<_>>>()?;
    let probes = (0..extent.probes)
        .map(|i| shop.write(&spec(extent.seed ^ 0x5eed, i), &format!("P-{i:04}")));
    let mut probes = probes.collect::<anyhow::Result<Vec<_>>>()?;
    if let Some(set) = &extent.set {
        for truth in read_truths(&set.join("truth"))? {
            probes.push((shop.copy(set, &truth.case)?, truth));
        }
    }
    let context = AppContext::open(Some(&shop.settings()), false)?;
    let jobs = |share: Option<usize>| -> Vec<Job> {
        let of_number = |(i, (case, truth)): (usize, &(Case, Truth))| {
            // Spread over healthy and faulty jobs alike.
            let is_wrong = share.is_some_and(|n| i % n == (i / n) % n);
            let mut case = case.clone();
            case.vehicle.plate = Some(case_name(i));
            Job {
                name: case_name(i),
                outcomes: vec![outcome(&case, truth, is_wrong, i)],
                case,
                month: "2026-03".into(),
            }
        };
        let all = examined.iter().cycle().take(extent.jobs);
        all.enumerate().map(of_number).collect()
    };
    let follow = |jobs: &[Job]| follow(&shop, &context, jobs, &probes, extent);
    Ok(Learned {
        honest: follow(&jobs(None))?,
        poisoned: follow(&jobs(Some(10)))?,
    })
}

fn follow(
    shop: &Shop,
    context: &AppContext,
    jobs: &[Job],
    probes: &[(PathBuf, Truth)],
    extent: &Extent,
) -> anyhow::Result<Vec<Step>> {
    let standing = |key: &UnitKey, limit: &str| standing_limit(&context.knowledge, key, limit);
    let system = context.knowledge.system(SYSTEM).context("the system")?;
    let mut sheets: BTreeMap<UnitKey, LearnedSheet> = BTreeMap::new();
    let mut steps: Vec<Step> = Vec::new();
    for &n in &extent.steps {
        let samples: Vec<_> = jobs[..n.min(jobs.len())]
            .iter()
            .filter_map(|job| Some((job, job.case.systems.iter().find(|s| s.system == SYSTEM)?)))
            .flat_map(|(job, record)| samples(job, record, &system.sheet.learnable))
            .collect();
        let proposals = propose(&samples, Own::default(), &standing);
        let has_changed = adopt(&proposals, &mut sheets);
        let of_limit = proposals.iter().filter(|p| p.limit == LIMIT);
        let (in_force, _) = InForce::new(sheets.values().cloned().collect(), &standing);
        let probed = match steps.last() {
            Some(last) if !has_changed => last.probes.clone(),
            _ => probe(shop, &in_force, probes, extent.at_once)?,
        };
        let learned = sheets.values().filter_map(|s| s.value.get(LIMIT)?.high);
        steps.push(Step {
            jobs: n,
            vehicles: of_limit.map(|p| p.vehicles.len()).max().unwrap_or(0),
            limit: learned.fold(0.2, f64::max),
            probes: probed,
        });
    }
    Ok(steps)
}

/// Adopts what moves by itself. Returns true where something moved.
fn adopt(proposals: &[Proposal], sheets: &mut BTreeMap<UnitKey, LearnedSheet>) -> bool {
    let adoption = Adoption {
        by: "A. Technician",
        at: chrono::NaiveDateTime::default(),
        program: env!("CARGO_PKG_VERSION"),
        named: None,
        included: &[],
    };
    let mut has_changed = false;
    for proposal in proposals {
        let present = sheets.get(&proposal.key);
        if let Some(next) = adoption.of(&[proposal], present) {
            has_changed = true;
            sheets.insert(proposal.key.clone(), next);
        }
    }
    has_changed
}

fn probe(
    shop: &Shop,
    in_force: &InForce,
    probes: &[(PathBuf, Truth)],
    at_once: usize,
) -> anyhow::Result<Probes> {
    let cases = in_parallel(probes.len(), at_once, |i| {
        shop.examine(&probes[i].0, in_force)
    });
    let mut sum = Probes::default();
    for (case, (_, truth)) in cases.into_iter().zip(probes) {
        let case = case?;
        if truth.true_cause.is_none() {
            sum.healthy += 1;
            let is_false = |f: &&model::Finding| f.kind == KIND && f.grade == Grade::Abnormal;
            sum.false_findings += case.findings.iter().filter(is_false).count();
        }
        let limits = case.findings.iter().filter_map(|f| f.limit.as_ref());
        let is_own = |l: &&model::Limit| l.source.contains("vehicles of this shop");
        sum.sourced += limits.filter(is_own).count();
        let said = Said::parse(&serde_json::to_vec(&case)?)?;
        sum.verdicts
            .push((said.verdict.state.clone(), said.verdict.cause.clone()));
        let answer = Answer {
            said: Ok(said),
            problems: Vec::new(),
            seconds: 0.0,
        };
        let score = compare(truth.clone(), answer).outcome.heading();
        *sum.scores.entry(score).or_default() += 1;
    }
    Ok(sum)
}

/// The curves as a table in Markdown.
pub fn markdown(learned: &Learned) -> String {
    let mut text = String::new();
    for (title, steps) in [
        ("True outcomes", &learned.honest),
        ("One outcome in ten wrong", &learned.poisoned),
    ] {
        let mut table = Table::new(&[
            "jobs",
            "vehicles proven good",
            "limit, s",
            "false findings in healthy cases",
            "right",
            "open",
            "wrong",
            "false teardowns",
        ]);
        for step in steps {
            let p = &step.probes;
            let of = |s: Score| p.scores.get(s.heading()).copied().unwrap_or(0);
            table.row(vec![
                step.jobs.to_string(),
                step.vehicles.to_string(),
                number(step.limit),
                format!("{} in {}", p.false_findings, p.healthy),
                of(Score::Right).to_string(),
                (of(Score::OpenAllowed) + of(Score::Abstained)).to_string(),
                of(Score::Wrong).to_string(),
                p.false_teardowns().to_string(),
            ]);
        }
        text += &format!("## {title}\n\n{}\n", table.markdown());
    }
    let moved = learned.honest.iter().zip(&learned.poisoned).map(|(a, b)| {
        let verdicts = a.probes.verdicts.iter().zip(&b.probes.verdicts);
        verdicts.filter(|(a, b)| a != b).count()
    });
    text += &format!(
        "Verdicts that the wrong outcomes moved, after each of these numbers of jobs: {:?}\n",
        moved.collect::<Vec<_>>()
    );
    text
}
