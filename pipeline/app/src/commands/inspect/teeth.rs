//! Pulses in a channel, as far as they would be a speed sensor's.

use model::TimeAxis;
use plugin_sdk::signal::Time;
use plugin_sdk::signal::rotation;

/// What a tooth train in the channel would be: its rate, and the wheel where gaps show one.
pub fn line(x: &[f32], axis: &TimeAxis) -> Option<String> {
    let time = match axis {
        TimeAxis::Even {
            start_s, step_s, ..
        } => Time::Even {
            start_s: *start_s,
            step_s: *step_s,
        },
        TimeAxis::Listed(t) => Time::Listed(t),
    };
    let options = rotation::Options {
        waveform: None,
        teeth: None,
        least_rpm: 20.0,
        least_hz: 8.0,
        least_swing: 0.0,
        most_acceleration: f64::INFINITY,
    };
    let record = rotation::analyse(x, time, &options)?;
    let long = |s: &&rotation::Span| s.last - s.first >= 20;
    let by_length = |a: &&rotation::Span, b: &&rotation::Span| {
        (a.end_s - a.start_s).total_cmp(&(b.end_s - b.start_s))
    };
    let span = record.spans.iter().filter(long).max_by(by_length)?;
    let wheel = rotation::find_wheel(&record.rises[span.first..=span.last]);
    let speed = wheel.map_or(String::new(), |w| {
        format!(
            "; gaps of a {}-{} wheel: {:.1} rpm",
            w.positions,
            w.missing,
            rotation::rpm(span.hz, w.positions)
        )
    });
    let trust = match span.doubt {
        Some(doubt) => format!("; not to be trusted as a speed: {}", doubt.why()),
        None => String::new(),
    };
    let doubled = match record.glitches {
        0 => String::new(),
        n => format!("; {n} doubled edges were left out, look at the signal before trusting it"),
    };
    let folded = match record.folded {
        0 => String::new(),
        n => format!(
            "; {n} samples beyond the recorder's range came out at its other end, widen the range"
        ),
    };
    let wave = match record.waveform {
        rotation::Waveform::TwoLevel => "two levels",
        rotation::Waveform::Alternating => "alternating",
    };
    Some(format!(
        "pulses ({wave}) from {:.3} s to {:.3} s at {:.2} Hz (scatter {:.2} Hz){speed}{doubled}{folded}{trust}",
        span.start_s, span.end_s, span.hz, span.spread_hz
    ))
}
