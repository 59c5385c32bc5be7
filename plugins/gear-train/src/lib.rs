//! Gear train: ratios, shifts, slip, and two gears at once. Needs the output shaft.

mod ratio;
mod shift;
mod slip;
mod tie_up;

use plugin_sdk::measure::Spec;
use plugin_sdk::measure::tracks::SpeedTracks;
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

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let spec = Spec(&input.settings.spec);
        let Some(tracks) = SpeedTracks::of(input) else { return Ok(()) };
        ratio::observe(input, &tracks, out);
        let shifts = shift::find(&tracks);
        shift::observe(&tracks, &shifts, &spec, out);
        slip::observe(&tracks, &shifts, &spec, out);
        tie_up::observe(input, &tracks, &spec, out);
        Ok(())
    }
}

plugin_sdk::export!(GearTrain);
