//! Names of the roles that a channel's name may say.

pub(super) const SUPPLY_CURRENT: &str = "supply-current";
pub(super) const SUPPLY_VOLTAGE: &str = "supply-voltage";
pub(super) const GROUND_VOLTAGE: &str = "ground-voltage";
pub(super) const INPUT_SHAFT_1: &str = "input-shaft-1";
pub(super) const INPUT_SHAFT_2: &str = "input-shaft-2";
pub(super) const OUTPUT_SHAFT: &str = "output-shaft";
pub(super) const ENGINE_SPEED: &str = "engine-speed";
pub(super) const ACTUATOR_CURRENT_1: &str = "actuator-current-1";
pub(super) const ACTUATOR_CURRENT_2: &str = "actuator-current-2";
pub(super) const GEAR_MOTOR_CURRENT_1: &str = "gear-motor-current-1";
pub(super) const GEAR_MOTOR_CURRENT_2: &str = "gear-motor-current-2";
pub(super) const SELECTOR: &str = "selector";
pub(super) const OTHER: &str = "other";
