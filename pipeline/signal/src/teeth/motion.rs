//! Speed over a run of placed edges: per revolution, never from tooth to tooth.

use super::positions::PlacedEdge;
use super::reject::RejectReason;
use super::wheel::FEW_TEETH;
use crate::stats;
use std::collections::VecDeque;

/// One revolution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turn {
    /// Start, s.
    pub start_s: f64,
    /// End, s.
    pub end_s: f64,
    /// Speed: 60 over its duration, rpm.
    pub rpm: f64,
}

/// Course of a speed over a segment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trend {
    /// Stays within a quarter of itself.
    Steady,
    /// Ends at its highest, at least a quarter above its start.
    Rises,
    /// Ends at less than 0.8 of its highest.
    Falls,
    /// Changes otherwise.
    Varies,
}

/// End of a segment of turning.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ending {
    /// Slows down to nothing.
    Decay,
    /// Stops from speed.
    Sudden,
    /// The record ends first.
    RecordEnd,
}

/// Longest stretch of steady speed within a segment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plateau {
    /// Start, s.
    pub start_s: f64,
    /// End, s.
    pub end_s: f64,
    /// Median rate, pitch positions per second.
    pub hz: f64,
}

/// Motion over a segment. Rates count pitch positions per second, averaged over a revolution (over a cycle of the
/// pattern or eight positions where the turn is not known).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motion {
    /// Rate, median by time, Hz.
    pub hz: f64,
    /// Speed, median by time, rpm; `None` where the positions per turn are not known.
    pub rpm: Option<f64>,
    /// Half of the range from 16 to 84 % of the rate by time, Hz.
    pub spread_hz: f64,
    /// Rate at the start, Hz.
    pub first_hz: f64,
    /// Rate at the end, Hz.
    pub last_hz: f64,
    /// Lowest rate, Hz.
    pub lowest_hz: f64,
    /// Highest rate, Hz.
    pub highest_hz: f64,
    /// Course of the speed.
    pub trend: Trend,
    /// End of the segment.
    pub ending: Ending,
    /// Longest stretch of steady speed.
    pub plateau: Plateau,
    /// Upper quartile of |ln| of the ratio of a pitch to the mean of those before and after it, over so many positions that
    /// sampling does not show.
    pub scatter: f64,
    /// Change of the rate from one window to the next, Hz/s: nine in ten stay below.
    pub acceleration_hz_s: f64,
    /// Share of the period on the high level, median.
    pub duty: f64,
    /// Change of that share from one pitch to the next, or to that of the same tooth a turn later, the smaller of the two:
    /// upper quartile over the root of two. Teeth keep their width; a tooth that trembles before its sensor does not.
    pub duty_scatter: f64,
    /// Amplitude from peak to peak, median, in the signal's unit.
    pub amplitude: f64,
    /// Samples per pitch position at the segment's rate; infinite for a list of level changes.
    pub samples_per_pitch: f64,
    /// Pitch positions passed.
    pub positions: u32,
}

/// Share of the period on the high level, see [`Motion`].
#[derive(Debug, Clone, Copy)]
pub(super) struct Duty {
    pub share: f64,
    pub scatter: f64,
}

/// Samples over which one sample at either end hardly shows in a rate (1.5 %).
const SAMPLES_PER_RATE: f64 = 64.0;

/// Samples of a group of pitches at which one sample at either end is no scatter (0.02 of 32).
const SAMPLES_PER_GROUP: f64 = 32.0;

/// Edges of one run with their cumulative positions.
pub(super) struct Track<'a> {
    pub edges: &'a [PlacedEdge],
    position: Vec<f64>,
    /// Index of the last edge after a hole at or before each edge.
    since: Vec<usize>,
    /// Positions over which a rate is averaged.
    window: f64,
    /// Most positions without a hole.
    longest_piece: f64,
}

impl<'a> Track<'a> {
    /// `window`: positions per turn; `widest`: longest pitch of the wheel, positions.
    pub fn new(edges: &'a [PlacedEdge], window: u32, widest: f64) -> Track<'a> {
        let mut position = Vec::with_capacity(edges.len());
        let mut since = Vec::with_capacity(edges.len());
        let (mut sum, mut start) = (0.0, 0);
        for (k, e) in edges.iter().enumerate() {
            sum += f64::from(e.step);
            if f64::from(e.step) > widest.round() + 4.0 {
                start = k;
            }
            position.push(sum);
            since.push(start);
        }
        let pieces = position.iter().zip(&since);
        let longest_piece = pieces.fold(0.0, |most, (p, from)| f64::max(most, p - position[*from]));
        Track {
            edges,
            position,
            since,
            window: f64::from(window.max(1)),
            longest_piece,
        }
    }

    pub fn positions(&self) -> f64 {
        self.position.last().copied().unwrap_or(0.0)
    }

    pub fn start_s(&self) -> f64 {
        self.edges.first().map_or(0.0, |e| e.at_s)
    }

    pub fn end_s(&self) -> f64 {
        self.edges.last().map_or(0.0, |e| e.at_s)
    }

    /// Time at which the position lay `back` before that of edge `k`; `None` before the run or across a hole.
    fn time_before(&self, k: usize, back: f64, hint: &mut usize) -> Option<f64> {
        let wanted = self.position[k] - back;
        let from = self.since[k];
        if wanted < self.position[from] - 1e-9 {
            return None;
        }
        let mut j = (*hint).max(from);
        while j < k && self.position[j + 1] <= wanted + 1e-9 {
            j += 1;
        }
        *hint = j;
        let over = wanted - self.position[j];
        if over < 1e-9 || j >= k {
            return Some(self.edges[j].at_s);
        }
        let (a, b) = (self.edges[j].at_s, self.edges[j + 1].at_s);
        Some(a + (b - a) * over / (self.position[j + 1] - self.position[j]))
    }

    /// Rates over the window that ends at each edge: start, end, Hz. Over all there is where that is less.
    pub fn sliding(&self, window: f64) -> impl Iterator<Item = (f64, f64, f64)> + '_ {
        let window = window.min(self.longest_piece);
        let mut hint = 0;
        (1..self.edges.len()).filter_map(move |k| {
            let start = self.time_before(k, window, &mut hint)?;
            let end = self.edges[k].at_s;
            (end > start).then(|| (start, end, window / (end - start)))
        })
    }

    /// Rates over windows that do not overlap: start, end, Hz.
    pub fn successive(&self, window: f64) -> Vec<(f64, f64, f64)> {
        let mut out: Vec<(f64, f64, f64)> = Vec::new();
        for w in self.sliding(window) {
            if out.last().is_none_or(|last| w.0 >= last.1 - 1e-12) {
                out.push(w);
            }
        }
        out
    }

    /// Upper quartile of how far a pitch (or a group of them, where sampling would show) strays from the mean of those a
    /// cycle before and after it, |ln|: an acceleration strays by nothing. `None` over too few pitches.
    fn scatter(&self, samples_per_pitch: f64, cycle: u32) -> Option<f64> {
        let samples = (SAMPLES_PER_GROUP / samples_per_pitch).ceil().max(1.0);
        let cycle = f64::from(cycle);
        let (group, lag) = match samples {
            1.0 => (1.0, cycle as usize),
            _ => ((samples / cycle).ceil() * cycle, 1),
        };
        let most = (self.positions() / 4.0).floor().max(1.0);
        let logs: Vec<f64> = match group {
            1.0 => self
                .edges
                .windows(2)
                .map(|w| ((w[1].at_s - w[0].at_s) / f64::from(w[1].step)).ln())
                .collect(),
            _ => self
                .successive(group.min(most))
                .iter()
                .map(|w| -w.2.ln())
                .collect(),
        };
        // The pattern may repeat several times a turn.
        let lags = (1..=lag).filter(|n| lag.is_multiple_of(*n) && logs.len() > 3 * n);
        let stray = |lag: usize| {
            let off = (lag..logs.len().saturating_sub(lag))
                .map(|k| (logs[k] - (logs[k - lag] + logs[k + lag]) / 2.0).abs());
            stats::quantile_of(&mut off.collect(), 0.75)
        };
        lags.filter_map(stray).reduce(f64::min)
    }

    /// Motion over the run. `cycle`: positions after which unequal pitches repeat, 1 for equal ones.
    #[allow(clippy::too_many_arguments)]
    pub fn motion(
        &self,
        cycle: u32,
        turn: Option<u32>,
        step_s: f64,
        record_end_s: f64,
        duty: Duty,
        amplitude: f64,
    ) -> Option<Motion> {
        // Over few turns a window of one would leave out half a turn at either end.
        let part = (self.positions() / 12.0).floor().max(4.0);
        let whole = f64::from(cycle);
        let sliding = self.sliding(self.window.min((part / whole).ceil() * whole));
        let mut weighted = self.weigh(&sliding.collect::<Vec<_>>(), cycle, step_s);
        weighted.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
        let hz = rate_quantile(&weighted, 0.5)?;
        let spread_hz = (rate_quantile(&weighted, 0.84)? - rate_quantile(&weighted, 0.16)?) / 2.0;
        let samples_per_pitch = if step_s > 0.0 {
            1.0 / (hz * step_s)
        } else {
            f64::INFINITY
        };
        // Uneven teeth come back a turn later, and the jerks of a four-stroke engine two turns later. Groups of pitches
        // would be whole turns, which show nothing.
        let by_turn = turn.filter(|_| samples_per_pitch >= SAMPLES_PER_GROUP);
        let by_cycle = by_turn.filter(|n| *n <= FEW_TEETH).map(|n| 2 * n);
        let windows = self.course(cycle);
        let changes = windows
            .windows(2)
            .map(|w| ((w[1].2 - w[0].2) / (w[1].1 - w[0].1)).abs());
        let acceleration_hz_s = stats::quantile_of(&mut changes.collect(), 0.9).unwrap_or(0.0);
        let smooth: Vec<f64> = smooth_rates(&windows);
        let plateau = find_plateau(&windows, hz);
        let extreme = |f: fn(f64, f64) -> f64, from: f64| smooth.iter().copied().fold(from, f);
        let first_hz = smooth.first().copied().unwrap_or(hz);
        let last_hz = smooth.last().copied().unwrap_or(hz);
        let ending = self.ending(record_end_s, plateau.hz, cycle);
        Some(Motion {
            hz,
            rpm: turn.map(|n| 60.0 * hz / f64::from(n)),
            spread_hz,
            first_hz,
            last_hz,
            lowest_hz: extreme(f64::min, f64::INFINITY).min(hz),
            highest_hz: extreme(f64::max, 0.0).max(hz),
            trend: trend(&smooth),
            ending,
            plateau,
            scatter: [Some(cycle), by_turn, by_cycle]
                .into_iter()
                .flatten()
                .filter_map(|cycle| self.scatter(samples_per_pitch, cycle))
                .reduce(f64::min)
                .unwrap_or(0.0),
            acceleration_hz_s,
            duty: duty.share,
            duty_scatter: duty.scatter,
            amplitude,
            samples_per_pitch,
            positions: self.positions() as u32,
        })
    }

    /// Rates with the time for which each counts: a window to the middle of the next on either side; before the first
    /// middle and after the last, where a shaft starts and stops, as few pitches as sampling allows.
    fn weigh(&self, sliding: &[(f64, f64, f64)], cycle: u32, step_s: f64) -> Vec<(f64, f64)> {
        let Some(last) = sliding.len().checked_sub(1) else {
            return Vec::new();
        };
        let middle = |k: usize| (sliding[k].0 + sliding[k].1) / 2.0;
        let mut out = self.pitches_between(self.start_s(), middle(0), cycle, step_s);
        out.extend(sliding.iter().enumerate().map(|(k, w)| {
            let around = middle((k + 1).min(last)) - middle(k.saturating_sub(1));
            (w.2, around / 2.0)
        }));
        out.extend(self.pitches_between(middle(last), self.end_s(), cycle, step_s));
        out
    }

    /// Rates over the fewest pitches (whole cycles) between two times that last for enough samples, each with its time.
    fn pitches_between(&self, from_s: f64, to_s: f64, cycle: u32, step_s: f64) -> Vec<(f64, f64)> {
        let first = self.edges.partition_point(|e| e.at_s < from_s);
        let end = self.edges.partition_point(|e| e.at_s <= to_s);
        let mut out = Vec::new();
        let mut from = first;
        for k in first + 1..end {
            let positions = self.position[k] - self.position[from];
            let length_s = self.edges[k].at_s - self.edges[from].at_s;
            if positions >= f64::from(cycle) && length_s >= SAMPLES_PER_RATE * step_s {
                out.push((positions / length_s, length_s));
                from = k;
            }
        }
        out
    }

    /// Rates over successive turns; over parts of one where there are fewer than six.
    fn course(&self, cycle: u32) -> Vec<(f64, f64, f64)> {
        let sixth = (self.positions() / 6.0).floor();
        let cycle = f64::from(cycle);
        let window = self
            .window
            .min((sixth / cycle).floor() * cycle)
            .max(cycle.max(2.0));
        self.successive(window)
    }

    fn ending(&self, record_end_s: f64, plateau_hz: f64, cycle: u32) -> Ending {
        let last = self.successive(f64::from(cycle).max(2.0));
        let last_hz = last.last().map_or(plateau_hz, |w| w.2);
        let next = 4.0 / last_hz;
        if record_end_s - self.end_s() < next.max(0.05) {
            Ending::RecordEnd
        } else if last_hz < plateau_hz / 1.7 {
            Ending::Decay
        } else {
            Ending::Sudden
        }
    }

    /// Revolutions one after another, each from an edge to the same one a turn later.
    pub fn turns(&self, positions: u32) -> Vec<Turn> {
        self.successive_exact(f64::from(positions))
            .into_iter()
            .map(|(start_s, end_s)| Turn {
                start_s,
                end_s,
                rpm: 60.0 / (end_s - start_s),
            })
            .collect()
    }

    fn successive_exact(&self, window: f64) -> Vec<(f64, f64)> {
        let mut out: Vec<(f64, f64)> = Vec::new();
        let mut hint = 0;
        for k in 1..self.edges.len() {
            let Some(start) = self.time_before(k, window, &mut hint) else {
                continue;
            };
            if out.last().is_none_or(|last| start >= last.1 - 1e-12) {
                out.push((start, self.edges[k].at_s));
            }
        }
        out
    }
}

/// Quantile of rates that rise, each with the time for which it counts.
fn rate_quantile(weighted: &[(f64, f64)], q: f64) -> Option<f64> {
    let part = q * weighted.iter().map(|w| w.1).sum::<f64>();
    let mut sum = 0.0;
    weighted
        .iter()
        .find(|w| {
            sum += w.1;
            sum >= part
        })
        .map(|w| w.0)
}

/// Running median of three.
fn smooth_rates(windows: &[(f64, f64, f64)]) -> Vec<f64> {
    let rates: Vec<f64> = windows.iter().map(|w| w.2).collect();
    if rates.len() < 3 {
        return rates;
    }
    let middle = |a: f64, b: f64, c: f64| a.max(b).min(a.min(b).max(c));
    let mut out = vec![middle(rates[0], rates[1], rates[2])];
    out.extend(rates.windows(3).map(|w| middle(w[0], w[1], w[2])));
    let n = rates.len();
    out.push(middle(rates[n - 3], rates[n - 2], rates[n - 1]));
    out
}

fn trend(rates: &[f64]) -> Trend {
    let (Some(&first), Some(&last)) = (rates.first(), rates.last()) else {
        return Trend::Steady;
    };
    let highest = rates.iter().copied().fold(0.0, f64::max);
    let lowest = rates.iter().copied().fold(f64::INFINITY, f64::min);
    if last < 0.8 * highest {
        return match last <= 1.1 * lowest {
            true => Trend::Falls,
            false => Trend::Varies,
        };
    }
    match (
        highest <= 1.25 * lowest,
        first < 0.8 * highest && last > 0.9 * highest,
    ) {
        (true, _) => Trend::Steady,
        (false, true) => Trend::Rises,
        (false, false) => Trend::Varies,
    }
}

/// Longest stretch in which the fastest window is at most 1.35 times the slowest.
fn find_plateau(windows: &[(f64, f64, f64)], hz: f64) -> Plateau {
    let Some(&(start_s, end_s, _)) = windows.first() else {
        return Plateau {
            start_s: 0.0,
            end_s: 0.0,
            hz,
        };
    };
    let (mut low, mut high) = (VecDeque::<usize>::new(), VecDeque::<usize>::new());
    let mut from = 0;
    let mut best = (0, 0, end_s - start_s);
    for (k, w) in windows.iter().enumerate() {
        while low.back().is_some_and(|&j| windows[j].2 >= w.2) {
            low.pop_back();
        }
        while high.back().is_some_and(|&j| windows[j].2 <= w.2) {
            high.pop_back();
        }
        low.push_back(k);
        high.push_back(k);
        while windows[high[0]].2 > 1.35 * windows[low[0]].2 {
            from += 1;
            while low.front().is_some_and(|&j| j < from) {
                low.pop_front();
            }
            while high.front().is_some_and(|&j| j < from) {
                high.pop_front();
            }
        }
        let length = w.1 - windows[from].0;
        if length > best.2 {
            best = (from, k, length);
        }
    }
    let own = &windows[best.0..=best.1];
    Plateau {
        start_s: own[0].0,
        end_s: own[own.len() - 1].1,
        hz: stats::median_of(&mut own.iter().map(|w| w.2).collect()).unwrap_or(hz),
    }
}

/// Edges over which a stretch is judged, and how many of them may be odd.
const JUDGED: usize = 24;
const MOST_ODD: usize = 12;

/// Marks the edges after which the pitch strays by a third from those before and after it.
pub(super) fn stray_pitches(at_s: &[f64]) -> Vec<bool> {
    let logs: Vec<f64> = at_s.windows(2).map(|w| (w[1] - w[0]).ln()).collect();
    (0..at_s.len())
        .map(|k| {
            k > 0 && k + 1 < logs.len() && (logs[k] - (logs[k - 1] + logs[k + 1]) / 2.0).abs() > 0.3
        })
        .collect()
}

/// Splits a run where its edges begin or cease to be odd, more than half of 24: a good train is not spoilt by a bad
/// stretch elsewhere.
pub(super) fn split_by_quality(odd: &[bool]) -> Vec<std::ops::Range<usize>> {
    if odd.len() < 3 * JUDGED {
        return std::iter::once(0..odd.len()).collect();
    }
    let mut count = odd[..JUDGED].iter().filter(|o| **o).count();
    let mut bad = vec![false; odd.len()];
    for k in 0..=odd.len() - JUDGED {
        if k > 0 {
            count += usize::from(odd[k + JUDGED - 1]);
            count -= usize::from(odd[k - 1]);
        }
        if count > MOST_ODD {
            bad[k..k + JUDGED].fill(true);
        }
    }
    let mut out: Vec<std::ops::Range<usize>> = Vec::new();
    let mut from = 0;
    for part in bad.chunk_by(|a, b| a == b) {
        let to = from + part.len();
        // A short good stretch between bad ones proves nothing.
        match out.last_mut() {
            Some(last) if part.len() < 2 * JUDGED => last.end = to,
            _ => out.push(from..to),
        }
        from = to;
    }
    out
}

impl Motion {
    /// Reason why this motion's acceleration is none of a shaft with the given bound, rpm/s.
    pub(super) fn too_quick(&self, turn: Option<u32>, bound: f64) -> Option<RejectReason> {
        let per_rpm = f64::from(turn?) / 60.0;
        let rpm_s = self.acceleration_hz_s / per_rpm;
        (rpm_s > bound).then_some(RejectReason::TooQuick(rpm_s))
    }
}
