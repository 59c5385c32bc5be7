//! Units as files write them.

/// Seconds per unit of time; `None` when it is no unit of time.
pub(crate) fn seconds(unit: &str) -> Option<f64> {
    Some(
        match unit.trim().trim_end_matches('.').to_lowercase().as_str() {
            "s" | "sec" | "secs" | "second" | "seconds" | "sek" | "sekunden" | "sekunde"
            | "seg" | "segundos" | "segundo" | "secondes" | "seconde" | "secondi" | "secondo" => {
                1.0
            }
            "ms" | "msec" | "millis" | "millisecond" | "milliseconds" | "millisekunden"
            | "milisegundos" | "millisecondes" | "millisecondi" => 1e-3,
            // Both micro signs, and what a wrong character set makes of them.
            "us" | "µs" | "μs" | "usec" | "µsec" | "μsec" | "microsecond" | "microseconds"
            | "mikrosekunden" | "microsegundos" | "microsecondes" | "microsecondi"
            | "\u{fffd}s" => 1e-6,
            "ns" | "nsec" | "nanosecond" | "nanoseconds" | "nanosekunden" => 1e-9,
            "min" | "mins" | "minute" | "minutes" | "minuten" | "minutos" | "minuti" => 60.0,
            "h" | "hr" | "hours" | "stunden" | "horas" | "heures" | "ore" => 3600.0,
            _ => return None,
        },
    )
}

/// Hertz per unit of sample rate; `None` when it is none.
pub(crate) fn hertz(unit: &str) -> Option<f64> {
    let low = unit
        .trim()
        .trim_end_matches('.')
        .to_lowercase()
        .replace(' ', "");
    let (factor, base) = match low.strip_prefix('k') {
        Some(rest) => (1e3, rest),
        None => match low.strip_prefix('m') {
            Some(rest) => (1e6, rest),
            None => (1.0, low.as_str()),
        },
    };
    matches!(
        base,
        "hz" | "s/s"
            | "sa/s"
            | "sps"
            | "samples/s"
            | "samples/sec"
            | "samplespersecond"
            | "sample/s"
            | "1/s"
            | "werte/s"
            | "abtastungen/s"
            | "muestras/s"
            | "éch/s"
            | "ech/s"
            | "échantillons/s"
            | "camp/s"
            | "campioni/s"
            | "hertz"
            | "pts/s"
    )
    .then_some(factor)
}

/// Whether a word is a unit that turns up on a recorder's channel.
pub(crate) fn is_unit(word: &str) -> bool {
    let word = word.trim();
    if seconds(word).is_some() || hertz(word).is_some() {
        return true;
    }
    let low = word.to_lowercase();
    matches!(
        low.as_str(),
        "rpm"
            | "1/min"
            | "u/min"
            | "r/min"
            | "min-1"
            | "min^-1"
            | "tr/min"
            | "giri/min"
            | "km/h"
            | "mph"
            | "%"
            | "°c"
            | "°f"
            | "degc"
            | "degf"
            | "deg"
            | "°"
            | "bar"
            | "mbar"
            | "kpa"
            | "pa"
            | "psi"
            | "mpa"
            | "nm"
            | "n·m"
            | "volt"
            | "volts"
            | "voltios"
            | "ampere"
            | "amperes"
            | "amp"
            | "amps"
            | "amperios"
            | "ampère"
            | "ampères"
            | "ohm"
            | "ohms"
            | "mm"
            | "g"
            | "count"
            | "counts"
            | "bit"
            | "vdc"
            | "vac"
            | "adc"
            | "aac"
    ) || {
        let base = word
            .strip_prefix(['m', 'k', 'µ', 'μ', 'u', 'M', 'n', '\u{fffd}'])
            .unwrap_or(word);
        matches!(base, "V" | "A" | "Ω" | "W" | "C" | "F" | "H")
            || matches!(word, "v" | "a" | "mv" | "ma")
    }
}

/// How many of the second unit one of the first is, where they differ by a metric prefix only: 0.001 for mV in V.
pub(crate) fn ratio(from: &str, to: &str) -> Option<f64> {
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

/// Takes the unit off a column name: `ISS A [mV]`, `Current (A)`, `Time in ms`, `Supply_V`,
/// `Zeit / s`, `time, s`. Gives the name without it and the unit.
pub(crate) fn split(header: &str) -> (String, Option<String>) {
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
pub(crate) fn unit_cell(cell: &str) -> Option<String> {
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
            ("ISS A [mV]", "ISS A", Some("mV")),
            ("CH1 (A)", "CH1", Some("A")),
            ("Feed current in mV", "Feed current", Some("mV")),
            ("Supply voltage_V", "Supply voltage", Some("V")),
            ("Time_s", "Time", Some("s")),
            ("Zeit / µs", "Zeit", Some("µs")),
            ("Strom (odd)", "Strom (odd)", None),
            ("Channel A", "Channel A", None),
            ("\"Channel A (V)\"", "Channel A", Some("V")),
            ("OSS", "OSS", None),
            ("clutch motor 1 amps", "clutch motor 1 amps", None),
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
