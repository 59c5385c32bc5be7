//! Sensor health: dead sensors and holes in a steady tooth train.

mod dead;

use plugin_sdk::measure::tracks::SpeedTracks;
use plugin_sdk::measure::{Spec, shaft_record};
use plugin_sdk::{Analyzer, Descriptor, Grade, Input, Limit, Observation, Output, Scope};

const SENSORS: [&str; 3] = ["input-shaft-1", "input-shaft-2", "output-shaft"];

/// Holes from which on a sensor is faulty: one may be a disturbed cable or a knocked probe. Common practice, no
/// source.
const LEAST_HOLES: usize = 2;

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

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let spec = Spec(&input.settings.spec);
        for role in SENSORS {
            let Some(channel) = input.channel(role) else {
                continue;
            };
            let Some(record) = shaft_record(channel, &spec) else {
                continue;
            };
            // Doubled edges, more than one in a hundred: the speed was measured without them, and that is said.
            let turns = record.turning().next().is_some();
            if turns && record.glitches * 100 > record.rises.len() && record.glitches > 3 {
                out.add(
                    Observation::new("signal-quality", "quality-doubled-edges")
                        .about(role)
                        .value(record.glitches as f64, 0.0, "count")
                        .grade(Grade::Unusable),
                );
            }
            if turns && record.folded * 100 > channel.len() {
                out.add(
                    Observation::new("signal-quality", "quality-folded")
                        .about(role)
                        .value(record.folded as f64, 0.0, "count")
                        .grade(Grade::Unusable),
                );
            }
            if record.dropouts.len() >= LEAST_HOLES {
                let lost: f64 = record.dropouts.iter().map(|d| d.1 - d.0).sum();
                let (first, last) = (
                    record.dropouts[0].0,
                    record.dropouts[record.dropouts.len() - 1].1,
                );
                out.add(
                    Observation::new("sensor-fault", "sensor-dropouts")
                        .about(role)
                        .span(first, last)
                        .value(record.dropouts.len() as f64, 0.0, "count")
                        .limit(Limit {
                            low: None,
                            high: Some(LEAST_HOLES as f64 - 1.0),
                            unit: "count".into(),
                            source: "common practice, no source".into(),
                        })
                        .arg("lost_s", (lost * 100.0).round() / 100.0)
                        .grade(Grade::Abnormal),
                );
            }
        }
        if let Some(tracks) = SpeedTracks::of(input) {
            dead::observe(&tracks, out);
        }
        dead::silent(input, &spec, out);
        Ok(())
    }
}

plugin_sdk::export!(SensorHealth);
