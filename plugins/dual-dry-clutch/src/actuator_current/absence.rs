//! A clutch actuation that should have come and did not. What is absent means something only if it would have
//! been seen: when the controller woke within the recording, its whole attempt is in it.

use plugin_sdk::signal::current::CurrentRecord;
use plugin_sdk::signal::{Time, stats};
use plugin_sdk::{ChannelView, Grade, Input, Limits, Observation, Output};

/// How long the recording must listen on after the last small event, s. Common practice, no source.
const LISTEN_S: f64 = 2.0;

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
    let end = channel.time.at(channel.len() - 1);
    let Some(last) = record.pulses.last() else {
        return;
    };
    if end - last.end_s < LISTEN_S || record.pulses.iter().any(|h| h.stalled) {
        return;
    }
    let bound = limits.low("clutch-actuation-peak");
    let small = if channel.facts.calibrated {
        record.pulses.iter().all(|h| h.rise() < bound)
    } else {
        let by_dips = input
            .channel("supply-voltage")
            .is_some_and(|v| deepest_dip(v, record) / LEAST_FEED_OHM < 1.2 * bound);
        // The controller's own current, seen when it woke, is the other yardstick: a clutch hit is more than
        // ten times as much. Common practice, no source.
        let by_wake = record
            .wake
            .is_some_and(|(_, rise)| record.pulses.iter().all(|h| h.rise() < 9.0 * rise));
        by_dips && by_wake
    };
    if !small {
        return;
    }
    let woke = record.wake.filter(|w| w.0 < record.pulses[0].start_s);
    let mut o = Observation::new(
        "actuation-absent",
        if woke.is_some() {
            "actuation-absent"
        } else {
            "actuation-absent-unwatched"
        },
    )
    .about(channel.role)
    .span(last.end_s, end)
    // Counted: no uncertainty.
    .value(record.pulses.len() as f64, 0.0, "count")
    .arg("listened_s", ((end - last.end_s) * 10.0).round() / 10.0)
    .grade(if woke.is_some() {
        Grade::Abnormal
    } else {
        Grade::Unusable
    });
    if let Some((at, _)) = woke {
        o = o.arg("woke_s", (at * 100.0).round() / 100.0);
    }
    out.add(o);
}

/// A clutch actuator's own line that stays silent while the other one's works freely. On its own that is no fault: an
/// attempt may mean one clutch only.
pub fn own_lines(input: &Input<'_>, out: &mut Output) {
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
                    .grade(Grade::Unusable),
            );
        }
    }
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
