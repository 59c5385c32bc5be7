//! The toothed wheel, tooth by tooth: what comes back at the same place on every turn belongs to the wheel.

use plugin_sdk::signal::rotation::{ShaftRecord, tooth_pattern};
use plugin_sdk::{ChannelView, Grade, Limit, Observation, Output};

/// Samples a tooth below which a period is too coarse to be judged tooth by tooth.
const LEAST_SAMPLES: f64 = 8.0;

pub fn observe(channel: &ChannelView<'_>, record: &ShaftRecord, out: &mut Output) {
    let longest = record
        .turning()
        .filter(|s| s.samples_per_period >= LEAST_SAMPLES)
        .max_by_key(|s| s.last - s.first);
    let Some((span, pattern)) =
        longest.and_then(|s| Some((s, tooth_pattern(&record.rises[s.first..=s.last])?)))
    else {
        return;
    };
    // A coil may give an edge within a gap on one turn and none on the next: then the turns do not line up, and the
    // pattern is none of the wheel that was stated.
    if channel
        .facts
        .teeth
        .is_some_and(|n| n != pattern.positions())
    {
        return;
    }
    let about = |kind: &str, message: &str, count: u32| {
        Observation::new(kind, message)
            .about(channel.role)
            .span(span.start_s, span.end_s)
            // Teeth are counted; every place was averaged over the turns.
            .value(f64::from(count), 0.0, "count")
            .arg("positions", pattern.positions())
            .arg("turns", pattern.turns)
    };
    let stated = channel.facts.missing_teeth;
    match stated {
        Some(m) if pattern.missing > m => out.add(
            about("sensor-fault", "sensor-missing-teeth", pattern.missing)
                .limit(at_most(m, "job.toml: missing_teeth"))
                .grade(Grade::Abnormal),
        ),
        // A gap that nobody spoke of may be the wheel's own.
        None if pattern.missing > 0 => {
            out.add(about("tooth-wheel", "tooth-wheel-gap", pattern.missing));
        }
        _ => {}
    }
    if pattern.doubled > 0 {
        out.add(
            about("sensor-fault", "sensor-doubled-teeth", pattern.doubled)
                .limit(at_most(0, "a tooth gives one pulse"))
                .grade(Grade::Abnormal),
        );
    }
}

fn at_most(count: u32, source: &str) -> Limit {
    Limit {
        low: None,
        high: Some(f64::from(count)),
        unit: "count".into(),
        source: source.into(),
    }
}
