//! Reads a scan text line by line.

use crate::record::Collector;
use crate::{diagnostics, live, over_time, vehicle};
use model::{LiveItem, Problem, ScanRecord};

/// Longest line that is looked at, bytes; what stands behind it in the same line is left out.
const LONGEST_LINE: usize = 8192;

/// Reads a scan text that is already in memory. Never fails: what is not understood is left out.
pub fn parse(file: &str, text: &str) -> ScanRecord {
    let mut lines: Vec<&str> = split_lines(text);
    let long = lines.iter().position(|l| l.len() > LONGEST_LINE);
    for line in &mut lines {
        *line = &line[..line.floor_char_boundary(LONGEST_LINE)];
    }
    let mut record = ScanRecord {
        file: file.into(),
        read_as: "scan text".into(),
        ..ScanRecord::default()
    };
    let mut collector = Collector::new(file, &lines);
    let read = (0..lines.len()).find(|i| !collector.line(*i));
    let (codes, live_lines, problems) = collector.finish();
    record.codes = codes;
    record.problems = problems;
    let mut say = |line: usize, message: &str| {
        record.problems.push(Problem {
            file: file.into(),
            place: Some(format!("line {}", line + 1)),
            message: message.into(),
        })
    };
    if let Some(line) = long {
        say(
            line,
            "a line is longer than 8 KiB; what stands behind that was not looked at",
        );
    }
    if let Some(line) = read {
        say(
            line,
            "more trouble codes than a vehicle has; no more were looked for from here on",
        );
    }
    let in_table = over_time::read(file, &lines, &mut record);
    for i in live_lines.into_iter().filter(|i| !in_table[*i]) {
        for item in live::items(lines[i]) {
            record.live.push(LiveItem {
                name: item.name,
                quantity: item.quantity,
                text: item.text,
                value: item.value,
                unit: item.unit,
                file: file.into(),
                line: i + 1,
            });
        }
    }
    diagnostics::read_lines(&lines, &mut record);
    read_vehicle(file, &lines, &mut record);
    record
}

/// Lines at CR, LF or CRLF.
pub(crate) fn split_lines(text: &str) -> Vec<&str> {
    if text.contains('\n') {
        text.lines().map(|l| l.trim_end_matches('\r')).collect()
    } else {
        text.split('\r').collect()
    }
}

fn read_vehicle(file: &str, lines: &[&str], record: &mut ScanRecord) {
    let mut labelled = false;
    let mut doubt = None;
    let mut odometer_labelled = false;
    for (i, line) in lines.iter().enumerate() {
        if let Some(vin) = vehicle::vin(line)
            && (record.vin.is_none() || vin.labelled && !labelled)
        {
            labelled = vin.labelled;
            doubt = vin.doubt.map(|message| Problem {
                file: file.into(),
                place: Some(format!("line {}", i + 1)),
                message,
            });
            record.vin = Some((vin.text, i + 1));
        }
        if let Some((km, named)) = vehicle::odometer(line)
            && (record.odometer_km.is_none() || named && !odometer_labelled)
        {
            odometer_labelled = named;
            record.odometer_km = Some(km);
        }
        record.date = record.date.or_else(|| vehicle::day(line));
    }
    record.problems.extend(doubt);
}
