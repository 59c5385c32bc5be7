//! Rest, and what only looks like it.

use super::models::*;
use baybrief_signal::teeth::{Ending, Options, ProofOfLife, SegmentKind, SensorKind, Trend};

/// Fast, then braked to a stop within a fifth of a second: the rest after it is told by a coil whose smallest visible
/// signal belongs to a speed, in the form x_D = x_C + 1.645 s (IUPAC 1995).
#[test]
fn rest_after_a_coil_ran_down() {
    let rate = 20_000.0;
    let wheel = Wheel::gapped(60, &[58, 59]);
    let angles = turn(4.0, rate, |t| 580.0 * ((2.6 - t) / 0.6).clamp(0.0, 1.0));
    let x = record(&coil(&wheel, &angles, rate, 10.0, 0.1), 0.01);
    let train = read(&x, rate, &options(SensorKind::Coil, 60, 2));
    let turning = train.turning().next().unwrap().motion.unwrap();
    assert_eq!(
        (turning.trend, turning.ending),
        (Trend::Falls, Ending::Decay)
    );
    let last = train.segments[train.segments.len() - 1];
    assert_eq!(last.kind, SegmentKind::AtRest);
    assert!(last.start_s > 2.5 && last.end_s > 3.99);
    let capability = last.capability.unwrap();
    let law = train.amplitude_law.unwrap();
    assert!(capability.amplitude < 0.15, "{capability:?}");
    assert!(capability.below_rpm.unwrap() < 20.0);
    assert!((capability.below_hz - capability.amplitude / law.per_hz).abs() < 1e-6);
}

#[test]
fn a_flat_channel_proves_nothing() {
    for level in [0.0, 2.5, 4.9] {
        let x = record(&vec![level; 20_000], 0.01);
        let train = read(&x, 10_000.0, &options(SensorKind::Hall, 36, 0));
        assert_eq!(train.alive, ProofOfLife::None);
        assert!(
            train.segments.iter().all(|s| s.kind == SegmentKind::Silent),
            "{:?}",
            train.segments
        );
    }
}

/// A two-wire sensor draws 5.9 to 8.4 or 11.8 to 16.8 mA at rest (workshop manuals of Hyundai,
/// Tiburon 2007, and of Kia, 2014); 7 mA over 115 ohm are 0.805 V.
#[test]
fn a_current_loop_carries_its_quiescent_level() {
    let x = record(&vec![0.805; 20_000], 0.005);
    let alive = Options {
        quiescent_levels: vec![(0.68, 0.97), (1.36, 1.93)],
        ..options(SensorKind::CurrentLoop, 44, 0)
    };
    let train = read(&x, 10_000.0, &alive);
    assert!(matches!(train.alive, ProofOfLife::Quiescent(v) if (v - 0.805).abs() < 0.01));
    assert_eq!(train.segments[0].kind, SegmentKind::AtRest);
    let open = record(&vec![0.0; 20_000], 0.005);
    assert_eq!(
        read(&open, 10_000.0, &alive).segments[0].kind,
        SegmentKind::Silent
    );
}

/// Turns, rests, turns again: each told, and the pauses bounded by the pitch that did not pass.
#[test]
fn rest_between_two_runs() {
    let rate = 10_000.0;
    let wheel = Wheel::gapped(36, &[]);
    let moves = |t: f64| if (2.0..4.0).contains(&t) { 0.0 } else { 300.0 };
    let angles = turn(6.0, rate, moves);
    let x = record(&switching(&wheel, &angles, (0.3, 4.8)), 0.02);
    let train = read(&x, rate, &options(SensorKind::Hall, 36, 0));
    // The speed returns at once, as after a broken contact: that is no rest.
    assert!(
        train.segments.iter().all(|s| s.kind != SegmentKind::AtRest),
        "{:?}",
        train.segments
    );
    let ramps = |t: f64| 300.0 * ((2.0 - t).clamp(0.0, 0.5) + (t - 3.5).clamp(0.0, 0.5)) / 0.5;
    let angles = turn(6.0, rate, ramps);
    let x = record(&switching(&wheel, &angles, (0.3, 4.8)), 0.02);
    let train = read(&x, rate, &options(SensorKind::Hall, 36, 0));
    let rest: Vec<_> = train
        .segments
        .iter()
        .filter(|s| s.kind == SegmentKind::AtRest)
        .collect();
    assert_eq!(rest.len(), 1, "{:?}", train.segments);
    assert!(rest[0].start_s > 1.8 && rest[0].end_s < 3.75);
    assert!(rest[0].capability.unwrap().below_rpm.unwrap() < 2.0);
}

/// Noise that would hide a shaft at several times the speed that counts as turning: no rest is claimed.
#[test]
fn noise_hides_a_slow_coil() {
    let rate = 5_000.0;
    let wheel = Wheel::gapped(36, &[]);
    let angles = turn(6.0, rate, |t| {
        if t < 3.0 {
            800.0
        } else {
            800.0 * (3.4 - t).max(0.0) / 0.4
        }
    });
    let x = record(&coil(&wheel, &angles, rate, 2.0, 0.1), 0.12);
    let train = read(&x, rate, &options(SensorKind::Coil, 36, 0));
    assert!(
        train.segments.iter().all(|s| s.kind != SegmentKind::AtRest),
        "{:?}",
        train.segments
    );
}

/// Of noise alone nothing is said.
#[test]
fn noise_alone_is_silent() {
    let x = record(&vec![0.0; 100_000], 1.0);
    let train = read(&x, 10_000.0, &Options::default());
    assert!(
        train.segments.iter().all(|s| s.kind == SegmentKind::Silent),
        "{:?}",
        train.segments
    );
}

/// Three teeth are too few for a speed and too many for rest.
#[test]
fn three_teeth_are_too_short() {
    let rate = 10_000.0;
    let wheel = Wheel::gapped(36, &[]);
    let angles = turn(0.05, rate, |_| 160.0);
    let x = record(&switching(&wheel, &angles, (0.3, 4.8)), 0.02);
    let train = read(&x, rate, &options(SensorKind::Hall, 36, 0));
    assert!(
        train
            .segments
            .iter()
            .all(|s| s.kind == SegmentKind::TooShort),
        "{:?}",
        train.segments
    );
}
