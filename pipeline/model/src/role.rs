//! What a channel measures and with what kind of sensor.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a channel measures.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Current through the unit's fuse or feed, A.
    SupplyCurrent,
    /// Voltage at the unit's supply, V.
    SupplyVoltage,
    /// Voltage drop of the unit's ground against battery negative, V.
    GroundVoltage,
    /// Speed sensor of the first input shaft (odd gears).
    #[serde(rename = "input-shaft-1")]
    InputShaft1,
    /// Speed sensor of the second input shaft (even gears and reverse).
    #[serde(rename = "input-shaft-2")]
    InputShaft2,
    /// Speed sensor of the output shaft.
    OutputShaft,
    /// Engine speed sensor.
    EngineSpeed,
    /// Current of the first clutch's own actuator, A.
    #[serde(rename = "actuator-current-1")]
    ActuatorCurrent1,
    /// Current of the second clutch's own actuator, A.
    #[serde(rename = "actuator-current-2")]
    ActuatorCurrent2,
    /// Current of the first gear motor, A.
    #[serde(rename = "gear-motor-current-1")]
    GearMotorCurrent1,
    /// Current of the second gear motor, A.
    #[serde(rename = "gear-motor-current-2")]
    GearMotorCurrent2,
    /// Selector position signal.
    Selector,
    /// Anything else; kept and shown, not judged.
    Other,
}

impl Role {
    /// Every role, in the order in which they are printed.
    pub const ALL: [Role; 13] = [
        Role::SupplyCurrent,
        Role::SupplyVoltage,
        Role::GroundVoltage,
        Role::InputShaft1,
        Role::InputShaft2,
        Role::OutputShaft,
        Role::EngineSpeed,
        Role::ActuatorCurrent1,
        Role::ActuatorCurrent2,
        Role::GearMotorCurrent1,
        Role::GearMotorCurrent2,
        Role::Selector,
        Role::Other,
    ];

    /// The name used in job.toml, case.json and the plugin ABI.
    pub fn name(self) -> &'static str {
        match self {
            Role::SupplyCurrent => "supply-current",
            Role::SupplyVoltage => "supply-voltage",
            Role::GroundVoltage => "ground-voltage",
            Role::InputShaft1 => "input-shaft-1",
            Role::InputShaft2 => "input-shaft-2",
            Role::OutputShaft => "output-shaft",
            Role::EngineSpeed => "engine-speed",
            Role::ActuatorCurrent1 => "actuator-current-1",
            Role::ActuatorCurrent2 => "actuator-current-2",
            Role::GearMotorCurrent1 => "gear-motor-current-1",
            Role::GearMotorCurrent2 => "gear-motor-current-2",
            Role::Selector => "selector",
            Role::Other => "other",
        }
    }

    /// Whether the channel carries a speed sensor's tooth signal.
    pub fn is_speed_sensor(self) -> bool {
        matches!(
            self,
            Role::InputShaft1 | Role::InputShaft2 | Role::OutputShaft | Role::EngineSpeed
        )
    }

    /// Whether the channel carries a current.
    pub fn is_current(self) -> bool {
        matches!(
            self,
            Role::SupplyCurrent
                | Role::ActuatorCurrent1
                | Role::ActuatorCurrent2
                | Role::GearMotorCurrent1
                | Role::GearMotorCurrent2
        )
    }

    /// The unit that the role's calibrated values are in: `A` for currents, `V` for the rest.
    pub fn unit(self) -> &'static str {
        if self.is_current() { "A" } else { "V" }
    }
}

/// The working principle of a speed sensor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SensorKind {
    /// Three-wire Hall sensor: a square wave, valid down to standstill.
    Hall,
    /// Variable reluctance: amplitude grows with speed, nothing at standstill.
    Vr,
    /// Two-wire sensor that signals by its supply current.
    CurrentLoop,
}
