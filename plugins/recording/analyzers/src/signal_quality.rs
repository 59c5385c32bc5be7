//! Signal quality: whether a recording can carry a conclusion at all.

use crate::LIMITS;
use plugin_sdk::derived::TRAIN;
use plugin_sdk::signal::levels;
use plugin_sdk::signal::teeth::{RejectReason, SegmentKind};
use plugin_sdk::{
    Analyzer, ChannelView, Declaration, Grade, Input, Limit, Limits, Observation, Output, Quantity,
};

/// The analyzer.
pub struct SignalQuality;

impl Analyzer for SignalQuality {
    const DECLARATION: Declaration = Declaration {
        id: "signal-quality",
        name: "Signal quality",
        inputs: &TRAIN,
        kinds: &[("signal-quality", "s|%|A|count"), ("scale-unknown", "")],
        messages: &[
            ("quality-too-short", &[]),
            ("quality-missing", &[]),
            ("quality-clipped", &[]),
            ("quality-undersampled", &[]),
            ("scale-unknown", &[]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        length(input, &LIMITS.with(&input.settings), out);
        for channel in &input.channels {
            let x = channel.values();
            missing(channel, &x, out);
            match channel.quantity {
                Quantity::Current => {
                    clipping(channel, &x, out);
                    if !channel.facts.calibrated {
                        out.add(
                            Observation::new("scale-unknown", "scale-unknown")
                                .about(channel.role)
                                .grade(Grade::Unusable),
                        );
                    }
                }
                Quantity::ToothSignal => sampling(channel, input, out),
                _ => {}
            }
        }
        Ok(())
    }
}

fn quality(message: &str) -> Observation {
    Observation::new("signal-quality", message).grade(Grade::Unusable)
}

/// Long enough for one actuation and the rest before and after it.
fn length(input: &Input<'_>, limits: &Limits<'_>, out: &mut Output) {
    let Some(c) = input
        .channels
        .iter()
        .max_by_key(|c| c.len())
        .filter(|c| !c.is_empty())
    else {
        return;
    };
    let (from, to) = (c.time.at(0), c.time.at(c.len() - 1));
    let least = limits.number("least-record");
    if to - from < least {
        out.add(
            quality("quality-too-short")
                .span(from, to)
                // Known to half a sample at either end.
                .value(
                    to - from,
                    c.time.mean_step(c.len()).unwrap_or(0.0) / 6f64.sqrt(),
                    "s",
                )
                .limit(Limit {
                    low: Some(least),
                    high: None,
                    unit: "s".into(),
                    source: limits.limit("least-record").source,
                }),
        );
    }
}

/// Values that the file marks as missing, beyond one in a hundred.
fn missing(channel: &ChannelView<'_>, x: &[f32], out: &mut Output) {
    let holes = |c: &[f32]| c.iter().map(|v| u32::from(v.is_nan())).sum::<u32>();
    let count: u64 = x.chunks(1024).map(|c| u64::from(holes(c))).sum();
    let share = count as f64 / x.len().max(1) as f64;
    if share > 0.01 {
        out.add(
            Observation::new("signal-quality", "quality-missing")
                .about(channel.role)
                // Counted: no uncertainty.
                .value(100.0 * share, 0.0, "%")
                .grade(if share > 0.2 {
                    Grade::Unusable
                } else {
                    Grade::Abnormal
                }),
        );
    }
}

/// Share of a current's range about zero within which its lowest value is that of no current.
const AT_REST: f32 = 0.05;

/// A top or bottom cut flat: over-range marks, or a run of at least 3 ms and five samples at exactly the extreme
/// value that the signal enters by more than a few of the recorder's steps. A slow peak that a coarse recorder rounds
/// to equal values is entered by single steps, and so is a settled current before it is switched off; without any
/// current a quiet recorder reads one value near zero.
fn clipping(channel: &ChannelView<'_>, x: &[f32], out: &mut Output) {
    let step = channel.time.mean_step(x.len()).unwrap_or(1.0);
    let least = ((0.003 / step) as usize).max(5);
    let Some((lo, hi)) = levels::extremes(x).filter(|(lo, hi)| lo < hi) else {
        return;
    };
    let jump = 4.0 * levels::resolution(x) as f32;
    let (mut clipped, mut longest) = (0, (0, 0));
    // A run that is long enough lies over one of these places.
    let mut at = 0;
    while let Some(&level) = x.get(at) {
        if level != lo && level != hi {
            at += least;
            continue;
        }
        let other = |v: &f32| *v != level;
        let from = x[..at].iter().rposition(other).map_or(0, |i| i + 1);
        let to = x[at..].iter().position(other).map_or(x.len(), |i| at + i);
        let beside = x.get(from.checked_sub(1).unwrap_or(to));
        let entered = beside.is_some_and(|v| (v - level).abs() > jump);
        let rests = level == lo && lo.abs() < AT_REST * (hi - lo);
        if to - from >= least && entered && !rests {
            clipped += to - from;
            if to - from > longest.1 - longest.0 {
                longest = (from, to);
            }
        }
        at = to.next_multiple_of(least);
    }
    let marked = (lo.is_infinite() || hi.is_infinite())
        .then(|| x.iter().position(|v| v.is_infinite()))
        .flatten();
    let Some((from, to)) = (clipped > 0)
        .then_some(longest)
        .or(marked.map(|i| (i, i + 1)))
    else {
        return;
    };
    out.add(
        quality("quality-clipped")
            .about(channel.role)
            .span(channel.time.at(from), channel.time.at(to - 1))
            // Counted: no uncertainty.
            .value(100.0 * clipped as f64 / x.len() as f64, 0.0, "%"),
    );
}

/// Fewer samples a tooth than a speed can be read from.
fn sampling(channel: &ChannelView<'_>, input: &Input<'_>, out: &mut Output) {
    let Some(record) = input.train(channel.role) else {
        return;
    };
    let seen = record.segments.iter().find_map(|s| match s.kind {
        // As well known as the tooth rate.
        SegmentKind::Unreadable(RejectReason::Undersampled(n)) => {
            let spread = s.motion.map_or(0.0, |m| m.spread_hz / m.hz.max(1e-9));
            Some((s.start_s, s.end_s, n, n * spread))
        }
        _ => None,
    });
    if let Some((from, to, n, u)) = seen {
        out.add(
            quality("quality-undersampled")
                .about(channel.role)
                .span(from, to)
                .value(n, u, "count")
                .limit(Limit {
                    low: Some(4.0),
                    high: None,
                    unit: "count".into(),
                    source:
                        "sampling theorem (Shannon 1949) with margin; common practice, no source"
                            .into(),
                }),
        );
    }
}
