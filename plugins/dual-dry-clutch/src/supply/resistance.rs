//! Feed resistance: the slope of voltage against current while an actuator draws.

use plugin_sdk::signal::current::CurrentPulse;
use plugin_sdk::signal::{smooth::Average, stats};
use plugin_sdk::{ChannelView, Grade, Limits, Observation, Output};

/// Least change of current over which a slope is believed, A. Common practice, no source.
const LEAST_SWING_A: f64 = 4.0;

/// Adds a `feed-resistance` finding: the slope dV/dI over all events, each against its own surroundings, with
/// the standard error of the fit and the probe's accuracy. `sign` is 1 for a supply (voltage falls with current)
/// and -1 for a ground (it rises).
pub fn observe(
    current: &ChannelView<'_>,
    volts: &ChannelView<'_>,
    pulses: &[CurrentPulse],
    sign: f64,
    limits: &Limits<'_>,
    out: &mut Output,
) {
    let n = current.len().min(volts.len());
    let step = current.time.mean_step(n).unwrap_or(1.0);
    let window = ((0.004 / step) as usize).max(1);
    let i = Average::compute(&current.values(), current.time, window);
    let v = Average::compute(&volts.values(), volts.time, window);
    // How many points lie a window apart.
    let apart = i.time().mean_step(i.values.len()).unwrap_or(step);
    let apart = ((window as f64 * step / apart).round() as usize).max(1);
    let (mut di, mut dv) = (Vec::new(), Vec::new());
    for h in pulses {
        collect(h, apart, &i, &v, &mut di, &mut dv);
    }
    let largest = di.iter().copied().fold(0.0, f64::max);
    let Some(line) = stats::line_fit(&di, &dv).filter(|_| largest >= LEAST_SWING_A) else {
        return;
    };
    let milliohm = -1e3 * sign * line.slope;
    let accuracy = current
        .facts
        .accuracy_percent
        .unwrap_or_else(|| limits.number("clamp-accuracy"));
    let u = (1e3 * line.slope_stderr).hypot(milliohm * accuracy / 100.0);
    let (Some(first), Some(last)) = (pulses.first(), pulses.last()) else {
        return;
    };
    let abnormal = milliohm - 2.0 * u > limits.high("feed-resistance");
    out.add(
        Observation::new("feed-resistance", "feed-resistance")
            .about(volts.role)
            .span(first.start_s, last.end_s)
            .value(milliohm, u, "mohm")
            .limit(limits.limit("feed-resistance"))
            .arg("swing_a", (largest * 10.0).round() / 10.0)
            .grade(if abnormal {
                Grade::Abnormal
            } else {
                Grade::Normal
            }),
    );
}

/// Differences of current and voltage from the straight line between the levels before and after the event, one
/// pair per averaging window, so that neighbouring pairs are independent. A slow drift of the charging voltage
/// does not count as drop.
fn collect(
    h: &CurrentPulse,
    apart: usize,
    i: &Average,
    v: &Average,
    di: &mut Vec<f64>,
    dv: &mut Vec<f64>,
) {
    let level = |x: &Average, (a, b): (f64, f64)| stats::sampled_quantile(x.part(a, b), 0.5, 5_000);
    let before = (h.start_s - 0.12, h.start_s - 0.02);
    let after = (h.end_s + 0.06, h.end_s + 0.16);
    let around = |x: &Average| Some((level(x, before)?, level(x, after)?));
    let (Some((i0, i1)), Some((v0, v1))) = (around(i), around(v)) else {
        return;
    };
    let (t0, t1) = ((before.0 + before.1) / 2.0, (after.0 + after.1) / 2.0);
    let (time, n) = (i.time(), i.values.len().min(v.values.len()));
    for k in (time.index_at(before.0, n)..time.index_at(after.1, n)).step_by(apart) {
        let f = (time.at(k) - t0) / (t1 - t0);
        let (a, b) = (i.values[k] as f64, v.values[k] as f64);
        if a.is_finite() && b.is_finite() {
            di.push(a - (i0 + f * (i1 - i0)));
            dv.push(b - (v0 + f * (v1 - v0)));
        }
    }
}
