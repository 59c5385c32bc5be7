//! Reading of a record: from samples to a tooth train.

use super::amplitude::fit_law;
use super::dropouts::{Dropout, find_dropouts};
use super::glitches::remove_glitches;
use super::motion::{Duty, Motion, Track, split_by_quality, stray_pitches};
use super::options::Options;
use super::pattern::{Pattern, PatternKind, find_pattern};
use super::positions::{Placed, PlacedEdge, place_edges};
use super::prepare::{Prepared, SignalQuality, Waveform, prepare};
use super::reject::{LEAST_SAMPLES, RejectReason, RunFacts, find_reason, is_hum};
use super::runs::split_runs;
use super::segments::{ProofOfLife, Segment, SegmentKind};
use super::swings::{Swing, find_swings};
use super::train::{Edge, EdgeChoice, ToothTrain};
use super::wheel::Wheel;
use crate::{Time, gaps, stats};
use std::cell::OnceCell;
use std::ops::Range;

/// Fewest intervals of a run that is judged.
const LEAST_INTERVALS: usize = 3;

/// Fewest positions of a segment of turning.
const LEAST_POSITIONS: u32 = 7;

/// Samples a pitch from which on a train is no alias: two by the sampling theorem (Shannon 1949), and a margin.
const ALIAS_FREE: f64 = 2.2;

/// Amplitude, in thresholds, below which a train loses teeth to the threshold, and what noise adds to the amplitude of two
/// extremes, standard deviations.
const NEAR_THRESHOLD: f64 = 1.4;
const ADDED_NOISE: f64 = 5.0;

/// Scatter of the pitch up to which single edges are trusted.
const TRUSTED_SCATTER: f64 = 0.08;

/// Samples a pitch from which on single edges are trusted.
const TRUSTED_SAMPLES: f64 = 8.0;

/// Pulses lost in an interruption that is one even where single edges are not trusted for want of samples.
const CERTAINLY_LOST: u32 = 8;

/// Periods of hum within a run that are taken for it.
const HUM_EDGES: usize = 6;

/// Edges on which the two directions are compared.
const COMPARED: usize = 2_000;

/// Reads the record of a speed sensor. Linear in the samples.
///
/// `None` with fewer than 16 samples, without a finite one, or without a time axis.
pub fn read_train(x: &[f32], time: Time<'_>, options: &Options) -> Option<ToothTrain> {
    if x.len() < 16 {
        return None;
    }
    let Prepared {
        x: samples,
        quality,
    } = prepare(x, time, options)?;
    let swings = find_swings(&samples, quality.threshold, quality.level_changes);
    let n = quality.averaged as f64;
    let at = |s: &Swing| time.between(s.at * n + (n - 1.0) / 2.0);
    let instants: Vec<f64> = swings.iter().map(at).collect();
    let (swings, instants, glitches) = remove_glitches(swings, instants);
    let ends = (time.at(0), time.at(x.len() - 1));
    let reader = Reader {
        quality,
        options,
        ends,
        clamped: clamped_share(&swings),
        level: stats::sampled_quantile(x, 0.5, 10_000)?,
        rarer: rarer_share(x, &quality),
        recorded: (x, time),
        blind: OnceCell::new(),
    };
    Some(reader.read(swings, instants, glitches))
}

/// Share of the transitions that end at the record's highest or lowest value, the greater of the two directions.
fn clamped_share(swings: &[Swing]) -> f64 {
    let mut sizes = swings.iter().map(|s| f64::from(s.amplitude())).collect();
    let Some(size) = stats::median_of(&mut sizes) else {
        return 0.0;
    };
    let side = |rising: bool| {
        let own = swings.iter().filter(|s| s.rising == rising);
        let mut ends: Vec<f64> = own.map(|s| f64::from(s.to)).collect();
        let share = if rising { 0.99 } else { 0.01 };
        let Some(limit) = stats::quantile_of(&mut ends, share) else {
            return 0.0;
        };
        let near = ends.iter().filter(|e| (**e - limit).abs() < 0.02 * size);
        near.count() as f64 / ends.len() as f64
    };
    side(true).max(side(false))
}

/// Share of the samples on the rarer side of the middle between low and high.
fn rarer_share(x: &[f32], quality: &SignalQuality) -> f64 {
    let middle = ((quality.low + quality.high) / 2.0) as f32;
    let above = x.iter().filter(|v| **v > middle).count() as f64 / x.len() as f64;
    above.min(1.0 - above)
}

/// Edges of one direction.
struct Series {
    at_s: Vec<f64>,
    amplitude: Vec<f32>,
}

impl Series {
    fn select(swings: &[Swing], instants: &[f64], rising: bool) -> Series {
        let own = swings
            .iter()
            .zip(instants)
            .filter(|(s, _)| s.rising == rising);
        let (at_s, amplitude) = own.map(|(s, t)| (*t, s.amplitude())).unzip();
        Series { at_s, amplitude }
    }
}

/// A run of edges, placed and judged.
struct Run {
    placed: Placed,
    motion: Option<Motion>,
    reason: Option<RejectReason>,
    dropouts: Vec<Dropout>,
}

/// Judges the pieces of a run. Neighbours that are readable each, and together, are one: where a sensor bounces more than
/// elsewhere, its train goes on.
fn join_readable(
    pieces: impl Iterator<Item = Range<usize>>,
    judge: impl Fn(Range<usize>) -> Run,
) -> Vec<Run> {
    let mut runs: Vec<(Range<usize>, Run)> = Vec::new();
    for piece in pieces {
        let run = judge(piece.clone());
        if let Some((before, last)) = runs.last_mut()
            && last.reason.is_none()
            && run.reason.is_none()
        {
            let whole = before.start..piece.end;
            let joined = judge(whole.clone());
            if joined.reason.is_none() {
                (*before, *last) = (whole, joined);
                continue;
            }
        }
        runs.push((piece, run));
    }
    runs.into_iter().map(|(_, run)| run).collect()
}

pub(super) struct Reader<'a> {
    pub(super) quality: SignalQuality,
    pub(super) options: &'a Options,
    pub(super) ends: (f64, f64),
    pub(super) clamped: f64,
    /// Median of the record.
    pub(super) level: f64,
    /// Share of the samples on the rarer side of the middle, 0 to 0.5.
    pub(super) rarer: f64,
    /// The samples as they were recorded.
    pub(super) recorded: (&'a [f32], Time<'a>),
    /// Times without a sample: start and end, s. Looked for where a train is interrupted; few are.
    pub(super) blind: OnceCell<Vec<(f64, f64)>>,
}

impl Reader<'_> {
    fn read(&self, swings: Vec<Swing>, instants: Vec<f64>, glitches: usize) -> ToothTrain {
        let longest_s = self.longest_pitch_s();
        let directions = [true, false].map(|up| Series::select(&swings, &instants, up));
        // Of a long record they take as much memory as its samples.
        drop((swings, instants));
        let [rising, falling] = directions.map(|series| {
            let runs = split_runs(&series.at_s, longest_s);
            let longest = runs.iter().cloned().max_by_key(|r| r.len()).unwrap_or(0..0);
            let found = self.compare(&series, longest);
            (series, runs, found)
        });
        let scatter = |s: &Option<(Pattern, f64)>| s.as_ref().map(|f| f.1);
        let choice = EdgeChoice {
            rising: match (scatter(&rising.2), scatter(&falling.2)) {
                (Some(a), Some(b)) => a <= b,
                (a, b) => a.is_some() || b.is_none(),
            },
            rising_scatter: scatter(&rising.2),
            falling_scatter: scatter(&falling.2),
        };
        let ((series, runs, found), (other, ..)) = match choice.rising {
            true => (rising, falling),
            false => (falling, rising),
        };
        let pattern = found.map_or_else(Pattern::even, |f| f.0);
        let wheel = Wheel::new(pattern, self.options);
        let few = wheel.uneven_cycle().is_some();
        let judge = |range| self.judge(&series, &other, range, &wheel, choice.rising);
        let runs: Vec<Run> = runs
            .into_iter()
            .flat_map(|range| {
                let hum = self.hum_edges(&series, range.clone());
                let odd: Vec<bool> = match few {
                    true => hum,
                    false => stray_pitches(&series.at_s[range.clone()])
                        .into_iter()
                        .enumerate()
                        .map(|(k, stray)| stray || hum[k] || self.is_weak(&series, range.start + k))
                        .collect(),
                };
                let pieces = split_by_quality(&odd).into_iter();
                let pieces = pieces.map(|p| range.start + p.start..range.start + p.end);
                join_readable(pieces, judge)
            })
            .collect();
        self.assemble(choice, wheel, runs, &series, glitches)
    }

    /// Samples per pitch at the fastest speed that the shaft can have, where an alias of it could be read.
    pub(super) fn alias(&self) -> Option<f64> {
        let positions = self.options.teeth.filter(|&n| n > 0)?;
        let hz = self.options.highest_rpm? * f64::from(positions) / 60.0;
        let samples = 1.0 / (hz * self.quality.step_s);
        (samples < ALIAS_FREE && !self.quality.level_changes).then_some(samples)
    }

    /// Longest pitch of a shaft that counts as turning, s.
    fn longest_pitch_s(&self) -> f64 {
        let o = self.options;
        match o.teeth.filter(|&n| n > 0) {
            Some(n) => {
                let widest = 1 + o.missing_teeth.unwrap_or(2).min(n / 4);
                f64::from(widest) * 60.0 / (o.least_rpm * f64::from(n))
            }
            None => 1.0 / o.least_hz,
        }
    }

    /// Pattern of the longest run and how far its pitches stray from it; `None` where it is too short.
    fn compare(&self, series: &Series, longest: Range<usize>) -> Option<(Pattern, f64)> {
        let own = &series.at_s[longest];
        let own = &own[..own.len().min(COMPARED)];
        let periods: Vec<f64> = own.windows(2).map(|w| w[1] - w[0]).collect();
        let o = self.options;
        let stated = o
            .teeth
            .map(|n| n.saturating_sub(o.missing_teeth.unwrap_or(0)));
        let pattern = find_pattern(&periods, stated)?;
        let residual = pattern.residual(&periods);
        Some((pattern, residual))
    }

    fn track<'a>(&self, edges: &'a [PlacedEdge], wheel: &Wheel) -> Track<'a> {
        let cycle = wheel.pattern.positions;
        let window = wheel.positions_per_turn().unwrap_or(match cycle {
            1 => 8,
            n => n,
        });
        Track::new(edges, window, wheel.widest_pitch())
    }

    fn motion(
        &self,
        track: &Track<'_>,
        wheel: &Wheel,
        duty: Duty,
        amplitude: f64,
    ) -> Option<Motion> {
        let cycle = wheel.uneven_cycle().unwrap_or(1);
        let step_s = match self.quality.level_changes {
            true => 0.0,
            false => self.quality.step_s,
        };
        track.motion(
            cycle,
            wheel.positions_per_turn(),
            step_s,
            self.ends.1,
            duty,
            amplitude,
        )
    }

    fn judge(
        &self,
        series: &Series,
        other: &Series,
        range: Range<usize>,
        wheel: &Wheel,
        rising: bool,
    ) -> Run {
        let mut placed = place_edges(
            &series.at_s[range.clone()],
            &wheel.pattern,
            wheel.uneven_cycle().is_some(),
        );
        placed.edges.iter_mut().for_each(|e| e.index += range.start);
        let mut run = Run {
            motion: None,
            reason: None,
            dropouts: Vec::new(),
            placed,
        };
        if placed_intervals(&run.placed) < LEAST_INTERVALS {
            return run;
        }
        let sizes = series.amplitude[range.clone()].iter();
        let amplitude = stats::median_of(&mut sizes.map(|a| f64::from(*a)).collect());
        let amplitude = amplitude.unwrap_or(0.0);
        let turn = wheel.positions_per_turn();
        let duty = duty(&series.at_s[range], &other.at_s, rising, turn);
        let track = self.track(&run.placed.edges, wheel);
        run.motion = self.motion(&track, wheel, duty, amplitude);
        run.dropouts = find_dropouts(
            &run.placed.edges,
            &wheel.pattern,
            self.options,
            if self.quality.level_changes {
                0.0
            } else {
                self.quality.step_s
            },
        );
        // Where edges come twice or scatter, a missing one is no interruption.
        let two_level = self.quality.waveform == Waveform::TwoLevel;
        let even = |m: &Motion| {
            m.scatter < TRUSTED_SCATTER
                && !(two_level && m.duty_scatter > TRUSTED_SCATTER)
                && run.placed.doubled * 50 < run.placed.edges.len()
        };
        let is_even = run.motion.as_ref().is_some_and(even);
        let is_fine = |m: &Motion| m.samples_per_pitch >= TRUSTED_SAMPLES;
        let evidence = is_even && run.motion.as_ref().is_some_and(is_fine)
            || wheel.pattern.kind == PatternKind::Extra;
        if let Some(m) = &run.motion {
            let facts = RunFacts {
                edges: &run.placed.edges,
                turn: wheel.positions_per_turn(),
                two_level,
                uneven: wheel.uneven_cycle().is_some(),
                marked: matches!(wheel.pattern.kind, PatternKind::Gaps | PatternKind::Extra),
                irregular: (run.dropouts.len() + run.placed.doubled) as f64
                    / run.placed.edges.len() as f64,
                step_s: self.quality.step_s,
                alias: self.alias(),
                weak: self.is_near_noise(amplitude),
            };
            run.reason = find_reason(m, &facts, self.options);
        }
        if !evidence {
            run.dropouts.retain(|d| is_even && d.lost >= CERTAINLY_LOST);
        }
        run.dropouts
            .retain(|d| !self.may_hide(series, d) && !self.is_blind(d));
        run
    }

    /// Marks the edges of a run that are the mains' hum between stretches of a stronger train: a tenth of a second at
    /// least at its rate, at less than a fifth of the run's amplitude.
    fn hum_edges(&self, series: &Series, range: Range<usize>) -> Vec<bool> {
        let mut hum = vec![false; range.len()];
        if self.quality.waveform == Waveform::TwoLevel {
            return hum;
        }
        let own = series.amplitude[range.clone()].iter();
        let sizes: Vec<f64> = own.map(|a| f64::from(*a)).collect();
        let small = 0.2 * stats::quantile(&sizes, 0.9).unwrap_or(0.0);
        let at_s = &series.at_s[range];
        for k in 0..at_s.len().saturating_sub(HUM_EDGES) {
            let hz = HUM_EDGES as f64 / (at_s[k + HUM_EDGES] - at_s[k]);
            if sizes[k..=k + HUM_EDGES].iter().all(|a| *a < small) && is_hum(hz) {
                hum[k..=k + HUM_EDGES].fill(true);
            }
        }
        hum
    }

    /// Tells whether the recorder itself missed half a pitch or more within an interruption: what it did not record did not
    /// break off.
    fn is_blind(&self, dropout: &Dropout) -> bool {
        let pitch_s = (dropout.end_s - dropout.start_s) / f64::from(dropout.lost + 1);
        let within = |b: &&(f64, f64)| b.1 > dropout.start_s && b.0 < dropout.end_s;
        let blind = self.blind.get_or_init(|| match self.quality.level_changes {
            true => Vec::new(),
            false => gaps::blind_times(self.recorded.0, self.recorded.1),
        });
        let missed = blind.iter().filter(within);
        missed.map(|b| b.1 - b.0).fold(0.0, f64::max) > 0.5 * pitch_s
    }

    /// Tells whether the pulses beside an interruption are so small that a tooth between them may have stayed below the
    /// threshold.
    fn may_hide(&self, series: &Series, dropout: &Dropout) -> bool {
        let from = series.at_s.partition_point(|t| *t < dropout.start_s);
        let beside = &series.amplitude[from..(from + 2).min(series.amplitude.len())];
        let least = NEAR_THRESHOLD * self.quality.threshold;
        self.quality.waveform == Waveform::Alternating
            && beside.iter().any(|a| f64::from(*a) < least)
    }

    /// Tells whether an edge is too near to the noise or to the sampling for its neighbours all to have been seen.
    fn is_weak(&self, series: &Series, k: usize) -> bool {
        let q = &self.quality;
        let near_noise = self.is_near_noise(f64::from(series.amplitude[k]));
        let coarse = !q.level_changes
            && k + 1 < series.at_s.len()
            && series.at_s[k + 1] - series.at_s[k] < LEAST_SAMPLES * q.step_s;
        near_noise || coarse
    }

    fn is_near_noise(&self, amplitude: f64) -> bool {
        let q = &self.quality;
        let least = |noise: f64| NEAR_THRESHOLD * q.threshold + ADDED_NOISE * noise;
        match q.waveform {
            Waveform::TwoLevel => q.threshold > (q.high - q.low) / NEAR_THRESHOLD,
            Waveform::Alternating => q
                .noise
                .is_some_and(|noise| noise > 0.0 && amplitude < least(noise)),
        }
    }

    fn assemble(
        &self,
        choice: EdgeChoice,
        wheel: Wheel,
        runs: Vec<Run>,
        series: &Series,
        glitches: usize,
    ) -> ToothTrain {
        let mut train = ToothTrain {
            signal: self.quality,
            choice,
            edges: Vec::new(),
            turns: Vec::new(),
            segments: Vec::new(),
            dropouts: Vec::new(),
            glitches,
            doubled: 0,
            amplitude_law: None,
            alive: ProofOfLife::None,
            wheel,
        };
        let (mut windows, mut turns) = (Vec::new(), Vec::new());
        let disorder = disorder(&runs);
        for run in runs {
            let first = train.edges.len();
            let edge = |e: &PlacedEdge| Edge {
                at_s: e.at_s,
                step: e.step,
                amplitude: series.amplitude[e.index],
            };
            train.edges.extend(run.placed.edges.iter().map(edge));
            let kind = match (kind_of(&run), disorder) {
                (None, _) => continue,
                (Some(SegmentKind::Turning), Some(reason)) => SegmentKind::Unreadable(reason),
                (Some(kind), _) => kind,
            };
            let track = self.track(&run.placed.edges, &train.wheel);
            if kind == SegmentKind::Turning {
                if let Some(n) = train.wheel.positions_per_turn() {
                    train.turns.extend(track.turns(n));
                }
                let edges = &train.edges[first..];
                windows.extend(amplitude_windows(&track, edges, 8));
                if let Some(turn) = train.wheel.positions_per_turn() {
                    turns.extend(amplitude_windows(&track, edges, turn));
                }
                train.doubled += run.placed.doubled;
                train.dropouts.extend(run.dropouts);
            }
            train.segments.push(Segment {
                start_s: track.start_s(),
                end_s: track.end_s(),
                kind,
                first,
                last: train.edges.len(),
                motion: run.motion,
                capability: None,
            });
        }
        train.amplitude_law = fit_law(&windows, &turns, self.clamped);
        train.alive = self.proof_of_life(&train);
        self.fill(&mut train);
        train
    }
}

fn placed_intervals(placed: &Placed) -> usize {
    placed.edges.len().saturating_sub(1)
}

/// Reason of most of the pulses where hardly any are a readable train: among so many runs of a data line one looks even
/// by chance. A burst is none: no shaft starts and stops within a tenth of a second.
fn disorder(runs: &[Run]) -> Option<RejectReason> {
    const HARDLY: usize = 3;
    const BURST_S: f64 = 0.1;
    let lasts = |r: &&Run| {
        let ends = r.placed.edges.first().zip(r.placed.edges.last());
        ends.is_some_and(|(a, b)| b.at_s - a.at_s >= BURST_S)
    };
    let disordered = |r: &&Run| {
        matches!(
            r.reason,
            Some(RejectReason::Dithering(_) | RejectReason::Irregular(_))
        )
    };
    let edges = |r: &Run| r.placed.edges.len();
    let bad = runs.iter().filter(disordered);
    let readable: usize = (runs.iter().filter(|r| r.reason.is_none()).filter(lasts))
        .map(edges)
        .sum();
    let largest = bad.clone().max_by_key(|r| edges(r))?;
    let unreadable: usize = bad.map(edges).sum();
    largest.reason.filter(|_| unreadable > HARDLY * readable)
}

/// Length of a burst that hides nothing, s: whatever turned around it would show before and after it.
const HIDES_NOTHING_S: f64 = 1e-3;

/// State of a run of pulses; `None` for a stray edge or two and for a burst too short to hide anything.
fn kind_of(run: &Run) -> Option<SegmentKind> {
    let motion = run.motion?;
    let ends = run.placed.edges.first().zip(run.placed.edges.last());
    if run.reason.is_some() && ends.is_some_and(|(a, b)| b.at_s - a.at_s < HIDES_NOTHING_S) {
        return None;
    }
    Some(match run.reason {
        Some(RejectReason::Dithering(_)) if motion.positions < LEAST_POSITIONS => {
            SegmentKind::TooShort
        }
        Some(reason) => SegmentKind::Unreadable(reason),
        None if motion.positions < LEAST_POSITIONS => SegmentKind::TooShort,
        None => SegmentKind::Turning,
    })
}

/// Rate and median amplitude over successive windows of `positions` of a run.
fn amplitude_windows(track: &Track<'_>, edges: &[Edge], positions: u32) -> Vec<(f64, f64)> {
    let mut from = 0;
    track
        .successive(f64::from(positions))
        .into_iter()
        .filter_map(|(start_s, end_s, hz)| {
            from += edges[from..].partition_point(|e| e.at_s < start_s);
            let own = edges[from..].iter().take_while(|e| e.at_s <= end_s);
            let mut sizes = own.map(|e| f64::from(e.amplitude)).collect();
            Some((hz, stats::median_of(&mut sizes)?))
        })
        .collect()
}

/// Share of the period on the high level; `turn`: positions per turn, where they are known.
fn duty(own: &[f64], other: &[f64], rising: bool, turn: Option<u32>) -> Duty {
    let first = own.first().copied().unwrap_or(0.0);
    let mut next = other.partition_point(|&t| t <= first);
    let shares: Vec<f64> = own
        .windows(2)
        .filter_map(|w| {
            next += other[next..].iter().take_while(|t| **t <= w[0]).count();
            let t = *other.get(next)?;
            (t < w[1]).then(|| (t - w[0]) / (w[1] - w[0]))
        })
        .collect();
    let share = stats::median(&shares).unwrap_or(0.5);
    let scatter = |lag: usize| {
        let off = shares.iter().zip(shares.get(lag..)?);
        let mut off = off.map(|(a, b)| (a - b).abs()).collect();
        Some(stats::quantile_of(&mut off, 0.75)? / 2f64.sqrt())
    };
    let lags = [Some(1), turn.map(|n| n as usize)];
    Duty {
        share: if rising { share } else { 1.0 - share },
        scatter: lags
            .into_iter()
            .flatten()
            .filter_map(scatter)
            .reduce(f64::min)
            .unwrap_or(0.0),
    }
}
