//! Start attempts, found from what the starter draws.

use plugin_sdk::signal::windows::{average, median, quantile};

/// A start attempt; instants in samples of the record.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cranking {
    /// The load begins: the solenoid pulls in, or the contacts close.
    pub engaged: usize,
    /// The motor's contacts close: the current jumps.
    pub closed: usize,
    /// Highest sample of the inrush.
    pub peak: usize,
    /// First sample at which the engine turns steadily.
    pub steady: usize,
    /// Sample after the last at which it does.
    pub steady_end: usize,
    /// The starter is switched off.
    pub end: usize,
    /// False where the record begins with the starter engaged: then neither rest nor inrush was recorded.
    pub from_rest: bool,
}

impl Cranking {
    /// The same attempt with each of its samples moved.
    pub fn moved(self, to: impl Fn(usize) -> usize) -> Cranking {
        Cranking {
            engaged: to(self.engaged),
            closed: to(self.closed),
            peak: to(self.peak),
            steady: to(self.steady),
            steady_end: to(self.steady_end),
            end: to(self.end),
            from_rest: self.from_rest,
        }
    }
}

/// Time from the closing of the contacts until the engine turns steadily, s: it passes its first compression.
const SETTLING_S: f64 = 0.45;
/// Left out before the end, s.
const ENDING_S: f64 = 0.06;
/// Shortest load that is a start attempt, s.
const SHORTEST_S: f64 = 0.25;
/// Shorter interruptions are part of it, s.
const INTERRUPTION_S: f64 = 0.06;
/// Interruptions of up to this long, s, are part of it where no new inrush follows: a light engine with a cylinder that
/// does not compress turns almost by itself for a stroke.
const STROKE_S: f64 = 0.6;
/// Share of the inrush from which a load that sets in again is a new attempt.
const NEW_INRUSH: f64 = 0.8;
/// Share of the load's typical height above which the starter is engaged.
const ENGAGED: f64 = 0.35;
/// Share of the steady level below which the engine runs by itself.
const STARTED: f64 = 0.55;
/// How far a later peak stands above that of the load's beginning from which it is the inrush, and other consumers were on before
/// it: those that feed on from the battery while an engine stops at a light.
const LATER_INRUSH: f64 = 1.5;
/// Stretch before an inrush whose median is the level that it rises from, s.
const BEFORE_S: (f64, f64) = (0.3, 0.06);
/// Least ratio of the inrush to what is drawn afterwards; a motor that turns draws less than one that stands.
const INRUSH: f64 = 1.25;

/// Finds start attempts in a load: a current in A, or the depth of a voltage's fall in V, whose steady level lies at
/// least `least` above the rest before it. Where nobody says that the engine is `cranked`, a load without an inrush is
/// another consumer's. Nothing is found where the samples are too coarse (more than 20 ms apart).
pub fn attempts(load: &[f64], step_s: f64, least: f64, cranked: bool) -> Vec<Cranking> {
    if step_s <= 0.0 || step_s > 0.02 || load.len() < 16 {
        return Vec::new();
    }
    let samples = |s: f64| ((s / step_s).round() as usize).max(1);
    let level = average(load, samples(0.01));
    let Some(rest) = quantile(&level, 0.03) else {
        return Vec::new();
    };
    let highest = level.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let above = rest + 0.12 * (highest - rest);
    let loaded: Vec<f64> = level.iter().copied().filter(|v| *v > above).collect();
    let Some(steady) = median(&loaded) else {
        return Vec::new();
    };
    if steady - rest < least {
        return Vec::new();
    }
    let threshold = rest + ENGAGED * (steady - rest);
    let all = loads(&level, threshold, samples(INTERRUPTION_S));
    strokes(all, &level, rest, &samples)
        .into_iter()
        .filter(|(from, to)| to - from >= samples(SHORTEST_S))
        .filter_map(|(from, to)| attempt(load, &level, rest, from, to, &samples))
        .filter(|c| cranked || has_inrush(load, rest, c))
        .collect()
}

fn attempt(
    load: &[f64],
    level: &[f64],
    rest: f64,
    from: usize,
    to: usize,
    samples: &impl Fn(f64) -> usize,
) -> Option<Cranking> {
    let first = from.saturating_sub(samples(0.01));
    let highest = |to: usize| (first..to).max_by(|&a, &b| load[a].total_cmp(&load[b]));
    let (early, later) = (highest((from + samples(0.25)).min(to))?, highest(to)?);
    let before = level
        .get(later.saturating_sub(samples(BEFORE_S.0))..later.saturating_sub(samples(BEFORE_S.1)));
    let (peak, rest) = match before.and_then(median) {
        Some(base) if load[later] - base > LATER_INRUSH * (load[early] - rest).max(base - rest) => {
            (later, base)
        }
        _ => (early, rest),
    };
    let first = first.max(peak.saturating_sub(samples(0.3)));
    let half = rest + 0.5 * (load[peak] - rest);
    let closed = (first.saturating_sub(samples(0.05))..peak)
        .rev()
        .find(|&i| load[i] < half)
        .map_or(first, |i| i + 1);
    let tenth = rest + 0.03 * (load[peak] - rest);
    let engaged = (closed.saturating_sub(samples(0.3))..closed)
        .rev()
        .find(|&i| level[i] < tenth)
        .map_or(closed, |i| i + 1);
    let steady = closed + samples(SETTLING_S);
    let mut steady_end = to.saturating_sub(samples(ENDING_S));
    if steady < steady_end {
        // Once the engine fires, the starter turns along without a load.
        let slow = average(&load[steady..steady_end], samples(0.4));
        let usual = median(&slow[..slow.len().min(samples(0.8))])?;
        let fired = slow
            .iter()
            .position(|v| v - rest < STARTED * (usual - rest));
        steady_end = fired.map_or(steady_end, |k| steady + k.saturating_sub(samples(0.1)));
    }
    Some(Cranking {
        engaged,
        closed,
        peak,
        steady: steady.min(to),
        steady_end: steady_end.max(steady.min(to)),
        end: to,
        from_rest: from > 0,
    })
}

/// True for a load that begins with a peak well above its further course, as that of a motor that gathers speed does.
fn has_inrush(load: &[f64], rest: f64, c: &Cranking) -> bool {
    let turning = load.get(c.steady..c.steady_end).unwrap_or_default();
    median(turning).is_none_or(|usual| load[c.peak] - rest >= INRUSH * (usual - rest))
}

/// Joins the strokes of one attempt: spans that follow each other soon and set in without an inrush of their own.
fn strokes(
    all: Vec<(usize, usize)>,
    level: &[f64],
    rest: f64,
    samples: &impl Fn(f64) -> usize,
) -> Vec<(usize, usize)> {
    let inrush = |(from, to): (usize, usize)| {
        let part = &level[from..(from + samples(0.25)).min(to)];
        part.iter().copied().fold(rest, f64::max) - rest
    };
    let mut joined: Vec<(usize, usize)> = Vec::new();
    for span in all {
        match joined.last_mut() {
            Some(last)
                if span.0 <= last.1 + samples(STROKE_S)
                    && inrush(span) < NEW_INRUSH * inrush(*last) =>
            {
                last.1 = span.1;
            }
            _ => joined.push(span),
        }
    }
    joined
}

/// Spans above a threshold; interruptions of up to `gap` samples are part of them.
fn loads(level: &[f64], threshold: f64, gap: usize) -> Vec<(usize, usize)> {
    let mut spans: Vec<(usize, usize)> = Vec::new();
    for (i, _) in level.iter().enumerate().filter(|(_, v)| **v > threshold) {
        match spans.last_mut() {
            Some(last) if i <= last.1 + gap => last.1 = i + 1,
            _ => spans.push((i, i + 1)),
        }
    }
    spans
}
