//! A brushed DC motor, or the equivalent of an electronically commutated one seen from its feed.
//!
//! L di/dt = u - R i - Ke w,  J dw/dt = Ke i - T, with Kt = Ke in SI units. The winding's resistance grows
//! with its temperature (copper, 0.00393 per kelvin at 20 degrees Celsius, adiabatic).

use crate::ode::rk4;

/// Temperature coefficient of copper's resistance at 20 degrees Celsius, 1/K (IEC 60028).
pub const COPPER_PER_KELVIN: f64 = 0.00393;
/// Specific heat of copper, J/(kg K).
pub const COPPER_HEAT: f64 = 385.0;

/// Parameters of a motor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motor {
    /// Winding, leads and driver, ohm at 20 degrees Celsius.
    pub resistance: f64,
    /// H.
    pub inductance: f64,
    /// Voltage constant, V s/rad; also the torque constant, N m/A.
    pub constant: f64,
    /// All that the motor turns, seen at its shaft, kg m2.
    pub inertia: f64,
    /// Dry friction, N m.
    pub friction: f64,
    /// Mass of the winding's copper, kg.
    pub copper: f64,
}

/// State of a running motor.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct MotorState {
    /// A.
    pub current: f64,
    /// rad/s.
    pub speed: f64,
    /// rad.
    pub angle: f64,
    /// Winding temperature above 20 degrees Celsius, K.
    pub heating: f64,
}

impl Motor {
    /// Resistance of a winding that is `heating` kelvin warmer than 20 degrees Celsius, ohm.
    pub fn resistance_at(&self, heating: f64) -> f64 {
        self.resistance * (1.0 + COPPER_PER_KELVIN * heating)
    }

    /// State after `step` seconds at `voltage`, against `load(angle)` in N m. A blocked motor keeps its place.
    pub fn advance(
        &self,
        s: MotorState,
        voltage: f64,
        blocked: bool,
        step: f64,
        load: impl Fn(f64) -> f64,
    ) -> MotorState {
        let start = [
            s.current,
            if blocked { 0.0 } else { s.speed },
            s.angle,
            s.heating,
        ];
        let end = rk4(start, step, |&[i, w, x, h]| {
            let r = self.resistance_at(h);
            let di = (voltage - r * i - self.constant * w) / self.inductance;
            let friction = self.friction * (w / 4.0).tanh();
            let dw = if blocked {
                0.0
            } else {
                (self.constant * i - friction - load(x)) / self.inertia
            };
            [di, dw, w, i * i * r / (self.copper * COPPER_HEAT)]
        });
        MotorState {
            current: end[0],
            speed: end[1],
            angle: end[2],
            heating: end[3],
        }
    }
}
