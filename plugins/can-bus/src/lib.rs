//! The analyzers of the CAN bus.

pub mod bus_log;
pub mod findings;
pub mod measure;
pub mod outputs;

pub use bus_log::CanLog;

use findings::{Clock, Facts};
use measure::frame::Identifier;
use measure::waveform;
use plugin_sdk::{Analyzer, Declaration, Input, LimitsSheet, Output, Settings, unit_fact};

/// Normal values of the system.
pub static LIMITS: LimitsSheet = LimitsSheet::embedded(&[
    include_str!("../limits.toml"),
    include_str!("../../recording/limits.toml"),
]);

plugin_sdk::export! {
    system: "can-bus",
    name: "CAN bus",
    vendor: "baybrief",
    assets: [
        "system.toml" => include_str!("../system.toml"),
        "limits.toml" => include_str!("../limits.toml"),
        "causes.toml" => include_str!("../causes.toml"),
        "lang/en.ftl" => include_str!("../lang/en.ftl"),
        "lang/de.ftl" => include_str!("../lang/de.ftl"),
        "lang/es.ftl" => include_str!("../lang/es.ftl"),
    ],
    analyzers: [CanLines, CanLog],
}

/// Levels, wires and frames from recordings of CAN high and CAN low.
pub struct CanLines;

impl Analyzer for CanLines {
    const DECLARATION: Declaration = Declaration {
        id: "can-lines",
        name: "CAN lines",
        needs: &["can-high|can-low"],
        uses: &["can-high", "can-low"],
        kinds: outputs::LINES.kinds,
        messages: outputs::LINES.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let spec = LIMITS.with(&input.settings);
        let facts = facts(&input.settings);
        let (high, low) = (input.channel("can-high"), input.channel("can-low"));
        let one = high
            .or(low)
            .ok_or("neither CAN high nor CAN low was recorded")?;
        let step = one
            .time
            .mean_step(one.len())
            .filter(|&s| s > 0.0)
            .ok_or("the recording has fewer than two samples")?;
        let clock = Clock {
            start_s: one.time.at(0),
            rate_hz: 1.0 / step,
            samples: one.len(),
        };
        let measured = match (high, low) {
            (Some(high), Some(low)) if high.is_sampled_with(low) => {
                waveform::measure(&high.values(), &low.values(), clock.rate_hz, facts.bit_rate)
            }
            _ => {
                let up = one.role == "can-high";
                waveform::measure_line(&one.values(), up, clock.rate_hz, facts.bit_rate)
            }
        };
        if one.facts.calibrated {
            findings::levels(&measured, &clock, &spec, out);
            findings::wires(&measured, &clock, &facts, &spec, out);
        }
        findings::frames(&measured, &clock, &facts, &spec, out);
        Ok(())
    }
}

fn facts(settings: &Settings) -> Facts {
    let engine = settings.engine.as_ref().map(|e| e.value.as_str());
    Facts {
        bit_rate: unit_fact(settings, "bit_rate"),
        expected: expected(settings),
        awake: matches!(engine, Some("running" | "cranking")),
    }
}

/// Identifiers that the job expects on the bus.
fn expected(settings: &Settings) -> Vec<Identifier> {
    let listed = settings
        .unit
        .get("expected_ids")
        .and_then(|ids| ids.as_array());
    let texts = listed.into_iter().flatten().filter_map(|id| id.as_str());
    texts.filter_map(Identifier::parse).collect()
}
