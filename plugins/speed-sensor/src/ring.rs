//! The ring of teeth, place by place: teeth that are missing, broken off, doubled or displaced, and run-out.

use crate::LIMITS;
use crate::sensors::{self, Law, Place, Sensor};
use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::{
    PatternKind, Ring, Segment, TurnBasis, average_ring, pitch_runout, stubs,
};
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Limit, Limits, Observation, Output};

/// Arguments of a fault of the ring.
const RING: &[&str] = &[
    "positions",
    "turns",
    "missing",
    "broken",
    "doubled",
    "displaced",
];

/// The analyzer.
pub struct ToothRing;

impl Analyzer for ToothRing {
    const DECLARATION: Declaration = Declaration {
        id: "tooth-ring",
        name: "Ring of teeth",
        needs: sensors::NEEDS,
        uses: &[sensors::ENGINE],
        inputs: crate::TRAINS,
        kinds: &[("tooth-fault", "count"), ("ring-runout", "%")],
        messages: &[
            ("tooth-fault-none", RING),
            ("tooth-fault-none-seen", &["positions"]),
            ("tooth-fault", RING),
            ("tooth-fault-unstated", RING),
            ("tooth-fault-unequal", &[]),
            ("tooth-fault-not-tested", &[]),
            ("ring-runout-amplitude", &["turns"]),
            ("ring-runout-pitch", &["turns"]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        for sensor in sensors::read(input) {
            if !sensor.is_own() || !sensor.rotates() {
                continue;
            }
            let Some(segment) = sensor.longest() else {
                continue;
            };
            let ring = average_ring(&sensor.train).filter(|_| is_fine(segment));
            teeth(&sensor, segment, ring.as_ref(), out);
            runout(&sensor, segment, ring.as_ref(), &limits, out);
        }
        Ok(())
    }
}

/// Samples a pitch below which a tooth cannot be judged on its own.
const LEAST_SAMPLES: f64 = 6.0;

fn is_fine(segment: &Segment) -> bool {
    segment
        .motion
        .is_some_and(|m| m.samples_per_pitch >= LEAST_SAMPLES)
}

/// Faults of a ring by their kind, teeth per turn.
#[derive(Debug, Default, Clone, Copy, PartialEq)]
struct Faults {
    missing: u32,
    broken: u32,
    doubled: u32,
    displaced: u32,
}

impl Faults {
    fn sum(&self) -> u32 {
        self.missing + self.broken + self.doubled + self.displaced
    }
}

/// Finding on the teeth of a ring.
enum Finding {
    /// Beyond the ring's own pattern: so many, none mostly.
    Faults(Faults),
    /// Places without a tooth that the ring may have been made with.
    Unstated(Faults),
    /// Pitches that repeat unequally on a ring that should be even, none so far off that its tooth is named.
    Unequal,
    /// No single tooth could be judged.
    NotTested,
}

fn teeth(sensor: &Sensor<'_>, segment: &Segment, ring: Option<&Ring>, out: &mut Output) {
    let about = |message: &str| {
        Observation::new("tooth-fault", message)
            .about(sensor.role())
            .span(segment.start_s, segment.end_s)
    };
    if let Some(positions) = unknown_but_even(sensor, segment) {
        out.add(
            about("tooth-fault-none-seen")
                .value(0.0, 0.0, "count")
                .limit(as_made(sensor))
                .arg("positions", positions),
        );
        return;
    }
    let found = match ring {
        Some(ring) => judge(sensor, ring),
        None => unequal(sensor, segment),
    };
    let pattern = &sensor.train.wheel.pattern;
    let may_lack = sensor.place != Place::Engine
        && sensor.stated_missing().is_none()
        && pattern.kind == PatternKind::Gaps;
    let found = match found {
        // A gap that no tooth could be judged beside is there all the same.
        Finding::NotTested if may_lack => Finding::Unstated(Faults {
            missing: pattern.missing,
            ..Faults::default()
        }),
        found => found,
    };
    let turns = ring.map_or(sensor.train.wheel.pattern.cycles, |r| r.turns);
    // Teeth are counted; every place was averaged over the turns.
    let counted = |message: &str, f: Faults| {
        about(message)
            .value(f64::from(f.sum()), 0.0, "count")
            .limit(as_made(sensor))
            .arg(
                "positions",
                sensor.train.wheel.positions_per_turn().unwrap_or(0),
            )
            .arg("turns", turns)
            .arg("missing", f.missing)
            .arg("broken", f.broken)
            .arg("doubled", f.doubled)
            .arg("displaced", f.displaced)
    };
    out.add(match found {
        Finding::Faults(f) if f.sum() > 0 => counted("tooth-fault", f).grade(Grade::Abnormal),
        Finding::Faults(f) => counted("tooth-fault-none", f),
        Finding::Unstated(f) => counted("tooth-fault-unstated", f).grade(Grade::Unusable),
        Finding::Unequal => about("tooth-fault-unequal").grade(Grade::Unusable),
        Finding::NotTested => about("tooth-fault-not-tested").grade(Grade::NotTested),
    });
}

fn as_made(sensor: &Sensor<'_>) -> Limit {
    let source = match sensor.stated_missing() {
        Some(_) => "missing_teeth, as stated: nothing beyond it",
        None if sensor.place == Place::Wheel => {
            "rings of road wheels are even; common practice, no source"
        }
        None => "one pulse for each tooth that the ring was made with",
    };
    Limit {
        low: None,
        high: Some(0.0),
        unit: "count".into(),
        source: source.into(),
    }
}

/// Positions over which a ring of unknown count must be even: three turns of a ring of 100.
const UNKNOWN_POSITIONS: u32 = 300;

/// Positions passed without any irregularity where the count per turn is not known: no tooth of any ring is then missing.
fn unknown_but_even(sensor: &Sensor<'_>, segment: &Segment) -> Option<u32> {
    let train = &sensor.train;
    let passed = segment.motion?.positions;
    let edges = train.edges_of(segment);
    let even = edges.iter().skip(1).all(|e| e.step == 1) && train.doubled == 0;
    let unknown = train.wheel.positions_per_turn().is_none();
    (unknown && even && is_fine(segment) && passed >= UNKNOWN_POSITIONS).then_some(passed)
}

/// Share of the turns in which a tooth is seen, between which a place is neither there nor missing.
const UNSURE: (f64, f64) = (0.15, 0.85);

/// Share of the places that may be so.
const MOST_UNSURE: f64 = 0.06;

/// Distance of a tooth's pitch from its neighbours' from which on it is displaced.
const DISPLACED: f64 = 0.18;

/// Share of the amplitude from which on a gap holds the rest of a tooth, and what noise must leave of it.
const STUB: f64 = 0.06;
const ABOVE_NOISE: f64 = 5.0;

fn judge(sensor: &Sensor<'_>, ring: &Ring) -> Finding {
    let train = &sensor.train;
    let turns = f64::from(ring.turns);
    let unsure = ring.places.iter().filter(|p| {
        let share = f64::from(p.seen) / turns;
        (UNSURE.0..UNSURE.1).contains(&share)
    });
    let smeared = unsure.count() as f64 > (MOST_UNSURE * ring.places.len() as f64).max(2.0);
    let contradicted = matches!(train.wheel.positions, Some((_, TurnBasis::Contradicted)));
    if smeared || contradicted {
        return Finding::NotTested;
    }
    let pattern = &train.wheel.pattern;
    let even_ring = sensor.place != Place::Engine && sensor.stated_missing().is_none();
    if even_ring && pattern.kind == PatternKind::Gaps && ring.missing == 0 {
        return Finding::Unequal;
    }
    let engine = sensor.place == Place::Engine;
    let stated = sensor.stated_missing();
    // Noise that is counted in the mark of a slow ring is no rest of a tooth.
    let mark = stated.unwrap_or(if engine { pattern.missing } else { 0 });
    let noise = mark.saturating_sub(ring.missing);
    let mut faults = Faults {
        broken: if sensor.law == Law::Coil {
            ring.weak.saturating_sub(noise)
        } else {
            0
        },
        doubled: doubled(sensor, ring),
        displaced: if engine { 0 } else { displaced(ring) },
        missing: 0,
    };
    if let Some(stated) = stated {
        // Beyond its mark a ring lacks a tooth where a place is empty on every turn: an engine's speed changes within the
        // mark, and where positions were miscounted in some turns, places beside it are half empty.
        let places = ring.places.iter();
        let empty = places.filter(|p| f64::from(p.seen) < UNSURE.0 * turns);
        faults.missing = (empty.count() as u32).saturating_sub(stated);
        return Finding::Faults(faults);
    }
    // An engine's gap is its mark, whatever the speed that changes within it leaves there.
    let broken = match sensor.law {
        Law::Coil if !engine => broken_off(sensor).min(ring.missing),
        _ => 0,
    };
    let clean = ring.missing - broken;
    faults.broken += broken;
    match sensor.place {
        Place::Engine => {}
        Place::Wheel => faults.missing = clean,
        Place::Shaft if clean > 0 && may_be_a_mark(ring, clean) => {
            faults.missing = clean;
            return match faults.sum() == clean {
                true => Finding::Unstated(faults),
                false => Finding::Faults(faults),
            };
        }
        Place::Shaft => faults.missing = clean,
    }
    Finding::Faults(faults)
}

/// Counts of rings that mark a position by a gap: those that the cylinders of an engine divide. Common practice, no source.
const MARKED: [usize; 14] = [4, 6, 8, 12, 16, 18, 20, 24, 30, 32, 36, 60, 90, 120];

/// True where a gap may be the ring's own mark of a position.
fn may_be_a_mark(ring: &Ring, missing: u32) -> bool {
    MARKED.contains(&ring.places.len()) || missing > 1
}

/// Gaps that hold the rest of a tooth.
fn broken_off(sensor: &Sensor<'_>) -> u32 {
    let all = stubs(&sensor.channel.values(), sensor.channel.time, &sensor.train);
    let left = all
        .iter()
        .filter(|s| s.turns >= 3 && s.share > STUB && s.share > ABOVE_NOISE * s.noise);
    left.count() as u32
}

/// Positions up to which a ring may be made with one pulse more (12 plus 1, 24 plus 1); those of wheels and gearboxes have
/// more. Common practice, no source.
const MOST_WITH_EXTRA: usize = 24;

/// Teeth that give two pulses at the same place on every turn.
fn doubled(sensor: &Sensor<'_>, ring: &Ring) -> u32 {
    const EVERY_TURN: f64 = 0.1;
    let pattern = &sensor.train.wheel.pattern;
    if sensor.place == Place::Engine || ring.places.len() <= MOST_WITH_EXTRA {
        return 0;
    }
    let whole = ring.doubled.round();
    let in_place = pattern.kind == PatternKind::Extra;
    let every_turn = whole >= 1.0 && (ring.doubled / whole - 1.0).abs() < EVERY_TURN;
    match in_place && every_turn {
        true => whole as u32,
        false => 0,
    }
}

/// Positions below which a ring's teeth may be unequal by design.
const LEAST_EVEN: usize = 12;

/// Least distance of a pitch of the averaged ring from its neighbours' that tells a displaced tooth, and the same in standard
/// deviations of all pitches. A coil may be read at the middle of its teeth, where a tooth that stands off by a quarter of a
/// pitch moves two pitches by that, or between them, where it moves two by half of it. Rings are made to some percent (common
/// practice, no source).
const OFF: (f64, f64) = (0.09, 5.0);

/// Teeth that stand off their place: the pitches around one displaced tooth count once.
fn displaced(ring: &Ring) -> u32 {
    let n = ring.places.len();
    if n < LEAST_EVEN {
        return 0;
    }
    let own: Vec<f64> = ring.places.iter().map(|p| p.pitch).collect();
    let pitches: Vec<f64> = own.iter().copied().filter(|p| p.is_finite()).collect();
    let usual = stats::median_abs_deviation(&pitches).map_or(0.0, |mad| 1.4826 * mad);
    let least = OFF.0.max(OFF.1 * usual);
    // Beside a tooth that is missing the others' pitch is not their own.
    let beside = |k: usize| (k + n - 2..=k + n + 2).any(|j| own[j % n].is_nan());
    let off = |k: usize| (own[k % n] - 1.0).abs() > least && !beside(k % n);
    let begins = |&k: &usize| off(k) && !(1..=AROUND).any(|d| off(k + n - d));
    (0..n).filter(begins).count() as u32
}

/// Pitches that one displaced tooth moves.
const AROUND: usize = 3;

/// Share of unequal pitches up to which they are faults of an even ring.
const MOST_ODD: f64 = 0.15;

/// A ring whose pitches repeat unequally: a few odd ones on a ring of many teeth are damage, on an engine's they are its
/// pattern.
fn unequal(sensor: &Sensor<'_>, segment: &Segment) -> Finding {
    let pattern = &sensor.train.wheel.pattern;
    let n = pattern.pitches.len();
    let whole = sensor.train.wheel.positions_per_turn() == Some(pattern.positions);
    if pattern.kind != PatternKind::Uneven || !whole || n < LEAST_EVEN || !is_fine(segment) {
        return Finding::NotTested;
    }
    if sensor.place == Place::Engine {
        return Finding::NotTested;
    }
    let odd: Vec<bool> = pattern
        .pitches
        .iter()
        .map(|p| (p - 1.0).abs() > DISPLACED)
        .collect();
    let share = odd.iter().filter(|o| **o).count() as f64 / n as f64;
    let begins = |k: &usize| odd[*k] && !odd[(k + n - 1) % n];
    let clusters = (0..n).filter(begins).count() as u32;
    match share <= MOST_ODD && clusters > 0 {
        true => Finding::Faults(Faults {
            displaced: clusters,
            ..Faults::default()
        }),
        false if clusters == 0 => Finding::Unequal,
        false => Finding::NotTested,
    }
}

/// Share of the limit above which a standard uncertainty tells nothing of which side of it a run-out lies on.
const PRECISE: f64 = 0.15;

fn runout(
    sensor: &Sensor<'_>,
    segment: &Segment,
    ring: Option<&Ring>,
    limits: &Limits<'_>,
    out: &mut Output,
) {
    let mut add = |message: &str, limit: &str, percent: f64, uncertainty: f64, turns: u32| {
        let high = limits.high(limit);
        let grade = if percent - 2.0 * uncertainty > high {
            Grade::Abnormal
        } else if percent + 2.0 * uncertainty < high {
            Grade::Normal
        } else if uncertainty > PRECISE * high {
            Grade::NotTested
        } else {
            Grade::Unusable
        };
        out.add(
            Observation::new("ring-runout", message)
                .about(sensor.role())
                .span(segment.start_s, segment.end_s)
                .value(percent, uncertainty, "%")
                .limit(limits.limit(limit))
                .arg("turns", turns)
                .grade(grade),
        );
    };
    if let Some(ring) = ring.filter(|_| sensor.law == Law::Coil && !sensor.clamped) {
        let percent = ring.amplitude_runout;
        add(
            "ring-runout-amplitude",
            "ring-runout-amplitude",
            percent,
            scatter_of_places(ring),
            ring.turns,
        );
    }
    // The crankshaft's own speed varies once a turn.
    let judged = sensor.place != Place::Engine && ring.is_some();
    if let Some(r) = pitch_runout(&sensor.train, segment).filter(|_| judged) {
        add(
            "ring-runout-pitch",
            "ring-runout-pitch",
            r.percent,
            r.uncertainty,
            r.turns,
        );
    }
}

/// Standard uncertainty of the first harmonic by the scatter from place to place, %: root of 2/n times the standard deviation
/// of one place, which is that of the differences of neighbours over the root of 2.
fn scatter_of_places(ring: &Ring) -> f64 {
    let pairs = ring.places.windows(2);
    let steps: Vec<f64> = pairs
        .map(|w| w[1].amplitude - w[0].amplitude)
        .filter(|d| d.is_finite())
        .collect();
    let n = steps.len().max(1) as f64;
    let variance = steps.iter().map(|d| d * d).sum::<f64>() / n / 2.0;
    100.0 * (2.0 * variance / n).sqrt()
}
