//! Shaft speeds on one common time grid.

use plugin_sdk::signal::{stats, teeth};
use plugin_sdk::{Input, Series};

/// Speeds in rpm on a common grid; NaN where a shaft does not turn or its train has a hole.
#[derive(Debug, Clone)]
pub struct SpeedTracks {
    /// Time of the first grid point, s.
    pub start_s: f64,
    /// Grid interval, s.
    pub step_s: f64,
    /// Input shafts 1 and 2; `None` when not recorded, or where the positions per turn are neither stated nor found.
    pub input: [Option<Vec<f64>>; 2],
    /// Output shaft.
    pub output: Option<Vec<f64>>,
    /// Engine.
    pub engine: Option<Vec<f64>>,
}

/// Grid interval of the tooth rate as `recording` derives it, s.
pub const STEP_S: f64 = 0.02;

/// A stretch of the grid: first and last index.
pub type Stretch = (usize, usize);

impl SpeedTracks {
    /// Speeds of an input; `None` where no tooth rate was derived.
    pub fn of(input: &Input<'_>) -> Option<SpeedTracks> {
        let sensors = [
            "input-shaft-1",
            "input-shaft-2",
            "output-shaft",
            "engine-speed",
        ];
        let grid = sensors
            .iter()
            .find_map(|role| input.tooth_rate(role)?.grid)?;
        let track = |role: &str| -> Option<Vec<f64>> {
            let positions = input.train(role)?.wheel.positions_per_turn()?;
            let rates = rates(&input.tooth_rate(role)?)?;
            Some(rates.iter().map(|&hz| teeth::rpm(hz, positions)).collect())
        };
        Some(SpeedTracks {
            start_s: grid.start_s,
            step_s: grid.step_s,
            input: [track("input-shaft-1"), track("input-shaft-2")],
            output: track("output-shaft"),
            engine: track("engine-speed"),
        })
    }

    /// Time of grid point `k`, s.
    pub fn at(&self, k: usize) -> f64 {
        self.start_s + k as f64 * self.step_s
    }

    /// The grid point nearest to time `t`, s; the first one for times before the recording.
    pub fn index(&self, t: f64) -> usize {
        ((t - self.start_s) / self.step_s).round().max(0.0) as usize
    }
}

/// Tooth rates of a series, Hz; NaN where nothing turns.
pub fn rates(series: &Series) -> Option<Vec<f64>> {
    Some(series.numbers("rate")?.into())
}

/// Quotient of two tracks, point by point.
pub fn quotient(a: &[f64], b: &[f64]) -> Vec<f64> {
    a.iter()
        .zip(b)
        .map(|(a, b)| if *b > 0.0 { a / b } else { f64::NAN })
        .collect()
}

/// Stretches of at least `least` points in which a track keeps within `share` of its running median; a hole of up
/// to half a second does not end a stretch.
pub fn constant_stretches(x: &[f64], share: f64, least: usize) -> Vec<(Stretch, f64)> {
    const HOLE: usize = (0.5 / STEP_S) as usize;
    let mut out = Vec::new();
    let mut k = 0;
    while k < x.len() {
        if !x[k].is_finite() {
            k += 1;
            continue;
        }
        let mut values = vec![x[k]];
        let (mut last, mut j) = (k, k + 1);
        while j < x.len() && j - last <= HOLE {
            if x[j].is_finite() {
                let near = &values[values.len().saturating_sub(25)..];
                let m = stats::median(near).unwrap_or(x[j]);
                let all = stats::median(&values).unwrap_or(m);
                if (x[j] / m - 1.0).abs() > share || (m / all - 1.0).abs() > share {
                    break;
                }
                values.push(x[j]);
                last = j;
            }
            j += 1;
        }
        if values.len() >= least {
            out.push(((k, last), stats::median(&values).unwrap_or(f64::NAN)));
            k = last + 1;
        } else {
            k += 1;
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_plateaus_with_a_ramp_between() {
        let x: Vec<f64> = (0..200)
            .map(|k| match k {
                0..80 => 3.4,
                80..100 => 3.4 - (k - 80) as f64 * 0.07,
                _ => 2.0,
            })
            .collect();
        let s = constant_stretches(&x, 0.02, 20);
        assert_eq!(s.len(), 2, "{s:?}");
        assert!((s[0].1 - 3.4).abs() < 1e-9 && (s[1].1 - 2.0).abs() < 1e-9);
        assert!((78..=81).contains(&s[0].0.1) && (99..=101).contains(&s[1].0.0));
    }

    #[test]
    fn a_hole_does_not_end_a_stretch() {
        let mut x = vec![1.5; 100];
        x[40..60].fill(f64::NAN);
        assert_eq!(constant_stretches(&x, 0.02, 20).len(), 1);
    }
}
