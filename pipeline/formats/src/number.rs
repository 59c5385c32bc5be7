//! One cell of a table: a number, a mark for a missing value, an over-range mark, or text.

use crate::units;

/// Notation of numbers in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NumberStyle {
    /// The decimal sign: `.` or `,`.
    pub decimal: u8,
}

impl NumberStyle {
    /// `1234.5`
    pub const POINT: NumberStyle = NumberStyle { decimal: b'.' };
    /// `1234,5`
    pub const COMMA: NumberStyle = NumberStyle { decimal: b',' };
}

/// Content of a cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cell {
    /// A finite number.
    Number(Decimal),
    /// No value: empty, `---`, `n/a`.
    Missing,
    /// Beyond the range: plus or minus infinity.
    Over(f64),
    /// Anything else.
    Text,
}

impl Cell {
    /// The value for a sample: NaN where it is missing or no number.
    pub fn sample(self) -> f64 {
        match self {
            Cell::Number(d) => d.value,
            Cell::Over(v) => v,
            Cell::Missing | Cell::Text => f64::NAN,
        }
    }
}

/// A number and how finely it was written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Decimal {
    /// The value, equal to what the standard library's `f64` parse gives.
    pub value: f64,
    /// Digits behind the decimal sign once the exponent is applied; negative for `1e6`.
    pub decimals: i32,
    /// The digits as a whole number; the largest where they do not fit.
    mantissa: u64,
}

impl Decimal {
    /// Significant digits.
    pub fn digits(&self) -> i32 {
        self.mantissa.checked_ilog10().map_or(1, |n| n as i32 + 1)
    }

    /// The digits as a whole number with the sign, so that the value is that over ten to the `decimals`; `None`
    /// where they do not fit.
    pub fn whole(&self) -> Option<i64> {
        let m = i64::try_from(self.mantissa).ok()?;
        Some(if self.value.is_sign_negative() { -m } else { m })
    }
}

/// Powers of ten that a double holds exactly.
pub const TEN: [f64; 23] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
    1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
];

/// Reads a plain number in one pass: an integer mantissa that a double holds exactly over an exact power of
/// ten, so that one correctly rounded operation gives the correctly rounded value (W. Clinger 1990).
/// `None` when it is not that simple.
fn fast(cell: &[u8], decimal: u8) -> Option<Decimal> {
    let (negative, rest) = match cell {
        [b'-', rest @ ..] => (true, rest),
        [b'+', rest @ ..] => (false, rest),
        rest => (false, rest),
    };
    // Nineteen digits fit an u64.
    if rest.len() > 19 {
        return None;
    }
    let (mut mantissa, mut point, mut end) = (0u64, None, rest.len());
    for (i, &b) in rest.iter().enumerate() {
        let digit = b.wrapping_sub(b'0');
        if digit < 10 {
            mantissa = mantissa * 10 + u64::from(digit);
        } else if b == decimal && point.is_none() {
            point = Some(i);
        } else {
            end = i;
            break;
        }
    }
    let fraction = point.map_or(0, |p| end - p - 1);
    let digits = end - usize::from(point.is_some());
    let exponent: i32 = match rest.get(end) {
        None => 0,
        Some(b'e' | b'E') => std::str::from_utf8(&rest[end + 1..]).ok()?.parse().ok()?,
        Some(_) => return None,
    };
    if digits == 0 || mantissa > 1 << 53 {
        return None;
    }
    let decimals = (fraction as i32).checked_sub(exponent)?;
    let value = match decimals {
        0..=22 => mantissa as f64 / TEN[decimals as usize],
        -22..=-1 => mantissa as f64 * TEN[-decimals as usize],
        _ => return None,
    };
    Some(Decimal {
        value: if negative { -value } else { value },
        decimals,
        mantissa,
    })
}

/// Reads one cell. White space and quotes around it do not count.
pub fn cell(raw: &[u8], style: NumberStyle) -> Cell {
    match fast(raw, style.decimal) {
        Some(d) => Cell::Number(d),
        None => slow(raw, style),
    }
}

#[cold]
fn slow(raw: &[u8], style: NumberStyle) -> Cell {
    let text = String::from_utf8_lossy(raw);
    let text =
        text.trim_matches(|c: char| c.is_whitespace() || matches!(c, '"' | '\'' | '\u{feff}'));
    if text
        .chars()
        .all(|c| matches!(c, '-' | '*' | '?' | '.' | '_' | '–' | '—'))
    {
        return Cell::Missing;
    }
    if let Some(d) = plain(text, style) {
        return Cell::Number(d);
    }
    mark(text)
}

/// A number with thousands marks, a typographic minus or many digits.
pub fn plain(text: &str, style: NumberStyle) -> Option<Decimal> {
    let decimal = char::from(style.decimal);
    let thousands = if decimal == '.' { ',' } else { '.' };
    let (body, fraction) = text.split_once(decimal).unwrap_or((text, ""));
    if fraction.contains([decimal, thousands]) {
        return None;
    }
    let marks: Vec<char> = body
        .chars()
        .filter(|c| is_thousands(*c, thousands))
        .collect();
    if let Some(first) = marks.first() {
        let groups: Vec<&str> = body
            .trim_start_matches(['-', '+', '\u{2212}'])
            .split(*first)
            .collect();
        let good = groups.iter().enumerate().all(|(i, g)| {
            g.bytes().all(|b| b.is_ascii_digit())
                && if i == 0 {
                    (1..=3).contains(&g.len())
                } else {
                    g.len() == 3
                }
        });
        if !good {
            return None;
        }
    }
    let clean: String = text
        .chars()
        .filter(|c| !is_thousands(*c, thousands))
        .map(|c| match c {
            '\u{2212}' => '-',
            c if c == decimal => '.',
            c => c,
        })
        .collect();
    if let Some(d) = fast(clean.as_bytes(), b'.') {
        return Some(d);
    }
    let numeric = clean
        .bytes()
        .all(|b| b.is_ascii_digit() || matches!(b, b'.' | b'-' | b'+' | b'e' | b'E'));
    let value: f64 = if numeric {
        clean.parse().ok()?
    } else {
        return None;
    };
    if !value.is_finite() {
        return None;
    }
    let (mantissa, exponent) = clean.split_once(['e', 'E']).unwrap_or((&clean, "0"));
    let fraction = mantissa.split_once('.').map_or(0, |(_, f)| f.len());
    let digits: String = mantissa.chars().filter(char::is_ascii_digit).collect();
    Some(Decimal {
        value,
        decimals: i32::try_from(fraction)
            .ok()?
            .saturating_sub(exponent.parse().unwrap_or(0)),
        mantissa: digits.parse().unwrap_or(u64::MAX),
    })
}

/// A number with its unit behind it, as some write every cell: `12.5 V`, `0,25A`, `-3 mV`.
pub fn measured(text: &str, style: NumberStyle) -> Option<(Decimal, &str)> {
    let text = text.trim_matches(|c: char| c.is_whitespace() || c == '"');
    let digit = |c: char| c.is_ascii_digit() || c == char::from(style.decimal);
    let last_digit = text.rfind(digit).map(|i| i + 1);
    // A unit with a digit of its own (`1/min`) stands behind a space.
    [last_digit, text.find(' ')]
        .into_iter()
        .flatten()
        .find_map(|at| {
            let (number, unit) = text.split_at_checked(at)?;
            let unit = unit.trim();
            units::is_unit(unit).then_some((plain(number.trim_end(), style)?, unit))
        })
}

fn is_thousands(c: char, thousands: char) -> bool {
    c == thousands || matches!(c, '\'' | '’' | '\u{a0}' | '\u{202f}' | '\u{2009}' | ' ')
}

/// Marks that recorders write in the place of a number; common practice, no source.
fn mark(text: &str) -> Cell {
    let low = text.to_lowercase();
    let (sign, word) = match low.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (-1.0, rest),
        None => (1.0, low.strip_prefix('+').unwrap_or(&low)),
    };
    let word = word
        .trim()
        .trim_matches(['(', ')', '<', '>', '#', '[', ']']);
    match word {
        "nan" | "na" | "n/a" | "n.a." | "null" | "nil" | "none" | "nul" | "missing" | "invalid"
        | "n/v" | "no data" | "nodata" | "1.#qnan" | "1.#ind" | "1.#nan" | "error" | "err"
        | "x" | "blank" | "void" | "fehlt" | "ungültig" => Cell::Missing,
        "ol" | "o.l" | "o.l." | "0l" | "ovr" | "ovl" | "ovf" | "ovld" | "over" | "overload"
        | "overrange" | "over range" | "over-range" | "overflow" | "inf" | "infinity" | "∞"
        | "infinito" | "1.#inf" | "clip" | "clipped" | "clipping" | "sat" | "saturated"
        | "++++" | "hi" | "high" | "überlauf" | "ueberlauf" | "max" => {
            Cell::Over(sign * f64::INFINITY)
        }
        "under" | "underrange" | "under range" | "underflow" | "ul" | "udr" | "lo" | "low"
        | "min" => Cell::Over(f64::NEG_INFINITY),
        "" if low.starts_with('>') => Cell::Over(f64::INFINITY),
        "" if low.starts_with('<') => Cell::Over(f64::NEG_INFINITY),
        _ => Cell::Text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn value(s: &str, style: NumberStyle) -> f64 {
        match cell(s.as_bytes(), style) {
            Cell::Number(d) => d.value,
            other => panic!("{s}: {other:?}"),
        }
    }

    #[test]
    fn numbers_of_every_spelling() {
        for (s, style, want) in [
            ("12.5", NumberStyle::POINT, 12.5),
            (" -0,25 ", NumberStyle::COMMA, -0.25),
            ("+1.5E-3", NumberStyle::POINT, 0.0015),
            ("1,5e3", NumberStyle::COMMA, 1500.0),
            ("1.234,5", NumberStyle::COMMA, 1234.5),
            ("1,234,567.25", NumberStyle::POINT, 1_234_567.25),
            ("1 234,5", NumberStyle::COMMA, 1234.5),
            ("1'234.5", NumberStyle::POINT, 1234.5),
            ("\u{2212}3.5", NumberStyle::POINT, -3.5),
            (".5", NumberStyle::POINT, 0.5),
            ("3.82e+00", NumberStyle::POINT, 3.82),
            (
                "12345678901234567890.5",
                NumberStyle::POINT,
                12345678901234567890.5,
            ),
        ] {
            assert_eq!(value(s, style), want, "{s}");
        }
    }

    #[test]
    fn marks_are_not_numbers() {
        for s in ["", " ", "---", "***", "n/a", "NaN", "-nan", "?"] {
            assert_eq!(cell(s.as_bytes(), NumberStyle::POINT), Cell::Missing, "{s}");
        }
        for s in ["OL", "OVR", "∞", "+Inf", "+OL", "inf"] {
            assert_eq!(
                cell(s.as_bytes(), NumberStyle::POINT),
                Cell::Over(f64::INFINITY),
                "{s}"
            );
        }
        for s in ["-OL", "-∞", "\u{2212}∞", "-Inf", "under"] {
            assert_eq!(
                cell(s.as_bytes(), NumberStyle::POINT),
                Cell::Over(f64::NEG_INFINITY),
                "{s}"
            );
        }
        for s in [
            "P0902",
            "1.2.3",
            "1,2",
            "12 V",
            "e5",
            "1e",
            "0x1F",
            "2026-01-01",
        ] {
            assert_eq!(cell(s.as_bytes(), NumberStyle::POINT), Cell::Text, "{s}");
        }
    }

    #[test]
    fn numbers_with_their_unit() {
        for (s, style, value, unit) in [
            ("12.5 V", NumberStyle::POINT, 12.5, "V"),
            ("0,25A", NumberStyle::COMMA, 0.25, "A"),
            ("-3 mV", NumberStyle::POINT, -3.0, "mV"),
            ("\"1,234.5 mA\"", NumberStyle::POINT, 1234.5, "mA"),
            ("812 1/min", NumberStyle::POINT, 812.0, "1/min"),
            ("812 min-1", NumberStyle::POINT, 812.0, "min-1"),
            ("1.5E-3 s", NumberStyle::POINT, 0.0015, "s"),
        ] {
            let got = measured(s, style).map(|(d, u)| (d.value, u));
            assert_eq!(got, Some((value, unit)), "{s}");
        }
        for s in ["12 volts DC", "P0902", "V", "", "1.2.3 V", "12", "é", "5 é"] {
            assert_eq!(
                measured(s, NumberStyle::POINT).map(|(d, _)| d.value),
                None,
                "{s}"
            );
        }
    }

    #[test]
    fn how_finely_a_number_is_written() {
        let Cell::Number(d) = cell(b"0.0001985", NumberStyle::POINT) else {
            panic!()
        };
        assert_eq!((d.decimals, d.digits()), (7, 4));
        let Cell::Number(d) = cell(b"9.85E-5", NumberStyle::POINT) else {
            panic!()
        };
        assert_eq!((d.decimals, d.digits()), (7, 3));
    }

    proptest! {
        #[test]
        fn equal_to_the_standard_library(s in r"[+-]?[0-9]{1,17}(\.[0-9]{0,20})?([eE][+-]?[0-9]{1,2})?") {
            let want: f64 = s.parse().unwrap();
            prop_assert_eq!(value(&s, NumberStyle::POINT).to_bits(), want.to_bits());
        }
    }
}
