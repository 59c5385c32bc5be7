//! Conditions of the gearbox: selector and commanded clutch applications, and how surely they are known.

use crate::LIMITS;
use crate::clutch::{Commands, Selector};
use plugin_sdk::{Analyzer, Declaration, Evidence, Input, LogOdds, Observation, Output};

/// The analyzer.
pub struct DriveConditions;

const SELECTOR: &[&str] = &[
    "percent",
    "weight_dban",
    "basis",
    "agree",
    "against",
    "selector",
    "source",
];

impl Analyzer for DriveConditions {
    const DECLARATION: Declaration = Declaration {
        id: "drive-conditions",
        name: "Selector and commanded clutches",
        uses: &["supply-current", "output-shaft"],
        inputs: crate::PULSES_AND_TRAINS,
        kinds: &[
            ("condition-selector", "1"),
            ("condition-commanded", "count"),
        ],
        messages: &[
            ("condition-selector-no-drive", SELECTOR),
            ("condition-selector-drive", SELECTOR),
            ("condition-selector-drive-likely", SELECTOR),
            ("condition-selector-unknown", SELECTOR),
            ("condition-commanded", &["total_s"]),
            ("condition-commanded-unknown", &[]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let Some((from, to)) = input.span() else {
            return Ok(());
        };
        let commands = Commands::of(input, &LIMITS.with(&input.settings));
        selector(input, &commands, from, to, out);
        commanded(&commands, from, to, out);
        Ok(())
    }
}

/// A person's word about where the selector stood, decibans; judgement.
const STATED_DBAN: f64 = 20.0;

/// The output turns: likely in gear, though a vehicle also rolls in N. Judgement.
const MOVES_DBAN: f64 = 10.0;

fn selector(input: &Input<'_>, commands: &Commands, from: f64, to: f64, out: &mut Output) {
    let moves = vehicle_moves(input);
    let message = match commands.selector {
        Selector::NoDrive => "condition-selector-no-drive",
        Selector::Drive => "condition-selector-drive",
        Selector::Unknown if moves => "condition-selector-drive-likely",
        Selector::Unknown => "condition-selector-unknown",
    };
    let mut odds = LogOdds::default();
    if commands.selector != Selector::Unknown {
        odds.evidence.push(Evidence::new("stated", STATED_DBAN));
    }
    if moves {
        let sign = match commands.selector {
            Selector::NoDrive => -1.0,
            _ => 1.0,
        };
        let evidence = Evidence::new("vehicle-moves", sign * MOVES_DBAN);
        odds.evidence.push(evidence);
    }
    let (certainty, u) = odds.certainty();
    let (agree, against) = odds.others();
    let stated = input.settings.selector.as_ref();
    out.add(
        Observation::new("condition-selector", message)
            .span(from, to)
            .value(certainty, u, "1")
            .arg("percent", (certainty * 1000.0).round() / 10.0)
            .arg("weight_dban", (odds.weight_dban() * 10.0).round() / 10.0)
            .arg("basis", odds.basis())
            .arg("agree", agree)
            .arg("against", against)
            .arg("selector", stated.map_or("", |s| s.value.as_str()))
            .arg("source", stated.map_or("", |s| s.source.as_str())),
    );
}

/// True where the output shaft turns for more than a second.
pub fn vehicle_moves(input: &Input<'_>) -> bool {
    let output = input.train("output-shaft");
    output.is_some_and(|r| r.turning().any(|s| s.end_s - s.start_s > 1.0))
}

/// Windows in which a clutch may be applied by command, seen in the feed current.
fn commanded(commands: &Commands, from: f64, to: f64, out: &mut Output) {
    let Some(feed) = &commands.feed else {
        out.add(
            Observation::new("condition-commanded", "condition-commanded-unknown").span(from, to),
        );
        return;
    };
    // A pulse that was taken for a clutch's, or not, by mistake: a tenth of them, one at least when there are any.
    let windows = &commands.applied;
    let u = (0.1 * feed.pulses.len() as f64).min(1.0);
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
