//! What was stated of a recording's conditions: by job.toml first, else by a scan text's live data.

use super::acquire::Files;
use model::case::Stated;
use model::job_file::{CaptureSection, EngineState, Phase, Selector};
use model::scan::LiveQuantity;
use model::{Capture, LiveItem};

/// Conditions of one recording, with who states them.
pub struct Conditions {
    pub phase: Option<Phase>,
    pub selector: Option<Stated<Selector>>,
    pub engine: Option<Stated<EngineState>>,
}

/// Engine speed above which an engine runs by itself, rpm: well above any starter's, below any idle. Common
/// practice, no source.
const RUNNING_RPM: f64 = 400.0;

/// The `[[capture]]` section that names a recording.
pub fn section<'a>(capture: &Capture, files: &'a Files) -> Option<&'a CaptureSection> {
    files
        .job
        .as_ref()?
        .captures
        .iter()
        .find(|s| s.file == capture.file)
}

/// The conditions stated of a recording. A scan text's live data speaks of the moment of its readout, so it only
/// fills what job.toml leaves out, and names itself as the source.
pub fn of(capture: &Capture, files: &Files) -> Conditions {
    let section = section(capture, files);
    let stated = |value: Option<Selector>| {
        value.map(|v| Stated {
            value: v,
            source: "job.toml".into(),
        })
    };
    let live = |q| {
        files
            .scans
            .iter()
            .flat_map(|s| &s.live)
            .find(move |i| i.quantity == Some(q))
    };
    Conditions {
        phase: section.and_then(|s| s.phase),
        selector: stated(section.and_then(|s| s.selector))
            .or_else(|| live(LiveQuantity::SelectorPosition).and_then(selector)),
        engine: section
            .and_then(|s| s.engine)
            .map(|value| Stated {
                value,
                source: "job.toml".into(),
            })
            .or_else(|| live(LiveQuantity::EngineSpeed).and_then(engine)),
    }
}

fn selector(item: &LiveItem) -> Option<Stated<Selector>> {
    let value = match item.text.trim().to_ascii_uppercase().as_str() {
        "P" => Selector::P,
        "R" => Selector::R,
        "N" => Selector::N,
        "D" => Selector::D,
        "S" => Selector::S,
        "M" => Selector::M,
        _ => return None,
    };
    Some(Stated {
        value,
        source: item.file.clone(),
    })
}

fn engine(item: &LiveItem) -> Option<Stated<EngineState>> {
    let value = match item.value? {
        v if v >= RUNNING_RPM => EngineState::Running,
        0.0 => EngineState::Off,
        _ => return None,
    };
    Some(Stated {
        value,
        source: item.file.clone(),
    })
}
