//! Conditions that were stated of a recording: by job.toml first, else by a scan text's live data.

use super::acquire::Acquired;
use model::case::Stated;
use model::job_file::{CaptureSection, CaptureState, EngineState, Phase, Selector};
use model::scan::LiveQuantity;
use model::{Capture, LiveItem};

/// Conditions of one recording, with who states them.
#[derive(Debug, Clone, Default)]
pub struct Conditions {
    /// Before or after the repair.
    pub phase: Option<Phase>,
    /// Position of the selector.
    pub selector: Option<Stated<Selector>>,
    /// State of the engine.
    pub engine: Option<Stated<EngineState>>,
    /// State of the vehicle or the part.
    pub state: Option<CaptureState>,
}

/// Engine speed above which an engine runs by itself, rpm: well above any starter's, below any idle. Common
/// practice, no source.
const RUNNING_RPM: f64 = 400.0;

/// The `[[capture]]` section that names a recording.
fn section<'a>(capture: &Capture, acquired: &'a Acquired) -> Option<&'a CaptureSection> {
    acquired
        .job
        .as_ref()?
        .captures
        .iter()
        .find(|s| s.file == capture.file)
}

/// The conditions stated of a recording. A scan text's live data speaks of the moment of its readout, so it only
/// fills what job.toml leaves out, and names itself as the source.
pub fn stated(capture: &Capture, acquired: &Acquired) -> Conditions {
    let section = section(capture, acquired);
    let live = |q| {
        acquired
            .scans
            .iter()
            .flat_map(|s| &s.live)
            .find(move |i| i.quantity == Some(q))
    };
    Conditions {
        phase: section.and_then(|s| s.phase),
        selector: section
            .and_then(|s| s.selector)
            .map(|value| Stated {
                value,
                source: "job.toml".into(),
            })
            .or_else(|| live(LiveQuantity::SelectorPosition).and_then(selector)),
        engine: section
            .and_then(|s| s.engine)
            .map(|value| Stated {
                value,
                source: "job.toml".into(),
            })
            .or_else(|| live(LiveQuantity::EngineSpeed).and_then(engine)),
        state: section.and_then(|s| s.state),
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
