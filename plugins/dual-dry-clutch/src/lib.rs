//! The analyzers of an automated gearbox with two dry clutches.

pub mod actuator_current;
pub mod gear_train;
pub mod sensor_health;
pub mod shaft_motion;
pub mod supply;

pub use actuator_current::ActuatorCurrent;
pub use gear_train::GearTrain;
pub use sensor_health::SensorHealth;
pub use shaft_motion::ShaftMotion;
pub use supply::Supply;

plugin_sdk::export!(
    ShaftMotion,
    ActuatorCurrent,
    Supply,
    GearTrain,
    SensorHealth
);
