//! Holes in a steady tooth train, and whether they look like a contact that opens.

use plugin_sdk::signal::rotation::ShaftRecord;
use plugin_sdk::signal::stats;
use plugin_sdk::{ChannelView, Grade, Limit, Observation, Output};

/// Holes from which on a sensor is faulty: one may be a disturbed cable or a knocked probe. Common practice, no
/// source.
const LEAST_HOLES: usize = 2;

/// How far beyond its two levels a line must stand in a hole to be disconnected, share of the swing.
const BEYOND: f64 = 0.15;

pub fn observe(channel: &ChannelView<'_>, record: &ShaftRecord, out: &mut Output) {
    let holes = &record.dropouts;
    let (Some(first), Some(last)) = (holes.first(), holes.last()) else {
        return;
    };
    if holes.len() < LEAST_HOLES {
        return;
    }
    let lost: f64 = holes.iter().map(|d| d.1 - d.0).sum();
    let message = if contact_opens(channel, record) {
        "sensor-contact"
    } else {
        "sensor-dropouts"
    };
    out.add(
        Observation::new("sensor-fault", message)
            .about(channel.role)
            .span(first.0, last.1)
            // Holes are counted: a count has no uncertainty.
            .value(holes.len() as f64, 0.0, "count")
            .limit(Limit {
                low: None,
                high: Some(LEAST_HOLES as f64 - 1.0),
                unit: "count".into(),
                source: "common practice, no source".into(),
            })
            .arg("lost_s", (lost * 100.0).round() / 100.0)
            .grade(Grade::Abnormal),
    );
}

/// In most holes the line stands at a level that the sensor itself never gives (disconnected from its load or its
/// supply), or edges bounce about as often as holes begin.
fn contact_opens(channel: &ChannelView<'_>, record: &ShaftRecord) -> bool {
    let swing = record.high - record.low;
    let beyond = record
        .dropouts
        .iter()
        .filter(|hole| {
            let at = |t| channel.time.index_at(t, channel.len());
            let inside: Vec<f64> = channel
                .part(at(hole.0)..at(hole.1))
                .iter()
                .map(|&v| f64::from(v))
                .collect();
            stats::median(&inside).is_some_and(|m| {
                m < record.low - BEYOND * swing || m > record.high + BEYOND * swing
            })
        })
        .count();
    let bounces = record.glitches >= record.dropouts.len();
    2 * beyond > record.dropouts.len() || bounces
}
