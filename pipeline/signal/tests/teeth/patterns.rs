//! Patterns of wheels, found without being told and held against what is told.

use super::models::*;
use baybrief_signal::Time;
use baybrief_signal::teeth::{Options, PatternKind, SensorKind, ToothTrain, TurnBasis, read_train};

fn hall_train(wheel: &Wheel, options: &Options) -> ToothTrain {
    let rate = 100_000.0;
    let angles = turn(1.0, rate, |t| 1_400.0 + 30.0 * t);
    let x = record(&switching(wheel, &angles, (0.3, 4.8)), 0.02);
    read(&x, rate, options)
}

fn name_of(wheel: &Wheel) -> String {
    hall_train(wheel, &Options::default()).wheel.pattern.name()
}

/// Wheels that the trade names by positions and missing teeth.
#[test]
fn gaps_are_found_unaided() {
    assert_eq!(name_of(&Wheel::gapped(36, &[35])), "36-1");
    assert_eq!(name_of(&Wheel::gapped(60, &[58, 59])), "60-2");
    let name = name_of(&Wheel::gapped(36, &[10, 11, 35]));
    assert!(["36-2-1", "36-1-2"].contains(&name.as_str()), "{name}");
}

/// 36-2-1 with its gaps half a turn apart: gaps of two sizes in turn make one turn, and none of them is an interruption, also
/// over a few turns of a shaft that coasts down.
#[test]
fn gaps_of_two_sizes_half_a_turn_apart() {
    let wheel = Wheel::gapped(36, &[16, 17, 35]);
    let name = name_of(&wheel);
    assert!(["36-2-1", "36-1-2"].contains(&name.as_str()), "{name}");
    let rate = 10_000.0;
    let angles = turn(2.0, rate, |t| 450.0 * (1.0 - t / 2.2));
    let x = record(&switching(&wheel, &angles, (0.3, 4.8)), 0.02);
    let train = read(&x, rate, &options(SensorKind::Hall, 36, 3));
    assert_eq!(train.wheel.positions, Some((36, TurnBasis::Stated)));
    assert!(train.dropouts.is_empty(), "{:?}", train.dropouts);
}

/// 36-2-2-2 with its gaps a third of a turn apart repeats after twelve positions; only the statement says that three of
/// them make a turn.
#[test]
fn a_symmetric_wheel_needs_its_statement() {
    let wheel = Wheel::gapped(36, &[10, 11, 22, 23, 34, 35]);
    let unaided = hall_train(&wheel, &Options::default());
    assert_eq!(unaided.wheel.pattern.name(), "12-2");
    assert_eq!(unaided.wheel.positions, None);
    let told = hall_train(&wheel, &options(SensorKind::Hall, 36, 6));
    assert_eq!(told.wheel.positions, Some((36, TurnBasis::Stated)));
    let speed = told.turning().next().unwrap().motion.unwrap().rpm.unwrap();
    assert!((speed - 1_415.0).abs() < 14.0, "{speed}");
}

#[test]
fn an_even_wheel_shows_no_turn() {
    let train = hall_train(&Wheel::gapped(24, &[]), &Options::default());
    assert_eq!(train.wheel.pattern.kind, PatternKind::Even);
    assert_eq!((train.wheel.positions, train.turns.len()), (None, 0));
}

/// Twelve teeth and one more between two of them.
#[test]
fn twelve_plus_one() {
    let mut wheel = Wheel::gapped(12, &[]);
    wheel.angles.insert(7, 6.4 / 12.0);
    wheel.positions = 40;
    assert_eq!(name_of(&wheel), "12+1");
    let told = hall_train(&wheel, &options(SensorKind::Hall, 12, 0));
    let speed = told.turning().next().unwrap().motion.unwrap().rpm.unwrap();
    assert!((speed - 1_415.0).abs() < 14.0, "{speed}");
}

/// Four teeth at 0, 70, 180 and 250 degrees.
#[test]
fn four_uneven_teeth() {
    let wheel = Wheel {
        angles: vec![0.0, 70.0 / 360.0, 0.5, 250.0 / 360.0],
        positions: 40,
    };
    let train = hall_train(&wheel, &Options::default());
    assert_eq!(train.wheel.pattern.kind, PatternKind::Uneven);
    let told = hall_train(&wheel, &options(SensorKind::Hall, 4, 0));
    let speed = told.turning().next().unwrap().motion.unwrap().rpm.unwrap();
    assert!((speed - 1_415.0).abs() < 14.0, "{speed}");
}

/// 24 teeth whose falling edges are even and whose rising edges come 5 or 10 degrees before them.
#[test]
fn narrow_and_wide_teeth_use_the_even_edge() {
    const CODE: u32 = 0b0110_1001_0011_1010_1100_0101;
    let rate = 100_000.0;
    let angles = turn(2.0, rate, |_| 136.0);
    let high = |turn: f64| {
        let pitch = turn.rem_euclid(1.0) * 24.0;
        let wide = CODE >> (pitch as u32) & 1 == 1;
        pitch.fract()
            > if wide {
                1.0 - 10.0 / 15.0
            } else {
                1.0 - 5.0 / 15.0
            }
    };
    let volts: Vec<f64> = angles
        .iter()
        .map(|a| if high(*a) { 4.8 } else { 0.3 })
        .collect();
    let train = read(
        &record(&volts, 0.02),
        rate,
        &options(SensorKind::Hall, 24, 0),
    );
    assert!(!train.choice.rising);
    let speed = train.turning().next().unwrap().motion.unwrap().rpm.unwrap();
    assert!((speed - 136.0).abs() < 1.4, "{speed}");
}

/// 36-1 stated of a 60-2.
#[test]
fn a_wrong_statement_is_contradicted() {
    let train = hall_train(
        &Wheel::gapped(60, &[58, 59]),
        &options(SensorKind::Hall, 36, 1),
    );
    assert_eq!(train.wheel.positions, Some((60, TurnBasis::Contradicted)));
}

/// A tooth broken off a wheel of 30 that was stated to be whole.
#[test]
fn a_broken_tooth_is_beyond_the_statement() {
    let train = hall_train(&Wheel::gapped(30, &[17]), &options(SensorKind::Hall, 30, 0));
    assert_eq!(
        (train.wheel.pattern.missing, train.wheel.unstated_missing),
        (1, 1)
    );
    assert!(train.dropouts.is_empty());
}

/// The gap of a wheel that a list of level changes shows in less than two turns is no dropout.
#[test]
fn a_short_list_with_its_gap() {
    let rate = 1e6;
    let wheel = Wheel::gapped(60, &[58, 59]);
    let angles = turn(0.6, rate, |_| 160.0);
    let (at_s, x) = level_changes(&wheel, &angles, rate);
    let train = read_train(&x, Time::Listed(&at_s), &options(SensorKind::Hall, 60, 2)).unwrap();
    assert!(train.dropouts.is_empty(), "{:?}", train.dropouts);
    let speed = train.turning().next().unwrap().motion.unwrap().rpm.unwrap();
    assert!((speed - 160.0).abs() < 2.0, "{speed}");
}
