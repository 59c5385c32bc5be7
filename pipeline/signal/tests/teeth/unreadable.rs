//! Pulses that are no tooth train: refused with their reason, never called rest.

use super::models::*;
use baybrief_signal::Time;
use baybrief_signal::teeth::{
    Options, RejectReason, SegmentKind, SensorKind, ToothTrain, read_train,
};

fn reasons(train: &ToothTrain) -> Vec<RejectReason> {
    let reason = |kind: SegmentKind| match kind {
        SegmentKind::Unreadable(reason) => Some(reason),
        SegmentKind::Turning | SegmentKind::AtRest => panic!("{:?}", train.segments),
        _ => None,
    };
    train
        .segments
        .iter()
        .filter_map(|s| reason(s.kind))
        .collect()
}

/// Serial line at 9600 baud (104 microseconds a bit), frames with pauses.
#[test]
fn a_serial_data_line() {
    let (mut at_s, mut x) = (vec![0.0], vec![1.0f32]);
    let mut noise = Noise(3);
    let mut t = 0.0;
    for _ in 0..400 {
        for _ in 0..12 {
            for bit in 0..10 {
                let level = match bit {
                    0 => 0.0,
                    9 => 1.0,
                    _ => f32::from(u8::from(noise.next() > 0.0)),
                };
                if x[x.len() - 1] != level {
                    at_s.push(t);
                    x.push(level);
                }
                t += 104e-6;
            }
        }
        t += 0.01 + 0.05 * noise.next().abs();
    }
    for teeth in [None, Some(30), Some(60)] {
        let o = Options {
            teeth,
            ..Options::default()
        };
        let train = read_train(&x, Time::Listed(&at_s), &o).unwrap();
        assert!(!reasons(&train).is_empty(), "{:?}", train.segments);
    }
}

/// Hum of the mains on the line of a coil at rest.
#[test]
fn mains_hum() {
    let x: Vec<f64> = (0..30_000)
        .map(|k| 0.2 * (std::f64::consts::TAU * 50.0 * f64::from(k) / 5_000.0).sin())
        .collect();
    let train = read(
        &record(&x, 0.002),
        5_000.0,
        &options(SensorKind::Coil, 60, 2),
    );
    assert!(matches!(reasons(&train)[..], [RejectReason::Hum(hz)] if (hz - 50.0).abs() < 0.1));
}

/// A controller's clock or the carrier of a pulse-width modulated load.
#[test]
fn a_clock() {
    let x: Vec<f64> = (0..40_000)
        .map(|k| if k % 100 < 50 { 4.8 } else { 0.3 })
        .collect();
    let train = read(
        &record(&x, 0.02),
        10_000.0,
        &options(SensorKind::Hall, 36, 0),
    );
    assert!(matches!(reasons(&train)[..], [RejectReason::TooRegular(_)]));
}

/// One edge that comes and goes.
#[test]
fn one_edge_dithers() {
    let mut noise = Noise(7);
    let mut x = Vec::new();
    while x.len() < 32_000 {
        let level = if x.last() == Some(&4.8) { 0.3 } else { 4.8 };
        let length = 20 + (60.0 * (noise.next() + 1.8)) as usize;
        x.extend(std::iter::repeat_n(level, length));
    }
    let train = read(
        &record(&x, 0.02),
        4_000.0,
        &options(SensorKind::Hall, 36, 0),
    );
    assert!(
        reasons(&train)
            .iter()
            .all(|r| matches!(r, RejectReason::Dithering(_)))
    );
}

/// 36 teeth at 750 rpm sampled at 1.2 kS/s: 2.7 samples a pitch.
#[test]
fn too_few_samples_a_pitch() {
    let rate = 1_200.0;
    let wheel = Wheel::gapped(36, &[]);
    let x = record(
        &switching(&wheel, &turn(5.0, rate, |_| 750.0), (0.3, 4.8)),
        0.02,
    );
    let train = read(&x, rate, &options(SensorKind::Hall, 36, 0));
    assert!(matches!(reasons(&train)[0], RejectReason::Undersampled(n) if n < 4.0));
}

/// At 1,000 rpm the same wheel gives 600 Hz, half of the sample rate: the alias is a slow train, or none at all. Whoever
/// says how fast the shaft can be gets neither.
#[test]
fn an_alias_is_neither_speed_nor_rest() {
    let rate = 1_200.0;
    let wheel = Wheel::gapped(36, &[]);
    for speed in [1_950.0, 2_010.0] {
        let x = record(
            &switching(&wheel, &turn(5.0, rate, |_| speed), (0.3, 4.8)),
            0.02,
        );
        let o = Options {
            highest_rpm: Some(2_500.0),
            ..options(SensorKind::Hall, 36, 0)
        };
        assert!(!reasons(&read(&x, rate, &o)).is_empty());
    }
}

/// Blocks of eight pulses at 2,000 and 2,600 Hz: 600 Hz within 4 ms are 300,000 rpm/s of a wheel with 30 teeth
/// (arithmetic).
#[test]
fn a_shaft_has_inertia() {
    let mut x = Vec::new();
    for block in 0..600 {
        let half = if block % 2 == 0 { 25 } else { 19 };
        for pulse in 0..16 {
            x.extend(std::iter::repeat_n(
                if pulse % 2 == 0 { 4.8 } else { 0.3 },
                half,
            ));
        }
    }
    let wheel = options(SensorKind::Hall, 8, 0);
    let train = read(&record(&x, 0.02), 100_000.0, &wheel);
    assert!(
        matches!(reasons(&train)[..], [RejectReason::TooQuick(_)]),
        "{:?}",
        train.segments
    );
}
