//! Two gears at once: while both clutches carry, the shafts brake each other and the output slows hard, from the
//! application of the one clutch to the release of the other.

use crate::clutch::actuations;
use crate::speeds::{STEP_S, SpeedTracks, rates};
use plugin_sdk::signal::stats;
use plugin_sdk::{Grade, Input, Limit, Limits, Observation, Output};

/// Fall of the output speed over which a shift is a tie-up, share of the speed before. A driver's firm braking
/// takes 0.3 g, about 3 m/s2: at 10 m/s a tenth in a third of a second. Common practice, no source.
const LEAST_FALL: f64 = 0.12;

/// Fall from which on a shift may be a tie-up: less is a driver's foot off the pedal. Judgement.
const SLIGHT_FALL: f64 = 0.08;

/// Greatest distance (s) of the fall's begin and end from the two clutch actuations.
const NEAR_S: f64 = 0.3;

pub fn observe(input: &Input<'_>, tracks: &SpeedTracks, limits: &Limits<'_>, out: &mut Output) {
    // A fall is a share of the speed before it: the pulses' rate will do, whatever the number of teeth.
    let output = input.tooth_rate("output-shaft").and_then(|s| rates(&s));
    let (Some(output), Some(feed)) = (output, input.channel("supply-current")) else {
        return;
    };
    let Some(record) = input.pulses(feed.role) else {
        return;
    };
    let clutch = actuations(feed, &record, limits);
    for (from, to) in falls(&output) {
        let (a, b) = (tracks.at(from), tracks.at(to));
        let near = |t: f64, x: f64| (t - x).abs() <= NEAR_S;
        let apply = clutch
            .iter()
            .find(|h| near(h.end_s, a) || near(h.peak_at_s, a));
        let release = clutch
            .iter()
            .rev()
            .find(|h| near(h.start_s, b) || near(h.peak_at_s, b));
        let (Some(x), Some(y)) = (apply, release) else {
            continue;
        };
        if x.start_s >= y.start_s {
            continue;
        }
        let share = 1.0 - output[to] / output[from];
        if !share.is_finite() {
            // The shaft stood still before.
            continue;
        }
        // Each speed is known as well as it scatters from one grid point to the next.
        let steps: Vec<f64> = output[from..=to]
            .windows(2)
            .map(|w| (w[1] / w[0]).ln())
            .collect();
        let scatter = 1.4826 * stats::median_abs_deviation(&steps).unwrap_or(0.0);
        let u = scatter.max(0.001) * (1.0 - share) * 2f64.sqrt();
        let (message, grade) = match share - 2.0 * u > LEAST_FALL {
            true => ("double-engagement", Grade::Abnormal),
            false => ("double-engagement-slight", Grade::Normal),
        };
        out.add(
            Observation::new("double-engagement", message)
                .about("output-shaft")
                .span(a, b)
                .value(100.0 * share, 100.0 * u, "%")
                .limit(Limit {
                    low: None,
                    high: Some(100.0 * LEAST_FALL),
                    unit: "%".into(),
                    source: "common practice, no source".into(),
                })
                .arg("duration_s", ((b - a) * 100.0).round() / 100.0)
                .grade(grade),
        );
    }
}

/// Stretches in which the output speed falls by at least the slight share within 1.5 s, from crest to trough: the speed falls
/// on from there until a quarter of the fall is regained.
fn falls(output: &[f64]) -> Vec<(usize, usize)> {
    const LONGEST: usize = (1.5 / STEP_S) as usize;
    const REGAINED: f64 = 0.25;
    const CREST: f64 = 0.99;
    let smooth = plugin_sdk::signal::smooth::median_smooth(output, 5);
    let mut found = Vec::new();
    let mut k = 0;
    while k < smooth.len() {
        let stop = (k + LONGEST).min(smooth.len());
        let fallen = |&j: &usize| smooth[j] < (1.0 - SLIGHT_FALL) * smooth[k];
        let Some(first) = (k..stop).find(fallen) else {
            k += 1;
            continue;
        };
        // Crest: the last point before the fall that is as good as the highest.
        let top = smooth[k..first].iter().copied().fold(0.0, f64::max);
        let crest = (k..first).rev().find(|&j| smooth[j] >= CREST * top);
        let crest = crest.unwrap_or(k);
        let mut low = first;
        for j in first..(crest + LONGEST).min(smooth.len()) {
            if smooth[j] < smooth[low] {
                low = j;
            } else if smooth[j] - smooth[low] > REGAINED * (smooth[crest] - smooth[low]) {
                break;
            }
        }
        found.push((crest, low));
        k = low + 1;
    }
    found
}
