//! Puts a draft into files: dialects, names, a scan text, a job.toml that may lack things.

use crate::dialect::{dialect, spoil};
use crate::draft::{Draft, Shot};
use crate::truth::{SCHEMA, TrueCode, Truth};
use chrono::NaiveDate;
use model::JobFile;
use model::job_file::{
    CaptureSection, ConcernSection, CustomerSection, JobSection, VehicleSection,
};
use simulator::csv::Encoding;
use simulator::folder::JobFolder;
use simulator::noise::Noise;
use simulator::scan_text::{ScanLayout, ScanReport};
use simulator::scan_words::{CodeState, Language};
use simulator::vin::with_check_digit;
use simulator::wav::WavSamples;
use std::collections::BTreeMap;

/// A case: a job folder and what is true of it.
#[derive(Debug, Clone)]
pub struct Case {
    /// The folder's name.
    pub name: String,
    /// Its files.
    pub folder: JobFolder,
    /// What is true of it.
    pub truth: Truth,
}

/// What job.toml may leave out.
const KEYS: [&str; 6] = ["selector", "engine", "teeth", "sensor", "scale", "roles"];

/// Puts a draft into files.
pub fn dress(name: &str, class: &str, level: usize, draft: Draft, dice: &mut Noise) -> Case {
    let lacks = lacking(&draft, dice);
    let has_job_file = lacks.len() < KEYS.len();
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
        noise_level: level,
        true_cause: draft.true_cause,
        ..Default::default()
    };
    if !lacks.is_empty() && !truth.verdict.states.contains(&"open".to_string()) {
        truth.verdict.states.push("open".into());
        truth.notes.push(format!(
            "job.toml lacks {}: 'open' is tolerated",
            lacks.join(", ")
        ));
    }
    let stall = draft
        .shots
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
    let count = draft.shots.len();
    let live = live_data(&draft.shots[0], draft.live);
    for (i, shot) in draft.shots.into_iter().enumerate() {
        let section = add_shot(&mut folder, &mut truth, shot, i, count, &lacks, dice);
        sections.push(section);
    }
    let vin = vin(dice);
    let day = NaiveDate::from_ymd_opt(2026, dice.whole(1, 10) as u32, dice.whole(1, 28) as u32);
    let odometer_km = dice.whole(30, 240) as u32 * 1000 + dice.whole(0, 999) as u32;
    let report = ScanReport {
        vin: vin.clone(),
        date: day.map(|d| d.to_string()).unwrap_or_default(),
        odometer_km,
        codes: draft.codes,
        engine_rpm: live.0,
        selector: live.1,
        voltage: Some(dice.between(12.1, 14.4)),
    };
    add_scan(&mut folder, &mut truth, &report, dice);
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
                model: Some("Casebook".into()),
                year: Some(2015 + dice.whole(0, 8) as u16),
                odometer_km: Some(odometer_km as f64),
                unit: Some("dual-dry-clutch".into()),
                ..Default::default()
            },
            concern: ConcernSection {
                text: Some("Invented complaint.".into()),
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
    Case {
        name: name.into(),
        folder,
        truth,
    }
}

/// What job.toml leaves out: nothing, a few keys, or everything.
fn lacking(draft: &Draft, dice: &mut Noise) -> Vec<&'static str> {
    if !draft.may_lack || dice.chance(0.72) {
        return Vec::new();
    }
    if dice.chance(0.45) {
        return KEYS.to_vec();
    }
    let some = [
        KEYS[..2].to_vec(),
        vec!["teeth", "sensor"],
        vec!["scale"],
        vec!["roles"],
    ];
    dice.pick(&some).clone()
}

fn live_data(shot: &Shot, told: bool) -> (Option<f64>, Option<char>) {
    use model::job_file::EngineState::Running;
    let rpm = match shot.engine {
        _ if !told => None,
        Some(Running) => Some(785.0),
        Some(_) => Some(0.0),
        None => None,
    };
    (
        rpm,
        shot.selector
            .filter(|_| told)
            .and_then(|s| s.letter().chars().next()),
    )
}

/// Writes a recording and takes out of the truth what cannot be known without what job.toml lacks.
fn add_shot(
    folder: &mut JobFolder,
    truth: &mut Truth,
    mut shot: Shot,
    index: usize,
    count: usize,
    lacks: &[&str],
    dice: &mut Noise,
) -> CaptureSection {
    let stem = match (count, index) {
        (1, _) => *dice.pick(&["record", "test 1", "mesure", "Messung 04", "shop recording"]),
        (_, 0) => "first visit",
        _ => "second visit",
    };
    // A WAVE file has no names: without job.toml nothing in it could be told.
    let can_be_wav = lacks.is_empty() && dice.chance(0.3);
    let (file, mut section) = if can_be_wav {
        let file = format!("{stem}.wav");
        let samples = *dice.pick(&[WavSamples::Int16, WavSamples::Int24, WavSamples::Float32]);
        let section = folder.add_wav(&file, &shot.recording, samples);
        // The first sample of a WAVE file lies at 0 s.
        shift(&mut shot);
        (file, section)
    } else {
        let file = format!("{stem}.{}", dice.pick(&["csv", "csv", "txt"]));
        let dialect = dialect(dice, &shot.recording);
        if dialect.time.is_none() {
            shift(&mut shot);
        }
        spoil(&mut shot.recording, &dialect, dice);
        let section = folder.add_csv(&file, &shot.recording, &dialect);
        (file, section)
    };
    section.phase = shot.phase;
    section.selector = shot.selector.filter(|_| !lacks.contains(&"selector"));
    section.engine = shot.engine.filter(|_| !lacks.contains(&"engine"));
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
    let in_amperes = shot.recording.channels.iter().any(|c| c.unit == "A");
    let scale = in_amperes || !lacks.contains(&"scale");
    // Nothing can be measured on a channel of which nobody knows what it is.
    let known = shot.telling_names || !lacks.contains(&"roles");
    let measures = shot.measures.into_iter().filter(|_| known);
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
    for mut f in shot.forbidden {
        f.file = file.clone();
        truth.forbidden_findings.push(f);
    }
    section
}

/// Moves all times of a shot's truth so that its first sample lies at 0 s.
fn shift(shot: &mut Shot) {
    let by_s = -shot.recording.start_s;
    for m in &mut shot.measures {
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
fn vin(dice: &mut Noise) -> String {
    let letters = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'J', 'K'];
    let text = format!(
        "EXAMPLE{}0{}CB{:05}",
        dice.pick(&letters),
        dice.pick(&letters),
        dice.whole(0, 99_999)
    );
    with_check_digit(&text).unwrap_or(text)
}

fn add_scan(folder: &mut JobFolder, truth: &mut Truth, report: &ScanReport, dice: &mut Noise) {
    let layout = *dice.pick(&ScanLayout::ALL);
    let languages = [
        Language::English,
        Language::German,
        Language::French,
        Language::Spanish,
    ];
    let language = *dice.pick(&languages);
    let file = dice
        .pick(&["scan.txt", "codes.txt", "module query.txt"])
        .to_string();
    let encoding = *dice.pick(&[Encoding::Utf8, Encoding::Utf8Mark, Encoding::Latin1]);
    folder.files.insert(
        file.clone(),
        encoding.encode(&layout.write(report, language)),
    );
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
