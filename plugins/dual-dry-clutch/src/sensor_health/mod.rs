//! Sensor health: dead sensors, holes in a steady tooth train, lost contact, odd teeth, pick-up between the wires.

mod crosstalk;
mod dead;
mod dropouts;
mod wheel;

use plugin_sdk::measure::tracks::{SPEEDS, SpeedTracks};
use plugin_sdk::measure::{Spec, shaft_record};
use plugin_sdk::signal::rotation::ShaftRecord;
use plugin_sdk::{Analyzer, ChannelView, Descriptor, Grade, Input, Observation, Output, Scope};

const SENSORS: [&str; 3] = ["input-shaft-1", "input-shaft-2", "output-shaft"];

/// The plugin.
pub struct SensorHealth;

impl Analyzer for SensorHealth {
    const DESCRIPTOR: Descriptor = Descriptor {
        id: "sensor-health",
        name: "Sensor health",
        version: env!("CARGO_PKG_VERSION"),
        vendor: "baybrief",
        scope: Scope::Capture,
        needs: &["input-shaft-1|input-shaft-2|output-shaft"],
        uses: &["engine-speed", "supply-current"],
    };
    const TAKES: &'static [&'static str] = SPEEDS;

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let spec = Spec(&input.settings.spec);
        let sensors: Vec<crosstalk::Sensor<'_>> = SENSORS
            .iter()
            .chain(&["engine-speed"])
            .filter_map(|role| {
                let channel = input.channel(role)?;
                Some((channel, shaft_record(channel, &spec)?))
            })
            .collect();
        for (channel, record) in sensors
            .iter()
            .filter(|(channel, _)| SENSORS.contains(&channel.role))
        {
            // Of edges that are not to be trusted nothing is claimed.
            if edges(channel, record, out) {
                dropouts::observe(channel, record, out);
                wheel::observe(channel, record, out);
            }
        }
        crosstalk::observe(&sensors, out);
        if let Some(tracks) = SpeedTracks::of(input) {
            dead::observe(&tracks, out);
        }
        dead::silent(input, &spec, out);
        Ok(())
    }
}

/// Edges that came twice, and samples that overflowed the recorder, more than one in a hundred: the speed was measured
/// without them, and that is said. Whether the edges are to be trusted one by one.
fn edges(channel: &ChannelView<'_>, record: &ShaftRecord, out: &mut Output) -> bool {
    if record.turning().next().is_none() {
        return true;
    }
    // They are counted, not measured: a count has no uncertainty.
    let unusable = |message: &str, count: usize| {
        Observation::new("signal-quality", message)
            .about(channel.role)
            .value(count as f64, 0.0, "count")
            .grade(Grade::Unusable)
    };
    let doubled = record.glitches * 100 > record.rises.len() && record.glitches > 3;
    if doubled {
        out.add(unusable("quality-doubled-edges", record.glitches));
    }
    let folded = record.folded * 100 > channel.len();
    if folded {
        out.add(unusable("quality-folded", record.folded));
    }
    !doubled && !folded
}
