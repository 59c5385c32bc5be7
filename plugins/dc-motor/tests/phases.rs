//! Three-phase currents by their definition: three equal sines a third of a turn apart add up to nothing, and of two
//! wires that are left each carries the other's current back (Kirchhoff's current law).

use baybrief_plugin_dc_motor::ThreePhase;
use plugin_sdk::testing::{find, input, near, noise, observe, settings};
use plugin_sdk::{Grade, Observation};
use std::f64::consts::TAU;

const RATE: f64 = 5_000.0;
const HZ: f64 = 83.3;

fn sine(amplitude: f64, third: f64, seed: u64) -> Vec<f32> {
    (0..10_000)
        .zip(noise(seed))
        .map(|(i, n)| {
            (amplitude * (TAU * (HZ * f64::from(i) / RATE - third / 3.0)).sin() + 0.2 * n) as f32
        })
        .collect()
}

fn judged(channels: &[(&str, &[f32])]) -> Vec<Observation> {
    observe::<ThreePhase>(&input(channels, RATE, settings("running", &[])))
}

#[test]
fn equal_phases() {
    let [u, v, w] = [(0.0, 1), (1.0, 2), (2.0, 3)].map(|(third, seed)| sine(20.0, third, seed));
    let all = judged(&[
        ("phase-current-u", &u),
        ("phase-current-v", &v),
        ("phase-current-w", &w),
    ]);
    near(find(&all, "electrical-rate"), HZ, 0.1);
    let o = find(&all, "phase-imbalance");
    near(o, 0.0, 1.0);
    assert_eq!(o.grade, Grade::Normal);
    // Effective value of a sine: amplitude over the root of two.
    let effective = o.args["u_a"].as_f64().expect("a number");
    assert!((effective - 20.0 / 2f64.sqrt()).abs() < 0.2);
    // Two of them say as much: the third is minus their sum.
    let all = judged(&[("phase-current-u", &u), ("phase-current-w", &w)]);
    assert_eq!(find(&all, "phase-imbalance").grade, Grade::Normal);
}

#[test]
fn a_missing_phase_and_a_clamp_that_is_off() {
    let (u, back, nothing) = (sine(20.0, 0.0, 1), sine(20.0, 1.5, 2), sine(0.0, 0.0, 3));
    let all = judged(&[
        ("phase-current-u", &u),
        ("phase-current-v", &nothing),
        ("phase-current-w", &back),
    ]);
    let o = find(&all, "phase-imbalance");
    // Root mean squares a, 0, a: the mean is 2 a / 3, and nothing is 100 % away from it.
    near(o, 100.0, 2.5);
    assert_eq!(
        (o.message.as_str(), o.args["missing"].as_str()),
        ("phase-missing", Some("v"))
    );
    // With the others a third of a turn apart, the third carries current that its clamp does not see.
    let w = sine(20.0, 2.0, 4);
    let all = judged(&[
        ("phase-current-u", &u),
        ("phase-current-v", &nothing),
        ("phase-current-w", &w),
    ]);
    assert_eq!(find(&all, "phase-imbalance").grade, Grade::Unusable);
    // Of two recorded, one that is silent may be a clamp that is off.
    let all = judged(&[("phase-current-u", &u), ("phase-current-v", &nothing)]);
    assert_eq!(find(&all, "phase-imbalance").grade, Grade::Unusable);
}

#[test]
fn unequal_phases() {
    // Amplitudes 20, 20 and what closes the sum when the first two are 100 degrees apart.
    let (u, v) = (sine(20.0, 0.0, 1), sine(20.0, 100.0 / 120.0, 2));
    let w: Vec<f32> = u.iter().zip(&v).map(|(a, b)| -a - b).collect();
    let all = judged(&[
        ("phase-current-u", &u),
        ("phase-current-v", &v),
        ("phase-current-w", &w),
    ]);
    let o = find(&all, "phase-imbalance");
    // 2 * 20 * cos 50 degrees = 25.71; mean 21.90; 17.4 % above it.
    near(o, 17.4, 1.5);
    assert_eq!(
        (o.message.as_str(), o.grade),
        ("phases-unequal", Grade::Abnormal)
    );
}

/// Power of two sines in phase: it pulsates with twice their rate from nothing to twice its mean; that of three equal
/// phases stands still.
#[test]
fn the_link_alone() {
    let link = |depth: f64| -> Vec<f32> {
        (0..10_000)
            .zip(noise(5))
            .map(|(i, n)| {
                (5.0 * (1.0 + depth * (TAU * 2.0 * HZ * f64::from(i) / RATE).cos()) + 0.1 * n)
                    as f32
            })
            .collect()
    };
    let all = judged(&[("link-current", &link(1.0))]);
    let o = find(&all, "link-ripple");
    near(o, 200.0, 10.0);
    assert_eq!(o.message, "link-ripple-single-phase");
    near(find(&all, "electrical-rate"), HZ, 0.3);
    let all = judged(&[("link-current", &link(0.06))]);
    assert_eq!(find(&all, "link-ripple").grade, Grade::Normal);
}

#[test]
fn a_motor_at_rest_says_nothing() {
    let still = sine(0.0, 0.0, 6);
    let all = judged(&[
        ("phase-current-u", &still),
        ("phase-current-v", &still),
        ("phase-current-w", &still),
    ]);
    assert_eq!(all, []);
}
