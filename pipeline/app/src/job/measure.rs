//! Detect: every plugin looks at every recording, then at the job.

use super::acquire::Acquired;
use super::derive::{Derived, StatedFacts};
use super::learned::{LearnedLimits, Sheets};
use model::case::{NotRun, PluginRecord};
use model::knowledge::{Examined, Knowledge, Plan};
use model::limits_sheet::LimitsSheet;
use model::{Capture, Finding};
use plugin_host::{Analysis, Host, LibraryInfo};
use plugin_sdk::Series;
use plugin_sdk::derived::speed_track;
use plugin_sdk::settings::{
    self, ChannelFacts, Code, LimitValue, LiveValue, PriorFinding, RecordedCapture, Settings,
};
use report::SpeedCurve;
use report::localizer::Localizer;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;

/// A job with what was measured.
pub struct Detected<'k> {
    /// The job before measuring.
    pub derived: Derived<'k>,
    /// Findings, with their ids and texts.
    pub findings: Vec<Finding>,
    /// Checks that did not run.
    pub not_run: Vec<NotRun>,
    /// True where one of them may run another time.
    pub is_due_again: bool,
    /// Plugins that ran, by their ids.
    pub plugins: Vec<PluginRecord>,
    /// Speeds over time that were derived, for the pictures.
    pub speeds: Vec<SpeedCurve>,
}

/// Runs all analyzers.
pub fn detect<'k>(
    derived: Derived<'k>,
    (knowledge, learned): (&Knowledge, &LearnedLimits<'_>),
    host: &mut Host,
    localizer: &Localizer,
) -> Detected<'k> {
    let mut findings = Vec::new();
    let mut not_run: Vec<NotRun> = host.refused().iter().map(refused).collect();
    let mut is_due_again = host.refused().iter().any(|r| r.transient);
    if host.libraries().is_empty() {
        not_run.insert(0, NotRun {
            plugin: "all".into(),
            file: None,
            reason: "no analysis plugin was found: reinstall, or name their folder in BAYBRIEF_PLUGINS or in shop.toml ([plugins] folders)".into(),
            kinds: Vec::new(),
        });
    }
    // A role that was not recorded is said by the case's channels; only a check that should have run is "not run".
    let mut take_in = |analysis: Analysis| {
        for mut finding in analysis.findings {
            finding.id = format!("f{}", findings.len() + 1);
            finding.text = localizer.finding(&finding);
            findings.push(finding);
        }
        is_due_again |= analysis.not_run.iter().any(|n| n.transient);
        not_run.extend(analysis.not_run.into_iter().map(|n| NotRun {
            plugin: n.analyzer,
            file: n.capture,
            reason: n.reason.to_string(),
            kinds: n.kinds,
        }));
        findings.iter().map(seen).collect::<Vec<PriorFinding>>()
    };
    let (mut so_far, mut speeds) = (Vec::new(), Vec::new());
    for (capture, stated) in derived.acquired.captures.iter().zip(&derived.stated) {
        let engine = stated.conditions.engine.as_ref().map(|e| e.value);
        let sheets = learned.sheets(&derived, engine);
        let settings = |library: &LibraryInfo| {
            let limits = limits(library, Some(capture), &derived.plan, (knowledge, &sheets))?;
            Some(for_capture(capture, stated, &derived.acquired, &limits))
        };
        let analysis = host.analyze_capture(capture, &settings);
        speeds.extend(speed_curves(capture, &analysis.series));
        so_far = take_in(analysis);
    }
    let sheets = learned.sheets_of_job(&derived);
    let settings = |library: &LibraryInfo| {
        let limits = limits(library, None, &derived.plan, (knowledge, &sheets))?;
        Some(for_job(so_far.clone(), &derived, &limits))
    };
    take_in(host.analyze_job(&settings));
    let libraries = host.libraries().iter();
    let mut plugins: Vec<PluginRecord> = libraries
        .map(|l| PluginRecord {
            id: l.declaration.system.clone(),
            version: l.declaration.version.clone(),
            sha256: l.sha256.clone(),
        })
        .collect();
    plugins.sort_by(|a, b| a.id.cmp(&b.id));
    Detected {
        derived,
        findings,
        not_run,
        is_due_again,
        plugins,
        speeds,
    }
}

/// Derives the speeds of one recording of a job, whose other recordings may be left out: only the libraries that belong
/// to no system run.
pub fn derive_speeds(
    derived: &Derived<'_>,
    file: &str,
    knowledge: &Knowledge,
    host: &mut Host,
) -> Vec<SpeedCurve> {
    let captures = derived.acquired.captures.iter().zip(&derived.stated);
    let Some((capture, stated)) = captures.into_iter().find(|(c, _)| c.file == file) else {
        return Vec::new();
    };
    let nothing_learned = Sheets::default();
    let settings = |library: &LibraryInfo| {
        if knowledge.system(&library.declaration.system).is_some() {
            return None;
        }
        let known = (knowledge, &nothing_learned);
        let limits = limits(library, Some(capture), &derived.plan, known)?;
        Some(for_capture(capture, stated, &derived.acquired, &limits))
    };
    let analysis = host.analyze_capture(capture, &settings);
    speed_curves(capture, &analysis.series).collect()
}

/// Speeds of the channels of a recording; series count the channels that have a role.
fn speed_curves<'a>(
    capture: &'a Capture,
    series: &'a [Series],
) -> impl Iterator<Item = SpeedCurve> + 'a {
    let roles = capture.channels.iter().filter_map(|c| c.role.as_ref());
    (0..).zip(roles).filter_map(|(number, role)| {
        let track = speed_track(series, number)?;
        Some(SpeedCurve {
            file: capture.file.clone(),
            role: role.name().into(),
            unit: if track.is_rpm { "rpm" } else { "Hz" },
            start_s: track.grid.start_s,
            step_s: track.grid.step_s,
            values: track.values,
        })
    })
}

fn refused(library: &plugin_host::RefusedLibrary) -> NotRun {
    NotRun {
        plugin: library.path.display().to_string(),
        file: None,
        reason: library.reason.clone(),
        kinds: Vec::new(),
    }
}

/// Limits that a library holds its measurements against; `None` for the library of a system that is not examined. One
/// that declares no system of its own gets those of all that are examined, of the capture's own systems first. What was
/// learned of a unit comes before its sheet.
fn limits<'l>(
    library: &LibraryInfo,
    capture: Option<&Capture>,
    plan: &Plan<'l>,
    (knowledge, learned): (&Knowledge, &'l Sheets),
) -> Option<Vec<&'l LimitsSheet>> {
    let own = &library.declaration.system;
    let examined = plan.examined.iter();
    let wanted: Vec<&Examined<'l>> = match knowledge.system(own) {
        Some(_) => {
            let mut own = examined.filter(|e| e.system.sheet.name == *own);
            vec![own.next()?]
        }
        None => {
            let has_role = |name: &str| {
                let mut channels = capture.iter().flat_map(|c| &c.channels);
                channels.any(|ch| ch.role.as_ref().is_some_and(|r| r.name() == name))
            };
            let (own, others): (Vec<_>, Vec<_>) =
                examined.partition(|e| e.system.sheet.roles.iter().any(|r| has_role(&r.name)));
            own.into_iter().chain(others).collect()
        }
    };
    let sheets = wanted.into_iter().flat_map(|e| {
        let learned = learned.get(&e.system.sheet.name);
        learned.into_iter().chain([e.limits])
    });
    Some(sheets.collect())
}

fn for_capture(
    capture: &Capture,
    stated: &StatedFacts,
    acquired: &Acquired,
    limits: &[&LimitsSheet],
) -> Settings {
    let channels = capture.channels.iter().zip(&stated.channels);
    let channels = channels.filter_map(|(channel, said)| {
        let role = channel.role.as_ref()?;
        let teeth = format!("teeth-{}", role.name());
        let from_sheet = limits.iter().find_map(|sheet| {
            let nominal = sheet.value.get(&teeth)?.nominal?;
            Some((nominal.round() as u32, sheet.name.clone()))
        });
        let from_job = said.teeth.map(|n| (n, "job.toml".to_owned()));
        let (teeth, teeth_source) = from_job.or(from_sheet).unzip();
        Some(ChannelFacts {
            sensor: said.sensor.map(word_of),
            teeth,
            missing_teeth: said.missing_teeth,
            accuracy_percent: said.accuracy_percent,
            calibrated: channel.calibrated(),
            teeth_source,
        })
    });
    let conditions = &stated.conditions;
    let word = |value: &str, source: &str| settings::Stated {
        value: value.into(),
        source: source.into(),
    };
    Settings {
        phase: conditions.phase.map(word_of),
        selector: (conditions.selector.as_ref()).map(|s| word(s.value.letter(), &s.source)),
        engine: (conditions.engine.as_ref()).map(|s| word(s.value.into(), &s.source)),
        state: conditions.state.map(word_of),
        unit: unit(acquired),
        channels: channels.collect(),
        live: live(acquired),
        ..common(limits)
    }
}

fn for_job(
    findings: Vec<PriorFinding>,
    derived: &Derived<'_>,
    limits: &[&LimitsSheet],
) -> Settings {
    let acquired = &derived.acquired;
    Settings {
        findings,
        codes: acquired
            .scans
            .iter()
            .flat_map(|s| &s.codes)
            .map(|c| Code {
                code: c.code.clone(),
                failure_type: c.failure_type.clone(),
                status: c.status.iter().map(word_of).collect(),
                module: c.module.clone(),
                file: c.file.clone(),
            })
            .collect(),
        recorded: acquired
            .captures
            .iter()
            .zip(&derived.stated)
            .map(|(c, stated)| RecordedCapture {
                file: c.file.clone(),
                phase: stated.conditions.phase.map(word_of),
                roles: c
                    .channels
                    .iter()
                    .filter_map(|ch| Some(ch.role.as_ref()?.name().into()))
                    .collect(),
            })
            .collect(),
        unit: unit(acquired),
        live: live(acquired),
        ..common(limits)
    }
}

/// Facts of the unit that job.toml states, by name.
fn unit(acquired: &Acquired) -> BTreeMap<String, Value> {
    let stated = acquired.job.as_ref().map(|job| &job.unit);
    match stated.map(serde_json::to_value) {
        Some(Ok(Value::Object(facts))) => facts.into_iter().collect(),
        _ => BTreeMap::new(),
    }
}

/// Values of the sheets; of two of one name the first counts.
fn common(limits: &[&LimitsSheet]) -> Settings {
    let mut settings = Settings::default();
    for sheet in limits {
        for (name, v) in &sheet.value {
            let value = || LimitValue {
                nominal: v.nominal,
                low: v.low,
                high: v.high,
                unit: v.unit.clone(),
                source: format!("limits sheet {}: {}", sheet.name, v.source),
            };
            settings.limits.entry(name.clone()).or_insert_with(value);
        }
        let gears = settings.tables.entry("gear".into()).or_default();
        for (name, gear) in &sheet.gear {
            if let Ok(row) = serde_json::to_value(gear) {
                gears.entry(name.clone()).or_insert(row);
            }
        }
    }
    settings
}

fn live(acquired: &Acquired) -> Vec<LiveValue> {
    let items = acquired.scans.iter().flat_map(|s| &s.live);
    items
        .filter_map(|i| {
            Some(LiveValue {
                quantity: word_of(i.quantity?),
                value: i.value,
                text: i.text.clone(),
                file: i.file.clone(),
            })
        })
        .collect()
}

fn seen(f: &Finding) -> PriorFinding {
    PriorFinding {
        id: f.id.clone(),
        plugin: f.plugin.clone(),
        file: f.file.clone(),
        observation: f.observation.clone(),
    }
}

/// Word of a plain value, as case.json has it.
fn word_of(value: impl Serialize) -> String {
    match serde_json::to_value(value) {
        Ok(Value::String(word)) => word,
        _ => String::new(),
    }
}
