//! Reading of a record: from samples to a tooth train.

use super::amplitude::fit_law;
use super::dropouts::{Dropout, find_dropouts};
use super::glitches::remove_glitches;
use super::motion::{Motion, Track, split_by_quality};
use super::options::{Options, SensorKind};
use super::pattern::{Pattern, PatternKind, find_pattern};
use super::positions::{Placed, PlacedEdge, place_edges};
use super::prepare::{Prepared, SignalQuality, Waveform, prepare};
use super::reject::{LEAST_SAMPLES, RejectReason, RunFacts, find_reason, is_hum};
use super::runs::split_runs;
use super::segments::{Capability, ProofOfLife, Segment, SegmentKind};
use super::swings::{Swing, find_swings};
use super::train::{Edge, EdgeChoice, ToothTrain};
use super::wheel::Wheel;
use crate::{Time, stats};
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
    };
    Some(reader.read(&swings, &instants, glitches))
}

/// Share of the transitions that end at the record's highest or lowest value, the greater of the two directions.
fn clamped_share(swings: &[Swing]) -> f64 {
    let side = |rising: bool| {
        let ends: Vec<f64> = swings
            .iter()
            .filter(|s| s.rising == rising)
            .map(|s| f64::from(s.to))
            .collect();
        let sizes: Vec<f64> = swings.iter().map(|s| f64::from(s.amplitude())).collect();
        let (Some(limit), Some(size)) = (
            stats::quantile(&ends, if rising { 0.99 } else { 0.01 }),
            stats::median(&sizes),
        ) else {
            return 0.0;
        };
        let near = ends.iter().filter(|e| (**e - limit).abs() < 0.02 * size);
        near.count() as f64 / ends.len() as f64
    };
    side(true).max(side(false))
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

struct Reader<'a> {
    quality: SignalQuality,
    options: &'a Options,
    ends: (f64, f64),
    clamped: f64,
    /// Median of the record.
    level: f64,
}

impl Reader<'_> {
    fn read(&self, swings: &[Swing], instants: &[f64], glitches: usize) -> ToothTrain {
        let longest_s = self.longest_pitch_s();
        let [rising, falling] = [true, false].map(|up| {
            let series = Series::select(swings, instants, up);
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
        let runs: Vec<Run> = runs
            .into_iter()
            .flat_map(|range| {
                let parts = match few {
                    true => vec![0..range.len()],
                    false => {
                        let hum = self.hum_edges(&series, range.clone());
                        split_by_quality(&series.at_s[range.clone()], |k| {
                            hum[k] || self.is_weak(&series, range.start + k)
                        })
                    }
                };
                parts
                    .into_iter()
                    .map(move |p| range.start + p.start..range.start + p.end)
            })
            .map(|range| self.judge(&series, &other, range, &wheel, choice.rising))
            .collect();
        self.assemble(choice, wheel, runs, &series, glitches)
    }

    /// Samples per pitch at the fastest speed that the shaft can have, where an alias of it could be read.
    fn alias(&self) -> Option<f64> {
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
        duty: f64,
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
        let edges: Vec<(usize, f64)> = range.clone().map(|k| (k, series.at_s[k])).collect();
        let placed = place_edges(&edges, &wheel.pattern, wheel.uneven_cycle().is_some());
        let mut run = Run {
            motion: None,
            reason: None,
            dropouts: Vec::new(),
            placed,
        };
        if placed_intervals(&run.placed) < LEAST_INTERVALS {
            return run;
        }
        let sizes: Vec<f64> = range
            .clone()
            .map(|k| f64::from(series.amplitude[k]))
            .collect();
        let amplitude = stats::median(&sizes).unwrap_or(0.0);
        let duty = duty(&series.at_s[range], &other.at_s, rising);
        let track = self.track(&run.placed.edges, wheel);
        run.motion = self.motion(&track, wheel, duty, amplitude);
        run.dropouts = find_dropouts(&run.placed.edges, &wheel.pattern, self.options);
        // Where edges come twice or scatter, a missing one is no interruption.
        let trusted = |m: &Motion| {
            m.scatter < TRUSTED_SCATTER
                && m.samples_per_pitch >= TRUSTED_SAMPLES
                && run.placed.doubled * 50 < run.placed.edges.len()
        };
        let evidence =
            run.motion.as_ref().is_some_and(trusted) || wheel.pattern.kind == PatternKind::Extra;
        if let Some(m) = &run.motion {
            let facts = RunFacts {
                edges: &run.placed.edges,
                turn: wheel.positions_per_turn(),
                two_level: self.quality.waveform == Waveform::TwoLevel,
                uneven: wheel.uneven_cycle().is_some(),
                irregular: (run.dropouts.len() + run.placed.doubled) as f64
                    / run.placed.edges.len() as f64,
                step_s: self.quality.step_s,
                alias: self.alias(),
                weak: self.is_near_noise(amplitude),
            };
            run.reason = find_reason(m, &facts, self.options);
        }
        if !evidence {
            run.dropouts.clear();
        }
        run
    }

    /// Marks the edges of a run that are the mains' hum between stretches of a stronger train: a tenth of a second at
    /// least at its rate, at less than a fifth of the run's amplitude.
    fn hum_edges(&self, series: &Series, range: Range<usize>) -> Vec<bool> {
        let mut hum = vec![false; range.len()];
        let sizes: Vec<f64> = series.amplitude[range.clone()]
            .iter()
            .map(|a| f64::from(*a))
            .collect();
        let small = 0.2 * stats::quantile(&sizes, 0.9).unwrap_or(0.0);
        if self.quality.waveform == Waveform::TwoLevel {
            return hum;
        }
        let at_s = &series.at_s[range];
        for k in 0..at_s.len().saturating_sub(HUM_EDGES) {
            let hz = HUM_EDGES as f64 / (at_s[k + HUM_EDGES] - at_s[k]);
            if sizes[k..=k + HUM_EDGES].iter().all(|a| *a < small) && is_hum(hz) {
                hum[k..=k + HUM_EDGES].fill(true);
            }
        }
        hum
    }

    /// Whether an edge is too near to the noise or to the sampling for its neighbours all to have been seen.
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
        q.waveform == Waveform::Alternating
            && q.noise
                .is_some_and(|noise| noise > 0.0 && amplitude < least(noise))
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
        let mut windows = Vec::new();
        for run in runs {
            let first = train.edges.len();
            let edge = |e: &PlacedEdge| Edge {
                at_s: e.at_s,
                step: e.step,
                amplitude: series.amplitude[e.index],
            };
            train.edges.extend(run.placed.edges.iter().map(edge));
            let Some(kind) = kind_of(&run) else {
                continue;
            };
            let track = self.track(&run.placed.edges, &train.wheel);
            if kind == SegmentKind::Turning {
                if let Some(n) = train.wheel.positions_per_turn() {
                    train.turns.extend(track.turns(n));
                }
                windows.extend(amplitude_windows(&track, &train.edges[first..]));
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
        train.amplitude_law = fit_law(&windows, self.clamped);
        train.alive = self.proof_of_life(&train);
        self.fill(&mut train);
        train
    }

    fn proof_of_life(&self, train: &ToothTrain) -> ProofOfLife {
        if train.turning().next().is_some() {
            return ProofOfLife::Pulsed;
        }
        let quiescent = |(low, high): &(f64, f64)| *low <= self.level && self.level <= *high;
        if train.edges.is_empty() && self.options.quiescent_levels.iter().any(quiescent) {
            return ProofOfLife::Quiescent(self.level);
        }
        match train.signal.waveform {
            Waveform::TwoLevel if train.edges.len() > 1 => ProofOfLife::Toggled,
            _ => ProofOfLife::None,
        }
    }

    /// Fills what lies between the segments of pulses.
    fn fill(&self, train: &mut ToothTrain) {
        let readable = !train
            .segments
            .iter()
            .any(|s| matches!(s.kind, SegmentKind::Unreadable(_)));
        let mut from = self.ends.0;
        let mut all = Vec::with_capacity(2 * train.segments.len() + 1);
        for &segment in &train.segments {
            all.extend(self.between(train, from, segment.start_s, readable));
            from = segment.end_s;
            all.push(segment);
        }
        all.extend(self.between(train, from, self.ends.1, readable));
        train.segments = merge(all);
    }

    /// Segments without a train from one to the next, cut at each stray edge. A pause that may still belong to the pulses
    /// before or after it (less than four of their periods) is too short to be told; one of about a pitch is left out.
    fn between(
        &self,
        train: &ToothTrain,
        start_s: f64,
        end_s: f64,
        readable: bool,
    ) -> Vec<Segment> {
        let first = train.edges.partition_point(|e| e.at_s <= start_s);
        let last = train.edges.partition_point(|e| e.at_s < end_s).max(first);
        let mut cuts = vec![start_s];
        cuts.extend(train.edges[first..last].iter().map(|e| e.at_s));
        cuts.push(end_s);
        let period = |k: usize| {
            let own = k.checked_sub(1).and_then(|j| train.edges.get(j..j + 2));
            own.map_or(0.0, |e| e[1].at_s - e[0].at_s)
        };
        let pause = |(j, cut): (usize, &[f64])| {
            let length_s = cut[1] - cut[0];
            // The periods before and after: of the edges that end it and those that it ends.
            let near = period((first + j).saturating_sub(1)).max(period(first + j + 1));
            let inside = cut[0] > self.ends.0 && cut[1] < self.ends.1;
            if length_s <= 1.5 * train.wheel.widest_pitch() * near && !(inside && length_s > 0.1)
                || length_s <= 0.0
            {
                return None;
            }
            let capability = self.capability(train, length_s);
            let kind = match length_s < 4.0 * near {
                true => SegmentKind::TooShort,
                false => self.state_between(train, &capability, readable),
            };
            Some(Segment {
                start_s: cut[0],
                end_s: cut[1],
                kind,
                first: first + j,
                last: first + j,
                motion: None,
                capability: Some(capability),
            })
        };
        cuts.windows(2).enumerate().filter_map(pause).collect()
    }

    fn capability(&self, train: &ToothTrain, length_s: f64) -> Capability {
        // Pitches of a wheel of few teeth may be unequal without the train showing it.
        let widest = match train.wheel.uneven_cycle() {
            Some(2..) => train.wheel.widest_pitch().max(1.5),
            _ => train.wheel.widest_pitch(),
        };
        let one_pitch = widest / length_s;
        let amplitude = self.detectable_amplitude();
        // A coil's amplitude tells how slow it may have turned unseen.
        let coil = self.quality.waveform == Waveform::Alternating;
        let unseen = train
            .amplitude_law
            .filter(|_| coil)
            .map_or(0.0, |law| amplitude / law.per_hz);
        let below_hz = one_pitch.max(unseen);
        Capability {
            amplitude,
            below_hz,
            below_rpm: train
                .wheel
                .positions_per_turn()
                .map(|n| super::rpm(below_hz, n)),
        }
    }

    /// Detectable amplitude: the threshold of an edge is the critical value, and the noise of its two extremes adds
    /// 1.645 standard deviations of their difference (IUPAC 1995, known standard deviation, beta 5 %).
    fn detectable_amplitude(&self) -> f64 {
        let noise = self.quality.noise.unwrap_or(0.0);
        self.quality.threshold
            + crate::detection::critical_value(2f64.sqrt() * noise, None, crate::detection::ALPHA)
    }

    fn state_between(
        &self,
        train: &ToothTrain,
        capability: &Capability,
        readable: bool,
    ) -> SegmentKind {
        let least_hz = match train.wheel.positions_per_turn() {
            Some(n) => self.options.least_rpm * f64::from(n) / 60.0,
            None => self.options.least_hz,
        };
        if let Some(samples) = self.alias() {
            return SegmentKind::Unreadable(RejectReason::Undersampled(samples));
        }
        let within = capability.below_hz <= self.options.rest_margin * least_hz;
        let coil = self.quality.waveform == Waveform::Alternating
            || self.options.sensor == Some(SensorKind::Coil);
        match train.alive {
            ProofOfLife::Pulsed | ProofOfLife::Quiescent(_) if within => SegmentKind::AtRest,
            ProofOfLife::Toggled if within && readable => SegmentKind::AtRest,
            ProofOfLife::Pulsed if coil && self.noise_hides(train, least_hz) => {
                SegmentKind::Unreadable(RejectReason::Noise(capability.below_hz))
            }
            ProofOfLife::Pulsed | ProofOfLife::Quiescent(_) => SegmentKind::TooShort,
            _ => SegmentKind::Silent,
        }
    }

    fn noise_hides(&self, train: &ToothTrain, least_hz: f64) -> bool {
        train.amplitude_law.is_some_and(|law| {
            self.detectable_amplitude() / law.per_hz > self.options.rest_margin * least_hz
        })
    }
}

/// Joins unreadable segments with what lies between them without being rest, and neighbours of one kind.
fn merge(segments: Vec<Segment>) -> Vec<Segment> {
    const NEAR_S: f64 = 0.5;
    let vague = |s: &Segment| matches!(s.kind, SegmentKind::Silent | SegmentKind::TooShort);
    let unreadable = |s: &Segment| matches!(s.kind, SegmentKind::Unreadable(_));
    let mut out: Vec<Segment> = Vec::with_capacity(segments.len());
    for s in segments {
        let same = |last: &Segment| last.kind == s.kind && vague(last) && vague(&s);
        let short = |last: &Segment| vague(last) && last.duration_s() < NEAR_S;
        let bridged = out.len() > 1
            && unreadable(&s)
            && short(&out[out.len() - 1])
            && unreadable(&out[out.len() - 2]);
        if bridged {
            out.pop();
        }
        match out.last_mut() {
            Some(last) if same(last) || unreadable(last) && unreadable(&s) => {
                last.end_s = s.end_s;
                last.last = s.last.max(last.last);
                last.capability = None;
            }
            _ => out.push(s),
        }
    }
    out
}

fn placed_intervals(placed: &Placed) -> usize {
    placed.edges.len().saturating_sub(1)
}

/// State of a run of pulses; `None` for a stray edge or two.
fn kind_of(run: &Run) -> Option<SegmentKind> {
    let motion = run.motion?;
    Some(match run.reason {
        Some(RejectReason::Dithering(_)) if motion.positions < LEAST_POSITIONS => {
            SegmentKind::TooShort
        }
        Some(reason) => SegmentKind::Unreadable(reason),
        None if motion.positions < LEAST_POSITIONS => SegmentKind::TooShort,
        None => SegmentKind::Turning,
    })
}

/// Rate and median amplitude over successive windows of a run.
fn amplitude_windows(track: &Track<'_>, edges: &[Edge]) -> Vec<(f64, f64)> {
    let mut from = 0;
    track
        .successive(8.0)
        .into_iter()
        .filter_map(|(start_s, end_s, hz)| {
            from += edges[from..].partition_point(|e| e.at_s < start_s);
            let own = edges[from..].iter().take_while(|e| e.at_s <= end_s);
            let sizes: Vec<f64> = own.map(|e| f64::from(e.amplitude)).collect();
            Some((hz, stats::median(&sizes)?))
        })
        .collect()
}

/// Share of the period on the high level, median.
fn duty(own: &[f64], other: &[f64], rising: bool) -> f64 {
    let shares: Vec<f64> = own
        .windows(2)
        .filter_map(|w| {
            let k = other.partition_point(|&t| t <= w[0]);
            let t = *other.get(k)?;
            (t < w[1]).then(|| (t - w[0]) / (w[1] - w[0]))
        })
        .collect();
    let share = stats::median(&shares).unwrap_or(0.5);
    if rising { share } else { 1.0 - share }
}
