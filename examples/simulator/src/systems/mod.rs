//! An invented demo job for each system, made from textbook models. A further system is a module here and a line in
//! [`DEMO_JOBS`].

pub mod can_bus;
pub mod coil;
pub mod dc_motor;
pub mod dual_dry_clutch;
pub mod invented;
pub mod speed_sensor;
pub mod start_and_charge;

use crate::folder::JobFolder;

/// A demo job.
#[derive(Debug, Clone, Copy)]
pub struct DemoJob {
    /// System that it shows.
    pub system: &'static str,
    /// Makes the job's files; the same each time.
    pub folder: fn() -> JobFolder,
}

/// The demo jobs; the first is shown where no system is named.
pub const DEMO_JOBS: &[DemoJob] = &[
    DemoJob {
        system: "dual-dry-clutch",
        folder: dual_dry_clutch::folder,
    },
    DemoJob {
        system: "start-and-charge",
        folder: start_and_charge::folder,
    },
    DemoJob {
        system: "dc-motor",
        folder: dc_motor::folder,
    },
    DemoJob {
        system: "coil",
        folder: coil::folder,
    },
    DemoJob {
        system: "speed-sensor",
        folder: speed_sensor::folder,
    },
    DemoJob {
        system: "can-bus",
        folder: can_bus::folder,
    },
];
