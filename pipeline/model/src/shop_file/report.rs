//! `[report]`: language, layout and choice of the reports, and the shop's terms of authorisation.

use crate::Exact;
use crate::job_file::toml_date;
use crate::labour::SumBasis;
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use std::path::PathBuf;

/// `[report]`
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ReportSection {
    /// Language of the report: `en`, `es` or `de`, with a region where numbers are written its way: `es-MX`.
    pub language: String,
    /// Paper size.
    pub paper: Paper,
    /// Units of the customer's report: `metric` or `us`.
    pub units: Units,
    /// Makes `technician.pdf` as well, with the cautions for the work. Without it they stand in `report.pdf`, the
    /// customer's, which is always made.
    pub technician: bool,
    /// A folder of the shop's own, copied from `report-templates/customer`.
    pub template: Option<PathBuf>,
    /// A folder of the shop's own, copied from `report-templates/technician`.
    pub technician_template: Option<PathBuf>,
    /// A picture for the letterhead: SVG, PNG or JPEG.
    pub logo: Option<PathBuf>,
    /// Text at the head of every page but the first; the shop's name where it is left out.
    pub header: Option<String>,
    /// Text at the foot of every page.
    pub footer: Option<String>,
    /// `[report.colours]`
    pub colours: ColourSection,
    /// A file with the terms of the place, see [`LegalText`].
    pub legal_text: Option<PathBuf>,
    /// `[report.authorisation]`
    pub authorisation: AuthorisationSection,
}

impl Default for ReportSection {
    fn default() -> Self {
        ReportSection {
            language: "en".into(),
            paper: Paper::default(),
            units: Units::default(),
            technician: true,
            template: None,
            technician_template: None,
            logo: None,
            header: None,
            footer: None,
            colours: ColourSection::default(),
            legal_text: None,
            authorisation: AuthorisationSection::default(),
        }
    }
}

/// Paper size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Paper {
    /// 210 mm by 297 mm (ISO 216).
    #[default]
    A4,
    /// 8.5 in by 11 in.
    #[serde(alias = "letter")]
    UsLetter,
}

/// Units of the customer's report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Units {
    /// Kilometres, degrees Celsius.
    #[default]
    Metric,
    /// Miles, degrees Fahrenheit.
    Us,
}

/// `[report.colours]`. What is left out keeps the template's colour. The colours that mean something (fault, good,
/// the signal words) are the template's and not a matter of taste.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ColourSection {
    /// The rule under the letterhead.
    pub rule: Option<Colour>,
    /// The smaller headings.
    pub headings: Option<Colour>,
}

/// A colour as `#rrggbb`, dark enough to be read on white paper.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Colour(String);

/// Minimum contrast of text against its background (WCAG 2.1, success criterion 1.4.3).
const MIN_CONTRAST: f64 = 4.5;

impl Colour {
    /// The colour as `#rrggbb`.
    pub fn hex(&self) -> &str {
        &self.0
    }

    /// Contrast ratio against white, 1 to 21 (WCAG 2.1, definitions of contrast ratio and relative luminance).
    fn contrast([r, g, b]: [u8; 3]) -> f64 {
        let linear = |c: u8| {
            let c = f64::from(c) / 255.0;
            if c <= 0.04045 {
                c / 12.92
            } else {
                ((c + 0.055) / 1.055).powf(2.4)
            }
        };
        let luminance = 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
        1.05 / (luminance + 0.05)
    }
}

impl TryFrom<String> for Colour {
    type Error = String;

    fn try_from(text: String) -> Result<Colour, String> {
        let wrong =
            || format!("`{text}` is no colour; write it as \"#rrggbb\", such as \"#0072b2\"");
        let digits = text.strip_prefix('#').filter(|d| d.len() == 6);
        let value = digits
            .filter(|d| d.chars().all(|c| c.is_ascii_hexdigit()))
            .and_then(|d| u32::from_str_radix(d, 16).ok())
            .ok_or_else(wrong)?;
        let [_, r, g, b] = value.to_be_bytes();
        let contrast = Colour::contrast([r, g, b]);
        if contrast < MIN_CONTRAST {
            return Err(format!(
                "the colour {text} is too pale to be read on white: its contrast is {contrast:.2}, at least \
                 {MIN_CONTRAST} is needed (WCAG 2.1); take a darker one"
            ));
        }
        Ok(Colour(text))
    }
}

impl From<Colour> for String {
    fn from(colour: Colour) -> String {
        colour.0
    }
}

/// `[report.authorisation]`: terms of every authorisation. What is left out is left to be written by hand.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct AuthorisationSection {
    /// Longest time to reassemble when the customer does not go on: `10 working days`.
    pub max_reassembly_time: Option<String>,
    /// Cost of keeping the opened vehicle: `none for 5 days, then 20 EUR a day with tax`.
    pub storage: Option<String>,
    /// Sum that is not exceeded without asking, in the currency of the bill.
    pub limit: Option<Exact>,
    /// Net or gross, for `limit`.
    pub limit_basis: SumBasis,
    /// The same as percent above the gross estimate, 0 to 100.
    pub limit_percent: Option<Exact>,
}

/// A file with the terms of a place, which the shop supplies and answers for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LegalText {
    /// Place where it applies: `California, USA`.
    pub place: String,
    /// Language of the text, a tag such as `en`.
    pub language: String,
    /// Source: the law, rule or contract.
    pub source: String,
    /// Day of the state of the law that it follows, a TOML date.
    #[serde(with = "as_of_date")]
    pub as_of: NaiveDate,
    /// Caveat, printed with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// The text; paragraphs are apart by an empty line.
    pub text: String,
}

/// A TOML date that must be there.
mod as_of_date {
    use super::*;
    use serde::de::Error;
    use serde::{Deserializer, Serializer};

    pub(super) fn serialize<S: Serializer>(d: &NaiveDate, s: S) -> Result<S::Ok, S::Error> {
        toml_date::serialize(&Some(*d), s)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(d: D) -> Result<NaiveDate, D::Error> {
        toml_date::deserialize(d)?
            .ok_or_else(|| D::Error::custom("expected a date such as 2026-03-02"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// WCAG 2.1: black on white is 21:1; #767676 is the palest grey that passes 4.5:1 (4.54, computed with
    /// Python 3.11 by the same definition), #777777 fails with 4.48.
    #[test]
    fn a_colour_must_be_readable_on_white() {
        assert!((Colour::contrast([0, 0, 0]) - 21.0).abs() < 1e-9);
        assert!((Colour::contrast([0x76; 3]) - 4.54).abs() < 0.005);
        let read = |s: &str| Colour::try_from(s.to_owned());
        assert_eq!(read("#767676").unwrap().hex(), "#767676");
        for (wrong, why) in [
            ("#777777", "contrast is 4.48"),
            ("#ffff00", "too pale"),
            ("blue", "#rrggbb"),
            ("#12345", "#rrggbb"),
            ("#+12345", "#rrggbb"),
            ("0072b2", "#rrggbb"),
        ] {
            let error = read(wrong).unwrap_err();
            assert!(error.contains(why), "{error}");
        }
    }
}
