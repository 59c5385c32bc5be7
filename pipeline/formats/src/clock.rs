//! Clock times and dates in cells.

use chrono::{NaiveDate, NaiveTime};

/// A clock time or a date with a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stamp {
    /// The day, where there is one.
    pub day: Option<NaiveDate>,
    /// Seconds since midnight, or since the start; may be negative without a day.
    pub seconds: f64,
    /// Digits behind the decimal sign.
    pub decimals: i32,
}

/// Reads `hh:mm:ss.sss`, `mm:ss.sss`, or a date with a time in ISO 8601, German or American order.
pub fn parse(cell: &str) -> Option<Stamp> {
    let cell = cell.trim().trim_matches('"').trim();
    if cell.len() > 48 || !cell.contains(':') {
        return None;
    }
    let (cell, noon) = twelve_hours(cell);
    let (day, clock) = match cell.split_once(['T', ' ']) {
        Some((d, t)) => (Some(date(d)?), t.trim()),
        None => (None, cell),
    };
    let clock = clock.trim_end_matches('Z');
    // A zone (+01:00) does not matter inside one recording.
    let clock = match clock.rfind('+') {
        Some(i) if i > 0 => &clock[..i],
        _ => clock,
    };
    let (negative, clock) = match clock.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, clock),
    };
    let parts: Vec<&str> = clock.split(':').collect();
    // Some write hh:mm:ss:mmm.
    let (hms, last) = match parts.as_slice() {
        [h, m, s, f] if f.len() <= 6 => (vec![*h, *m], format!("{s}.{f}")),
        [h, m, s] => (vec![*h, *m], s.replace(',', ".")),
        [m, s] if s.contains(['.', ',']) || day.is_none() => (vec!["0", *m], s.replace(',', ".")),
        _ => return None,
    };
    let whole = |s: &str| -> Option<f64> {
        (!s.is_empty() && s.len() <= 5 && s.bytes().all(|b| b.is_ascii_digit()))
            .then(|| s.parse().ok())?
    };
    let (h, m) = (whole(hms.first()?)?, whole(hms.get(1)?)?);
    let (int, fraction) = last.split_once('.').unwrap_or((&last, ""));
    let int = whole(int)?;
    if !fraction.bytes().all(|b| b.is_ascii_digit())
        || fraction.len() > 12
        || m >= 60.0 && hms[0] != "0"
        || int >= 61.0
    {
        return None;
    }
    let s: f64 = last.parse().ok()?;
    let h = noon.map_or(h, |after| h % 12.0 + if after { 12.0 } else { 0.0 });
    let seconds = h * 3600.0 + m * 60.0 + s;
    Some(Stamp {
        day,
        seconds: if negative { -seconds } else { seconds },
        decimals: fraction.len() as i32,
    })
}

/// Takes `AM` or `PM` off; true after noon.
fn twelve_hours(cell: &str) -> (&str, Option<bool>) {
    let marks = [("am", false), ("a.m.", false), ("pm", true), ("p.m.", true)];
    for (mark, after) in marks {
        let at = cell.len().saturating_sub(mark.len());
        if cell
            .get(at..)
            .is_some_and(|end| end.eq_ignore_ascii_case(mark))
        {
            return (cell[..at].trim_end(), Some(after));
        }
    }
    (cell, None)
}

/// A calendar day: ISO 8601, `2.3.2026`, `2/3/2026` (day first unless the second number exceeds 12).
pub fn date(text: &str) -> Option<NaiveDate> {
    let text = text.trim().trim_end_matches([',', '.']);
    let parts: Vec<u32> = text
        .split(['-', '.', '/'])
        .map(|p| p.trim().parse().ok())
        .collect::<Option<_>>()?;
    let [a, b, c] = parts[..] else { return None };
    let (y, m, d) = if a > 31 { (a, b, c) } else { (c, b, a) };
    let y = if y < 100 { y + 2000 } else { y };
    if !(1980..=2200).contains(&y) {
        return None;
    }
    let y = i32::try_from(y).ok()?;
    NaiveDate::from_ymd_opt(y, m, d).or_else(|| NaiveDate::from_ymd_opt(y, d, m))
}

/// A date, a time, or both, from a metadata value.
pub fn date_and_time(value: &str) -> Option<(Option<NaiveDate>, Option<NaiveTime>)> {
    let clock = |s: &Stamp| {
        let whole = s.seconds as u32;
        let nanos = ((s.seconds - f64::from(whole)) * 1e9) as u32;
        NaiveTime::from_num_seconds_from_midnight_opt(whole, nanos.min(999_999_999))
    };
    if let Some(s) = parse(value).filter(|s| s.seconds >= 0.0) {
        return Some((s.day, clock(&s)));
    }
    let mut words = value
        .split(['T', ' ', ',', ';', '\t'])
        .filter(|w| !w.is_empty());
    let day = date(words.next()?)?;
    let time = words
        .next()
        .and_then(parse)
        .filter(|s| s.seconds >= 0.0)
        .and_then(|s| clock(&s));
    Some((Some(day), time))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clock_times_and_dates() {
        let s = |t: &str| parse(t).map(|s| (s.day.is_some(), s.seconds, s.decimals));
        assert_eq!(s("00:00:01.250"), Some((false, 1.25, 3)));
        assert_eq!(s("10:30:09,5"), Some((false, 37809.5, 1)));
        assert_eq!(s("-00:00:05.000"), Some((false, -5.0, 3)));
        assert_eq!(s("2026-01-10T10:30:09.0004"), Some((true, 37809.0004, 4)));
        assert_eq!(s("10.01.2026 00:00:02"), Some((true, 2.0, 0)));
        assert_eq!(s("2026-01-10T00:00:01.5+01:00"), Some((true, 1.5, 1)));
        assert_eq!(s("01:02.5"), Some((false, 62.5, 1)));
        assert_eq!(s("00:00:01:250"), Some((false, 1.25, 3)));
        assert_eq!(s("10:30:09.5 PM"), Some((false, 81009.5, 1)));
        assert_eq!(s("1/10/2026 12:00:01 am"), Some((true, 1.0, 0)));
        for bad in ["1.5", "a:b", "12:99:00", "P0902:13", ":", "1:2:3:4:5"] {
            assert_eq!(s(bad), None, "{bad}");
        }
    }

    #[test]
    fn days() {
        let ymd = NaiveDate::from_ymd_opt;
        assert_eq!(date("2026-03-02"), ymd(2026, 3, 2));
        assert_eq!(date("02.03.2026"), ymd(2026, 3, 2));
        assert_eq!(date("03/25/2026"), ymd(2026, 3, 25));
        assert_eq!(date("2026-13-40"), None);
    }
}
