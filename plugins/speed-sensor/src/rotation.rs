//! Speed of each sensor's shaft, the pattern of its ring, and pulses that are no rotation.

use crate::pick_up::Meaning;
use crate::sensors::{self, Sensor};
use plugin_sdk::signal::teeth::{PatternKind, Segment, SegmentKind, TurnBasis};
use plugin_sdk::signal::{stats, steady};
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Observation, Output};

/// The analyzer.
pub struct Rotation;

impl Analyzer for Rotation {
    const DECLARATION: Declaration = Declaration {
        id: "sensor-rotation",
        name: "Rotation at the speed sensors",
        needs: sensors::NEEDS,
        uses: &[sensors::ENGINE],
        inputs: crate::TRAINS,
        kinds: &[
            ("sensor-speed", "rpm"),
            ("tooth-rate", "Hz"),
            ("tooth-pattern", "count"),
            ("no-rotation", "Hz"),
            ("sensor-unreadable", "s"),
        ],
        messages: &[
            ("sensor-speed", &[]),
            ("tooth-rate", &[]),
            ("tooth-pattern", &["missing", "pattern", "cycles"]),
            (
                "tooth-pattern-other",
                &["missing", "pattern", "cycles", "stated"],
            ),
            ("pick-up-engine", &["order", "exponent"]),
            ("pick-up-unclear", &[]),
            ("sensor-unreadable", &[]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        for sensor in sensors::read(input) {
            for (segment, meaning) in sensor.segments() {
                match meaning {
                    Meaning::Rotation => speeds(&sensor, segment, input, out),
                    other => no_rotation(&sensor, segment, other, out),
                }
            }
            if sensor.is_own() {
                pattern(&sensor, out);
                unreadable(&sensor, out);
            }
        }
        Ok(())
    }
}

/// Change of a speed within which it is steady, highest over lowest less one.
const STEADY: f64 = 0.04;

/// Least duration of a steady speed, s.
const LEAST_STEADY_S: f64 = 0.3;

/// Most steady speeds that are named for one segment, the longest.
const MOST: usize = 4;

/// Speed over each steady stretch of a segment, or over all of it where there is none.
fn speeds(sensor: &Sensor<'_>, segment: &Segment, input: &Input<'_>, out: &mut Output) {
    let Some(motion) = segment.motion else { return };
    let positions = sensor.train.wheel.positions_per_turn();
    let (kind, unit, factor) = match positions {
        Some(n) => ("sensor-speed", "rpm", 60.0 / f64::from(n)),
        None => ("tooth-rate", "Hz", 1.0),
    };
    let mut add = |from_s: f64, to_s: f64, hz: f64, spread: f64| {
        // Sampling moves either end by up to half a step, evenly distributed (GUM 4.3.7).
        let ends = sensor.train.signal.step_s / 6f64.sqrt() / (to_s - from_s).max(1e-9);
        out.add(
            Observation::new(kind, kind)
                .about(sensor.role())
                .span(from_s, to_s)
                .value(hz * factor, (ends * hz).hypot(spread) * factor, unit),
        );
    };
    let found = steady_speeds(sensor, segment, input);
    if found.is_empty() {
        add(segment.start_s, segment.end_s, motion.hz, motion.spread_hz);
    }
    for s in found {
        add(s.start_s, s.end_s, s.hz, s.spread_hz);
    }
}

struct SteadySpeed {
    start_s: f64,
    end_s: f64,
    hz: f64,
    spread_hz: f64,
}

fn steady_speeds(sensor: &Sensor<'_>, segment: &Segment, input: &Input<'_>) -> Vec<SteadySpeed> {
    let rate = || {
        let series = input.tooth_rate(sensor.role())?;
        Some((series.grid?, series.numbers("rate")?.to_vec()))
    };
    let Some((grid, rates)) = rate() else {
        return Vec::new();
    };
    let at = |k: usize| grid.start_s + k as f64 * grid.step_s;
    let index = |t: f64| ((t - grid.start_s) / grid.step_s).ceil().max(0.0) as usize;
    let first = index(segment.start_s).min(rates.len());
    let end = index(segment.end_s).clamp(first, rates.len());
    let least = (LEAST_STEADY_S / grid.step_s) as usize;
    let mut found = steady::stretches(&rates[first..end], STEADY, least);
    found.sort_by_key(|s| s.first.abs_diff(s.end));
    let mut longest: Vec<SteadySpeed> = found
        .iter()
        .rev()
        .take(MOST)
        .filter_map(|s| {
            let own = &rates[first + s.first..first + s.end];
            let spread = stats::quantile(own, 0.84)? - stats::quantile(own, 0.16)?;
            Some(SteadySpeed {
                start_s: at(first + s.first),
                end_s: at(first + s.end - 1),
                hz: stats::median(own)?,
                spread_hz: spread / 2.0,
            })
        })
        .collect();
    longest.sort_by(|a, b| a.start_s.total_cmp(&b.start_s));
    longest
}

fn no_rotation(sensor: &Sensor<'_>, segment: &Segment, meaning: Meaning, out: &mut Output) {
    let Some(motion) = segment.motion else { return };
    let about = |message: &str| {
        Observation::new("no-rotation", message)
            .about(sensor.role())
            .span(segment.start_s, segment.end_s)
            .value(motion.hz, motion.spread_hz, "Hz")
    };
    match meaning {
        Meaning::PickUp { order, exponent } => out.add(
            about("pick-up-engine")
                .arg("order", (100.0 * order).round() / 100.0)
                .arg("exponent", (100.0 * exponent.0).round() / 100.0)
                .grade(Grade::Abnormal),
        ),
        _ => out.add(about("pick-up-unclear").grade(Grade::Unreadable)),
    }
}

/// Positions per turn that the train itself shows.
fn pattern(sensor: &Sensor<'_>, out: &mut Output) {
    let (Some(segment), Some((positions, basis))) =
        (sensor.longest(), sensor.train.wheel.positions)
    else {
        return;
    };
    let pattern = &sensor.train.wheel.pattern;
    if pattern.kind == PatternKind::Even {
        return;
    }
    let missing = pattern.missing * (positions / pattern.positions.max(1)).max(1);
    let message = match basis {
        TurnBasis::Contradicted => "tooth-pattern-other",
        TurnBasis::Stated | TurnBasis::Found => "tooth-pattern",
    };
    let mut o = Observation::new("tooth-pattern", message)
        .about(sensor.role())
        .span(segment.start_s, segment.end_s)
        // Positions are counted; every place was averaged over the turns.
        .value(f64::from(positions), 0.0, "count")
        .arg("missing", missing)
        .arg("pattern", pattern.name())
        .arg("cycles", pattern.cycles);
    if basis == TurnBasis::Contradicted {
        o = o.arg("stated", sensor.channel.facts.teeth.unwrap_or(0));
    }
    out.add(o);
}

/// Share of the time of turning from which on unreadable pulses are told.
const TOLD: f64 = 0.2;

/// Pulses that are no readable train.
fn unreadable(sensor: &Sensor<'_>, out: &mut Output) {
    let of_kind = |s: &&Segment| matches!(s.kind, SegmentKind::Unreadable(_));
    let own: Vec<&Segment> = sensor.train.segments.iter().filter(of_kind).collect();
    let seconds: f64 = own.iter().map(|s| s.duration_s()).sum();
    let turning: f64 = sensor.train.turning().map(Segment::duration_s).sum();
    let (Some(first), Some(last)) = (own.first(), own.last()) else {
        return;
    };
    if seconds < TOLD * turning.max(1.0) {
        return;
    }
    out.add(
        Observation::new("sensor-unreadable", "sensor-unreadable")
            .about(sensor.role())
            .span(first.start_s, last.end_s)
            .value(seconds, 0.0, "s")
            .grade(Grade::Unreadable),
    );
}
