//! Electrical pick-up: a sensor line that carries its neighbour's signal while its own shaft rests.

use super::Shaft;
use crate::one_source::one_source;
use plugin_sdk::signal::rotation::{Span, Waveform, phase_lock};
use plugin_sdk::{Input, Quantity};

/// Share of the other channel's swing below which a locked signal is a copy of it. Two sensors of one kind at one
/// speed swing alike; common practice, no source.
const COPY_SHARE: f64 = 0.35;

/// The role that this span's signal is a copy of, or `None`.
///
/// A copy keeps its place within the other signal's periods (mean phase vector near 1) and is much smaller than a
/// sensor's own signal at that tooth rate would be.
pub fn copied_from(shaft: &Shaft<'_>, span: &Span, all: &[Shaft<'_>]) -> Option<String> {
    let own = &shaft.record.rises[span.first..=span.last];
    all.iter()
        .filter(|o| o.channel.role != shaft.channel.role)
        .find(|other| {
            let rises = &other.record.rises;
            let locked = |a, b| phase_lock(a, b).is_some_and(|r| r > 0.9);
            (locked(own, rises) || locked(rises_within(rises, span), own))
                && is_small(shaft, span, other)
        })
        .map(|o| o.channel.role.to_string())
}

/// The current channel whose own alternation at the tooth rate this span's signal follows, or `None`: a pulse-width
/// modulated load, not a shaft.
pub fn locked_to_current(shaft: &Shaft<'_>, span: &Span, input: &Input<'_>) -> Option<String> {
    input
        .channels
        .iter()
        .filter(|c| c.quantity == Quantity::Current)
        .find(|c| one_source(shaft.channel, c, span.start_s, span.end_s, span.hz).is_some())
        .map(|c| c.role.to_string())
}

fn rises_within<'a>(rises: &'a [f64], span: &Span) -> &'a [f64] {
    let a = rises.partition_point(|&t| t < span.start_s);
    let b = rises.partition_point(|&t| t <= span.end_s);
    &rises[a..b]
}

fn is_small(shaft: &Shaft<'_>, span: &Span, other: &Shaft<'_>) -> bool {
    let swing = other
        .record
        .spans
        .iter()
        .filter(|s| s.start_s < span.end_s && s.end_s > span.start_s)
        .map(|s| {
            // A coil's voltage grows with the tooth rate.
            match (shaft.record.waveform, other.record.waveform) {
                (Waveform::Alternating, Waveform::Alternating) if s.hz > 0.0 => {
                    s.swing * span.hz / s.hz
                }
                _ => s.swing,
            }
        })
        .fold(0.0, f64::max);
    span.swing < COPY_SHARE * swing
}
