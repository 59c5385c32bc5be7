//! The toothed wheel: what comes back at the same place on every turn belongs to it.

use super::crosstalk::Sensor;
use plugin_sdk::signal::teeth::{PatternKind, ToothTrain, TurnBasis, average_ring};
use plugin_sdk::{ChannelView, Grade, Limit, Observation, Output};

/// Samples a pitch below which a period is too coarse to be judged tooth by tooth.
const LEAST_SAMPLES: f64 = 8.0;

/// Doubled edges per turn that are one tooth's: as many as there are turns, within this share.
const EVERY_TURN: f64 = 0.1;

/// True for an input shaft whose wheel has as many edges beyond one a pitch as the other input shaft's.
pub fn is_alike(role: &str, train: &ToothTrain, sensors: &[Sensor<'_>]) -> bool {
    let own = &train.wheel.pattern;
    sensors.iter().any(|(other, record)| {
        let pattern = &record.wheel.pattern;
        let both_inputs = [role, other.role]
            .iter()
            .all(|r| r.starts_with("input-shaft"));
        both_inputs
            && other.role != role
            && own.kind == PatternKind::Extra
            && (pattern.kind, pattern.positions, pattern.extra)
                == (own.kind, own.positions, own.extra)
    })
}

/// Turns on which a gap must come back at its place: less may be chance.
const LEAST_TURNS: u32 = 2;

/// Observes the wheel, whose further edges may be `alike` on both input shafts; returns true where edges come twice at a place of it, turn by turn.
pub fn observe(
    channel: &ChannelView<'_>,
    train: &ToothTrain,
    alike: bool,
    out: &mut Output,
) -> bool {
    let fine = |samples: f64| samples >= LEAST_SAMPLES;
    let longest = train
        .turning()
        .filter(|s| s.motion.is_some_and(|m| fine(m.samples_per_pitch)))
        .max_by_key(|s| s.last - s.first);
    let (Some(segment), Some((positions, basis))) = (longest, train.wheel.positions) else {
        return false;
    };
    let pattern = &train.wheel.pattern;
    let turns = average_ring(train).map_or(0, |ring| ring.turns);
    let about = |kind: &str, message: &str, count: u32| {
        Observation::new(kind, message)
            .about(channel.role)
            .span(segment.start_s, segment.end_s)
            // Teeth are counted; every place was averaged over the turns.
            .value(f64::from(count), 0.0, "count")
            .arg("positions", positions)
    };
    if basis == TurnBasis::Contradicted {
        let stated = channel.facts.teeth.unwrap_or(0);
        out.add(about("tooth-wheel", "tooth-wheel-other", pattern.missing).arg("stated", stated));
        return false;
    }
    let per_turn = positions / pattern.positions.max(1);
    let missing = match pattern.kind {
        PatternKind::Gaps => pattern.missing * per_turn.max(1),
        _ => 0,
    };
    match channel.facts.missing_teeth {
        Some(_) if turns < LEAST_TURNS => {}
        Some(stated) if train.wheel.unstated_missing > 0 => out.add(
            about("sensor-fault", "sensor-missing-teeth", missing)
                .arg("turns", turns)
                .limit(at_most(stated, "job.toml: missing_teeth"))
                .grade(Grade::Abnormal),
        ),
        // A gap that nobody spoke of may be the wheel's own.
        None if missing > 0 => {
            out.add(about("tooth-wheel", "tooth-wheel-gap", missing).arg("turns", turns));
        }
        _ => {}
    }
    let doubled = match pattern.kind {
        PatternKind::Extra => pattern.extra * per_turn.max(1),
        _ => doubled_teeth(train),
    };
    match channel.facts.missing_teeth {
        _ if doubled == 0 => {}
        // One edge more a turn may be the wheel's own, for the first cylinder.
        _ if pattern.kind == PatternKind::Extra => {
            // Two wheels are not damaged alike.
            let message = match alike {
                true => "tooth-wheel-extra-alike",
                false => "tooth-wheel-extra",
            };
            out.add(about("tooth-wheel", message, doubled).arg("turns", turns));
        }
        // Whoever states that none is missing has counted the teeth.
        Some(_) => out.add(
            about("sensor-fault", "sensor-doubled-teeth", doubled)
                .arg("turns", turns)
                .limit(at_most(0, "a tooth gives one pulse"))
                .grade(Grade::Abnormal),
        ),
        None => {}
    }
    doubled > 0
}

/// Share of the edges that come back from which on two edges of a tooth are bounces as well, wherever they come.
const BOUNCING: f64 = 0.05;

/// Teeth that give two edges, each on every turn.
fn doubled_teeth(train: &ToothTrain) -> u32 {
    let bounces = train.glitches as f64 > BOUNCING * train.edges.len() as f64;
    let Some(ring) = average_ring(train).filter(|_| !bounces) else {
        return 0;
    };
    let whole = ring.doubled.round();
    match whole >= 1.0 && (ring.doubled / whole - 1.0).abs() < EVERY_TURN {
        true => whole as u32,
        false => 0,
    }
}

fn at_most(count: u32, source: &str) -> Limit {
    Limit {
        low: None,
        high: Some(f64::from(count)),
        unit: "count".into(),
        source: source.into(),
    }
}
