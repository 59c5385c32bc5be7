//! State of the engine in the supply voltage: off, cranking, running.

use plugin_sdk::signal::smooth::Average;
use plugin_sdk::signal::{Time, stats};

/// Windows of engine state found in a supply voltage record.
#[derive(Debug, Clone, PartialEq)]
pub struct EngineWindows {
    /// Cranking: start and end, s.
    pub cranking: Option<(f64, f64)>,
    /// Unloaded voltage (80 % quantile) before any cranking, over the whole record when there is none, V.
    pub before_v: f64,
    /// Unloaded voltage over the last part after cranking, V.
    pub after_v: Option<f64>,
}

/// Voltage above which a 12 V system is being charged; common practice, no source (13.5 to 14.8 V is usual, and
/// charge management may intend less, so a lower voltage proves nothing).
pub const CHARGING_V: f64 = 13.3;

/// Voltage below which a 12 V battery at rest is not being charged; a full battery at rest has 12.65 V (BCI
/// figures by a third-party copy), with surface charge up to about 12.9 V.
pub const RESTING_V: f64 = 12.9;

/// Unloaded voltages that a 12 V system can have, V; common practice, no source. The levels below say nothing of another
/// system.
const SYSTEM_V: (f64, f64) = (9.0, 16.0);

/// Finds cranking as a dip of at least 1.5 V that lasts 0.25 s to 5 s and ends higher than it began, or at least
/// back at rest. `None` when the record has no finite value or no time axis, or is no 12 V system's.
pub fn find_engine_windows(volts: &[f32], time: Time<'_>) -> Option<EngineWindows> {
    let step = time.mean_step(volts.len()).filter(|&s| s > 0.0)?;
    let n = ((0.03 / step) as usize).max(1);
    let average = Average::compute(volts, time, n);
    // The upper fifth: the level between loads, which may take more than half of the time.
    let part = |a: f64, b: f64| stats::sampled_quantile(average.part(a, b), 0.8, 20_000);
    let (t0, t1) = (time.at(0), time.at(volts.len() - 1));
    let (s, time) = (&average.values, average.time());
    let whole = stats::sampled_quantile(s, 0.8, 50_000)
        .filter(|v| (SYSTEM_V.0..=SYSTEM_V.1).contains(v))?;
    let mut i = 0;
    let rest = part(t0, t0 + 0.3).unwrap_or(whole);
    while i < s.len() {
        if (s[i] as f64) < rest - 1.5 {
            let mut j = i;
            while j < s.len() && (s[j] as f64) < rest - 0.6 {
                j += 1;
            }
            let (a, b) = (time.at(i), time.at(j.min(s.len() - 1)));
            let after = part((b + 0.3).min(t1), t1).unwrap_or(rest);
            // A load on a healthy charging system does not pull 1.5 V for as long as a starter does, and a
            // starter works against a resting battery.
            if (0.25..=5.0).contains(&(b - a)) && rest < CHARGING_V && after > rest + 0.4 {
                return Some(EngineWindows {
                    cranking: Some((a, b)),
                    before_v: rest,
                    after_v: part((b + 1.0).min(t1 - 0.1).max(b), t1),
                });
            }
            i = j;
        }
        i += 1;
    }
    Some(EngineWindows {
        cranking: None,
        before_v: whole,
        after_v: None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_start_in_the_record() {
        let x: Vec<f32> = (0..8000)
            .map(|i| match i as f64 / 1000.0 {
                t if t < 1.0 => 12.5,
                t if t < 1.8 => 9.8,
                t => (14.2 - 1.5 * (-(t - 1.8) / 0.4).exp()) as f32,
            })
            .collect();
        let w = find_engine_windows(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1e-3,
            },
        )
        .unwrap();
        let (a, b) = w.cranking.unwrap();
        assert!((a - 1.0).abs() < 0.05 && (b - 1.8).abs() < 0.05, "{a} {b}");
        assert!(w.before_v <= RESTING_V && w.after_v.unwrap() >= CHARGING_V);
    }

    #[test]
    fn loads_on_a_weak_feed_are_no_start() {
        let x: Vec<f32> = (0..8000)
            .map(|i| if i % 2000 < 200 { 9.6 } else { 13.9 })
            .collect();
        let w = find_engine_windows(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1e-3,
            },
        )
        .unwrap();
        assert_eq!(w.cranking, None);
        assert!(w.before_v >= CHARGING_V);
    }

    #[test]
    fn between_resting_and_charging_it_does_not_tell() {
        let w = find_engine_windows(
            &[13.1; 4000],
            Time::Even {
                start_s: 0.0,
                step_s: 1e-3,
            },
        )
        .unwrap();
        assert_eq!(w.cranking, None);
        assert!(w.before_v > RESTING_V && w.before_v < CHARGING_V);
    }
}
