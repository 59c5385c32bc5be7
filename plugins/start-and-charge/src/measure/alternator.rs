//! Ripple of a three-phase alternator and what its orders say of the phases.
//!
//! Six diodes that rectify three equal phases leave a ripple of six times the electrical rate and its multiples. A
//! diode or phase that is missing or shorted leaves lines below that, down to the electrical rate itself (or twice it,
//! for an open phase). How large they are depends on battery and load; which orders there are does not.

use plugin_sdk::signal::orders::{Order, order, peak_to_peak, turns_of_line};
use plugin_sdk::signal::windows::average;
use plugin_sdk::signal::{Measured, spectrum, stats};
use std::f64::consts::TAU;

/// Slower than this a variation is the engine's or a load's, Hz.
const SLOWEST_HZ: f64 = 90.0;
/// Least height of a line over the noise.
const CLEAR: f64 = 5.0;
/// Height over the least clear one of a line that is surely seen: the noise may take as much as it adds (detection
/// limit twice the critical one, ISO 11843; a part of it, since the noise is averaged), and a line between two values
/// of the spectrum shows 0.85 of itself.
const SEEN: f64 = 1.6;
/// Orders are measured in sixths of the strongest line's.
const SIXTHS: usize = 6;
/// Scatter of the turns of a line, in turns, below which a clock makes it: a load that is switched electronically. An
/// idling engine wanders by some tenths of a percent.
const CLOCK: f64 = 0.008;
/// Most lines of switched loads that are looked past.
const MOST_SWITCHED: usize = 5;
/// Highest order of the strongest line that is measured.
const HIGHEST: usize = 6;
/// Share of the strongest line below which another one is no part of the ripple's shape.
const SHARE: f64 = 0.06;

/// Periodic ripple of a voltage.
#[derive(Debug, Clone, PartialEq)]
pub struct Ripple {
    /// Repetition rate, Hz.
    pub hz: f64,
    /// Rate of the strongest line, Hz: a whole multiple of it.
    pub strongest_hz: f64,
    /// Peak to peak, in V, without noise and without what does not belong to it.
    pub peak_to_peak: Measured,
    /// Largest line below the strongest one's multiples, as a share of the strongest.
    pub sub_harmonic: f64,
    /// Root of the sum of squares of the multiples of the repetition rate from the second on, as a share of the first.
    pub overtones: f64,
    /// Multiples of the repetition rate that stand clear of the noise.
    pub clear: usize,
    /// True where it runs nearly as evenly as a clock, so that a switched load may have made it.
    pub clockwork: bool,
    /// Samples a second.
    pub sampled_hz: f64,
}

/// A record without a clear ripple.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Smooth {
    /// Smallest peak-to-peak value of a ripple that would have been seen, V.
    pub least_seen: f64,
}

/// Measures the ripple of a voltage while the engine runs; `None` where the record is too short (0.2 s) or too coarse
/// (2,000 samples a second) to tell.
///
/// # Errors
/// Where no line stands clear, with the ripple that would have been seen.
pub fn ripple(volts: &[f64], start_s: f64, step_s: f64) -> Result<Option<Ripple>, Smooth> {
    let rate = 1.0 / step_s;
    if !(2_000.0..=1e9).contains(&rate) || (volts.len() as f64) * step_s < 0.2 {
        return Ok(None);
    }
    // Long and quick records: what repeats still does in two seconds at 50,000 samples a second.
    let thin = (rate / 50_000.0).floor().max(1.0) as usize;
    let thinned: Vec<f64> = average(volts, thin).into_iter().step_by(thin).collect();
    let step = step_s * thin as f64;
    let most = (4.0 / step) as usize;
    let from = thinned.len().saturating_sub(most) / 2;
    let part = &thinned[from..thinned.len().min(from + most)];
    let slow = average(part, (1.0 / 60.0 / step) as usize);
    let x: Vec<f64> = part.iter().zip(&slow).map(|(v, s)| v - s).collect();
    let nyquist = 0.5 / step;
    let span = (
        start_s + from as f64 * step,
        start_s + (from + x.len()) as f64 * step,
    );
    let mut x = x;
    let mut taken: Option<Taken> = None;
    for _ in 0..MOST_SWITCHED {
        let Some(seen) = spectrum::spectrum(&x, step, (0.12 / step) as usize) else {
            return Ok(None);
        };
        let lines = seen.lines(SLOWEST_HZ, 0.92 * nyquist, 250.0, CLEAR);
        let Some(strongest) = lines.first() else {
            let noise = seen.noise(1_000.0f64.min(nyquist / 2.0), 500.0);
            return Err(Smooth {
                least_seen: 2.0 * SEEN * CLEAR * noise,
            });
        };
        let lowest = ((strongest.hz / SLOWEST_HZ) as usize).clamp(2, SIXTHS);
        let window = lowest as f64 / strongest.hz;
        let Some(turns) = turns_of_line(&x, step, strongest.hz, window) else {
            return Ok(None);
        };
        // What is left of a line that is no clock's after all lies at its multiples.
        if let Some((t, sure)) = taken.as_ref().and_then(|t| Some((t, t.left(strongest)?))) {
            let mut ripple = shape(&t.record, &t.turns, step, span);
            ripple.clockwork = !sure;
            return Ok(Some(ripple));
        }
        let Some(hz) = steady_rate(&turns, step) else {
            return Ok(Some(shape(&x, &turns, step, span)));
        };
        let record = x.clone();
        take_out(&mut x, step, hz);
        taken = Some(Taken { record, turns, hz });
    }
    Ok(None)
}

/// A line that was taken out as a clock's.
struct Taken {
    record: Vec<f64>,
    turns: Vec<f64>,
    hz: f64,
}

impl Taken {
    /// For a line found afterwards that is a multiple of it: true where it was there before as large as it is, as what
    /// is left of a line that wanders a little after all.
    fn left(&self, line: &spectrum::Line) -> Option<bool> {
        let k = (line.hz / self.hz).round();
        let multiple = k >= 2.0 && (line.hz - k * self.hz).abs() < 0.012 * line.hz;
        multiple.then(|| order(&self.record, &self.turns, k).amplitude() > 0.5 * line.amplitude)
    }
}

/// Rate of turns that run as evenly as a clock, Hz; `None` for those of an engine, which wander.
fn steady_rate(turns: &[f64], step: f64) -> Option<f64> {
    // The ends of the demodulation average less.
    let trim = turns.len() / 20;
    let inner = turns.get(trim..turns.len() - trim)?;
    let every = (inner.len() / 2_000).max(1);
    let (t, y): (Vec<f64>, Vec<f64>) = inner
        .iter()
        .enumerate()
        .step_by(every)
        .map(|(i, v)| (i as f64 * step, *v))
        .unzip();
    let line = stats::line_fit(&t, &y)?;
    let off = t
        .iter()
        .zip(&y)
        .map(|(t, y)| y - line.intercept - line.slope * t);
    // Noise on the line is no wandering.
    let slow = average(
        &off.collect::<Vec<_>>(),
        (0.1 / step / every as f64) as usize,
    );
    let scatter = 1.4826 * stats::median(&slow.iter().map(|v| v.abs()).collect::<Vec<_>>())?;
    let long = inner.len() as f64 * step >= 0.5;
    (long && scatter < CLOCK).then_some(line.slope)
}

/// Subtracts all multiples of a steady rate.
fn take_out(x: &mut [f64], step: f64, hz: f64) {
    let turns: Vec<f64> = (0..x.len()).map(|i| hz * i as f64 * step).collect();
    let highest = (0.5 / step / hz) as usize;
    for k in 1..=highest {
        let o = order(x, &turns, k as f64);
        for (v, turn) in x.iter_mut().zip(&turns) {
            let (sin, cos) = (TAU * o.order * turn).sin_cos();
            *v -= o.cos * cos + o.sin * sin;
        }
    }
}

/// Measures the orders of the strongest line and its sixths.
fn shape(x: &[f64], turns: &[f64], step: f64, span: (f64, f64)) -> Ripple {
    let nyquist = 0.5 / step;
    let rates = rates(turns, step);
    let strongest_hz = stats::median(&rates).unwrap_or(f64::NAN);
    let at = |sixths: f64| order(x, turns, sixths / SIXTHS as f64);
    let within = |sixths: f64| {
        let hz = sixths / SIXTHS as f64 * strongest_hz;
        hz > 0.6 * SLOWEST_HZ && hz < 0.95 * nyquist
    };
    let between: Vec<f64> = (0..SIXTHS * HIGHEST)
        .map(|m| m as f64 + 0.5)
        .filter(|m| within(*m))
        .map(|m| at(m).amplitude())
        .collect();
    let noise = stats::median(&between).unwrap_or(0.0);
    let all: Vec<(usize, Order)> = (1..=SIXTHS * HIGHEST)
        .filter(|m| within(*m as f64))
        .map(|m| (m, at(m as f64)))
        .collect();
    let main = all
        .iter()
        .find(|(m, _)| *m == SIXTHS)
        .map_or(0.0, |(_, o)| o.amplitude());
    let is_clear = |o: &Order| o.amplitude() > CLEAR * noise && o.amplitude() > SHARE * main;
    let below = |m: usize| !m.is_multiple_of(SIXTHS);
    let subs: Vec<usize> = all
        .iter()
        .filter(|(m, o)| below(*m) && *m < 2 * SIXTHS && is_clear(o))
        .map(|(m, _)| *m)
        .collect();
    // The strongest line's order in the repetition: the whole of it fits a whole number of its periods.
    let unit = match &subs[..] {
        [] => SIXTHS,
        s if s.iter().all(|m| m % 3 == 0) => 3,
        s if s.iter().all(|m| m % 2 == 0) => 2,
        _ => 1,
    };
    let sub_harmonic = all
        .iter()
        .filter(|(m, _)| subs.contains(m))
        .map(|(_, o)| o.amplitude() / main)
        .fold(0.0, f64::max);
    let multiples: Vec<&Order> = all
        .iter()
        .filter(|(m, _)| m % unit == 0)
        .map(|(_, o)| o)
        .collect();
    let clear: Vec<Order> = multiples
        .iter()
        .filter(|o| o.amplitude() > 3.0 * noise)
        .map(|o| **o)
        .collect();
    let first = multiples.first().map_or(main, |o| o.amplitude());
    let over: f64 = multiples[1.min(multiples.len())..]
        .iter()
        .map(|o| (o.amplitude() * o.amplitude() - noise * noise).max(0.0))
        .sum();
    Ripple {
        hz: strongest_hz * unit as f64 / SIXTHS as f64,
        strongest_hz,
        peak_to_peak: Measured {
            value: peak_to_peak(&clear),
            uncertainty: 2.0 * noise * (clear.len().max(1) as f64).sqrt(),
            from_s: span.0,
            to_s: span.1,
        },
        sub_harmonic,
        overtones: over.sqrt() / first.max(f64::MIN_POSITIVE),
        clear: multiples.iter().filter(|o| is_clear(o)).count(),
        clockwork: false,
        sampled_hz: 1.0 / step,
    }
}

/// Rate of the turns over stretches of 50 ms, Hz.
fn rates(turns: &[f64], step: f64) -> Vec<f64> {
    let n = ((0.05 / step) as usize).clamp(1, turns.len().max(2) - 1);
    (0..turns.len().saturating_sub(n))
        .step_by(n)
        .map(|i| (turns[i + n] - turns[i]) / (n as f64 * step))
        .collect()
}

/// Facts of alternator and engine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    /// Engine speed during the record, turns a second.
    pub engine_hz: Option<f64>,
    /// Pairs of poles of the alternator.
    pub pole_pairs: Option<f64>,
    /// Turns of the alternator to one of the engine.
    pub pulley_ratio: Option<f64>,
    /// Batteries of 12 V in a row, at least one: so many times its resistance carries the ripple.
    pub batteries: f64,
}

/// Balance of the three phases.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phases {
    /// The ripple has six periods to the electrical one and little below it.
    Equal,
    /// It has fewer: a diode or a phase is open or shorted.
    Unequal,
    /// The rate fits either; the engine's speed would tell.
    SpeedUnknown,
    /// A quicker ripple may hide behind the recorder's sample rate.
    TooCoarse,
    /// The rate fits no alternator on this engine.
    NotAlternator,
}

/// Electrical periods to one turn of the engine: 5 to 8 pairs of poles, 1.8 to 3.3 turns of the alternator.
const ELECTRICAL_A_TURN: (f64, f64) = (9.0, 26.5);
/// Engine speeds at which such records are made, turns a second: 550 to 4,500 rpm.
const ENGINE_HZ: (f64, f64) = (550.0 / 60.0, 4_500.0 / 60.0);
/// Share of the strongest line from which a line below it is more than the small differences of whole phases, which a
/// battery makes look larger.
const UNEVEN: f64 = 0.6;
/// Overtones from which a shape is not that of equal phases (0.28 for an ideal bridge, with or without a battery).
const OVERTONES: f64 = 0.45;
/// Ripple, V peak to peak, below which lone lines of a rate that fits either are those of equal phases, and above
/// which they may be those of an open phase.
const SMALL_V: f64 = 0.1;

/// Ripple, V peak to peak, that no equal phases leave on a battery: without one an ideal bridge leaves 14 % of its mean,
/// 2 V, and any battery takes nearly all of that.
const LARGE_V: f64 = 1.0;

/// Tells equal phases from unequal ones.
pub fn phases(r: &Ripple, known: &Known) -> Phases {
    let uneven = match (r.strongest_hz / r.hz).round() as u32 {
        // Phases of unequal size leave even orders of the electrical rate, and keep its half-waves alike.
        1 | 3 => false,
        _ => r.sub_harmonic >= UNEVEN,
    };
    // Small differences of the phases leave small lines below: the ripple itself is the strongest line.
    let hz = if uneven { r.hz } else { r.strongest_hz };
    let pairs_times_pulley = known.pole_pairs.zip(known.pulley_ratio).map(|(p, r)| p * r);
    let electrical = pairs_times_pulley.map_or(ELECTRICAL_A_TURN, |k| (0.95 * k, 1.03 * k));
    // Ripple of equal phases that is quicker than half the sample rate would show up at another one.
    let engine = known.engine_hz.map_or(ENGINE_HZ, |e| (e, e));
    let hides = |fastest_engine: f64| r.sampled_hz < 2.2 * 6.0 * electrical.1 * fastest_engine;
    let fits = |hz: f64, k: f64| {
        let engine_hz = (hz / k / electrical.1, hz / k / electrical.0);
        engine_hz.1 >= 0.98 * engine.0 && engine_hz.0 <= 1.02 * engine.1
    };
    let fits_fewer = |hz: f64| [1.0, 2.0, 3.0].iter().any(|k| fits(hz, *k));
    // Small lines between those of the ripple, of a speed that wanders, make it seem to repeat more slowly than it does.
    let order = (r.strongest_hz / r.hz).round() as u32;
    let mut repetitions = (1..order.max(2)).filter(|d| order.is_multiple_of(*d));
    let fewer = match uneven {
        true => repetitions.any(|d| fits_fewer(f64::from(d) * r.hz)),
        false => fits_fewer(hz),
    };
    let six = fits(hz, 6.0);
    let ripple_v = r.peak_to_peak.value / known.batteries;
    let small = ripple_v < SMALL_V;
    let odd_shape = uneven || (r.strongest_hz < 1.5 * r.hz && r.overtones >= OVERTONES);
    // Without the engine's speed an idling or a slightly raised one is taken for what cannot hide.
    let hidden = hides(known.engine_hz.unwrap_or(1_100.0 / 60.0));
    match (six, fewer) {
        _ if r.clockwork => Phases::NotAlternator,
        (false, false) => Phases::NotAlternator,
        (true, false) if !odd_shape => Phases::Equal,
        (false, true) if hidden && !(r.overtones >= 0.33 && r.clear >= 4) => Phases::TooCoarse,
        (false, true) if small && known.engine_hz.is_none() => Phases::SpeedUnknown,
        (false, true) => Phases::Unequal,
        _ if odd_shape && r.clear >= 3 && fewer && !small => Phases::Unequal,
        _ if fewer && !hidden && ripple_v > LARGE_V => Phases::Unequal,
        _ if small && !odd_shape => Phases::Equal,
        _ => Phases::SpeedUnknown,
    }
}
