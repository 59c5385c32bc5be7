//! Interruptions of a train that goes on: the shaft turned on, the signal did not.

use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::{Dropout, ToothTrain};
use plugin_sdk::{ChannelView, Grade, Limit, Observation, Output};

/// Interruptions from which on a sensor is faulty: one may be a disturbed cable or a knocked probe. Common practice, no
/// source.
const LEAST: usize = 2;

/// Longest interruption over which a shaft that stopped could not have come back to its speed unnoticed, s; judgement:
/// where the phase after it cannot be told.
const LONGEST_WITHOUT_PHASE_S: f64 = 1.0;

/// Distance beyond its two levels at which a line is disconnected, share of the amplitude.
const BEYOND: f64 = 0.15;

pub fn observe(channel: &ChannelView<'_>, train: &ToothTrain, out: &mut Output) {
    let dropouts: Vec<Dropout> = train
        .dropouts
        .iter()
        .copied()
        .filter(|d| goes_on(d))
        .collect();
    let (Some(first), Some(last)) = (dropouts.first(), dropouts.last()) else {
        return;
    };
    if dropouts.len() < LEAST {
        return;
    }
    let lost: f64 = dropouts.iter().map(|d| d.end_s - d.start_s).sum();
    let message = match contact_opens(channel, train, &dropouts) {
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

/// In most interruptions the line stands at a level that the sensor itself never gives (disconnected from its load or its
/// supply), or edges bounce about as often as interruptions begin.
fn contact_opens(channel: &ChannelView<'_>, train: &ToothTrain, dropouts: &[Dropout]) -> bool {
    let (low, high) = (train.signal.low, train.signal.high);
    let margin = BEYOND * (high - low);
    let stands_beyond = |d: &&Dropout| {
        let at = |t| channel.time.index_at(t, channel.len());
        let part = channel.part(at(d.start_s)..at(d.end_s));
        let inside: Vec<f64> = part.iter().map(|&v| f64::from(v)).collect();
        stats::median(&inside).is_some_and(|m| m < low - margin || m > high + margin)
    };
    let beyond = dropouts.iter().filter(stands_beyond).count();
    let bounces = train.glitches >= dropouts.len();
    2 * beyond > dropouts.len() || bounces
}
