//! Interruptions of a train that goes on: the shaft turned on, the signal did not.

use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::{Dropout, ToothTrain};
use plugin_sdk::{ChannelView, Grade, Limit, Observation, Output};

/// Interruptions from which on a sensor is faulty: one may be a disturbed cable or a knocked probe. Common practice, no
/// source.
pub const LEAST: usize = 2;

/// Longest interruption over which a shaft that stopped could not have come back to its speed unnoticed, s; judgement:
/// where the phase after it cannot be told.
const LONGEST_WITHOUT_PHASE_S: f64 = 1.0;

/// Distance beyond its two levels at which a line is disconnected, share of the amplitude.
const BEYOND: f64 = 0.15;

/// `picked_up`: times in which the pulses may be another signal's, whose pauses are none of the sensor.
pub fn observe(
    channel: &ChannelView<'_>,
    train: &ToothTrain,
    picked_up: &[(f64, f64)],
    out: &mut Output,
) {
    let own = own_levels(channel, train);
    // A line that stands where the sensor never does is interrupted, whatever the phase after it.
    let is_own = |d: &Dropout| {
        !picked_up
            .iter()
            .any(|&(a, b)| d.start_s >= a && d.end_s <= b)
    };
    let counts = |d: &&Dropout| is_own(d) && (goes_on(d) || stands_beyond(channel, d, own));
    let dropouts: Vec<Dropout> = train.dropouts.iter().filter(counts).copied().collect();
    let (Some(first), Some(last)) = (dropouts.first(), dropouts.last()) else {
        return;
    };
    if dropouts.len() < LEAST {
        return;
    }
    let lost: f64 = dropouts.iter().map(|d| d.end_s - d.start_s).sum();
    let beyond = dropouts.iter().filter(|d| stands_beyond(channel, d, own));
    let opens = 2 * beyond.count() > dropouts.len() || train.glitches >= dropouts.len();
    // Edges that bounce about as often as interruptions begin are a contact's, too.
    let message = match opens {
        true => "sensor-contact",
        false => "sensor-dropouts",
    };
    out.add(
        Observation::new("sensor-fault", message)
            .about(channel.role)
            .span(first.start_s, last.end_s)
            // Interruptions are counted: a count has no uncertainty.
            .value(dropouts.len() as f64, 0.0, "count")
            .limit(Limit {
                low: None,
                high: Some(LEAST as f64 - 1.0),
                unit: "count".into(),
                source: "common practice, no source".into(),
            })
            .arg("lost_s", (lost * 100.0).round() / 100.0)
            .grade(Grade::Abnormal),
    );
}

/// The train goes on in phase; or at its speed, after too short a time for a shaft to have stopped and come back.
fn goes_on(dropout: &Dropout) -> bool {
    let short = dropout.end_s - dropout.start_s < LONGEST_WITHOUT_PHASE_S;
    dropout.in_phase.unwrap_or(short)
}

/// Levels of the sensor itself: over the longest stretch of turning without an interruption.
fn own_levels(channel: &ChannelView<'_>, train: &ToothTrain) -> (f64, f64) {
    let breaks = train.dropouts.iter().map(|d| (d.start_s, d.end_s));
    let mut bounds: Vec<(f64, f64)> = Vec::new();
    for segment in train.turning() {
        let mut from = segment.start_s;
        for (a, b) in breaks
            .clone()
            .filter(|d| (segment.start_s..segment.end_s).contains(&d.0))
        {
            bounds.push((from, a));
            from = b;
        }
        bounds.push((from, segment.end_s));
    }
    let longest = bounds
        .into_iter()
        .max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
    let Some((from, to)) = longest else {
        return (train.signal.low, train.signal.high);
    };
    let at = |t| channel.time.index_at(t, channel.len());
    let part = channel.part(at(from)..at(to));
    let level = |q| stats::sampled_quantile(&part, q, 20_000);
    (
        level(0.02).unwrap_or(train.signal.low),
        level(0.98).unwrap_or(train.signal.high),
    )
}

/// During an interruption the line stands at a level that the sensor itself never gives: disconnected from its load or its
/// supply.
fn stands_beyond(channel: &ChannelView<'_>, dropout: &Dropout, (low, high): (f64, f64)) -> bool {
    let margin = BEYOND * (high - low);
    let at = |t| channel.time.index_at(t, channel.len());
    let part = channel.part(at(dropout.start_s)..at(dropout.end_s));
    let level = stats::sampled_quantile(&part, 0.5, 20_000);
    level.is_some_and(|m| m < low - margin || m > high + margin)
}
