//! An input shaft that a clutch may turn.

use crate::ode::rk4;

/// An input shaft with its bearings and the clutch in front of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shaft {
    /// kg m2.
    pub inertia: f64,
    /// Losses that grow with speed, N m s/rad.
    pub viscous: f64,
    /// Dry friction of bearings and seals, N m.
    pub dry: f64,
    /// Drag of a clutch that does not part: torque per difference to the engine's speed, N m s/rad.
    pub drag: f64,
}

impl Default for Shaft {
    fn default() -> Self {
        Shaft {
            inertia: 0.0065,
            viscous: 0.0035,
            dry: 0.22,
            drag: 0.0,
        }
    }
}

impl Shaft {
    /// The drag that turns the shaft at `share` (0 to 1) of the engine's speed `engine_rpm` in the long run.
    pub fn drag_for(&self, share: f64, engine_rpm: f64) -> f64 {
        let engine = engine_rpm * std::f64::consts::PI / 30.0;
        (self.viscous * share * engine + self.dry) / ((1.0 - share) * engine)
    }

    /// Speed after `step` seconds, rad/s, at a clutch torque capacity of `clutch` N m.
    pub fn advance(&self, speed: f64, engine: f64, clutch: f64, step: f64) -> f64 {
        let [next] = rk4([speed], step, |&[w]| {
            let driven = self.drag * (engine - w) + clutch * ((engine - w) / 2.0).tanh();
            [(driven - self.viscous * w - self.dry * (w / 0.5).tanh()) / self.inertia]
        });
        next
    }
}
