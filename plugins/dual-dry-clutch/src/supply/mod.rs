//! Supply: how far the voltage sags under the actuators, what resistance the feed has, what the fuse carries.

mod resistance;

use crate::LIMITS;
use plugin_sdk::derived::{CURRENT_LEVELS, CURRENT_PULSES, ENGINE_STATE, LEVELS};
use plugin_sdk::signal::current::{CurrentPulse, CurrentRecord};
use plugin_sdk::signal::{smooth::Average, stats};
use plugin_sdk::{Analyzer, ChannelView, Declaration, Grade, Input, Limits, Observation, Output};

/// The analyzer.
pub struct Supply;

impl Analyzer for Supply {
    const DECLARATION: Declaration = Declaration {
        id: "supply",
        name: "Supply",
        needs: &["supply-current"],
        uses: &["supply-voltage", "ground-voltage", "engine-speed"],
        inputs: &[
            LEVELS.name,
            CURRENT_LEVELS.name,
            CURRENT_PULSES.name,
            ENGINE_STATE.name,
        ],
        kinds: &[
            ("supply-sag", "V"),
            ("ground-drop", "V"),
            ("feed-resistance", "mohm"),
            ("fuse-duty", "%"),
        ],
        messages: &[
            ("supply-sag", &["extreme_v", "good_low"]),
            ("supply-sag-unscaled", &["extreme_v", "good_low"]),
            ("ground-drop", &["extreme_v"]),
            ("feed-resistance", &["swing_a"]),
            ("fuse-duty", &["rms_a", "rating_a"]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        let Some(current) = input.channel("supply-current") else {
            return Ok(());
        };
        let Some(record) = input.pulses("supply-current") else {
            return Ok(());
        };
        let cranking = input.conditions().starter();
        for (role, sag, sign) in [
            ("supply-voltage", "supply-sag", 1.0),
            ("ground-voltage", "ground-drop", -1.0),
        ] {
            let Some(volts) = input.channel(role) else {
                continue;
            };
            // The starter's own dip is no sag of this feed.
            let pulses: Vec<CurrentPulse> = record
                .pulses
                .iter()
                .copied()
                .filter(|h| cranking.is_none_or(|(a, b)| h.end_s < a - 0.2 || h.start_s > b + 0.2))
                .collect();
            let noise = input.levels(role).map_or(0.0, |l| l.noise);
            let scaled = current.facts.calibrated;
            out.observations
                .extend(dips(volts, noise, &pulses, sag, sign, scaled, &limits));
            if current.facts.calibrated {
                resistance::observe(current, volts, &pulses, sign, &limits, out);
            }
        }
        if current.facts.calibrated {
            fuse_duty(current, &record, &limits, out);
        }
        Ok(())
    }
}

/// Share of the limit of the sag from which on it tells of a weak feed or of a strong current, where that is not known: the
/// limit is a stalled actuator's, of some 30 A, and one that moves draws at most 19 A.
const MOVING_SHARE: f64 = 19.0 / 30.0;

/// Depth of the deepest dip under an event (for a ground: the highest rise), against the level around it.
fn dips(
    volts: &ChannelView<'_>,
    noise: f64,
    pulses: &[CurrentPulse],
    limit: &str,
    sign: f64,
    scaled: bool,
    limits: &Limits<'_>,
) -> Option<Observation> {
    let step = volts.time.mean_step(volts.len()).unwrap_or(1.0);
    // 4 ms average: a dip that the controller feels, not one sample's noise.
    let n = ((0.004 / step) as usize).max(1);
    let values = volts.values();
    let noise = noise / (n as f64).sqrt();
    let average = Average::compute(&values, volts.time, n);
    let (pulse, depth, extreme) = pulses
        .iter()
        .filter_map(|h| {
            let rest = stats::sampled_quantile(
                average.part(h.start_s - 0.25, h.start_s - 0.02),
                0.5,
                10_000,
            )?;
            let extreme = average
                .part(h.start_s, h.end_s)
                .iter()
                .map(|&x| x as f64)
                .filter(|x| x.is_finite())
                .max_by(|a, b| (-sign * a).total_cmp(&(-sign * b)))?;
            Some((*h, sign * (rest - extreme), extreme))
        })
        .max_by(|a, b| a.1.total_cmp(&b.1))?;
    let high = limits.high(limit);
    let abnormal = depth - 2.0 * noise > high;
    let kind = if volts.role == "supply-voltage" {
        "supply-sag"
    } else {
        "ground-drop"
    };
    let unsure = !scaled && !pulse.stalled && !abnormal && depth > MOVING_SHARE * high;
    let message = match kind {
        "supply-sag" if unsure => "supply-sag-unscaled",
        _ => kind,
    };
    // The level that a supply must keep; the report draws it behind the trace.
    let good = Observation::new(kind, message);
    let good = match kind {
        "supply-sag" => good.arg("good_low", extreme + depth - high),
        _ => good,
    };
    Some(
        good.about(volts.role)
            .span(pulse.start_s, pulse.end_s)
            .value(depth.max(0.0), noise, "V")
            .limit(limits.limit(limit))
            .arg("extreme_v", (extreme * 100.0).round() / 100.0)
            .grade(if abnormal {
                Grade::Abnormal
            } else {
                Grade::Normal
            }),
    )
}

/// Effective current of the hardest second against the fuse's rating. No opening time is claimed: between the
/// published gates none may be.
fn fuse_duty(
    current: &ChannelView<'_>,
    record: &CurrentRecord,
    limits: &Limits<'_>,
    out: &mut Output,
) {
    if limits.get("fuse-rating").is_none() || record.pulses.is_empty() {
        return;
    }
    let rating = limits.number("fuse-rating");
    let x = current.values();
    let step = current.time.mean_step(x.len()).unwrap_or(1.0);
    let window = ((1.0 / step) as usize).clamp(1, x.len());
    let square = |v: f32| if v.is_finite() { v * v } else { 0.0 };
    // A thousand points a window: the hardest second begins at one of them, near enough.
    let mean = Average::compute_with(&x, current.time, window, window / 1000, square);
    let Some((at, worst)) = mean
        .values
        .iter()
        .enumerate()
        .filter(|(_, v)| v.is_finite())
        .max_by(|a, b| a.1.total_cmp(b.1))
        .map(|(i, v)| (i, (*v as f64).sqrt()))
    else {
        return;
    };
    let percent = 100.0 * worst / rating;
    let u = percent
        * current
            .facts
            .accuracy_percent
            .unwrap_or(limits.number("clamp-accuracy"))
        / 100.0;
    let high = limits.high("fuse-duty");
    let t = mean.time().at(at);
    out.add(
        Observation::new("fuse-duty", "fuse-duty")
            .about("supply-current")
            .span(
                (t - 0.5).max(current.time.at(0)),
                (t + 0.5).min(current.time.at(x.len() - 1)),
            )
            .value(percent, u, "%")
            .limit(limits.limit("fuse-duty"))
            .arg("rms_a", (worst * 10.0).round() / 10.0)
            .arg("rating_a", rating)
            .grade(if percent - 2.0 * u > high {
                Grade::Abnormal
            } else {
                Grade::Normal
            }),
    );
}
