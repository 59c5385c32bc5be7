//! Frames, periods, gaps, silent and flooding nodes of a bus log.

use super::Facts;
use crate::measure::frame::Identifier;
use crate::measure::log::{BusLog, Node};
use plugin_sdk::Limits;
use plugin_sdk::{Grade, Observation, Output};

/// Shortest log that says something of identifiers that never sent, s, and how often the slowest of the periodic
/// identifiers must have sent in it.
const LEAST_LOG_S: f64 = 2.0;
const LEAST_CYCLES: f64 = 3.0;
/// Names of silent identifiers that are listed, at most.
const MOST_LISTED: usize = 8;
/// A silence is a gap in the node's work from so many of its periods on (common practice of receivers' time-outs).
const GAP_PERIODS: f64 = 5.0;

/// Adds the findings.
pub fn observe(log: &BusLog, facts: &Facts, spec: &Limits<'_>, out: &mut Output) {
    let (from, to) = log.span;
    let about = |kind: &str, message: &str| Observation::new(kind, message).span(from, to);
    out.add(about("frames", "frames-logged").value(log.frames as f64, 0.0, "count"));
    out.add(identifiers(log, facts).span(from, to));
    if let Some(load) = log.load {
        out.add(
            about("bus-load", "bus-load")
                .value(load, 0.01 * load, "%")
                .arg("longest_pause_ms", 1_000.0 * log.longest_pause),
        );
    }
    for node in &log.nodes {
        observe_node(node, log, spec, out);
    }
}

fn identifiers(log: &BusLog, facts: &Facts) -> Observation {
    let count = log.nodes.len() as f64;
    let slowest = log
        .nodes
        .iter()
        .filter_map(|n| n.period)
        .map(|p| p.seconds)
        .fold(0.0, f64::max);
    let length = log.span.1 - log.span.0;
    let told =
        !facts.expected.is_empty() && length >= LEAST_LOG_S && length >= LEAST_CYCLES * slowest;
    let silent: Vec<Identifier> = if told { log.silent.clone() } else { Vec::new() };
    let names: Vec<String> = silent
        .iter()
        .take(MOST_LISTED)
        .map(ToString::to_string)
        .collect();
    let observation = match silent.is_empty() {
        true => Observation::new("identifiers", "identifiers"),
        false => Observation::new("identifiers", "identifiers-silent")
            .grade(Grade::Abnormal)
            .arg("silent", names.join(" "))
            .arg("missing", silent.len()),
    };
    observation.value(count, 0.0, "count")
}

fn observe_node(node: &Node, log: &BusLog, spec: &Limits<'_>, out: &mut Output) {
    let id = node.id.to_string();
    let about = |kind: &str, message: &str, from: f64, to: f64| {
        Observation::new(kind, message).about(&id).span(from, to)
    };
    let (from, to) = node.span;
    let Some(period) = node.period else {
        floods(node, &id, out);
        return;
    };
    out.add(
        about("node-period", "node-period", from, to)
            .value(1_000.0 * period.seconds, 1_000.0 * period.uncertainty, "ms")
            .arg("frames", node.frames)
            .arg("regular", 100.0 * period.regular),
    );
    let mut gap = |message: &str, from: f64, to: f64, grade: Grade| {
        let seconds = to - from;
        let periods = seconds / period.seconds;
        let long = periods >= GAP_PERIODS && seconds > spec.high("node-gap");
        out.add(
            about("node-gap", message, from, to)
                .value(seconds, period.seconds, "s")
                .limit(spec.limit("node-gap"))
                .grade(if long { grade } else { Grade::Normal })
                .arg("duration_s", seconds)
                .arg("periods", periods),
        );
    };
    for silence in &node.gaps {
        gap("node-gap", silence.from_s, silence.to_s, Grade::Abnormal);
    }
    if let Some(since) = node.stopped {
        match log.stopped_at_once {
            true => gap("node-stopped", since, log.span.1, Grade::Abnormal),
            false => gap("node-stopped-as-others", since, log.span.1, Grade::Unusable),
        }
    }
    floods(node, &id, out);
}

fn floods(node: &Node, id: &str, out: &mut Output) {
    for flood in &node.floods {
        out.add(
            Observation::new("node-flood", "node-flood")
                .about(id)
                .span(flood.from_s, flood.to_s)
                .value(flood.rate_hz, 0.02 * flood.rate_hz, "Hz")
                .grade(Grade::Abnormal)
                .arg("share", 100.0 * flood.share)
                .arg("duration_s", flood.to_s - flood.from_s),
        );
    }
}
