//! Run-out against closed forms.

use plugin_sdk::signal::Time;
use plugin_sdk::signal::teeth::{Options, SensorKind, average_ring, pitch_runout, read_train};
use std::f64::consts::TAU;

const RATE: f64 = 20_000.0;

fn read(x: &[f32], sensor: SensorKind) -> plugin_sdk::signal::teeth::ToothTrain {
    let time = Time::Even {
        start_s: 0.0,
        step_s: 1.0 / RATE,
    };
    let options = Options {
        sensor: Some(sensor),
        teeth: Some(48),
        ..Options::default()
    };
    // Made-up waves, which no host has derived.
    #[allow(clippy::disallowed_methods)]
    let train = read_train(x, time, &options);
    train.expect("a train")
}

/// A gap that varies as a sine multiplies the field by exp(r cos a), whose first harmonic is 2 I1(r) / I0(r) of its mean
/// (Jacobi and Anger; Abramowitz and Stegun 9.6.34). With the series 9.6.10 I1(0.3) = 0.151694 and I0(0.3) = 1.022627, so
/// 29.67 %.
#[test]
fn runout_of_an_exponential_field() {
    let x: Vec<f32> = (0..80_000)
        .map(|i| {
            let t = f64::from(i) / RATE;
            // No shaft keeps time like a clock.
            let turns = 5.0 * t + 0.02 * (TAU * 0.7 * t).sin();
            ((0.3 * (TAU * turns).cos()).exp() * (TAU * 48.0 * turns).sin()) as f32
        })
        .collect();
    let ring = average_ring(&read(&x, SensorKind::Coil)).expect("a ring");
    assert!(
        (ring.amplitude_runout - 29.67).abs() < 0.6,
        "{}",
        ring.amplitude_runout
    );
}

/// A ring that sits `e` off its centre passes its teeth at an angle of a + e/r sin a (geometry of the sine rule for small
/// e/r): the pitch varies by e/r.
#[test]
fn runout_of_a_ring_off_its_centre() {
    let x: Vec<f32> = (0..80_000)
        .map(|i| {
            let turns = f64::from(i) / RATE * 5.0;
            let seen = turns + 0.04 / TAU * (TAU * turns).sin();
            if (48.0 * seen).fract() < 0.5 {
                5.0
            } else {
                0.0
            }
        })
        .collect();
    let train = read(&x, SensorKind::Hall);
    let segment = train.turning().next().expect("turning");
    let found = pitch_runout(&train, segment).expect("a run-out");
    assert!((found.percent - 4.0).abs() < 0.1, "{found:?}");
    assert!(found.uncertainty < 0.1, "{found:?}");
}
