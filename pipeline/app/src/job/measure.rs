//! Detect: every plugin looks at every recording, then at the job.

use super::acquire::Acquired;
use super::conditions;
use super::derive::Derived;
use model::case::{NotRun, PluginRecord};
use model::knowledge::Knowledge;
use model::limits_sheet::LimitsSheet;
use model::scan::LiveQuantity;
use model::{Capture, CodeStatus, Finding};
use plugin_host::{Analysis, Host};
use plugin_sdk::settings::{
    self, ChannelFacts, Code, LimitValue, LiveValue, PriorFinding, RecordedCapture, Settings,
};
use report::words::Words;

/// A job with what was measured.
pub struct Detected<'k> {
    /// The job before measuring.
    pub derived: Derived<'k>,
    /// Findings, with their ids and texts.
    pub findings: Vec<Finding>,
    /// Checks that did not run.
    pub not_run: Vec<NotRun>,
    /// Plugins that ran, by their ids.
    pub plugins: Vec<PluginRecord>,
}

/// Runs all analyzers.
pub fn detect<'k>(
    derived: Derived<'k>,
    knowledge: &Knowledge,
    host: &mut Host,
    localizer: &Words,
) -> Detected<'k> {
    let mut findings = Vec::new();
    let mut not_run: Vec<NotRun> = host.refused().iter().map(refused).collect();
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
        not_run.extend(analysis.not_run.into_iter().map(|n| NotRun {
            plugin: n.analyzer,
            file: n.capture,
            reason: n.reason.to_string(),
            kinds: n.kinds,
        }));
        findings.iter().map(seen).collect::<Vec<PriorFinding>>()
    };
    let limits = limits(&derived, knowledge);
    let mut so_far = Vec::new();
    for capture in &derived.acquired.captures {
        let settings = for_capture(capture, &derived.acquired, &limits);
        so_far = take_in(host.analyze_capture(capture, &|_| Some(settings.clone())));
    }
    let settings = for_job(so_far, &derived, &limits);
    take_in(host.analyze_job(&|_| Some(settings.clone())));
    let libraries = host.libraries().iter();
    let mut plugins: Vec<PluginRecord> = libraries
        .map(|l| PluginRecord {
            id: l.declaration.system.clone(),
            version: l.declaration.version.clone(),
            blake3: l.blake3.clone(),
        })
        .collect();
    plugins.sort_by(|a, b| a.id.cmp(&b.id));
    Detected {
        derived,
        findings,
        not_run,
        plugins,
    }
}

fn refused(library: &plugin_host::RefusedLibrary) -> NotRun {
    NotRun {
        plugin: library.path.display().to_string(),
        file: None,
        reason: library.reason.clone(),
        kinds: Vec::new(),
    }
}

/// Limits that the measurements are held against: those of the systems examined, then, for whatever else was recorded,
/// those of the others.
fn limits<'k>(derived: &Derived<'k>, knowledge: &'k Knowledge) -> Vec<&'k LimitsSheet> {
    let examined = derived.plan.examined.iter().map(|e| e.limits);
    let own = knowledge
        .systems
        .iter()
        .filter_map(|s| knowledge.limits_sheet(&s.sheet.name));
    examined.chain(own).collect()
}

fn for_capture(capture: &Capture, acquired: &Acquired, limits: &[&LimitsSheet]) -> Settings {
    let section = conditions::section(capture, acquired);
    let stated = conditions::stated(capture, acquired);
    let channels = capture
        .channels
        .iter()
        .filter(|c| c.role.is_some())
        .map(|c| {
            // The section's key may carry the unit; the hook-up found the channel by it, so search the same way.
            let said = section.and_then(|s| {
                s.channels
                    .iter()
                    .find(|(_, v)| {
                        v.role.is_some() && v.role.as_deref() == c.role.as_ref().map(|r| r.name())
                    })
                    .map(|(_, v)| v)
            });
            let role = c.role.as_ref().map_or("", |r| r.name());
            let teeth = format!("teeth-{role}");
            let from_sheet = limits.iter().find_map(|sheet| {
                let nominal = sheet.value.get(&teeth)?.nominal?;
                Some((nominal.round() as u32, sheet.name.clone()))
            });
            ChannelFacts {
                sensor: said.and_then(|s| s.sensor).map(sensor_word),
                teeth: said
                    .and_then(|s| s.teeth)
                    .or(from_sheet.as_ref().map(|s| s.0)),
                missing_teeth: said.and_then(|s| s.missing_teeth),
                accuracy_percent: said.and_then(|s| s.accuracy_percent),
                calibrated: c.calibrated(),
                teeth_source: said
                    .and_then(|s| s.teeth)
                    .map(|_| "job.toml".to_string())
                    .or(from_sheet.map(|s| s.1)),
            }
        });
    let word = |value: &str, source: &str| settings::Stated {
        value: value.into(),
        source: source.into(),
    };
    Settings {
        phase: stated.phase.map(|p| phase_word(p).into()),
        selector: stated.selector.map(|s| word(s.value.letter(), &s.source)),
        engine: stated.engine.map(|s| word(s.value.word(), &s.source)),
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
                status: c.status.iter().map(|s| status_word(*s).into()).collect(),
                module: c.module.clone(),
                file: c.file.clone(),
            })
            .collect(),
        recorded: acquired
            .captures
            .iter()
            .zip(&derived.conditions)
            .map(|(c, stated)| RecordedCapture {
                file: c.file.clone(),
                phase: stated.phase.map(|p| phase_word(p).into()),
                roles: c
                    .channels
                    .iter()
                    .filter_map(|ch| Some(ch.role.as_ref()?.name().into()))
                    .collect(),
            })
            .collect(),
        live: live(acquired),
        ..common(limits)
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
                quantity: quantity_word(i.quantity?).into(),
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

fn phase_word(p: model::job_file::Phase) -> &'static str {
    match p {
        model::job_file::Phase::Before => "before",
        model::job_file::Phase::After => "after",
    }
}

fn sensor_word(s: model::SensorKind) -> String {
    match s {
        model::SensorKind::Hall => "hall",
        model::SensorKind::Vr => "vr",
        model::SensorKind::CurrentLoop => "current-loop",
    }
    .into()
}

fn status_word(s: CodeStatus) -> &'static str {
    match s {
        CodeStatus::Active => "active",
        CodeStatus::Pending => "pending",
        CodeStatus::Confirmed => "confirmed",
        CodeStatus::Permanent => "permanent",
        CodeStatus::History => "history",
        CodeStatus::NotTested => "not-tested",
    }
}

fn quantity_word(q: LiveQuantity) -> &'static str {
    match q {
        LiveQuantity::EngineSpeed => "engine-speed",
        LiveQuantity::SelectorPosition => "selector-position",
        LiveQuantity::ModuleVoltage => "module-voltage",
        LiveQuantity::VehicleSpeed => "vehicle-speed",
        LiveQuantity::CoolantTemperature => "coolant-temperature",
    }
}
