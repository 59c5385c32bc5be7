//! The analyzers of speed sensors: wheels, shafts, crankshaft, camshaft.

pub mod amplitude;
pub mod cam_phase;
pub mod interruptions;
pub mod pair;
pub mod pick_up;
pub mod polarity;
pub mod ring;
pub mod rotation;
pub mod sensors;

pub use amplitude::SensorAmplitude;
pub use cam_phase::CamPhase;
pub use interruptions::Interruptions;
pub use pair::SensorPair;
pub use polarity::Polarity;
pub use ring::ToothRing;
pub use rotation::Rotation;

use plugin_sdk::LimitsSheet;
use plugin_sdk::derived::{ENGINE_STATE, TOOTH_RATE, TRAIN};

/// Normal values of speed sensors in general.
pub static LIMITS: LimitsSheet = LimitsSheet::embedded(&[
    include_str!("../limits.toml"),
    include_str!("../../recording/limits.toml"),
]);

/// Series that every analyzer here reads.
const TRAINS: &[&str] = &{
    let [train, pattern, edges, turns, segments, dropouts] = TRAIN;
    [
        train,
        pattern,
        edges,
        turns,
        segments,
        dropouts,
        TOOTH_RATE.name,
        ENGINE_STATE.name,
    ]
};

plugin_sdk::export! {
    system: "speed-sensor",
    name: "Speed sensors",
    vendor: "baybrief",
    assets: [
        "system.toml" => include_str!("../system.toml"),
        "limits.toml" => include_str!("../limits.toml"),
        "causes.toml" => include_str!("../causes.toml"),
        "lang/en.ftl" => include_str!("../lang/en.ftl"),
        "lang/de.ftl" => include_str!("../lang/de.ftl"),
        "lang/es.ftl" => include_str!("../lang/es.ftl"),
    ],
    analyzers: [Rotation, ToothRing, SensorAmplitude, Polarity, Interruptions, SensorPair, CamPhase],
}
