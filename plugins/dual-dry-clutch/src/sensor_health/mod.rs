//! Sensor health: dead sensors, holes in a steady tooth train, lost contact, odd teeth, pick-up between the wires.

mod crosstalk;
mod dead;
mod dropouts;
mod wheel;

use crate::LIMITS;
use crate::speeds::SpeedTracks;
use plugin_sdk::signal::rotation::ShaftRecord;
use plugin_sdk::{Analyzer, ChannelView, Declaration, Grade, Input, Observation, Output};

const SENSORS: [&str; 3] = ["input-shaft-1", "input-shaft-2", "output-shaft"];

/// The analyzer.
pub struct SensorHealth;

impl Analyzer for SensorHealth {
    const DECLARATION: Declaration = Declaration {
        id: "sensor-health",
        name: "Sensor health",
        needs: &["input-shaft-1|input-shaft-2|output-shaft"],
        uses: &["engine-speed", "supply-current"],
        inputs: crate::PULSES_AND_TRAINS,
        kinds: &[
            ("signal-quality", crate::QUALITY_UNITS),
            ("sensor-fault", "count|Hz"),
            ("tooth-wheel", "count"),
            ("crosstalk", "1"),
        ],
        messages: &[
            ("quality-doubled-edges", &[]),
            ("quality-folded", &[]),
            ("sensor-contact", &["lost_s"]),
            ("sensor-dropouts", &["lost_s"]),
            ("sensor-missing-teeth", &["positions", "turns"]),
            ("sensor-doubled-teeth", &["positions", "turns"]),
            ("tooth-wheel-gap", &["positions", "turns"]),
            ("sensor-dead", &[]),
            ("sensor-silent", &[]),
            ("crosstalk", &["from", "share_percent"]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        let sensors: Vec<crosstalk::Sensor<'_>> = SENSORS
            .iter()
            .chain(&["engine-speed"])
            .filter_map(|role| Some((input.channel(role)?, input.train(role)?)))
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
        dead::silent(input, &limits, out);
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
