//! The second that decides: which part of a recording is shown enlarged.

use super::row::trace;
use model::{Capture, Channel, Finding};

/// Teeth that can still be told apart in an enlarged picture.
const TEETH: usize = 40;

/// The part of the recording to enlarge for a finding: a short event whole, with what comes before and after it;
/// of a long one the second in which it begins. On a tooth signal it is narrowed until single teeth are seen.
/// `None` when the whole recording shows it as well.
pub(super) fn around(
    finding: &Finding,
    capture: &Capture,
    channel: &Channel,
    (first, last): (f64, f64),
) -> Option<(f64, f64)> {
    let start = finding.start_s?.clamp(first, last);
    let end = finding.end_s.unwrap_or(start).clamp(start, last);
    let mut window = if end - start <= 1.0 {
        let air = (0.25 * (end - start)).max(0.05);
        (start - air, end + air)
    } else {
        (start - 0.25, start + 0.75)
    };
    if channel.role.as_ref().is_some_and(|r| r.is_speed_sensor()) {
        let teeth = teeth(capture, channel, (start, window.1));
        if teeth > TEETH {
            let width = (window.1 - start) * TEETH as f64 / teeth as f64;
            window = (start - 0.25 * width, start + width);
        }
    }
    let window = (window.0.max(first), window.1.min(last));
    let width = window.1 - window.0;
    (width > 0.0 && width < 0.5 * (last - first)).then_some(window)
}

/// Teeth between two instants: rising crossings of the middle level.
fn teeth(capture: &Capture, channel: &Channel, span: (f64, f64)) -> usize {
    let runs = trace(capture, channel, span, 20_000);
    let values = || runs.iter().flatten().map(|p| p.1).filter(|v| v.is_finite());
    let low = values().fold(f64::INFINITY, f64::min);
    let high = values().fold(f64::NEG_INFINITY, f64::max);
    let (down, up) = (low + 0.3 * (high - low), low + 0.7 * (high - low));
    let mut is_high = false;
    values()
        .filter(|&v| {
            let rises = !is_high && v > up;
            is_high = if is_high { v >= down } else { v > up };
            rises
        })
        .count()
}
