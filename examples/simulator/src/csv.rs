//! Recordings as delimited text, in the many ways in which recorders write it.

use crate::recorder::Recording;
use std::fmt::Write;

/// Layout of a recorder's delimited text.
#[derive(Debug, Clone, PartialEq)]
pub struct CsvDialect {
    /// Between fields.
    pub delimiter: char,
    /// Decimal comma instead of point.
    pub decimal_comma: bool,
    /// Character encoding.
    pub encoding: Encoding,
    /// Windows line ends.
    pub crlf: bool,
    /// Rows above the numbers.
    pub header: Header,
    /// The time column's unit; `None` for no time column.
    pub time: Option<TimeUnit>,
    /// Style of the time column.
    pub time_style: TimeStyle,
    /// Digits behind the decimal sign.
    pub digits: usize,
    /// Field names in quotation marks.
    pub quoted: bool,
    /// Numbers as 1.234E+00.
    pub scientific: bool,
    /// Text of a missing value.
    pub gap: &'static str,
    /// Text of a value beyond the range.
    pub over_range: &'static str,
    /// A delimiter behind the last field as well.
    pub trailing: bool,
    /// The last line is cut off in its middle.
    pub cut: bool,
}

/// Character encoding of a text file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Encoding {
    /// UTF-8.
    Utf8,
    /// UTF-8 with a byte-order mark.
    Utf8Mark,
    /// UTF-16, little end first, with a byte-order mark.
    Utf16,
    /// ISO 8859-1; what it lacks becomes a question mark.
    Latin1,
}

impl Encoding {
    /// A text's bytes.
    pub fn encode(self, text: &str) -> Vec<u8> {
        match self {
            Encoding::Utf8 => text.as_bytes().to_vec(),
            Encoding::Utf8Mark => [b"\xEF\xBB\xBF", text.as_bytes()].concat(),
            Encoding::Utf16 => std::iter::once(0xFEFF)
                .chain(text.encode_utf16())
                .flat_map(u16::to_le_bytes)
                .collect(),
            Encoding::Latin1 => text
                .chars()
                .map(|c| u8::try_from(u32::from(c)).unwrap_or(b'?'))
                .collect(),
        }
    }
}

/// Style of a time column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TimeStyle {
    /// As a number, its unit shown where the header shows units.
    #[default]
    Labelled,
    /// As a number whose unit is shown nowhere.
    Bare,
    /// As a whole number whose unit is shown nowhere.
    BareWhole,
    /// As a row counter and, in a second column, the time of day with microseconds.
    CounterAndClock,
}

/// Rows above the numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Header {
    /// One line of names.
    Names,
    /// One line of names, each with its unit in brackets.
    NamesAndUnits,
    /// One line of names with the unit behind a slash.
    NamesSlashUnits,
    /// A line of names and a line of units.
    UnitLine,
    /// A line of units and below it a line of names.
    UnitsAbove,
    /// One line of names, each with its unit behind an underscore.
    NamesUnderscoreUnits,
    /// Lines about the recording, an empty line, then names with units.
    Preface,
    /// Lines about the recording that begin with a hash mark, then names and a line of units.
    HashPreface,
}

/// Unit of the time column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TimeUnit {
    /// s
    Seconds,
    /// ms
    Milliseconds,
    /// us
    Microseconds,
}

/// Time of day at 0 s of a recording whose time column is a clock, s.
const CLOCK_START_S: f64 = 37_215.0;

impl TimeUnit {
    fn text(self) -> (&'static str, f64, usize) {
        match self {
            TimeUnit::Seconds => ("s", 1.0, 6),
            TimeUnit::Milliseconds => ("ms", 1e3, 3),
            TimeUnit::Microseconds => ("us", 1e6, 0),
        }
    }
}

impl Default for CsvDialect {
    fn default() -> Self {
        CsvDialect {
            delimiter: ',',
            decimal_comma: false,
            encoding: Encoding::Utf8,
            crlf: false,
            header: Header::NamesAndUnits,
            time: Some(TimeUnit::Seconds),
            time_style: TimeStyle::Labelled,
            digits: 4,
            quoted: false,
            scientific: false,
            gap: "",
            over_range: "inf",
            trailing: false,
            cut: false,
        }
    }
}

impl CsvDialect {
    /// The file's bytes.
    pub fn write(&self, r: &Recording) -> Vec<u8> {
        let end = if self.crlf { "\r\n" } else { "\n" };
        let mut text = self.head(r, end);
        for i in 0..r.len() {
            let mut fields = Vec::with_capacity(r.channels.len() + 1);
            if let Some(unit) = self.time {
                let t = r.start_s + i as f64 / r.rate_hz;
                self.time_fields(&mut fields, unit, i, t);
            }
            fields.extend(
                r.channels
                    .iter()
                    .map(|c| self.number(c.values[i], self.digits)),
            );
            self.line(&mut text, &fields, end);
        }
        if self.cut {
            let keep = text.trim_end().len().saturating_sub(7);
            text.truncate(text.floor_char_boundary(keep));
        }
        self.encoding.encode(&text)
    }

    fn time_fields(&self, fields: &mut Vec<String>, unit: TimeUnit, row: usize, t: f64) {
        let (_, factor, digits) = unit.text();
        // A mantissa with one digit in front needs more digits than a fixed point does.
        let digits = if self.scientific { 9 } else { digits };
        match self.time_style {
            TimeStyle::Labelled | TimeStyle::Bare => fields.push(self.number(t * factor, digits)),
            TimeStyle::BareWhole => fields.push(format!("{:.0}", t * factor)),
            TimeStyle::CounterAndClock => {
                let us = ((t + CLOCK_START_S) * 1e6).round() as u64;
                let (s, us) = (us / 1_000_000, us % 1_000_000);
                let clock = format!("{:02}:{:02}:{:02}.{us:06}", s / 3600, s / 60 % 60, s % 60);
                fields.extend([row.to_string(), clock]);
            }
        }
    }

    fn head(&self, r: &Recording, end: &str) -> String {
        let time = match (self.time, self.time_style) {
            (None, _) => vec![],
            (Some(unit), TimeStyle::Labelled) => vec![("Time", unit.text().0)],
            (_, TimeStyle::CounterAndClock) => vec![("No", ""), ("Clock", "")],
            _ => vec![("Time", "")],
        };
        let channels = r.channels.iter().map(|c| (c.name.as_str(), c.unit));
        let columns: Vec<(&str, &str)> = time.into_iter().chain(channels).collect();
        let (names, units): (Vec<&str>, Vec<&str>) = columns.iter().copied().unzip();
        let join = |open: &str, close: &str| -> Vec<String> {
            let named = columns.iter().map(|(n, u)| match *u {
                "" => self.quote(n),
                u => self.quote(&format!("{n}{open}{u}{close}")),
            });
            named.collect()
        };
        let plain: Vec<String> = names.iter().map(|n| self.quote(n)).collect();
        let about = [
            format!("Sample rate: {} 1/s", r.rate_hz),
            format!("Samples: {}", r.len()),
            "Note: invented data".to_string(),
        ];
        let mut text = String::new();
        match self.header {
            Header::Names => self.line(&mut text, &plain, end),
            Header::NamesAndUnits => self.line(&mut text, &join(" [", "]"), end),
            Header::NamesSlashUnits => self.line(&mut text, &join(" / ", ""), end),
            Header::UnitLine => {
                self.line(&mut text, &plain, end);
                let units: Vec<String> = units.iter().map(|u| self.quote(u)).collect();
                self.line(&mut text, &units, end);
            }
            Header::UnitsAbove => {
                let units: Vec<String> = units.iter().map(|u| self.quote(u)).collect();
                self.line(&mut text, &units, end);
                self.line(&mut text, &plain, end);
            }
            Header::NamesUnderscoreUnits => self.line(&mut text, &join("_", ""), end),
            Header::Preface => {
                about.iter().for_each(|a| text += &format!("{a}{end}"));
                text += end;
                self.line(&mut text, &join(" (", ")"), end);
            }
            Header::HashPreface => {
                about.iter().for_each(|a| text += &format!("# {a}{end}"));
                self.line(&mut text, &plain, end);
                let units: Vec<String> = units.iter().map(|u| self.quote(u)).collect();
                self.line(&mut text, &units, end);
            }
        }
        text
    }

    fn quote(&self, name: &str) -> String {
        if self.quoted || name.contains(self.delimiter) {
            format!("\"{}\"", name.replace('"', "\"\""))
        } else {
            name.to_string()
        }
    }

    fn number(&self, v: f64, digits: usize) -> String {
        if v.is_nan() {
            return self.gap.to_string();
        }
        if v.is_infinite() {
            let sign = if v < 0.0 { "-" } else { "" };
            return format!("{sign}{}", self.over_range);
        }
        let mut text = String::new();
        if self.scientific {
            let _ = write!(text, "{v:.digits$e}");
            let (mantissa, exponent) = text.split_once('e').unwrap_or((&text, "0"));
            let exponent: i32 = exponent.parse().unwrap_or(0);
            text = format!("{mantissa}E{exponent:+03}");
        } else {
            let _ = write!(text, "{v:.digits$}");
        }
        if self.decimal_comma {
            text.replace('.', ",")
        } else {
            text
        }
    }

    fn line(&self, text: &mut String, fields: &[String], end: &str) {
        for (i, field) in fields.iter().enumerate() {
            if i > 0 {
                text.push(self.delimiter);
            }
            text.push_str(field);
        }
        if self.trailing {
            text.push(self.delimiter);
        }
        text.push_str(end);
    }
}
