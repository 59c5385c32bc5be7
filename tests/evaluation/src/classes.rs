//! The classes of cases: every cause, health, repair, decoys, thin evidence, mixtures.

use crate::decoys::{self, PickUp};
use crate::draft::Draft;
use crate::evidence::{self, ClampFault, Evidence};
use crate::params::Params;
use crate::{drives, jams, mixtures, standstill, wheels};

/// Makes a case of a class.
pub type Make = fn(&mut Params) -> Draft;

/// Every class by name.
pub const CLASSES: &[(&str, Make)] = &[
    ("drag-stall", standstill::drag_stall),
    ("drag-mild", standstill::drag_mild),
    ("slip", drives::slip),
    ("jam-feed", jams::jam_feed),
    ("jam-own", jams::jam_own),
    ("gear-jam", jams::gear_jam),
    ("open-circuit", jams::open_circuit),
    ("supply-weak", standstill::supply_weak),
    ("sensor-dead", drives::sensor_dead),
    ("sensor-dropouts", drives::sensor_dropouts),
    ("sensor-contact", drives::sensor_contact),
    ("sensor-broken-tooth", drives::broken_tooth),
    ("sensor-notched-tooth", drives::notched_tooth),
    ("double-engagement", drives::double_engagement),
    ("relearn-not-completed", standstill::relearn_not_completed),
    ("healthy-parked", standstill::healthy),
    ("healthy-road", drives::healthy),
    ("after-repair", standstill::after_repair),
    ("wheel-pattern-drag", wheels::pattern_drag),
    ("wheel-pattern-untold", wheels::pattern_untold),
    ("wheel-pattern-healthy", wheels::pattern_healthy),
    ("wheel-pattern-road", wheels::pattern_drive),
    ("coil-drag", wheels::coil_drag),
    ("coil-conditioned-drag", wheels::conditioned_drag),
    ("coil-healthy-road", drives::healthy_coils),
    ("loop-drag", wheels::loop_drag),
    ("bouncing-drag", wheels::bouncing_drag),
    ("edge-list-drag", wheels::edge_list_drag),
    ("edge-list-rest", wheels::edge_list_rest),
    ("decoy-pick-up-copy", |p| decoys::pick_up(p, PickUp::Copy)),
    ("decoy-pick-up-ignition", |p| {
        decoys::pick_up(p, PickUp::Ignition)
    }),
    ("decoy-pick-up-pwm", |p| decoys::pick_up(p, PickUp::Pwm)),
    ("decoy-pick-up-load", |p| decoys::pick_up(p, PickUp::Load)),
    ("decoy-pick-up-alternator", |p| {
        decoys::pick_up(p, PickUp::Alternator)
    }),
    ("decoy-coil-pick-up-steady", |p| {
        decoys::coil_pick_up(p, false)
    }),
    ("decoy-coil-pick-up-changing", |p| {
        decoys::coil_pick_up(p, true)
    }),
    ("decoy-charger", decoys::charger),
    ("decoy-coast", decoys::coast),
    ("decoy-dither", decoys::dither),
    ("decoy-bouncing", decoys::bouncing),
    ("decoy-creep", decoys::creep),
    ("decoy-engine-off", decoys::engine_off),
    ("decoy-engine-off-complaint", decoys::engine_off_complaint),
    ("decoy-selector", decoys::selector_d),
    ("decoy-bus-traffic", decoys::bus_traffic),
    ("bus-answer", decoys::bus_answer),
    ("poor-offset", |p| evidence::clamp(p, ClampFault::Offset)),
    ("poor-reversed", |p| {
        evidence::clamp(p, ClampFault::Reversed)
    }),
    ("poor-clipped", |p| evidence::clamp(p, ClampFault::Clipped)),
    ("poor-undersampled", evidence::undersampled),
    ("poor-short", evidence::short),
    ("poor-nothing-known", evidence::nothing_known),
    ("poor-one-shaft", standstill::one_shaft),
    ("poor-wrong-factor", evidence::wrong_factor),
    ("poor-no-units", evidence::no_units),
    ("poor-time-unknown", evidence::time_unknown),
    ("poor-time-fraction-ms", evidence::time_fraction_of_ms),
    ("time-stated", evidence::time_stated),
    ("time-fraction", evidence::time_fraction),
    ("time-clock", evidence::time_clock),
    ("poor-unknown-unit", evidence::unknown_unit),
    ("poor-flat-sensors", evidence::flat_sensors),
    ("poor-swapped-leads", evidence::swapped_leads),
    ("poor-swapped-shafts", evidence::swapped_shafts),
    ("without-feed", |p| {
        evidence::drag_without(p, Evidence::Feed)
    }),
    ("without-other-shaft", |p| {
        evidence::drag_without(p, Evidence::OtherShaft)
    }),
    ("without-engine", |p| {
        evidence::drag_without(p, Evidence::Engine)
    }),
    ("without-selector", |p| {
        evidence::drag_without(p, Evidence::Selector)
    }),
    ("without-shafts-jam", evidence::jam_without_shafts),
    ("without-shaft-healthy", evidence::healthy_without_shaft),
    ("without-feed-healthy", evidence::healthy_without_feed),
    ("without-engine-slip", |p| {
        drives::slip_without(p, "engine-speed")
    }),
    ("without-shaft-slip", |p| {
        drives::slip_without(p, "input-shaft")
    }),
    ("without-output-slip", |p| {
        drives::slip_without(p, "output-shaft")
    }),
    ("mixed-drag-coast", mixtures::drag_and_coast),
    ("mixed-drag-dither", mixtures::drag_and_dither),
    ("mixed-drag-supply", mixtures::drag_and_weak_supply),
    ("mixed-jam-supply", mixtures::jam_and_weak_supply),
    ("mixed-slip-dropouts", drives::slip_and_dropouts),
];

/// The maker of a class; `None` for an unknown name.
pub fn class(name: &str) -> Option<Make> {
    CLASSES.iter().find(|c| c.0 == name).map(|c| c.1)
}
