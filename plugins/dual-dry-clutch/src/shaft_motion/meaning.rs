//! What a turning shaft means under the conditions of the recording.
//!
//! An input shaft that turns proves a dragging clutch only while the engine runs, the selector is in P or N, the
//! clutch is commanded open (no clutch application in the feed current), the turning lasts at a steady speed, and
//! the signal is a real tooth train. Everything else is said as what it is.

use super::{Context, Shaft};
use crate::clutch::Selector;
use plugin_sdk::Grade;
use plugin_sdk::signal::rotation::{Span, rpm};

/// What a span of turning means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meaning {
    /// Turns where it must not.
    AtRest,
    /// The selector stands in a driving position.
    Drives,
    /// The output turns: the vehicle moves.
    VehicleMoves,
    /// The engine does not run: wheels or hands turn it.
    EngineOff,
    /// A clutch application came just before.
    Commanded,
    /// It does not keep its speed: it coasts or is only just dragged along.
    Coasting,
    /// Slower than what bearing drag may do.
    Slow,
    /// Neither engine nor selector, or only one of them, is known.
    ConditionsUnknown,
    /// The feed current was not recorded: a commanded application would not have been seen.
    CommandUnknown,
    /// The output shaft turns, as such.
    Output,
}

impl Meaning {
    /// Kind, message key and grade of the finding.
    pub fn finding(self) -> (&'static str, &'static str, Grade) {
        match self {
            Meaning::AtRest => ("shaft-turning-at-rest", "turning-at-rest", Grade::Abnormal),
            Meaning::Drives => ("shaft-turning", "turning-drives", Grade::Normal),
            Meaning::VehicleMoves => ("shaft-turning", "turning-vehicle-moves", Grade::Normal),
            Meaning::EngineOff => ("shaft-turning", "turning-engine-off", Grade::Normal),
            Meaning::Commanded => ("shaft-turning", "turning-commanded", Grade::Normal),
            Meaning::Coasting => ("shaft-turning", "turning-coasting", Grade::Normal),
            Meaning::Slow => ("shaft-turning", "turning-slow", Grade::Normal),
            Meaning::ConditionsUnknown => {
                ("shaft-turning", "turning-conditions-unknown", Grade::Normal)
            }
            Meaning::CommandUnknown => ("shaft-turning", "turning-command-unknown", Grade::Normal),
            Meaning::Output => ("shaft-turning", "turning-output", Grade::Normal),
        }
    }
}

/// Meaning of one span of turning.
pub fn meaning(shaft: &Shaft<'_>, span: &Span, context: &Context<'_>) -> Meaning {
    let Context {
        all,
        conditions,
        commands,
        limits,
        ..
    } = *context;
    if shaft.channel.role == "output-shaft" {
        return Meaning::Output;
    }
    if commands.selector == Selector::Drive {
        return Meaning::Drives;
    }
    let output_turns = all
        .iter()
        .filter(|s| s.channel.role == "output-shaft")
        .any(|s| {
            s.record
                .turning()
                .any(|o| o.start_s < span.end_s && o.end_s > span.start_s)
        });
    if output_turns {
        return Meaning::VehicleMoves;
    }
    let (running, unknown) = conditions.running_share(span.plateau.start_s, span.plateau.end_s);
    if !unknown && running < 0.2 {
        return Meaning::EngineOff;
    }
    let begins_in_command = commands
        .applied
        .iter()
        .any(|&(a, b)| (a..=b).contains(&span.start_s));
    if begins_in_command {
        return Meaning::Commanded;
    }
    let steady = limits.number("steady-turning");
    if span.plateau.end_s - span.plateau.start_s < steady {
        return Meaning::Coasting;
    }
    // Without the tooth count a speed cannot be told slow; the least tooth rate has been passed.
    let slow = shaft.channel.facts.teeth.is_some_and(|n| {
        let u = rpm(span.spread_hz, n) / ((span.last - span.first) as f64).sqrt();
        rpm(span.plateau.hz, n) - 2.0 * u <= limits.high("parked-input-speed")
    });
    if slow {
        return Meaning::Slow;
    }
    if unknown || commands.selector == Selector::Unknown || running < 0.8 {
        return Meaning::ConditionsUnknown;
    }
    // Turning that goes on through a commanded application was there before it; the steady part must lie outside.
    let commanded: f64 = commands
        .applied
        .iter()
        .map(|&(a, b)| (b.min(span.plateau.end_s) - a.max(span.plateau.start_s)).max(0.0))
        .sum();
    if span.plateau.end_s - span.plateau.start_s - commanded < steady {
        return Meaning::Commanded;
    }
    if commands.feed.is_none() {
        return Meaning::CommandUnknown;
    }
    Meaning::AtRest
}
