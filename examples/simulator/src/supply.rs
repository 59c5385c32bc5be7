//! Battery, alternator, starter and the wires up to the gearbox controller.

use crate::engine::EngineRun;

/// Supply of the gearbox controller.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Supply {
    /// Battery at rest, V.
    pub battery: f64,
    /// Voltage that the alternator holds, V.
    pub charging: f64,
    /// Source and wires up to the measuring point, ohm.
    pub source_resistance: f64,
    /// Ground return from the controller to battery negative, ohm.
    pub ground_resistance: f64,
    /// Lowest voltage in the first moment of cranking, V.
    pub cranking_dip: f64,
    /// Voltage that a battery charger holds while the engine is off, V; `None` without one.
    pub charger: Option<f64>,
    /// Alternator ripple while the engine runs, V peak.
    pub ripple: f64,
}

impl Default for Supply {
    fn default() -> Self {
        Supply {
            battery: 12.55,
            charging: 14.15,
            source_resistance: 0.014,
            ground_resistance: 0.003,
            cranking_dip: 8.7,
            charger: None,
            ripple: 0.03,
        }
    }
}

impl Supply {
    /// Voltage without any load of the gearbox at `t`, V. `turns` is the engine's angle in turns.
    pub fn unloaded(&self, engine: &EngineRun, t: f64, turns: f64) -> f64 {
        let alternator = |since: f64| {
            let level = self.charging - (self.charging - self.battery) * (-(t - since) / 0.5).exp();
            level + self.ripple * (std::f64::consts::TAU * 15.6 * turns).sin()
        };
        match engine.crank {
            Some((from, to)) if t >= from && t < to => {
                // The starter's inrush, then a plateau with the compression strokes on it.
                let plateau = self.cranking_dip + 1.3;
                let stroke = 0.35 * (std::f64::consts::TAU * 2.0 * turns).sin();
                plateau + stroke - 1.3 * (-(t - from) / 0.04).exp()
            }
            Some((_, to)) if t >= to => alternator(to),
            Some(_) => self.battery,
            None if engine.runs() => {
                self.charging + self.ripple * (std::f64::consts::TAU * 15.6 * turns).sin()
            }
            None => self.charger.unwrap_or(self.battery),
        }
    }
}
