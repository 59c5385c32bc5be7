//! A shaft without pulses: at rest where the channel is proven alive, else not tested.

use super::{Context, Shaft, round};
use plugin_sdk::signal::teeth::{ProofOfLife, RejectReason, Segment, SegmentKind, Waveform};
use plugin_sdk::{Grade, Observation, Output};

/// Shortest rest that is told, s: shorter ones are pauses between two movements.
const LEAST_S: f64 = 0.5;

/// Share of the time below which the engine counts as off.
const ENGINE_OFF: f64 = 0.2;

pub fn observe(shaft: &Shaft<'_>, pauses: &[&Segment], context: &Context<'_>, out: &mut Output) {
    let is_rest = |s: &Segment| s.kind == SegmentKind::AtRest;
    let mut told = shaft.train.turning().next().is_some();
    // A rest is cut at each stray edge.
    for rest in pauses.chunk_by(|a, b| is_rest(a) && is_rest(b) && a.end_s == b.start_s) {
        let length_s = rest[rest.len() - 1].end_s - rest[0].start_s;
        match rest[0].kind {
            SegmentKind::AtRest if length_s >= LEAST_S || !told => {
                at_rest(shaft, rest, context, out)
            }
            SegmentKind::Silent => silent(shaft, rest[0], context, out),
            _ => continue,
        }
        told = true;
    }
    let unreadable = |s: &Segment| matches!(s.kind, SegmentKind::Unreadable(_));
    if !told && !shaft.train.segments.iter().any(unreadable) {
        too_short(shaft, out);
    }
}

/// Tooth rate below which noise would hide a coil's teeth in a pause of the train, Hz.
pub fn hidden_below(segment: &Segment) -> Option<f64> {
    match segment.kind {
        SegmentKind::Unreadable(RejectReason::Noise(hz)) if segment.motion.is_none() => Some(hz),
        _ => None,
    }
}

/// A pause in which a slow shaft would not be seen. Where the engine is off or a gear may hold the shaft, no drag is looked
/// for, and it takes nothing away.
pub fn observe_hidden(
    shaft: &Shaft<'_>,
    segment: &Segment,
    below_hz: f64,
    context: &Context<'_>,
    out: &mut Output,
) {
    let (running, unknown) = (context.conditions).running_share(segment.start_s, segment.end_s);
    let watched = unknown || running >= ENGINE_OFF;
    if segment.duration_s() < LEAST_S || !watched || context.may_be_in_gear() {
        return;
    }
    out.add(
        Observation::new("shaft-at-rest", "shaft-rest-in-noise")
            .about(shaft.channel.role)
            .span(segment.start_s, segment.end_s)
            .arg("below_hz", round(below_hz))
            .grade(Grade::NotTested),
    );
}

fn at_rest(shaft: &Shaft<'_>, rest: &[&Segment], context: &Context<'_>, out: &mut Output) {
    let Context {
        conditions, limits, ..
    } = *context;
    let (from, to) = (rest[0].start_s, rest[rest.len() - 1].end_s);
    let (running, unknown) = conditions.running_share(from, to);
    // Rest clears a clutch only while a running engine would have shown its drag.
    let watched = running * (to - from) >= limits.number("steady-turning");
    let stray = rest.len() - 1;
    // A few edges below the least turning speed: the shaft creeps or one tooth stands before the sensor.
    let input_shaft = shaft.channel.role != "output-shaft";
    let message = match (stray, shaft.train.signal.waveform) {
        (0, _) if !input_shaft => "shaft-at-rest",
        _ if context.may_be_in_gear() => "shaft-at-rest-in-gear",
        _ if !watched && unknown => "shaft-at-rest-engine-unknown",
        _ if !watched && running < ENGINE_OFF => "shaft-at-rest-engine-off",
        _ if !watched => "shaft-at-rest-briefly",
        (0, Waveform::Alternating) => "shaft-at-rest-vr",
        (0, Waveform::TwoLevel) => "shaft-at-rest",
        _ => "shaft-at-rest-creep",
    };
    let slowest = |of: fn(&Segment) -> Option<f64>| {
        let all = rest.iter().filter_map(|s| of(s));
        all.reduce(f64::max)
    };
    let unseen_rpm = slowest(|s| s.capability?.below_rpm);
    let unseen_hz = slowest(|s| Some(s.capability?.below_hz)).unwrap_or(0.0);
    let detectable = slowest(|s| Some(s.capability?.amplitude)).unwrap_or(0.0);
    let (unseen, unit) = match unseen_rpm {
        Some(rpm) => (rpm, "rpm"),
        None => (unseen_hz, "Hz"),
    };
    // Anywhere between none and the slowest that would have been seen (rectangular, GUM 4.3.7).
    let u = unseen / 3f64.sqrt();
    let mut o = Observation::new("shaft-at-rest", message)
        .about(shaft.channel.role)
        .span(from, to)
        .value(0.0, u, unit)
        .arg("edges", stray)
        .arg("alive", alive(shaft.train.alive))
        .arg("unseen", round(unseen))
        .arg("unseen_unit", unit)
        .arg("detectable", round(detectable));
    // A limit below what would have been seen is not what the rest is held against.
    if unit == "rpm" && 2.0 * u < limits.high("parked-input-speed") {
        o = o.limit(limits.limit("parked-input-speed"));
    }
    out.add(o);
}

fn alive(proof: ProofOfLife) -> &'static str {
    match proof {
        ProofOfLife::Pulsed => "pulsed",
        ProofOfLife::Toggled => "toggled",
        ProofOfLife::Quiescent(_) => "quiescent",
        ProofOfLife::None => "none",
    }
}

/// A channel without a pulse that nothing proves alive: neither rest nor a fault.
fn silent(shaft: &Shaft<'_>, segment: &Segment, context: &Context<'_>, out: &mut Output) {
    let (running, unknown) = context
        .conditions
        .running_share(segment.start_s, segment.end_s);
    // With the engine off nothing would have turned it: the silence hides nothing.
    let message = match !unknown && running < ENGINE_OFF {
        true => "shaft-silent-engine-off",
        false => "shaft-silent",
    };
    let detectable = segment.capability.map_or(0.0, |c| c.amplitude);
    out.add(
        Observation::new("shaft-at-rest", message)
            .about(shaft.channel.role)
            .span(segment.start_s, segment.end_s)
            .arg("detectable", round(detectable))
            .grade(Grade::NotTested),
    );
}

fn too_short(shaft: &Shaft<'_>, out: &mut Output) {
    let Some((from, to)) = shaft.channel.span() else {
        return;
    };
    out.add(
        Observation::new("shaft-at-rest", "shaft-motion-too-short")
            .about(shaft.channel.role)
            .span(from, to)
            .grade(Grade::NotTested),
    );
}
