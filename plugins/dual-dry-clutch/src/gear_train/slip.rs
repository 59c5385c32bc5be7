//! Clutch slip in a held gear: engine speed less the speed of the shaft that the applied clutch drives, rpm.
//!
//! Moving off is left out: there the clutch is meant to slip until the shaft has caught up with the engine. A gear
//! counts from the end of a shift into it to the next shift.

use super::shift::Shift;
use crate::speeds::{STEP_S, SpeedTracks};
use plugin_sdk::signal::stats;
use plugin_sdk::{Grade, Limits, Observation, Output};

/// Time left out after a shift, s: the clutch still closes.
const SETTLE_S: f64 = 0.3;

/// Time left out before a shift, s, and time that counts before that where the vehicle may just have moved off.
const BEFORE_SHIFT_S: f64 = 0.2;
const LAST_S: f64 = 1.2;

/// Shortest slip, s. Common practice, no source.
const LEAST_S: f64 = 0.8;

pub fn observe(tracks: &SpeedTracks, shifts: &[Shift], limits: &Limits<'_>, out: &mut Output) {
    let Some(engine) = &tracks.engine else { return };
    let settle = (SETTLE_S / STEP_S) as usize;
    if let Some((first, shaft)) = shifts.first().and_then(|s| Some((s, s.old?))) {
        // The gear before the first shift may hold the moving off: only its last second counts, and only when
        // the slip no longer falls there. Just before a shift the engine is throttled, and its slip with it.
        let to = first
            .from
            .saturating_sub((BEFORE_SHIFT_S / STEP_S) as usize);
        let from = to.saturating_sub((LAST_S / STEP_S) as usize);
        if !closing(tracks, engine, shaft, from, to) {
            gear(tracks, engine, shaft, from, to, limits, out);
        }
    }
    for (n, shift) in shifts.iter().enumerate() {
        let Some(shaft) = shift.new_shaft() else {
            continue;
        };
        let from = shift.to + settle;
        let to = shifts.get(n + 1).map_or(engine.len(), |s| s.from);
        gear(tracks, engine, shaft, from, to, limits, out);
    }
}

/// True where the engine still comes nearer to the shaft: the clutch is being let in.
fn closing(tracks: &SpeedTracks, engine: &[f64], shaft: usize, from: usize, to: usize) -> bool {
    let Some(speed) = &tracks.input[shaft] else {
        return false;
    };
    let t: Vec<f64> = (from..to).map(|k| tracks.at(k)).collect();
    let slip: Vec<f64> = (from..to).map(|k| engine[k] - speed[k]).collect();
    // 100 rpm a second brings a moving-off engine together with its shaft within seconds.
    stats::line_fit(&t, &slip).is_some_and(|l| l.slope < -100.0)
}

fn gear(
    tracks: &SpeedTracks,
    engine: &[f64],
    shaft: usize,
    from: usize,
    to: usize,
    limits: &Limits<'_>,
    out: &mut Output,
) {
    let Some(speed) = &tracks.input[shaft] else {
        return;
    };
    let to = to.max(from);
    let slip: Vec<f64> = (from..to).map(|k| engine[k] - speed[k]).collect();
    let finite = slip.iter().filter(|v| v.is_finite()).count();
    if (finite as f64) * STEP_S < LEAST_S {
        return;
    }
    let (Some(m), Some(mad)) = (stats::median(&slip), stats::median_abs_deviation(&slip)) else {
        return;
    };
    let e = stats::median(&engine[from..to]).unwrap_or(f64::NAN);
    // Two sensors read to about half a tooth over the grid interval; the slip's own variation is not an
    // uncertainty of its median.
    let u = (1.4826 * mad / (finite as f64).sqrt()).hypot(0.003 * e);
    let abnormal = m - 2.0 * u > limits.high("slip");
    out.add(
        Observation::new("slip", if abnormal { "slip" } else { "slip-none" })
            .about(["input-shaft-1", "input-shaft-2"][shaft])
            .span(tracks.at(from), tracks.at(to.saturating_sub(1)))
            .value(m, u, "rpm")
            .limit(limits.limit("slip"))
            .arg("percent", (1000.0 * m / e).round() / 10.0)
            .grade(if abnormal {
                Grade::Abnormal
            } else {
                Grade::Normal
            }),
    );
}
