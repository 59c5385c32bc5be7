//! Sample jobs, invented: the case of `report-templates/customer/sample/case.json` and what becomes of it when
//! less was recorded, nothing was wrong, or it was recorded again after the repair.
#![allow(dead_code)]

use baybrief_report as report;
use model::case::Case;
use model::job_file::{ClientSection, Phase};
use model::knowledge::{Knowledge, ShopSheets, Source};
use model::labour::{
    Completion, Consent, ConsentMethod, LabourLine, LabourTotals, LineState, LineTax, StageTotals,
    SumBasis, SumLimit, TaxTotal, Totals, WorkStage, WorkStep,
};
use model::party::Parties;
use model::verdict::{ComparedFinding, ComparedOutcome, NextRecording, RepairProof};
use model::{
    Calibration, Capture, Channel, Grade, Role, RoleSource, Samples, ShopFile, SystemRecord,
    TimeAxis, VerdictState,
};
use report::{
    Advice, Audience, EvidencePlot, Photo, ReportError, ReportInput, ReportTheme, Reviewed,
    SpeedCurve,
};
use rust_decimal::Decimal;
use std::f64::consts::TAU;
use std::path::Path;

/// All that one sample report is made of.
pub struct Sample {
    pub name: &'static str,
    pub audience: Audience,
    pub case: Case,
    pub shop: ShopFile,
    pub theme: ReportTheme,
    pub advice: Option<Advice>,
    pub cautions: Vec<String>,
    pub driver: Vec<String>,
    pub client: ClientSection,
    pub parties: Parties,
    pub evidence: Vec<EvidencePlot>,
    pub photos: Vec<Photo>,
    pub totals: Option<LabourTotals>,
    pub reviewed: Option<Reviewed>,
    pub earlier_review: Option<Reviewed>,
    captures: Vec<Capture>,
}

impl Sample {
    pub fn input(&self) -> ReportInput<'_> {
        ReportInput {
            case: &self.case,
            shop: &self.shop,
            theme: &self.theme,
            advice: self.advice.as_ref(),
            cautions: &self.cautions,
            driver: &self.driver,
            parties: &self.parties,
            evidence: &self.evidence,
            photos: &self.photos,
            totals: self.totals.as_ref(),
            reviewed: self.reviewed.as_ref(),
            earlier_review: self.earlier_review.as_ref(),
        }
    }

    pub fn render(&self) -> Result<Vec<u8>, ReportError> {
        report::render(&self.input(), self.audience)
    }

    /// Chooses everything anew that depends on the case, after it was changed.
    pub fn settle(&mut self) {
        self.cautions = cautions(&self.case, self.advice.as_ref());
        self.driver = knowledge().driver_cautions(&self.case);
        self.parties = Parties::new(&self.shop.shop, &self.client, &self.case.customer);
        self.totals = totals(&self.case, &self.shop);
    }

    /// The same with the theme of another shop, or in another language.
    pub fn on(mut self, theme: ReportTheme) -> Sample {
        let localizer = theme.localizer();
        let speeds: Vec<SpeedCurve> = self.captures.iter().flat_map(speeds).collect();
        self.evidence = report::evidence::choose(&self.case, &self.captures, &speeds, localizer);
        let verdict = &self.case.verdict;
        self.advice = verdict
            .cause
            .as_deref()
            .map(|cause| localizer.advice(cause, verdict.teardown));
        self.theme = theme;
        self.settle();
        self
    }

    pub fn in_language(self, language: &str) -> Sample {
        self.on(built_in(language))
    }

    fn of(name: &'static str, mut case: Case, captures: Vec<Capture>) -> Sample {
        // The verdict of the job is that of its leading system.
        let verdict = case.verdict.clone();
        change(&mut case, |lead| lead.verdict = verdict);
        let mut shop = ShopFile::default();
        shop.shop.name = Some("Sampleton Drivetrain".into());
        shop.shop.address = Some("7 Invented Street, Sampleton".into());
        shop.shop.phone = Some("555 0100".into());
        let theme = || built_in("en");
        Sample {
            name,
            audience: Audience::Customer,
            advice: None,
            cautions: Vec::new(),
            driver: Vec::new(),
            client: ClientSection::default(),
            parties: Parties::new(&shop.shop, &ClientSection::default(), &case.customer),
            evidence: Vec::new(),
            photos: Vec::new(),
            totals: None,
            shop,
            case,
            reviewed: None,
            earlier_review: None,
            captures,
            theme: theme(),
        }
        .on(theme())
    }
}

/// The built-in sentences with those of the systems.
pub fn built_in(language: &str) -> ReportTheme {
    with_systems(ReportTheme::built_in(language).unwrap())
}

/// Adds the sentences of the systems, as the program does.
pub fn with_systems(mut theme: ReportTheme) -> ReportTheme {
    let language = theme.localizer().language();
    // English last, as the program has it: it stands in for what the language lacks.
    for wanted in [language.get(..2).unwrap_or(&language), "en"] {
        for source in sources() {
            let name = format!("lang/{wanted}.ftl");
            let (_, text) = source.texts.iter().find(|(n, _)| *n == name).unwrap();
            theme.add_sentences(wanted, &name, text).unwrap();
        }
    }
    theme
}

/// The built-in systems, as they lie in the tree.
fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../plugins");
    let read = |system: &str, name: &str| std::fs::read_to_string(root.join(system).join(name));
    let source = |system: &str| Source {
        name: system.into(),
        built_in: true,
        texts: [
            "system.toml",
            "limits.toml",
            "causes.toml",
            "lang/en.ftl",
            "lang/de.ftl",
            "lang/es.ftl",
        ]
        .into_iter()
        .map(|name| (name.to_owned(), read(system, name).unwrap()))
        .collect(),
    };
    ["recording", "dual-dry-clutch"].map(source).into()
}

pub fn knowledge() -> Knowledge {
    Knowledge::read(&sources(), &ShopSheets::default())
        .unwrap()
        .0
}

/// Cautions for the work that is left, as the executable chooses them.
fn cautions(case: &Case, advice: Option<&Advice>) -> Vec<String> {
    let knowledge = knowledge();
    let system = case
        .verdict
        .system
        .as_deref()
        .and_then(|s| knowledge.system(s));
    let of_advice = advice
        .into_iter()
        .flat_map(|a| a.repair.iter().chain(&a.proof).chain(&a.opens));
    let next = case.verdict.next.iter().map(|n| &n.step);
    let steps: Vec<String> = of_advice.chain(next).cloned().collect();
    let keys = knowledge.cautions(system, &steps, case.vehicle.high_voltage);
    keys.into_iter().map(str::to_owned).collect()
}

/// Sums as the program makes them, tax rounded once for each sum; the limit is what shop.toml says, or the gross sum and
/// its percentage.
fn totals(case: &Case, shop: &ShopFile) -> Option<LabourTotals> {
    let sum = |wanted: &dyn Fn(&LabourLine) -> bool| {
        let lines: Vec<&LabourLine> = case.labour.iter().filter(|l| wanted(l)).collect();
        let net: Decimal = lines.iter().map(|l| l.net_amount).sum();
        let tax = lines.first().and_then(|l| l.tax.clone());
        let amount = tax.as_ref().map_or(Decimal::ZERO, |t| {
            (net * t.rate / Decimal::ONE_HUNDRED).round_dp(2)
        });
        let by_tax = tax.map(|tax| TaxTotal {
            tax,
            base: net,
            amount,
        });
        Totals {
            net,
            tax: amount,
            gross: net + amount,
            by_tax: by_tax.into_iter().collect(),
        }
    };
    let is = |l: &LabourLine, state| l.state == state && l.life.hold.is_none();
    let own = &shop.report.authorisation;
    let stages = WorkStage::ALL.map(|stage| {
        let of_stage = |l: &LabourLine| l.step.stage() == stage;
        let offered = sum(&|l| is(l, LineState::Offered) && of_stage(l));
        let percent = own.limit_percent.map(|p| {
            (offered.gross * (Decimal::ONE_HUNDRED + p.0) / Decimal::ONE_HUNDRED).round_dp(2)
        });
        let limit = own.limit.map(|l| l.0).or(percent);
        StageTotals {
            stage,
            estimate: sum(&|l| l.state != LineState::Declined && of_stage(l)),
            limit: limit
                .filter(|_| !offered.net.is_zero())
                .map(|sum| SumLimit {
                    sum,
                    basis: SumBasis::Gross,
                }),
            offered,
        }
    });
    let is_left = |l: &LabourLine, s: &StageTotals| {
        l.step.stage() == s.stage && l.state != LineState::Declined
    };
    let has_lines = |s: &StageTotals| case.labour.iter().any(|l| is_left(l, s));
    Some(LabourTotals {
        currency: case.labour.first()?.currency.clone(),
        offered: sum(&|l| is(l, LineState::Offered)),
        authorised: sum(&|l| is(l, LineState::Authorised)),
        done: sum(&|l| is(l, LineState::Done) || is(l, LineState::Billed)),
        held: sum(&|l| l.life.hold.is_some()),
        stages: stages.into_iter().filter(has_lines).collect(),
        diagnosis_rate: (case.labour.iter())
            .find(|l| l.step == WorkStep::Diagnosis)
            .map(|l| l.rate),
    })
}

/// The sample case as it is shipped with the template.
pub fn case() -> Case {
    serde_json::from_str(include_str!(
        "../../../../report-templates/customer/sample/case.json"
    ))
    .unwrap()
}

/// Changes what was concluded of the leading system.
pub fn change(case: &mut Case, f: impl FnOnce(&mut SystemRecord)) {
    f(&mut case.systems[0]);
}

/// A recording of 20 s at 2 kHz, invented: two drives of a clutch actuator, and two shaft sensors.
pub fn capture(file: &str, dragging: bool) -> Capture {
    capture_of(file, dragging, 40_000)
}

/// The same with another number of samples.
pub fn capture_of(file: &str, dragging: bool, len: usize) -> Capture {
    let step = 20.0 / len as f64;
    let mut seed = 1u32;
    let mut noise = move || {
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        f64::from(seed >> 8) / f64::from(1u32 << 24) - 0.5
    };
    let drive = |t: f64, at: f64, peak: f64| {
        let x = t - at;
        if (0.0..0.42).contains(&x) {
            peak * (x / 0.05).min(1.0) * (-x / 0.35).exp() * 1.15
        } else {
            0.0
        }
    };
    let mut current = Vec::with_capacity(len);
    let mut shaft_1 = Vec::with_capacity(len);
    let mut shaft_2 = Vec::with_capacity(len);
    let mut voltage = Vec::with_capacity(len);
    for i in 0..len {
        let t = i as f64 * step;
        let amps = 0.9 + drive(t, 1.5, 16.0) + drive(t, 6.2, 15.6) + drive(t, 15.0, 15.9);
        current.push(((amps + 0.4 * noise()) / 100.0) as f32);
        shaft_1.push((0.12 + 0.05 * noise()) as f32);
        let turns = dragging && (3.204..11.871).contains(&t);
        let tooth = (TAU * 412.6 / 60.0 * 30.0 * (t - 3.204)).sin() >= 0.0;
        shaft_2.push((if turns && tooth { 4.9 } else { 0.12 } + 0.05 * noise()) as f32);
        voltage.push((13.9 - 0.02 * amps + 0.05 * noise()) as f32);
    }
    let roles = knowledge().roles;
    let role = |name: &str| roles.get(name).unwrap().clone();
    let channel = |name: &str, role: Role, scale: f64, samples: Vec<f32>| Channel {
        name: name.into(),
        unit: Some(role.unit().into()),
        role: Some(role),
        role_source: RoleSource::JobFile,
        scale,
        offset: 0.0,
        calibration: Calibration::Stated,
        column: None,
        samples: Samples::F32(samples.into()),
    };
    Capture {
        file: file.into(),
        started: None,
        time_source: model::TimeSource::File,
        time: TimeAxis::Even {
            start_s: 0.0,
            step_s: step,
            len,
        },
        channels: vec![
            channel("Gearbox fuse", role("supply-current"), 100.0, current),
            channel("Shaft 1 sensor", role("input-shaft-1"), 1.0, shaft_1),
            channel("Shaft 2 sensor", role("input-shaft-2"), 1.0, shaft_2),
            channel("Gearbox supply", role("supply-voltage"), 1.0, voltage),
        ],
        problems: Vec::new(),
        read_as: "invented".into(),
    }
}

/// Speeds that the pulses of such a recording give.
fn speeds(capture: &Capture) -> Vec<SpeedCurve> {
    let Samples::F32(pulses) = &capture.channels[2].samples else {
        panic!("samples of another type");
    };
    let drags = pulses.iter().any(|v| *v > 4.0);
    let curve = |role: &str, rpm: f64| SpeedCurve {
        file: capture.file.clone(),
        role: role.into(),
        unit: "rpm",
        start_s: 0.0,
        step_s: 0.02,
        values: (0..1000)
            .map(|i| f64::from(i) * 0.02)
            .map(|t| {
                if (3.204..11.871).contains(&t) {
                    rpm
                } else {
                    0.0
                }
            })
            .collect(),
    };
    let dragged = if drags { 412.6 } else { 0.0 };
    vec![curve("input-shaft-1", 0.0), curve("input-shaft-2", dragged)]
}

/// A dragging clutch, established: a teardown is advised.
pub fn established() -> Sample {
    Sample::of("established", case(), vec![capture("relearn.csv", true)])
}

/// Another job with the same fault: other people, another vehicle, other numbers, other traces.
pub fn another(number: u32) -> Sample {
    let mut case = case();
    case.job.number = format!("R-{number}");
    case.customer.name = Some(format!("Invented Customer {number}"));
    case.customer.address = Some(format!("{number} Nowhere Lane, Sampleton"));
    case.vehicle.plate = Some(format!("SAMPLE {number}"));
    case.vehicle.odometer_km = Some(80_000.0 + f64::from(number));
    case.concern = Some(format!("Invented. It began {number} km ago, on a hill."));
    let other = 1.0 + 1e-3 * f64::from(number % 100);
    for finding in &mut case.findings {
        let seen = &mut finding.observation;
        for value in [&mut seen.value, &mut seen.start_s, &mut seen.end_s] {
            *value = value.map(|v| v * other);
        }
    }
    change(&mut case, |lead| {
        lead.causes.iter_mut().for_each(|c| c.weight_dban *= other);
    });
    for file in &mut case.files {
        file.sha256 = file.sha256.as_ref().map(|_| format!("{number:064x}"));
    }
    let len = 40_000 + number as usize % 1_000;
    Sample::of("another", case, vec![capture_of("relearn.csv", true, len)])
}

/// The same for the technician.
pub fn technician() -> Sample {
    Sample {
        name: "technician",
        audience: Audience::Technician,
        ..established()
    }
}

/// The same, likely but not sure.
pub fn probable() -> Sample {
    let mut case = case();
    case.verdict.state = VerdictState::Probable;
    case.verdict.teardown = false;
    case.verdict.margin_dban = Some(6.0);
    case.verdict.reasons = vec!["reason-required-missing".into()];
    case.verdict.next = next(&["next-record-engine-running-park", "next-state-selector"]);
    change(&mut case, |lead| lead.causes[0].weight_dban = 14.0);
    case.labour.truncate(1);
    Sample::of("probable", case, vec![capture("relearn.csv", true)])
}

/// The same, not decided.
pub fn open() -> Sample {
    let mut case = case();
    case.verdict.state = VerdictState::Open;
    case.verdict.cause = None;
    case.verdict.teardown = false;
    case.verdict.margin_dban = Some(1.0);
    case.verdict.reasons = vec!["reason-margin-too-small".into()];
    case.verdict.next = next(&[
        "next-record-own-actuator-current",
        "next-record-both-shafts",
    ]);
    change(&mut case, |lead| lead.causes[0].weight_dban = 9.0);
    case.labour.truncate(1);
    Sample::of("open", case, vec![capture("relearn.csv", true)])
}

/// A healthy gearbox.
pub fn nothing_found() -> Sample {
    let mut case = case();
    case.verdict.state = VerdictState::NothingFound;
    case.verdict.cause = None;
    case.verdict.teardown = false;
    case.verdict.margin_dban = None;
    case.verdict.reasons = vec!["reason-healthy".into()];
    case.findings
        .retain(|f| f.grade == Grade::Normal && f.id != "f8");
    change(&mut case, |lead| {
        for cause in &mut lead.causes {
            cause.weight_dban = -15.0;
            cause.ruled_out = true;
        }
    });
    case.labour.truncate(1);
    Sample::of("nothing-found", case, vec![capture("relearn.csv", false)])
}

/// Recorded again after the repair: proven.
pub fn mended() -> Sample {
    let mut case = case();
    case.verdict.state = VerdictState::NothingFound;
    case.verdict.cause = None;
    case.verdict.teardown = false;
    case.verdict.reasons = vec!["reason-repair-proven".into()];
    let mut after = by_id(&case, "f7").clone();
    after.id = "f11".into();
    after.file = Some("after.csv".into());
    after.kind = "shaft-at-rest".into();
    (after.value, after.uncertainty) = (Some(0.0), None);
    (after.start_s, after.end_s) = (Some(0.0), Some(20.0));
    after.grade = Grade::Normal;
    after.message = "shaft-at-rest".into();
    case.findings.push(after);
    case.verdict.repair = Some(RepairProof {
        proven: true,
        compared: vec![ComparedFinding {
            kind: "shaft-turning-at-rest".into(),
            subject: Some("input-shaft-2".into()),
            before: Some("f7".into()),
            after: Some("f11".into()),
            outcome: ComparedOutcome::Mended,
        }],
    });
    let mut record = case.captures[0].clone();
    record.file = "after.csv".into();
    record.phase = Some(Phase::After);
    case.captures.push(record);
    case.labour.truncate(1);
    Sample::of(
        "mended",
        case,
        vec![capture("relearn.csv", true), capture("after.csv", false)],
    )
}

pub fn by_id<'c>(case: &'c Case, id: &str) -> &'c model::Finding {
    case.findings.iter().find(|f| f.id == id).unwrap()
}

fn next(steps: &[&str]) -> Vec<NextRecording> {
    steps
        .iter()
        .map(|s| NextRecording {
            step: (*s).into(),
            text: String::new(),
        })
        .collect()
}

fn at(day: u32, hour: u32) -> chrono::NaiveDateTime {
    let day = chrono::NaiveDate::from_ymd_opt(2026, 3, day).unwrap();
    day.and_hms_opt(hour, 15, 0).unwrap()
}

fn consent(limit: Option<&str>) -> Consent {
    Consent {
        by: "Alex Invented".into(),
        at: at(3, 9),
        how: ConsentMethod::Telephone,
        limit: limit.map(|sum| SumLimit {
            sum: sum.parse().unwrap(),
            basis: SumBasis::Gross,
        }),
        note: Some("wants the old clutch back".into()),
    }
}

/// Changes the lines of a stage, and puts a tax of 19 % on all.
fn with_work(name: &'static str, stages: &[WorkStage], change: impl Fn(&mut LabourLine)) -> Sample {
    let mut case = case();
    for line in &mut case.labour {
        line.tax = Some(LineTax {
            category: "S".into(),
            rate: 19.into(),
        });
        if stages.contains(&line.step.stage()) {
            change(line);
        }
    }
    Sample::of(name, case, vec![capture("relearn.csv", true)])
}

/// The teardown is authorised up to a sum; the repair is not.
pub fn authorised() -> Sample {
    with_work("authorised", &[WorkStage::Teardown], |line| {
        line.state = LineState::Authorised;
        line.life.authorised = Some(consent(Some("1400.00")));
    })
}

/// The unit was opened, and its repair declined.
pub fn declined() -> Sample {
    let mut sample = with_work("declined", &[WorkStage::Repair], |line| {
        line.state = LineState::Declined;
        line.life.declined = Some(consent(None));
    });
    for line in &mut sample.case.labour {
        if line.step.stage() == WorkStage::Teardown {
            line.state = LineState::Authorised;
            line.life.authorised = Some(consent(Some("1400.00")));
        }
        if line.step == WorkStep::Teardown {
            line.state = LineState::Done;
            line.life.done = Some(done());
        }
    }
    sample.shop.report.authorisation.storage = Some("free for 5 days".into());
    sample.settle();
    sample
}

fn done() -> Completion {
    Completion {
        by: Some("Sam Example".into()),
        at: Some(at(5, 16)),
    }
}

/// All work is done; nothing was recorded after it yet.
pub fn work_done() -> Sample {
    let stages = [WorkStage::Teardown, WorkStage::Repair];
    with_work("work-done", &stages, |line| {
        line.state = LineState::Done;
        line.life.authorised = Some(consent(Some("2000.00")));
        line.life.done = Some(done());
    })
}

/// Every sample.
pub fn all() -> Vec<Sample> {
    vec![
        established(),
        authorised(),
        declined(),
        work_done(),
        probable(),
        open(),
        nothing_found(),
        mended(),
        technician(),
    ]
}
