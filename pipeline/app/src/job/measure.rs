//! Manipulate and detect: every plugin looks at every recording, then at the job.

use super::acquire::Files;
use super::conditions;
use crate::house::House;
use model::case::{NotRun, PluginRecord};
use model::scan::LiveQuantity;
use model::sheets::SpecSheet;
use model::{Capture, Case, CodeStatus, Finding};
use plugin_host::Scope;
use plugin_sdk::settings::{
    self, ChannelFacts, Code, Gear, Live, Recorded, Seen, Settings, SpecNumber,
};

/// Runs all plugins and gives the findings their ids and texts.
pub fn run(case: &mut Case, files: &Files, house: &mut House) {
    let plugins: Vec<(usize, Scope, String)> = house
        .host
        .plugins()
        .iter()
        .enumerate()
        .map(|(i, p)| (i, p.scope, p.id.clone()))
        .collect();
    if plugins.is_empty() {
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
        // Not recorded is said by the case's channels; only a check that should have run is "not run".
        for (i, result) in house.host.analyze_all(capture, &settings) {
            keep(case, &plugins[i].2, Some(&capture.file), result);
        }
    }
    let settings = for_job(case, files, house);
    for (i, _, id) in plugins.iter().filter(|p| p.1 == Scope::Job) {
        let result = house.host.analyze(*i, None, &settings);
        keep(case, id, None, result);
    }
    for finding in &mut case.findings {
        finding.text = house.words().finding(finding);
    }
    case.plugins = house
        .host
        .plugins()
        .iter()
        .map(|p| PluginRecord {
            id: p.id.clone(),
            version: p.version.clone(),
            blake3: p.blake3.clone(),
        })
        .collect();
    case.plugins.sort_by(|a, b| a.id.cmp(&b.id));
}

/// Findings count only when the plugin came to its end; else the case says which check did not run and why.
fn keep(
    case: &mut Case,
    plugin: &str,
    file: Option<&str>,
    result: Result<Vec<Finding>, plugin_host::AnalyzeError>,
) {
    match result {
        Ok(findings) => {
            for mut f in findings {
                f.id = format!("f{}", case.findings.len() + 1);
                case.findings.push(f);
            }
        }
        Err(e) => case.not_run.push(NotRun {
            plugin: plugin.into(),
            file: file.map(Into::into),
            reason: e.to_string(),
        }),
    }
}

fn spec<'a>(case: &Case, house: &'a House) -> Option<&'a SpecSheet> {
    house
        .spec(case.vehicle.unit.as_deref())
        .or_else(|| house.spec(None))
}

fn for_capture(capture: &Capture, case: &Case, files: &Files, house: &House) -> String {
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
    json(&Settings {
        phase: stated.phase.map(|p| phase_word(p).into()),
        selector: stated.selector.map(|s| word(s.value.letter(), &s.source)),
        engine: stated.engine.map(|s| word(s.value.word(), &s.source)),
        channels: channels.collect(),
        live: live(files),
        ..common(sheet)
    })
}

fn for_job(case: &Case, files: &Files, house: &House) -> String {
    json(&Settings {
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
            .map(|c| Recorded {
                file: c.file.clone(),
                phase: c.phase.map(|p| phase_word(p).into()),
                roles: c.channels.iter().filter_map(|ch| ch.role.clone()).collect(),
            })
            .collect(),
        live: live(files),
        ..common(spec(case, house))
    })
}

fn common(sheet: Option<&SpecSheet>) -> Settings {
    let Some(sheet) = sheet else {
        return Settings::default();
    };
    Settings {
        spec: sheet
            .value
            .iter()
            .map(|(name, v)| {
                let n = SpecNumber {
                    nominal: v.nominal,
                    low: v.low,
                    high: v.high,
                    unit: v.unit.clone(),
                    source: format!("spec sheet {}: {}", sheet.name, v.source),
                };
                (name.clone(), n)
            })
            .collect(),
        gears: sheet
            .gear
            .iter()
            .map(|(name, g)| {
                (
                    name.clone(),
                    Gear {
                        shaft: g.shaft,
                        ratio: g.ratio,
                        source: g.source.clone(),
                    },
                )
            })
            .collect(),
        ..Settings::default()
    }
}

fn live(files: &Files) -> Vec<Live> {
    let items = files.scans.iter().flat_map(|s| &s.live);
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
