//! Pulses that are not there: interruptions of a train that goes on, and silence while a second witness turns.

use crate::LIMITS;
use crate::amplitude::axle_twin;
use crate::sensors::{self, ENGINE, Law, Place, Sensor};
use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::{
    Dropout, Edge, Ending, ProofOfLife, Segment, SegmentKind, average_ring,
};
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Limit, Limits, Observation, Output};

/// The analyzer.
pub struct Interruptions;

impl Analyzer for Interruptions {
    const DECLARATION: Declaration = Declaration {
        id: "sensor-interruptions",
        name: "Interrupted and silent speed sensors",
        needs: sensors::NEEDS,
        uses: &[sensors::ENGINE],
        inputs: crate::TRAINS,
        kinds: &[("sensor-dropout", "count"), ("sensor-silent", "s")],
        messages: &[
            ("sensor-dropout-none", &[]),
            ("sensor-dropout-once", &["lost_s"]),
            ("sensor-dropout-twice", &["lost_s"]),
            ("sensor-breaks-off", &["lost_s"]),
            ("sensor-gone-silent", &["witness"]),
            ("sensor-silent-several", &["witness", "witnesses"]),
            ("sensor-silent-standing", &["witness"]),
            ("sensor-silent-driven", &["witness"]),
            ("sensor-silent-at-times", &["witness"]),
            ("sensor-no-pulse", &[]),
            ("sensor-no-pulse-alive", &[]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        let sensors = sensors::read(input);
        for sensor in sensors.iter().filter(|s| s.is_own()) {
            dropouts(sensor, out);
            silence(sensor, &sensors, input, &limits, out);
        }
        Ok(())
    }
}

/// Interruptions from which on a sensor is faulty whatever else: one may be a knocked probe. Common practice, no source.
const MANY: usize = 3;

/// Longest interruption over which a shaft that stopped could not have come back to its speed unnoticed, s; judgement.
const LONGEST_WITHOUT_PHASE_S: f64 = 1.0;

/// Samples a pitch from which on single pulses are trusted.
const TRUSTED_SAMPLES: f64 = 8.0;

/// Least time of turning in which interruptions would have shown, s.
const LEAST_TURNING_S: f64 = 1.0;

fn dropouts(sensor: &Sensor<'_>, out: &mut Output) {
    let train = &sensor.train;
    let Some(segment) = sensor.longest().filter(|_| sensor.rotates()) else {
        return;
    };
    let fine = segment
        .motion
        .is_some_and(|m| m.samples_per_pitch >= TRUSTED_SAMPLES);
    let ring = average_ring(train);
    // What a ring lacks at one place comes back on every turn.
    let of_ring = ring.is_some_and(|r| r.missing + r.weak > 0);
    let counts = |d: &&Dropout| {
        let short = d.end_s - d.start_s < LONGEST_WITHOUT_PHASE_S;
        let mark = sensor.place == Place::Engine && d.lost <= LARGEST_MARK;
        d.in_phase.unwrap_or(short) && !(of_ring && d.lost <= 2) && !mark
    };
    let within = train.dropouts.iter().filter(counts);
    let mut found: Vec<(f64, f64)> = within.map(|d| (d.start_s, d.end_s)).collect();
    if comes_back(sensor, &found) {
        found.clear();
    }
    found.extend(restarts(sensor));
    for span in breaks(sensor, LONG_BREAK, LEAST_HZ) {
        if !found.iter().any(|f| f.0 < span.1 && span.0 < f.1) {
            found.push(span);
        }
    }
    found.retain(|span| !locks(&train.edges, *span));
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    let turning: f64 = sensor.rotation().map(Segment::duration_s).sum();
    let about = |message: &str, from_s: f64, to_s: f64| {
        Observation::new("sensor-dropout", message)
            .about(sensor.role())
            .span(from_s, to_s)
            // Interruptions are counted: a count has no uncertainty.
            .value(found.len() as f64, 0.0, "count")
            .limit(Limit {
                low: None,
                high: Some(0.0),
                unit: "count".into(),
                source: "a wheel that turns on gives a pulse for every tooth".into(),
            })
    };
    let (Some(first), Some(last)) = (found.first(), found.last()) else {
        let shortest = match sensor.place {
            Place::Engine => LONG_BREAK,
            Place::Wheel | Place::Shaft => SHORT_BREAK,
        };
        let whole = breaks(sensor, shortest, 0.0).is_empty() && !pauses(sensor);
        if fine && turning >= LEAST_TURNING_S && whole {
            out.add(about("sensor-dropout-none", segment.start_s, segment.end_s));
        }
        return;
    };
    let lost: f64 = found.iter().map(|d| d.1 - d.0).sum();
    let (message, grade) = match found.len() {
        MANY.. => ("sensor-breaks-off", Grade::Abnormal),
        2 => ("sensor-dropout-twice", Grade::Abnormal),
        _ => ("sensor-dropout-once", Grade::Unusable),
    };
    out.add(
        about(message, first.0, last.1)
            .arg("lost_s", (lost * 100.0).round() / 100.0)
            .grade(grade),
    );
}

/// Largest gap of an engine's ring, positions.
const LARGEST_MARK: u32 = 4;

/// True where interruptions come back after the same number of teeth, as a ring's own gap does.
fn comes_back(sensor: &Sensor<'_>, found: &[(f64, f64)]) -> bool {
    let apart: Vec<f64> = found
        .windows(2)
        .filter_map(|w| {
            let hz = sensor.train.rate_at((w[0].1 + w[1].0) / 2.0, 0.0)?;
            Some((w[1].1 - w[0].1) * hz)
        })
        .collect();
    let Some(middle) = stats::median(&apart).filter(|_| apart.len() >= 4) else {
        return false;
    };
    let alike = apart.iter().filter(|d| (*d / middle - 1.0).abs() < 0.05);
    2 * alike.count() > apart.len()
}

/// Interruptions over which a train was taken apart: it ceases from speed and is back at about that speed within a second,
/// which no shaft does that stops.
fn restarts(sensor: &Sensor<'_>) -> Vec<(f64, f64)> {
    let segments: Vec<&Segment> = sensor.rotation().collect();
    let breaks = segments.windows(2).filter_map(|w| {
        let (before, after) = (w[0].motion?, w[1].motion?);
        let seconds = w[1].start_s - w[0].end_s;
        let alike = (0.6..1.6).contains(&(after.first_hz / before.last_hz));
        let long = seconds * before.last_hz > 6.0 && seconds < LONGEST_WITHOUT_PHASE_S;
        (before.ending == Ending::Sudden && alike && long).then_some((w[0].end_s, w[1].start_s))
    });
    breaks.collect()
}

/// Ratio of a pitch beside a break to those further away from which a wheel slows down into it: a brake that does not lock a
/// wheel changes it by some percent over so many teeth.
const LOCKS: f64 = 1.25;

/// Pitches next to a break, and further ones that they are held against.
const BESIDE: usize = 3;
const FURTHER: usize = 9;

/// True where a wheel slows down into a break and gathers speed after it, as one that locks under the brake does: a sensor that
/// is interrupted gives its last tooth and its first at full speed.
fn locks(edges: &[Edge], (from_s, to_s): (f64, f64)) -> bool {
    let pitches = |edges: &[Edge]| -> Vec<f64> {
        let steps = edges.windows(2).filter(|w| w[1].step > 0);
        let pitch = |w: &[Edge]| (w[1].at_s - w[0].at_s) / f64::from(w[1].step);
        steps.map(pitch).collect()
    };
    let slower = |beside: &[f64], further: &[f64]| {
        let both = stats::median(beside).zip(stats::median(further));
        both.is_some_and(|(near, far)| near > LOCKS * far)
    };
    let middle = edges.partition_point(|e| e.at_s < (from_s + to_s) / 2.0);
    let first = middle.saturating_sub(BESIDE + FURTHER + 1);
    let end = (middle + BESIDE + FURTHER + 1).min(edges.len());
    let (before, after) = (pitches(&edges[first..middle]), pitches(&edges[middle..end]));
    let (early, late) = before.split_at(before.len().saturating_sub(BESIDE));
    let (soon, later) = after.split_at(after.len().min(BESIDE));
    slower(late, early) && slower(soon, later)
}

/// Longest pause, s, over which a slow train may have been interrupted as well as have paused.
const LONGEST_PAUSE_S: f64 = 3.0;

/// True where a train stops and soon goes on at about its speed: a wheel that was turned by hand may have paused, or the
/// sensor was interrupted, and nobody can call it whole.
fn pauses(sensor: &Sensor<'_>) -> bool {
    let segments: Vec<&Segment> = sensor.rotation().collect();
    segments.windows(2).any(|w| {
        let motions = w[0].motion.zip(w[1].motion);
        let alike = motions.is_some_and(|(a, b)| (0.5..2.0).contains(&(b.first_hz / a.last_hz)));
        alike && w[1].start_s - w[0].end_s < LONGEST_PAUSE_S
    })
}

/// Least pitches of a break that no gap of a ring and no change of speed makes, and the tooth rate on either side, Hz, below
/// which a wheel that is turned by hand may have paused.
const LONG_BREAK: f64 = 6.0;
const LEAST_HZ: f64 = 40.0;

/// Ratio of the pitch next to a break to its neighbours up to which a wheel comes at full speed into the break and out of it, which no
/// hand and no brake makes it do.
const ABRUPT: f64 = 1.15;

/// Least pitches of a break beyond which nobody calls a wheel's train whole.
const SHORT_BREAK: f64 = 3.5;

/// Breaks of `least` pitches or more between teeth that come at about the same rate on either side, also while the speed changes,
/// where both come at `least_hz` or more, or at full speed up to the break and from it on.
fn breaks(sensor: &Sensor<'_>, least: f64, least_hz: f64) -> Vec<(f64, f64)> {
    const NEAR: usize = 4;
    // A second break nearby is none of the pitch.
    let pitch = |edges: &[Edge]| {
        let steps = edges.windows(2).filter(|w| w[1].step > 0);
        let pitches = steps.map(|w| (w[1].at_s - w[0].at_s) / f64::from(w[1].step));
        stats::median(&pitches.collect::<Vec<_>>())
    };
    let of_segment = |segment: &Segment| {
        let edges = sensor.train.edges_of(segment);
        // Near the ends of a train fewer teeth tell their rate.
        let breaks = (3..edges.len().saturating_sub(2)).filter_map(|k| {
            let (from, to) = (edges[k - 1].at_s, edges[k].at_s);
            let (before, after) = (
                pitch(&edges[k.saturating_sub(1 + NEAR)..k])?,
                pitch(&edges[k..=(k + NEAR).min(edges.len() - 1)])?,
            );
            let alike = (0.6..1.6).contains(&(after / before));
            let slowest = before.max(after);
            let long = to - from > least * slowest && to - from < LONGEST_WITHOUT_PHASE_S;
            let full_speed = |a: &Edge, b: &Edge, usual: f64| {
                b.step > 0 && b.at_s - a.at_s < ABRUPT * usual * f64::from(b.step)
            };
            let abrupt = full_speed(&edges[k - 2], &edges[k - 1], before)
                && full_speed(&edges[k], &edges[k + 1], after);
            (alike && long && (abrupt || slowest * least_hz < 1.0)).then_some((from, to))
        });
        breaks.collect::<Vec<_>>()
    };
    sensor.rotation().flat_map(of_segment).collect()
}

/// Least time of silence beside a witness, s; a wheel that locks under the brake is freed sooner.
const LEAST_SILENT_S: f64 = 1.0;

/// Speed of a witness that counts, rpm, and its tooth rate where the positions are not known, Hz.
const WITNESS_RPM: f64 = 30.0;
const WITNESS_HZ: f64 = 25.0;

/// Speed that the starter turns an engine with at least, rpm; common practice, no source.
const ENGINE_RPM: f64 = 100.0;

/// The same of a camshaft's few teeth.
const WITNESS_CAM_HZ: f64 = 3.0;

fn silence(
    sensor: &Sensor<'_>,
    all: &[Sensor<'_>],
    input: &Input<'_>,
    limits: &Limits<'_>,
    out: &mut Output,
) {
    let pulsed = sensor.train.turning().next().is_some();
    let unreadable = |s: &Segment| matches!(s.kind, SegmentKind::Unreadable(_));
    if sensor.train.segments.iter().any(unreadable) {
        return;
    }
    let mut seen: Vec<(&Sensor<'_>, Silence)> = witnesses(sensor, all)
        .filter_map(|w| Some((w, silent_beside(sensor, w, input, limits)?)))
        .filter(|(_, s)| s.seconds >= LEAST_SILENT_S)
        .collect();
    seen.sort_by(|a, b| b.1.seconds.total_cmp(&a.1.seconds));
    let Some((witness, longest)) = seen.first() else {
        if !pulsed {
            no_pulse(sensor, out);
        }
        return;
    };
    if toggles(sensor, longest) {
        return;
    }
    let by_hand = input
        .settings
        .engine
        .as_ref()
        .is_some_and(|e| e.value == "off");
    let twin = axle_twin(sensor.role());
    let beside_twin = seen.len() > 1 && seen.iter().any(|(w, _)| Some(w.role()) == twin);
    let (message, grade) = if pulsed {
        ("sensor-silent-at-times", Grade::Abnormal)
    } else if sensor.place == Place::Engine {
        ("sensor-silent-driven", Grade::Abnormal)
    } else if silent_wheels(all) > 1 {
        ("sensor-silent-standing", Grade::Unusable)
    } else if beside_twin {
        ("sensor-silent-several", Grade::Abnormal)
    } else if by_hand && seen.len() < 2 {
        // With the engine off one wheel is turned by hand, and the other rests.
        no_pulse(sensor, out);
        return;
    } else {
        ("sensor-gone-silent", Grade::Abnormal)
    };
    let mut o = Observation::new("sensor-silent", message)
        .about(sensor.role())
        .span(longest.start_s, longest.end_s)
        // Known to a point of the grid at either end.
        .value(longest.seconds, longest.step_s / 6f64.sqrt(), "s")
        .arg("witness", witness.role())
        .grade(grade);
    if message == "sensor-silent-several" {
        o = o.arg("witnesses", seen.len());
    }
    out.add(o);
}

/// Share of the samples that a switch stands at each of its levels at least, and between them at most; and its fewest changes.
const AT_A_LEVEL: f64 = 0.03;
const BETWEEN: f64 = 0.02;
const FEWEST_CHANGES: usize = 4;

/// True for a sensor that switches between two levels, too seldom or too unevenly to be a train: spikes on a dead line stand at none.
fn toggles(sensor: &Sensor<'_>, silence: &Silence) -> bool {
    let channel = sensor.channel;
    let at = |t: f64| channel.time.index_at(t, channel.len());
    let x = channel.part(at(silence.start_s)..at(silence.end_s));
    let quantile = |q| stats::sampled_quantile(&x, q, 100_000).unwrap_or(0.0) as f32;
    let (low, high) = (quantile(0.01), quantile(0.99));
    let place = |v: &f32| (v - low) / (high - low).max(f32::MIN_POSITIVE);
    let share = |from: f32, to: f32| {
        let within = x.iter().filter(|v| (from..to).contains(&place(v))).count();
        within as f64 / x.len().max(1) as f64
    };
    let levels = share(-1.0, 0.25).min(share(0.75, 2.0)) > AT_A_LEVEL;
    let mut is_high = x.first().is_some_and(|v| place(v) > 0.5);
    let changes = x.iter().filter(|v| {
        let now = if is_high {
            place(v) > 0.25
        } else {
            place(v) > 0.75
        };
        std::mem::replace(&mut is_high, now) != now
    });
    let switches = sensor.law != Law::Coil && levels && share(0.25, 0.75) < BETWEEN;
    switches && changes.count() >= FEWEST_CHANGES
}

/// Wheels without a pulse. On a lift those of the axle that nothing drives stand still, and behind a differential one of the
/// other two: several silent wheels are no proof against any of them.
fn silent_wheels(all: &[Sensor<'_>]) -> usize {
    let silent = |s: &&Sensor<'_>| {
        let mut turning = s.train.turning();
        s.place == Place::Wheel && s.is_own() && turning.next().is_none()
    };
    all.iter().filter(silent).count()
}

/// No pulse, and nobody who says that the shaft turned.
fn no_pulse(sensor: &Sensor<'_>, out: &mut Output) {
    let Some((from_s, to_s)) = sensor.channel.span() else {
        return;
    };
    let message = match sensor.train.alive {
        ProofOfLife::Quiescent(_) => "sensor-no-pulse-alive",
        _ => "sensor-no-pulse",
    };
    out.add(
        Observation::new("sensor-silent", message)
            .about(sensor.role())
            .span(from_s, to_s)
            .value(to_s - from_s, 0.0, "s")
            .grade(Grade::NotTested),
    );
}

/// Sensors whose shaft cannot turn for long without this one's: the other wheels of a vehicle that drives, crankshaft and
/// camshaft of one engine.
fn witnesses<'s, 'a>(
    sensor: &'s Sensor<'a>,
    all: &'s [Sensor<'a>],
) -> impl Iterator<Item = &'s Sensor<'a>> {
    let fits = |other: &Sensor<'_>| match sensor.place {
        Place::Wheel => other.place == Place::Wheel,
        Place::Engine => other.place == Place::Engine || other.role() == ENGINE,
        Place::Shaft => false,
    };
    let others = all.iter().filter(|o| o.role() != sensor.role());
    others.filter(move |o| fits(o) && o.rotates())
}

/// Silence of a sensor while another turns.
struct Silence {
    start_s: f64,
    end_s: f64,
    seconds: f64,
    step_s: f64,
}

fn silent_beside(
    sensor: &Sensor<'_>,
    witness: &Sensor<'_>,
    input: &Input<'_>,
    limits: &Limits<'_>,
) -> Option<Silence> {
    let own = input.tooth_rate(sensor.role())?;
    let grid = own.grid?;
    let own = own.numbers("rate")?;
    let at = |k: usize| grid.start_s + k as f64 * grid.step_s;
    let silent: Vec<usize> = (0..own.len())
        .filter(|&k| own[k].is_nan())
        .filter(|&k| {
            let its = turns_at(witness, at(k));
            its.is_some_and(|hz| would_show(sensor, witness, at(k), hz, limits))
        })
        .filter(|&k| breaks_off(sensor, at(k)))
        .collect();
    let (first, last) = (*silent.first()?, *silent.last()?);
    Some(Silence {
        start_s: at(first),
        end_s: at(last),
        seconds: silent.len() as f64 * grid.step_s,
        step_s: grid.step_s,
    })
}

/// Tooth rate of a witness that turns fast enough at an instant, Hz.
fn turns_at(witness: &Sensor<'_>, t: f64) -> Option<f64> {
    let segment = witness
        .rotation()
        .find(|s| s.start_s <= t && t <= s.end_s)?;
    let hz = witness
        .train
        .rate_at(t, 0.1)
        .or(segment.motion.map(|m| m.hz))?;
    let turns = match (witness.train.wheel.positions_per_turn(), witness.place) {
        (Some(n), _) => hz * 60.0 / f64::from(n) >= WITNESS_RPM,
        (None, Place::Engine) => hz >= WITNESS_CAM_HZ,
        (None, _) => hz >= WITNESS_HZ,
    };
    turns.then_some(hz)
}

/// True where a sensor that pulsed before ceased from speed, or never pulsed: a shaft that slows down to rest is no silence.
fn breaks_off(sensor: &Sensor<'_>, t: f64) -> bool {
    let before = sensor.train.turning().filter(|s| s.end_s <= t).last();
    match before.and_then(|s| s.motion) {
        Some(motion) => motion.ending == Ending::Sudden,
        None => sensor.train.turning().next().is_none(),
    }
}

/// True where a sound sensor would have been seen at the witness's speed.
fn would_show(
    sensor: &Sensor<'_>,
    witness: &Sensor<'_>,
    t: f64,
    witness_hz: f64,
    limits: &Limits<'_>,
) -> bool {
    /// Amplitude over the smallest that would have been seen.
    const MARGIN: f64 = 1.5;
    if sensor.law != Law::Coil {
        return true;
    }
    let segments = &sensor.train.segments;
    let segment = segments.iter().find(|s| s.start_s <= t && t <= s.end_s);
    let signal = &sensor.train.signal;
    // The critical value of an edge and what noise takes from it.
    let plain = signal.threshold + 3.0 * signal.noise.unwrap_or(0.0);
    let detectable = segment
        .and_then(|s| s.capability)
        .map_or(plain, |c| c.amplitude);
    if !sensor.channel.facts.calibrated {
        return false;
    }
    let rpm = match witness.train.wheel.positions_per_turn() {
        Some(n) => witness_hz * 60.0 / f64::from(n),
        None => ENGINE_RPM,
    };
    // A camshaft turns half as fast as its crankshaft.
    let slower = if sensor.place == Place::Engine {
        0.5
    } else {
        1.0
    };
    let by_limit = 2.0 * limits.low("coil-amplitude") * slower * rpm / 100.0;
    // Of two coils on one vehicle the weaker gives a quarter of the other at least.
    let twin = witness.train.amplitude_law.filter(|_| {
        let alike = sensor.place == Place::Wheel && witness.law == Law::Coil;
        alike && witness.channel.facts.calibrated
    });
    let by_twin = twin.map_or(0.0, |law| law.per_hz * witness_hz / 4.0);
    by_limit.max(by_twin) > MARGIN * detectable
}
