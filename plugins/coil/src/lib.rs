//! The analyzers of coils: injectors, valves, relays, ignition primaries.

pub mod findings;
pub mod measure;
pub mod outputs;

use findings::{Facts, Recorded};
use measure::record::{Voltages, measure};
use plugin_sdk::{
    Analyzer, ChannelView, Declaration, Input, LimitsSheet, Output, Settings, unit_fact,
};

/// Normal values of the system.
pub static LIMITS: LimitsSheet = LimitsSheet::embedded(&[
    include_str!("../limits.toml"),
    include_str!("../../recording/limits.toml"),
]);

plugin_sdk::export! {
    system: "coil",
    name: "Coils",
    vendor: "baybrief",
    assets: [
        "system.toml" => include_str!("../system.toml"),
        "limits.toml" => include_str!("../limits.toml"),
        "causes.toml" => include_str!("../causes.toml"),
        "lang/en.ftl" => include_str!("../lang/en.ftl"),
        "lang/de.ftl" => include_str!("../lang/de.ftl"),
        "lang/es.ftl" => include_str!("../lang/es.ftl"),
    ],
    analyzers: [CoilCurrents],
}

/// Currents of one or several coils, with the driven side of one and the supply.
pub struct CoilCurrents;

impl Analyzer for CoilCurrents {
    const DECLARATION: Declaration = Declaration {
        id: "coil-currents",
        name: "Coil currents",
        needs: &[
            "coil-current|coil-current-1|coil-current-2|coil-current-3|coil-current-4|coil-current-5|coil-current-6|coil-current-7|coil-current-8",
        ],
        uses: &["coil-voltage", "supply-voltage"],
        kinds: outputs::KINDS,
        messages: outputs::MESSAGES,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let spec = LIMITS.with(&input.settings);
        let facts = facts(&input.settings);
        let currents: Vec<&ChannelView<'_>> = input
            .channels
            .iter()
            .filter(|c| c.role.starts_with("coil-current"))
            .collect();
        let voltage = |role: &str| {
            input
                .channel(role)
                .filter(|v| currents.first().is_some_and(|c| c.is_sampled_with(v)))
                .map(ChannelView::values)
        };
        // Of several coils nobody says whose driven side was recorded.
        let driven = voltage("coil-voltage").filter(|_| currents.len() == 1);
        let supply = voltage("supply-voltage");
        let mut coils = Vec::new();
        for channel in currents {
            let step_s = channel
                .time
                .mean_step(channel.len())
                .filter(|&s| s > 0.0)
                .ok_or_else(|| format!("{} has fewer than two samples", channel.role))?;
            let voltages = Voltages {
                driven: driven.as_deref(),
                supply: supply.as_deref().filter(|s| s.len() == channel.len()),
            };
            coils.push(Recorded {
                role: channel.role.into(),
                coil: measure(&channel.values(), voltages, step_s),
                calibrated: channel.facts.calibrated,
                span: (channel.time.at(0), channel.time.at(channel.len() - 1)),
                step_s,
            });
        }
        findings::resistance(&coils, facts, &spec, out);
        findings::course(&coils, &spec, out);
        findings::armature(&coils, &spec, out);
        findings::current(&coils, facts, &spec, out);
        Ok(())
    }
}

fn facts(settings: &Settings) -> Facts {
    let engine = settings.engine.as_ref().map(|e| e.value.as_str());
    Facts {
        coil_ohm: unit_fact(settings, "coil_ohm"),
        engine_runs: engine == Some("running"),
    }
}
