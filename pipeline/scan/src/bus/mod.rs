//! Logs of bus frames as text: a time stamp, an interface and `identifier#data`, or a table with a row a frame.

mod table;

use crate::diagnostics;
use crate::frame::frame;
use formats::{ErrorKind, FormatError, FormatReader, Probe, Reading, Source};
use model::scan::{BusLog, NewBusFrame};
use model::{Problem, ScanRecord, TimeSource};
use table::Table;

/// Most frames of one log that are kept.
const MOST_FRAMES: usize = 10_000_000;
/// Longest line that is looked at, bytes.
const LONGEST_LINE: usize = 8192;
/// Beginning of a text that is looked at to tell what it is, bytes.
const HEAD: usize = 1 << 16;

/// Reads logs of bus frames and what they say as diagnostics.
pub struct BusLogReader;

/// Notation of the frames.
#[derive(Debug, Clone)]
enum Layout {
    /// One frame a line, with its own marks.
    Lines,
    /// A heading row and cells.
    Table(Table),
}

/// Layout of a text by its beginning; `None` where it is no log of frames.
fn layout(head: &str) -> Option<Layout> {
    let lines = || head.lines().filter(|l| !l.trim().is_empty()).take(50);
    let (frames, all) = lines().fold((0, 0), |(frames, all), l| {
        (
            frames + usize::from(frame(l).is_some_and(|f| f.marked)),
            all + 1,
        )
    });
    if frames >= 2 && frames * 2 > all {
        return Some(Layout::Lines);
    }
    Table::find(head).map(Layout::Table)
}

impl FormatReader for BusLogReader {
    fn name(&self) -> &'static str {
        "bus log"
    }

    fn probe(&self, source: &Source) -> Probe {
        let Some(text) = source.text() else {
            return Probe::new(0.0, "not text");
        };
        match layout(&text.head(HEAD).0) {
            Some(Layout::Lines) => Probe::new(0.98, "a line for each frame of a bus"),
            Some(Layout::Table(_)) => Probe::new(0.98, "a table of bus frames"),
            None => Probe::new(0.0, "no frames of a bus"),
        }
    }

    fn read(&self, source: &Source) -> Result<Reading, FormatError> {
        let unknown = || {
            FormatError::new(
                ErrorKind::Unknown,
                source.name,
                None,
                "no frames of a bus were found",
                "export the log as text: a time stamp, the interface and identifier#data in each line",
            )
        };
        let text = source.text().ok_or_else(unknown)?;
        let layout = layout(&text.head(HEAD).0).ok_or_else(unknown)?;
        let mut log = BusLog::default();
        let (mut left_out, mut first_left_out) = (0usize, 0usize);
        let read = text.for_each_line(LONGEST_LINE, |number, line| {
            let frame = match &layout {
                Layout::Lines => frame(line),
                Layout::Table(table) => table.frame(line),
            };
            match frame {
                Some(f) if log.frames.len() < MOST_FRAMES => log.push(NewBusFrame {
                    time_s: f.time_s.unwrap_or(f64::NAN),
                    id: f.id,
                    extended: f.extended,
                    interface: f.interface,
                    data: &f.data,
                    line: u32::try_from(number).unwrap_or(u32::MAX),
                }),
                None if line.trim().is_empty()
                    || line.trim_start().starts_with(['#', ';', '%']) => {}
                None if matches!(&layout, Layout::Table(t) if number <= t.heading) => {}
                _ => {
                    left_out += 1;
                    if left_out == 1 {
                        first_left_out = number;
                    }
                }
            }
        });
        read.map_err(|e| {
            FormatError::new(
                ErrorKind::Io,
                source.name,
                None,
                &format!("the file could not be read: {e}"),
                "check that it still exists and may be read",
            )
        })?;
        if log.frames.is_empty() {
            return Err(unknown());
        }
        let mut problems = Vec::new();
        if left_out > 0 {
            problems.push(Problem {
                file: source.name.into(),
                place: Some(format!("line {first_left_out}")),
                message: format!(
                    "{left_out} line(s) hold no frame and were left out; this is the first"
                ),
            });
        }
        let (how, problem) = match &layout {
            Layout::Lines => (String::new(), None),
            Layout::Table(table) => table.settle_time(&mut log),
        };
        problems.extend(problem.map(|message| Problem {
            file: source.name.into(),
            place: None,
            message,
        }));
        if log.time_source != TimeSource::Unknown {
            problems.extend(log.join_clock(source.name));
        }
        let mut record = ScanRecord {
            file: source.name.into(),
            problems,
            ..ScanRecord::default()
        };
        let asked = diagnostics::read_log(&log, &mut record);
        let form = match &layout {
            Layout::Lines => "bus log",
            Layout::Table(_) => "bus log as a table",
        };
        record.read_as = format!(
            "{form}, {} frames, {}{how}{}",
            log.frames.len(),
            text.charset.name(),
            if asked {
                ""
            } else {
                ", no diagnostic questions"
            }
        );
        record.bus_log = Some(log);
        Ok(Reading::Scan(record))
    }
}

#[cfg(test)]
mod tests;
