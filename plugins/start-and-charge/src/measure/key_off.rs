//! Shut-down of a vehicle after key-off: stages, wake-ups, remaining current.

use plugin_sdk::signal::windows::{mean, resolution};
use plugin_sdk::signal::{Measured, plateaus, stats};

/// A stage of the shut-down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stage {
    /// Start, s.
    pub from_s: f64,
    /// End, s.
    pub to_s: f64,
    /// Level of the current, A.
    pub current: f64,
}

/// Course of a current after key-off.
#[derive(Debug, Clone, PartialEq)]
pub struct KeyOff {
    /// Time of key-off, s: the end of a first stage at an ignition's current, else the record's start.
    pub off_s: f64,
    /// True where that end was recorded.
    pub off_seen: bool,
    /// Stages of the shut-down without wake-ups, each lower than the one before.
    pub stages: Vec<Stage>,
    /// Wake-ups after the first of the lowest stages.
    pub wake_ups: Vec<Stage>,
    /// Remaining current: that of the last stage without its wake-ups, A.
    pub remains: Measured,
    /// Time spent in the last stage, wake-ups included, s.
    pub last_stage_s: f64,
    /// Longest earlier stage of the shut-down, s.
    pub longest_stage_s: f64,
    /// Mean current over the last stage, wake-ups included, A: what empties the battery.
    pub mean: f64,
}

/// Most points that are looked at.
const POINTS: usize = 4_000;
/// Currents that differ by less than this share are one stage.
const ALIKE: f64 = 0.2;
/// An ignition's current at least, A, and how many times that of the stage after it.
const IGNITION: (f64, f64) = (11.0, 2.5);
/// Least rise of a wake-up over what remains, A, and as a share of it.
const WAKE_UP: (f64, f64) = (0.05, 0.5);

/// Reads a key-off record of a current in A (positive out of the battery). `None` for less than 10 s.
pub fn key_off(current: &[f64], start_s: f64, step_s: f64) -> Option<KeyOff> {
    if current.len() as f64 * step_s < 10.0 {
        return None;
    }
    let block = ((0.5 / step_s).round() as usize)
        .max(current.len().div_ceil(POINTS))
        .max(1);
    let points: Vec<f64> = current.chunks(block).filter_map(stats::median).collect();
    let block_s = block as f64 * step_s;
    let noise = scatter(&points).max(0.3 * resolution(current));
    // On this scale a share of the current counts above the noise, amperes below it.
    let knee = (0.01f64).max(6.0 * noise).max(2.0 * resolution(current));
    let scale = |v: f64| (v / knee).asinh();
    let distance = |a: f64, b: f64| (scale(a) - scale(b)).abs() / ALIKE;
    let end_s = start_s + (current.len() - 1) as f64 * step_s;
    let all: Vec<Stage> = plateaus::plateaus(&points, distance)
        .iter()
        .map(|p| Stage {
            from_s: start_s + p.from as f64 * block_s,
            to_s: (start_s + p.to as f64 * block_s).min(end_s),
            current: p.level,
        })
        .collect();
    let samples = Samples {
        current,
        start_s,
        step_s,
    };
    let step = resolution(current);
    let all = samples.leveled(samples.sharpened(all, block_s), step);
    let (off_seen, off_s) = ignition_off(&all).map_or((false, start_s), |t| (true, t));
    let shut: Vec<Stage> = all.iter().filter(|s| s.from_s >= off_s).copied().collect();
    let (stages, wake_ups) = shut_down(&shut, knee);
    let last = *stages.last()?;
    let quiet = samples.without(&wake_ups, last.from_s, end_s);
    let level = level(&quiet, step)?;
    let whole = samples.part(last.from_s, end_s);
    Some(KeyOff {
        off_s,
        off_seen,
        remains: Measured {
            value: level.mean,
            // Thrice that of independent samples: a module's current hunts.
            uncertainty: (3.0 * level.spread / (level.count as f64).sqrt())
                .max(step / 12f64.sqrt() * if level.spread > 0.3 * step { 0.3 } else { 1.0 }),
            from_s: last.from_s,
            to_s: end_s,
        },
        last_stage_s: end_s - last.from_s,
        longest_stage_s: stages[..stages.len() - 1]
            .iter()
            .map(|s| s.to_s - s.from_s)
            .fold(0.0, f64::max),
        mean: mean(whole),
        stages,
        wake_ups,
    })
}

/// Level of samples of a coarse recorder.
struct Level {
    mean: f64,
    /// Standard deviation, from the median of the deviations.
    spread: f64,
    count: usize,
}

/// A recorder's coarse steps average out over its noise; what stands out of that is none of the level.
fn level(samples: &[f64], step: f64) -> Option<Level> {
    let middle = stats::median(samples)?;
    let spread = 1.4826 * stats::median_abs_deviation(samples)?;
    let near = |v: &&f64| (**v - middle).abs() <= 4.0 * spread + 1.5 * step;
    let near: Vec<f64> = samples.iter().filter(near).copied().collect();
    Some(Level {
        mean: mean(&near),
        spread,
        count: near.len(),
    })
}

/// End of an ignition's current in the first half of the record, s; `None` where none was recorded.
fn ignition_off(all: &[Stage]) -> Option<f64> {
    let half = (all.first()?.from_s + all.last()?.to_s) / 2.0;
    all.windows(2)
        .filter(|w| w[0].to_s <= half)
        .find(|w| w[0].current >= IGNITION.0 && w[0].current >= IGNITION.1 * w[1].current)
        .map(|w| w[0].to_s)
}

/// Tells the stages of the shut-down from wake-ups: after a wake-up the current comes back to about the lowest that it
/// had reached before.
fn shut_down(all: &[Stage], knee: f64) -> (Vec<Stage>, Vec<Stage>) {
    let mut stages: Vec<Stage> = Vec::new();
    let mut wake_ups: Vec<Stage> = Vec::new();
    for stage in all {
        let Some(last) = stages.last_mut() else {
            stages.push(*stage);
            continue;
        };
        let low = last.current;
        let rise = (WAKE_UP.1 * low.abs()).max(WAKE_UP.0).max(knee);
        if stage.current < low * 0.8 - 0.5 * knee {
            stages.push(*stage);
        } else if stage.current <= low + rise {
            last.to_s = stage.to_s;
        } else if let Some(w) = wake_ups
            .last_mut()
            .filter(|w| stage.from_s <= w.to_s + 0.01)
        {
            w.to_s = stage.to_s;
            w.current = w.current.max(stage.current);
        } else {
            wake_ups.push(*stage);
        }
    }
    // What wakes before the last stage is part of the shut-down.
    let asleep = stages.last().map_or(f64::INFINITY, |s| s.from_s);
    wake_ups.retain(|w| w.from_s >= asleep);
    (stages, wake_ups)
}

/// The samples and their times.
struct Samples<'a> {
    current: &'a [f64],
    start_s: f64,
    step_s: f64,
}

impl Samples<'_> {
    fn index(&self, t: f64) -> usize {
        (((t - self.start_s) / self.step_s).round().max(0.0) as usize).min(self.current.len())
    }

    fn part(&self, from_s: f64, to_s: f64) -> &[f64] {
        let (from, to) = (self.index(from_s), self.index(to_s));
        &self.current[from.min(to)..to]
    }

    /// Moves each boundary to the sample at which the current crosses the middle between the two levels.
    fn sharpened(&self, mut stages: Vec<Stage>, block_s: f64) -> Vec<Stage> {
        for k in 1..stages.len() {
            let (a, b) = (stages[k - 1].current, stages[k].current);
            let middle = (a + b) / 2.0;
            let from = self.index(stages[k].from_s - 1.5 * block_s);
            let to = self.index(stages[k].from_s + 1.5 * block_s);
            let crossing = (from..to).find(|&i| (self.current[i] > middle) == (b > middle));
            if let Some(i) = crossing {
                let t = self.start_s + i as f64 * self.step_s;
                stages[k - 1].to_s = t;
                stages[k].from_s = t;
            }
        }
        stages
    }

    /// Sets the current of each stage to the level of its samples.
    fn leveled(&self, mut stages: Vec<Stage>, step: f64) -> Vec<Stage> {
        for stage in &mut stages {
            let samples = level(self.part(stage.from_s, stage.to_s), step);
            stage.current = samples.map_or(stage.current, |l| l.mean);
        }
        stages
    }

    /// Samples of a span outside of the wake-ups.
    fn without(&self, wake_ups: &[Stage], from_s: f64, to_s: f64) -> Vec<f64> {
        let mut out = Vec::new();
        let mut at = from_s;
        for w in wake_ups {
            out.extend_from_slice(self.part(at, w.from_s));
            at = w.to_s;
        }
        out.extend_from_slice(self.part(at, to_s));
        if out.is_empty() {
            out.extend_from_slice(self.part(from_s, to_s));
        }
        out
    }
}

/// Noise of the points where the current holds still: from the tenth of the neighbours' differences that is smallest
/// (of a normal distribution, 0.178 standard deviations).
fn scatter(points: &[f64]) -> f64 {
    let d: Vec<f64> = points.windows(2).map(|w| (w[1] - w[0]).abs()).collect();
    stats::quantile(&d, 0.1).unwrap_or(0.0) / 0.178
}
