//! Models of the demo jobs against the same equations by SciPy's integrators (solve_ivp, LSODA; SciPy 1.17.1, NumPy
//! 2.4.6): `demo_models.py` beside this file prints the values.

use baybrief_simulator::systems::dc_motor::{Commutator, Motor};
use baybrief_simulator::systems::start_and_charge::Start;

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

#[track_caller]
fn near(value: f64, expected: f64, percent: f64) {
    let off = 100.0 * (value / expected - 1.0).abs();
    assert!(
        off < percent,
        "{value}, expected {expected} within {percent} %"
    );
}

#[test]
fn a_start_is_that_of_scipy() {
    let rate = 2_000.0;
    let traces = Start::default().attempt(rate, 4.0, (0.0, 4.0));
    let later = 4_000..8_000;
    near(traces.battery_a[0], 854.26, 0.01);
    let rpm = mean(&traces.speed[later.clone()]) * 30.0 / std::f64::consts::PI;
    near(rpm, 232.653, 0.2);
    near(mean(&traces.battery_a[later.clone()]), 181.065, 0.3);
    let lowest = traces.battery_v[later].iter().copied();
    near(lowest.fold(f64::INFINITY, f64::min), 10.8626, 0.1);
}

#[test]
fn a_run_up_is_that_of_scipy() {
    let motor = Motor {
        resistance: 0.46,
        inductance: 180e-6,
        constant: 0.031,
        inertia: 1.9e-4,
        friction: 0.02,
        fan: 1.9e-6,
        bars: 10,
        commutator: Commutator::Whole,
        uneven: 0.0,
        feed: 0.045,
    };
    let amps = motor.run(20_000.0, 1.0, 12.7, (0.0, 1.0)).amps;
    let peak = amps[..200].iter().copied().fold(0.0, f64::max);
    near(peak, 24.768, 0.1);
    near(amps[1_000], 15.937, 0.5);
    near(mean(&amps[16_000..]), 6.5619, 0.3);
}
