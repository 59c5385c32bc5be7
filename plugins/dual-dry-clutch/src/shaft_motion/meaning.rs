//! Meaning of a turning shaft under the conditions of the recording.
//!
//! An input shaft that turns proves a dragging clutch only while the engine runs, the selector is in P or N, the
//! clutch is commanded open (no clutch application in the feed current), the turning lasts at a steady speed, and
//! the signal is a real tooth train. Everything else is said as what it is.

use super::{Context, Shaft};
use crate::clutch::Selector;
use plugin_sdk::Grade;
use plugin_sdk::signal::current::{CurrentLife, CurrentRecord};
use plugin_sdk::signal::teeth::{Ending, Motion, Segment, SegmentKind, Trend};

/// Longest flick of a released shaft, as an engine's start gives it, s; common practice, no source.
const FLICK_S: f64 = 1.0;

/// Meaning of a segment of turning.
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
    /// It does not keep its speed and slows down: it was carried along and coasts.
    Coasting,
    /// It turns for too short a time at any one speed to prove anything.
    Briefly,
    /// It turns for longer than a released shaft coasts, at no steady speed.
    Unsteady,
    /// Slower than what bearing drag may do.
    Slow,
    /// Neither engine nor selector, or only one of them, is known.
    ConditionsUnknown,
    /// The feed current was not recorded, or nothing proves its clamp alive: a commanded application would not have been
    /// seen.
    CommandUnknown,
    /// It began to turn from rest, or ceased to, just after something moved: its clutch may have been applied and released.
    CommandPossible,
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
            Meaning::Briefly => ("shaft-turning", "turning-briefly", Grade::Normal),
            Meaning::Unsteady => ("shaft-turning", "turning-unsteady", Grade::Normal),
            Meaning::Slow => ("shaft-turning", "turning-slow", Grade::Normal),
            Meaning::ConditionsUnknown => {
                ("shaft-turning", "turning-conditions-unknown", Grade::Normal)
            }
            Meaning::CommandUnknown => ("shaft-turning", "turning-command-unknown", Grade::Normal),
            Meaning::CommandPossible => {
                ("shaft-turning", "turning-command-possible", Grade::Normal)
            }
            Meaning::Output => ("shaft-turning", "turning-output", Grade::Normal),
        }
    }
}

/// Meaning of one segment of turning.
pub fn meaning(
    shaft: &Shaft<'_>,
    segment: &Segment,
    motion: &Motion,
    context: &Context<'_>,
) -> Meaning {
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
    let output = all.iter().filter(|s| s.channel.role == "output-shaft");
    let mut output = output.flat_map(|s| s.train.turning());
    if output.any(|o| o.start_s < segment.end_s && o.end_s > segment.start_s) {
        return Meaning::VehicleMoves;
    }
    let plateau = motion.plateau;
    let (running, unknown) = conditions.running_share(plateau.start_s, plateau.end_s);
    if !unknown && running < 0.2 {
        return Meaning::EngineOff;
    }
    let begins_in_command = commands
        .applied
        .iter()
        .any(|&(a, b)| (a..=b).contains(&segment.start_s));
    if begins_in_command {
        return Meaning::Commanded;
    }
    let is_watched = |feed: &CurrentRecord| feed.alive != CurrentLife::None;
    let has_feed = commands.feed.as_ref().is_some_and(is_watched);
    let steady = limits.number("steady-turning");
    if plateau.end_s - plateau.start_s < steady {
        let slows = slows_down(motion);
        let watched = !unknown && running >= 0.8 && commands.selector == Selector::NoDrive;
        let lasts = segment.duration_s() >= 2.0 * steady;
        // More than the flick of a shaft, and nobody knows what made it turn.
        let unexplained = !unknown && !has_feed && segment.duration_s() > FLICK_S;
        return match (slows, watched && lasts) {
            (false, true) => Meaning::Unsteady,
            (true, true) if speeds_up(shaft, segment) => Meaning::Unsteady,
            (true, _) => Meaning::Coasting,
            (false, false) if unexplained => Meaning::CommandUnknown,
            (false, false) => Meaning::Briefly,
        };
    }
    // Without the tooth count a speed cannot be told slow; the least tooth rate has been passed.
    let slow = motion.rpm.is_some_and(|rpm| {
        let per_hz = rpm / motion.hz;
        let u = per_hz * motion.spread_hz / f64::from(motion.positions.max(1)).sqrt();
        per_hz * plateau.hz - 2.0 * u <= limits.high("parked-input-speed")
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
        .map(|&(a, b)| (b.min(plateau.end_s) - a.max(plateau.start_s)).max(0.0))
        .sum();
    if plateau.end_s - plateau.start_s - commanded < steady {
        return Meaning::Commanded;
    }
    if !has_feed {
        return Meaning::CommandUnknown;
    }
    if may_be_commanded(shaft, segment, context) {
        return Meaning::CommandPossible;
    }
    Meaning::AtRest
}

/// The speed rises by a quarter over what it fell to before, as that of a shaft that only coasts never does.
fn speeds_up(shaft: &Shaft<'_>, segment: &Segment) -> bool {
    const STEP_S: f64 = 0.1;
    const RISE: f64 = 1.25;
    let steps = (segment.duration_s() / STEP_S) as usize;
    let at = |k: usize| (shaft.train).rate_at(segment.start_s + STEP_S * k as f64, 0.0);
    let mut lowest = f64::INFINITY;
    (0..=steps).filter_map(at).any(|hz| {
        lowest = lowest.min(hz);
        hz > RISE * lowest
    })
}

/// The shaft begins to turn from rest, beside a running engine, and begins or ceases to just after its actuator may have
/// moved.
fn may_be_commanded(shaft: &Shaft<'_>, segment: &Segment, context: &Context<'_>) -> bool {
    /// Time before the start for which the engine must have run without turning the shaft, s.
    const BEFORE_S: f64 = 0.5;
    let start_s = segment.start_s;
    let mut before = shaft.train.segments.iter();
    let rested = before.any(|s| s.kind == SegmentKind::AtRest && s.end_s == start_s);
    let (running, _) = (context.conditions).running_share(start_s - BEFORE_S, start_s);
    // Released, a shaft leaves its speed, and stops a little later.
    let stops = (segment.motion).filter(|m| m.ending != Ending::RecordEnd || slows_down(m));
    let released_s = stops.map(|m| m.plateau.end_s);
    let moved = &context.commands.moved[usize::from(shaft.channel.role == "input-shaft-2")];
    let with_a_movement = |t: f64| moved.iter().any(|&(a, b)| (a..=b).contains(&t));
    rested && running > 0.5 && (with_a_movement(start_s) || released_s.is_some_and(with_a_movement))
}

/// The speed falls: from its highest to less than 0.8 of it at the end, or to nothing.
fn slows_down(motion: &Motion) -> bool {
    let fallen = motion.last_hz < 0.8 * motion.highest_hz;
    motion.trend == Trend::Falls || (fallen && motion.ending == Ending::Decay)
}
