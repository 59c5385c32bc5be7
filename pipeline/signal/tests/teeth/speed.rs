//! Speed per revolution.

use super::models::*;
use baybrief_signal::Time;
use baybrief_signal::teeth::{
    Options, SegmentKind, SensorKind, ToothTrain, Trend, read_train, rpm,
};

/// Largest error of the revolutions against the shaft's angles, share.
fn worst_turn(train: &ToothTrain, angles: &[f64], rate: f64) -> f64 {
    let at = |t: f64| angles[((t * rate) as usize).min(angles.len() - 1)];
    let off = train
        .turns
        .iter()
        .map(|t| (at(t.end_s) - at(t.start_s) - 1.0).abs());
    off.fold(0.0, f64::max)
}

fn only_turning(train: &ToothTrain) -> (f64, Trend) {
    let turning: Vec<_> = train.turning().collect();
    assert_eq!(turning.len(), 1, "{:?}", train.segments);
    let m = turning[0].motion.unwrap();
    (m.rpm.unwrap(), m.trend)
}

/// 60 f / N (definition): N = 60, 1000 Hz is 1000 rpm; 23 teeth at 1341.67 Hz 3500 rpm.
#[test]
fn speed_formula() {
    assert_eq!(rpm(1000.0, 60), 1000.0);
    assert!((rpm(1341.67, 23) - 3500.0).abs() < 0.01);
}

/// Worked example: 36-1 at 750 rpm: 450 Hz in pitch, 437.5 Hz mean edge rate; the mean taken for 36 even teeth would give
/// 729.17 rpm, 2.78 % low.
#[test]
fn a_missing_tooth_does_not_bend_the_speed() {
    let rate = 20_000.0;
    let wheel = Wheel::gapped(36, &[35]);
    let angles = turn(3.0, rate, |_| 750.0);
    let x = record(&switching(&wheel, &angles, (0.3, 4.8)), 0.02);
    let train = read(&x, rate, &options(SensorKind::Hall, 36, 1));
    let (speed, trend) = only_turning(&train);
    assert!((speed - 750.0).abs() < 4.0, "{speed}");
    assert_eq!(trend, Trend::Steady);
    assert!(worst_turn(&train, &angles, rate) < 0.005);
    assert!(train.dropouts.is_empty());
}

/// A coil whose signal grows with the speed, with an offset, run-out and a wheel of 60-2, from 175 to 515 rpm.
#[test]
fn a_coil_that_runs_up() {
    let rate = 10_000.0;
    let wheel = Wheel::gapped(60, &[58, 59]);
    let angles = turn(6.0, rate, |t| 175.0 + 340.0 * (t / 6.0));
    let volts: Vec<f64> = coil(&wheel, &angles, rate, 8.0, 0.2)
        .iter()
        .map(|v| v + 2.5)
        .collect();
    for polarity in [1.0, -1.0] {
        let x = record(
            &volts.iter().map(|v| polarity * v).collect::<Vec<_>>(),
            0.02,
        );
        let train = read(&x, rate, &options(SensorKind::Coil, 60, 2));
        let (speed, trend) = only_turning(&train);
        assert!((speed - 345.0).abs() < 8.0, "{speed}");
        assert_eq!(trend, Trend::Rises);
        assert!(worst_turn(&train, &angles, rate) < 0.01);
        assert!(train.dropouts.is_empty(), "{:?}", train.dropouts);
    }
}

/// An input that clamps one half wave, as a conditioner's or a recorder's does.
#[test]
fn a_clamped_coil() {
    let rate = 100_000.0;
    let wheel = Wheel::gapped(60, &[58, 59]);
    let angles = turn(0.6, rate, |t| 2_000.0 - 1_000.0 * t);
    let volts: Vec<f64> = coil(&wheel, &angles, rate, 3.0, 0.15)
        .iter()
        .map(|v| v.max(-0.7))
        .collect();
    for sensor in [SensorKind::Coil, SensorKind::Hall] {
        let train = read(&record(&volts, 0.005), rate, &options(sensor, 60, 2));
        let (speed, trend) = only_turning(&train);
        assert!((speed - 1_700.0).abs() < 30.0, "{speed}");
        assert_eq!(trend, Trend::Falls);
        assert!(worst_turn(&train, &angles, rate) < 0.01);
        assert!(train.dropouts.is_empty());
    }
}

/// A recorder whose range is exceeded: what lies beyond 8.7 V comes out 10.2 V lower.
#[test]
fn a_wrapped_coil() {
    let rate = 10_000.0;
    let wheel = Wheel::gapped(60, &[58, 59]);
    let angles = turn(5.0, rate, |_| 113.0);
    let volts = coil(&wheel, &angles, rate, 60.0, 0.2);
    let wrap = |v: f64| if v > 8.7 { v - 10.2 } else { v.max(-1.5) };
    let wrapped: Vec<f64> = volts.iter().map(|v| wrap(v + 3.5)).collect();
    let train = read(
        &record(&wrapped, 0.0),
        rate,
        &options(SensorKind::Coil, 60, 2),
    );
    let (speed, _) = only_turning(&train);
    assert!((speed - 113.0).abs() < 1.2, "{speed}");
    assert!(train.signal.wrapped > 0);
}

/// Level changes of a starting engine's sensor: two teeth a turn, speed rippling with the compressions.
#[test]
fn a_list_of_level_changes() {
    let rate = 1e6;
    let wheel = Wheel::gapped(2, &[]);
    let angles = turn(6.0, rate, |t| {
        if t < 1.5 {
            0.0
        } else {
            215.0 * (1.0 + 0.15 * (43.0 * t).sin())
        }
    });
    let (at_s, x) = level_changes(&wheel, &angles, rate);
    let train = read_train(&x, Time::Listed(&at_s), &options(SensorKind::Hall, 2, 0)).unwrap();
    assert!(train.signal.level_changes);
    let (speed, _) = only_turning(&train);
    assert!((speed - 215.0).abs() < 6.0, "{speed}");
    assert_eq!(train.segments[0].kind, SegmentKind::AtRest);
    assert!(worst_turn(&train, &angles, rate) < 0.001);
}

/// Constant speed does not coast, whatever the engine's torque does within the turn.
#[test]
fn a_ripple_is_no_coasting() {
    let rate = 20_000.0;
    let wheel = Wheel::gapped(60, &[58, 59]);
    let angles = turn(5.0, rate, |t| {
        160.0 * (1.0 + 0.08 * (2.0 * std::f64::consts::TAU * 2.67 * t).sin())
    });
    let x = record(&coil(&wheel, &angles, rate, 6.0, 0.1), 0.01);
    let (speed, trend) = only_turning(&read(&x, rate, &options(SensorKind::Coil, 60, 2)));
    assert!((speed - 160.0).abs() < 3.0, "{speed}");
    assert_eq!(trend, Trend::Steady);
}

/// 14 and 7 mA over 100 ohm, and the levels of a logic input.
#[test]
fn current_loop_and_logic_levels() {
    let rate = 25_000.0;
    let wheel = Wheel::gapped(44, &[]);
    let angles = turn(2.0, rate, |_| 620.0);
    for (levels, noise) in [((0.7, 1.4), 0.01), ((0.0, 1.0), 0.0)] {
        let x = record(&switching(&wheel, &angles, levels), noise);
        let (speed, _) = only_turning(&read(&x, rate, &options(SensorKind::CurrentLoop, 44, 0)));
        assert!((speed - 620.0).abs() < 4.0, "{speed}");
    }
}

/// Spikes of a sample or two on the line of a Hall sensor.
#[test]
fn spikes_are_left_out() {
    let rate = 50_000.0;
    let wheel = Wheel::gapped(36, &[35]);
    let angles = turn(2.0, rate, |_| 900.0);
    let mut volts = switching(&wheel, &angles, (0.3, 4.8));
    for k in (777..volts.len()).step_by(3_001) {
        volts[k] = 5.1 - volts[k];
    }
    let train = read(
        &record(&volts, 0.02),
        rate,
        &options(SensorKind::Hall, 36, 1),
    );
    assert!((only_turning(&train).0 - 900.0).abs() < 5.0);
    assert!(train.glitches > 20, "{}", train.glitches);
    assert!(train.dropouts.is_empty());
}

#[test]
fn speed_around_an_instant() {
    let rate = 20_000.0;
    let wheel = Wheel::gapped(24, &[]);
    let angles = turn(4.0, rate, |t| 300.0 + 200.0 * t);
    let x = record(&switching(&wheel, &angles, (0.3, 4.8)), 0.02);
    let train = read(&x, rate, &Options::default());
    let rate_at = train.rate_at(2.0, 0.04).unwrap();
    assert!((rate_at * 60.0 / 24.0 - 700.0).abs() < 7.0, "{rate_at}");
    assert_eq!(train.rpm_at(2.0, 0.04), None);
}

/// A switched sensor sampled six times a tooth looks as uncorrelated as noise from one sample to the next, and is a train all
/// the same.
#[test]
fn a_fast_square_wave_is_no_noise() {
    let rate = 8_000.0;
    let wheel = Wheel::gapped(25, &[]);
    for rpm in [2_700.0, 3_000.0, 3_300.0] {
        let angles = turn(4.0, rate, |_| rpm);
        let volts = record(&switching(&wheel, &angles, (0.3, 4.9)), 0.02);
        let train = read(&volts, rate, &options(SensorKind::Hall, 25, 0));
        let speed = only_turning(&train).0;
        assert!((speed / rpm - 1.0).abs() < 0.01, "{rpm}: {speed}");
        assert!(train.signal.threshold < 2.0, "{}", train.signal.threshold);
    }
}
