//! Periodic ripple on a voltage: a running alternator leaves one, a battery or its charger at rest leaves none of
//! that kind.

use crate::{Time, smooth, stats};

/// Ripple of a record.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ripple {
    /// Share of the fast variation that repeats with the period: normalised autocorrelation at its best lag, 0 to 1.
    pub share: f64,
    /// The repetition rate as sampled, Hz. A ripple faster than half the sample rate shows up at another one.
    pub hz: f64,
    /// Root mean square of the fast variation, in the record's unit.
    pub rms: f64,
}

/// Slower than this a variation is a load or the engine itself, not rectifier ripple, Hz.
const SLOWEST_HZ: f64 = 100.0;

/// Fewest samples of a stretch.
const STRETCH: usize = 1024;

/// Rate to which quicker records are thinned, Hz: what repeats still does.
const ENOUGH_HZ: f64 = 10_000.0;

/// Stretches spread over the record.
const STRETCHES: usize = 24;

/// Finds ripple: the median over up to 24 stretches, each of four of the slowest periods and of 1,024 samples at
/// least, so that loads that come and go do not decide. Levels slower than 100 Hz are taken out first.
///
/// `None` when the record is shorter than four stretches, sampled slower than 1 kS/s, or holds still.
pub fn measure_ripple(x: &[f32], time: Time<'_>) -> Option<Ripple> {
    let step = time.mean_step(x.len()).filter(|&s| s > 0.0)?;
    let thin = (1.0 / ENOUGH_HZ / step).round().max(1.0) as usize;
    let step = step * thin as f64;
    let longest = (1.0 / SLOWEST_HZ / step) as usize;
    let stretch = STRETCH.max(4 * longest);
    let whole = stretch * thin;
    if longest < 10 || x.len() < 4 * whole {
        return None;
    }
    let count = STRETCHES.min(x.len() / whole);
    let found: Vec<Stretch> = (0..count)
        .filter_map(|k| {
            let from = (x.len() - whole) * k / (count - 1);
            let part: Vec<f32> = x[from..from + whole]
                .iter()
                .step_by(thin)
                .copied()
                .collect();
            measure_stretch(&part, longest)
        })
        .collect();
    let middle = |f: fn(&Stretch) -> f64| stats::median(&found.iter().map(f).collect::<Vec<_>>());
    Some(Ripple {
        share: middle(|s| s.share)?,
        hz: 1.0 / (middle(|s| s.lag)? * step),
        rms: middle(|s| s.rms)?,
    })
}

/// Ripple of one stretch; the lag in samples.
struct Stretch {
    share: f64,
    lag: f64,
    rms: f64,
}

fn measure_stretch(x: &[f32], longest: usize) -> Option<Stretch> {
    let slow = smooth::moving_average(x, longest);
    let d: Vec<f64> = x
        .iter()
        .zip(&slow)
        .map(|(a, b)| f64::from(*a) - f64::from(*b))
        .collect();
    if d.iter().any(|v| !v.is_finite()) {
        return None;
    }
    let power = |v: &[f64]| v.iter().map(|v| v * v).sum::<f64>();
    let all = power(&d);
    if all <= 0.0 {
        return None;
    }
    // The first fall below zero ends the record's own smoothness: a repetition lies beyond it.
    let at = |lag: usize| {
        let (a, b) = (&d[..d.len() - lag], &d[lag..]);
        a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>() / (power(a) * power(b)).sqrt()
    };
    let first = (1..=longest).find(|&lag| at(lag) < 0.0)?;
    let best = (first..=2 * longest).max_by(|&a, &b| at(a).total_cmp(&at(b)))?;
    Some(Stretch {
        share: at(best).max(0.0),
        lag: best as f64,
        rms: (all / d.len() as f64).sqrt(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise;

    const RATE: f64 = 5_000.0;

    fn record(ripple: f64, hz: f64) -> Vec<f32> {
        (0..30_000)
            .zip(noise(5))
            .map(|(i, noise)| {
                let t = f64::from(i) / RATE;
                // A load every second, and an engine that wanders by 1 %.
                let load = if t.fract() < 0.15 { 0.6 } else { 0.0 };
                let phase = std::f64::consts::TAU * hz * t + 2.0 * (6.0 * t).sin();
                (14.1 - load + ripple * phase.sin() + 0.03 * noise) as f32
            })
            .collect()
    }

    const TIME: Time<'static> = Time::Even {
        start_s: 0.0,
        step_s: 1.0 / RATE,
    };

    /// A sine among noise: its share of the variance is A^2/2 over A^2/2 + s^2 (definition); s^2 of even noise of
    /// width w is w^2/12.
    #[test]
    fn share_and_rate_of_a_sine_in_noise() {
        let r = measure_ripple(&record(0.04, 210.0), TIME).unwrap();
        let signal = 0.04f64 * 0.04 / 2.0;
        let expected = signal / (signal + 0.03f64 * 0.03 / 12.0);
        assert!((r.share - expected).abs() < 0.06, "{r:?} {expected}");
        // A multiple of the period may repeat a little better than the period itself.
        let turns = 210.0 / r.hz;
        assert!((turns - turns.round()).abs() < 0.06, "{r:?}");
    }

    #[test]
    fn noise_and_loads_alone_do_not_repeat() {
        let r = measure_ripple(&record(0.0, 210.0), TIME).unwrap();
        assert!(r.share < 0.25, "{r:?}");
    }

    #[test]
    fn too_short_or_too_coarse_to_tell() {
        assert_eq!(measure_ripple(&record(0.04, 210.0)[..3_000], TIME), None);
        let slow = Time::Even {
            start_s: 0.0,
            step_s: 0.005,
        };
        assert_eq!(measure_ripple(&record(0.04, 210.0), slow), None);
        assert_eq!(measure_ripple(&[14.0; 30_000], TIME), None);
    }
}
