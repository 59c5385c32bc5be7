//! The scenario classes: all causes of the cause sheet, health, repair, traps and mixtures.

use crate::draft::Draft;
use crate::{drives, jams, mixtures, standstill, traps};
use simulator::noise::Noise;

/// Makes a case of a class: from a source of chance and a noise level (0 quiet, 1 usual, 2 rough).
pub type Make = fn(&mut Noise, usize) -> Draft;

/// Every class by name.
pub const CLASSES: [(&str, Make); 40] = [
    ("drag-stall", standstill::drag_stall),
    ("drag-mild", standstill::drag_mild),
    ("slip", drives::slip),
    ("jam-feed", jams::jam_feed),
    ("jam-own", jams::jam_own),
    ("gear-jam", jams::gear_jam),
    ("open-circuit", jams::open_circuit),
    ("supply-weak", standstill::supply_weak),
    ("sensor-dead", drives::sensor_dead),
    ("sensor-drop-outs", drives::sensor_drop_outs),
    ("sensor-contact", drives::sensor_contact),
    ("sensor-broken-tooth", drives::broken_tooth),
    ("sensor-notched-tooth", drives::notched_tooth),
    ("double-engagement", drives::double_engagement),
    ("relearn-not-completed", standstill::relearn_not_completed),
    ("healthy-parked", standstill::healthy),
    ("healthy-road", drives::healthy),
    ("after-repair", standstill::after_repair),
    ("trap-pick-up-copy", |d, n| {
        traps::pick_up(d, n, traps::PickUp::Copy)
    }),
    ("trap-pick-up-ignition", |d, n| {
        traps::pick_up(d, n, traps::PickUp::Ignition)
    }),
    ("trap-pick-up-pwm", |d, n| {
        traps::pick_up(d, n, traps::PickUp::Pwm)
    }),
    ("trap-pick-up-load", |d, n| {
        traps::pick_up(d, n, traps::PickUp::Load)
    }),
    ("trap-charger", traps::charger),
    ("trap-coast", traps::coast),
    ("trap-dither", traps::dither),
    ("trap-creep", traps::creep),
    ("trap-engine-off", traps::engine_off),
    ("trap-selector", traps::selector_d),
    ("poor-offset", |d, n| {
        traps::clamp(d, n, traps::ClampFault::Offset)
    }),
    ("poor-reversed", |d, n| {
        traps::clamp(d, n, traps::ClampFault::Reversed)
    }),
    ("poor-clipped", |d, n| {
        traps::clamp(d, n, traps::ClampFault::Clipped)
    }),
    ("poor-undersampled", traps::undersampled),
    ("poor-short", traps::short),
    ("poor-one-shaft", standstill::one_shaft),
    ("poor-nothing-known", traps::nothing_known),
    ("mixed-drag-coast", mixtures::drag_and_coast),
    ("mixed-drag-dither", mixtures::drag_and_dither),
    ("mixed-drag-supply", mixtures::drag_and_weak_supply),
    ("mixed-jam-supply", mixtures::jam_and_weak_supply),
    ("mixed-slip-drop-outs", drives::slip_and_drop_outs),
];
