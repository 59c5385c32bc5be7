//! Shaft speeds on one common time grid.

use super::{Spec, shaft_record};
use crate::{ChannelView, Input, Track, host};
use signal::rotation::ShaftRecord;
use signal::{rotation, stats};

/// Grid interval, s: a few teeth at road speed, a tenth of a quick shift.
pub const STEP_S: f64 = 0.02;

/// Half of the time over which teeth are counted for one point, s: at 5 kS/s one sample is then a quarter of a
/// percent of it.
const HALF_S: f64 = 0.04;

/// Speeds in rpm on a common grid; NaN where a shaft does not turn or its train has a hole.
#[derive(Debug, Clone)]
pub struct SpeedTracks {
    /// Time of the first grid point, s.
    pub start_s: f64,
    /// Input shafts 1 and 2; `None` when not recorded or without a tooth count.
    pub input: [Option<Vec<f64>>; 2],
    /// Output shaft.
    pub output: Option<Vec<f64>>,
    /// Engine.
    pub engine: Option<Vec<f64>>,
    /// Number of grid points.
    pub points: usize,
}

/// A stretch of the grid: first and last index.
pub type Stretch = (usize, usize);

impl SpeedTracks {
    /// Builds the tracks of an input; `None` when the recording is empty. What an earlier plugin handed on
    /// ([`SPEEDS`] among [`Analyzer::TAKES`](crate::Analyzer::TAKES)) is used, the rest computed.
    pub fn of(input: &Input<'_>) -> Option<SpeedTracks> {
        let (from, n) = grid(input)?;
        let track = |role: &str| -> Option<Vec<f64>> {
            let teeth = input.channel(role)?.facts.teeth.filter(|&n| n > 0)?;
            let given = host::track(&format!("{role}-rpm"));
            if let Some(given) = given.filter(|t| t.is_on(from, STEP_S, n)) {
                return Some(given.values);
            }
            let pulses = pulse_track(input, role, from, n)?;
            Some(
                pulses
                    .into_iter()
                    .map(|hz| rotation::rpm(hz, teeth))
                    .collect(),
            )
        };
        Some(SpeedTracks {
            start_s: from,
            points: n,
            input: [track("input-shaft-1"), track("input-shaft-2")],
            output: track("output-shaft"),
            engine: track("engine-speed"),
        })
    }

    /// Time of grid point `k`, s.
    pub fn at(&self, k: usize) -> f64 {
        self.start_s + k as f64 * STEP_S
    }

    /// The grid point nearest to time `t`, s; the first one for times before the recording.
    pub fn index(&self, t: f64) -> usize {
        ((t - self.start_s) / STEP_S).round().max(0.0) as usize
    }
}

/// Names of the tracks that [`speed_track`] makes.
pub const SPEEDS: &[&str] = &[
    "input-shaft-1-rpm",
    "input-shaft-2-rpm",
    "output-shaft-rpm",
    "engine-speed-rpm",
];

/// A shaft's speed as a track to hand on, from the tooth train that its channel shows; the same values that
/// [`SpeedTracks::of`] would compute. `None` without a tooth count.
pub fn speed_track(
    input: &Input<'_>,
    channel: &ChannelView<'_>,
    record: &ShaftRecord,
) -> Option<Track> {
    let teeth = channel.facts.teeth.filter(|&n| n > 0)?;
    let (start_s, n) = grid(input)?;
    let rates = tooth_rates(record, start_s, n).into_iter();
    Some(Track {
        name: format!("{}-rpm", channel.role),
        unit: "rpm".into(),
        start_s,
        step_s: STEP_S,
        values: rates.map(|hz| rotation::rpm(hz, teeth)).collect(),
    })
}

/// The common grid's first instant and number of points; `None` when the recording is empty.
fn grid(input: &Input<'_>) -> Option<(f64, usize)> {
    let longest = input
        .channels
        .iter()
        .max_by_key(|c| c.len())
        .filter(|c| !c.is_empty())?;
    let (from, to) = (longest.time.at(0), longest.time.at(longest.len() - 1));
    Some((from, ((to - from) / STEP_S) as usize + 1))
}

fn tooth_rates(record: &ShaftRecord, start_s: f64, n: usize) -> Vec<f64> {
    let at = |k: usize| start_s + k as f64 * STEP_S;
    (0..n)
        .map(|k| record.tooth_rate_at(at(k), HALF_S).unwrap_or(f64::NAN))
        .collect()
}

/// Tooth rate of a speed sensor's channel on `n` grid points from `start_s` on, Hz; NaN where the shaft does not turn
/// or the train has a hole. `None` when it was not recorded.
pub fn pulse_track(input: &Input<'_>, role: &str, start_s: f64, n: usize) -> Option<Vec<f64>> {
    let record = shaft_record(input.channel(role)?, &Spec(&input.settings.spec))?;
    Some(tooth_rates(&record, start_s, n))
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
