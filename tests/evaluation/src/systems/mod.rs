//! Classes of the further systems: what is looked at with the same clamp before a gearbox is accused. The physics is that of
//! the demo jobs (`simulator::systems`), with parameters drawn for each case.

mod can_bus;
mod case;
mod coil;
mod dc_motor;
mod outcomes;
mod speed_sensor;
mod start_and_charge;

pub use case::SystemCase;
pub use outcomes::markdown;

use crate::params::Params;
use simulator::systems::can_bus::Lines;

/// Makes a case of a class.
pub type Make = fn(&mut Params) -> SystemCase;

/// Every class by name: the system, and the fault or its absence.
pub const CLASSES: &[(&str, Make)] = &[
    ("start-and-charge healthy-start", |p| {
        start_and_charge::start(p, "")
    }),
    ("start-and-charge battery-weak", |p| {
        start_and_charge::start(p, "battery-weak")
    }),
    ("start-and-charge ground-resistance-high", |p| {
        start_and_charge::start(p, "ground-resistance-high")
    }),
    ("start-and-charge feed-resistance-high", |p| {
        start_and_charge::start(p, "feed-resistance-high")
    }),
    ("start-and-charge starter-drag", |p| {
        start_and_charge::start(p, "starter-drag")
    }),
    ("start-and-charge cylinder-low-compression", |p| {
        start_and_charge::start(p, "cylinder-low-compression")
    }),
    ("start-and-charge healthy-charging", |p| {
        start_and_charge::charging(p, "")
    }),
    ("start-and-charge alternator-phase-fault", |p| {
        start_and_charge::charging(p, "alternator-phase-fault")
    }),
    ("start-and-charge undercharging", |p| {
        start_and_charge::charging(p, "undercharging")
    }),
    ("start-and-charge overcharging", |p| {
        start_and_charge::charging(p, "overcharging")
    }),
    ("start-and-charge healthy-key-off", |p| {
        start_and_charge::parked(p, false)
    }),
    ("start-and-charge key-off-drain", |p| {
        start_and_charge::parked(p, true)
    }),
    ("dc-motor healthy", |p| {
        dc_motor::motor(p, dc_motor::Condition::Sound)
    }),
    ("dc-motor healthy-light", |p| {
        dc_motor::motor(p, dc_motor::Condition::Light)
    }),
    ("dc-motor commutator-fault", |p| {
        dc_motor::motor(p, dc_motor::Condition::OpenBar)
    }),
    ("dc-motor commutator-fault-wide-brush", |p| {
        dc_motor::motor(p, dc_motor::Condition::OpenCoil)
    }),
    ("dc-motor motor-tight", |p| {
        dc_motor::motor(p, dc_motor::Condition::Tight)
    }),
    ("dc-motor motor-tight-spot", |p| {
        dc_motor::motor(p, dc_motor::Condition::Spot)
    }),
    ("dc-motor motor-jammed", |p| {
        dc_motor::motor(p, dc_motor::Condition::Jammed)
    }),
    ("dc-motor motor-wiring-resistance", |p| {
        dc_motor::motor(p, dc_motor::Condition::Wiring)
    }),
    ("coil healthy", |p| coil::injectors(p, "")),
    ("coil armature-sticking", |p| {
        coil::injectors(p, "armature-sticking")
    }),
    ("coil coil-shorted-turns", |p| {
        coil::injectors(p, "coil-shorted-turns")
    }),
    ("coil coil-wiring-resistance", |p| {
        coil::injectors(p, "coil-wiring-resistance")
    }),
    ("coil healthy-primaries", |p| coil::primaries(p, "")),
    ("coil coil-shorted-turns-primaries", |p| {
        coil::primaries(p, "coil-shorted-turns")
    }),
    ("coil coil-wiring-resistance-primaries", |p| {
        coil::primaries(p, "coil-wiring-resistance")
    }),
    ("speed-sensor healthy", |p| speed_sensor::wheels(p, "")),
    ("speed-sensor tooth-ring-damaged", |p| {
        speed_sensor::wheels(p, "tooth-ring-damaged")
    }),
    ("speed-sensor tooth-ring-damaged-bent", |p| {
        speed_sensor::wheels(p, "bent")
    }),
    ("speed-sensor sensor-dead", |p| {
        speed_sensor::wheels(p, "sensor-dead")
    }),
    ("speed-sensor air-gap-large", |p| {
        speed_sensor::wheels(p, "air-gap-large")
    }),
    ("speed-sensor sensor-intermittent", |p| {
        speed_sensor::wheels(p, "sensor-intermittent")
    }),
    ("speed-sensor ring-runout-high", |p| {
        speed_sensor::wheels(p, "ring-runout-high")
    }),
    ("speed-sensor healthy-braked", speed_sensor::braked),
    ("speed-sensor undecided-lift", speed_sensor::lift),
    ("speed-sensor healthy-crank", |p| {
        speed_sensor::crank(p, false)
    }),
    ("speed-sensor sensor-polarity-reversed", |p| {
        speed_sensor::crank(p, true)
    }),
    ("can-bus healthy", |p| can_bus::bus(p, Lines::Whole, "")),
    ("can-bus termination-missing", |p| {
        can_bus::bus(p, Lines::OneTerminator, "termination-missing")
    }),
    ("can-bus line-short-to-ground", |p| {
        can_bus::bus(p, Lines::HighAtGround, "line-short-to-ground")
    }),
    ("can-bus lines-swapped", |p| {
        can_bus::bus(p, Lines::Exchanged, "lines-swapped")
    }),
    ("can-bus healthy-log", |p| can_bus::bus_log(p, false)),
    ("can-bus node-silent", |p| can_bus::bus_log(p, true)),
];

/// The maker of a class; `None` for an unknown name.
pub fn class(name: &str) -> Option<Make> {
    CLASSES.iter().find(|c| c.0 == name).map(|c| c.1)
}
