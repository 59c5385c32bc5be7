//! Dips of the current that an open bar or a lifting brush leaves at every turn.

use plugin_sdk::signal::windows::{average, median, quantile, spread};
use plugin_sdk::signal::{least_squares, stats};
use std::f64::consts::PI;

/// Regular dips of a steadily running motor's current.
#[derive(Debug, Clone, PartialEq)]
pub struct Dips {
    /// Dips a second.
    pub hz: f64,
    /// Relative scatter of the time from dip to dip.
    pub jitter: f64,
    /// Depth as a share of the running current, median.
    pub depth: f64,
    /// Middle of each dip, in samples of the record.
    pub at: Vec<usize>,
    /// True where every second dip differs from those between: then two of them are one turn.
    pub alternate: bool,
}

/// Fewest dips that are a pattern.
const FEWEST: usize = 6;
/// Least depth, as a share of the running current.
const LEAST_DEPTH: f64 = 0.12;
/// Largest scatter of the time from dip to dip.
const REGULAR: f64 = 0.06;
/// Largest share of the time that gaps take: two a turn of few bars.
const MOST_DIPPED: f64 = 0.3;
/// Least share of the time that the current keeps its level between dips, and how near to it, as a share of their depth: a
/// gap is narrow (0.66 and more in a model of the coils), the ripple of the commutation itself, as deep as it may be on a
/// motor with little load, is not (0.35 to 0.52 there).
const FLAT: f64 = 0.6;
const NEAR_LEVEL: f64 = 0.25;

/// Standard deviations of the ripple's own lowest values by which a gap lies below them.
const BELOW_RIPPLE: f64 = 6.0;

/// Finds regular dips in a span of the current. `None` where there are none.
pub fn dips(current: &[f64], step_s: f64, span: (usize, usize)) -> Option<Dips> {
    let x = average(
        current.get(span.0..span.1)?,
        if step_s < 0.0003 { 3 } else { 1 },
    );
    let (level, noise) = level_between(&x)?;
    let threshold = level - (LEAST_DEPTH * level).max(5.0 * noise);
    let mut found: Vec<(usize, usize, f64)> = Vec::new();
    for (i, v) in x.iter().enumerate().filter(|(_, v)| **v < threshold) {
        match found.last_mut() {
            Some(last) if i <= last.1 + 2 => {
                last.1 = i;
                last.2 = last.2.min(*v);
            }
            _ => found.push((i, i, *v)),
        }
    }
    // A dip that the span cuts through has no middle.
    found.retain(|d| d.0 > 1 && d.1 + 2 < x.len());
    if found.len() < FEWEST {
        return None;
    }
    let depths = |found: &[(usize, usize, f64)]| -> Vec<f64> {
        found.iter().map(|d| (level - d.2) / level).collect()
    };
    let near = level * (1.0 - NEAR_LEVEL * median(&depths(&found))?);
    let flat = x.iter().filter(|v| **v > near).count() as f64 / x.len() as f64;
    let among_ripples = flat < FLAT;
    if among_ripples {
        deeper(&mut found, level);
        if found.len() < FEWEST {
            return None;
        }
    }
    let middle = |d: &(usize, usize, f64)| (d.0 + d.1) as f64 / 2.0;
    let times: Vec<f64> = found
        .windows(2)
        .map(|w| middle(&w[1]) - middle(&w[0]))
        .collect();
    let usual = median(&times)?;
    let pairs: Vec<f64> = times.windows(2).map(|w| w[0] + w[1]).collect();
    let pair = median(&pairs)?;
    let scatter = |t: &[f64], usual: f64| {
        let off: Vec<f64> = t.iter().map(|v| (v / usual - 1.0).abs()).collect();
        stats::quantile(&off, 0.8).unwrap_or(1.0)
    };
    let (single, double) = (scatter(&times, usual), scatter(&pairs, pair));
    let uneven_times = single > 3.0 * double.max(0.5 / usual) && double < REGULAR;
    if single > REGULAR && !uneven_times {
        return None;
    }
    Some(Dips {
        hz: if uneven_times {
            2.0 / pair
        } else {
            1.0 / usual
        } / step_s,
        jitter: single.min(double),
        depth: median(&depths(&found))?,
        alternate: uneven_times || alternates(&depths(&found)),
        at: found.iter().map(|d| span.0 + (d.0 + d.1) / 2).collect(),
    })
}

/// Keeps the dips that lie deeper than most, where those are the ripple itself: their lowest values are alike, and the gaps lie below
/// them by more than they differ.
fn deeper(found: &mut Vec<(usize, usize, f64)>, level: f64) {
    let lowest: Vec<f64> = found.iter().map(|d| d.2).collect();
    // Gaps are fewer than ripples: up to half of them on few bars.
    let Some(usual) = quantile(&lowest, 0.7) else {
        return found.clear();
    };
    let least = LEAST_DEPTH * level;
    let ripple: Vec<f64> = lowest
        .iter()
        .copied()
        .filter(|v| *v > usual - least / 2.0)
        .collect();
    let alike = BELOW_RIPPLE * spread(&ripple);
    let middle = median(&ripple).unwrap_or(usual);
    found.retain(|d| d.2 < middle - least.max(alike));
}

/// Level of the current between dips and its noise: dips of few bars may take more than a third of the time, so that
/// both are taken from the upper part (0.7 and 0.9 quantile, 0.757 standard deviations apart).
fn level_between(x: &[f64]) -> Option<(f64, f64)> {
    let (level, high) = (quantile(x, 0.7)?, quantile(x, 0.9)?);
    Some((level, (high - level) / 0.757))
}

/// True where every second depth is another one than those between.
fn alternates(depths: &[f64]) -> bool {
    let of = |k: usize| -> Vec<f64> { depths.iter().skip(k).step_by(2).copied().collect() };
    let (a, b) = (of(0), of(1));
    let (Some(ma), Some(mb)) = (median(&a), median(&b)) else {
        return false;
    };
    (ma - mb).abs() > 6.0 * spread(&a).max(spread(&b)).max(0.01)
}

/// The current with its dips levelled, so that what lies between them can be looked at.
pub fn without_dips(current: &[f64], span: (usize, usize)) -> Vec<f64> {
    let x = &current[span.0..span.1];
    let Some((level, noise)) = level_between(x) else {
        return x.to_vec();
    };
    let threshold = level - (0.5 * LEAST_DEPTH * level).max(4.0 * noise);
    // What is low for longer is the ripple itself, which must not be cut.
    let low = x.iter().filter(|v| **v < threshold).count();
    if low as f64 > MOST_DIPPED * x.len() as f64 {
        return x.to_vec();
    }
    x.iter()
        .map(|v| if *v < threshold { level } else { *v })
        .collect()
}

/// Parts of the time from dip to dip that are averaged, and those of them that lie between the dips.
const PARTS: usize = 96;
const BETWEEN: std::ops::Range<usize> = PARTS / 6..PARTS - PARTS / 6;
/// Least number of ripples from gap to gap, and the least share of the course between the dips that they explain; and how many times
/// that which two more or two less explain: three quarters of a period tell no closer numbers apart.
const FEWEST_RIPPLES: usize = 3;
const EXPLAINED: f64 = 0.3;
const OVER_OTHERS: f64 = 2.0;

/// True where the mean course from dip to dip shows `ripples` of them, as bars that carry leave between two gaps: dips without any
/// between are the ripple itself, as deep as it is on few bars with little load.
pub fn shows_ripples(current: &[f64], dips: &Dips, ripples: usize) -> bool {
    if ripples < FEWEST_RIPPLES || 3 * ripples > PARTS {
        return false;
    }
    let mut course = [0.0; PARTS];
    let spans = dips
        .at
        .windows(2)
        .filter(|w| w[1] > w[0] && w[1] < current.len());
    for w in spans {
        for (k, sum) in course.iter_mut().enumerate() {
            let at = w[0] as f64 + (w[1] - w[0]) as f64 * k as f64 / PARTS as f64;
            let i = at as usize;
            *sum += current[i] + at.fract() * (current[i + 1] - current[i]);
        }
    }
    // Beside the ripple a current that recovers from a dip follows a curve: a polynomial of third degree.
    let phase = |k: usize| 2.0 * k as f64 / PARTS as f64 - 1.0;
    let curve = |k: usize| {
        let x = phase(k);
        [1.0, x, x * x, x * x * x]
    };
    let Some(plain) = least_squares::fit(BETWEEN.map(|k| (curve(k), course[k]))) else {
        return false;
    };
    let explained = |n: usize| {
        let with_ripples = least_squares::fit(BETWEEN.map(|k| {
            let [one, x, square, cube] = curve(k);
            let (sin, cos) = (PI * n as f64 * x).sin_cos();
            ([one, x, square, cube, sin, cos], course[k])
        }));
        with_ripples.map_or(0.0, |w| 1.0 - (w.residual / plain.residual).powi(2))
    };
    let own = explained(ripples);
    own > EXPLAINED && own > OVER_OTHERS * explained(ripples - 2).max(explained(ripples + 2))
}

/// Dips a turn: one or two, as an open bar passes one or both brushes once. Two brushes leave an even number of ripples
/// a turn, so that an odd number between dips is half a turn. `ripple_hz` is the rate of the ripple between the dips,
/// `ripples` its number a turn where the bars are known. `None` where nothing tells.
pub fn dips_a_turn(dips: &Dips, ripple_hz: Option<f64>, ripples: Option<u32>) -> Option<u32> {
    if dips.alternate {
        return Some(2);
    }
    let between = ripple_hz.map(|hz| hz / dips.hz)?;
    if let Some(n) = ripples {
        let a_turn = f64::from(n) / between;
        return (1..=2).find(|k| (a_turn / f64::from(*k) - 1.0).abs() < 0.03);
    }
    let odd = (between - between.round()).abs() < 0.12 && between.round() as u32 % 2 == 1;
    odd.then_some(2)
}

/// True where dips come more slowly while the motor gathers speed: what a turning part does, and a switched supply does
/// not. `None` where too few dips fall into the start to tell.
pub fn slower_at_start(
    current: &[f64],
    step_s: f64,
    on: usize,
    steady: usize,
    hz: f64,
) -> Option<bool> {
    let x = current.get(on..steady)?;
    let every = 1.0 / hz / step_s;
    let n = (every / 8.0) as usize;
    let smooth = average(x, n.clamp(1, 9));
    // During the start the level falls: each sample against the median around it.
    let half = (2.0 * every) as usize;
    let mut starts: Vec<usize> = Vec::new();
    let mut inside = false;
    for i in 0..smooth.len() {
        let near = &smooth[i.saturating_sub(half)..(i + half).min(smooth.len())];
        let top = stats::quantile(near, 0.7)?;
        let dips = smooth[i] < 0.8 * top;
        if dips && !inside {
            starts.push(i);
        }
        inside = dips;
    }
    let first: Vec<f64> = starts
        .windows(2)
        .take(2)
        .map(|w| (w[1] - w[0]) as f64)
        .collect();
    let slowest = first.iter().copied().fold(f64::NAN, f64::max);
    slowest.is_finite().then_some(slowest > 1.15 * every)
}
