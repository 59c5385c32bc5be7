//! A value held against its limits.

use plugin_sdk::Limit;

/// Side of a limit on which a value lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Below the lower limit, by more than twice its standard uncertainty.
    Below,
    /// Within the limits.
    Within,
    /// Above the upper limit, by more than twice its standard uncertainty.
    Above,
}

/// Holds a value with its standard uncertainty against a limit.
pub fn side(value: f64, uncertainty: f64, limit: &Limit) -> Side {
    match (limit.low, limit.high) {
        (Some(low), _) if value + 2.0 * uncertainty < low => Side::Below,
        (_, Some(high)) if value - 2.0 * uncertainty > high => Side::Above,
        _ => Side::Within,
    }
}
