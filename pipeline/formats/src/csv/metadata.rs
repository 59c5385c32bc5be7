//! The lines above the header: `key: value`, `key;value`, `key=value`.

use crate::clock;
use crate::number::{self, NumberStyle};
use crate::units;
use crate::words::{WORDS, WordList, fold};
use chrono::{NaiveDate, NaiveDateTime, NaiveTime};

/// Facts from the lines above the header.
#[derive(Debug, Default, Clone)]
pub(crate) struct Metadata {
    /// Sample interval, s.
    pub interval_s: Option<f64>,
    /// Time of the first sample, s.
    pub start_s: Option<f64>,
    /// Number of samples that the file says it has.
    pub samples: Option<u64>,
    /// When the recording started.
    pub started: Option<NaiveDateTime>,
    /// Seconds per unit of the time column.
    pub time_unit_s: Option<f64>,
    /// Unit of the values.
    pub value_unit: Option<String>,
}

impl Metadata {
    /// True where a line reads like `key: value`.
    pub fn is_entry(line: &str, delimiter: u8) -> bool {
        entry(line, delimiter).is_some()
    }

    pub fn read<'a>(
        lines: impl Iterator<Item = &'a str>,
        delimiter: u8,
        style: NumberStyle,
    ) -> Self {
        let mut out = Metadata::default();
        let (mut day, mut clock) = (None, None);
        for line in lines {
            let Some((key, value)) = entry(line, delimiter) else {
                continue;
            };
            out.read_entry(&key, &value, style, &mut day, &mut clock);
        }
        if out.started.is_none()
            && let Some(day) = day
        {
            out.started = Some(NaiveDateTime::new(day, clock.unwrap_or(NaiveTime::MIN)));
        }
        out
    }

    fn read_entry(
        &mut self,
        key: &str,
        value: &str,
        style: NumberStyle,
        day: &mut Option<NaiveDate>,
        clock: &mut Option<NaiveTime>,
    ) {
        let (bare, key_unit) = units::split(key);
        let low = fold(&bare);
        let has = |words: &WordList| words.occurs_in(&low);
        if WORDS.time_unit.contains(&low) {
            self.time_unit_s = self.time_unit_s.or(units::seconds(value));
            return;
        }
        if WORDS.value_unit.contains(&low) && units::is_unit(value) {
            self.value_unit.get_or_insert_with(|| value.to_string());
            return;
        }
        if let Some((amount, unit)) = quantity(value, style) {
            let unit = if unit.is_empty() {
                key_unit.unwrap_or_default()
            } else {
                unit
            };
            if let Some(f) = units::hertz(&unit)
                && amount > 0.0
                && (has(&WORDS.rate) || has(&WORDS.interval) || low == "fs")
            {
                self.interval_s = self.interval_s.or(Some(1.0 / (amount * f)));
            } else if has(&WORDS.interval) || low == "dt" || low == "δt" {
                let s = if unit.is_empty() {
                    Some(1.0)
                } else {
                    units::seconds(&unit)
                };
                if let Some(s) = s.filter(|_| amount > 0.0) {
                    self.interval_s = self.interval_s.or(Some(amount * s));
                }
            } else if WORDS.count.contains(&low)
                && unit.is_empty()
                && amount >= 0.0
                && amount.fract() == 0.0
            {
                self.samples = Some(amount as u64);
            } else if (has(&WORDS.rate) || low == "fs") && unit.is_empty() && amount > 0.0 {
                self.interval_s = self.interval_s.or(Some(1.0 / amount));
            } else if WORDS.offset.begins(&low)
                && let Some(s) = units::seconds(if unit.is_empty() { "s" } else { &unit })
            {
                self.start_s = Some(amount * s);
            }
            return;
        }
        if has(&WORDS.started)
            && let Some((d, t)) = clock::date_and_time(value)
        {
            match (d, t) {
                (Some(d), Some(t)) => {
                    self.started = self.started.or(Some(NaiveDateTime::new(d, t)))
                }
                (Some(d), None) => *day = day.or(Some(d)),
                (None, Some(t)) => *clock = clock.or(Some(t)),
                (None, None) => {}
            }
        }
    }
}

/// Key and value of one line.
fn entry(line: &str, delimiter: u8) -> Option<(String, String)> {
    let line = line
        .trim()
        .trim_start_matches(['#', '%', '/', '!', '*'])
        .trim();
    let cut = line.find([char::from(delimiter), ':', '='])?;
    let clean = |s: &str| {
        s.trim_matches(|c: char| {
            c.is_whitespace() || matches!(c, '"' | ':' | '=') || c == char::from(delimiter)
        })
        .to_string()
    };
    let (key, value) = (clean(&line[..cut]), clean(&line[cut..]));
    (!key.is_empty() && !value.is_empty()).then_some((key, value))
}

/// A number and the unit behind it: `0.0004 s`, `500 us`, `2,5 kS/s`.
fn quantity(value: &str, style: NumberStyle) -> Option<(f64, String)> {
    let value = value.replace(['"', ';', '\t', '|'], " ");
    let value = value.trim();
    let end = value
        .char_indices()
        .find(|(i, c)| {
            let exponent = matches!(c, 'e' | 'E')
                && value[i + 1..].starts_with(|n: char| n.is_ascii_digit() || n == '-' || n == '+');
            !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | '\u{2212}') || exponent)
        })
        .map_or(value.len(), |(i, _)| i);
    let (number, unit) = value.split_at(end);
    let unit = unit
        .trim()
        .trim_start_matches(['(', '['])
        .trim_end_matches([')', ']', ','])
        .trim();
    if !unit.is_empty() && units::seconds(unit).is_none() && units::hertz(unit).is_none() {
        return None;
    }
    let number = number.trim_end_matches(',');
    let other = if style == NumberStyle::POINT {
        NumberStyle::COMMA
    } else {
        NumberStyle::POINT
    };
    // Metadata need not use the table's decimal sign; a point without thousands groups wins.
    let amount = number::plain(number, style).or_else(|| number::plain(number, other))?;
    Some((amount.value, unit.to_string()))
}
