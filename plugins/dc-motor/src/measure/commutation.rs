//! Speed from the ripple that bars passing the brushes leave on the current.

use super::gaps;
use super::lines::SteadyLines;
use plugin_sdk::signal::spectrum::{Line, spectrum};

/// Ripples a turn of a motor with two brushes: the least common multiple of brushes and bars (a driver's public
/// header; agrees with a maker's worked example of three bars and six ripples).
pub fn ripples_a_turn(bars: u32) -> u32 {
    if bars.is_multiple_of(2) {
        bars
    } else {
        2 * bars
    }
}

/// Commutation ripple of a steady run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Commutation {
    /// Ripples a second.
    pub hz: f64,
    /// Standard uncertainty, Hz.
    pub uncertainty: f64,
    /// Amplitude of its sine, A.
    pub amplitude: f64,
    /// Height over the noise.
    pub over_noise: f64,
}

/// Slowest ripple that is looked for, Hz.
const SLOWEST_HZ: f64 = 40.0;
/// Least height of a line over the noise.
pub const CLEAR: f64 = 5.0;
/// Lines of the mains and of lamps and chargers on it, Hz.
const MAINS_HZ: [f64; 4] = [50.0, 60.0, 100.0, 120.0];
/// Lines below this order of the turn come from poles, couplings and bearings.
const LOW_ORDER: f64 = 8.5;
/// Height of a ripple over the overtones of a low order before it.
const STANDS_OUT: f64 = 1.3;
/// Fastest turning that is believed, turns a second: 15,000 rpm. Judgement.
pub const FASTEST_HZ: f64 = 250.0;

/// Finds the commutation ripple in a steady span of the current. `ripples` is their number a turn where the bars are
/// known; `pick_up` are frequencies that are there while the motor is off, Hz. `None` where no line stands clear.
///
/// The strongest line may be one of the turn's own low orders: then a line that it is a low order of is the ripple.
pub fn commutation(
    current: &[f64],
    step_s: f64,
    span: (usize, usize),
    ripples: Option<u32>,
    pick_up: &[f64],
) -> Option<Commutation> {
    let x = gaps::without_dips(current, span);
    let seen = spectrum(&x, step_s, (0.6 / step_s) as usize)?;
    let nyquist = 0.5 / step_s;
    let width = 2.0 * seen.step_hz;
    let lines: Vec<Line> = seen
        .lines(SLOWEST_HZ, 0.96 * nyquist, 60.0 * seen.step_hz, CLEAR)
        .into_iter()
        .filter(|l| {
            !pick_up
                .iter()
                .chain(&MAINS_HZ)
                .any(|p| (p - l.hz).abs() < width)
        })
        .filter(|l| ripples.is_none_or(|n| l.hz / f64::from(n) < FASTEST_HZ))
        .collect();
    let strongest = lines.first()?;
    let line = match ripples {
        Some(n) => above_low_orders(&lines, strongest, f64::from(n), width),
        None => overtone_that_stands_out(&lines, strongest, width),
    };
    Some(Commutation {
        hz: line.hz,
        uncertainty: (0.3 * seen.step_hz).max(0.001 * line.hz),
        amplitude: line.amplitude,
        over_noise: line.over_noise,
    })
}

/// The strongest of those lines of which the strongest of all is a low order of the turn; that one itself where there
/// is none.
fn above_low_orders<'a>(
    lines: &'a [Line],
    strongest: &'a Line,
    ripples: f64,
    width: f64,
) -> &'a Line {
    let low_order_of = |l: &Line| {
        let turn = l.hz / ripples;
        let order = (strongest.hz / turn).round();
        // Half of the ripples is no order of poles or couplings: then the strongest is the ripple and this its second.
        order >= 1.0
            && order < LOW_ORDER.min(ripples / 2.0 - 0.5)
            && (strongest.hz - order * turn).abs() < width
    };
    // A multiple may be an overtone of the ripple itself: the third and fourth are large where brushes are narrow, and further
    // ones lie below one of the two before them.
    let is_overtone = |l: &Line| {
        let k = (l.hz / strongest.hz).round();
        // What the strongest is off counts as many times.
        let width = width * (k / 8.0).max(1.0);
        let multiple = (l.hz - k * strongest.hz).abs() < width;
        let usual = if k < 4.5 { 0.5 } else { 0.4 / k };
        let before = |b: f64| height(lines, (k - b) * strongest.hz, width);
        let falls = k > 4.5 && l.amplitude < STANDS_OUT * before(1.0).max(before(2.0));
        multiple && (falls || l.amplitude < usual.max(0.03) * strongest.amplitude)
    };
    let candidates: Vec<&Line> = lines
        .iter()
        .filter(|l| l.hz > 1.5 * strongest.hz && l.amplitude > 0.03 * strongest.amplitude)
        .filter(|l| l.over_noise > 1.5 * CLEAR && low_order_of(l) && !is_overtone(l))
        .collect();
    let by_amplitude = |a: &&Line, b: &&Line| a.amplitude.total_cmp(&b.amplitude);
    let Some(largest) = candidates.iter().copied().max_by(by_amplitude) else {
        return strongest;
    };
    // A low order has multiples that are low orders as well: a quicker line nearly as large is the ripple, unless it is
    // the second of this one.
    let quicker = candidates.iter().copied().filter(|l| {
        let is_second = (l.hz - 2.0 * largest.hz).abs() < width;
        l.hz > largest.hz && l.amplitude > 0.6 * largest.amplitude && !is_second
    });
    quicker.max_by(by_amplitude).unwrap_or(largest)
}

/// Root of the sum of squares of the lines between a rate and that of the ripple, Hz, as a share of the mean current: what
/// poles, couplings and loads leave, and an open bar under a brush that is wider than a bar.
pub fn below_ripple(steady: &SteadyLines, (slowest_hz, ripple_hz): (f64, f64)) -> f64 {
    let from_hz = slowest_hz.max(4.0 * steady.seen.step_hz);
    let lines = steady.between((from_hz, 0.9 * ripple_hz), 6.0);
    let squares: f64 = lines.iter().map(|l| l.amplitude * l.amplitude).sum();
    squares.sqrt() / steady.level
}

/// Amplitude of the line at a frequency; 0 where there is none.
fn height(lines: &[Line], hz: f64, width: f64) -> f64 {
    let near = lines.iter().find(|l| (l.hz - hz).abs() < width);
    near.map_or(0.0, |l| l.amplitude)
}

/// Without a known number: an overtone of the strongest line from the third on that is larger than the one below it,
/// which the overtones of a ripple are not.
fn overtone_that_stands_out<'a>(lines: &'a [Line], strongest: &'a Line, width: f64) -> &'a Line {
    lines
        .iter()
        .filter(|l| {
            let k = (l.hz / strongest.hz).round();
            k >= 3.0
                && (l.hz - k * strongest.hz).abs() < width
                && l.amplitude > 0.15 * strongest.amplitude
                && l.amplitude > 1.5 * height(lines, (k - 1.0) * strongest.hz, width)
        })
        .max_by(|a, b| a.amplitude.total_cmp(&b.amplitude))
        .unwrap_or(strongest)
}

/// The ripple between regular dips, where the bars are known: a bar that is open leaves one or two dips a turn, so that
/// the ripple lies at one of two rates. `None` where neither line stands clear.
pub fn between_dips(
    current: &[f64],
    step_s: f64,
    span: (usize, usize),
    ripples: u32,
    dips_hz: f64,
) -> Option<Commutation> {
    let x = gaps::without_dips(current, span);
    let seen = spectrum(&x, step_s, (0.6 / step_s) as usize)?;
    let lines = seen.lines(SLOWEST_HZ, 0.48 / step_s, 60.0 * seen.step_hz, CLEAR);
    [1.0, 2.0]
        .iter()
        .filter_map(|a_turn| {
            let hz = dips_hz * f64::from(ripples) / a_turn;
            let near = |l: &&Line| (l.hz - hz).abs() < (0.01 * hz).max(1.5 * seen.step_hz);
            lines.iter().find(near)
        })
        .max_by(|a, b| a.amplitude.total_cmp(&b.amplitude))
        .map(|line| Commutation {
            hz: line.hz,
            uncertainty: (0.3 * seen.step_hz).max(0.001 * line.hz),
            amplitude: line.amplitude,
            over_noise: line.over_noise,
        })
}

/// Slowest speed that is believed where a quicker ripple could hide beyond half the sample rate, turns a second, and
/// the quickest that it could have.
const HIDES: (f64, f64) = (1_000.0 / 60.0, 9_000.0 / 60.0);

/// True for a speed that may be a false one: it is low, and that of a usual speed would lie beyond half
/// the sample rate.
pub fn may_be_false(hz: f64, ripples: u32, step_s: f64) -> bool {
    let n = f64::from(ripples);
    hz / n < HIDES.0 && 0.5 / step_s < n * HIDES.1
}

/// Lines of a span in which the motor is off: pick-up of other machines. Hz.
pub fn pick_up(current: &[f64], step_s: f64, span: (usize, usize)) -> Vec<f64> {
    let Some(x) = current.get(span.0..span.1) else {
        return Vec::new();
    };
    let Some(seen) = spectrum(x, step_s, (0.3 / step_s) as usize) else {
        return Vec::new();
    };
    let lines = seen.lines(SLOWEST_HZ, 0.48 / step_s, 60.0 * seen.step_hz, 8.0);
    lines.iter().map(|l| l.hz).collect()
}
