//! The driven side of a coil: does the driver switch, what does it leave, and how high does the voltage fly.

use super::actuation::filled;
use plugin_sdk::signal::stats;

/// Measures of the driven side's voltage.
#[derive(Debug, Clone, PartialEq)]
pub struct Driver {
    /// Level while nothing is switched, V.
    pub idle: f64,
    /// Level while the driver conducts, V; `None` where it never does.
    pub on: Option<f64>,
    /// Times at which it begins and ends to conduct, in samples.
    pub pulls: Vec<(usize, usize)>,
    /// Voltage at switch-off.
    pub flyback: Option<Flyback>,
    /// Standard deviation of the noise, V.
    pub noise: f64,
}

/// Voltage that the coil gives back at switch-off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flyback {
    /// Highest voltage against ground, V, median over the actuations.
    pub volts: f64,
    /// Standard uncertainty (k = 1), V.
    pub uncertainty: f64,
    /// True where the recording shows its top: several samples near it, alike in every actuation.
    pub resolved: bool,
}

/// Shortest conduction that counts, in samples.
const SHORTEST: usize = 3;
/// Holes in a conduction up to so many samples belong to a chopper.
const LONGEST_HOLE: usize = 2;
/// Samples after switch-off within which the flyback is looked for.
const FLYBACK_SAMPLES: usize = 400;
/// Number of samples for levels.
const ENOUGH: usize = 200_000;

/// Measures a driver that connects the coil to ground. `supply` is the supply's voltage, V.
pub fn driver(voltage: &[f32], supply: f64) -> Driver {
    let v = filled(voltage);
    let noise = plugin_sdk::signal::levels::noise_sigma(&v);
    let half = 0.5 * supply;
    let mut pulls: Vec<(usize, usize)> = Vec::new();
    let mut from = None;
    for i in 0..=v.len() {
        let low = v.get(i).is_some_and(|&v| f64::from(v) < half);
        match (from, low) {
            (None, true) => from = Some(i),
            (Some(begin), false) => {
                match pulls.last_mut() {
                    Some(last) if begin - last.1 <= LONGEST_HOLE => last.1 = i,
                    _ => pulls.push((begin, i)),
                }
                from = None;
            }
            _ => {}
        }
    }
    pulls.retain(|p| p.1 - p.0 >= SHORTEST);
    let within = |level: &dyn Fn(usize) -> bool| -> Vec<f64> {
        (0..v.len())
            .step_by((v.len() / ENOUGH).max(1))
            .filter(|&i| level(i))
            .map(|i| f64::from(v[i]))
            .collect()
    };
    // The first third: a driver that limits the current lets its voltage rise later.
    let conducting: Vec<f64> = pulls
        .iter()
        .flat_map(|&(a, b)| {
            v[a + (b - a) / 10..=a + (b - a) / 3]
                .iter()
                .map(|&v| f64::from(v))
                // In the holes of a chopper it does not conduct.
                .filter(|&v| v < half)
        })
        .collect();
    let idle = within(&|i| (f64::from(v[i])) >= half);
    let always = pulls.len() == 1 && pulls[0] == (0, v.len());
    Driver {
        idle: stats::median(&idle)
            .unwrap_or_else(|| stats::median(&conducting).unwrap_or(f64::NAN)),
        on: stats::median(&conducting).filter(|_| !always),
        flyback: if always {
            None
        } else {
            flyback(&v, &pulls, supply, noise)
        },
        pulls: if always { Vec::new() } else { pulls },
        noise,
    }
}

fn flyback(v: &[f32], pulls: &[(usize, usize)], supply: f64, noise: f64) -> Option<Flyback> {
    let mut tops = Vec::new();
    let mut wide = true;
    for &(_, end) in pulls.iter().filter(|p| p.1 < v.len()) {
        let after = &v[end..(end + FLYBACK_SAMPLES).min(v.len())];
        let top = after.iter().copied().fold(f32::NEG_INFINITY, f32::max);
        let near = after
            .iter()
            .filter(|&&x| f64::from(x) > 0.9 * f64::from(top))
            .count();
        wide &= near >= 3;
        tops.push(f64::from(top));
    }
    let volts = stats::median(&tops)?;
    let spread = 1.4826 * stats::median_abs_deviation(&tops)?;
    if volts < supply + (1.0f64).max(6.0 * noise) {
        return None;
    }
    let uncertainty = spread.max(0.01 * volts).max(noise);
    Some(Flyback {
        volts,
        uncertainty,
        resolved: wide && spread < 0.06 * volts,
    })
}
