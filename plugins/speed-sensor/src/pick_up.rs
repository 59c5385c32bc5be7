//! Pick-up: pulses on the line of a coil that come from elsewhere, mostly from the engine's alternator or ignition.
//!
//! A coil's voltage is the change of its flux, so its amplitude grows with its own speed. What is induced by another
//! machine keeps that one's rate and an amplitude of its own. Two things together are therefore needed to call pulses
//! pick-up: a rate that follows the engine's through a change of its speed, and an amplitude that does not follow the rate.

use crate::sensors::{ENGINE, Law, Place, Sensor};
use plugin_sdk::Input;
use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::{PatternKind, Relation, Segment, ToothTrain, compare_trains};

/// Meaning of a segment of pulses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Meaning {
    /// The shaft turns.
    Rotation,
    /// The pulses follow the engine and are none of the shaft's.
    PickUp {
        /// Pulses per turn of the engine.
        order: f64,
        /// Exponent of the amplitude against the rate, and its standard error.
        exponent: (f64, f64),
    },
    /// Rotation and pick-up would look alike in this recording.
    Unclear,
}

/// Exponent of the amplitude against the rate below which it does not follow. A coil's is 1 less what inductance and load
/// take (workshop data of a 60-2 sensor give 0.5).
const LEAST_EXPONENT: f64 = 0.4;

/// Change of the rate, highest over lowest, from which on an exponent can be fitted.
const LEAST_RANGE: f64 = 1.1;

/// Amplitude, peak to peak in V, that no pick-up on a sensor's line reaches; judgement.
const MOST_PICK_UP: f64 = 1.0;

/// Ratio of the mean squares between and within the places of a wheel from which on the wheel is seen in its amplitudes.
const WHEEL_F: f64 = 3.0;

/// Least standard deviation of the places' amplitudes, against their mean: no ring has teeth that are more alike, and a
/// steady tone that is sampled at the same phases again and again differs by less. Judgement.
const UNLIKE: f64 = 0.003;

/// Meanings of a sensor's segments of turning.
pub fn meanings(sensor: &Sensor<'_>, all: &[Sensor<'_>], input: &Input<'_>) -> Vec<Meaning> {
    let engine = all.iter().find(|s| s.role() == ENGINE);
    let of_segment = |segment: &Segment| {
        // What sits on the engine follows it by right.
        if sensor.law != Law::Coil || sensor.place == Place::Engine {
            return Meaning::Rotation;
        }
        meaning(sensor, segment, engine, input)
    };
    sensor.train.turning().map(of_segment).collect()
}

fn meaning(
    sensor: &Sensor<'_>,
    segment: &Segment,
    engine: Option<&Sensor<'_>>,
    input: &Input<'_>,
) -> Meaning {
    let train = &sensor.train;
    // A ring shows itself by its gaps. Bursts of the ignition leave unequal and further edges as well.
    if train.wheel.pattern.kind == PatternKind::Gaps {
        return Meaning::Rotation;
    }
    let exponent = exponent(train, segment);
    let follows = exponent.is_some_and(|(n, u)| n - 2.0 * u > LEAST_EXPONENT);
    let amplitude = segment.motion.map_or(0.0, |m| m.amplitude);
    let large = amplitude > MOST_PICK_UP && sensor.channel.facts.calibrated;
    if follows || large || sensor.clamped {
        return Meaning::Rotation;
    }
    let compared = engine.and_then(|e| {
        let positions = e.train.wheel.positions_per_turn().unwrap_or(1);
        compare_trains(train, segment, &e.train, positions)
    });
    let stays = exponent.filter(|(n, u)| n + 2.0 * u < LEAST_EXPONENT);
    match (compared.map(|c| (c.relation, c.ratio)), stays) {
        (Some((Relation::Locked, order)), Some(exponent)) => Meaning::PickUp { order, exponent },
        // Bursts are counted several times each, so that they part from the engine; their size tells them from a shaft.
        (Some((Relation::Parted, _)), None) => Meaning::Rotation,
        (Some((Relation::Parted, _)), Some(_)) => Meaning::Unclear,
        _ if too_fast(sensor, segment) => Meaning::Unclear,
        _ if shows_wheel(train, segment) || !engine_runs(segment, engine, input) => {
            Meaning::Rotation
        }
        _ => Meaning::Unclear,
    }
}

/// Speed that no road wheel reaches, rpm: 250 km/h on a tyre of 1.9 m around (arithmetic).
const FASTEST_WHEEL_RPM: f64 = 2_200.0;

/// True for pulses that are too quick for a road wheel with the teeth that were stated.
fn too_fast(sensor: &Sensor<'_>, segment: &Segment) -> bool {
    let positions = sensor.train.wheel.positions_per_turn();
    let rpm = segment
        .motion
        .zip(positions)
        .map(|(m, n)| 60.0 * m.hz / f64::from(n));
    sensor.place == Place::Wheel && rpm.is_some_and(|rpm| rpm > FASTEST_WHEEL_RPM)
}

/// Exponent of the amplitude against the rate within a segment and its standard error; `None` where the rate changes too
/// little.
fn exponent(train: &ToothTrain, segment: &Segment) -> Option<(f64, f64)> {
    const EDGES: usize = 12;
    let edges = train.edges_of(segment);
    let mut windows: Vec<(f64, f64)> = Vec::new();
    for own in edges.windows(EDGES + 1).step_by(EDGES) {
        let positions: u32 = own[1..].iter().map(|e| e.step).sum();
        let seconds = own[EDGES].at_s - own[0].at_s;
        let sizes: Vec<f64> = own.iter().map(|e| f64::from(e.amplitude)).collect();
        let size = stats::median(&sizes)?;
        if seconds > 0.0 && size > 0.0 {
            windows.push((f64::from(positions) / seconds, size));
        }
    }
    let (rates, sizes): (Vec<f64>, Vec<f64>) = windows.iter().map(|w| (w.0.ln(), w.1.ln())).unzip();
    let range = (stats::quantile(&rates, 0.98)? - stats::quantile(&rates, 0.02)?).exp();
    let line = stats::line_fit(&rates, &sizes).filter(|_| range > LEAST_RANGE)?;
    Some((line.slope, line.slope_stderr))
}

/// True where the amplitudes repeat from turn to turn at the places of the stated wheel, by a one-way analysis of variance.
fn shows_wheel(train: &ToothTrain, segment: &Segment) -> bool {
    let Some(positions) = train.wheel.positions_per_turn().map(|n| n as usize) else {
        return false;
    };
    let edges = train.edges_of(segment);
    if positions < 8 || edges.len() < 4 * positions {
        return false;
    }
    let mut places = vec![(0.0, 0.0, 0.0); positions];
    let mut position = 0;
    let mean = edges.iter().map(|e| f64::from(e.amplitude)).sum::<f64>() / edges.len() as f64;
    for e in edges {
        position += e.step as usize;
        let place = &mut places[position % positions];
        let off = f64::from(e.amplitude) / mean - 1.0;
        *place = (place.0 + 1.0, place.1 + off, place.2 + off * off);
    }
    let seen = places.iter().filter(|p| p.0 > 0.0);
    let between: f64 = seen.clone().map(|p| p.1 * p.1 / p.0).sum();
    let within: f64 = seen.map(|p| p.2 - p.1 * p.1 / p.0).sum();
    let free = (edges.len() - positions) as f64;
    let (between, within) = (between / (positions - 1) as f64, within / free);
    // Differences of places from turn to turn, each place seen so often.
    let turns = edges.len() as f64 / positions as f64;
    between / within.max(1e-12) > WHEEL_F && (between / turns).sqrt() > UNLIKE
}

fn engine_runs(segment: &Segment, engine: Option<&Sensor<'_>>, input: &Input<'_>) -> bool {
    let (share, _) = input
        .conditions()
        .running_share(segment.start_s, segment.end_s);
    let turns = |e: &Sensor<'_>| {
        e.train
            .turning()
            .any(|s| s.start_s < segment.end_s && s.end_s > segment.start_s)
    };
    share > 0.0 || engine.is_some_and(turns)
}
