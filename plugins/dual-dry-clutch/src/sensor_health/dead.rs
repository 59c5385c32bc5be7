//! A dead input shaft sensor, proven by the other speeds: while the vehicle drives and the engine holds a constant
//! ratio to the output, one of the two input shafts carries. Where it is not the one that is seen to turn, it is
//! the other, and a sensor that shows nothing then is dead.

use crate::clutch::{Commands, Selector};
use crate::speeds::{SpeedTracks, constant_stretches, quotient};
use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::SegmentKind;
use plugin_sdk::{Grade, Input, Limits, Observation, Output};

/// Least time of unexplained drive, grid points (0.5 s).
const LEAST: usize = 25;

pub fn observe(input: &Input<'_>, tracks: &SpeedTracks, out: &mut Output) {
    let (Some(engine), Some(output)) = (&tracks.engine, &tracks.output) else {
        return;
    };
    let ratio = quotient(engine, output);
    for (shaft, role) in ["input-shaft-1", "input-shaft-2"].into_iter().enumerate() {
        let (Some(own), Some(other)) = (&tracks.input[shaft], &tracks.input[1 - shaft]) else {
            continue;
        };
        let mut unexplained = 0;
        let mut span: Option<(usize, usize)> = None;
        for ((from, to), _) in constant_stretches(&ratio, 0.02, LEAST) {
            let silent = (from..=to).all(|k| own[k].is_nan())
                && would_be_seen(input, role)
                && !is_unreadable(input, role, tracks.at(from), tracks.at(to));
            let off: Vec<f64> = (from..=to)
                .map(|k| (engine[k] / other[k] - 1.0).abs())
                .collect();
            if silent && stats::median(&off).is_some_and(|m| m > 0.08) {
                unexplained += to - from + 1;
                span = Some((span.map_or(from, |s| s.0), to));
            }
        }
        if let Some((from, to)) = span.filter(|_| unexplained >= LEAST) {
            out.add(
                Observation::new("sensor-fault", "sensor-dead")
                    .about(role)
                    .span(tracks.at(from), tracks.at(to))
                    .value(0.0, silent_hz(tracks.at(to) - tracks.at(from)), "Hz")
                    .grade(Grade::Abnormal),
            );
        }
    }
}

/// A sensor that is silent for the whole recording while the vehicle drives and changes gear: each change hands the
/// drive to the other input shaft, so both must have turned, whatever their tooth counts.
pub fn silent(input: &Input<'_>, limits: &Limits<'_>, out: &mut Output) {
    /// Shortest turning of the output, s; a launch and a gear change take less.
    const DRIVE_S: f64 = 3.0;
    let turns = |role: &str| {
        let record = input.train(role)?;
        let span = record
            .turning()
            .max_by(|a, b| (a.end_s - a.start_s).total_cmp(&(b.end_s - b.start_s)))?;
        Some((span.start_s, span.end_s))
    };
    let Some((from, to)) = turns("output-shaft").filter(|(a, b)| b - a >= DRIVE_S) else {
        return;
    };
    let commands = Commands::of(input, limits);
    let changes = commands
        .applied
        .iter()
        .filter(|w| w.0 > from + 0.5 && w.1 < to)
        .count();
    if changes == 0 || commands.selector == Selector::NoDrive {
        return;
    }
    for (own, other) in [
        ("input-shaft-1", "input-shaft-2"),
        ("input-shaft-2", "input-shaft-1"),
    ] {
        let flat = input
            .train(own)
            .is_some_and(|t| t.turning().next().is_none())
            && would_be_seen(input, own)
            && !is_unreadable(input, own, from, to);
        let known = out
            .observations
            .iter()
            .any(|o| o.kind == "sensor-fault" && o.subject.as_deref() == Some(own));
        if flat && !known && turns(other).is_some() {
            out.add(
                Observation::new("sensor-fault", "sensor-silent")
                    .about(own)
                    .span(from, to)
                    .value(0.0, silent_hz(to - from), "Hz")
                    .grade(Grade::Abnormal),
            );
        }
    }
}

/// True where teeth half as large as the other input shaft's would have been seen: a noise that hides them is no silence.
fn would_be_seen(input: &Input<'_>, role: &str) -> bool {
    let other = match role {
        "input-shaft-1" => "input-shaft-2",
        _ => "input-shaft-1",
    };
    let trains = input.train(role).zip(input.train(other));
    trains.is_some_and(|(own, other)| {
        let sizes = other.turning().filter_map(|s| Some(s.motion?.amplitude));
        own.signal.threshold < 0.5 * sizes.fold(0.0, f64::max)
    })
}

/// Pulses that cannot be read are no silence.
fn is_unreadable(input: &Input<'_>, role: &str, from_s: f64, to_s: f64) -> bool {
    input.train(role).is_some_and(|train| {
        let mut segments = train.segments.iter();
        segments.any(|s| {
            let within = s.start_s < to_s && s.end_s > from_s;
            within && matches!(s.kind, SegmentKind::Unreadable(_))
        })
    })
}

/// Standard uncertainty of a rate of no pulse within `seconds`, Hz: it lies between none and one (rectangular, GUM 4.3.7).
fn silent_hz(seconds: f64) -> f64 {
    1.0 / seconds.max(1e-3) / 3f64.sqrt()
}
