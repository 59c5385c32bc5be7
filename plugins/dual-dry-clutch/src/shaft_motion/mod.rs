//! Shaft motion: which shafts turn, how fast, and whether they may.

mod meaning;
mod pickup;

use crate::LIMITS;
use crate::clutch::Commands;
use crate::recording_checks::alias;
use meaning::Meaning;
use plugin_sdk::derived::ending_word;
use plugin_sdk::signal::rotation::{Doubt, ShaftRecord, Span, rpm};
use plugin_sdk::{
    Analyzer, ChannelView, Conditions, Declaration, Grade, Input, Limits, Observation, Output,
};

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
    "ending",
];

/// The analyzer.
pub struct ShaftMotion;

/// One shaft's channel with what its tooth train shows.
pub(crate) struct Shaft<'a> {
    pub channel: &'a ChannelView<'a>,
    pub record: ShaftRecord,
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
            ("shaft-at-rest", "rpm"),
            ("rotation-refused", "Hz"),
        ],
        messages: &[
            ("turning-at-rest", TURNING),
            ("turning-drives", TURNING),
            ("turning-vehicle-moves", TURNING),
            ("turning-engine-off", TURNING),
            ("turning-commanded", TURNING),
            ("turning-coasting", TURNING),
            ("turning-slow", TURNING),
            ("turning-conditions-unknown", TURNING),
            ("turning-command-unknown", TURNING),
            ("turning-output", TURNING),
            ("shaft-speed", &[]),
            ("shaft-at-rest", &["edges"]),
            ("shaft-at-rest-creep", &["edges"]),
            ("shaft-at-rest-vr", &["edges"]),
            ("shaft-at-rest-engine-off", &["edges"]),
            ("shaft-at-rest-engine-unknown", &["edges"]),
            ("rotation-refused-undersampled", &["detail"]),
            ("rotation-refused-dithering", &["detail"]),
            ("rotation-refused-small-swing", &["detail"]),
            ("rotation-refused-spikes", &["detail"]),
            ("rotation-refused-too-regular", &["detail"]),
            ("rotation-refused-too-quick", &["detail"]),
            ("rotation-refused-copy", &["detail"]),
            ("rotation-refused-current", &["detail"]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        let conditions = input.conditions();
        let commands = Commands::of(input, &limits);
        let shafts: Vec<Shaft<'_>> = SHAFTS
            .iter()
            .chain(&["engine-speed"])
            .filter_map(|role| {
                Some(Shaft {
                    channel: input.channel(role)?,
                    record: input.train(role)?,
                })
            })
            .collect();
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

/// What one shaft is judged by.
pub(crate) struct Context<'a> {
    pub input: &'a Input<'a>,
    pub all: &'a [Shaft<'a>],
    pub conditions: &'a Conditions,
    pub commands: &'a Commands,
    pub limits: &'a Limits<'a>,
}

fn observe(shaft: &Shaft<'_>, context: &Context<'_>, out: &mut Output) {
    let limits = context.limits;
    let role = shaft.channel.role;
    let mut turned = false;
    let mut unclear = false;
    // Parked, the shaft could turn at idle speed; a recording that could not have shown that shows no other speed.
    let alias = alias(shaft.channel, context.commands, limits);
    for span in &shaft.record.spans {
        let refused = span
            .doubt
            .map(doubt_word)
            .or_else(|| alias.map(|n| doubt_word(Doubt::Undersampled(n))))
            .or_else(|| {
                pickup::copied_from(shaft, span, context.all)
                    .map(|from| ("rotation-refused-copy", from))
            })
            .or_else(|| {
                pickup::locked_to_current(shaft, span, context.input)
                    .map(|from| ("rotation-refused-current", from))
            });
        if let Some((message, detail)) = refused {
            unclear |= hides_the_shaft(message);
            out.add(refusal(role, span, message, detail));
            continue;
        }
        turned = true;
        let meaning = meaning::meaning(shaft, span, context);
        turning(shaft, span, meaning, limits, out);
    }
    if !turned && !unclear {
        rest(shaft, context.conditions, limits, out);
    }
}

/// True where a refused signal leaves open what the shaft does: an alias may be any speed, and below a clock's strong
/// pulses no tooth would be seen.
fn hides_the_shaft(message: &str) -> bool {
    matches!(
        message,
        "rotation-refused-undersampled" | "rotation-refused-too-regular"
    )
}

fn doubt_word(doubt: Doubt) -> (&'static str, String) {
    match doubt {
        Doubt::Undersampled(n) => ("rotation-refused-undersampled", format!("{n:.1}")),
        Doubt::Dithering(j) => ("rotation-refused-dithering", format!("{:.0}", 100.0 * j)),
        Doubt::SmallSwing(v) => ("rotation-refused-small-swing", format!("{v:.2}")),
        Doubt::Spikes(d) => ("rotation-refused-spikes", format!("{:.0}", 100.0 * d)),
        Doubt::TooRegular(r) => ("rotation-refused-too-regular", format!("{:.2}", 100.0 * r)),
        Doubt::TooQuick(a) => ("rotation-refused-too-quick", format!("{a:.0}")),
    }
}

fn refusal(role: &str, span: &Span, message: &str, detail: String) -> Observation {
    Observation::new("rotation-refused", message)
        .about(role)
        .span(span.start_s, span.end_s)
        .value(span.hz, span.spread_hz, "Hz")
        .arg("detail", detail)
        .grade(Grade::Unusable)
}

fn turning(
    shaft: &Shaft<'_>,
    span: &Span,
    meaning: Meaning,
    limits: &Limits<'_>,
    out: &mut Output,
) {
    let role = shaft.channel.role;
    let (kind, message, grade) = meaning.finding();
    let teeth = shaft.channel.facts.teeth;
    // Half of the 16 to 84 % range is how the speed itself scatters; the median of n teeth is known better by
    // the root of n, and one sample at either end of the span bounds it from below.
    let n = (span.last - span.first) as f64;
    let sampling = span.hz / (span.samples_per_period * n);
    let u_hz = (span.spread_hz / n.sqrt()).hypot(sampling);
    let valued = |o: Observation| match teeth {
        Some(t) => o.value(rpm(span.hz, t), rpm(u_hz, t), "rpm"),
        None => o.value(span.hz, u_hz, "Hz"),
    };
    let o = Observation::new(kind, message)
        .about(role)
        .span(span.start_s, span.end_s)
        .arg("duration_s", round(span.end_s - span.start_s))
        .arg("steady_s", round(span.plateau.end_s - span.plateau.start_s))
        .arg("steady_hz", round(span.plateau.hz))
        .arg("jitter", round(span.jitter))
        .arg("swing", round(span.swing))
        .arg("samples_a_tooth", round(span.samples_per_period))
        .arg("acceleration_hz_s", round(span.acceleration_hz_s))
        .arg("ending", ending_word(span.ending))
        .grade(grade);
    let mut o = valued(o);
    if shaft.record.noise > 0.0 {
        o = o.arg("swing_to_noise", round(span.swing / shaft.record.noise));
    }
    if kind == "shaft-turning-at-rest" {
        o = o.limit(limits.limit("parked-input-speed"));
    }
    out.add(o);
    if teeth.is_some() {
        out.add(valued(
            Observation::new("shaft-speed", "shaft-speed")
                .about(role)
                .span(span.start_s, span.end_s),
        ));
    }
}

fn rest(shaft: &Shaft<'_>, conditions: &Conditions, limits: &Limits<'_>, out: &mut Output) {
    let c = shaft.channel;
    let (from, to) = (c.time.at(0), c.time.at(c.len() - 1));
    let (running, unknown) = conditions.running_share(from, to);
    // Rest clears a clutch only while a running engine would have shown its drag.
    let watched = running * (to - from) >= limits.number("steady-turning");
    // A few edges below the least turning speed: the shaft creeps or one tooth stands before the sensor.
    let message = match (shaft.record.rises.is_empty(), c.facts.sensor.as_deref()) {
        _ if !watched && unknown => "shaft-at-rest-engine-unknown",
        _ if !watched => "shaft-at-rest-engine-off",
        (true, Some("vr")) => "shaft-at-rest-vr",
        (true, _) => "shaft-at-rest",
        (false, _) => "shaft-at-rest-creep",
    };
    out.add(
        Observation::new("shaft-at-rest", message)
            .about(c.role)
            .span(from, to)
            .value(0.0, limits.number("least-turning-speed") / 2.0, "rpm")
            .arg("edges", shaft.record.rises.len())
            .limit(limits.limit("parked-input-speed")),
    );
}

fn round(v: f64) -> f64 {
    (v * 1000.0).round() / 1000.0
}
