//! Plausibility: calibrated values that no unit of its kind can show speak against the scale, not of the unit.
//!
//! A system's limits sheet says what is plausible: `plausible-level-ROLE` for the median of a channel,
//! `plausible-peak-ROLE` for what all but a thousandth of its samples keep within, whatever their sign,
//! `plausible-pulse-ROLE` for the highest pulse of a current, `plausible-stall-ROLE` for the highest stalled one,
//! `plausible-stall-time-ROLE` for the longest.

use plugin_sdk::derived::PULSES;
use plugin_sdk::settings::LimitValue;
use plugin_sdk::signal::stats::{sampled_quantile, sampled_quantile_by};
use plugin_sdk::{Analyzer, ChannelView, Declaration, Grade, Input, Limit, Observation, Output};

/// The analyzer.
pub struct Plausibility;

impl Analyzer for Plausibility {
    const DECLARATION: Declaration = Declaration {
        id: "plausibility",
        name: "Plausible scales",
        inputs: &PULSES,
        kinds: &[("implausible-scale", "A|V|s")],
        messages: &[("implausible-scale", &[]), ("implausible-time", &[])],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        for channel in input.channels.iter().filter(|c| c.facts.calibrated) {
            let limit = |of: &str| {
                let name = format!("plausible-{of}-{}", channel.role);
                input.settings.limits.get(&name)
            };
            let shown = || {
                let level = || sampled_quantile(&channel.values(), 0.5, 100_000);
                let size = |v: f32| f64::from(v.abs());
                let peak = || sampled_quantile_by(&channel.values(), 0.999, 100_000, size);
                let pulses = input.pulses(channel.role);
                let highest = |stalled: bool| {
                    let all = pulses.iter().flat_map(|r| &r.pulses);
                    let peaks = all.filter(|h| h.stalled || !stalled).map(|h| h.peak);
                    peaks.max_by(f64::total_cmp)
                };
                let doubts = [
                    limit("level").and_then(|l| doubt(level()?, l)),
                    limit("peak").and_then(|l| doubt(peak()?, l)),
                    limit("pulse").and_then(|l| doubt(highest(false)?, l)),
                    limit("stall").and_then(|l| doubt(highest(true)?, l)),
                ];
                doubts.into_iter().flatten().next()
            };
            if let Some((value, limit)) = shown() {
                let message = "implausible-scale";
                out.add(observation(channel, message, (value, channel.unit), limit));
            }
            let longest = || {
                let pulses = input.pulses(channel.role);
                let stalls = pulses.iter().flat_map(|r| &r.pulses).filter(|p| p.stalled);
                stalls.map(|p| p.duration_s()).max_by(f64::total_cmp)
            };
            let too_long = || limit("stall-time").and_then(|l| doubt(longest()?, l));
            if let Some((seconds, limit)) = too_long() {
                out.add(observation(
                    channel,
                    "implausible-time",
                    (seconds, "s"),
                    limit,
                ));
            }
        }
        Ok(())
    }
}

/// The value and its limit where it lies beyond.
fn doubt(value: f64, limit: &LimitValue) -> Option<(f64, &LimitValue)> {
    let below = limit.low.is_some_and(|low| value < low);
    let above = limit.high.is_some_and(|high| value > high);
    (below || above).then_some((value, limit))
}

fn observation(
    channel: &ChannelView<'_>,
    message: &str,
    (value, unit): (f64, &str),
    limit: &LimitValue,
) -> Observation {
    let observation = Observation::new("implausible-scale", message)
        .about(channel.role)
        // As well known as the scale, which is what is doubted: no figure is given.
        .value(value, 0.0, unit)
        .limit(Limit {
            low: limit.low,
            high: limit.high,
            unit: limit.unit.clone(),
            source: limit.source.clone(),
        })
        .grade(Grade::Unusable);
    match channel.span() {
        Some((from, to)) => observation.span(from, to),
        None => observation,
    }
}
