//! Shaft motion: which shafts turn, how fast, and whether they may.

mod meaning;
mod pickup;
mod refusal;
mod rest;
mod turning;

use crate::LIMITS;
use crate::clutch::{Commands, Selector};
use crate::recording_checks::alias;
use plugin_sdk::signal::teeth::{RejectReason, Segment, SegmentKind, ToothTrain};
use plugin_sdk::{Analyzer, ChannelView, Conditions, Declaration, Input, Limits, Output};

const SHAFTS: [&str; 3] = ["input-shaft-1", "input-shaft-2", "output-shaft"];

/// Arguments of a turning shaft.
const TURNING: &[&str] = &[
    "duration_s",
    "steady_s",
    "steady_hz",
    "jitter",
    "swing",
    "swing_to_noise",
    "samples_a_tooth",
    "acceleration_hz_s",
    "trend",
    "ending",
];

/// Arguments of a shaft at rest: edges seen, proof of life, capability of detection.
const REST: &[&str] = &["edges", "alive", "unseen", "unseen_unit", "detectable"];

/// The analyzer.
pub struct ShaftMotion;

/// One shaft's channel with its tooth train.
pub(crate) struct Shaft<'a> {
    pub channel: &'a ChannelView<'a>,
    pub train: ToothTrain,
}

impl Analyzer for ShaftMotion {
    const DECLARATION: Declaration = Declaration {
        id: "shaft-motion",
        name: "Shaft motion",
        needs: &["input-shaft-1|input-shaft-2|output-shaft"],
        uses: &["supply-current", "supply-voltage", "engine-speed"],
        inputs: crate::PULSES_AND_TRAINS,
        kinds: &[
            ("shaft-turning", "rpm|Hz"),
            ("shaft-turning-at-rest", "rpm|Hz"),
            ("shaft-speed", "rpm|Hz"),
            ("shaft-at-rest", "rpm|Hz"),
            ("rotation-refused", "Hz"),
        ],
        messages: &[
            ("turning-at-rest", TURNING),
            ("turning-drives", TURNING),
            ("turning-vehicle-moves", TURNING),
            ("turning-engine-off", TURNING),
            ("turning-commanded", TURNING),
            ("turning-coasting", TURNING),
            ("turning-briefly", TURNING),
            ("turning-slow", TURNING),
            ("turning-unsteady", TURNING),
            ("turning-conditions-unknown", TURNING),
            ("turning-command-unknown", TURNING),
            ("turning-command-possible", TURNING),
            ("turning-output", TURNING),
            ("shaft-speed", &[]),
            ("shaft-speed-if-turning", &[]),
            ("shaft-at-rest", REST),
            ("shaft-at-rest-creep", REST),
            ("shaft-at-rest-vr", REST),
            ("shaft-at-rest-briefly", REST),
            ("shaft-at-rest-in-gear", REST),
            ("shaft-at-rest-engine-off", REST),
            ("shaft-at-rest-engine-unknown", REST),
            ("shaft-silent", &["detectable"]),
            ("shaft-silent-engine-off", &["detectable"]),
            ("shaft-rest-in-noise", &["below_hz"]),
            ("shaft-motion-too-short", &[]),
            ("rotation-refused-undersampled", &["detail"]),
            ("rotation-refused-dithering", &["detail"]),
            ("rotation-refused-irregular", &["detail"]),
            ("rotation-refused-small-swing", &["detail"]),
            ("rotation-refused-spikes", &["detail"]),
            ("rotation-refused-too-regular", &["detail"]),
            ("rotation-refused-hum", &["detail"]),
            ("rotation-refused-too-quick", &["detail"]),
            ("rotation-refused-noise", &["detail"]),
            ("rotation-refused-copy", &["detail"]),
            ("rotation-refused-current", &["detail"]),
            ("rotation-refused-steady", &["detail"]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        let conditions = input.conditions();
        let commands = Commands::of(input, &limits);
        let shafts = shafts(input);
        for shaft in shafts.iter().filter(|s| SHAFTS.contains(&s.channel.role)) {
            let context = Context {
                input,
                all: &shafts,
                conditions: &conditions,
                commands: &commands,
                limits: &limits,
            };
            observe(shaft, &context, out);
        }
        Ok(())
    }
}

/// The shafts' and the engine's channels with their trains.
fn shafts<'a>(input: &'a Input<'a>) -> Vec<Shaft<'a>> {
    let roles = SHAFTS.iter().chain(&["engine-speed"]);
    let shaft = |role: &&str| {
        Some(Shaft {
            channel: input.channel(role)?,
            train: input.train(role)?,
        })
    };
    roles.filter_map(shaft).collect()
}

/// Times in which the pulses of a parked shaft's sensor are another signal's, or may be: start and end, s. Nothing is told of
/// the sensor by them.
pub(crate) fn picked_up(input: &Input<'_>, role: &str, limits: &Limits<'_>) -> Vec<(f64, f64)> {
    let (conditions, commands) = (input.conditions(), Commands::of(input, limits));
    // A shaft that a gear may turn is taken to turn.
    if commands.selector != Selector::NoDrive {
        return Vec::new();
    }
    let shafts = shafts(input);
    let context = Context {
        input,
        all: &shafts,
        conditions: &conditions,
        commands: &commands,
        limits,
    };
    let own = shafts.iter().filter(|s| s.channel.role == role);
    own.flat_map(|s| s.train.turning().map(move |segment| (s, segment)))
        .filter(|(shaft, segment)| pickup::find(shaft, segment, &context).is_some())
        .map(|(_, segment)| (segment.start_s, segment.end_s))
        .collect()
}

/// Evidence on one shaft.
pub(crate) struct Context<'a> {
    pub input: &'a Input<'a>,
    pub all: &'a [Shaft<'a>],
    pub conditions: &'a Conditions,
    pub commands: &'a Commands,
    pub limits: &'a Limits<'a>,
}

impl Context<'_> {
    /// True where a gear may hold the input shafts: a driving position, or a vehicle that moves in this recording.
    fn may_be_in_gear(&self) -> bool {
        let output = |s: &&Shaft<'_>| s.channel.role == "output-shaft";
        let moves = self.all.iter().filter(output);
        self.commands.selector == Selector::Drive
            || moves.flat_map(|s| s.train.turning()).next().is_some()
    }
}

fn observe(shaft: &Shaft<'_>, context: &Context<'_>, out: &mut Output) {
    // Parked, the shaft could turn at idle speed; a recording that could not have shown that shows no other speed.
    let alias = alias(
        shaft.channel,
        &shaft.train,
        context.commands,
        context.limits,
    );
    let mut hidden = false;
    let mut pauses: Vec<&Segment> = Vec::new();
    for segment in &shaft.train.segments {
        if let Some(hz) = rest::hidden_below(segment) {
            rest::observe_hidden(shaft, segment, hz, context, out);
            continue;
        }
        match refusal(shaft, segment, alias, context) {
            Some((message, detail)) => {
                hidden |= refusal::hides_the_shaft(message);
                out.add(refusal::observation(shaft, segment, message, detail));
                if message == "rotation-refused-steady" {
                    out.observations.extend(turning::speed(
                        shaft,
                        segment,
                        "shaft-speed-if-turning",
                    ));
                }
            }
            None if segment.is_turning() => turning::observe(shaft, segment, context, out),
            None => pauses.push(segment),
        }
    }
    if !hidden {
        rest::observe(shaft, &pauses, context, out);
    }
}

/// Reason why the pulses of a segment are not taken for rotation: message and detail.
fn refusal(
    shaft: &Shaft<'_>,
    segment: &Segment,
    alias: Option<f64>,
    context: &Context<'_>,
) -> Option<(&'static str, String)> {
    match segment.kind {
        SegmentKind::Unreadable(reason) => Some(refusal::of_reason(reason)),
        _ if alias.is_some() => alias.map(|n| refusal::of_reason(RejectReason::Undersampled(n))),
        SegmentKind::Turning => pickup::find(shaft, segment, context),
        _ => None,
    }
}

/// Three decimals are below every uncertainty here and keep the findings readable.
fn round(v: f64) -> f64 {
    (v * 1000.0).round() / 1000.0
}
