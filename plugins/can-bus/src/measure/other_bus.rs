//! Buses of a vehicle whose wires a pair of probes may hang on by mistake, and that no rule for a high-speed CAN bus fits.

use plugin_sdk::signal::stats;

/// A bus that is not judged here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OtherBus {
    /// Fault-tolerant CAN (ISO 11898-3): its lines rest apart, CAN low above CAN high, and cross in dominant state.
    LowSpeed,
    /// One wire between ground and battery: LIN (ISO 17987) or a diagnostic line (ISO 9141).
    SingleWire,
}

/// A line of the fault-tolerant bus near ground and near its 5 V: it rests at 0 V and 5 V and drives CAN high to 3.6 V and CAN
/// low to 1.4 V (data sheet of a transceiver, TJA1055; from memory), V.
const LOW: f64 = 1.2;
const HIGH: f64 = 3.8;
/// A line driven past the middle, V.
const PAST_MIDDLE: (f64, f64) = (2.6, 2.4);
/// Least share of the samples at rest and driven.
const RESTS: f64 = 0.05;
const DRIVEN: f64 = 0.003;

/// Least level of a wire's recessive state that no CAN transceiver drives (4.5 V, TCAN1042-Q1), V, and what its dominant state
/// lies below: no line of a CAN pair comes so low while the other one is alive.
const BATTERY: f64 = 6.5;
const GROUND: f64 = 1.5;
/// Share of the samples in either state.
const EITHER: f64 = 0.02;
/// Movement up to which the other line is dead, V, and difference up to which it is the same wire.
const DEAD: f64 = 0.5;
const SAME: f64 = 1.0;
/// Number of samples for statistics.
const ENOUGH: usize = 100_000;

/// Tells another bus than a high-speed CAN bus from the levels of both lines, V.
pub fn other_bus(high: &[f32], low: &[f32]) -> Option<OtherBus> {
    let n = high.len().min(low.len());
    let step = (n / ENOUGH).max(1);
    let pairs: Vec<(f64, f64)> = (0..n)
        .step_by(step)
        .map(|i| (f64::from(high[i]), f64::from(low[i])))
        .collect();
    let share = |is: &dyn Fn(&(f64, f64)) -> bool| {
        pairs.iter().filter(|p| is(p)).count() as f64 / pairs.len().max(1) as f64
    };
    let rests = share(&|p| p.0 < LOW && p.1 > HIGH);
    let driven = share(&|p| p.0 > PAST_MIDDLE.0 && p.1 < PAST_MIDDLE.1);
    if rests >= RESTS && driven >= DRIVEN {
        return Some(OtherBus::LowSpeed);
    }
    let swings = |of: fn(&(f64, f64)) -> f64| {
        share(&|p| of(p) > BATTERY) >= EITHER && share(&|p| of(p) < GROUND) >= EITHER
    };
    let spread = |of: fn(&(f64, f64)) -> f64| {
        let x: Vec<f64> = pairs.iter().map(of).collect();
        let q = |q| stats::quantile(&x, q).unwrap_or(0.0);
        q(0.99) - q(0.01)
    };
    let apart = |p: &(f64, f64)| (p.0 - p.1).abs();
    let alike = share(&|p| apart(p) < SAME) > 1.0 - EITHER / 2.0;
    let alone = |own: fn(&(f64, f64)) -> f64, other: fn(&(f64, f64)) -> f64| {
        swings(own) && (alike || spread(other) < DEAD)
    };
    (alone(|p| p.0, |p| p.1) || alone(|p| p.1, |p| p.0)).then_some(OtherBus::SingleWire)
}
