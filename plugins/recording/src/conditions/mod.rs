//! Conditions: what is known of engine, selector and commanded clutch applications, and how surely.

mod engine;

use plugin_sdk::measure::{Belief, Clue, Conditions, Selector, Spec, shaft_record};
use plugin_sdk::{Analyzer, Descriptor, Grade, Input, Observation, Output, Scope};

/// The plugin.
pub struct ConditionsKnown;

impl Analyzer for ConditionsKnown {
    const DESCRIPTOR: Descriptor = Descriptor {
        id: "conditions",
        name: "Conditions",
        version: env!("CARGO_PKG_VERSION"),
        vendor: "baybrief",
        scope: Scope::Capture,
        needs: &[],
        uses: &[
            "supply-voltage",
            "engine-speed",
            "supply-current",
            "output-shaft",
            "input-shaft-1",
            "input-shaft-2",
        ],
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let Some((from, to)) = whole(input) else {
            return Ok(());
        };
        let conditions = Conditions::of(input);
        engine::observe(&conditions, from, to, out);
        if conditions.engine_contradicted() {
            out.add(
                Observation::new("condition-contradicted", "engine-contradicted")
                    .span(from, to)
                    .grade(Grade::Unusable),
            );
        }
        selector(input, &conditions, from, to, out);
        commanded(&conditions, from, to, out);
        Ok(())
    }
}

/// First and last instant of the recording.
fn whole(input: &Input<'_>) -> Option<(f64, f64)> {
    let longest = input.channels.iter().max_by_key(|c| c.len())?;
    (!longest.is_empty()).then(|| (longest.time.at(0), longest.time.at(longest.len() - 1)))
}

/// A finding whose value is the certainty of a belief.
fn believed(kind: &str, message: &str, belief: &Belief) -> Observation {
    let (certainty, u) = belief.certainty();
    let (agree, against) = belief.others();
    Observation::new(kind, message)
        .value(certainty, u, "1")
        .arg("percent", (certainty * 1000.0).round() / 10.0)
        .arg("weight_db", (belief.weight_db() * 10.0).round() / 10.0)
        .arg("basis", belief.basis())
        .arg("agree", agree)
        .arg("against", against)
}

/// A person's word about where the selector stood; as for the engine, judgement.
const STATED_DB: f64 = 20.0;

/// The output turns: likely in gear, though a vehicle also rolls in N. Judgement.
const MOVES_DB: f64 = 10.0;

fn selector(input: &Input<'_>, conditions: &Conditions, from: f64, to: f64, out: &mut Output) {
    let spec = Spec(&input.settings.spec);
    let moves = input
        .channel("output-shaft")
        .and_then(|c| shaft_record(c, &spec))
        .is_some_and(|r| r.turning().any(|s| s.end_s - s.start_s > 1.0));
    let mut belief = Belief::default();
    let message = match conditions.selector {
        Selector::NoDrive => "condition-selector-no-drive",
        Selector::Drive => "condition-selector-drive",
        Selector::Unknown if moves => "condition-selector-drive-likely",
        Selector::Unknown => "condition-selector-unknown",
    };
    if conditions.selector != Selector::Unknown {
        belief.clues.push(Clue::new("stated", STATED_DB));
    }
    if moves {
        let sign = match conditions.selector {
            Selector::NoDrive => -1.0,
            _ => 1.0,
        };
        belief
            .clues
            .push(Clue::new("vehicle-moves", sign * MOVES_DB));
    }
    let stated = input.settings.selector.as_ref();
    out.add(
        believed("condition-selector", message, &belief)
            .span(from, to)
            .arg("selector", stated.map_or("", |s| s.value.as_str()))
            .arg("source", stated.map_or("", |s| s.source.as_str())),
    );
}

/// Stretches in which a clutch may be applied by command, seen in the feed current.
fn commanded(conditions: &Conditions, from: f64, to: f64, out: &mut Output) {
    let Some(feed) = &conditions.feed else {
        out.add(
            Observation::new("condition-commanded", "condition-commanded-unknown").span(from, to),
        );
        return;
    };
    // A hit that was taken for a clutch's, or not, by mistake: a tenth of them, one at least when there are any.
    let windows = &conditions.commanded;
    let u = (0.1 * feed.hits.len() as f64).min(1.0);
    let (first, last) = match (windows.first(), windows.last()) {
        (Some(a), Some(b)) => (a.0.max(from), b.1.min(to)),
        _ => (from, to),
    };
    let total: f64 = windows.iter().map(|w| w.1.min(to) - w.0.max(from)).sum();
    out.add(
        Observation::new("condition-commanded", "condition-commanded")
            .about("supply-current")
            .span(first, last)
            .value(windows.len() as f64, u, "count")
            .arg("total_s", (total * 100.0).round() / 100.0),
    );
}
