//! Noise and state levels of a signal.

use crate::stats;

/// Samples that are enough for levels and noise; longer records are thinned for them.
const ENOUGH: usize = 100_000;

/// Samples of a block over which noise is estimated.
const BLOCK: usize = 64;

/// Least and greatest sample, infinities included; `None` without one that is a number.
pub fn extremes(x: &[f32]) -> Option<(f32, f32)> {
    let (low, high) = least_and_greatest(x, (f32::INFINITY, f32::NEG_INFINITY));
    (low <= high).then_some((low, high))
}

/// Least and greatest of the samples and of what they are compared with first. NaN counts as neither.
pub(crate) fn least_and_greatest<T: Copy + PartialOrd>(x: &[T], (low, high): (T, T)) -> (T, T) {
    // Sixteen at once and without a branch: this runs at the speed of the memory. A comparison with NaN is never true.
    let (mut lows, mut highs) = ([low; 16], [high; 16]);
    let (groups, rest) = x.as_chunks::<16>();
    for group in groups {
        for ((low, high), &v) in lows.iter_mut().zip(&mut highs).zip(group) {
            *low = if v < *low { v } else { *low };
            *high = if v > *high { v } else { *high };
        }
    }
    for v in rest {
        lows[0] = if *v < lows[0] { *v } else { lows[0] };
        highs[0] = if *v > highs[0] { *v } else { highs[0] };
    }
    // Halves at once as well: most calls are for a few groups.
    for half in [8, 4, 2, 1] {
        for k in 0..half {
            let (low, high) = (lows[k + half], highs[k + half]);
            lows[k] = if low < lows[k] { low } else { lows[k] };
            highs[k] = if high > highs[k] { high } else { highs[k] };
        }
    }
    (lows[0], highs[0])
}

/// The recorder's resolution as the record shows it: the smallest step between neighbouring samples; 0 when no
/// neighbours differ.
pub fn resolution(x: &[f32]) -> f64 {
    let every = (x.len() / ENOUGH).max(1);
    let smallest = x
        .chunks(BLOCK)
        .step_by(every)
        .flat_map(|block| block.windows(2))
        .map(|w| (w[1] as f64 - w[0] as f64).abs())
        .filter(|d| d.is_finite() && *d > 0.0)
        .fold(f64::INFINITY, f64::min);
    if smallest.is_finite() { smallest } else { 0.0 }
}

/// Standard deviation of the white noise on a signal, from blocks of 64 samples: the root of half the mean squared
/// difference of neighbours, median over the blocks, or lower quintile where they disagree (then some of them hold
/// a fast signal). Only blocks that look like noise count: for white noise the mean
/// squared difference is twice the variance (the ratio of von Neumann 1941), for anything smooth or periodic with
/// more than about six samples a period it is less than 1.2 times. Never below what the recorder's resolution
/// gives (one step over sqrt(12)); that alone when no block looks like noise. 0 for fewer than three samples.
pub fn noise_sigma(x: &[f32]) -> f64 {
    let every = (x.len() / ENOUGH).max(1);
    let mut sigmas = Vec::new();
    let mut v = Vec::with_capacity(BLOCK);
    for block in x.chunks(BLOCK).step_by(every) {
        v.clear();
        v.extend(block.iter().map(|&v| v as f64).filter(|v| v.is_finite()));
        if v.len() < 3 {
            continue;
        }
        let mean = v.iter().sum::<f64>() / v.len() as f64;
        let variance = v.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / v.len() as f64;
        let mut squares = 0.0;
        for w in v.windows(2) {
            squares += (w[1] - w[0]) * (w[1] - w[0]);
        }
        let squares = squares / (v.len() - 1) as f64;
        if squares >= 1.2 * variance {
            sigmas.push((squares / 2.0).sqrt());
        }
    }
    let q = |q| stats::quantile(&sigmas, q).unwrap_or(0.0);
    let sigma = if q(0.8) < 3.0 * q(0.2) {
        q(0.5)
    } else {
        q(0.2)
    };
    sigma.max(resolution(x) / 12f64.sqrt())
}

/// Tells whether a record holds two values only, as a logic input gives them: it shows no noise.
pub fn is_logic(x: &[f32]) -> bool {
    let Some((low, high)) = extremes(x) else {
        return false;
    };
    let near = 0.02 * (high - low);
    low < high
        && x.iter()
            .all(|&v| v.is_nan() || v - low <= near || high - v <= near)
}

/// Fewest quiet blocks from which a noise is told.
const QUIET_BLOCKS: usize = 8;

/// Standard deviation of the white noise on a signal, from quiet blocks of 64 samples; `None` where fewer than eight
/// blocks are quiet. A block is quiet where samples one to nine apart are not correlated (all within 0.4: a sine of any
/// rate fails at the first two, since cos 2a = 2 cos^2 a - 1, a train of pulses at its period or, where that is longer, at
/// one of the first), and where no pulses stand out of it (its standard deviation is at most twice what its median
/// deviation gives). Blocks that hold still count only where no
/// others do: an input that clamps shows no noise. Never below what the recorder's resolution gives (one step over
/// sqrt(12)).
pub fn noise_level(x: &[f32]) -> Option<f64> {
    QuietBlocks::find(x).noise()
}

/// Quiet blocks of a record, see [`noise_level`].
pub struct QuietBlocks {
    /// Standard deviations, rising.
    sigmas: Vec<f64>,
    /// Blocks looked at.
    blocks: usize,
    /// The recorder's resolution.
    step: f64,
}

impl QuietBlocks {
    /// Looks at the blocks of a record; of a long one at enough of them.
    pub fn find(x: &[f32]) -> QuietBlocks {
        let every = (x.len() / ENOUGH).max(1);
        let step = resolution(x);
        let blocks = x.chunks_exact(BLOCK).step_by(every);
        let quiet = blocks.clone().filter_map(|block| quiet_sigma(block, step));
        let mut sigmas: Vec<f64> = quiet.collect();
        sigmas.sort_unstable_by(f64::total_cmp);
        QuietBlocks {
            sigmas,
            blocks: blocks.len(),
            step,
        }
    }

    /// Standard deviation of the white noise, see [`noise_level`].
    pub fn noise(&self) -> Option<f64> {
        let still = self.sigmas.partition_point(|s| *s == 0.0);
        let moving = self.sigmas.len() - still;
        let sigmas = match moving >= QUIET_BLOCKS {
            true => &self.sigmas[still..],
            false => &self.sigmas[..],
        };
        if sigmas.len() < QUIET_BLOCKS {
            return None;
        }
        Some(sigmas[sigmas.len() / 2].max(self.step / 12f64.sqrt()))
    }

    /// Share of the blocks that hold more than white noise; 0 without a whole block.
    pub fn structured_share(&self) -> f64 {
        (self.blocks - self.sigmas.len()) as f64 / self.blocks.max(1) as f64
    }
}

/// Standard deviation of the noise on a signal of two levels: 1.4826 times the median distance from the nearer one (what
/// white noise gives), of samples within 15 % of the amplitude of either; edges do not count. Never below what the
/// recorder's resolution gives (one step over sqrt(12)).
pub fn noise_about(x: &[f32], levels: &Levels) -> f64 {
    let every = (x.len() / ENOUGH).max(1);
    let near = 0.15 * levels.amplitude();
    let off = |level: f64| {
        let own = x.iter().step_by(every);
        let off: Vec<f64> = own
            .map(|v| f64::from(*v) - level)
            .filter(|d| d.abs() <= near)
            .collect();
        let middle = stats::median(&off).unwrap_or(0.0);
        let off: Vec<f64> = off.iter().map(|d| (d - middle).abs()).collect();
        1.4826 * stats::median(&off).unwrap_or(0.0)
    };
    let sigma = off(levels.low).max(off(levels.high));
    sigma.max(resolution(x) / 12f64.sqrt())
}

/// Upper bound of the noise on a signal that shows no quiet block: root mean square of the second difference over the root
/// of 6 (what white noise gives), lower quartile over blocks of 64 samples. A signal with many samples a period adds
/// little to it.
pub fn roughness(x: &[f32]) -> f64 {
    let every = (x.len() / ENOUGH).max(1);
    let rough = |block: &[f32]| {
        let second = block
            .windows(3)
            .map(|w| f64::from(w[0]) - 2.0 * f64::from(w[1]) + f64::from(w[2]));
        (second.map(|d| d * d).sum::<f64>() / (block.len() - 2) as f64 / 6.0).sqrt()
    };
    let all: Vec<f64> = x.chunks_exact(BLOCK).step_by(every).map(rough).collect();
    stats::quantile(&all, 0.25).unwrap_or(0.0)
}

/// Standard deviation of a quiet block; `None` for any other. `step`: the recorder's resolution.
fn quiet_sigma(block: &[f32], step: f64) -> Option<f64> {
    let n = block.len() as f64;
    let mean = block.iter().map(|&v| f64::from(v)).sum::<f64>() / n;
    let product = |lag: usize| {
        let pairs = block.iter().zip(&block[lag..]);
        pairs
            .map(|(&a, &b)| (f64::from(a) - mean) * (f64::from(b) - mean))
            .sum::<f64>()
    };
    let squares = product(0);
    let white = squares.is_finite() && (1..=9).all(|lag| product(lag).abs() <= 0.4 * squares);
    if !white {
        return None;
    }
    let sigma = (squares / (n - 1.0)).sqrt();
    let mut off: Vec<f32> = block.iter().map(|v| (v - mean as f32).abs()).collect();
    let (_, middle, _) = off.select_nth_unstable_by(block.len() / 2, f32::total_cmp);
    let typical = (1.4826 * f64::from(*middle)).max(0.6 * step);
    (sigma <= 2.0 * typical).then_some(sigma)
}

/// Tells whether the record looks like white noise: mean squared difference of neighbours at least 1.2 times the variance
/// (twice it for white noise; von Neumann 1941).
pub fn is_white(x: &[f32]) -> bool {
    let (mut n, mut sum, mut squares, mut steps) = (0.0f64, 0.0f64, 0.0f64, 0.0f64);
    let mut before = f64::NAN;
    for &v in x.iter().filter(|v| v.is_finite()) {
        let v = v as f64;
        if before.is_finite() {
            steps += (v - before) * (v - before);
        }
        n += 1.0;
        sum += v;
        squares += v * v;
        before = v;
    }
    let variance = squares / n - (sum / n) * (sum / n);
    n > 2.0 && steps / (n - 1.0) >= 1.2 * variance
}

/// The two state levels of a two-level signal and how well they describe it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Levels {
    /// Low state.
    pub low: f64,
    /// High state.
    pub high: f64,
    /// Share of samples within 15 % of the amplitude of either level, 0 to 1.
    pub settled: f64,
}

impl Levels {
    /// Amplitude: high - low.
    pub fn amplitude(&self) -> f64 {
        self.high - self.low
    }

    /// The 50 % level.
    pub fn mid(&self) -> f64 {
        (self.high + self.low) / 2.0
    }
}

/// State levels by the histogram method (range split into two halves, the mode of each; the method that
/// IEEE Std 181 describes), 256 bins between the 0.1 % and 99.9 % quantiles so that single outliers do not
/// stretch the range. `None` when nothing is finite.
pub fn state_levels(x: &[f32]) -> Option<Levels> {
    const BINS: usize = 256;
    let lo = stats::sampled_quantile(x, 0.001, ENOUGH)?;
    let hi = stats::sampled_quantile(x, 0.999, ENOUGH)?;
    let range = hi - lo;
    if range <= 0.0 {
        return Some(Levels {
            low: lo,
            high: hi,
            settled: 1.0,
        });
    }
    let mut count = [0usize; BINS];
    let step = (x.len() / ENOUGH).max(1);
    for &v in x.iter().step_by(step).filter(|v| v.is_finite()) {
        let b = ((v as f64 - lo) / range * BINS as f64) as isize;
        count[b.clamp(0, BINS as isize - 1) as usize] += 1;
    }
    let mode = |from: usize, to: usize| {
        let best = (from..to).max_by_key(|&b| count[b]).unwrap_or(from);
        lo + (best as f64 + 0.5) / BINS as f64 * range
    };
    let (low, high) = (mode(0, BINS / 2), mode(BINS / 2, BINS));
    let near = 0.15 * (high - low);
    let (mut settled, mut all) = (0usize, 0usize);
    for &v in x.iter().step_by(step).filter(|v| v.is_finite()) {
        let v = v as f64;
        all += 1;
        settled += usize::from((v - low).abs() <= near || (v - high).abs() <= near);
    }
    Some(Levels {
        low,
        high,
        settled: settled as f64 / all.max(1) as f64,
    })
}

/// Shares of a record's samples, 0 to 1 each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shares {
    /// Within 15 % of the amplitude of the low level.
    pub low: f64,
    /// Within 15 % of the amplitude of the high level.
    pub high: f64,
    /// Further than that beyond either level.
    pub beyond: f64,
}

/// Shares of the samples near the two levels and beyond them.
pub fn shares(x: &[f32], levels: &Levels) -> Shares {
    let near = 0.15 * levels.amplitude();
    let (mut low, mut high, mut beyond, mut all) = (0usize, 0usize, 0usize, 0usize);
    let step = (x.len() / ENOUGH).max(1);
    for v in x.iter().step_by(step).filter(|v| v.is_finite()) {
        let v = f64::from(*v);
        all += 1;
        low += usize::from((v - levels.low).abs() <= near);
        high += usize::from((v - levels.high).abs() <= near);
        beyond += usize::from(v < levels.low - near || v > levels.high + near);
    }
    let share = |n: usize| n as f64 / all.max(1) as f64;
    Shares {
        low: share(low),
        high: share(high),
        beyond: share(beyond),
    }
}

/// Standard deviation of the samples about the nearer of the two levels, from the median deviation.
pub fn scatter(x: &[f32], levels: &Levels) -> f64 {
    let step = (x.len() / ENOUGH).max(1);
    let d: Vec<f64> = x
        .iter()
        .step_by(step)
        .map(|&v| {
            (v as f64 - levels.low)
                .abs()
                .min((v as f64 - levels.high).abs())
        })
        .collect();
    1.4826 * stats::median(&d).unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn levels_of_a_square_wave() {
        let x: Vec<f32> = (0..1000)
            .map(|i| if i / 10 % 2 == 0 { 0.3 } else { 4.9 })
            .collect();
        let l = state_levels(&x).unwrap();
        // One bin is 1/256 of the range.
        assert!((l.low - 0.3).abs() < 4.6 / 256.0 && (l.high - 4.9).abs() < 4.6 / 256.0);
        assert_eq!(l.settled, 1.0);
    }

    /// A sine spends 2/pi*acos(0.7) = 50.6 % of its time within 15 % of its range of an end (closed form).
    #[test]
    fn a_sine_is_not_two_levels() {
        let x: Vec<f32> = (0..10_000).map(|i| (i as f32 * 0.01).sin()).collect();
        let l = state_levels(&x).unwrap();
        assert!((l.settled - 0.506).abs() < 0.03, "{}", l.settled);
    }

    #[test]
    fn noise_of_a_known_sigma() {
        // A linear congruential generator summed twelve times: variance 1 (central limit), sigma 1.
        let mut s = 1u64;
        let mut uniform = || {
            s = s
                .wrapping_mul(6364136223846793005)
                .wrapping_add(1442695040888963407);
            (s >> 11) as f64 / (1u64 << 53) as f64
        };
        let x: Vec<f32> = (0..20_000)
            .map(|_| ((0..12).map(|_| uniform()).sum::<f64>() - 6.0) as f32)
            .collect();
        let n = noise_sigma(&x);
        assert!((n - 1.0).abs() < 0.03, "{n}");
    }
}
