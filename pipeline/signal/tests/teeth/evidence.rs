//! Evidence on the sensor and its wheel.

use super::models::*;
use baybrief_signal::Time;
use baybrief_signal::teeth::{Options, SensorKind, amplitude_runout, average_ring, read_train};

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

/// Blocks that the recorder lost are no interruptions of the sensor, whether its stamps jump, and jitter beside that, or the
/// samples are missing from an even record.
#[test]
fn what_was_not_recorded_did_not_break_off() {
    let rate = 10_000.0;
    let wheel = Wheel::gapped(36, &[]);
    let angles = turn(4.0, rate, |_| 320.0);
    let x = record(&switching(&wheel, &angles, (0.3, 4.8)), 0.02);
    let lost = |k: usize| (15_000..15_360).contains(&k) || (25_000..25_320).contains(&k);
    let options = options(SensorKind::Hall, 36, 0);
    let mut source = Noise(5);
    let (stamps, kept): (Vec<f64>, Vec<f32>) = (0..x.len())
        .filter(|&k| !lost(k))
        .map(|k| ((k as f64 + 0.12 * source.next()) / rate, x[k]))
        .unzip();
    let train = read_train(&kept, Time::Listed(&stamps), &options).unwrap();
    assert!(train.dropouts.is_empty(), "{:?}", train.dropouts);
    let holes: Vec<f32> = (0..x.len())
        .map(|k| if lost(k) { f32::NAN } else { x[k] })
        .collect();
    let train = read(&holes, rate, &options);
    assert!(train.dropouts.is_empty(), "{:?}", train.dropouts);
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
    let segment = *train.turning().next().unwrap();
    let found = amplitude_runout(&train, &segment).unwrap();
    assert!((found.percent - 15.0).abs() < 2.5, "{found:?}");
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
    let segment = *train.turning().next().unwrap();
    let found = amplitude_runout(&train, &segment).unwrap();
    assert!(found.percent < 0.5 && found.uncertainty < 0.5, "{found:?}");
    let ring = average_ring(&train).unwrap();
    assert!(
        ring.amplitude_runout < 2.0 && ring.pitch_runout < 1.0,
        "{ring:?}"
    );
    assert_eq!((ring.weak, ring.missing), (0, 1));
}

/// Teeth of a wheel keep their width, also where they are not all alike; a tooth that trembles before its sensor once each
/// firing stroke, about a place that wanders, does not.
#[test]
fn the_duty_of_teeth_is_their_own() {
    let rate = 10_000.0;
    let mut wheel = Wheel::gapped(24, &[]);
    let mut source = Noise(3);
    for angle in &mut wheel.angles {
        *angle += 0.05 / 24.0 * source.next();
    }
    let turning = turn(6.0, rate, |_| 160.0);
    let mut place = 0.25 / 24.0;
    let trembling: Vec<f64> = (0..turning.len())
        .map(|k| {
            place += 0.15 / 24.0 * source.next() / rate.sqrt();
            place + 0.15 / 24.0 * (std::f64::consts::TAU * 25.0 * k as f64 / rate).sin()
        })
        .collect();
    let scatter = |angles: &[f64]| {
        let x = record(&switching(&wheel, angles, (0.3, 4.8)), 0.02);
        let train = read(&x, rate, &options(SensorKind::Hall, 24, 0));
        let motions = train.segments.iter().filter_map(|s| s.motion);
        motions.map(|m| m.duty_scatter).fold(0.0, f64::max)
    };
    let (teeth, one) = (scatter(&turning), scatter(&trembling));
    assert!(teeth < 0.02 && one > 0.03, "{teeth} {one}");
}

/// One tooth that lies off by a fifth of a pitch makes no pattern of its own of a wheel of many.
#[test]
fn a_wheel_of_many_uneven_teeth_is_counted_by_positions() {
    let rate = 10_000.0;
    let mut wheel = Wheel::gapped(22, &[]);
    wheel.angles[7] += 0.25 / 22.0;
    let angles = turn(3.0, rate, |_| 900.0);
    let mut x = record(&switching(&wheel, &angles, (0.3, 4.8)), 0.02);
    x[10_000..10_400].fill(0.3);
    x[20_000..20_400].fill(0.3);
    let train = read(&x, rate, &options(SensorKind::Hall, 22, 0));
    assert_eq!(train.dropouts.len(), 2, "{:?}", train.dropouts);
}

/// Pulses of a few samples that come often look like noise, and are none.
#[test]
fn narrow_pulses_are_no_noise() {
    let rate = 10_000.0;
    let wheel = Wheel::gapped(43, &[]);
    let angles = turn(3.0, rate, |_| 600.0);
    let mut before = 0;
    let mut left = 0;
    let volts: Vec<f64> = angles
        .iter()
        .map(|a| {
            let tooth = (a * f64::from(wheel.positions)) as u64;
            left = if tooth != before {
                3
            } else {
                left - i32::from(left > 0)
            };
            before = tooth;
            if left > 0 { 4.9 } else { 0.1 }
        })
        .collect();
    let train = read(
        &record(&volts, 0.02),
        rate,
        &Options {
            teeth: Some(43),
            ..Options::default()
        },
    );
    let speed = train.turning().next().unwrap().motion.unwrap().rpm.unwrap();
    assert!((speed - 600.0).abs() < 6.0, "{speed}");
}
