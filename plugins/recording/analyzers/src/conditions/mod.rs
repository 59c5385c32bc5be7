//! Conditions: what is known of the engine over a recording, and how surely. What is stated (job.toml, scan text) and
//! what the recording itself shows are evidence with weights; where it does not carry an answer, it is asked for.

mod evidence;
mod segments;
mod supply;

use plugin_sdk::conditions::EngineSegment;
use plugin_sdk::derived::{ENGINE_STATE, TRAIN};
use plugin_sdk::signal::ripple;
use plugin_sdk::signal::teeth::ToothTrain;
use plugin_sdk::{Analyzer, Conditions, Declaration, Grade, Input, LogOdds, Observation, Output};

/// The analyzer.
pub struct ConditionsKnown;

/// Arguments of a finding whose value is a certainty.
const CERTAINTY: &[&str] = &["percent", "weight_dban", "basis", "agree", "against"];

impl Analyzer for ConditionsKnown {
    const DECLARATION: Declaration = Declaration {
        id: "conditions",
        name: "Conditions",
        uses: &["supply-voltage", "engine-speed"],
        inputs: &TRAIN,
        kinds: &[("condition-engine", "1"), ("condition-contradicted", "")],
        messages: &[
            ("condition-engine-running", CERTAINTY),
            ("condition-engine-cranking", CERTAINTY),
            ("condition-engine-not-running", CERTAINTY),
            ("condition-engine-unknown", CERTAINTY),
            ("engine-contradicted", &[]),
        ],
        series: &[ENGINE_STATE],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let Some((from, to)) = input.span() else {
            return Ok(());
        };
        let witnesses = Witnesses::of(input);
        let segments = segments::find(&witnesses, from, to);
        for s in segments::worth_telling(&segments, from, to) {
            out.add(certain("condition-engine", s.message(), &s.odds).span(s.start_s, s.end_s));
        }
        if witnesses.is_contradicted() {
            out.add(
                Observation::new("condition-contradicted", "engine-contradicted")
                    .span(from, to)
                    .grade(Grade::Unusable),
            );
        }
        let engine = segments.into_iter().map(|s| EngineSegment {
            start_s: s.start_s,
            end_s: s.end_s,
            state: s.state,
            basis: s.odds.basis().into(),
        });
        let conditions = Conditions {
            engine: engine.collect(),
        };
        out.put(conditions.series());
        Ok(())
    }
}

/// All that speaks of the engine.
struct Witnesses {
    /// As stated: `running`, `off`, `cranking`.
    stated: Option<String>,
    /// Evidence of the supply voltage.
    voltage: Option<supply::EngineWindows>,
    /// Ripple on the supply voltage.
    ripple: Option<ripple::Ripple>,
    /// Evidence of the engine speed sensor.
    sensor: Option<ToothTrain>,
}

impl Witnesses {
    fn of(input: &Input<'_>) -> Witnesses {
        let supply = input.channel("supply-voltage");
        let volts = supply.map(|c| (c.values(), c.time));
        let volts = volts.as_ref();
        Witnesses {
            stated: input.settings.engine.as_ref().map(|s| s.value.clone()),
            voltage: volts.and_then(|(v, time)| supply::find_engine_windows(v, *time)),
            ripple: volts.and_then(|(v, time)| ripple::measure_ripple(v, *time)),
            sensor: input.train("engine-speed"),
        }
    }
}

/// A finding whose value is the certainty of a condition.
fn certain(kind: &str, message: &str, odds: &LogOdds) -> Observation {
    let (certainty, u) = odds.certainty();
    let (agree, against) = odds.others();
    Observation::new(kind, message)
        .value(certainty, u, "1")
        .arg("percent", (certainty * 1000.0).round() / 10.0)
        .arg("weight_dban", (odds.weight_dban() * 10.0).round() / 10.0)
        .arg("basis", odds.basis())
        .arg("agree", agree)
        .arg("against", against)
}
