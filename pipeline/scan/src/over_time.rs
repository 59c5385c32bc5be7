//! Live data as a table over time: a heading row with the time and the names, then a row per reading.

use crate::live;
use formats::clock;
use formats::number::{self, Cell, NumberStyle};
use formats::units;
use formats::words::is_time_name;
use model::{LiveTrack, ScanRecord};

/// Rows that make a table.
const LEAST_ROWS: usize = 2;

/// Takes tables over time out of the lines and gives which lines they were.
pub(crate) fn read(file: &str, lines: &[&str], record: &mut ScanRecord) -> Vec<bool> {
    let mut taken = vec![false; lines.len()];
    let mut i = 0;
    while i < lines.len() {
        let end = table(file, lines, i, record);
        let next = end.unwrap_or(i + 1);
        if end.is_some() {
            taken[i..next].fill(true);
        }
        i = next;
    }
    taken
}

/// Reads a table whose heading is line `at`; gives the line behind it.
fn table(file: &str, lines: &[&str], at: usize, record: &mut ScanRecord) -> Option<usize> {
    let delimiter = [';', '\t', '|', ',']
        .into_iter()
        .find(|d| lines[at].contains(*d));
    let heads = cells(lines[at], delimiter);
    let (time_at, time_unit) = heads.iter().enumerate().find_map(|(i, h)| {
        let (name, unit) = units::split(h);
        is_time_name(&name).then_some((i, unit))
    })?;
    let names: Vec<(String, Option<String>)> = heads.iter().map(|h| units::split(h)).collect();
    let known = names.iter().enumerate().filter(|(i, (n, u))| {
        *i != time_at && (live::quantity(n).is_some() || u.as_deref().is_some_and(units::is_unit))
    });
    if known.count() == 0 {
        return None;
    }
    let unit_s = time_unit.as_deref().map_or(Some(1.0), units::seconds)?;
    let mut rows: Vec<(usize, f64, Vec<f64>)> = Vec::new();
    let mut end = at + 1;
    for (i, line) in lines.iter().enumerate().skip(at + 1) {
        if line.trim().is_empty()
            || line
                .chars()
                .all(|c| matches!(c, '-' | '=' | '+' | '|' | ' '))
        {
            // A rule under the heading, or the end.
            if rows.is_empty() {
                continue;
            }
            break;
        }
        let row = cells(line, delimiter);
        let time = row.get(time_at).and_then(|c| instant(c, delimiter, unit_s));
        let Some(t) = time.filter(|t| {
            row.len() == heads.len() && rows.last().is_none_or(|(_, last, _)| t >= last)
        }) else {
            break;
        };
        rows.push((i, t, row.iter().map(|c| value(c, delimiter)).collect()));
        end = i + 1;
    }
    if rows.len() < LEAST_ROWS {
        return None;
    }
    for (c, (name, unit)) in names.into_iter().enumerate().filter(|(c, _)| *c != time_at) {
        let values: Vec<f64> = rows.iter().map(|(_, _, v)| v[c]).collect();
        if values.iter().all(|v| v.is_nan()) {
            continue;
        }
        record.tracks.push(LiveTrack {
            quantity: live::quantity(&name),
            name,
            unit,
            module: None,
            time_s: rows.iter().map(|(_, t, _)| *t).collect(),
            values,
            file: file.into(),
            line: rows[0].0 + 1,
        });
    }
    Some(end)
}

fn cells(line: &str, delimiter: Option<char>) -> Vec<String> {
    let clean = |c: &str| c.trim().trim_matches('"').trim().to_string();
    match delimiter {
        Some(d) => line
            .trim_matches(' ')
            .trim_matches(|c| c == d && d == '|')
            .split(d)
            .map(clean)
            .collect(),
        None => line
            .split("  ")
            .map(clean)
            .filter(|c| !c.is_empty())
            .collect(),
    }
}

/// The value of a cell, in the decimal style that the cell itself shows.
fn value(cell: &str, delimiter: Option<char>) -> f64 {
    let comma = delimiter != Some(',') && cell.contains(',') && !cell.contains('.');
    let style = if comma {
        NumberStyle::COMMA
    } else {
        NumberStyle::POINT
    };
    match number::cell(cell.as_bytes(), style) {
        Cell::Text => number::measured(cell, style).map_or(f64::NAN, |(d, _)| d.value),
        known => known.sample(),
    }
}

fn instant(cell: &str, delimiter: Option<char>, unit_s: f64) -> Option<f64> {
    let number = value(cell, delimiter);
    if number.is_finite() {
        return Some(number * unit_s);
    }
    clock::parse(cell).map(|s| s.seconds)
}

#[cfg(test)]
mod tests {
    use crate::parse;
    use model::scan::LiveQuantity::*;

    #[test]
    fn tables_over_time_become_tracks() {
        for text in [
            "Live data\nTime [s];Engine speed [rpm];Module voltage [V]\n0,0;700;12,5\n0,5;710;12,4\n1,0;720;\n",
            "Messwerte\nZeit (s) | Motordrehzahl (1/min) | Batteriespannung (V)\n---------+------\n0.0 | 700 | 12.5\n0.5 | 710 | 12.4\n1.0 | 720 | -\n",
            "Tiempo [ms]\tRégimen motor\tTensión de batería\n0\t700 rpm\t12.5 V\n500\t710 rpm\t12.4 V\n1000\t720 rpm\t\n",
            "Temps       Régime moteur    Tension batterie\n00:00:00.0  700 tr/min       12,5 V\n00:00:00.5  710 tr/min       12,4 V\n00:00:01.0  720 tr/min       ---\n",
        ] {
            let r = parse("a.txt", text);
            assert_eq!(r.tracks.len(), 2, "{text}\n{:?}", r.tracks);
            let speed = &r.tracks[0];
            assert_eq!(
                (speed.quantity, &speed.values[..]),
                (Some(EngineSpeed), &[700.0, 710.0, 720.0][..]),
                "{text}"
            );
            assert_eq!(speed.time_s, [0.0, 0.5, 1.0], "{text}");
            let volts = &r.tracks[1];
            assert_eq!(
                (volts.quantity, &volts.values[..2]),
                (Some(ModuleVoltage), &[12.5, 12.4][..])
            );
            assert!(volts.values[2].is_nan());
            assert!(r.live.is_empty(), "{:?}", r.live);
        }
    }

    #[test]
    fn a_table_of_codes_with_their_times_is_none() {
        let r = parse(
            "a.txt",
            "Code;Time;Status\nP0902;10:30:09;active\nP0700;10:30:10;stored\n",
        );
        assert!(r.tracks.is_empty());
        assert_eq!(r.codes.len(), 2);
    }
}
