//! Manipulate and detect: every plugin looks at every recording, then at the job.

use super::acquire::Files;
use super::conditions;
use crate::house::House;
use model::case::{NotRun, PluginRecord};
use model::scan::LiveQuantity;
use model::sheets::SpecSheet;
use model::{Capture, Case, CodeStatus, Finding};
use plugin_host::Analysis;
use plugin_sdk::settings::{
    self, ChannelFacts, Code, LimitValue, LiveValue, PriorFinding, RecordedCapture, Settings,
};
use std::collections::BTreeMap;

/// Runs all analyzers and gives the findings their ids and texts.
pub fn run(case: &mut Case, files: &Files, house: &mut House) {
    if house.host.libraries().is_empty() {
        case.not_run.push(NotRun {
            plugin: "all".into(),
            file: None,
            reason: "no analysis plugin was found: reinstall, or name their folder in BAYBRIEF_PLUGINS or in shop.toml ([plugins] folders)".into(),
        });
    }
    for refused in house.host.refused() {
        case.not_run.push(NotRun {
            plugin: refused.path.display().to_string(),
            file: None,
            reason: refused.reason.clone(),
        });
    }
    for capture in &files.captures {
        let settings = for_capture(capture, case, files, house);
        let analysis = house
            .host
            .analyze_capture(capture, &|_| Some(settings.clone()));
        keep(case, analysis);
    }
    let settings = for_job(case, files, house);
    let analysis = house.host.analyze_job(&|_| Some(settings.clone()));
    keep(case, analysis);
    for finding in &mut case.findings {
        finding.text = house.words().finding(finding);
    }
    let libraries = house.host.libraries().iter();
    case.plugins = libraries
        .map(|l| PluginRecord {
            id: l.declaration.system.clone(),
            version: l.declaration.version.clone(),
            blake3: l.blake3.clone(),
        })
        .collect();
    case.plugins.sort_by(|a, b| a.id.cmp(&b.id));
}

/// Takes in what the analyzers made of a recording, and which checks did not run and why. A role that was not recorded
/// is said by the case's channels; only a check that should have run is "not run".
fn keep(case: &mut Case, analysis: Analysis) {
    for mut f in analysis.findings {
        f.id = format!("f{}", case.findings.len() + 1);
        case.findings.push(f);
    }
    let not_run = analysis.not_run.into_iter();
    case.not_run.extend(not_run.map(|n| NotRun {
        plugin: n.analyzer,
        file: n.capture,
        reason: n.reason.to_string(),
    }));
}

fn spec<'a>(case: &Case, house: &'a House) -> Option<&'a SpecSheet> {
    house
        .spec(case.vehicle.unit.as_deref())
        .or_else(|| house.spec(None))
}

fn for_capture(capture: &Capture, case: &Case, files: &Files, house: &House) -> Settings {
    let section = conditions::section(capture, files);
    let stated = conditions::of(capture, files);
    let sheet = spec(case, house);
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
            let sheet_teeth = sheet.and_then(|s| s.value.get(&format!("teeth-{role}")));
            let from_sheet = sheet_teeth
                .and_then(|v| v.nominal)
                .map(|n| n.round() as u32);
            ChannelFacts {
                sensor: said.and_then(|s| s.sensor).map(sensor_word),
                teeth: said.and_then(|s| s.teeth).or(from_sheet),
                missing_teeth: said.and_then(|s| s.missing_teeth),
                accuracy_percent: said.and_then(|s| s.accuracy_percent),
                calibrated: c.calibrated,
                teeth_source: said
                    .and_then(|s| s.teeth)
                    .map(|_| "job.toml".to_string())
                    .or_else(|| from_sheet.and(sheet).map(|s| s.name.clone())),
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
        live: live(files),
        ..common(sheet)
    }
}

fn for_job(case: &Case, files: &Files, house: &House) -> Settings {
    Settings {
        findings: case.findings.iter().map(seen).collect(),
        codes: case
            .codes
            .iter()
            .map(|c| Code {
                code: c.code.clone(),
                failure_type: c.failure_type.clone(),
                status: c.status.iter().map(|s| status_word(*s).into()).collect(),
                module: c.module.clone(),
                file: c.file.clone(),
            })
            .collect(),
        recorded: case
            .captures
            .iter()
            .map(|c| RecordedCapture {
                file: c.file.clone(),
                phase: c.phase.map(|p| phase_word(p).into()),
                roles: c.channels.iter().filter_map(|ch| ch.role.clone()).collect(),
            })
            .collect(),
        live: live(files),
        ..common(spec(case, house))
    }
}

fn common(sheet: Option<&SpecSheet>) -> Settings {
    let Some(sheet) = sheet else {
        return Settings::default();
    };
    let limits = sheet.value.iter().map(|(name, v)| {
        let value = LimitValue {
            nominal: v.nominal,
            low: v.low,
            high: v.high,
            unit: v.unit.clone(),
            source: format!("spec sheet {}: {}", sheet.name, v.source),
        };
        (name.clone(), value)
    });
    let gears = sheet
        .gear
        .iter()
        .filter_map(|(name, gear)| Some((name.clone(), serde_json::to_value(gear).ok()?)));
    Settings {
        limits: limits.collect(),
        tables: BTreeMap::from([("gear".into(), gears.collect())]),
        ..Settings::default()
    }
}

fn live(files: &Files) -> Vec<LiveValue> {
    let items = files.scans.iter().flat_map(|s| &s.live);
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
        LiveQuantity::InputShaft1Speed => "input-shaft-1-speed",
        LiveQuantity::InputShaft2Speed => "input-shaft-2-speed",
        LiveQuantity::CoolantTemperature => "coolant-temperature",
    }
}
