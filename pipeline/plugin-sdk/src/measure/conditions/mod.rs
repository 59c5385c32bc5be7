//! Under which conditions a recording was made: engine, selector, commanded clutch applications. What is stated
//! (job.toml, scan text) and what the recording itself shows are clues with weights; where they do not carry an
//! answer, it is asked for.

mod belief;
mod engine;

pub use belief::{Belief, Clue, KNOWN_DB};

use super::{Spec, current_record, is_clutch_hit, shaft_record};
use crate::Input;
use signal::{current, engine::EngineWindows, ripple, rotation};

/// Selector position as far as it matters here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Selector {
    /// P or N: no gear is meant to drive.
    NoDrive,
    /// R, D, S or M: a clutch may drive its shaft.
    Drive,
    /// Nobody says.
    Unknown,
}

/// The engine at one instant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EngineAt {
    /// Running.
    Running,
    /// Off or being cranked.
    NotRunning,
    /// Nobody says and the recording does not tell.
    Unknown,
}

/// The conditions of one recording.
#[derive(Debug, Clone)]
pub struct Conditions {
    /// Selector position. Nothing that is recorded tells P from D at a standstill, so it is only ever stated.
    pub selector: Selector,
    /// Engine as stated: `running`, `off`, `cranking`.
    pub engine_stated: Option<String>,
    /// What the supply voltage says.
    pub voltage: Option<EngineWindows>,
    /// Ripple on the supply voltage.
    pub ripple: Option<ripple::Ripple>,
    /// What the engine speed sensor says.
    pub engine_sensor: Option<rotation::ShaftRecord>,
    /// Teeth of the engine speed sensor's wheel.
    pub engine_teeth: Option<u32>,
    /// Events of the feed current; `None` when it was not recorded.
    pub feed: Option<current::CurrentRecord>,
    /// Windows in which a clutch may be applied by command: start and end, s.
    pub commanded: Vec<(f64, f64)>,
}

impl Conditions {
    /// Reads the conditions from an input.
    pub fn of(input: &Input<'_>) -> Conditions {
        let spec = Spec(&input.settings.spec);
        let selector = match input.settings.selector.as_ref().map(|s| s.value.as_str()) {
            Some("P" | "N") => Selector::NoDrive,
            Some("R" | "D" | "S" | "M") => Selector::Drive,
            _ => Selector::Unknown,
        };
        let feed_channel = input.channel("supply-current");
        let feed = feed_channel.and_then(|c| current_record(c, &spec));
        let calibrated = feed_channel.is_some_and(|c| c.facts.calibrated);
        let commanded = feed.as_ref().map_or_else(Vec::new, |f| {
            f.hits
                .iter()
                .filter(|h| !h.stalled && is_clutch_hit(h, &f.hits, calibrated, &spec))
                .map(|h| (h.start_s - 0.1, h.end_s + spec.number("command-hold")))
                .collect()
        });
        let volts = input
            .channel("supply-voltage")
            .map(|c| (c.values(), c.time));
        let engine_channel = input.channel("engine-speed");
        Conditions {
            selector,
            engine_stated: input.settings.engine.as_ref().map(|s| s.value.clone()),
            voltage: volts
                .as_ref()
                .and_then(|(v, time)| signal::engine::windows(v, *time)),
            ripple: volts
                .as_ref()
                .and_then(|(v, time)| ripple::ripple(v, *time)),
            engine_sensor: engine_channel.and_then(|c| shaft_record(c, &spec)),
            engine_teeth: engine_channel.and_then(|c| c.facts.teeth),
            feed,
            commanded,
        }
    }
}
