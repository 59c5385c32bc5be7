//! An example: what the feed draws while nothing moves, held against a limit that the plugin brings along.

use plugin_sdk::measure::Spec;
use plugin_sdk::signal::stats::sampled_quantile;
use plugin_sdk::{Analyzer, Descriptor, Grade, Input, Observation, Output, Scope};

/// The plugin.
pub struct RestingCurrent;

impl Analyzer for RestingCurrent {
    const DESCRIPTOR: Descriptor = Descriptor {
        id: "resting-current",
        name: "Resting current (example in Rust)",
        version: env!("CARGO_PKG_VERSION"),
        vendor: "baybrief examples",
        scope: Scope::Capture,
        needs: &["supply-current"],
        uses: &[],
    };
    const TEXTS: &'static [(&'static str, &'static str)] = &[
        ("spec.toml", include_str!("../spec.toml")),
        ("lang/en.ftl", include_str!("../lang/en.ftl")),
    ];

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let channel = input.channel("supply-current").ok_or("no supply current")?;
        let values = channel.values();
        // The quietest twentieth of the recording; the spread below the quietest tenth says how well it is known.
        let quantile = |q| sampled_quantile(&values, q, 100_000);
        let (Some(low), Some(tenth)) = (quantile(0.05), quantile(0.10)) else {
            return Err("the supply current has no samples that are numbers".into());
        };
        let spec = Spec(&input.settings.spec);
        let uncertainty = tenth - low;
        let grade = match low - 2.0 * uncertainty > spec.high("resting-current") {
            true => Grade::Abnormal,
            false => Grade::Normal,
        };
        out.add(
            Observation::new("resting-current", "resting-current")
                .about("supply-current")
                .span(channel.time.at(0), channel.time.at(channel.len() - 1))
                .value(low, uncertainty, "A")
                .limit(spec.limit("resting-current"))
                .grade(grade),
        );
        Ok(())
    }
}

plugin_sdk::export!(RestingCurrent);
