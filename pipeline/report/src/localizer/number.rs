//! Numbers as a language and its region write them.

use fluent_bundle::FluentValue;
use fluent_bundle::types::FluentNumber;
use rust_decimal::Decimal;
use unic_langid::LanguageIdentifier;

/// The signs of a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Style {
    /// Between units and tenths.
    decimal: char,
    /// Between thousands.
    group: char,
}

const STYLES: [Style; 5] = [
    style('.', ','),
    style(',', '.'),
    style('.', '\u{2019}'),
    style(',', '\u{a0}'),
    // ISO 80000-1: a narrow space, for what is not listed.
    style(',', '\u{202f}'),
];

const fn style(decimal: char, group: char) -> Style {
    Style { decimal, group }
}

/// Which of [`STYLES`] a language takes (Unicode CLDR).
fn place(tag: &LanguageIdentifier) -> usize {
    let region = tag.region.map(|r| r.to_string());
    match (tag.language.as_str(), region.as_deref()) {
        ("en" | "ja" | "zh" | "ko" | "th" | "he", _) => 0,
        // Where Spanish is written with a decimal point.
        (
            "es",
            Some(
                "419" | "CU" | "DO" | "GT" | "HN" | "MX" | "NI" | "PA" | "PE" | "PR" | "SV" | "US",
            ),
        ) => 0,
        ("es", Some("CR")) => 3,
        ("de", Some("CH" | "LI")) => 2,
        ("es" | "de", _) => 1,
        _ => 4,
    }
}

impl Style {
    /// The style of a language.
    pub(super) fn of(tag: &LanguageIdentifier) -> Style {
        STYLES[place(tag)]
    }

    /// A number with a fixed count of digits behind the decimal sign.
    pub(super) fn fixed(self, value: f64, digits: usize) -> String {
        self.written(&format!("{value:.digits$}"))
    }

    /// A number with at most three significant digits, from a thousand million on with a power of ten.
    pub(super) fn short(self, value: f64) -> String {
        if value.abs() >= 1e9 {
            return format!("{value:.2e}");
        }
        let text = format!("{value:.*}", fraction_digits(value));
        self.written(trimmed(&text, 0))
    }

    /// An exact decimal with the digits that it has.
    pub(super) fn exact(self, value: Decimal) -> String {
        self.written(&value.to_string())
    }

    /// A number from its plain digits: `-1234.5` becomes `−1,234.5`. The minus is the typographic one, and there is
    /// none before zero.
    fn written(self, plain: &str) -> String {
        let (negative, digits) = match plain.strip_prefix('-') {
            Some(rest) => (rest.chars().any(|c| c.is_ascii_digit() && c != '0'), rest),
            None => (false, plain),
        };
        let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
        let mut text = String::new();
        if negative {
            text.push('\u{2212}');
        }
        let grouped = whole.bytes().all(|b| b.is_ascii_digit());
        for (i, digit) in whole.chars().enumerate() {
            if grouped && i > 0 && (whole.len() - i).is_multiple_of(3) {
                text.push(self.group);
            }
            text.push(digit);
        }
        if !fraction.is_empty() {
            text.push(self.decimal);
            text.push_str(fraction);
        }
        text
    }
}

type Formatter<M> = fn(&FluentValue<'_>, &M) -> Option<String>;

/// The formatter of numbers inside sentences. Fluent takes a function without an environment: one for each style.
pub(super) fn formatter<M>(tag: &LanguageIdentifier) -> Formatter<M> {
    const {
        assert!(STYLES.len() == 5);
    }
    [
        in_sentence::<0, M>,
        in_sentence::<1, M>,
        in_sentence::<2, M>,
        in_sentence::<3, M>,
        in_sentence::<4, M>,
    ][place(tag)]
}

fn in_sentence<const STYLE: usize, M>(value: &FluentValue<'_>, _: &M) -> Option<String> {
    match value {
        FluentValue::Number(n) => Some(STYLES[STYLE].written(&text(n))),
        _ => None,
    }
}

fn text(n: &FluentNumber) -> String {
    let o = &n.options;
    let least = o.minimum_fraction_digits.unwrap_or(0);
    let most = o.maximum_fraction_digits.map(|d| d.max(least));
    let digits = most.unwrap_or_else(|| fraction_digits(n.value)).min(12);
    trimmed(&format!("{:.digits$}", n.value), least).to_owned()
}

/// Without the zeros at its end, but with at least `keep` digits behind the point.
fn trimmed(text: &str, keep: usize) -> &str {
    let Some(point) = text.find('.') else {
        return text;
    };
    let least = if keep == 0 { point } else { point + 1 + keep };
    let end = text.trim_end_matches('0').trim_end_matches('.').len();
    text.get(..end.max(least)).unwrap_or(text)
}

/// Digits behind the decimal sign that leave three significant ones.
pub(super) fn fraction_digits(value: f64) -> usize {
    if value == 0.0 || !value.is_finite() {
        return 0;
    }
    (2 - value.abs().log10().floor() as i64).clamp(0, 9) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Expected: Babel 2.18.0 (Python), format_decimal, which takes its data from Unicode CLDR.
    #[test]
    fn numbers_are_written_as_cldr_has_them() {
        for (tag, small, large) in [
            ("en", "1,234.5", "1,234,567.891"),
            ("en-GB", "1,234.5", "1,234,567.891"),
            ("es", "1.234,5", "1.234.567,891"),
            ("es-ES", "1.234,5", "1.234.567,891"),
            ("es-AR", "1.234,5", "1.234.567,891"),
            ("es-MX", "1,234.5", "1,234,567.891"),
            ("es-US", "1,234.5", "1,234,567.891"),
            ("es-419", "1,234.5", "1,234,567.891"),
            ("es-CR", "1\u{a0}234,5", "1\u{a0}234\u{a0}567,891"),
            ("de", "1.234,5", "1.234.567,891"),
            ("de-AT", "1.234,5", "1.234.567,891"),
            ("de-CH", "1’234.5", "1’234’567.891"),
            ("fr", "1\u{202f}234,5", "1\u{202f}234\u{202f}567,891"),
        ] {
            let style = Style::of(&tag.parse().unwrap());
            assert_eq!(style.fixed(1234.5, 1), small, "{tag}");
            assert_eq!(style.exact(Decimal::new(1_234_567_891, 3)), large, "{tag}");
        }
    }

    #[test]
    fn zeros_at_the_end_go_as_far_as_asked() {
        for (text, keep, short) in [
            ("12.500", 0, "12.5"),
            ("12.500", 2, "12.50"),
            ("12.000", 0, "12"),
            ("100", 0, "100"),
            ("0.000", 1, "0.0"),
        ] {
            assert_eq!(trimmed(text, keep), short);
        }
    }

    #[test]
    fn what_is_no_number_stays_as_it_is() {
        let style = Style::of(&"en".parse().unwrap());
        assert_eq!(style.fixed(f64::NAN, 2), "NaN");
        assert_eq!(style.fixed(f64::INFINITY, 0), "inf");
        assert_eq!(style.fixed(-0.04, 1), "0.0");
        assert_eq!(style.short(-2.5), "\u{2212}2.5");
    }
}
