//! Shifts. No single standard defines a shift time; ours is stated: it starts when the engine first departs (by
//! 2 %) from the constant ratio to the output that it held, and ends when it first comes within 5 % of the other
//! input shaft, or of the next constant ratio where that shaft's speed is not known.

use plugin_sdk::measure::Spec;
use plugin_sdk::measure::tracks::{SpeedTracks, constant_stretches, quotient};
use plugin_sdk::{Grade, Observation, Output};

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
            let off: Vec<f64> = (from..=to).map(|k| (x[k] / engine[k] - 1.0).abs()).collect();
            plugin_sdk::signal::stats::median(&off).is_some_and(|m| m < 0.03)
        })
    })
}

pub fn find(tracks: &SpeedTracks) -> Vec<Shift> {
    let (Some(ratio), Some(engine)) = (engine_ratio(tracks), tracks.engine.as_ref()) else {
        return Vec::new();
    };
    let held = constant_stretches(&ratio, 0.02, LEAST);
    let mut shifts = Vec::new();
    let mut carried: Option<usize> = None;
    for (n, &((from, last), before)) in held.iter().enumerate() {
        // The carrying shaft's sensor may be dead: then it is the one that did not carry before.
        let old = carrier(tracks, from, last).or_else(|| {
            let other = carried.map(|s| 1 - s)?;
            tracks.input[other].as_ref().is_none_or(|x| x.iter().all(|v| v.is_nan())).then_some(other)
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
        let changed = end.is_some_and(|e| (ratio[e] / before - 1.0).abs() > 0.1);
        carried = old.or(carried);
        if let Some(to) = end.filter(|_| changed) {
            shifts.push(Shift { from: last, to, old, ratio_before: before });
        }
    }
    shifts
}

pub fn observe(tracks: &SpeedTracks, shifts: &[Shift], spec: &Spec<'_>, out: &mut Output) {
    for s in shifts {
        let (a, b) = (tracks.at(s.from), tracks.at(s.to));
        let u = plugin_sdk::measure::tracks::STEP_S;
        let slow = b - a - 2.0 * u > spec.high("shift-time");
        let mut o = Observation::new("shift", "shift")
            .span(a, b)
            .value(b - a, u, "s")
            .limit(spec.limit("shift-time"))
            .arg("duration_s", ((b - a) * 1000.0).round() / 1000.0)
            .arg("ratio_before", (s.ratio_before * 1000.0).round() / 1000.0)
            .grade(if slow { Grade::Abnormal } else { Grade::Normal });
        if let Some(shaft) = s.new_shaft() {
            o = o.about(["input-shaft-1", "input-shaft-2"][shaft]);
        }
        out.add(o);
    }
}
