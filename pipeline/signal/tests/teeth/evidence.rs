//! Evidence on the sensor and its wheel.

use super::models::*;
use baybrief_signal::teeth::{Options, SensorKind, average_ring};

/// Faraday: a coil's amplitude is proportional to the rate; a Hall sensor's does not depend on it.
#[test]
fn amplitude_laws() {
    let rate = 50_000.0;
    let wheel = Wheel::gapped(36, &[]);
    let angles = turn(4.0, rate, |t| 300.0 + 500.0 * t);
    let x = record(&coil(&wheel, &angles, rate, 4.0, 0.0), 0.005);
    let law = read(&x, rate, &options(SensorKind::Coil, 36, 0))
        .amplitude_law
        .unwrap();
    assert!((law.exponent.unwrap() - 1.0).abs() < 0.02, "{law:?}");
    // 4 V peak, twice that from peak to peak, at 600 Hz; the neighbouring tooth, three bell widths off, takes away
    // 3 exp(-4.5) / exp(-0.5) of it (arithmetic).
    let expected = 8.0 * (1.0 - 3.0 * (-4.0f64).exp());
    assert!(
        (law.per_hz * 600.0 / expected - 1.0).abs() < 0.02,
        "{law:?}"
    );
    let x = record(&switching(&wheel, &angles, (0.3, 4.8)), 0.02);
    let law = read(&x, rate, &options(SensorKind::Hall, 36, 0))
        .amplitude_law
        .unwrap();
    assert!(law.exponent.unwrap().abs() < 0.02, "{law:?}");
}

/// An idle that wanders by 1.5 % either way shows the law as well, whatever the wheel's run-out; a constant amplitude at
/// the same rates is none.
#[test]
fn an_idles_wander_shows_the_amplitude_law() {
    let rate = 20_000.0;
    let wheel = Wheel::gapped(24, &[]);
    let angles = turn(8.0, rate, |t| 400.0 * (1.0 + 0.015 * (4.0 * t).sin()));
    let law = |volts: &[f64]| {
        read(
            &record(volts, 0.005),
            rate,
            &options(SensorKind::Coil, 24, 0),
        )
        .amplitude_law
        .unwrap()
    };
    let wheels = law(&coil(&wheel, &angles, rate, 4.0, 0.15));
    assert!(wheels.rate_range < 1.1, "{wheels:?}");
    assert!((wheels.exponent.unwrap() - 1.0).abs() < 0.3, "{wheels:?}");
    let constant: Vec<f64> = angles
        .iter()
        .map(|a| 2.0 * (24.0 * std::f64::consts::TAU * a).sin())
        .collect();
    let pick_up = law(&constant);
    assert!(
        pick_up.exponent.is_none_or(|n| n.abs() < 0.2),
        "{pick_up:?}"
    );
}

/// Contact that opens for 0.2 s while the wheel goes on: one interruption, in phase.
#[test]
fn a_break_goes_on_in_phase() {
    let rate = 10_000.0;
    let wheel = Wheel::gapped(24, &[]);
    let angles = turn(4.0, rate, |_| 900.0);
    let mut volts = switching(&wheel, &angles, (0.3, 4.8));
    volts[15_000..15_100].fill(0.3);
    volts[25_000..27_000].fill(0.3);
    let train = read(
        &record(&volts, 0.02),
        rate,
        &options(SensorKind::Hall, 24, 0),
    );
    assert_eq!(train.turning().count(), 1);
    assert_eq!(train.dropouts.len(), 2, "{:?}", train.dropouts);
    assert_eq!(train.dropouts[0].in_phase, Some(true));
    let long = train.dropouts[1];
    assert!((long.start_s - 2.5).abs() < 0.01 && (long.end_s - 2.7).abs() < 0.01);
    assert!((70..=73).contains(&long.lost));
}

/// Run-out of 15 % and a tooth with half of its height.
#[test]
fn runout_and_a_weak_tooth() {
    let rate = 50_000.0;
    let wheel = Wheel::gapped(30, &[]);
    let angles = turn(3.0, rate, |_| 600.0);
    let mut volts = coil(&wheel, &angles, rate, 4.0, 0.15);
    for (v, a) in volts.iter_mut().zip(&angles) {
        if (a.rem_euclid(1.0) * 30.0 - 11.0).abs() < 0.5 {
            *v *= 0.5;
        }
    }
    let train = read(
        &record(&volts, 0.005),
        rate,
        &options(SensorKind::Coil, 30, 0),
    );
    let ring = average_ring(&train).unwrap();
    assert!(
        (ring.amplitude_runout - 15.0).abs() < 2.5,
        "{}",
        ring.amplitude_runout
    );
    assert_eq!((ring.weak, ring.missing), (1, 0));
    assert!(ring.turns >= 28);
}

/// A train's wheel has no run-out that is not there.
#[test]
fn a_true_wheel() {
    let rate = 50_000.0;
    let wheel = Wheel::gapped(36, &[35]);
    let angles = turn(3.0, rate, |_| 600.0);
    let x = record(&coil(&wheel, &angles, rate, 4.0, 0.0), 0.005);
    let train = read(&x, rate, &Options::default());
    let ring = average_ring(&train).unwrap();
    assert!(
        ring.amplitude_runout < 2.0 && ring.pitch_runout < 1.0,
        "{ring:?}"
    );
    assert_eq!((ring.weak, ring.missing), (0, 1));
}
