//! Measuring that several plugins share: the spec sheet's numbers with their defaults, current events and tooth
//! trains of a channel, and the conditions under which a recording was made.

mod conditions;
mod spec;
pub mod tracks;

pub use conditions::{Belief, Clue, Conditions, EngineAt, KNOWN_DB, Selector};
pub use spec::Spec;

use crate::ChannelView;
use signal::coherence::{Coherence, coherence};
use signal::{current, rotation};

/// Which current events a channel shows.
///
/// `None` when the channel is too short to say.
pub fn current_record(
    channel: &ChannelView<'_>,
    spec: &Spec<'_>,
) -> Option<current::CurrentRecord> {
    let options = current::Options {
        least_peak: if channel.facts.calibrated {
            spec.number("least-hit-peak")
        } else {
            0.0
        },
        stall_hold_s: spec.number("stall-hold"),
        stall_share: spec.number("stall-share"),
    };
    current::analyse(&channel.values(), channel.time, &options)
}

/// What tooth train a speed sensor's channel shows.
///
/// `None` when the channel is too short to say.
pub fn shaft_record(channel: &ChannelView<'_>, spec: &Spec<'_>) -> Option<rotation::ShaftRecord> {
    let waveform = channel.facts.sensor.as_deref().map(|s| match s {
        "vr" => rotation::Waveform::Alternating,
        _ => rotation::Waveform::TwoLevel,
    });
    // A current loop may be recorded across a small resistor: its swing is no measure of its health.
    let hall = channel.facts.sensor.as_deref() == Some("hall");
    let options = rotation::Options {
        waveform,
        teeth: channel.facts.teeth.filter(|&n| n > 0),
        least_rpm: spec.number("least-turning-speed"),
        least_hz: spec.number("least-tooth-rate"),
        least_swing: if hall { spec.number("hall-swing") } else { 0.0 },
        most_acceleration: spec.number("most-acceleration"),
    };
    rotation::analyse(&channel.values(), channel.time, &options)
}

/// Coherence from which two signals have one source. Of unrelated records one in 100,000 comes so high over twelve
/// segments: (1 - C)^(K - 1), the distribution of the estimate when nothing is shared (Carter, Knapp and Nuttall 1973,
/// from memory).
const ONE_SOURCE: f64 = 0.85;

/// Fewest segments for that.
const ONE_SOURCE_SEGMENTS: usize = 12;

/// Whether two channels carry one source's signal at `hz` between two instants: their coherence, over segments of 16
/// periods and 64 samples at least, where it is that high.
///
/// `None` when it is lower, when they were not sampled together, or where there is too little to tell.
pub fn one_source(
    a: &ChannelView<'_>,
    b: &ChannelView<'_>,
    from_s: f64,
    to_s: f64,
    hz: f64,
) -> Option<Coherence> {
    let step = a.time.mean_step(a.len()).filter(|s| *s > 0.0)?;
    let together = a.len() == b.len()
        && a.time.at(0) == b.time.at(0)
        && b.time
            .mean_step(b.len())
            .is_some_and(|s| (s / step - 1.0).abs() < 1e-9);
    let range = a.time.index_at(from_s, a.len())..a.time.index_at(to_s, a.len());
    if !together || hz <= 0.0 || range.is_empty() {
        return None;
    }
    let segment = ((16.0 / hz / step) as usize).max(64);
    coherence(&a.part(range.clone()), &b.part(range), hz * step, segment)
        .filter(|c| c.value > ONE_SOURCE && c.segments >= ONE_SOURCE_SEGMENTS)
}

/// Samples a tooth that a channel would have had at the highest idle speed; `None` without a tooth count. Below about
/// two, a tooth rate beyond half the sample rate looks like a slower one, and no speed may be claimed from the
/// channel (sampling theorem, Shannon 1949).
pub fn samples_a_tooth_at_idle(channel: &ChannelView<'_>, spec: &Spec<'_>) -> Option<f64> {
    let teeth = channel.facts.teeth.filter(|&n| n > 0)?;
    let step = channel.time.mean_step(channel.len()).filter(|s| *s > 0.0)?;
    Some(60.0 / (spec.high("idle-speed") * f64::from(teeth) * step))
}

/// Least samples a tooth at idle speed from which on a parked shaft's speed is believed: two by the theorem, and a
/// margin.
pub const LEAST_SAMPLES_A_TOOTH: f64 = 2.2;

/// Standard uncertainty of a current reading, A: noise of one sample over the root of `samples` together with
/// the probe's accuracy (GUM, independent contributions added in squares).
pub fn current_uncertainty(
    channel: &ChannelView<'_>,
    spec: &Spec<'_>,
    reading: f64,
    noise: f64,
    samples: f64,
) -> f64 {
    let accuracy = channel
        .facts
        .accuracy_percent
        .unwrap_or_else(|| spec.number("clamp-accuracy"));
    (accuracy / 100.0 * reading).hypot(noise / samples.max(1.0).sqrt())
}

/// Whether an event is as large as a clutch actuator's (a gear motor's is smaller). Without a scale the events
/// themselves are the yardstick.
pub fn is_clutch_hit(
    hit: &current::Hit,
    all: &[current::Hit],
    calibrated: bool,
    spec: &Spec<'_>,
) -> bool {
    let least = match calibrated {
        true => spec.low("clutch-hit-peak"),
        false => least_clutch_rise(all),
    };
    hit.rise() >= least
}

/// Least rise of a clutch actuator's event, in the recorder's own unit: that above the widest gap between events that
/// are no stall, by ratio, or 0.6 of the largest, whichever takes more of them in.
fn least_clutch_rise(all: &[current::Hit]) -> f64 {
    let mut rises: Vec<f64> = all
        .iter()
        .filter(|h| !h.stalled)
        .map(|h| h.rise())
        .collect();
    rises.sort_by(f64::total_cmp);
    let share = 0.6 * rises.last().copied().unwrap_or(0.0);
    rises
        .windows(2)
        .filter(|w| w[1] > 1.4 * w[0])
        .max_by(|a, b| (a[1] / a[0]).total_cmp(&(b[1] / b[0])))
        .map_or(share, |w| share.min(w[1]))
}
