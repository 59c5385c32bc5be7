//! Pulses in a channel, as far as they would be a speed sensor's.

use model::TimeAxis;
use plugin_sdk::signal::Time;
use plugin_sdk::signal::teeth::{
    Options, PatternKind, Segment, SegmentKind, ToothTrain, Waveform, read_train,
};

/// Positions of a segment that is worth a line.
const LEAST_POSITIONS: u32 = 20;

/// Describes the tooth train that the channel would be: its rate, and the wheel where its pattern shows one.
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
    let train = read_train(x, time, &Options::default())?;
    let long = |s: &&Segment| s.motion.is_some_and(|m| m.positions >= LEAST_POSITIONS);
    let by_length = |a: &&Segment, b: &&Segment| a.duration_s().total_cmp(&b.duration_s());
    let segment = train.segments.iter().filter(long).max_by(by_length)?;
    let m = segment.motion?;
    let speed = match m.rpm {
        Some(rpm) => format!("; {}: {rpm:.1} rpm", wheel(&train)),
        None => String::new(),
    };
    let trust = match segment.kind {
        SegmentKind::Unreadable(reason) => format!("; not to be trusted as a speed: {reason}"),
        _ => String::new(),
    };
    let doubled = match train.glitches + train.doubled {
        0 => String::new(),
        n => format!("; {n} doubled edges were left out, look at the signal before trusting it"),
    };
    let wrapped = match train.signal.wrapped {
        0 => String::new(),
        n => format!(
            "; {n} samples beyond the recorder's range came out at its other end, widen the range"
        ),
    };
    let wave = match train.signal.waveform {
        Waveform::TwoLevel => "two levels",
        Waveform::Alternating => "alternating",
    };
    Some(format!(
        "pulses ({wave}) from {:.3} s to {:.3} s at {:.2} Hz (scatter {:.2} Hz){speed}{doubled}{wrapped}{trust}",
        segment.start_s, segment.end_s, m.hz, m.spread_hz
    ))
}

fn wheel(train: &ToothTrain) -> String {
    let pattern = &train.wheel.pattern;
    match pattern.kind {
        PatternKind::Gaps => {
            format!("gaps of a {}-{} wheel", pattern.positions, pattern.missing)
        }
        PatternKind::Extra => {
            let (teeth, extra) = (pattern.positions, pattern.extra);
            format!("a wheel of {teeth} teeth and {extra} more")
        }
        _ => format!("a wheel of {} teeth", pattern.positions),
    }
}
