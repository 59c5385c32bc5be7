//! Evidence for a running engine at one instant.

use super::Witnesses;
use super::supply::{CHARGING_V, RESTING_V};
use plugin_sdk::signal::teeth::SegmentKind;
use plugin_sdk::{Evidence, LogOdds};

// Weights of the evidence, decibans: judgement, no source. A statement is a person's word about the whole recording; the engine's
// own sensor outweighs it; a charged supply alone may be a battery charger's.
const STATED_DBAN: f64 = 20.0;
const SENSOR_DBAN: f64 = 35.0;
const STARTER_DBAN: f64 = 25.0;
const CHARGED_AFTER_START_DBAN: f64 = 20.0;
const NOT_CHARGED_AFTER_START_DBAN: f64 = -10.0;
const CHARGED_DBAN: f64 = 10.0;
const RESTING_DBAN: f64 = -14.0;
const RIPPLE_DBAN: f64 = 8.0;

/// Share of the fast variation that must repeat before it is called ripple; noise and coarse recorders stay below
/// 0.25 (measured on generated noise).
const RIPPLE_SHARE: f64 = 0.35;

/// Below the first speed a turning engine is being cranked, above the second it runs, rpm; common practice, no source.
/// Between them it may be either.
const CRANKING_RPM: f64 = 320.0;
const RUNNING_RPM: f64 = 480.0;

/// Half of the time over which the engine's speed is averaged, s.
const HALF_S: f64 = 0.1;

impl Witnesses {
    /// Evidence for and against a running engine at time `t`, s.
    pub fn running(&self, t: f64) -> LogOdds {
        let mut evidence = Vec::new();
        let starter = self.voltage.as_ref().and_then(|v| v.cranking);
        let started = starter.is_none_or(|(_, to)| t > to);
        // A statement speaks of the recording as a whole; recordings often begin before the start.
        if let Some(stated) = self.stated.as_deref().filter(|_| started) {
            let sign = if stated == "running" { 1.0 } else { -1.0 };
            evidence.push(Evidence::new("stated", sign * STATED_DBAN));
        }
        evidence.extend(self.sensor_evidence(t));
        evidence.extend(self.voltage_evidence(t));
        if started && self.ripple.is_some_and(|r| r.share >= RIPPLE_SHARE) {
            evidence.push(Evidence::new("ripple", RIPPLE_DBAN));
        }
        LogOdds { evidence }
    }

    /// Evidence of the engine's own sensor. Silence, and pulses that cannot be read, say nothing; turning at a speed that
    /// is not known says that it turns, not by what.
    fn sensor_evidence(&self, t: f64) -> Option<Evidence> {
        let sensor = self.sensor.as_ref()?;
        let mut segments = sensor.segments.iter();
        let segment = segments.find(|s| s.start_s <= t && t <= s.end_s)?;
        match segment.kind {
            SegmentKind::AtRest => Some(Evidence::new("engine-speed-stands", -SENSOR_DBAN)),
            SegmentKind::Turning => match sensor.rpm_at(t, HALF_S).or(segment.motion?.rpm)? {
                rpm if rpm < CRANKING_RPM => {
                    Some(Evidence::new("engine-speed-cranks", -SENSOR_DBAN))
                }
                rpm if rpm > RUNNING_RPM => Some(Evidence::new("engine-speed-turns", SENSOR_DBAN)),
                _ => None,
            },
            _ => None,
        }
    }

    fn voltage_evidence(&self, t: f64) -> Option<Evidence> {
        let v = self.voltage.as_ref()?;
        let Some((from, to)) = v.cranking else {
            return match v.before_v {
                level if level >= CHARGING_V => Some(Evidence::new("charged", CHARGED_DBAN)),
                level if level <= RESTING_V => Some(Evidence::new("resting", RESTING_DBAN)),
                _ => None,
            };
        };
        if t < from {
            return Some(Evidence::new("starter-later", -STARTER_DBAN));
        }
        if t <= to {
            return Some(Evidence::new("starter", -STARTER_DBAN));
        }
        match v.after_v? {
            level if level >= CHARGING_V => Some(Evidence::new(
                "charged-after-start",
                CHARGED_AFTER_START_DBAN,
            )),
            level if level <= RESTING_V => Some(Evidence::new(
                "not-charged-after-start",
                NOT_CHARGED_AFTER_START_DBAN,
            )),
            _ => None,
        }
    }

    /// True where the recording contradicts what was stated of the engine: stated off, but the supply is charged
    /// or the engine speed sensor turns; stated running, but the supply only rests for the whole recording.
    pub fn is_contradicted(&self) -> bool {
        let resting = self.voltage.as_ref().filter(|v| v.cranking.is_none());
        let charged = resting.is_some_and(|v| v.before_v >= CHARGING_V);
        let rests = resting.is_some_and(|v| v.before_v <= RESTING_V);
        let runs = |rpm: f64| rpm > RUNNING_RPM;
        let turns = self
            .sensor
            .as_ref()
            .is_some_and(|s| s.turning().filter_map(|s| s.motion?.rpm).any(runs));
        match self.stated.as_deref() {
            Some("off") => charged || turns,
            Some("running") => rests && self.sensor.is_none(),
            _ => false,
        }
    }
}
