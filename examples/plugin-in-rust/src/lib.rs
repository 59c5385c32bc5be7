//! An example: what the feed draws while nothing moves, held against a limit that the plugin brings along.

use plugin_sdk::signal::stats::sampled_quantile;
use plugin_sdk::{Analyzer, Declaration, Grade, Input, LimitsSheet, Observation, Output};

/// Values that the unit at hand may replace.
static LIMITS: LimitsSheet = LimitsSheet::embedded(&[include_str!("../limits.toml")]);

/// The analyzer.
pub struct RestingCurrent;

impl Analyzer for RestingCurrent {
    const DECLARATION: Declaration = Declaration {
        id: "resting-current",
        name: "Resting current",
        needs: &["supply-current"],
        kinds: &[("resting-current", "A")],
        messages: &[("resting-current", &[])],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let channel = input.channel("supply-current").ok_or("no supply current")?;
        let values = channel.values();
        // The quietest twentieth of the recording; the spread below the quietest tenth says how well it is known.
        let quantile = |q| sampled_quantile(&values, q, 100_000);
        let (Some(low), Some(tenth)) = (quantile(0.05), quantile(0.10)) else {
            return Err("the supply current has no samples that are numbers".into());
        };
        let limits = LIMITS.with(&input.settings);
        let uncertainty = tenth - low;
        let grade = match low - 2.0 * uncertainty > limits.high("resting-current") {
            true => Grade::Abnormal,
            false => Grade::Normal,
        };
        out.add(
            Observation::new("resting-current", "resting-current")
                .about("supply-current")
                .span(channel.time.at(0), channel.time.at(channel.len() - 1))
                .value(low, uncertainty, "A")
                .limit(limits.limit("resting-current"))
                .grade(grade),
        );
        Ok(())
    }
}

plugin_sdk::export! {
    system: "resting-current",
    name: "Resting current (example in Rust)",
    vendor: "baybrief examples",
    assets: [
        "limits.toml" => include_str!("../limits.toml"),
        "lang/en.ftl" => include_str!("../lang/en.ftl"),
    ],
    analyzers: [RestingCurrent],
}
