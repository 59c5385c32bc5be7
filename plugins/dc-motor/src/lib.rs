//! The analyzers of direct-current motors and of three-phase motors behind an inverter.

mod input;
pub mod measure;
pub mod motor_run;
pub mod motor_speed;
pub mod outputs;
pub mod three_phase;
mod verdict;
pub mod wiring_resistance;

pub use motor_run::MotorRun;
pub use motor_speed::MotorSpeed;
pub use three_phase::ThreePhase;
pub use wiring_resistance::WiringResistance;

use plugin_sdk::Settings;
use plugin_sdk::measure::Spec;

plugin_sdk::export!(MotorRun, MotorSpeed, WiringResistance, ThreePhase);

/// Values of the limits sheet.
fn limits(settings: &Settings) -> Spec<'_> {
    Spec(&settings.spec)
}
