//! Two sensors compared: the wheels of one axle.

use crate::amplitude::axle_twin;
use crate::sensors::{self, Sensor};
use plugin_sdk::signal::stats;
use plugin_sdk::{Analyzer, Declaration, Input, Observation, Output};

/// The analyzer.
pub struct SensorPair;

impl Analyzer for SensorPair {
    const DECLARATION: Declaration = Declaration {
        id: "sensor-pair",
        name: "Two wheels compared",
        needs: &["wheel-speed-1|wheel-speed-3", "wheel-speed-2|wheel-speed-4"],
        uses: &[sensors::ENGINE],
        inputs: crate::TRAINS,
        kinds: &[("speed-difference", "%")],
        messages: &[("speed-difference", &["other", "faster"])],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let sensors = sensors::read(input);
        for sensor in &sensors {
            let twin = axle_twin(sensor.role()).filter(|twin| sensor.role() < *twin);
            let mut all = sensors.iter();
            if let Some(other) = twin.and_then(|t| all.find(|s| s.role() == t)) {
                compare(sensor, other, input, out);
            }
        }
        Ok(())
    }
}

/// Points of the common grid that are needed: a second.
const LEAST: usize = 50;

fn compare(a: &Sensor<'_>, b: &Sensor<'_>, input: &Input<'_>, out: &mut Output) {
    let speeds = |s: &Sensor<'_>| {
        let positions = s.train.wheel.positions_per_turn()?;
        let series = input.tooth_rate(s.role())?;
        let rpm = |hz: &f64| hz * 60.0 / f64::from(positions);
        let rates = series.numbers("rate")?.iter().map(rpm).collect::<Vec<_>>();
        Some((series.grid?, rates))
    };
    let both = || Some((speeds(a)?, speeds(b)?));
    let Some(((grid, own), (_, its))) = both().filter(|_| a.rotates() && b.rotates()) else {
        return;
    };
    let pairs: Vec<(usize, f64)> = own
        .iter()
        .zip(&its)
        .enumerate()
        .filter(|(_, (x, y))| x.is_finite() && y.is_finite())
        .map(|(k, (x, y))| (k, 200.0 * (x - y) / (x + y)))
        .collect();
    let (Some(first), Some(last)) = (pairs.first(), pairs.last()) else {
        return;
    };
    let off: Vec<f64> = pairs.iter().map(|p| p.1).collect();
    let quantile = |q| stats::quantile(&off, q).unwrap_or(0.0);
    let (middle, spread) = (quantile(0.5), (quantile(0.84) - quantile(0.16)) / 2.0);
    if pairs.len() < LEAST {
        return;
    }
    let at = |k: usize| grid.start_s + k as f64 * grid.step_s;
    let faster = if middle >= 0.0 { a.role() } else { b.role() };
    out.add(
        Observation::new("speed-difference", "speed-difference")
            .about(a.role())
            .span(at(first.0), at(last.0))
            .value(middle.abs(), spread, "%")
            .arg("other", b.role())
            .arg("faster", faster),
    );
}
