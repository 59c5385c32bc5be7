//! Two channels that carry one source's signal.

use plugin_sdk::ChannelView;
use plugin_sdk::signal::coherence::{Coherence, measure_coherence};

/// Share of the other channel's amplitude below which a locked signal is a copy of it. Two sensors of one kind at one
/// speed give alike; common practice, no source.
pub const COPY_SHARE: f64 = 0.35;

/// Coherence from which two signals have one source. Of unrelated records one in 100,000 comes so high over twelve
/// segments: (1 - C)^(K - 1), the distribution of the estimate when nothing is shared (Carter, Knapp and Nuttall 1973,
/// from memory).
const ONE_SOURCE: f64 = 0.85;

/// Fewest segments for that.
const ONE_SOURCE_SEGMENTS: usize = 12;

/// Coherence of two channels at `hz` between two instants, s, over segments of 16 periods and 64 samples at least.
///
/// `None` when it is too low for one source, when they were not sampled together, or where there is too little to tell.
pub fn one_source(
    a: &ChannelView<'_>,
    b: &ChannelView<'_>,
    from_s: f64,
    to_s: f64,
    hz: f64,
) -> Option<Coherence> {
    let step = a.time.mean_step(a.len()).filter(|s| *s > 0.0)?;
    let sampled_together = a.len() == b.len()
        && a.time.at(0) == b.time.at(0)
        && b.time
            .mean_step(b.len())
            .is_some_and(|s| (s / step - 1.0).abs() < 1e-9);
    let range = a.time.index_at(from_s, a.len())..a.time.index_at(to_s, a.len());
    if !sampled_together || hz <= 0.0 || range.is_empty() {
        return None;
    }
    let segment = ((16.0 / hz / step) as usize).clamp(64, a.len().max(64));
    measure_coherence(&a.part(range.clone()), &b.part(range), hz * step, segment)
        .filter(|c| c.value > ONE_SOURCE && c.segments >= ONE_SOURCE_SEGMENTS)
}
