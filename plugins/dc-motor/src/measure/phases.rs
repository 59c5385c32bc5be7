//! Three-phase motors behind an inverter: electrical rate, and whether the phases carry alike.

use plugin_sdk::signal::windows::{average, median};
use plugin_sdk::signal::{Measured, spectrum};

/// Phase currents of a steady stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Phases {
    /// Electrical rate, Hz.
    pub rate: Measured,
    /// Root mean square of each phase without its mean, A.
    pub rms: [f64; 3],
    /// Largest deviation of a phase from the mean of the three, % of that mean; 100 where one carries nothing.
    pub imbalance: Measured,
    /// Root mean square of the sum of the three, as a share of the largest: 0 where all current that one phase brings
    /// the others take (Kirchhoff), more where a clamp is off or has another scale.
    pub sum: f64,
    /// Index of a phase that carries nothing: less than a twelfth of the mean of the other two.
    pub missing: Option<usize>,
    /// Correlation of the two phases other than the smallest, -1 where the current of one is that of the other.
    pub others: f64,
}

/// Slowest electrical rate that is looked for, Hz.
const SLOWEST_HZ: f64 = 3.0;
/// Half of a stretch that is long enough by itself, s.
const LATER_HALF_S: f64 = 0.35;
/// Share below which a phase carries nothing.
const NOTHING: f64 = 1.0 / 12.0;

/// The last stretch of the currents, in samples, in which their size holds within 8 %: of half a second at least where
/// there is as much. `None` where they carry nothing.
pub fn steady(currents: [&[f64]; 3], step_s: f64) -> Option<(usize, usize)> {
    let n = currents.iter().map(|c| c.len()).min()?;
    let squares: Vec<f64> = (0..n)
        .map(|i| currents.iter().map(|c| c[i] * c[i]).sum::<f64>())
        .collect();
    let block = ((0.1 / step_s) as usize).max(1);
    let size: Vec<f64> = squares
        .chunks_exact(block)
        .map(|b| (b.iter().sum::<f64>() / block as f64).sqrt())
        .collect();
    let top = size.iter().copied().fold(0.0, f64::max);
    let last = size.iter().rposition(|v| *v > 0.25 * top)?;
    let running: Vec<f64> = size[..=last]
        .iter()
        .copied()
        .filter(|v| *v > 0.25 * top)
        .collect();
    let level = median(&running[running.len() / 2..])?;
    let end = (0..=last)
        .rev()
        .find(|&k| (size[k] / level - 1.0).abs() < 0.08)?;
    let mut start = end;
    // A single block may stand out.
    while start > 0 && (size[start - 1] / level - 1.0).abs() < 0.1 {
        start -= 1;
    }
    // The rate may still climb when the size of the currents holds already: the later half counts.
    let half = (end + 1 - start) / 2;
    if half as f64 * block as f64 * step_s >= LATER_HALF_S {
        start = end + 1 - half;
    }
    (end - start >= 3).then_some((start * block, (end + 1) * block))
}

/// Measures the phases over a steady stretch of at least four electrical periods.
pub fn phases(
    currents: [&[f64]; 3],
    start_s: f64,
    step_s: f64,
    span: (usize, usize),
) -> Option<Phases> {
    let part = |c: &[f64]| -> Option<Vec<f64>> {
        let x = c.get(span.0..span.1)?;
        let mean = x.iter().sum::<f64>() / x.len() as f64;
        Some(x.iter().map(|v| v - mean).collect())
    };
    let x = [part(currents[0])?, part(currents[1])?, part(currents[2])?];
    let rms_of = |v: &[f64]| (v.iter().map(|v| v * v).sum::<f64>() / v.len() as f64).sqrt();
    let largest = (0..3).max_by(|&a, &b| rms_of(&x[a]).total_cmp(&rms_of(&x[b])))?;
    let rate = electrical_rate(&x[largest], step_s)?;
    // Whole periods only, and the switching of the inverter averaged away.
    let period = 1.0 / rate.0 / step_s;
    let whole = ((x[0].len() as f64 / period).floor() * period) as usize;
    if (whole as f64) < 3.9 * period {
        return None;
    }
    let smooth = |v: &[f64]| average(&v[..whole], (period / 24.0) as usize);
    let y = [smooth(&x[0]), smooth(&x[1]), smooth(&x[2])];
    let rms = [rms_of(&y[0]), rms_of(&y[1]), rms_of(&y[2])];
    let mean = rms.iter().sum::<f64>() / 3.0;
    let off = rms
        .iter()
        .map(|r| (r / mean - 1.0).abs())
        .fold(0.0, f64::max);
    let sum: Vec<f64> = (0..whole).map(|i| y[0][i] + y[1][i] + y[2][i]).collect();
    let least = (0..3).min_by(|&a, &b| rms[a].total_cmp(&rms[b]))?;
    let (a, b) = ((least + 1) % 3, (least + 2) % 3);
    let missing = (rms[least] < NOTHING * (rms[a] + rms[b]) / 2.0).then_some(least);
    let product: f64 = y[a].iter().zip(&y[b]).map(|(p, q)| p * q).sum::<f64>() / whole as f64;
    let (from_s, to_s) = (
        start_s + span.0 as f64 * step_s,
        start_s + span.1 as f64 * step_s,
    );
    Some(Phases {
        rate: Measured {
            value: rate.0,
            uncertainty: rate.1,
            from_s,
            to_s,
        },
        rms,
        imbalance: Measured {
            value: 100.0 * off,
            // Scale of one clamp against another, 1 %, and the scatter over the periods.
            uncertainty: 1.2,
            from_s,
            to_s,
        },
        sum: rms_of(&sum) / rms[largest].max(f64::MIN_POSITIVE),
        missing,
        others: product / (rms[a] * rms[b]).max(f64::MIN_POSITIVE),
    })
}

/// Electrical rate of one phase current and its standard uncertainty, Hz: rising crossings of the middle, with a
/// hysteresis, averaged over the whole span; the first line of the spectrum must agree. `None` with fewer than four
/// periods, or where the two disagree.
pub fn electrical_rate(phase: &[f64], step_s: f64) -> Option<(f64, f64)> {
    let seen = spectrum::spectrum(phase, step_s, phase.len())?;
    let line = *seen
        .lines(SLOWEST_HZ, 0.4 / step_s, 80.0 * seen.step_hz, 6.0)
        .first()?;
    let n = (1.0 / line.hz / step_s / 16.0) as usize;
    let x = average(phase, n);
    let size = (x.iter().map(|v| v * v).sum::<f64>() / x.len() as f64).sqrt();
    let mut crossings: Vec<f64> = Vec::new();
    let mut armed = false;
    for i in 1..x.len() {
        if x[i] < -0.4 * size {
            armed = true;
        }
        if armed && x[i - 1] < 0.0 && x[i] >= 0.0 {
            crossings.push(i as f64 - x[i] / (x[i] - x[i - 1]));
            armed = false;
        }
    }
    let count = crossings.len().checked_sub(1).filter(|&c| c >= 4)?;
    let periods: Vec<f64> = crossings.windows(2).map(|w| w[1] - w[0]).collect();
    let usual = median(&periods)?;
    let mean = (crossings[count] - crossings[0]) / count as f64;
    let hz = 1.0 / mean / step_s;
    let scatter = periods
        .iter()
        .map(|p| (p - usual) * (p - usual))
        .sum::<f64>()
        / count as f64;
    let agrees = (hz / line.hz - 1.0).abs() < 0.05;
    agrees.then_some((
        hz,
        hz * (scatter.sqrt() / usual / (count as f64).sqrt()).max(5e-4),
    ))
}

/// Ripple of the current that an inverter draws from its link.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LinkRipple {
    /// Peak to peak, % of the mean, of the lines that repeat with `hz`.
    pub depth: Measured,
    /// Rate of the strongest line, Hz.
    pub hz: f64,
    /// Its standard uncertainty, Hz.
    pub hz_uncertainty: f64,
}

/// Measures the ripple of a link current while its mean holds: an inverter that feeds three phases evenly draws a
/// current that holds within some percent; with a phase missing its power, and its current, go to nothing twice a
/// period (single-phase power). `None` where no line stands clear or the current does not hold for 0.2 s.
pub fn link_ripple(link: &[f64], start_s: f64, step_s: f64) -> Option<LinkRipple> {
    let (from, to) = steady([link, link, link], step_s)?;
    let half = (from + (to - from) / 2, to);
    let whole = line_of_link(link, start_s, step_s, (from, to));
    // A rate that still climbs smears the line: the larger one counts.
    let later = line_of_link(link, start_s, step_s, half);
    match (whole, later) {
        (Some(a), Some(b)) if b.depth.value > a.depth.value => Some(b),
        (a, b) => a.or(b),
    }
}

/// The strongest line of a part of the link current.
fn line_of_link(
    link: &[f64],
    start_s: f64,
    step_s: f64,
    span: (usize, usize),
) -> Option<LinkRipple> {
    let part = link.get(span.0..span.1)?;
    if part.len() as f64 * step_s < 0.2 {
        return None;
    }
    let mean = part.iter().sum::<f64>() / part.len() as f64;
    let seen = spectrum::spectrum(part, step_s, part.len())?;
    let lines = seen.lines(2.0 * SLOWEST_HZ, 0.4 / step_s, 80.0 * seen.step_hz, 6.0);
    let first = lines.first()?;
    // A sine's peak to peak; overtones add little to what decides.
    let depth = 200.0 * first.amplitude / mean.abs().max(f64::MIN_POSITIVE);
    Some(LinkRipple {
        depth: Measured {
            value: depth,
            uncertainty: 0.05 * depth + 200.0 * first.amplitude / first.over_noise / mean.abs(),
            from_s: start_s + span.0 as f64 * step_s,
            to_s: start_s + span.1 as f64 * step_s,
        },
        hz: first.hz,
        hz_uncertainty: 0.3 * seen.step_hz,
    })
}
