//! Sensor health: dead sensors, holes in a steady tooth train, lost contact, odd teeth, pick-up between the wires.

mod crosstalk;
mod dead;
mod dropouts;
mod wheel;

use crate::LIMITS;
use crate::shaft_motion::picked_up;
use crate::speeds::SpeedTracks;
use plugin_sdk::signal::teeth::ToothTrain;
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
            ("tooth-wheel-extra", &["positions", "turns"]),
            ("tooth-wheel-extra-alike", &["positions", "turns"]),
            ("tooth-wheel-other", &["positions", "stated"]),
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
            let alike = wheel::is_alike(channel.role, record, &sensors);
            let doubled_in_place = wheel::observe(channel, record, alike, out);
            // Of edges that are not to be trusted nothing is claimed.
            let trusted = edges(channel, record, doubled_in_place, out);
            if trusted && record.dropouts.len() >= dropouts::LEAST {
                let picked_up = picked_up(input, channel.role, &limits);
                dropouts::observe(channel, record, &picked_up, out);
            }
        }
        crosstalk::observe(&sensors, out);
        if let Some(tracks) = SpeedTracks::of(input) {
            dead::observe(input, &tracks, out);
        }
        dead::silent(input, &limits, out);
        Ok(())
    }
}

/// Tooth edges to a doubled one from which on the speed that is left without those is not relied on where its pitches
/// scatter by more than the share below; judgement.
const UNUSABLE: usize = 3;
const SCATTERED: f64 = 0.04;

/// Edges that came twice, and samples that wrapped at the recorder's limit, more than one in a hundred: the speed was
/// measured without them, and that is said. Returns whether single edges are to be trusted.
fn edges(
    channel: &ChannelView<'_>,
    train: &ToothTrain,
    doubled_in_place: bool,
    out: &mut Output,
) -> bool {
    if train.turning().next().is_none() {
        return true;
    }
    // They are counted, not measured: a count has no uncertainty.
    let observation = |message: &str, count: usize| {
        Observation::new("signal-quality", message)
            .about(channel.role)
            .value(count as f64, 0.0, "count")
    };
    let count = match doubled_in_place {
        true => 0,
        false => train.glitches + train.doubled,
    };
    let doubled = count * 100 > train.edges.len() && count > 3;
    let mut motions = train.turning().filter_map(|s| s.motion);
    let scattered = motions.any(|m| m.scatter > SCATTERED);
    if doubled {
        out.add(observation("quality-doubled-edges", count).grade(
            match scattered && count * UNUSABLE > train.edges.len() {
                true => Grade::Unusable,
                false => Grade::Normal,
            },
        ));
    }
    let wrapped = train.signal.wrapped * 100 > channel.len();
    if wrapped {
        out.add(observation("quality-folded", train.signal.wrapped).grade(Grade::Unusable));
    }
    !doubled && train.signal.wrapped == 0
}
