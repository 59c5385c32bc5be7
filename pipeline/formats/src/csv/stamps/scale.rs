//! From whole numbers of the last place to values, and from the file's unit to seconds.

/// Turns whole numbers of the last place into values: divided by an exact power of ten, as the decimal parse does.
pub(super) struct Last {
    power: f64,
    divide: bool,
}

impl Last {
    pub fn new(decimals: i32) -> Self {
        let decimals = if decimals == i32::MIN { 0 } else { decimals };
        Last {
            power: 10f64.powi(decimals.abs()),
            divide: decimals >= 0,
        }
    }

    pub fn value(&self, m: i64) -> f64 {
        if self.divide {
            m as f64 / self.power
        } else {
            m as f64 * self.power
        }
    }
}

/// Converts into seconds; divides by whole numbers, because a thousandth is no exact double.
pub(super) struct Scale {
    per_second: Option<f64>,
    unit_s: f64,
}

impl Scale {
    pub fn new(unit_s: f64) -> Self {
        let per_second = (1.0 / unit_s).round();
        Scale {
            per_second: (unit_s < 1.0).then_some(per_second),
            unit_s,
        }
    }

    pub fn seconds(&self, t: f64) -> f64 {
        self.per_second.map_or(t * self.unit_s, |n| t / n)
    }
}
