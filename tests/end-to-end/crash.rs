//! `kill -9` at any point: one report for each revision, one set of labour lines, nothing half written.

use crate::bench::{Bench, PRICES};
use crate::service::{Watch, assert_whole, log, visible, wait_until};
use intake::{JobGroup, JobState, JobView, ResultStore};
use serde_json::Value;
use simulator::noise::Noise;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use std::thread::sleep;
use std::time::{Duration, Instant};

const QUICK: [&str; 6] = ["--settle", "0.1", "--rescan", "0.2", "--parallel", "1"];

/// A batch file with the column that the test needs.
const BATCH: &str = r#"
[labour_csv]
batch = "day"
[[labour_csv.column]]
name = "row_id"
field = "row_id"
[[labour_csv.column]]
name = "hours"
field = "hours"
[[labour_csv.column]]
name = "net_amount"
field = "net_amount"
"#;

/// Settings with prices and a batch file.
pub fn shop_settings() -> String {
    format!("{PRICES}{BATCH}")
}

#[test]
fn twenty_kills_lose_nothing_and_double_nothing() {
    kills(20);
}

/// The long run: `cargo test -p baybrief --test end-to-end -- --ignored three_hundred_kills --nocapture`.
#[test]
#[ignore = "takes some minutes; DEVELOPERS.md names the command"]
fn three_hundred_kills_lose_nothing_and_double_nothing() {
    kills(300);
}

/// A job that is quick to do: a scan text, and hours to be billed. Each job differs in its bytes.
fn drop_job(bench: &Bench, job: usize, hours: &str) {
    let folder = bench.path("inbox").join(format!("R-{job}"));
    fs::create_dir_all(&folder).expect("a job folder");
    let scan = format!("Transmission control module\nP0894 confirmed\nOdometer {job} km\n");
    let words = format!("[job]\nnumber = \"R-{job}\"\ndiagnosis_hours = {hours}\n");
    fs::write(folder.join("scan.txt"), scan).expect("a scan text");
    fs::write(folder.join("job.toml"), words).expect("a job file");
}

fn kills(kills: usize) {
    let bench = Bench::new();
    let shop = bench.path("shop.toml");
    fs::write(&shop, shop_settings()).expect("the settings");
    let shop = shop.to_string_lossy().into_owned();
    let arguments: Vec<&str> = QUICK.into_iter().chain(["--shop", &shop]).collect();
    let out = bench.path("out");

    // How long one job takes from the start of the program, so that the kills spread over all of it.
    drop_job(&bench, 0, "1.0");
    let begun = Instant::now();
    let watch = Watch::start(&bench, &arguments);
    wait_until("the first report is there", || {
        out.join("index.html").exists() && out.join("R-0/case.json").exists()
    });
    let whole = begun.elapsed() + Duration::from_millis(200);
    watch.stop();

    let mut dice = Noise::new(7);
    let mut changed = BTreeMap::from([(0, false)]);
    let mut hit = Hit::default();
    for kill in 0..kills {
        // Each run has something to do: what the last one left, or else a change of the bill, or a new job.
        let last = changed.len() - 1;
        if is_all_done(&out, &changed) {
            if changed[&last] {
                drop_job(&bench, last + 1, "1.0");
                changed.insert(last + 1, false);
            } else {
                drop_job(&bench, last, "2.5");
                changed.insert(last, true);
            }
        }
        let watch = Watch::start(&bench, &arguments);
        if kill % 2 == 0 {
            // One kill in each part of the run, in an order that mixes early and late ones.
            let part = (kill * 7) % kills;
            let at = (part as f64 + dice.between(0.0, 1.0)) / kills as f64;
            sleep(whole.mul_f64(at));
        } else {
            // And one while results are published, which takes only a small part of a run.
            wait_for_publishing(&out, whole);
            sleep(PUBLISHING.mul_f64(dice.between(0.0, 1.0)));
        }
        watch.kill();
        assert_whole(&out);
        hit.look(&out);
    }
    println!(
        "{kills} kills over {whole:?} of a run, {hit}; {} jobs",
        changed.len()
    );

    // It listens to signals once it says that it watches; the work may all be done by then.
    let started = || log(&bench).matches("watching").count();
    let before = started();
    let watch = Watch::start(&bench, &arguments);
    wait_until("the watch runs", || started() > before);
    let mut done = 0;
    // A busy machine may take long for what is left, but not without getting on.
    while done < changed.len() {
        let before = done;
        wait_until("the next job is done", || {
            done = jobs(&out)
                .iter()
                .filter(|job| {
                    job.state == JobState::Done && is_of_last_content(&out, job, &changed)
                })
                .count();
            done > before
        });
    }
    watch.stop();
    check(&out, &changed);
}

/// Longer than results take from the first byte that is staged to their last labour row.
const PUBLISHING: Duration = Duration::from_millis(80);

fn wait_for_publishing(out: &Path, longest: Duration) {
    let staging = out.join(".baybrief/staging");
    let begun = Instant::now();
    while begun.elapsed() < longest && fs::read_dir(&staging).map_or(0, Iterator::count) == 0 {
        sleep(Duration::from_micros(200));
    }
}

fn is_all_done(out: &Path, changed: &BTreeMap<usize, bool>) -> bool {
    let done = |job: &&JobView| is_of_last_content(out, job, changed);
    jobs(out).iter().filter(done).count() == changed.len()
}

/// Kills by the step that they hit.
#[derive(Default)]
struct Hit {
    staging: usize,
    placing: usize,
    handing_over: usize,
}

impl Hit {
    /// Looks at what a kill left.
    fn look(&mut self, out: &Path) {
        let mut store = ResultStore::open(out, false).expect("the ledger");
        let staged = fs::read_dir(out.join(".baybrief/staging")).map_or(0, Iterator::count);
        if !store
            .ledger()
            .pending_revisions()
            .expect("a list")
            .is_empty()
        {
            self.placing += 1;
        } else if staged > 0 {
            self.staging += 1;
        } else if !store.ledger().pending_rows().expect("rows").is_empty() {
            self.handing_over += 1;
        }
    }
}

impl std::fmt::Display for Hit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{} while results were staged, {} between the ledger and their places, {} before labour rows were noted",
            self.staging, self.placing, self.handing_over
        )
    }
}

fn jobs(out: &Path) -> Vec<JobView> {
    let mut store = ResultStore::open(out, false).expect("the ledger");
    let mut list = |group| store.ledger().jobs_in(group, u32::MAX).expect("the jobs");
    JobGroup::ALL.map(&mut list).concat()
}

fn number(job: &JobView) -> usize {
    job.name.trim_start_matches("R-").parse().expect("a number")
}

/// The hours that the job's last words say.
fn hours(job: &JobView, changed: &BTreeMap<usize, bool>) -> &'static str {
    match changed[&number(job)] {
        true => "2.5",
        false => "1.0",
    }
}

/// Returns true if the newest report of a job was made from its last words.
fn is_of_last_content(out: &Path, job: &JobView, changed: &BTreeMap<usize, bool>) -> bool {
    let case = fs::read(out.join(&job.name).join("case.json")).unwrap_or_default();
    let case: Value = serde_json::from_slice(&case).unwrap_or_default();
    case["labour"][0]["hours"] == hours(job, changed)
}

/// One report for each revision, one set of labour lines.
fn check(out: &Path, changed: &BTreeMap<usize, bool>) {
    let mut rows = BTreeSet::new();
    let mut store = ResultStore::open(out, false).expect("the ledger");
    for job in jobs(out) {
        let folder = out.join(&job.name);
        let last = job.revision.as_ref().map_or(0, |r| r.number);
        let most = if changed[&number(&job)] { 2 } else { 1 };
        assert!(
            (1..=most).contains(&last),
            "{} has {last} revisions",
            job.name
        );
        for revision in 1..=last {
            let kept = folder.join(format!("rev-{revision}"));
            let case: Value =
                serde_json::from_slice(&fs::read(kept.join("case.json")).expect("a case"))
                    .expect("a whole case");
            assert_eq!(case["job"]["revision"], revision);
            assert!(kept.join("report.pdf").is_file());
        }
        let reports = fs::read_dir(&folder).expect("a folder").flatten();
        let reports = reports
            .filter(|e| e.path().join("report.pdf").is_file())
            .count();
        assert_eq!(
            reports, last as usize,
            "{}: one report for each revision",
            job.name
        );
        for file in ["report.pdf", "case.json", "labour.csv"] {
            let shown = fs::read(folder.join(file)).expect("it is there");
            let kept = fs::read(folder.join(format!("rev-{last}")).join(file)).expect("it is kept");
            assert!(
                shown == kept,
                "{} {file} is not that of the last revision",
                job.name
            );
        }
        let handed = store.ledger().handed_rows(&job.name).expect("rows");
        let billed: rust_decimal::Decimal = handed.iter().map(|r| r.line.hours).sum();
        assert_eq!(
            billed.normalize().to_string(),
            hours(&job, changed).trim_end_matches(".0")
        );
        assert!(
            handed.len() == 1 || (last == 2 && handed.len() == 3),
            "{handed:?}"
        );
        for row in handed {
            assert!(rows.insert(row.row_id.clone()), "{} twice", row.row_id);
        }
    }
    assert!(
        store
            .ledger()
            .pending_revisions()
            .expect("a list")
            .is_empty()
    );
    let mut batched = BTreeSet::new();
    let batches = visible(out).into_iter().filter(|p| {
        let name = p.file_name().unwrap_or_default().to_string_lossy();
        p.parent() == Some(out) && name.starts_with("labour-")
    });
    for batch in batches {
        for row in fs::read_to_string(batch)
            .expect("a batch file")
            .lines()
            .skip(1)
        {
            let id = row.split(',').next().unwrap_or_default().to_string();
            assert!(
                batched.insert(id.clone()),
                "{id} stands in the batch file twice"
            );
        }
    }
    assert_eq!(batched, rows, "the batch files have the ledger's rows");
    let left = fs::read_dir(out.join(".baybrief/staging")).map_or(0, Iterator::count);
    assert_eq!(left, 0, "nothing is left behind");
}
