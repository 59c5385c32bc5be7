//! The analyzers of the CAN bus.

pub mod declare;
pub mod findings;
pub mod measure;

use findings::{Clock, Facts};
use measure::waveform;
use plugin_sdk::measure::Spec;
use plugin_sdk::{Analyzer, ChannelView, Descriptor, Input, Output, Scope, Settings};

plugin_sdk::export!(CanLines);

/// Sheets and sentences of the system, each with its name in the folder.
pub const ASSETS: &[(&str, &str)] = &[
    ("system.toml", include_str!("../system.toml")),
    ("limits.toml", include_str!("../limits.toml")),
    ("causes.toml", include_str!("../causes.toml")),
    ("lang/en.ftl", include_str!("../lang/en.ftl")),
    ("lang/de.ftl", include_str!("../lang/de.ftl")),
    ("lang/es.ftl", include_str!("../lang/es.ftl")),
];

/// Levels, wires and frames from recordings of CAN high and CAN low.
pub struct CanLines;

impl Analyzer for CanLines {
    const DESCRIPTOR: Descriptor = Descriptor {
        id: "can-lines",
        name: "CAN lines",
        version: env!("CARGO_PKG_VERSION"),
        vendor: "baybrief",
        scope: Scope::Capture,
        needs: &["can-high|can-low"],
        uses: &["can-high", "can-low"],
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let spec = Spec(&input.settings.spec);
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
            (Some(high), Some(low)) if together(high, low) => {
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

/// True where both channels were sampled at the same instants.
fn together(a: &ChannelView<'_>, b: &ChannelView<'_>) -> bool {
    let step = |c: &ChannelView<'_>| c.time.mean_step(c.len()).unwrap_or(f64::NAN);
    a.len() == b.len()
        && !a.is_empty()
        && (a.time.at(0) - b.time.at(0)).abs() < 0.5 * step(a)
        && (step(a) / step(b) - 1.0).abs() < 1e-6
}

fn facts(settings: &Settings) -> Facts {
    let rate = Spec(&settings.spec).number("bit-rate");
    let engine = settings.engine.as_ref().map(|e| e.value.as_str());
    Facts {
        bit_rate: Some(rate).filter(|r| *r > 0.0),
        expected: Vec::new(),
        awake: matches!(engine, Some("running" | "cranking")),
    }
}
