//! Sensors on engines that are being started: uneven teeth, joined pulses, jerks, bursts. Models by hand, after what logic
//! recorders show on such engines.

use super::models::*;
use baybrief_signal::teeth::{PatternKind, SegmentKind, SensorKind, ToothTrain};

const RATE: f64 = 20_000.0;

/// Turns at which the level of the sensor changes, from low on, over whole turns: four teeth in two pitches, 0.45 and 0.55 of
/// half a turn, each pulse a seventy-fifth of a turn. `joins` tells on which turns the output stays high from the second
/// tooth until just before the third.
fn uneven_four(turns: u32, joins: impl Fn(u32) -> bool) -> Vec<f64> {
    let width = 1.0 / 75.0;
    let mut out = Vec::new();
    for n in 0..turns {
        for (k, tooth) in [0.0, 0.225, 0.5, 0.725].into_iter().enumerate() {
            let fall = match k == 1 && joins(n) {
                true => 0.5 - 0.95 * width,
                false => tooth + width,
            };
            out.extend([f64::from(n) + tooth, f64::from(n) + fall]);
        }
    }
    out
}

/// Levels of a switching sensor whose output changes at those turns after a second of rest, at a speed by turns.
fn record_of(changes: &[f64], rpm: impl Fn(f64) -> f64) -> Vec<f32> {
    let (mut turn, mut next, mut high) = (-1e-6, 0, false);
    let mut volts = vec![0.3; RATE as usize];
    while next < changes.len() {
        turn += rpm(turn) / 60.0 / RATE;
        while changes.get(next).is_some_and(|c| *c <= turn) {
            high = !high;
            next += 1;
        }
        volts.push(if high { 4.8 } else { 0.3 });
    }
    record(&volts, 0.01)
}

fn speed(train: &ToothTrain) -> f64 {
    let kinds: Vec<SegmentKind> = train.segments.iter().map(|s| s.kind).collect();
    assert_eq!(
        kinds,
        [SegmentKind::AtRest, SegmentKind::Turning],
        "{kinds:?}"
    );
    train.segments[1].motion.unwrap().rpm.unwrap()
}

/// A narrow low and a narrow high once a turn are no edge that bounced: they come evenly, with the same widths.
#[test]
fn two_teeth_that_are_joined_once_a_turn() {
    for first in [0, 2] {
        let x = record_of(&uneven_four(8, |n| n >= first), |_| 235.0);
        let train = read(&x, RATE, &options(SensorKind::Hall, 4, 0));
        let rpm = speed(&train);
        assert!((rpm / 235.0 - 1.0).abs() < 0.02, "{rpm}");
        assert_eq!(train.glitches, 0);
    }
}

/// One cylinder of four fires: the speed doubles and falls within two turns, again and again.
#[test]
fn an_engine_that_fires_on_one_cylinder() {
    let jerk = |turn: f64| 300.0 + 500.0 * (-2.5 * turn.max(0.0).rem_euclid(2.0)).exp();
    let changes = uneven_four(14, |n| n % 2 == 1);
    let x = record_of(&changes, jerk);
    let train = read(&x, RATE, &options(SensorKind::Hall, 4, 0));
    // Mean of its turns, by time.
    let seconds = (x.len() - RATE as usize) as f64 / RATE;
    let mean = 60.0 * changes[changes.len() - 1] / seconds;
    let rpm = speed(&train);
    assert!((rpm / mean - 1.0).abs() < 0.1, "{rpm} {mean}");
}

/// The burst of a supply that is switched on just before the starter turns is no part of the train that follows, nor does
/// it spoil it.
#[test]
fn a_burst_before_the_train() {
    let mut volts = vec![0.3; RATE as usize];
    for k in 0..20 {
        volts.extend([4.8, 4.8 - 4.5 * f64::from(k % 2), 0.3]);
    }
    volts.extend(vec![0.3; (0.05 * RATE) as usize]);
    // 12 plus 1, and two compressions a turn.
    let mut wheel = Wheel::gapped(12, &[]);
    wheel.angles.insert(5, 0.37);
    let angles = turn(2.0, RATE, |t| 150.0 * (1.0 + 0.25 * (31.4 * t).sin()));
    volts.extend(switching(&wheel, &angles, (0.3, 4.8)));
    let train = read(
        &record(&volts, 0.0),
        RATE,
        &options(SensorKind::Hall, 12, 0),
    );
    let turning: Vec<_> = train.turning().collect();
    assert_eq!(turning.len(), 1, "{:?}", train.segments);
    assert!(turning[0].start_s < 1.2, "{}", turning[0].start_s);
}

/// Whoever states seven teeth of a wheel of eight places has counted what is there.
#[test]
fn counted_teeth_are_not_missing() {
    let angles = turn(2.0, RATE, |_| 400.0);
    let x = record(
        &switching(&Wheel::gapped(8, &[7]), &angles, (0.3, 4.8)),
        0.01,
    );
    let read = |teeth: u32| read(&x, RATE, &options(SensorKind::Hall, teeth, 0)).wheel;
    assert_eq!(read(7).pattern.kind, PatternKind::Gaps);
    assert_eq!(read(7).positions.map(|p| p.0), Some(8));
    assert_eq!((read(7).unstated_missing, read(8).unstated_missing), (0, 1));
}

/// Six uneven teeth were stated, and the sensor does not see one of them: what repeats is the turn.
#[test]
fn a_tooth_of_six_that_is_not_seen() {
    let wheel = Wheel {
        angles: vec![0.0, 0.09, 0.26, 0.5, 0.59],
        positions: 24,
    };
    let angles = turn(3.0, RATE, |_| 215.0);
    let x = record(&switching(&wheel, &angles, (0.3, 4.8)), 0.01);
    let train = read(&x, RATE, &options(SensorKind::Hall, 6, 0));
    let rpm = train.turning().next().unwrap().motion.unwrap().rpm.unwrap();
    assert!((rpm / 215.0 - 1.0).abs() < 0.02, "{rpm}");
}
