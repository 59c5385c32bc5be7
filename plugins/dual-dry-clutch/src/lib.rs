//! The analyzers of an automated gearbox with two dry clutches.

pub mod actuator_current;
pub mod attribution;
pub mod clutch;
pub mod drive_conditions;
pub mod gear_train;
pub mod one_source;
pub mod recording_checks;
pub mod sensor_health;
pub mod shaft_motion;
pub mod shafts_untested;
pub mod speeds;
pub mod supply;

pub use actuator_current::ActuatorCurrent;
pub use attribution::Attribution;
pub use drive_conditions::DriveConditions;
pub use gear_train::GearTrain;
pub use recording_checks::RecordingChecks;
pub use sensor_health::SensorHealth;
pub use shaft_motion::ShaftMotion;
pub use shafts_untested::ShaftsUntested;
pub use supply::Supply;

use plugin_sdk::LimitsSheet;
use plugin_sdk::derived::{
    CURRENT_LEVELS, CURRENT_PULSES, ENGINE_STATE, TOOTH_DROPOUTS, TOOTH_EDGES, TOOTH_PATTERN,
    TOOTH_RATE, TOOTH_SEGMENTS, TOOTH_TRAIN, TOOTH_TURNS,
};

/// Normal values of such a gearbox.
pub static LIMITS: LimitsSheet = LimitsSheet::embedded(&[
    include_str!("../limits.toml"),
    include_str!("../../recording/limits.toml"),
]);

/// Series that analyzers of shafts and feed read.
const PULSES_AND_TRAINS: &[&str] = &[
    CURRENT_LEVELS.name,
    CURRENT_PULSES.name,
    TOOTH_TRAIN.name,
    TOOTH_PATTERN.name,
    TOOTH_EDGES.name,
    TOOTH_TURNS.name,
    TOOTH_SEGMENTS.name,
    TOOTH_DROPOUTS.name,
    TOOTH_RATE.name,
    ENGINE_STATE.name,
];

/// Units of `signal-quality`, as `recording` declares them.
const QUALITY_UNITS: &str = "s|%|A|count";

plugin_sdk::export! {
    system: "dual-dry-clutch",
    name: "Gearbox with two dry clutches",
    vendor: "baybrief",
    assets: [
        "system.toml" => include_str!("../system.toml"),
        "limits.toml" => include_str!("../limits.toml"),
        "causes.toml" => include_str!("../causes.toml"),
        "lang/en.ftl" => include_str!("../lang/en.ftl"),
        "lang/de.ftl" => include_str!("../lang/de.ftl"),
        "lang/es.ftl" => include_str!("../lang/es.ftl"),
        "presets/fuse-and-shafts.toml" => include_str!("../presets/fuse-and-shafts.toml"),
        "presets/both-clutch-motors.toml" => include_str!("../presets/both-clutch-motors.toml"),
        "presets/wav-fuse-and-shafts.toml" => include_str!("../presets/wav-fuse-and-shafts.toml"),
    ],
    analyzers: [
        DriveConditions,
        RecordingChecks,
        ShaftMotion,
        ActuatorCurrent,
        Supply,
        GearTrain,
        SensorHealth,
        ShaftsUntested,
        Attribution,
    ],
}
