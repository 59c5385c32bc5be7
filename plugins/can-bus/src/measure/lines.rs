//! The condition of the two wires: what they do together and what each does alone.

use super::edges::{Logic, RECEIVER, Thresholds};
use super::levels::Levels;
use super::other_bus::{OtherBus, other_bus};
use plugin_sdk::signal::{levels as states, smooth::moving_average, stats};

/// One of the two wires.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Line {
    /// CAN high.
    High,
    /// CAN low.
    Low,
}

/// The condition of the wires.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Condition {
    /// Both lines move apart and come together again, as they must.
    Sound,
    /// Both lines move, dominant means CAN low above CAN high; `share` of the dominant bits are so, 0 to 1.
    Reversed {
        /// Share of the driven time.
        share: f64,
    },
    /// A line lies at ground.
    ShortToGround(Line),
    /// A line lies at a supply.
    ShortToSupply(Line),
    /// Both lines lie together though nodes try to drive them apart.
    ShortTogether,
    /// Bits move both lines alike: their node reaches the recorder over one wire only, and `line` is open.
    Open {
        /// The wire that is interrupted.
        line: Line,
        /// Pulses that moved the common mode and not the differential.
        pulses: usize,
        /// Shift by them, V.
        shift: f64,
    },
    /// The bus is driven all the time.
    StuckDominant,
    /// One line is dead while the other works at its proper levels: the probe hangs in the air.
    ProbeOff(Line),
    /// Nothing moves: asleep, switched off, or nothing connected.
    Quiet,
    /// The wires are those of another kind of bus.
    OtherBus(OtherBus),
    /// Nothing of the above.
    Unclear,
}

/// The wires' condition with what it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wires {
    /// Condition.
    pub condition: Condition,
    /// Median of CAN high over the whole record, V.
    pub high: f64,
    /// Median of CAN low, V.
    pub low: f64,
    /// Smallest movement of a line that would have been seen, V.
    pub detectable: f64,
}

/// Least differential that counts as driven, V (ISO 11898-2 receiver).
const DRIVEN: f64 = 0.9;
/// Below it a line lies at ground: a transceiver's own low side cannot come lower than a diode's drop in dominant
/// state, and holds 2 to 3 V in recessive (TCAN1042-Q1).
const NEAR_GROUND: f64 = 1.0;
/// No line that lies at ground comes below it: a channel that is coupled to pass alternating voltage only reads so, V (judgement:
/// a recorder's own offset and a little difference of grounds).
const BELOW_GROUND: f64 = -0.035;
/// Above it a line lies at a supply: no transceiver drives more than 4.5 V (TCAN1042-Q1).
const NEAR_SUPPLY: f64 = 4.4;
/// Shift of the common mode from recessive to dominant that a short gives at least, V. Symmetry of a driver allows
/// 0.25 V (TCAN1042-Q1: 0.9 to 1.1 of the supply).
const LOPSIDED: f64 = 0.4;
/// Least shift of the common mode by a node that reaches the recorder over one wire, V.
const LEAST_SHIFT: f64 = 0.45;
/// Least number of such pulses.
const LEAST_PULSES: usize = 8;
/// Share of the dominant samples that may lie at the shifted common mode, too. More of them are a node with another
/// ground, after whose bits the common mode comes back slowly.
const SHIFTED_DOMINANT: f64 = 0.02;
/// Movement of shorted lines that shows that nodes try, in standard deviations of the noise and in V.
const TRIES: (f64, f64) = (8.0, 0.03);
/// Dominant stretches of a bus that is held: in bits, and where the bit time is not known as a share of the record.
const LONGEST_BITS: f64 = 30.0;
const LONGEST_SHARE: f64 = 0.3;
/// Least number of reversed pulses, and their least length in samples where the bit time is not known: ringing of a bus
/// without terminators is shorter.
const LEAST_REVERSED: usize = 3;
const LEAST_PULSE_SAMPLES: f64 = 2.0;
/// Movement of a line that works, V.
const MOVES: f64 = 0.4;
/// Number of samples for statistics.
const ENOUGH: usize = 100_000;

/// Classifies the wires. `logic` is the differential's, `bit` the bit time in samples where it is
/// known, `frames` the number of frames read.
pub fn wires(
    high: &[f32],
    low: &[f32],
    logic: &Logic,
    levels: &Levels,
    bit: Option<f64>,
    frames: usize,
) -> Option<Wires> {
    let n = high.len().min(low.len());
    let (high, low) = (&high[..n], &low[..n]);
    let median = |x: &[f32]| stats::sampled_quantile(x, 0.5, ENOUGH);
    let noise = states::noise_sigma(high).max(states::noise_sigma(low));
    let wires = |condition| {
        Some(Wires {
            condition,
            high: median(high)?,
            low: median(low)?,
            detectable: TRIES.1.max(TRIES.0 * noise),
        })
    };
    if let Some(other) = other_bus(high, low) {
        return wires(Condition::OtherBus(other));
    }
    let (high_median, low_median) = (median(high)?, median(low)?);
    let step = (n / ENOUGH).max(1);
    let differential = || {
        (0..n)
            .step_by(step)
            .map(|i| f64::from(high[i]) - f64::from(low[i]))
    };
    let count = differential().count().max(1) as f64;
    let driven = differential().filter(|&d| d >= DRIVEN).count() as f64 / count;
    let reversed = differential().filter(|&d| d <= -DRIVEN).count() as f64 / count;
    let pulses = logic.edges.len() / 2;
    let moves = |x: &[f32]| movement(x, noise) > MOVES;
    if held_dominant(logic, bit) && moves(high) && moves(low) {
        return wires(Condition::StuckDominant);
    }
    let lowest = |x: &[f32]| stats::sampled_quantile(x, 0.005, ENOUGH).unwrap_or(0.0);
    if high_median.max(low_median) < NEAR_GROUND
        && lowest(high).min(lowest(low)) < BELOW_GROUND - TRIES.0 * noise
    {
        return wires(Condition::Unclear);
    }
    if reversed > 0.97 || driven > 0.97 {
        return wires(steady([high, low].map(moves), driven > reversed));
    }
    let least = bit.map_or(LEAST_PULSE_SAMPLES, |bit| 0.5 * bit);
    let noisy = states::noise_sigma(high).hypot(states::noise_sigma(low));
    if reversed_pulses(high, low, least, TRIES.0 * noisy) >= LEAST_REVERSED {
        let share = reversed / (reversed + driven);
        return wires(Condition::Reversed { share });
    }
    if driven > 0.0005 && pulses >= 3 {
        return wires(driven_lines(high, low, logic, levels, bit, frames));
    }
    // Averaged over half a bit: shorted lines hardly move.
    let window = bit.map_or(4, |bit| (0.5 * bit) as usize).max(1);
    let apart: Vec<f32> = high.iter().zip(low).map(|(h, l)| h - l).collect();
    let averaged = noise / (window as f64).sqrt();
    let tried = [high, low, &apart]
        .iter()
        .map(|x| movement(&moving_average(x, window), averaged))
        .any(|moved| moved > TRIES.1.max(TRIES.0 * averaged));
    let lone = lone_pulses(high, low, logic, bit);
    wires(match (high_median, low_median) {
        (h, l) if h.min(l) > NEAR_SUPPLY => Condition::ShortToSupply(Line::Low),
        (h, l) if h.max(l) < NEAR_GROUND && tried => Condition::ShortToGround(Line::High),
        _ if !tried => Condition::Quiet,
        _ if lone.count >= LEAST_PULSES && lone.shift.abs() >= 0.6 => lone.condition(),
        (h, l) if (h - l).abs() < 0.5 && h.min(l) > 1.2 && h.max(l) < 4.0 => {
            Condition::ShortTogether
        }
        _ => Condition::Unclear,
    })
}

/// True where the bus is driven for longer than any frame or error flag does (12 bits: superposed error flags, ISO
/// 11898-1), to the end of the record or for good.
fn held_dominant(logic: &Logic, bit: Option<f64>) -> bool {
    let last = logic.edges.last().filter(|e| e.dominant);
    let to_end = last.map_or(0.0, |e| logic.samples as f64 - e.at);
    to_end > LONGEST_SHARE * logic.samples as f64 || bit.is_some_and(|b| to_end > LONGEST_BITS * b)
}

/// Pulses in which CAN low lies above CAN high for at least so many samples, by the driven differential and by more than the
/// noise of both lines can part them.
fn reversed_pulses(high: &[f32], low: &[f32], least: f64, beyond: f64) -> usize {
    let against = (0..high.len()).map(|i| f64::from(low[i]) - f64::from(high[i]));
    let thresholds = Thresholds {
        dominant: RECEIVER.dominant.max(beyond),
        ..RECEIVER
    };
    Logic::slice(against, thresholds)
        .edges
        .windows(2)
        .filter(|p| p[0].dominant && p[1].at - p[0].at >= least)
        .count()
}

/// A bus that never changes its state; `moves` says of each line that it moves.
fn steady(moves: [bool; 2], driven: bool) -> Condition {
    match moves {
        [false, true] => Condition::ProbeOff(Line::High),
        [true, false] => Condition::ProbeOff(Line::Low),
        [false, false] if driven => Condition::StuckDominant,
        _ => Condition::Unclear,
    }
}

/// A bus on which frames are sent.
fn driven_lines(
    high: &[f32],
    low: &[f32],
    logic: &Logic,
    levels: &Levels,
    bit: Option<f64>,
    frames: usize,
) -> Condition {
    let (Some(recessive), Some(dominant)) = (levels.recessive, levels.dominant) else {
        return Condition::Unclear;
    };
    let (h, l) = (recessive.high.volts, recessive.low.volts);
    let (moved_high, moved_low) = (dominant.high.volts - h, dominant.low.volts - l);
    // With another ground both lines still move apart by equal amounts.
    let lopsided = (moved_high + moved_low).abs() > 2.0 * LOPSIDED
        || moved_high < LOPSIDED
        || moved_low > -LOPSIDED;
    // Few attempts within a long record: the levels between them speak for the wires.
    let overall = [high, low].map(|x| stats::sampled_quantile(x, 0.5, ENOUGH).unwrap_or(f64::NAN));
    let below = |v: f64| v < NEAR_GROUND;
    let above = |v: f64| v > NEAR_SUPPLY - 0.4;
    if lopsided && ([h, l].into_iter().all(below) || overall.into_iter().all(below)) {
        let stiff_low = moved_low.abs() < 0.5 * moved_high.abs();
        return Condition::ShortToGround(if stiff_low { Line::Low } else { Line::High });
    }
    if lopsided && ([h, l].into_iter().all(above) || overall.into_iter().all(above)) {
        let stiff_high = moved_high.abs() < 0.5 * moved_low.abs();
        return Condition::ShortToSupply(if stiff_high { Line::High } else { Line::Low });
    }
    if frames == 0 && held_together(high, low) {
        return Condition::ShortTogether;
    }
    let lone = lone_pulses(high, low, logic, bit);
    if lone.count >= LEAST_PULSES && lone.shift.abs() >= LEAST_SHIFT {
        return lone.condition();
    }
    Condition::Sound
}

/// True where most of what is driven stays below the receiver's threshold: one node alone cannot part the lines, only
/// several at once can.
fn held_together(high: &[f32], low: &[f32]) -> bool {
    let noise = states::noise_sigma(high).hypot(states::noise_sigma(low));
    let step = (high.len() / ENOUGH).max(1);
    let (mut weak, mut driven) = (0usize, 0usize);
    for i in (0..high.len()).step_by(step) {
        let d = f64::from(high[i] - low[i]);
        weak += usize::from(d > 0.06f64.max(4.0 * noise) && d < RECEIVER.recessive);
        driven += usize::from(d >= DRIVEN);
    }
    weak > driven
}

/// Movement of a line: the range that holds all but a thousandth of its samples at either end, less the noise's own.
fn movement(x: &[f32], noise: f64) -> f64 {
    let q = |q| stats::sampled_quantile(x, q, ENOUGH).unwrap_or(0.0);
    (q(0.999) - q(0.001) - 6.2 * noise).max(0.0)
}

/// Pulses of the common mode without a differential.
#[derive(Debug, Clone, Copy)]
struct LonePulses {
    count: usize,
    /// Median shift, V: negative where the lines went down.
    shift: f64,
}

impl LonePulses {
    /// A node that pulls both lines down drives CAN low alone: CAN high is open.
    fn condition(self) -> Condition {
        let line = if self.shift < 0.0 {
            Line::High
        } else {
            Line::Low
        };
        Condition::Open {
            line,
            pulses: self.count,
            shift: self.shift,
        }
    }
}

/// Finds stretches in which the common mode leaves its idle level while the bus is recessive, half a bit away from any
/// dominant one: a node with another ground moves it with its dominant bits only.
fn lone_pulses(high: &[f32], low: &[f32], logic: &Logic, bit: Option<f64>) -> LonePulses {
    let none = LonePulses {
        count: 0,
        shift: 0.0,
    };
    let mode = |i: usize| (f64::from(high[i]) + f64::from(low[i])) / 2.0;
    let idle: Vec<f32> = (0..high.len())
        .step_by((high.len() / ENOUGH).max(1))
        .filter(|&i| (high[i] - low[i]).abs() < 0.5)
        .map(|i| mode(i) as f32)
        .collect();
    let q = |q| stats::sampled_quantile(&idle, q, ENOUGH);
    let (Some(least), Some(middle), Some(most)) = (q(0.01), q(0.5), q(0.99)) else {
        return none;
    };
    // Without a drive the lines rest near half the supply: the end nearer to 2.5 V is rest, or the median where both
    // ends lie alike about it.
    let (rest, far) = match ((least - 2.5).abs(), (most - 2.5).abs()) {
        (a, b) if a < 0.5 * b => (least.max(middle.min(2.5)), most),
        (a, b) if b < 0.5 * a => (most.min(middle.max(2.5)), least),
        _ => (
            middle,
            if most - middle > middle - least {
                most
            } else {
                least
            },
        ),
    };
    let shift = far - rest;
    if shift.abs() < LEAST_SHIFT {
        return none;
    }
    let sampled = (0..high.len()).step_by((high.len() / ENOUGH).max(1));
    let driven = sampled.filter(|&i| f64::from(high[i] - low[i]) >= DRIVEN);
    let (mut all, mut shifted) = (0usize, 0usize);
    for i in driven {
        all += 1;
        shifted += usize::from((mode(i) - rest) / shift > 0.7);
    }
    if shifted as f64 > SHIFTED_DOMINANT * all as f64 {
        return none;
    }
    let (near, middle) = (rest + 0.35 * shift, rest + 0.6 * shift);
    let sign = shift.signum();
    let off = Logic::slice(
        (0..high.len()).map(|i| sign * mode(i)),
        Thresholds {
            recessive: sign * near,
            dominant: sign * middle,
        },
    );
    let bit = bit.unwrap_or(1.0);
    let mut count = 0;
    let mut next = 0;
    for pair in off.edges.windows(2).filter(|p| p[0].dominant) {
        while next < logic.edges.len() && logic.edges[next].at < pair[0].at - 0.5 * bit {
            next += 1;
        }
        let dominant_before = match next.checked_sub(1) {
            Some(k) => logic.edges[k].dominant,
            None => logic.starts_dominant,
        };
        // The common mode may start to move half a sample before the differential.
        let dominant_within = logic.edges[next..]
            .iter()
            .take_while(|e| e.at < pair[0].at + bit)
            .any(|e| e.dominant);
        count += usize::from(!dominant_before && !dominant_within);
    }
    LonePulses { count, shift }
}
