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

/// Speed of one wheel over that of another while both turn.
pub struct Difference {
    /// Median, % of their mean; positive where the first is faster.
    pub percent: f64,
    /// Half the range of the middle two thirds, %.
    pub spread: f64,
    /// From and to, s.
    pub span: (f64, f64),
}

/// Compares the speeds of two wheels. `None` where they do not both turn for a second.
pub fn difference(a: &Sensor<'_>, b: &Sensor<'_>, input: &Input<'_>) -> Option<Difference> {
    let speeds = |s: &Sensor<'_>| {
        let positions = s.train.wheel.positions_per_turn()?;
        let series = input.tooth_rate(s.role())?;
        let rpm = |hz: &f64| hz * 60.0 / f64::from(positions);
        let rates = series.numbers("rate")?.iter().map(rpm).collect::<Vec<_>>();
        Some((series.grid?, rates))
    };
    if !a.rotates() || !b.rotates() {
        return None;
    }
    let ((grid, own), (_, its)) = (speeds(a)?, speeds(b)?);
    let pairs: Vec<(usize, f64)> = own
        .iter()
        .zip(&its)
        .enumerate()
        .filter(|(_, (x, y))| x.is_finite() && y.is_finite())
        .map(|(k, (x, y))| (k, 200.0 * (x - y) / (x + y)))
        .collect();
    let off: Vec<f64> = pairs.iter().map(|p| p.1).collect();
    let quantile = |q| stats::quantile(&off, q).unwrap_or(0.0);
    let at = |k: usize| grid.start_s + k as f64 * grid.step_s;
    (pairs.len() >= LEAST).then(|| Difference {
        percent: quantile(0.5),
        spread: (quantile(0.84) - quantile(0.16)) / 2.0,
        span: (at(pairs[0].0), at(pairs[pairs.len() - 1].0)),
    })
}

fn compare(a: &Sensor<'_>, b: &Sensor<'_>, input: &Input<'_>, out: &mut Output) {
    let Some(d) = difference(a, b, input) else {
        return;
    };
    let faster = if d.percent >= 0.0 { a.role() } else { b.role() };
    out.add(
        Observation::new("speed-difference", "speed-difference")
            .about(a.role())
            .span(d.span.0, d.span.1)
            .value(d.percent.abs(), d.spread, "%")
            .arg("other", b.role())
            .arg("faster", faster),
    );
}
