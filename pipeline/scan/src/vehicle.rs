//! Facts of the vehicle in a scan text: its number, its odometer, the day of the readout.

use crate::words::{self, WORDS};
use chrono::NaiveDate;
use formats::clock;
use formats::number::{self, NumberStyle};
use formats::words::fold;
use model::vin::{self, VinCheck};

/// A vehicle number and whether a label names it so.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Vin {
    pub text: String,
    pub labelled: bool,
    /// Reason for a doubt, in words.
    pub doubt: Option<String>,
}

/// The vehicle number of a line.
pub(crate) fn vin(line: &str) -> Option<Vin> {
    let folded = fold(line);
    let labelled = WORDS.vin.iter().any(|l| {
        folded.match_indices(l).any(|(i, _)| {
            !folded[..i]
                .chars()
                .next_back()
                .is_some_and(char::is_alphanumeric)
        })
    });
    let mut before = "";
    for word in line
        .split(|c: char| !c.is_alphanumeric())
        .filter(|w| !w.is_empty())
    {
        let has = |f: fn(&u8) -> bool| word.as_bytes().iter().any(f);
        let mixed = has(u8::is_ascii_digit) && (has(u8::is_ascii_uppercase) || labelled);
        let part = words::names_a_part(before) && !before.eq_ignore_ascii_case("id");
        if word.is_ascii() && mixed && !part {
            let upper = word.to_ascii_uppercase();
            let doubt = match vin::check(&upper) {
                VinCheck::Malformed { reason } if labelled && (15..=19).contains(&upper.len()) => {
                    Some(format!(
                        "the vehicle number {upper} cannot be right: {reason}. Compare it with the vehicle"
                    ))
                }
                VinCheck::Malformed { .. } => {
                    before = word;
                    continue;
                }
                VinCheck::WrongCheckDigit { expected } => Some(format!(
                    "the check digit of the vehicle number {upper} is wrong ({expected} was expected at position \
                     9, 49 CFR 565.15). Compare it with the vehicle"
                )),
                VinCheck::Valid | VinCheck::NotCheckable => None,
            };
            return Some(Vin {
                text: upper,
                labelled,
                doubt,
            });
        }
        before = word;
    }
    None
}

/// An odometer reading, km, and whether a word names it so.
pub(crate) fn odometer(line: &str) -> Option<(f64, bool)> {
    if words::is_freeze_frame(line) {
        return None;
    }
    let folded = fold(line);
    // A distance at the fault's first entry, or since something, is no reading of today.
    let words = folded.split(|c: char| !c.is_alphanumeric());
    if words.into_iter().any(|w| WORDS.not_today.begins(w)) {
        return None;
    }
    let label = WORDS
        .odometer
        .iter()
        .filter_map(|l| folded.find(l).map(|i| i + l.len()))
        .min();
    let from = label.unwrap_or(0);
    let text = folded.get(from..)?;
    for (i, _) in text.match_indices(|c: char| c.is_ascii_digit()) {
        let before = text[..i].chars().next_back();
        if before.is_some_and(|c| c.is_alphanumeric() || matches!(c, '.' | ',' | '-')) {
            continue;
        }
        let run: String = text[i..]
            .chars()
            .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | '\''))
            .collect();
        let rest = text[i + run.len()..].trim_start_matches(['(', '[']);
        let factor = match rest
            .split(|c: char| !(c.is_alphanumeric() || c == '/'))
            .next()
        {
            Some(unit) if WORDS.kilometre.contains(unit) => 1.0,
            Some(unit) if WORDS.mile.contains(unit) => 1.609_344,
            _ if label.is_some() && folded.contains("mile") => 1.609_344,
            _ if label.is_some() => 1.0,
            _ => continue,
        };
        let value = amount(run.trim().trim_end_matches(['.', ',']))?;
        // A distance without a word for it is an odometer's only when it is a long one.
        if label.is_some() || value >= 1000.0 {
            return Some((value * factor, label.is_some()));
        }
    }
    None
}

/// A whole number with whatever thousands marks, or one with decimals.
fn amount(run: &str) -> Option<f64> {
    let grouped = run
        .split(['.', ',', ' ', '\''])
        .skip(1)
        .all(|g| g.len() == 3);
    if grouped {
        let digits: String = run.chars().filter(char::is_ascii_digit).collect();
        return (digits.len() <= 7).then(|| digits.parse().ok())?;
    }
    let style = if run.rfind(',') > run.rfind('.') {
        NumberStyle::COMMA
    } else {
        NumberStyle::POINT
    };
    number::plain(run, style)
        .map(|d| d.value)
        .filter(|v| *v < 1e7)
}

/// The first calendar day in a line.
pub(crate) fn day(line: &str) -> Option<NaiveDate> {
    line.split(|c: char| c.is_whitespace() || matches!(c, 'T' | ',' | ';' | '|' | '(' | ')' | '='))
        .map(|w| w.trim_matches(|c: char| !c.is_ascii_digit()))
        .filter(|w| (6..=10).contains(&w.len()))
        .find_map(clock::date)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn vehicle_numbers() {
        for (line, want) in [
            ("VIN     : 0ZZTK38S2EA061514", Some("0ZZTK38S2EA061514")),
            (
                "Fahrzeug-Ident.-Nr.: ZZ0P08320DB985781",
                Some("ZZ0P08320DB985781"),
            ),
            ("Bastidor: ZZ9J0A687EC572516", Some("ZZ9J0A687EC572516")),
            (
                "ID ZZ0RG3SC1LA765099   SW P0421-51A",
                Some("ZZ0RG3SC1LA765099"),
            ),
            (
                "Frame number ZZ96B1ZT6GC359740; spare part P06 418 888",
                Some("ZZ96B1ZT6GC359740"),
            ),
            ("vin: zz0vcwdf5mc244380", Some("ZZ0VCWDF5MC244380")),
            (
                "N° de châssis : ZZ0VCWDF5MC244380",
                Some("ZZ0VCWDF5MC244380"),
            ),
            ("calibration 12345678901234ABC", None),
            ("Software ZZ0VCWDF5MC244380", None),
            ("internationalisation", None),
        ] {
            assert_eq!(vin(line).map(|v| v.text).as_deref(), want, "{line}");
        }
        assert!(vin("VIN: 1EXAMPLE100000007").unwrap().doubt.is_some());
        assert!(vin("VIN: ZZ0VCWDF5MC24438").unwrap().doubt.is_some());
        assert!(vin("VIN: ZZ0VCWDF5MC244380").unwrap().doubt.is_none());
    }

    #[test]
    fn odometers() {
        for (line, want) in [
            (
                "FIN ZZ93TP9B6EC083633, Laufleistung 171604 km",
                Some((171_604.0, true)),
            ),
            ("Odometer: 126,564 km", Some((126_564.0, true))),
            ("Kilometerstand: 126.564", Some((126_564.0, true))),
            ("Mileage: 50000 mi", Some((80_467.2, true))),
            (
                "Visit of 2024-07-04, Invented make, Box van 300, 126564 km.",
                Some((126_564.0, false)),
            ),
            ("Odometer at first entry: 121233 km", None),
            ("Vehicle speed: 50 km/h", None),
        ] {
            let got = odometer(line).map(|(v, l)| ((v * 10.0).round() / 10.0, l));
            assert_eq!(got, want, "{line}");
        }
    }

    #[test]
    fn days() {
        assert_eq!(
            day("Scan record 2023-07-10"),
            NaiveDate::from_ymd_opt(2023, 7, 10)
        );
        assert_eq!(
            day("Datum: 10.07.2023 12:00"),
            NaiveDate::from_ymd_opt(2023, 7, 10)
        );
        assert_eq!(day("P/N 12-34-56"), None);
    }
}
