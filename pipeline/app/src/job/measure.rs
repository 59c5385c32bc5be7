//! Detect: every plugin looks at every recording, then at the job.

use super::acquire::Acquired;
use super::conditions;
use super::derive::Derived;
use model::case::{NotRun, PluginRecord};
use model::knowledge::Knowledge;
use model::limits_sheet::LimitsSheet;
use model::scan::LiveQuantity;
use model::{Capture, CodeStatus, Finding};
use plugin_host::{AnalyzeError, Host, Scope};
use plugin_sdk::settings::{
    self, ChannelFacts, Code, Gear, Live, Recorded, Seen, Settings, SpecNumber,
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

/// Runs all plugins.
pub fn detect<'k>(
    derived: Derived<'k>,
    knowledge: &Knowledge,
    host: &mut Host,
    localizer: &Words,
) -> Detected<'k> {
    let mut findings = Vec::new();
    let mut not_run: Vec<NotRun> = host.refused().iter().map(refused).collect();
    if host.plugins().is_empty() {
        not_run.insert(0, NotRun {
            plugin: "all".into(),
            file: None,
            reason: "no analysis plugin was found: reinstall, or name their folder in BAYBRIEF_PLUGINS or in shop.toml ([plugins] folders)".into(),
            kinds: Vec::new(),
        });
    }
    let plugins: Vec<(usize, Scope, String)> = host
        .plugins()
        .iter()
        .enumerate()
        .map(|(i, p)| (i, p.scope, p.id.clone()))
        .collect();
    let mut keep = |plugin: &str, file: Option<&str>, result: Result<Vec<Finding>, AnalyzeError>| {
        match result {
            Ok(new) => findings.extend(new),
            // Findings count only when the plugin came to its end.
            Err(e) => not_run.push(NotRun {
                plugin: plugin.into(),
                file: file.map(Into::into),
                reason: e.to_string(),
                kinds: Vec::new(),
            }),
        }
        number(&mut findings);
        findings.iter().map(seen).collect::<Vec<Seen>>()
    };
    let limits = limits(&derived, knowledge);
    let mut so_far = Vec::new();
    for capture in &derived.acquired.captures {
        let settings = for_capture(capture, &derived.acquired, &limits);
        // Not recorded is said by the case's channels; only a check that should have run is "not run".
        for (i, result) in host.analyze_all(capture, &settings) {
            so_far = keep(&plugins[i].2, Some(&capture.file), result);
        }
    }
    let settings = for_job(so_far, &derived, &limits);
    for (i, _, id) in plugins.iter().filter(|p| p.1 == Scope::Job) {
        keep(id, None, host.analyze(*i, None, &settings));
    }
    for finding in &mut findings {
        finding.text = localizer.finding(finding);
    }
    let mut plugins: Vec<PluginRecord> = host
        .plugins()
        .iter()
        .map(|p| PluginRecord {
            id: p.id.clone(),
            version: p.version.clone(),
            blake3: p.blake3.clone(),
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

fn number(findings: &mut [Finding]) {
    for (i, finding) in findings.iter_mut().enumerate() {
        finding.id = format!("f{}", i + 1);
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

fn for_capture(capture: &Capture, acquired: &Acquired, limits: &[&LimitsSheet]) -> String {
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
                calibrated: c.calibrated,
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
    json(&Settings {
        phase: stated.phase.map(|p| phase_word(p).into()),
        selector: stated.selector.map(|s| word(s.value.letter(), &s.source)),
        engine: stated.engine.map(|s| word(s.value.word(), &s.source)),
        channels: channels.collect(),
        live: live(acquired),
        ..common(limits)
    })
}

fn for_job(findings: Vec<Seen>, derived: &Derived<'_>, limits: &[&LimitsSheet]) -> String {
    let acquired = &derived.acquired;
    json(&Settings {
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
            .map(|(c, stated)| Recorded {
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
    })
}

/// Numbers of the sheets; of two of one name the first counts.
fn common(limits: &[&LimitsSheet]) -> Settings {
    let mut settings = Settings::default();
    for sheet in limits {
        for (name, v) in &sheet.value {
            settings
                .spec
                .entry(name.clone())
                .or_insert_with(|| SpecNumber {
                    nominal: v.nominal,
                    low: v.low,
                    high: v.high,
                    unit: v.unit.clone(),
                    source: format!("limits sheet {}: {}", sheet.name, v.source),
                });
        }
        for (name, g) in &sheet.gear {
            settings.gears.entry(name.clone()).or_insert_with(|| Gear {
                shaft: g.shaft,
                ratio: g.ratio,
                source: g.source.clone(),
            });
        }
    }
    settings
}

fn live(acquired: &Acquired) -> Vec<Live> {
    let items = acquired.scans.iter().flat_map(|s| &s.live);
    items
        .filter_map(|i| {
            Some(Live {
                quantity: quantity_word(i.quantity?).into(),
                value: i.value,
                text: i.text.clone(),
                file: i.file.clone(),
            })
        })
        .collect()
}

fn seen(f: &Finding) -> Seen {
    Seen {
        id: f.id.clone(),
        plugin: f.plugin.clone(),
        file: f.file.clone(),
        observation: f.observation.clone(),
    }
}

fn json(settings: &Settings) -> String {
    // Plain data without maps keyed by anything but strings: it always serialises.
    serde_json::to_string(settings).unwrap_or_else(|_| "{}".into())
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
        LiveQuantity::InputShaft1Speed => "input-shaft-1-speed",
        LiveQuantity::InputShaft2Speed => "input-shaft-2-speed",
        LiveQuantity::CoolantTemperature => "coolant-temperature",
    }
}
