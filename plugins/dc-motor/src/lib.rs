//! The analyzers of direct-current motors and of three-phase motors behind an inverter.

pub mod measure;
pub mod motor_run;
pub mod motor_speed;
pub mod outputs;
pub mod three_phase;
pub mod wiring_resistance;

pub use motor_run::MotorRun;
pub use motor_speed::MotorSpeed;
pub use three_phase::ThreePhase;
pub use wiring_resistance::WiringResistance;

use plugin_sdk::{Input, Limits, LimitsSheet, Record, Settings};

/// Normal values of the system.
pub static LIMITS: LimitsSheet = LimitsSheet::embedded(&[
    include_str!("../limits.toml"),
    include_str!("../../recording/limits.toml"),
]);

plugin_sdk::export! {
    system: "dc-motor",
    name: "Electric motor",
    vendor: "baybrief",
    assets: [
        "system.toml" => include_str!("../system.toml"),
        "limits.toml" => include_str!("../limits.toml"),
        "causes.toml" => include_str!("../causes.toml"),
        "lang/en.ftl" => include_str!("../lang/en.ftl"),
        "lang/de.ftl" => include_str!("../lang/de.ftl"),
        "lang/es.ftl" => include_str!("../lang/es.ftl"),
    ],
    analyzers: [MotorRun, MotorSpeed, WiringResistance, ThreePhase],
}

/// Record of the motor's current or of its voltage, positive in either direction of turning.
fn undirected(input: &Input<'_>, role: &str) -> Option<Record> {
    let mut record = Record::of(input, &[role])?;
    measure::run::without_direction(&mut record.values);
    Some(record)
}

/// Values of the limits sheets.
fn limits(settings: &Settings) -> Limits<'_> {
    LIMITS.with(settings)
}
