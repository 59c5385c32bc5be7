//! Units as files write them.

use crate::words::{WORDS, fold};
use std::collections::HashMap;
use std::sync::LazyLock;

/// Seconds per unit of time; `None` where it is no unit of time.
pub fn seconds(unit: &str) -> Option<f64> {
    static FACTORS: LazyLock<HashMap<&str, f64>> = LazyLock::new(|| {
        let lists = [
            (&WORDS.second, 1.0),
            (&WORDS.millisecond, 1e-3),
            (&WORDS.microsecond, 1e-6),
            (&WORDS.nanosecond, 1e-9),
            (&WORDS.minute, 60.0),
            (&WORDS.hour, 3600.0),
        ];
        let pairs = lists
            .into_iter()
            .flat_map(|(l, f)| l.iter().map(move |w| (w, f)));
        pairs.collect()
    });
    let unit = unit.trim().trim_end_matches('.');
    FACTORS.get(fold(unit).as_str()).copied()
}

/// Hertz per unit of sample rate; `None` where it is none.
pub fn hertz(unit: &str) -> Option<f64> {
    let low = fold(unit.trim().trim_end_matches('.')).replace(' ', "");
    if WORDS.hertz.contains(&low) {
        return Some(1.0);
    }
    let prefixed = |c: char| {
        low.strip_prefix(c)
            .filter(|base| WORDS.hertz.contains(base))
    };
    [('k', 1e3), ('m', 1e6)]
        .into_iter()
        .find_map(|(c, factor)| prefixed(c).map(|_| factor))
}

/// True where a word is a unit that turns up on a recorder's channel.
pub fn is_unit(word: &str) -> bool {
    let word = word.trim();
    if seconds(word).is_some() || hertz(word).is_some() || WORDS.unit.contains(&fold(word)) {
        return true;
    }
    let base = word
        .strip_prefix(['m', 'k', 'µ', 'μ', 'u', 'M', 'n', '\u{fffd}'])
        .unwrap_or(word);
    matches!(base, "V" | "A" | "Ω" | "W" | "C" | "F" | "H")
        || matches!(word, "v" | "a" | "mv" | "ma")
}

/// Factor from a unit of voltage or current as files write it to the base unit, and that base unit (`V`, `A`).
pub fn base(unit: &str) -> Option<(f64, &'static str)> {
    let unit = unit.trim();
    Some(match unit {
        "V" | "v" => (1.0, "V"),
        "mV" | "mv" => (1e-3, "V"),
        "uV" | "µV" | "μV" => (1e-6, "V"),
        "kV" => (1e3, "V"),
        "A" | "a" => (1.0, "A"),
        "mA" | "ma" => (1e-3, "A"),
        "uA" | "µA" | "μA" => (1e-6, "A"),
        _ => match fold(unit).as_str() {
            "volt" | "volts" | "voltios" | "vdc" | "vac" => (1.0, "V"),
            "amp" | "amps" | "ampere" | "amperes" | "amperios" | "adc" | "aac" => (1.0, "A"),
            _ => return None,
        },
    })
}

/// Factor from one unit to another that differs by a metric prefix only: 0.001 from mV to V; `None` for others.
pub fn ratio(from: &str, to: &str) -> Option<f64> {
    if from == to {
        return Some(1.0);
    }
    if let (Some(a), Some(b)) = (seconds(from), seconds(to)) {
        return Some(a / b);
    }
    let parts = |unit: &str| -> (f64, String) {
        let unit = unit.trim();
        let prefixed = |c: char| {
            unit.strip_prefix(c)
                .filter(|base| matches!(*base, "V" | "A" | "Ω" | "W" | "Hz" | "v" | "a"))
        };
        [
            ('m', 1e-3),
            ('k', 1e3),
            ('µ', 1e-6),
            ('μ', 1e-6),
            ('u', 1e-6),
            ('M', 1e6),
            ('n', 1e-9),
        ]
        .into_iter()
        .find_map(|(c, f)| Some((f, prefixed(c)?.to_lowercase())))
        .unwrap_or((1.0, unit.to_lowercase()))
    };
    let ((a, base), (b, other)) = (parts(from), parts(to));
    // Divided where that is exact: a thousandth is no exact double.
    (base == other).then(|| if a < b { 1.0 / (b / a).round() } else { a / b })
}

/// Takes the unit off a column name: `Sensor 1 [mV]`, `Current (A)`, `Time in ms`, `Supply_V`,
/// `Zeit / s`, `time, s`. Gives the name without it and the unit.
pub fn split(header: &str) -> (String, Option<String>) {
    let header = header.trim().trim_matches('"').trim();
    for (open, close, any) in [
        ('[', ']', true),
        ('(', ')', false),
        ('{', '}', false),
        ('<', '>', false),
    ] {
        if let Some((name, rest)) = header.rsplit_once(open)
            && let Some((unit, "")) = rest.split_once(close)
            && (is_unit(unit) || (any && unit.chars().count() <= 12 && !unit.trim().is_empty()))
        {
            return (name.trim().to_string(), Some(unit.trim().to_string()));
        }
    }
    for between in [" in ", "_in_", " en ", "_", " / ", "/", ", ", " - ", ":"] {
        if let Some((name, unit)) = header.rsplit_once(between)
            && is_unit(unit)
            && !name.trim().is_empty()
        {
            return (name.trim().to_string(), Some(unit.trim().to_string()));
        }
    }
    (header.to_string(), None)
}

/// A cell of a unit row: `(us)`, `[A]`, `V`, or empty.
pub fn unit_cell(cell: &str) -> Option<String> {
    let cell = cell.trim().trim_matches('"').trim();
    let bare = cell
        .strip_prefix(['(', '[', '{', '<'])
        .and_then(|c| c.strip_suffix([')', ']', '}', '>']))
        .map(str::trim);
    match bare {
        Some(unit) if unit.chars().count() <= 12 => Some(unit.to_string()),
        _ if is_unit(cell) => Some(cell.to_string()),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_header_gives_up_its_unit() {
        for (header, name, unit) in [
            ("Sensor 1 [mV]", "Sensor 1", Some("mV")),
            ("CH1 (A)", "CH1", Some("A")),
            ("Feed current in mV", "Feed current", Some("mV")),
            ("Supply voltage_V", "Supply voltage", Some("V")),
            ("Time_s", "Time", Some("s")),
            ("Zeit / µs", "Zeit", Some("µs")),
            ("Strom (odd)", "Strom (odd)", None),
            ("Input 1", "Input 1", None),
            ("\"Input 1 (V)\"", "Input 1", Some("V")),
            ("OSS", "OSS", None),
            ("pump motor 1 amps", "pump motor 1 amps", None),
            ("Input_A", "Input", Some("A")),
        ] {
            let (n, u) = split(header);
            assert_eq!((n.as_str(), u.as_deref()), (name, unit), "{header}");
        }
    }

    #[test]
    fn prefixes() {
        assert_eq!(ratio("mV", "V"), Some(0.001));
        assert_eq!(ratio("V", "mV"), Some(1000.0));
        assert_eq!(ratio("µA", "mA"), Some(0.001));
        assert_eq!(ratio("rpm", "rpm"), Some(1.0));
        assert_eq!(ratio("ms", "s"), Some(0.001));
        assert_eq!(ratio("V", "A"), None);
        assert_eq!(ratio("mm", "m"), None);
    }

    #[test]
    fn time_and_rate_units() {
        assert_eq!(seconds("µs"), Some(1e-6));
        assert_eq!(seconds("ms"), Some(1e-3));
        assert_eq!(hertz("kS/s"), Some(1e3));
        assert_eq!(hertz("MHz"), Some(1e6));
        assert_eq!(hertz("V"), None);
    }
}
