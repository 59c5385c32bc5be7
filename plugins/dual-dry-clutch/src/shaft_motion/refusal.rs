//! Pulses that are no readable rotation: unreadable, with the reason.

use super::Shaft;
use plugin_sdk::signal::teeth::{RejectReason, Segment};
use plugin_sdk::{Grade, Observation};

/// Message and detail of a reason.
pub fn of_reason(reason: RejectReason) -> (&'static str, String) {
    match reason {
        RejectReason::Undersampled(n) => ("rotation-refused-undersampled", format!("{n:.1}")),
        RejectReason::Dithering(s) => ("rotation-refused-dithering", format!("{:.0}", 100.0 * s)),
        RejectReason::Irregular(s) => ("rotation-refused-irregular", format!("{:.0}", 100.0 * s)),
        RejectReason::SmallAmplitude(v) => ("rotation-refused-small-swing", format!("{v:.2}")),
        RejectReason::Spikes(d) => ("rotation-refused-spikes", format!("{:.0}", 100.0 * d)),
        RejectReason::TooRegular(r) => {
            ("rotation-refused-too-regular", format!("{:.2}", 100.0 * r))
        }
        RejectReason::Hum(hz) => ("rotation-refused-hum", format!("{hz:.1}")),
        RejectReason::TooQuick(a) => ("rotation-refused-too-quick", format!("{a:.0}")),
        RejectReason::Noise(hz) => ("rotation-refused-noise", format!("{hz:.0}")),
    }
}

/// True where pulses leave open what the shaft does at any other time as well: an alias may be any speed, and below a
/// clock's strong pulses no tooth would be seen.
pub fn hides_the_shaft(message: &str) -> bool {
    matches!(
        message,
        "rotation-refused-undersampled" | "rotation-refused-too-regular"
    )
}

/// The finding.
pub fn observation(
    shaft: &Shaft<'_>,
    segment: &Segment,
    message: &str,
    detail: String,
) -> Observation {
    let o = Observation::new("rotation-refused", message)
        .about(shaft.channel.role)
        .span(segment.start_s, segment.end_s)
        .arg("detail", detail)
        .grade(Grade::Unreadable);
    match segment.motion {
        Some(m) => o.value(m.hz, m.spread_hz, "Hz"),
        None => o,
    }
}
