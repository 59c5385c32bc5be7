//! Whether the engine runs, from all that speaks of it.

use super::{Belief, Clue, Conditions, EngineAt};
use signal::engine::{CHARGING_V, RESTING_V};
use signal::rotation;

// Weights of the clues: judgement, no source. A statement is a person's word about the whole recording; the engine's
// own sensor outweighs it; a charged supply alone may be a battery charger's.
const STATED_DB: f64 = 20.0;
const SENSOR_DB: f64 = 35.0;
const STARTER_DB: f64 = 25.0;
const CHARGED_AFTER_START_DB: f64 = 20.0;
const NOT_CHARGED_AFTER_START_DB: f64 = -10.0;
const CHARGED_DB: f64 = 10.0;
const RESTING_DB: f64 = -14.0;
const RIPPLE_DB: f64 = 8.0;

/// Share of the fast variation that must repeat before it is called ripple; noise and coarse recorders stay below
/// 0.25 (measured on generated noise).
const RIPPLE_SHARE: f64 = 0.35;

/// Below this a turning engine is being cranked, rpm; common practice, no source.
const CRANKING_RPM: f64 = 400.0;

impl Conditions {
    /// What speaks for and against a running engine at time `t`.
    pub fn engine_belief(&self, t: f64) -> Belief {
        let mut clues = Vec::new();
        let starter = self.voltage.as_ref().and_then(|v| v.cranking);
        let started = starter.is_none_or(|(_, to)| t > to);
        // A statement speaks of the recording as a whole; recordings often begin before the start.
        if let Some(stated) = self.engine_stated.as_deref().filter(|_| started) {
            let sign = if stated == "running" { 1.0 } else { -1.0 };
            clues.push(Clue::new("stated", sign * STATED_DB));
        }
        clues.extend(self.sensor_clue(t));
        clues.extend(self.voltage_clue(t));
        if started && self.ripple.is_some_and(|r| r.share >= RIPPLE_SHARE) {
            clues.push(Clue::new("ripple", RIPPLE_DB));
        }
        Belief { clues }
    }

    fn sensor_clue(&self, t: f64) -> Option<Clue> {
        let sensor = self.engine_sensor.as_ref().filter(|s| !s.flat)?;
        let turns = sensor
            .turning()
            .any(|s| s.start_s - 0.05 <= t && t <= s.end_s + 0.05);
        if !turns {
            return Some(Clue::new("engine-speed-stands", -SENSOR_DB));
        }
        let speed = sensor
            .tooth_rate_at(t, 0.1)
            .zip(self.engine_teeth.filter(|&n| n > 0))
            .map(|(hz, teeth)| rotation::rpm(hz, teeth));
        Some(match speed {
            Some(rpm) if rpm < CRANKING_RPM => Clue::new("engine-speed-cranks", -SENSOR_DB),
            _ => Clue::new("engine-speed-turns", SENSOR_DB),
        })
    }

    fn voltage_clue(&self, t: f64) -> Option<Clue> {
        let v = self.voltage.as_ref()?;
        let Some((from, to)) = v.cranking else {
            return match v.before_v {
                level if level >= CHARGING_V => Some(Clue::new("charged", CHARGED_DB)),
                level if level <= RESTING_V => Some(Clue::new("resting", RESTING_DB)),
                _ => None,
            };
        };
        if t < from {
            return Some(Clue::new("starter-later", -STARTER_DB));
        }
        if t <= to {
            return Some(Clue::new("starter", -STARTER_DB));
        }
        match v.after_v? {
            level if level >= CHARGING_V => {
                Some(Clue::new("charged-after-start", CHARGED_AFTER_START_DB))
            }
            level if level <= RESTING_V => Some(Clue::new(
                "not-charged-after-start",
                NOT_CHARGED_AFTER_START_DB,
            )),
            _ => None,
        }
    }

    /// Whether the engine runs at time `t`, as far as the clues carry.
    pub fn engine_at(&self, t: f64) -> EngineAt {
        match self.engine_belief(t).holds() {
            Some(true) => EngineAt::Running,
            Some(false) => EngineAt::NotRunning,
            None => EngineAt::Unknown,
        }
    }

    /// Whether the recording contradicts what was stated of the engine: stated off, but the supply is charged
    /// or the engine speed sensor turns; stated running, but the supply only rests for the whole recording.
    pub fn engine_contradicted(&self) -> bool {
        let resting = self.voltage.as_ref().filter(|v| v.cranking.is_none());
        let charged = resting.is_some_and(|v| v.before_v >= CHARGING_V);
        let rests = resting.is_some_and(|v| v.before_v <= RESTING_V);
        let turns = self
            .engine_sensor
            .as_ref()
            .is_some_and(|s| s.turning().next().is_some());
        match self.engine_stated.as_deref() {
            Some("off") => charged || turns,
            Some("running") => rests && self.engine_sensor.is_none(),
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
