//! Runs of a motor: switching on and off, inrush, steady stretch.

use plugin_sdk::signal::Measured;
use plugin_sdk::signal::windows::{average, median, quantile, resolution, spread};

/// A motor switched on; instants in samples of the record.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run {
    /// It is switched on; the record's start where that was not recorded.
    pub on: usize,
    /// It is switched off; the record's length where that was not recorded.
    pub off: usize,
    /// True where the switching on was recorded.
    pub from_rest: bool,
    /// Current before it, A; 0 where that was not recorded.
    pub rest: f64,
}

/// Interruptions of the current of up to this long, s, are the motor's own: an open bar under its brush.
const INTERRUPTION_S: f64 = 0.06;
/// Shortest time on that is looked at, s.
const SHORTEST_S: f64 = 0.02;
/// Share of a voltage's high level above which the motor is on.
const ON: f64 = 0.5;
/// Share of the highest current above which it is on.
const DRAWS: f64 = 0.1;
/// Share of the level within which a motor runs steadily.
const STEADY: f64 = 0.06;
/// Shortest steady stretch, s.
const STEADY_S: f64 = 0.15;

/// Share of the samples, and of the largest value, from which what lies below zero is a motor that turns backwards.
const BACKWARDS: (f64, f64) = (0.05, 0.3);

/// Takes the sign off a current or voltage of a motor that turns in either direction, or whose clamp is reversed.
pub fn without_direction(x: &mut [f64]) {
    let most = quantile(x, 0.995).unwrap_or(0.0);
    let least = quantile(x, BACKWARDS.0).unwrap_or(0.0);
    if least < -BACKWARDS.1 * most.max(-least) {
        x.iter_mut().for_each(|v| *v = v.abs());
    }
}

/// Finds when the motor is on: by its voltage, where that was recorded and switches, else by its current.
pub fn runs(current: &[f64], voltage: Option<&[f64]>, step_s: f64) -> Vec<Run> {
    let samples = |s: f64| ((s / step_s).round() as usize).max(1);
    let by_voltage = voltage.and_then(|v| switched(v, samples(0.004), ON, 3.0));
    let Some((level, threshold)) = by_voltage.or_else(|| {
        let noise = noise_floor(current);
        switched(current, samples(0.002), DRAWS, 8.0 * noise)
    }) else {
        return Vec::new();
    };
    let mut spans: Vec<(usize, usize)> = Vec::new();
    for i in (0..level.len()).filter(|&i| level[i] > threshold) {
        match spans.last_mut() {
            Some(last) if i <= last.1 + samples(INTERRUPTION_S) => last.1 = i + 1,
            _ => spans.push((i, i + 1)),
        }
    }
    spans
        .into_iter()
        .filter(|(a, b)| b - a >= samples(SHORTEST_S))
        .map(|(a, b)| {
            let from_rest = a > samples(0.003);
            let before = &current[a.saturating_sub(samples(0.2))..a.saturating_sub(samples(0.002))];
            let b = drawn_until(current, a, b, samples(0.002));
            Run {
                on: if from_rest {
                    rise(current, a, samples(0.01))
                } else {
                    0
                },
                off: if b + samples(0.003) < level.len() {
                    b
                } else {
                    level.len()
                },
                from_rest,
                rest: if from_rest {
                    median(before).unwrap_or(0.0)
                } else {
                    0.0
                },
            }
        })
        .collect()
}

/// Smoothed record and the threshold between off and on; `None` where the record does not reach `least` above its
/// low level, or where it has none.
fn switched(x: &[f64], n: usize, share: f64, least: f64) -> Option<(Vec<f64>, f64)> {
    let level = average(x, n);
    let high = level.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let low = quantile(&level, 0.02)?;
    // A record that begins and ends with the motor on has no low level: zero is one.
    let low = if low > 0.3 * high { 0.0 } else { low };
    (high - low > least).then_some((level, low + share * (high - low)))
}

/// The last sample of a span at which the motor draws: once it is switched off, its own back-EMF keeps the voltage up.
/// The span's end for a motor that draws nothing at all.
fn drawn_until(current: &[f64], from: usize, to: usize, n: usize) -> usize {
    let level = average(&current[from..to], n);
    let top = quantile(&level, 0.9).unwrap_or(0.0);
    if top < 8.0 * noise_floor(current) {
        return to;
    }
    let last = level
        .iter()
        .rposition(|v| *v > DRAWS * top)
        .unwrap_or(level.len());
    if to - (from + last) > n {
        from + last
    } else {
        to
    }
}

/// Noise of the quieter end of a record: a motor that runs at its beginning leaves its ripple there.
fn noise_floor(x: &[f64]) -> f64 {
    let n = (x.len() / 20).max(8).min(x.len());
    let quiet = spread(&x[..n]).min(spread(&x[x.len() - n..]));
    quiet.max(resolution(x))
}

/// The last sample near `at` at which the current has not begun to rise.
fn rise(current: &[f64], at: usize, near: usize) -> usize {
    let from = at.saturating_sub(near);
    let to = (at + 2 * near).min(current.len());
    let base = median(&current[from.saturating_sub(near)..from.max(1)]).unwrap_or(0.0);
    let top = current[from..to]
        .iter()
        .copied()
        .fold(f64::NEG_INFINITY, f64::max);
    let peak = (from..to).find(|&i| current[i] >= top).unwrap_or(at);
    (from..peak)
        .rev()
        .find(|&i| current[i] - base < 0.05 * (top - base))
        .unwrap_or(at)
}

/// Peak of the start, in A: highest mean over 0.25 ms (three samples at least) within 0.35 s of switching on. `None`
/// where the start was not recorded.
pub fn inrush(current: &[f64], start_s: f64, step_s: f64, run: &Run) -> Option<Measured> {
    if !run.from_rest {
        return None;
    }
    let to = (run.on + (0.35 / step_s) as usize).min(run.off);
    let n = ((0.00025 / step_s) as usize).max(if step_s < 0.0005 { 3 } else { 1 });
    let part = average(current.get(run.on..to)?, n);
    let at = (0..part.len()).max_by(|&a, &b| part[a].total_cmp(&part[b]))?;
    let noise = spread(&current[run.on.saturating_sub((0.1 / step_s) as usize)..run.on]);
    Some(Measured {
        value: part[at],
        uncertainty: (0.01 * part[at])
            .hypot(noise)
            .max(resolution(current) / 12f64.sqrt()),
        from_s: start_s + run.on as f64 * step_s,
        to_s: start_s + to as f64 * step_s,
    })
}

/// Samples from the first to after the last at which the motor runs steadily: 20 ms means within 6 % of their median
/// until it is switched off. `None` where it never does for 0.15 s, or where the current still falls or climbs.
pub fn steady(current: &[f64], step_s: f64, run: &Run) -> Option<(usize, usize)> {
    let samples = |s: f64| ((s / step_s).round() as usize).max(1);
    let off = if run.off < current.len() {
        run.off.saturating_sub(samples(0.03))
    } else {
        run.off
    };
    let block = samples(0.02);
    let part = current.get(run.on..off)?;
    let blocks: Vec<f64> = part.chunks_exact(block).filter_map(median).collect();
    let level = median(&blocks[blocks.len() / 2..])?;
    let noise = spread(&blocks[blocks.len() / 2..]);
    let alike = |v: &f64| (v - level).abs() <= (STEADY * level.abs()).max(4.0 * noise);
    let first = blocks.len() - blocks.iter().rev().take_while(|v| alike(v)).count();
    let (from, to) = (run.on + first * block, run.on + blocks.len() * block);
    if to < from + samples(STEADY_S) {
        return None;
    }
    // Ten parts of the stretch tell a level from a slope.
    let steady = &blocks[first..];
    let third = steady.len() / 3;
    let (early, late) = (
        median(&steady[..third])?,
        median(&steady[steady.len() - third..])?,
    );
    let drift = (early - late).abs();
    (drift <= (0.05 * level.abs()).max(4.0 * noise)).then_some((from, to))
}

/// Median current over a steady stretch, A.
pub fn running_current(
    current: &[f64],
    start_s: f64,
    step_s: f64,
    steady: (usize, usize),
) -> Option<Measured> {
    let part = current.get(steady.0..steady.1)?;
    let value = median(part)?;
    Some(Measured {
        value,
        uncertainty: (spread(part) / (part.len() as f64 / 50.0).max(1.0).sqrt())
            .max(resolution(part) / 12f64.sqrt()),
        from_s: start_s + steady.0 as f64 * step_s,
        to_s: start_s + steady.1 as f64 * step_s,
    })
}
