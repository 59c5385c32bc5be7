//! Under which conditions a recording was made: engine, selector, commanded clutch applications. Statements
//! (job.toml, scan text) come first; where they are silent, the recording itself may tell.

use super::{Spec, current_record, is_clutch_hit, shaft_record};
use crate::Input;
use signal::{current, engine, rotation};

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
    /// Selector position.
    pub selector: Selector,
    /// Engine as stated: `running`, `off`, `cranking`.
    pub engine_stated: Option<String>,
    /// What the supply voltage says.
    pub voltage: Option<engine::EngineWindows>,
    /// What the engine speed sensor says.
    pub engine_sensor: Option<rotation::ShaftRecord>,
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
        Conditions {
            selector,
            engine_stated: input.settings.engine.as_ref().map(|s| s.value.clone()),
            voltage: input
                .channel("supply-voltage")
                .and_then(|c| engine::windows(&c.values(), c.time)),
            engine_sensor: input
                .channel("engine-speed")
                .and_then(|c| shaft_record(c, &spec)),
            feed,
            commanded,
        }
    }

    /// Whether the engine runs at `t`.
    ///
    /// A running engine turns its speed sensor faster than a starter does, and its supply is charged. A
    /// statement counts where the recording does not contradict it: recordings often begin before the start.
    pub fn engine_at(&self, t: f64) -> EngineAt {
        let by_voltage = self.voltage.as_ref().and_then(|v| v.running_at(t));
        if self.voltage.as_ref().is_some_and(|v| v.cranking.is_some())
            && let Some(running) = by_voltage
        {
            return if running {
                EngineAt::Running
            } else {
                EngineAt::NotRunning
            };
        }
        if let Some(sensor) = &self.engine_sensor
            && !sensor.flat
        {
            let turning = sensor
                .turning()
                .any(|s| s.start_s - 0.05 <= t && t <= s.end_s + 0.05);
            if !turning {
                return EngineAt::NotRunning;
            }
            if self.engine_stated.is_none() {
                return EngineAt::Running;
            }
        }
        match (self.engine_stated.as_deref(), by_voltage) {
            (Some("running"), _) => EngineAt::Running,
            (Some(_), _) => EngineAt::NotRunning,
            (None, Some(true)) => EngineAt::Running,
            (None, Some(false)) => EngineAt::NotRunning,
            (None, None) => EngineAt::Unknown,
        }
    }

    /// Whether the recording contradicts what was stated of the engine: stated off, but the supply is charged
    /// or the engine speed sensor turns; stated running, but the supply only rests for the whole recording.
    pub fn engine_contradicted(&self) -> bool {
        let charged = self.voltage.as_ref().and_then(|v| {
            if v.cranking.is_some() {
                None
            } else {
                v.running_at(f64::INFINITY)
            }
        });
        let turns = self
            .engine_sensor
            .as_ref()
            .is_some_and(|s| s.turning().next().is_some());
        match self.engine_stated.as_deref() {
            Some("off") => charged == Some(true) || turns,
            Some("running") => charged == Some(false) && self.engine_sensor.is_none(),
            _ => false,
        }
    }

    /// Share of a span during which the engine runs, and whether any of it is not known.
    pub fn engine_share(&self, start_s: f64, end_s: f64) -> (f64, bool) {
        const POINTS: usize = 20;
        let at = |k: usize| start_s + (end_s - start_s) * (k as f64 + 0.5) / POINTS as f64;
        let states: Vec<EngineAt> = (0..POINTS).map(|k| self.engine_at(at(k))).collect();
        let running = states.iter().filter(|s| **s == EngineAt::Running).count();
        (
            running as f64 / POINTS as f64,
            states.contains(&EngineAt::Unknown),
        )
    }
}
