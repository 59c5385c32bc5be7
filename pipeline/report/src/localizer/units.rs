//! Units that the customer reads.

use model::shop_file::Units;

/// A value in the units that are asked for, with the name of its unit. Units that are the same everywhere (A, V, s,
/// rpm) stay as they are.
///
/// Factors: NIST SP 811 (2008), appendix B.8: 1 mi = 1.609 344 km, 1 psi = 6.894 757 kPa, 1 ft lbf = 1.355 818 N m,
/// 1 lb = 0.453 592 37 kg, 1 in = 25.4 mm (from memory).
pub(super) fn converted(value: f64, unit: &str, units: Units) -> (f64, &str) {
    match scale(unit).filter(|_| units == Units::Us) {
        Some((factor, offset, name)) => (value * factor + offset, name),
        None => (value, unit),
    }
}

/// A difference or an uncertainty in the units that are asked for.
pub(super) fn converted_span(value: f64, unit: &str, units: Units) -> f64 {
    match scale(unit).filter(|_| units == Units::Us) {
        Some((factor, _, _)) => value * factor,
        None => value,
    }
}

/// US value = metric value * factor + offset.
fn scale(unit: &str) -> Option<(f64, f64, &'static str)> {
    Some(match unit {
        "km" => (1.0 / 1.609_344, 0.0, "mi"),
        "km/h" => (1.0 / 1.609_344, 0.0, "mph"),
        "°C" | "degC" => (1.8, 32.0, "°F"),
        "kPa" => (1.0 / 6.894_757, 0.0, "psi"),
        "bar" => (100.0 / 6.894_757, 0.0, "psi"),
        "N·m" | "Nm" => (1.0 / 1.355_818, 0.0, "lbf·ft"),
        "kg" => (1.0 / 0.453_592_37, 0.0, "lb"),
        "mm" => (1.0 / 25.4, 0.0, "in"),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whole pairs known to everybody: 100 °C is 212 °F, 1 609.344 km are 1 000 mi, 25.4 mm are 1 in.
    #[test]
    fn known_pairs() {
        for (value, unit, us, name) in [
            (100.0, "°C", 212.0, "°F"),
            (-40.0, "degC", -40.0, "°F"),
            (1_609.344, "km", 1_000.0, "mi"),
            (25.4, "mm", 1.0, "in"),
            (412.6, "rpm", 412.6, "rpm"),
        ] {
            let (got, got_name) = converted(value, unit, Units::Us);
            assert!(
                (got - us).abs() < 1e-9 && got_name == name,
                "{value} {unit}"
            );
            assert_eq!(converted(value, unit, Units::Metric), (value, unit));
        }
        assert!((converted_span(10.0, "°C", Units::Us) - 18.0).abs() < 1e-12);
    }
}
