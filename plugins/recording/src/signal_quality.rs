//! Signal quality: whether a recording can carry a conclusion at all.

use plugin_sdk::measure::{
    LEAST_SAMPLES_A_TOOTH, Spec, current_record, samples_a_tooth_at_idle, shaft_record,
};
use plugin_sdk::signal::levels;
use plugin_sdk::signal::rotation::Doubt;
use plugin_sdk::{Analyzer, ChannelView, Descriptor, Grade, Input, Observation, Output, Scope};

/// The plugin.
pub struct SignalQuality;

impl Analyzer for SignalQuality {
    const DESCRIPTOR: Descriptor = Descriptor {
        id: "signal-quality",
        name: "Signal quality",
        version: env!("CARGO_PKG_VERSION"),
        vendor: "baybrief",
        scope: Scope::Capture,
        needs: &[],
        uses: &[
            "supply-current",
            "supply-voltage",
            "ground-voltage",
            "input-shaft-1",
            "input-shaft-2",
            "output-shaft",
            "engine-speed",
            "actuator-current-1",
            "actuator-current-2",
            "gear-motor-current-1",
            "gear-motor-current-2",
        ],
    };

    const TEXTS: &'static [(&'static str, &'static str)] = &[
        ("system.toml", include_str!("../system.toml")),
        ("limits.toml", include_str!("../limits.toml")),
        ("causes.toml", include_str!("../causes.toml")),
        ("lang/en.ftl", include_str!("../lang/en.ftl")),
        ("lang/de.ftl", include_str!("../lang/de.ftl")),
        ("lang/es.ftl", include_str!("../lang/es.ftl")),
    ];

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let spec = Spec(&input.settings.spec);
        length(input, &spec, out);
        for channel in &input.channels {
            let x = channel.values();
            missing(channel, &x, out);
            if channel.role.contains("current") {
                clipping(channel, &x, out);
            }
            if channel.role.contains("current") && !channel.facts.calibrated {
                out.add(
                    Observation::new("scale-unknown", "scale-unknown")
                        .about(channel.role)
                        .grade(Grade::Unusable),
                );
            }
            if channel.role == "supply-current" {
                zero_and_polarity(channel, &spec, out);
            }
            if is_speed_sensor(channel.role) {
                sampling(channel, input, &spec, out);
                tooth_count(channel, input, &spec, out);
            }
        }
        Ok(())
    }
}

/// Speeds of a moving vehicle are compared with each other; pulses without a tooth count cannot be.
fn tooth_count(channel: &ChannelView<'_>, input: &Input<'_>, spec: &Spec<'_>, out: &mut Output) {
    let moves = input
        .channel("output-shaft")
        .and_then(|c| shaft_record(c, spec))
        .is_some_and(|r| r.turning().any(|s| s.end_s - s.start_s > 1.0));
    if moves && channel.facts.teeth.is_none() {
        out.add(quality("quality-teeth-unknown").about(channel.role));
    }
}

fn is_speed_sensor(role: &str) -> bool {
    matches!(
        role,
        "input-shaft-1" | "input-shaft-2" | "output-shaft" | "engine-speed"
    )
}

fn quality(message: &str) -> Observation {
    Observation::new("signal-quality", message).grade(Grade::Unusable)
}

/// Long enough for one actuation and the rest before and after it.
fn length(input: &Input<'_>, spec: &Spec<'_>, out: &mut Output) {
    let Some(c) = input
        .channels
        .iter()
        .max_by_key(|c| c.len())
        .filter(|c| !c.is_empty())
    else {
        return;
    };
    let (from, to) = (c.time.at(0), c.time.at(c.len() - 1));
    let least = spec.number("least-record");
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
                .limit(plugin_sdk::Limit {
                    low: Some(least),
                    high: None,
                    unit: "s".into(),
                    source: spec.limit("least-record").source,
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

/// A top or bottom cut flat: over-range marks, or a run of at least 3 ms and five samples at exactly the extreme
/// value that the signal enters or leaves by more than a few of the recorder's steps. A slow peak that a coarse
/// recorder rounds to equal values is entered and left by single steps.
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
        let far = |i: Option<usize>| {
            i.and_then(|i| x.get(i))
                .is_some_and(|v| (v - level).abs() > jump)
        };
        if to - from >= least && (far(from.checked_sub(1)) || far(Some(to))) {
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

/// A clamp that was not zeroed, or put on the wrong way round.
fn zero_and_polarity(channel: &ChannelView<'_>, spec: &Spec<'_>, out: &mut Output) {
    let Some(r) = current_record(channel, spec) else {
        return;
    };
    let (from, to) = (channel.time.at(0), channel.time.at(channel.len() - 1));
    if r.reversed {
        out.add(
            quality("quality-reversed")
                .about(channel.role)
                .span(from, to),
        );
    } else if channel.facts.calibrated {
        let u =
            plugin_sdk::measure::current_uncertainty(channel, spec, r.quiescent, r.noise, 1000.0);
        let (low, high) = (
            spec.low("quiescent-current"),
            spec.high("quiescent-current"),
        );
        if r.quiescent < low - 2.0 * u || r.quiescent > high + 2.0 * u {
            out.add(
                quality("quality-offset")
                    .about(channel.role)
                    .span(from, to)
                    .value(r.quiescent, u, "A")
                    .limit(spec.limit("quiescent-current")),
            );
        }
    }
}

/// Samples a tooth, as seen and as could have come: a tooth rate above half the sample rate looks like a slower
/// one, so a recording that could not have shown idle speed proves no speed at all.
fn sampling(channel: &ChannelView<'_>, input: &Input<'_>, spec: &Spec<'_>, out: &mut Output) {
    let Some(record) = shaft_record(channel, spec) else {
        return;
    };
    let seen = record.spans.iter().find_map(|s| match s.doubt {
        // As well known as the tooth rate.
        Some(Doubt::Undersampled(n)) => {
            Some((s.start_s, s.end_s, n, n * s.spread_hz / s.hz.max(1e-9)))
        }
        _ => None,
    });
    let parked = matches!(
        input.settings.selector.as_ref().map(|s| s.value.as_str()),
        Some("P" | "N")
    );
    let possible =
        samples_a_tooth_at_idle(channel, spec).filter(|_| parked && channel.role != "output-shaft");
    let (from, to) = (channel.time.at(0), channel.time.at(channel.len() - 1));
    let limit = |low| plugin_sdk::Limit {
        low: Some(low),
        high: None,
        unit: "count".into(),
        source: "sampling theorem (Shannon 1949) with margin; common practice, no source".into(),
    };
    if let Some((from, to, n, u)) = seen {
        out.add(
            quality("quality-undersampled")
                .about(channel.role)
                .span(from, to)
                .value(n, u, "count")
                .limit(limit(4.0)),
        );
    } else if let Some(n) = possible.filter(|&n| n < LEAST_SAMPLES_A_TOOTH)
        && !record.flat
    {
        out.add(
            quality("quality-could-alias")
                .about(channel.role)
                .span(from, to)
                // From the stated tooth count and the sample rate alone: exact.
                .value(n, 0.0, "count")
                .limit(limit(LEAST_SAMPLES_A_TOOTH)),
        );
    }
}
