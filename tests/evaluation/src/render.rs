//! Renders a draft as files: dialects, names, a scan text, a job.toml that may lack things.

use crate::dialect::{dialect, spoil};
use crate::draft::{Capture, Draft, FileKind};
use crate::params::{Params, fnv1a};
use crate::truth::{SCHEMA, TrueCode, Truth};
use chrono::NaiveDate;
use model::job_file::{
    CaptureSection, ConcernSection, CustomerSection, JobSection, VehicleSection,
};
use model::{JobFile, SensorKind};
use simulator::csv::{Encoding, TimeStyle, TimeUnit};
use simulator::folder::JobFolder;
use simulator::scan_text::{ScanLayout, ScanReport};
use simulator::scan_words::{CodeState, Language};
use simulator::vin::with_check_digit;
use simulator::wav::WavSamples;
use std::collections::BTreeMap;

/// A case: a job folder and what is true of it.
#[derive(Debug, Clone)]
pub struct Case {
    /// Name of the folder.
    pub name: String,
    /// Its files.
    pub folder: JobFolder,
    /// Its truth.
    pub truth: Truth,
}

impl Case {
    /// Digest of the files' names and bytes (FNV-1a, 64 bits): tells one case from another, nothing more.
    pub fn digest(&self) -> u64 {
        let files = self.folder.files.iter();
        let bytes = files.flat_map(|(name, bytes)| name.as_bytes().iter().chain(bytes));
        fnv1a(bytes.copied())
    }
}

/// Keys that job.toml may leave out.
const KEYS: [&str; 6] = ["selector", "engine", "teeth", "sensor", "scale", "roles"];

/// Renders a draft.
pub fn render(name: &str, class: &str, draft: Draft, p: &mut Params) -> Case {
    let lacks = lacking(&draft, p);
    let has_job_file = lacks.len() < KEYS.len();
    let level = p.drawn().iter().find(|d| d.name == "noise level");
    let mut folder = JobFolder::default();
    let mut truth = Truth {
        schema: SCHEMA.into(),
        case: name.into(),
        class: class.into(),
        verdict: draft.verdict,
        notes: draft.notes,
        job_file: if !has_job_file {
            "none"
        } else if lacks.is_empty() {
            "full"
        } else {
            "partial"
        }
        .into(),
        job_file_lacks: lacks.iter().map(|k| k.to_string()).collect(),
        noise_level: level.and_then(|d| d.value.parse().ok()).unwrap_or(1),
        true_cause: draft.true_cause,
        untested_causes: draft.untested,
        ..Default::default()
    };
    if !lacks.is_empty() && !truth.verdict.states.contains(&"open".to_string()) {
        truth.verdict.states.push("open".into());
        truth.notes.push(format!(
            "job.toml lacks {}: 'open' is tolerated",
            lacks.join(", ")
        ));
    }
    let has_coils = |c: &Capture| {
        let mut channels = c.recording.channels.iter();
        channels
            .any(|c| c.role.starts_with("input-shaft") && c.section.sensor == Some(SensorKind::Vr))
    };
    let drags = truth.verdict.causes.iter().any(|c| c.ends_with("-drag"));
    let may_be_open = truth.verdict.states.contains(&"open".to_string());
    if drags && !may_be_open && draft.captures.iter().any(has_coils) {
        truth.verdict.states.push("open".into());
        truth.notes.push(
            "coils beside an engine that idles steadily: nothing parts rotation from pick-up, 'open' is tolerated".into(),
        );
    }
    let stall = draft
        .captures
        .iter()
        .flat_map(|s| &s.measures)
        .any(|m| m.kinds.iter().any(|k| k == "actuation-stall"));
    if stall && lacks.contains(&"roles") {
        let lesser = ["actuation-jam", "clutch-actuator-jam"].map(String::from);
        truth.verdict.causes.extend(lesser);
        truth.verdict.causes.sort();
        truth.verdict.causes.dedup();
        truth
            .notes
            .push("without roles a jam is a true answer, though not the whole one".into());
    }
    let mut sections = Vec::new();
    let count = draft.captures.len();
    let live = live_data(&draft.captures[0], draft.live);
    for (i, capture) in draft.captures.into_iter().enumerate() {
        let section = add_capture(&mut folder, &mut truth, capture, (i, count), &lacks, p);
        sections.push(section);
    }
    let vin = vin(p);
    let (month, day) = (p.whole("month", 1, 10), p.whole("day", 1, 28));
    let day = NaiveDate::from_ymd_opt(2026, month as u32, day as u32);
    let odometer_km = p.whole("odometer", 30_000, 240_999) as u32;
    let report = ScanReport {
        vin: vin.clone(),
        date: day.map(|d| d.to_string()).unwrap_or_default(),
        odometer_km,
        codes: draft.codes,
        engine_rpm: live.0,
        selector: live.1,
        voltage: Some(p.between("scan voltage", 12.1, 14.4)),
    };
    if draft.scan {
        add_scan(&mut folder, &mut truth, &report, p);
    }
    truth.codes.extend(draft.beside_codes);
    folder.files.extend(draft.beside);
    if has_job_file {
        let job = JobFile {
            job: JobSection {
                number: Some(name.into()),
                opened: day,
                technician: Some("Robin Example".into()),
                ..Default::default()
            },
            customer: CustomerSection {
                name: Some("Example customer".into()),
                ..Default::default()
            },
            vehicle: VehicleSection {
                vin: Some(vin),
                make: Some("Invented make".into()),
                model: Some("Evaluation".into()),
                year: Some(2015 + p.whole("year", 0, 8) as u16),
                odometer_km: Some(odometer_km as f64),
                unit: Some(draft.unit.into()),
                ..Default::default()
            },
            concern: ConcernSection {
                text: Some(draft.concern.into()),
            },
            captures: sections,
            ..Default::default()
        };
        if let Err(e) = folder.add_job_file(&job) {
            truth
                .notes
                .push(format!("job.toml could not be written: {e}"));
        }
    }
    truth.parameters = p.drawn().to_vec();
    Case {
        name: name.into(),
        folder,
        truth,
    }
}

/// Keys that job.toml leaves out: nothing, a few keys, or everything.
fn lacking(draft: &Draft, p: &mut Params) -> Vec<&'static str> {
    if !draft.may_lack || p.chance("complete job file", 0.72) {
        return Vec::new();
    }
    if p.chance("no job file", 0.45) {
        return KEYS.to_vec();
    }
    let some = [
        KEYS[..2].to_vec(),
        vec!["teeth", "sensor"],
        vec!["scale"],
        vec!["roles"],
    ];
    p.pick("job file lacks", &some)
}

fn live_data(capture: &Capture, told: bool) -> (Option<f64>, Option<char>) {
    use model::job_file::EngineState::Running;
    let rpm = match capture.engine {
        _ if !told => None,
        Some(Running) => Some(785.0),
        Some(_) => Some(0.0),
        None => None,
    };
    (
        rpm,
        capture
            .selector
            .filter(|_| told)
            .and_then(|s| s.letter().chars().next()),
    )
}

/// Writes a recording and takes out of the truth what cannot be known without what job.toml lacks.
fn add_capture(
    folder: &mut JobFolder,
    truth: &mut Truth,
    mut capture: Capture,
    (index, count): (usize, usize),
    lacks: &[&str],
    p: &mut Params,
) -> CaptureSection {
    let stems = ["record", "test 1", "mesure", "Messung 04", "shop recording"];
    let stem = match (count, index) {
        (1, _) => p.pick("file name", &stems),
        (_, 0) => "first visit",
        _ => "second visit",
    };
    // A WAVE file has no names: without job.toml nothing in it could be told.
    let can_be_wav = capture.file == FileKind::Any && lacks.is_empty() && p.chance("WAVE", 0.3);
    let ending = p.pick("ending", &["csv", "csv", "txt"]);
    let file = format!("{stem}.{}", if can_be_wav { "wav" } else { ending });
    let mut section = if can_be_wav {
        let kinds = [WavSamples::Int16, WavSamples::Int24, WavSamples::Float32];
        let section = folder.add_wav(&file, &capture.recording, p.pick("WAVE samples", &kinds));
        // The first sample of a WAVE file lies at 0 s.
        shift(&mut capture);
        section
    } else if let FileKind::Edges(channels) = &capture.file {
        folder.add_edges(&file, &capture.recording, channels)
    } else {
        let dialect = dialect(p, &capture.recording, &capture.file);
        // A clock starts a recording at the time of day, so that times in the file begin at 0 s.
        if dialect.time.is_none() || dialect.time_style == TimeStyle::CounterAndClock {
            shift(&mut capture);
        }
        spoil(&mut capture.recording, &dialect, p);
        folder.add_csv(&file, &capture.recording, &dialect)
    };
    // A file whose unit of time must be asked for may be held back.
    let mut asks = false;
    if let FileKind::Time(style, is) = &capture.file {
        section.time_unit = is.stated;
        let seconds = is.unit == TimeUnit::Seconds;
        asks = is.stated.is_none() && !seconds;
        if *style == TimeStyle::Bare && seconds {
            truth
                .messages
                .push((file.clone(), "taken as seconds".into()));
        }
    }
    if !asks {
        truth.readable.push(file.clone());
    }
    section.phase = capture.phase;
    section.selector = capture.selector.filter(|_| !lacks.contains(&"selector"));
    section.engine = capture.engine.filter(|_| !lacks.contains(&"engine"));
    for channel in section.channels.values_mut() {
        for key in lacks {
            match *key {
                "teeth" => (channel.teeth, channel.missing_teeth) = (None, None),
                "sensor" => channel.sensor = None,
                "scale" => channel.amps_per_volt = None,
                "roles" => channel.role = None,
                _ => {}
            }
        }
    }
    section.channels.retain(|_, c| *c != Default::default());
    let in_amperes = capture.recording.channels.iter().any(|c| c.unit == "A");
    let scale = in_amperes || !lacks.contains(&"scale");
    // Nothing can be measured on a channel of which nobody knows what it is.
    let known = capture.telling_names || !lacks.contains(&"roles");
    let measures = capture.measures.into_iter().filter(|_| known);
    for mut m in measures {
        // A shift is a change of speeds.
        if lacks.contains(&"teeth") && m.kinds.iter().any(|k| k == "shift") {
            continue;
        }
        m.file = file.clone();
        let wanted = |unit: &str| match unit {
            "A" | "ohm" => scale,
            "rpm" | "1" => !lacks.contains(&"teeth"),
            _ => true,
        };
        m.fields.retain(|_, w| w.unit.as_deref().is_none_or(wanted));
        if !m.fields.is_empty() {
            truth.measures.push(m);
        }
    }
    for mut f in capture.forbidden {
        f.file = file.clone();
        truth.forbidden_findings.push(f);
    }
    section
}

/// Moves all times of a capture's truth so that its first sample lies at 0 s.
fn shift(capture: &mut Capture) {
    let by_s = -capture.recording.start_s;
    for m in &mut capture.measures {
        if let Some(span) = &mut m.span {
            span.iter_mut().for_each(|t| *t += by_s);
        }
        for (name, wanted) in &mut m.fields {
            if matches!(name.as_str(), "start_s" | "end_s" | "time") {
                wanted.v = wanted.v.map(|t| t + by_s);
            }
        }
    }
}

/// A number that is plainly an example: it begins with the letters EXAMPLE.
fn vin(p: &mut Params) -> String {
    let letters = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'J', 'K'];
    let text = format!(
        "EXAMPLE{}0{}EV{:05}",
        p.pick("vehicle number", &letters),
        p.pick("vehicle number", &letters),
        p.whole("serial number", 0, 99_999)
    );
    with_check_digit(&text).unwrap_or(text)
}

fn add_scan(folder: &mut JobFolder, truth: &mut Truth, report: &ScanReport, p: &mut Params) {
    let layout = p.pick("scan layout", &ScanLayout::ALL);
    let languages = [
        Language::English,
        Language::German,
        Language::French,
        Language::Spanish,
    ];
    let language = p.pick("scan language", &languages);
    let names = ["scan.txt", "codes.txt", "module query.txt"];
    let file = p.pick("scan file", &names).to_string();
    let encodings = [Encoding::Utf8, Encoding::Utf8Mark, Encoding::Latin1];
    let encoding = p.pick("scan encoding", &encodings);
    folder.files.insert(
        file.clone(),
        encoding.encode(&layout.write(report, language)),
    );
    truth.readable.push(file.clone());
    truth.codes = report
        .codes
        .iter()
        .map(|c| TrueCode {
            code: c.code.into(),
            failure_type: c
                .failure_type
                .filter(|_| layout.shows_failure_types())
                .map(String::from),
            status: status_words(layout, c.state),
            module: Some(c.module.into()),
            file: file.clone(),
        })
        .collect();
}

fn status_words(layout: ScanLayout, state: CodeState) -> Vec<String> {
    let words: BTreeMap<&str, ()> = if layout.shows_bytes() {
        state.names_of_byte().iter().map(|w| (*w, ())).collect()
    } else {
        BTreeMap::from([(state.name(), ())])
    };
    words.into_keys().map(String::from).collect()
}
