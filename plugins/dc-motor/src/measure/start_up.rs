//! Resistance, back-EMF and mechanical time constant from a start.
//!
//! With V = R i + k w and J dw/dt = k i - T the current of a start falls from V/R to the running current with the time
//! constant J R / k^2, once its inductance is charged (permanent-magnet motor; any textbook on electric drives).

use super::run::Run;
use plugin_sdk::signal::windows::{average, median};
use plugin_sdk::signal::{Measured, exponential};

/// A start as it fits the equations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StartUp {
    /// Resistance of winding and brushes, ohm: voltage over the stall current.
    pub resistance: Measured,
    /// Current that the motor would draw if it stood, A, at the voltage that it has while it runs: between the peak and the
    /// exponential extrapolated to the switching on, by the ratio of the voltages.
    pub stall_current: f64,
    /// Current that it approaches, A.
    pub running_current: f64,
    /// Mechanical time constant, s.
    pub time_constant_s: f64,
    /// Share of the voltage that is back-EMF once it runs.
    pub back_emf_share: f64,
}

/// Scatter of the current about the fit, as a share of the stall current, up to which it falls as an exponential does; and that of
/// the ripple that few bars leave, where a recorded voltage shows that no switched supply makes it.
const SCATTER: f64 = 0.04;
const DEEP_RIPPLE: f64 = 0.1;
/// Time over which misses are averaged that last, as a share of the mechanical time constant.
const LASTING: f64 = 0.25;
/// Longest rise to nine tenths of the peak, s, and as a share of the mechanical time constant: that of the winding's L / R, which
/// is a few milliseconds. A voltage that is raised gradually leaves no inrush to tell the resistance from.
const RISE: (f64, f64) = (0.01, 0.05);
/// Least share of its later value that the voltage has at the peak: what it is raised by afterwards makes another current.
const WHOLE_VOLTAGE: f64 = 0.6;

/// Fits a start whose voltage was not recorded: all but resistance and back-EMF, which count for 1 V.
pub fn start_up_alone(current: &[f64], start_s: f64, step_s: f64, run: &Run) -> Option<StartUp> {
    let volts = vec![1.0; current.len()];
    fit_start(current, &volts, start_s, step_s, run, SCATTER)
}

/// Fits a start: `voltage` is that of the motor's terminals in V. `None` where the start was not recorded, where the
/// current does not fall to less than 0.85 of its peak, or where it does not fall as an exponential does.
pub fn start_up(
    current: &[f64],
    voltage: &[f64],
    start_s: f64,
    step_s: f64,
    run: &Run,
) -> Option<StartUp> {
    fit_start(current, voltage, start_s, step_s, run, DEEP_RIPPLE)
}

fn fit_start(
    current: &[f64],
    voltage: &[f64],
    start_s: f64,
    step_s: f64,
    run: &Run,
    scatter: f64,
) -> Option<StartUp> {
    if !run.from_rest {
        return None;
    }
    let samples = |s: f64| ((s / step_s).round() as usize).max(1);
    let to = (run.on + samples(1.5)).min(run.off).min(voltage.len());
    let smooth = average(current.get(run.on..to)?, samples(0.0003));
    let within = smooth.len().min(samples(0.1));
    let peak = (0..within).max_by(|&a, &b| smooth[a].total_cmp(&smooth[b]))?;
    // The inductance: from half of the peak to the peak is about two of its time constants.
    let half = smooth
        .iter()
        .position(|v| *v > 0.5 * smooth[peak])
        .unwrap_or(0);
    let from = peak + (peak.saturating_sub(half)).max(2);
    let every = ((to - run.on) / 4_000).max(1);
    let mut points: Vec<(f64, f64)> = (from..smooth.len())
        .step_by(every)
        .map(|i| (i as f64 * step_s, current[run.on + i]))
        .collect();
    let mut fitted = None;
    for _ in 0..10 {
        let (t, y): (Vec<f64>, Vec<f64>) = points.iter().copied().unzip();
        let f = exponential::fit(&t, &y, 4.0 * step_s, 2.0 * (to - run.on) as f64 * step_s)?;
        let off = |t: f64, y: f64| y - (f.level + f.step * (-t / f.tau).exp());
        let misses: Vec<f64> = points.iter().map(|&(t, y)| off(t, y).abs()).collect();
        let usual = 1.4826 * median(&misses)?;
        // An open bar leaves dips: they are no part of the fall. What lies above the fit does.
        let least = 0.01 * f.step.abs();
        let before = points.len();
        points.retain(|&(t, y)| {
            let miss = off(t, y);
            miss > -(2.5 * usual).max(least) && miss < (5.0 * usual).max(least)
        });
        fitted = Some((f, usual));
        if points.len() == before || points.len() < 16 {
            break;
        }
    }
    let (f, usual) = fitted?;
    let stall = f.level + f.step;
    // What is missed for longer than a ripple lasts is no ripple.
    let (t, missed): (Vec<f64>, Vec<f64>) = points
        .iter()
        .map(|&(t, y)| (t, y - (f.level + f.step * (-t / f.tau).exp())))
        .unzip();
    let apart = (t.last()? - t.first()?) / t.len() as f64;
    let lasting = average(&missed, (LASTING * f.tau / apart) as usize);
    let lasting = median(&lasting.iter().map(|v| v.abs()).collect::<Vec<_>>())?;
    let fits = usual < scatter * stall && lasting < SCATTER * stall;
    let falls = f.level < 0.85 * stall && f.step > 0.0 && fits;
    // An extrapolation far beyond what was seen is none.
    let plausible = stall < 1.5 * smooth[peak] && stall > 0.9 * smooth[peak];
    let risen = smooth.iter().position(|v| *v > 0.9 * smooth[peak])?;
    let gradual = risen as f64 * step_s > RISE.0.max(RISE.1 * f.tau);
    if !falls || gradual || !plausible || f.tau < 2.0 * step_s {
        return None;
    }
    let around = run.on + peak;
    let volts = median(&voltage[around..(around + samples(0.002)).min(to)])?;
    let running_volts = median(&voltage[(to - (to - run.on) / 4)..to])?;
    // The load lets the current fall faster at first than one exponential does, so that the extrapolation goes too high;
    // inductance and the turning that has begun keep the peak too low.
    let (high, low) = (stall, smooth[peak]);
    let stall = (high + low) / 2.0;
    let resistance = volts / stall;
    if volts <= 0.5 || volts < WHOLE_VOLTAGE * running_volts {
        return None;
    }
    Some(StartUp {
        resistance: Measured {
            value: resistance,
            uncertainty: resistance
                * (0.02f64)
                    .hypot(3.0 * f.start_stderr / stall)
                    .hypot((high - low).abs() / stall / 12f64.sqrt()),
            from_s: start_s + run.on as f64 * step_s,
            to_s: start_s + to as f64 * step_s,
        },
        stall_current: stall * running_volts / volts,
        running_current: f.level,
        time_constant_s: f.tau,
        back_emf_share: 1.0 - f.level * resistance / running_volts.max(0.1),
    })
}
