//! Gear train: ratios, shifts, slip, and two gears at once. Needs the output shaft.

mod ratio;
mod shift;
mod slip;
mod tie_up;

use plugin_sdk::measure::tracks::{SPEEDS, SpeedTracks};
use plugin_sdk::measure::{Spec, current_record, is_clutch_hit};
use plugin_sdk::{Analyzer, Descriptor, Input, Output, Scope};

/// The plugin.
pub struct GearTrain;

impl Analyzer for GearTrain {
    const DESCRIPTOR: Descriptor = Descriptor {
        id: "gear-train",
        name: "Gear train",
        version: env!("CARGO_PKG_VERSION"),
        vendor: "baybrief",
        scope: Scope::Capture,
        needs: &["output-shaft", "input-shaft-1|input-shaft-2"],
        uses: &["engine-speed", "supply-current"],
    };
    const TAKES: &'static [&'static str] = SPEEDS;

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let spec = Spec(&input.settings.spec);
        let Some(tracks) = SpeedTracks::of(input) else {
            return Ok(());
        };
        ratio::observe(input, &tracks, out);
        let actuations = clutch_actuations(input, &spec);
        let shifts = shift::find(&tracks, &actuations);
        shift::observe(&tracks, &shifts, &spec, out);
        slip::observe(&tracks, &shifts, &spec, out);
        tie_up::observe(input, &tracks, &spec, out);
        Ok(())
    }
}

/// Clutch actuations in the feed current: start and end, s. Neighbours that follow each other within a fifth of a
/// second belong to one shift.
fn clutch_actuations(input: &Input<'_>, spec: &Spec<'_>) -> Vec<(f64, f64)> {
    let Some(feed) = input.channel("supply-current") else {
        return Vec::new();
    };
    let Some(record) = current_record(feed, spec) else {
        return Vec::new();
    };
    let mut out: Vec<(f64, f64)> = Vec::new();
    for h in record.hits.iter().filter(|h| !h.stalled) {
        if !is_clutch_hit(h, &record.hits, feed.facts.calibrated, spec) {
            continue;
        }
        match out.last_mut().filter(|l| h.start_s - l.1 < 0.2) {
            Some(last) => last.1 = h.end_s,
            None => out.push((h.start_s, h.end_s)),
        }
    }
    out
}
