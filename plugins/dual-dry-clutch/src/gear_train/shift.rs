//! Shifts. No single standard defines a shift time; ours is stated: it starts when the engine first departs (by
//! 2 %) from the constant ratio to the output that it held, and ends when it first comes within 5 % of the other
//! input shaft, or of the next constant ratio where that shaft's speed is not known.

use crate::speeds::{SpeedTracks, constant_stretches, quotient};
use plugin_sdk::{Grade, Limits, Observation, Output};

/// Least length of a held ratio, grid points (0.3 s).
const LEAST: usize = 15;

/// One shift, as grid indices.
#[derive(Debug, Clone, Copy)]
pub struct Shift {
    pub from: usize,
    pub to: usize,
    /// Input shaft (0 or 1) that carried before; `None` when neither matches.
    pub old: Option<usize>,
    /// Engine per output speed before and, where it settles, after.
    pub ratio_before: f64,
}

impl Shift {
    /// The shaft that carries afterwards.
    pub fn new_shaft(&self) -> Option<usize> {
        self.old.map(|s| 1 - s)
    }
}

/// Engine speed per output speed; `None` when either was not recorded.
pub fn engine_ratio(tracks: &SpeedTracks) -> Option<Vec<f64>> {
    Some(quotient(tracks.engine.as_ref()?, tracks.output.as_ref()?))
}

/// The shaft whose speed the engine's matches over a stretch (within 3 %, median).
pub fn carrier(tracks: &SpeedTracks, from: usize, to: usize) -> Option<usize> {
    let engine = tracks.engine.as_ref()?;
    (0..2).find(|&s| {
        tracks.input[s].as_ref().is_some_and(|x| {
            let off: Vec<f64> = (from..=to)
                .map(|k| (x[k] / engine[k] - 1.0).abs())
                .collect();
            plugin_sdk::signal::stats::median(&off).is_some_and(|m| m < 0.03)
        })
    })
}

/// Finds the shifts from the engine's ratio to the output; a clutch actuation (start and end, s) bounds the start
/// from below, and stands for a shift of its own where the engine held no ratio before it, as with a slipping
/// clutch.
pub fn find(tracks: &SpeedTracks, actuations: &[(f64, f64)]) -> Vec<Shift> {
    let (Some(ratio), Some(engine)) = (engine_ratio(tracks), tracks.engine.as_ref()) else {
        return Vec::new();
    };
    let held = constant_stretches(&ratio, 0.02, LEAST);
    let mut shifts: Vec<Shift> = Vec::new();
    for (n, &((from, last), before)) in held.iter().enumerate() {
        let old = carrier(tracks, from, last).or_else(|| {
            // The carrying shaft slips or its sensor is dead: then it is the one that the last shift led to.
            shifts.last().and_then(Shift::new_shaft).or_else(|| {
                // Nearest from below, and plainly nearer than the other.
                let near = |s| excess(tracks, engine, s, last.saturating_sub(LEAST), last);
                let (a, b) = (near(0), near(1));
                (a.min(b) < 0.35 && a.min(b) < 0.6 * a.max(b)).then_some(usize::from(b < a))
            })
        });
        let next = held.get(n + 1).copied();
        let until = next.map_or(ratio.len(), |((b, _), _)| b + 1);
        let target = old.and_then(|s| tracks.input[1 - s].as_ref());
        let end = (last + 1..until).find(|&k| {
            let by_shaft = target.is_some_and(|x| (engine[k] / x[k] - 1.0).abs() < 0.05);
            let by_ratio = next.is_some_and(|(_, after)| {
                (after / before - 1.0).abs() > 0.1 && (ratio[k] / after - 1.0).abs() < 0.05
            });
            by_shaft || (by_ratio && target.is_none_or(|x| x[k].is_nan()))
        });
        if let Some(to) = end.filter(|&e| (ratio[e] / before - 1.0).abs() > 0.1) {
            let began = actuations
                .iter()
                .map(|a| tracks.index(a.0))
                .filter(|&k| k > last && k < to)
                .min()
                .unwrap_or(last);
            shifts.push(Shift {
                from: began,
                to,
                old,
                ratio_before: before,
            });
        }
    }
    for (n, &(start_s, end_s)) in actuations.iter().enumerate() {
        let next = actuations
            .get(n + 1)
            .map_or(engine.len(), |a| tracks.index(a.0));
        shifts.extend(by_actuation(
            tracks,
            engine,
            &ratio,
            &shifts,
            (start_s, end_s),
            next,
        ));
    }
    shifts.sort_by_key(|s| s.from);
    shifts
}

/// The shift of a clutch actuation that no held ratio showed. Moving off is none: the output must turn before it.
fn by_actuation(
    tracks: &SpeedTracks,
    engine: &[f64],
    ratio: &[f64],
    known: &[Shift],
    actuation: (f64, f64),
    next_from: usize,
) -> Option<Shift> {
    let (from, over) = (tracks.index(actuation.0), tracks.index(actuation.1));
    let half_second = (0.5 / crate::speeds::STEP_S) as usize;
    let margin = half_second / 2;
    if known
        .iter()
        .any(|s| s.from < over + 2 * margin && s.to + margin > from)
    {
        return None;
    }
    let before = from.checked_sub(2 * half_second)?;
    let off = |shaft: usize, a: usize, b: usize| excess(tracks, engine, shaft, a, b);
    let (first, second) = (off(0, before, from), off(1, before, from));
    if first.min(second).is_infinite() {
        return None;
    }
    let old = usize::from(second < first);
    let new = tracks.input[1 - old].as_ref()?;
    // The other shaft must be the nearer one once the change is over, else no gear changed. A slipping clutch takes
    // its time: look just before the next actuation.
    let late = (
        next_from.saturating_sub(half_second),
        next_from.saturating_sub(3),
    );
    let settled = off(1 - old, late.0, late.1);
    if settled >= off(old, late.0, late.1) {
        return None;
    }
    // The slip that stays is not part of the change.
    let near = (1.3 * settled + 0.01).max(0.05);
    let held = ratio.get(before..=from)?;
    let ratio_before = *held.iter().rev().find(|r| r.is_finite())?;
    let to = (from..late.1.min(engine.len()))
        .find(|&k| (engine[k] / new[k] - 1.0).abs() < near)
        .unwrap_or_else(|| (over + margin).min(engine.len() - 1));
    Some(Shift {
        from,
        to,
        old: Some(old),
        ratio_before,
    })
}

/// Excess (share, median) of the engine's speed above a shaft over a stretch; infinite where it runs below it, for a
/// clutch that carries, slipping or not, drives its shaft no faster than the engine.
fn excess(tracks: &SpeedTracks, engine: &[f64], shaft: usize, from: usize, to: usize) -> f64 {
    let Some(x) = &tracks.input[shaft] else {
        return f64::INFINITY;
    };
    let to = to.min(engine.len());
    let over: Vec<f64> = (from.min(to)..to).map(|k| engine[k] / x[k] - 1.0).collect();
    match plugin_sdk::signal::stats::median(&over) {
        Some(m) if m > -0.03 => m.abs(),
        _ => f64::INFINITY,
    }
}

pub fn observe(tracks: &SpeedTracks, shifts: &[Shift], limits: &Limits<'_>, out: &mut Output) {
    for s in shifts {
        let (a, b) = (tracks.at(s.from), tracks.at(s.to));
        let u = crate::speeds::STEP_S;
        let slow = b - a - 2.0 * u > limits.high("shift-time");
        let mut o = Observation::new("shift", "shift")
            .span(a, b)
            .value(b - a, u, "s")
            .limit(limits.limit("shift-time"))
            .arg("duration_s", ((b - a) * 1000.0).round() / 1000.0)
            .arg("ratio_before", (s.ratio_before * 1000.0).round() / 1000.0)
            .grade(if slow { Grade::Abnormal } else { Grade::Normal });
        if let Some(shaft) = s.new_shaft() {
            o = o.about(["input-shaft-1", "input-shaft-2"][shaft]);
        }
        out.add(o);
    }
}
