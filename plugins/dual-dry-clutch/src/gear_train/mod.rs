//! Gear train: ratios, shifts, slip, and two gears at once. Needs the output shaft.

mod ratio;
mod shift;
mod slip;
mod tie_up;

use crate::LIMITS;
use crate::clutch::actuations;
use crate::speeds::SpeedTracks;
use plugin_sdk::{Analyzer, Declaration, Input, Limits, Output};

/// The analyzer.
pub struct GearTrain;

impl Analyzer for GearTrain {
    const DECLARATION: Declaration = Declaration {
        id: "gear-train",
        name: "Gear train",
        needs: &["output-shaft", "input-shaft-1|input-shaft-2"],
        uses: &["engine-speed", "supply-current"],
        inputs: crate::PULSES_AND_TRAINS,
        kinds: &[
            ("gear-ratio", "1"),
            ("wrong-gear", "1"),
            ("shift", "s"),
            ("slip", "rpm"),
            ("double-engagement", "%"),
        ],
        messages: &[
            ("gear-ratio", &[]),
            ("gear-ratio-named", &["gear"]),
            ("wrong-gear", &["nearest"]),
            ("shift", &["duration_s", "ratio_before"]),
            ("slip", &["percent"]),
            ("slip-none", &["percent"]),
            ("double-engagement", &["duration_s"]),
            ("double-engagement-slight", &["duration_s"]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        let Some(tracks) = SpeedTracks::of(input) else {
            return Ok(());
        };
        ratio::observe(input, &tracks, out);
        let actuations = clutch_actuations(input, &limits);
        let shifts = shift::find(&tracks, &actuations);
        shift::observe(&tracks, &shifts, &limits, out);
        slip::observe(&tracks, &shifts, &limits, out);
        tie_up::observe(input, &tracks, &limits, out);
        Ok(())
    }
}

/// Clutch actuations in the feed current: start and end, s. Neighbours that follow each other within a fifth of a
/// second belong to one shift.
fn clutch_actuations(input: &Input<'_>, limits: &Limits<'_>) -> Vec<(f64, f64)> {
    let Some(feed) = input.channel("supply-current") else {
        return Vec::new();
    };
    let Some(record) = input.pulses(feed.role) else {
        return Vec::new();
    };
    let mut out: Vec<(f64, f64)> = Vec::new();
    for h in actuations(feed, &record, limits) {
        match out.last_mut().filter(|l| h.start_s - l.1 < 0.2) {
            Some(last) => last.1 = h.end_s,
            None => out.push((h.start_s, h.end_s)),
        }
    }
    out
}
