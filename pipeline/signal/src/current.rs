//! Current pulses: quiescent level, pulses, stalls.

use crate::detection::{ALPHA, critical_value};
use crate::smooth::Average;
use crate::{Time, levels, stats};

/// Bounds of a pulse and of a stall.
#[derive(Debug, Clone, Copy)]
pub struct Options {
    /// Smallest peak over the quiescent current that counts as a pulse, in the signal's unit; 0 when the
    /// signal's scale is not known (then the noise decides).
    pub least_peak: f64,
    /// Time for which the current must stay near its peak to be a stall, s.
    pub stall_hold_s: f64,
    /// Share that counts as near the peak, of the peak over the quiescent current.
    pub stall_share: f64,
    /// Quiescent current from which on a consumer is proven to be connected, in the signal's unit; infinite where the
    /// scale or the zero of the clamp is not known.
    pub least_quiescent: f64,
}

/// One current event. It starts and ends where the current passes 15 % of its peak over the quiescent
/// current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurrentPulse {
    /// Start, s.
    pub start_s: f64,
    /// End, s.
    pub end_s: f64,
    /// Highest smoothed value, quiescent current included.
    pub peak: f64,
    /// When the peak was reached, s.
    pub peak_at_s: f64,
    /// Quiescent current before the event.
    pub quiescent: f64,
    /// Charge over the quiescent current, unit of the signal times seconds.
    pub charge: f64,
    /// Time for which the current stayed at or above the stall share of its peak, s.
    pub hold_s: f64,
    /// Long enough for a stall.
    pub stalled: bool,
    /// The event had begun before the record or had not ended with it.
    pub cut: bool,
}

impl CurrentPulse {
    /// Peak over the quiescent current.
    pub fn rise(&self) -> f64 {
        self.peak - self.quiescent
    }

    /// End - start, s.
    pub fn duration_s(&self) -> f64 {
        self.end_s - self.start_s
    }
}

/// Smallest pulse that a record would have shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PulseCapability {
    /// Peak over the quiescent current, in the signal's unit: the threshold is the critical value, and the noise of the
    /// smoothed record adds 1.645 standard deviations (IUPAC 1995, known standard deviation, beta 5 %).
    pub rise: f64,
    /// Shortest duration, s.
    pub duration_s: f64,
}

/// Proof that a current channel was connected to a living consumer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CurrentLife {
    /// Pulses were seen.
    Pulsed,
    /// The consumer woke.
    Woke,
    /// It stands at this quiescent current, in the signal's unit.
    Quiescent(f64),
    /// Nothing: no current is what an open clamp shows as well.
    None,
}

/// Content of a current record.
#[derive(Debug, Clone, PartialEq)]
pub struct CurrentRecord {
    /// Quiescent current: median over the quiet parts.
    pub quiescent: f64,
    /// Standard deviation of the noise of one sample.
    pub noise: f64,
    /// Smallest pulse that would have been seen.
    pub capability: PulseCapability,
    /// Proof of life.
    pub alive: CurrentLife,
    /// Events in order of time.
    pub pulses: Vec<CurrentPulse>,
    /// The consumer woke during the record: when (s) and by how much its quiescent current rose.
    pub wake: Option<(f64, f64)>,
    /// The events point downwards: the clamp was put on the wrong way round. Pulses are given as if turned.
    pub reversed: bool,
}

const START_SHARE: f64 = 0.15;
const BLOCK_S: f64 = 0.02;
const SMOOTH_S: f64 = 0.003;

/// Shortest event that counts as a pulse, s.
const LEAST_DURATION_S: f64 = 0.02;

/// Least length of a rest, blocks (0.12 s).
const REST_BLOCKS: usize = 6;

/// Finds the events of a current record. `None` with fewer than 16 samples or without a finite one.
pub fn read_current(x: &[f32], time: Time<'_>, options: &Options) -> Option<CurrentRecord> {
    let step = time.mean_step(x.len()).filter(|&s| s > 0.0)?;
    if x.len() < 16 {
        return None;
    }
    let noise = levels::noise_sigma(x);
    let n = ((SMOOTH_S / step).round() as usize).max(1);
    let mut average = held_average(x, time, n);
    let smooth_noise = noise / (n as f64).sqrt();
    let reversed = points_down(&average.values, smooth_noise);
    if reversed {
        average.values.iter_mut().for_each(|v| *v = -*v);
    }
    let (s, points) = (&average.values, average.time());
    let block = ((BLOCK_S / points.mean_step(s.len())?).round() as usize).max(2);
    let quiet = quiet_blocks(s, block, smooth_noise, options.least_peak)?;
    let levels_of: Vec<f64> = quiet.iter().map(|b| b.level).collect();
    let quiescent = stats::median(&levels_of)?;
    let ends = (time.at(0), time.at(x.len() - 1));
    let pulses = find_pulses(s, points, ends, &quiet, smooth_noise, options);
    let wake = wake_up(&quiet, smooth_noise).map(|(i, rise)| (points.at(i), rise));
    let sign = if reversed { -1.0 } else { 1.0 };
    let quiescent = sign * quiescent;
    let alive = match (pulses.is_empty(), wake) {
        (false, _) => CurrentLife::Pulsed,
        (true, Some(_)) => CurrentLife::Woke,
        (true, None) if quiescent.abs() >= options.least_quiescent => {
            CurrentLife::Quiescent(quiescent)
        }
        (true, None) => CurrentLife::None,
    };
    let threshold = threshold(s, quiescent.abs(), smooth_noise, options);
    Some(CurrentRecord {
        quiescent,
        noise,
        capability: PulseCapability {
            rise: options
                .least_peak
                .max(threshold + critical_value(smooth_noise, None, ALPHA)),
            duration_s: LEAST_DURATION_S,
        },
        alive,
        pulses,
        wake,
        reversed,
    })
}

/// The record's average over `n` samples. Over-range marks are events all the same: they count as the largest finite
/// value.
fn held_average(x: &[f32], time: Time<'_>, n: usize) -> Average {
    let marked = |c: &[f32]| c.iter().fold(false, |a, &v| a | (v == f32::INFINITY));
    if !x.chunks(1024).any(marked) {
        return Average::compute(x, time, n);
    }
    let finite = x.iter().copied().filter(|v| v.is_finite());
    let top = finite.fold(f32::NEG_INFINITY, f32::max);
    let held: Vec<f32> = x
        .iter()
        .map(|&v| if v == f32::INFINITY { top } else { v })
        .collect();
    Average::compute(&held, time, n)
}

/// Tells whether the record's events point downwards: its excursions from the median go down far more than up, and
/// come back within the record (a consumer that wakes does not).
fn points_down(s: &[f32], noise: f64) -> bool {
    let (mut lo, mut hi) = (f64::INFINITY, f64::NEG_INFINITY);
    for &v in s.iter().filter(|v| v.is_finite()) {
        lo = lo.min(v as f64);
        hi = hi.max(v as f64);
    }
    let Some(mid) = stats::sampled_quantile(s, 0.5, 100_000) else {
        return false;
    };
    let (down, up) = (mid - lo, hi - mid);
    if down <= 12.0 * noise || down <= 3.0 * up {
        return false;
    }
    let below: Vec<bool> = s.iter().map(|&v| (v as f64) < mid - 0.5 * down).collect();
    let enters = below.windows(2).any(|w| !w[0] && w[1]);
    enters && !below[0] && !below[below.len() - 1]
}

/// A stretch in which the current rests at a low level.
#[derive(Debug, Clone, Copy)]
struct Quiet {
    from: usize,
    level: f64,
}

fn quiet_blocks(s: &[f32], block: usize, noise: f64, least_peak: f64) -> Option<Vec<Quiet>> {
    let mut v = Vec::with_capacity(block);
    let blocks: Vec<(usize, f64, f64)> = s
        .chunks(block)
        .enumerate()
        .filter_map(|(k, c)| {
            v.clear();
            v.extend(c.iter().map(|&v| v as f64).filter(|v| v.is_finite()));
            let m = stats::median(&v)?;
            let lo = v.iter().copied().fold(f64::INFINITY, f64::min);
            let hi = v.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            Some((k * block, m, hi - lo))
        })
        .collect();
    let medians: Vec<f64> = blocks.iter().map(|b| b.1).collect();
    let low = stats::quantile(&medians, 0.05)?;
    let high = medians.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    // A resting level lies in the lower part of what the record shows; a stall's plateau does not.
    let ceiling = low + (0.35 * (high - low)).max(8.0 * noise).max(0.6 * least_peak);
    let rests = |b: &(usize, f64, f64)| b.1 <= ceiling && b.2 <= 8.0 * noise.max(1e-12);
    // The tail of an event can lie flat for a moment too; rest lasts longer.
    let calm: Vec<Quiet> = blocks
        .chunk_by(|a, b| rests(a) && rests(b) && (a.1 - b.1).abs() <= 6.0 * noise)
        .filter(|run| run.len() >= REST_BLOCKS && run.iter().all(rests))
        .flatten()
        .map(|&(from, level, _)| Quiet { from, level })
        .collect();
    if !calm.is_empty() {
        return Some(calm);
    }
    // Nothing rests: take the lowest block for what there is.
    blocks
        .iter()
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|&(from, level, _)| vec![Quiet { from, level }])
}

/// Median level of up to five quiet blocks before (or after) a sample.
fn level_near(quiet: &[Quiet], i: usize, before: bool) -> Option<f64> {
    let k = quiet.partition_point(|q| q.from < i);
    let near = if before {
        &quiet[k.saturating_sub(5)..k]
    } else {
        &quiet[k..(k + 5).min(quiet.len())]
    };
    stats::median(&near.iter().map(|q| q.level).collect::<Vec<_>>())
}

/// Current over the quiescent one from which on an event is looked at: eight standard deviations of the smoothed noise,
/// half of the least peak, a twentieth of the largest current.
fn threshold(s: &[f32], quiescent: f64, noise: f64, o: &Options) -> f64 {
    let finite = s.iter().copied().filter(|v| v.is_finite());
    let top = f64::from(finite.fold(f32::NEG_INFINITY, f32::max));
    (8.0 * noise)
        .max(0.5 * o.least_peak)
        .max(0.05 * (top - quiescent))
}

/// Events of the average `s` at the points of `time`; `ends` are the record's first and last instant.
fn find_pulses(
    s: &[f32],
    time: Time<'_>,
    ends: (f64, f64),
    quiet: &[Quiet],
    noise: f64,
    o: &Options,
) -> Vec<CurrentPulse> {
    let base_all = stats::median(&quiet.iter().map(|q| q.level).collect::<Vec<_>>()).unwrap_or(0.0);
    let threshold = threshold(s, base_all, noise, o);
    let mut pulses: Vec<CurrentPulse> = Vec::new();
    let mut i = 0;
    while i < s.len() {
        let base = level_near(quiet, i + 1, true)
            .or_else(|| level_near(quiet, i, false))
            .unwrap_or(base_all);
        // Walk on within stretches of one baseline: up to the next quiet block.
        let next = quiet.partition_point(|q| q.from <= i);
        let stop = quiet.get(next).map_or(s.len(), |q| q.from).max(i + 1);
        let Some(up) = (i..stop).find(|&k| s[k] as f64 > base + threshold) else {
            i = stop;
            continue;
        };
        let after = level_near(quiet, up, false).unwrap_or(base);
        let floor = base.max(after);
        let down = (up..s.len())
            .find(|&k| (s[k] as f64) < floor + 0.5 * threshold)
            .unwrap_or(s.len());
        if let Some(pulse) = measure(s, time, ends, up..down, (base, after), o) {
            // One event seen twice: the larger view of it counts.
            match pulses.last_mut().filter(|h| pulse.start_s < h.end_s) {
                Some(last) if last.rise() < pulse.rise() => *last = pulse,
                Some(_) => {}
                None => pulses.push(pulse),
            }
        }
        i = down.max(up + 1);
    }
    pulses.retain(|h| h.rise() >= o.least_peak && h.duration_s() >= LEAST_DURATION_S);
    pulses
}

/// Measures the event between two threshold crossings.
fn measure(
    s: &[f32],
    time: Time<'_>,
    ends: (f64, f64),
    above: std::ops::Range<usize>,
    (before, after): (f64, f64),
    o: &Options,
) -> Option<CurrentPulse> {
    let top = above
        .filter(|&k| s[k].is_finite())
        .max_by(|&a, &b| s[a].total_cmp(&s[b]))?;
    let peak = s[top] as f64;
    // An event that never comes back and only changed the resting level is not a pulse.
    let rise = peak - before;
    if after - before > 0.6 * rise {
        return None;
    }
    let level_in = before + START_SHARE * rise;
    let level_out = before.max(after) + START_SHARE * (peak - before.max(after));
    let below_in = (0..top).rev().find(|&k| (s[k] as f64) < level_in);
    let below_out = (top..s.len()).find(|&k| (s[k] as f64) < level_out);
    let cross = |i: usize, j: usize, level: f64| {
        let (a, b) = (s[i] as f64, s[j] as f64);
        let f = if a == b {
            0.0
        } else {
            ((level - a) / (b - a)).clamp(0.0, 1.0)
        };
        time.at(i) + f * (time.at(j) - time.at(i))
    };
    let start_s = below_in.map_or(ends.0, |k| cross(k, k + 1, level_in));
    let end_s = below_out.map_or(ends.1, |k| cross(k - 1, k, level_out));
    let (from, to) = (below_in.map_or(0, |k| k + 1), below_out.unwrap_or(s.len()));
    let near_peak = before + o.stall_share * rise;
    let mean_step = (end_s - start_s) / (to - from).max(1) as f64;
    let (mut charge, mut held) = (0.0, 0usize);
    for &v in &s[from..to] {
        if v.is_finite() {
            charge += (v as f64 - before) * mean_step;
            held += usize::from(v as f64 >= near_peak);
        }
    }
    let hold_s = held as f64 * mean_step;
    Some(CurrentPulse {
        start_s,
        end_s,
        peak,
        peak_at_s: time.at(top),
        quiescent: before,
        charge,
        hold_s,
        stalled: hold_s >= o.stall_hold_s,
        cut: below_in.is_none() || below_out.is_none(),
    })
}

/// A single lasting rise of the resting level: the consumer woke. Least-squares split of the quiet levels in
/// two; returned when the step is plain against the scatter and both sides are long enough to be believed.
fn wake_up(quiet: &[Quiet], noise: f64) -> Option<(usize, f64)> {
    const SIDE: usize = 5;
    let n = quiet.len();
    if n < 4 * SIDE {
        return None;
    }
    let total: f64 = quiet.iter().map(|q| q.level).sum();
    let mut left = 0.0;
    let mut best: Option<(usize, f64, f64)> = None;
    for k in 1..n {
        left += quiet[k - 1].level;
        if k < SIDE || n - k < SIDE {
            continue;
        }
        let (a, b) = (left / k as f64, (total - left) / (n - k) as f64);
        // Between-groups sum of squares: largest where the split is best.
        let gain = (b - a) * (b - a) * (k * (n - k)) as f64 / n as f64;
        if best.is_none_or(|x| gain > x.2) {
            best = Some((k, b - a, gain));
        }
    }
    let (k, rise, _) = best?;
    let spread = |part: &[Quiet]| {
        let v: Vec<f64> = part.iter().map(|q| q.level).collect();
        1.4826 * stats::median_abs_deviation(&v).unwrap_or(0.0)
    };
    let scatter = spread(&quiet[..k]).max(spread(&quiet[k..]));
    (rise > 6.0 * scatter && rise > 4.0 * noise).then_some((quiet[k].from, rise))
}

#[cfg(test)]
mod tests {
    use super::*;

    const OPTIONS: Options = Options {
        least_peak: 2.0,
        stall_hold_s: 0.4,
        stall_share: 0.7,
        least_quiescent: 0.1,
    };

    fn wave(n: usize, rate: f64, f: impl Fn(f64) -> f64) -> Vec<f32> {
        // A small fixed ripple stands for noise.
        (0..n)
            .map(|i| (f(i as f64 / rate) + 0.02 * ((i * 7919 % 13) as f64 / 6.0 - 1.0)) as f32)
            .collect()
    }

    /// Worked example (reference: V = 12.6 V, R = 0.35 ohm, L = 0.7 mH): stall at V/R = 36 A with a time
    /// constant of 2 ms; 15 % of the peak is passed 2 ms * ln(1/0.85) = 0.325 ms after the onset.
    #[test]
    fn stall_of_the_worked_example() {
        let rate = 20_000.0;
        let x = wave(60_000, rate, |t| match t {
            t if (1.0..2.0).contains(&t) => 36.0 * (1.0 - (-(t - 1.0) / 0.002).exp()),
            _ => 0.0,
        });
        let r = read_current(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1.0 / rate,
            },
            &OPTIONS,
        )
        .unwrap();
        assert_eq!(r.pulses.len(), 1);
        let h = r.pulses[0];
        assert!(h.stalled && !h.cut);
        assert_eq!(r.alive, CurrentLife::Pulsed);
        // The smoothing window is 3 ms wide.
        assert!((h.start_s - 1.000325).abs() < 0.002, "{}", h.start_s);
        assert!((h.end_s - 2.0).abs() < 0.002, "{}", h.end_s);
        assert!((h.peak - 36.0).abs() < 0.05, "{}", h.peak);
        // Charge: 36 A * (1 s - tau) = 35.93 As (closed form).
        assert!((h.charge - 35.93).abs() < 0.1, "{}", h.charge);
    }

    /// Closed form: a triangle of 15 A over 0.2 s passes 15 % at 15 % of either flank, charge 1.5 As less
    /// the two corners below 15 % (2.25 % of it).
    #[test]
    fn triangle_hit() {
        let x = wave(8_000, 4_000.0, |t| {
            1.0 + (15.0 * (1.0 - (t - 1.0).abs() / 0.1)).max(0.0)
        });
        let r = read_current(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1.0 / 4_000.0,
            },
            &OPTIONS,
        )
        .unwrap();
        assert_eq!(r.pulses.len(), 1);
        let h = r.pulses[0];
        assert!(!h.stalled);
        assert!((h.start_s - 0.915).abs() < 0.003 && (h.end_s - 1.085).abs() < 0.003);
        assert!((h.peak - 16.0).abs() < 0.3 && (h.quiescent - 1.0).abs() < 0.05);
        // 15 to 85 % of a triangle: 0.9775 of its charge.
        assert!((h.charge - 1.5 * 0.9775).abs() < 0.03, "{}", h.charge);
    }

    #[test]
    fn a_clamp_the_wrong_way_round() {
        let x = wave(8_000, 4_000.0, |t| {
            -1.0 - (15.0 * (1.0 - (t - 1.0).abs() / 0.1)).max(0.0)
        });
        let r = read_current(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1.0 / 4_000.0,
            },
            &OPTIONS,
        )
        .unwrap();
        assert!(r.reversed && r.pulses.len() == 1);
        assert!((r.pulses[0].rise() - 15.0).abs() < 0.3 && (r.quiescent + 1.0).abs() < 0.05);
    }

    #[test]
    fn waking_is_no_hit() {
        let x = wave(20_000, 4_000.0, |t| if t < 0.7 { 0.0 } else { 1.1 });
        let r = read_current(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1.0 / 4_000.0,
            },
            &OPTIONS,
        )
        .unwrap();
        assert!(r.pulses.is_empty(), "{:?}", r.pulses);
        let (t, rise) = r.wake.unwrap_or_else(|| panic!("{r:?}"));
        assert!((t - 0.7).abs() < 0.05 && (rise - 1.1).abs() < 0.05);
    }

    #[test]
    fn quiet_record_has_no_hits() {
        let x = wave(8_000, 4_000.0, |_| 0.8);
        let r = read_current(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1.0 / 4_000.0,
            },
            &OPTIONS,
        )
        .unwrap();
        assert!(r.pulses.is_empty() && r.wake.is_none() && !r.reversed);
    }

    /// Pulses just above and just below the capability that is stated: what is stated to be visible is seen.
    #[test]
    fn the_capability_is_kept() {
        let time = Time::Even {
            start_s: 0.0,
            step_s: 1e-3,
        };
        let free = Options {
            least_peak: 0.0,
            ..OPTIONS
        };
        let quiet = wave(8_000, 1_000.0, |_| 0.0);
        let r = read_current(&quiet, time, &free).unwrap();
        assert_eq!((r.alive, r.pulses.len()), (CurrentLife::None, 0));
        let with = |rise: f64| {
            let x = wave(8_000, 1_000.0, |t| {
                if (3.0..3.2).contains(&t) { rise } else { 0.0 }
            });
            read_current(&x, time, &free).unwrap().pulses.len()
        };
        assert_eq!(
            (with(1.2 * r.capability.rise), with(0.3 * r.capability.rise)),
            (1, 0)
        );
    }

    #[test]
    fn a_quiescent_current_proves_life() {
        let time = Time::Even {
            start_s: 0.0,
            step_s: 1e-3,
        };
        let x = wave(4_000, 1_000.0, |_| 0.35);
        let r = read_current(&x, time, &OPTIONS).unwrap();
        assert!(matches!(r.alive, CurrentLife::Quiescent(a) if (a - 0.35).abs() < 0.02));
    }
}
