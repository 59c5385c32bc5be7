//! A clutch actuation that should have come and did not. What is absent means something only if it would have
//! been seen: when the controller woke within the recording, its whole attempt is in it.

use super::round;
use crate::clutch::is_clutch_actuation;
use plugin_sdk::signal::current::{CurrentLife, CurrentPulse, CurrentRecord};
use plugin_sdk::signal::{Time, stats};
use plugin_sdk::{ChannelView, Grade, Input, Limits, Observation, Output};

/// Time to listen on after the last small event, s. Common practice, no source.
const LISTEN_S: f64 = 2.0;

/// Time to listen where nothing shows that an attempt was made, s; judgement: an attempt begins within seconds.
const LISTEN_UNPROMPTED_S: f64 = 10.0;

/// Share of the time below which the engine counts as off.
const ENGINE_OFF: f64 = 0.2;

/// Smallest feed resistance that a healthy harness has, ohm: bounds the current that a dip in the supply
/// voltage can stand for. A metre of 2.5 mm2 copper alone has 6.9 milliohm (IEC 60028), and a feed has more.
const LEAST_FEED_OHM: f64 = 0.008;

pub fn observe(
    input: &Input<'_>,
    channel: &ChannelView<'_>,
    record: &CurrentRecord,
    limits: &Limits<'_>,
    out: &mut Output,
) {
    let Some((start, end)) = channel.span() else {
        return;
    };
    let first = record.pulses.first().map(|p| p.start_s);
    let woke = record.wake.filter(|w| first.is_none_or(|t| w.0 < t));
    let from = match record.pulses.last() {
        Some(last) => last.end_s,
        None => woke.map_or(start, |w| w.0),
    };
    let stalled = record.pulses.iter().any(|p| p.stalled);
    let listen_s = match woke.is_none() && record.pulses.is_empty() {
        true => LISTEN_UNPROMPTED_S,
        false => LISTEN_S,
    };
    let alive = record.alive != CurrentLife::None;
    // With the engine off no clutch is tried unless the controller was woken to do so.
    let (running, unknown) = input.conditions().running_share(from, end);
    let idle = woke.is_none() && !unknown && running < ENGINE_OFF;
    if idle
        || !alive
        || stalled
        || end - from < listen_s
        || !is_small(input, channel, record, limits)
    {
        return;
    }
    let mut o = Observation::new(
        "actuation-absent",
        match woke {
            Some(_) => "actuation-absent",
            None => "actuation-absent-unwatched",
        },
    )
    .about(channel.role)
    .span(from, end)
    // Counted: no uncertainty.
    .value(record.pulses.len() as f64, 0.0, "count")
    .arg("listened_s", ((end - from) * 10.0).round() / 10.0)
    .arg("detectable", round(record.capability.rise))
    .arg("detectable_unit", channel.unit)
    .grade(match woke {
        Some(_) => Grade::Abnormal,
        None => Grade::Unusable,
    });
    if let Some((at, _)) = woke {
        o = o.arg("woke_s", (at * 100.0).round() / 100.0);
    }
    out.add(o);
}

/// True where every pulse is too small for a clutch actuator, and one of its size would have been seen.
fn is_small(
    input: &Input<'_>,
    channel: &ChannelView<'_>,
    record: &CurrentRecord,
    limits: &Limits<'_>,
) -> bool {
    let bound = limits.low("clutch-actuation-peak");
    let below = |bound: f64| {
        record.capability.rise < bound && record.pulses.iter().all(|p| p.rise() < bound)
    };
    if channel.facts.calibrated {
        return below(bound);
    }
    let by_dips = input
        .channel("supply-voltage")
        .is_some_and(|v| deepest_dip(v, record) / LEAST_FEED_OHM < 1.2 * bound);
    // The controller's own current, seen when it woke, is the other yardstick: a clutch actuation is more than ten times
    // as much. Common practice, no source.
    by_dips && record.wake.is_some_and(|(_, rise)| below(9.0 * rise))
}

/// A clutch actuator's own line that stays silent while the other one's works freely. On its own that is no fault: an
/// attempt may mean one clutch only. Where nothing proves that no current flowed, neither the clamp itself nor a feed
/// whose every clutch actuation is the other one's, it is not tested.
pub fn own_lines(input: &Input<'_>, limits: &Limits<'_>, out: &mut Output) {
    const LINES: [&str; 2] = ["actuator-current-1", "actuator-current-2"];
    let records: Vec<_> = LINES
        .iter()
        .filter_map(|role| Some((input.channel(role)?, input.pulses(role)?)))
        .collect();
    let [first, second] = records.as_slice() else {
        return;
    };
    for (silent, other) in [(first, second), (second, first)] {
        let (channel, record) = silent;
        let works = other.1.pulses.len() >= 2 && other.1.pulses.iter().all(|h| !h.stalled);
        if record.pulses.is_empty() && works {
            out.add(
                Observation::new("actuation-absent", "actuation-absent-own-line")
                    .about(channel.role)
                    .span(channel.time.at(0), channel.time.at(channel.len() - 1))
                    // Counted: no uncertainty.
                    .value(0.0, 0.0, "count")
                    .arg("detectable", round(record.capability.rise))
                    .arg("detectable_unit", channel.unit)
                    .grade(match record.alive {
                        CurrentLife::None if !feed_is_explained(input, &other.1, limits) => {
                            Grade::NotTested
                        }
                        _ => Grade::Unusable,
                    }),
            );
        }
    }
}

/// True where the calibrated feed shows clutch actuations, and each of them is on this line too: the feed is the sum of
/// all actuators' currents, so no other clutch actuator drew any.
fn feed_is_explained(input: &Input<'_>, line: &CurrentRecord, limits: &Limits<'_>) -> bool {
    let feed = input
        .channel("supply-current")
        .filter(|c| c.facts.calibrated);
    let Some((feed, record)) = feed.zip(input.pulses("supply-current")) else {
        return false;
    };
    let all = &record.pulses;
    let calibrated = feed.facts.calibrated;
    let mut clutches = (all.iter())
        .filter(|p| is_clutch_actuation(p, all, calibrated, limits))
        .peekable();
    let on_line = |p: &CurrentPulse| {
        let mut pulses = line.pulses.iter();
        pulses.any(|l| l.start_s < p.end_s && l.end_s > p.start_s)
    };
    clutches.peek().is_some() && clutches.all(on_line)
}

/// Deepest dip of the supply voltage during any event, V.
fn deepest_dip(volts: &ChannelView<'_>, record: &CurrentRecord) -> f64 {
    let v = volts.values();
    record
        .pulses
        .iter()
        .map(|h| dip(&v, volts.time, h.start_s, h.end_s))
        .fold(0.0, f64::max)
}

fn dip(v: &[f32], time: Time<'_>, start_s: f64, end_s: f64) -> f64 {
    let part = |a: f64, b: f64| {
        let (i, j) = (time.index_at(a, v.len()), time.index_at(b, v.len()));
        v.get(i..j).unwrap_or_default()
    };
    let rest = stats::sampled_quantile(part(start_s - 0.3, start_s - 0.02), 0.5, 10_000);
    // Noise lies on both sides of the dip: its lowest tenth is low enough.
    let low = stats::sampled_quantile(part(start_s, end_s), 0.1, 10_000);
    match (rest, low) {
        (Some(r), Some(l)) => r - l,
        _ => f64::INFINITY,
    }
}
