//! Charge that a key-off current takes from the battery.

/// Charge taken in a day, Ah.
pub fn charge_a_day(current_a: f64) -> f64 {
    24.0 * current_a
}

/// Days until the battery no longer starts the engine: until `share` of its charge is gone (0.4 by a maker's bulletin
/// of which a copy was read: "no start after 40 % of Ah"). `None` where nothing is drawn.
pub fn days_until_no_start(current_a: f64, battery_ah: f64, share: f64) -> Option<f64> {
    (current_a > 0.0).then(|| share * battery_ah / charge_a_day(current_a))
}
