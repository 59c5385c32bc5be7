//! The table as a recording: its rows, its time, what was odd about it.

use super::axis::{self, TimeFrom};
use super::layout::Layout;
use super::parallel::{self, AllRows};
use super::rows::Plan;
use super::{cut, edges};
use crate::number::NumberStyle;
use crate::text::Text;
use crate::time_axis::{self, BareTime};
use crate::{ErrorKind, FormatError, Source};
use chrono::{NaiveDateTime, TimeDelta};
use model::{Capture, Channel, Problem, Samples, TimeAxis};

/// A logic recorder tells high from low and no voltage; its levels count as those of 5 V logic, so that a sensor's
/// swing is what such a recorder needs to see it at all.
const LOGIC_VOLTS: f64 = 5.0;
/// An edge list has few rows; more than that are samples, whatever their levels.
const LONGEST_EDGE_LIST: usize = 1 << 24;

/// Reads every row.
pub(super) fn read(source: &Source, text: &Text, layout: &Layout) -> Result<Capture, FormatError> {
    let file = source.name;
    let time = axis::source(layout).ok_or_else(|| {
        FormatError::new(
            ErrorKind::Unsupported,
            file,
            Some(format!("line {}", layout.first_line)),
            "the table has no time column and no line above it gives a sample interval or rate",
            "export it with a time column, or add a line such as \"Sample interval: 0.5 ms\" above the header",
        )
    })?;
    let plan = plan(layout, time);
    let cut = cut::is_cut(text, layout);
    let whole = if cut { text.without_last_line() } else { *text };
    let row_bytes = 4 * plan.len() as u64 + 8;
    let rows = parallel::read(&whole, layout, &plan, source.most_rows(row_bytes));
    let rows = rows.map_err(|e| FormatError::io(file, &e))?;
    if rows.full {
        return Err(source.too_large(None));
    }
    if rows.lacks_memory {
        return Err(source.not_given());
    }
    let first_line = layout.first_line as u64;
    let mut problems = Vec::new();
    let mut say = |line: u64, message: String| {
        problems.push(problem(
            file,
            Some(format!("line {}", first_line + line - 1)),
            message,
        ))
    };
    if let Some(line) = rows.long_line {
        say(
            line,
            "a line is longer than 1 MiB; the rest of the file was left out. Export the recording again".into(),
        );
    } else if cut {
        let message = format!(
            "the last line is cut off and was left out; {} whole rows were read",
            rows.count
        );
        say(rows.lines + 1, message);
    }
    capture(file, text, layout, time, &plan, rows, problems)
}

/// Use of each column.
fn plan(layout: &Layout, source: TimeFrom) -> Vec<Plan> {
    let mut kept = 0;
    let columns = layout.columns.iter().enumerate();
    columns
        .map(|(i, column)| match source {
            TimeFrom::Column(at, _) if at == i => Plan::Time,
            _ if column.numeric && !axis::is_index(column) => {
                kept += 1;
                Plan::Keep(kept - 1)
            }
            _ => Plan::Pass,
        })
        .collect()
}

fn capture(
    file: &str,
    text: &Text,
    layout: &Layout,
    source: TimeFrom,
    plan: &[Plan],
    mut rows: AllRows,
    mut problems: Vec<Problem>,
) -> Result<Capture, FormatError> {
    if rows.count == 0 {
        return Err(FormatError::new(
            ErrorKind::Truncated,
            file,
            Some(format!("line {}", layout.first_line)),
            "not one whole row of numbers follows the header",
            "export the recording again",
        ));
    }
    problems.extend(rows.odd.problems(file, layout.first_line as u64));
    for (column, plan) in layout.columns.iter().zip(plan) {
        let passed = *plan == Plan::Pass && !column.side;
        if passed && !axis::is_index(column) && column.day.is_none() {
            problems.push(problem(
                file,
                Some(format!("column \"{}\"", column.name)),
                "it holds no numbers and was left out".into(),
            ));
        }
    }
    let Timed {
        mut time,
        mut how,
        source: time_source,
        started,
    } = time_of(file, &mut rows, layout, source, &mut problems);
    if let Some(declared) = layout.metadata.samples
        && declared != rows.count as u64
    {
        let message = format!(
            "the file says that it has {declared} samples; {} were read",
            rows.count
        );
        problems.push(problem(file, None, message));
    }
    let mut columns: Vec<Vec<f32>> = Vec::new();
    let mut scales = vec![1.0; rows.columns.len()];
    if matches!(source, TimeFrom::Column(..))
        && rows.count <= LONGEST_EDGE_LIST
        && rows.may_be_levels()
        && edges::is_list(&rows.columns, matches!(time, TimeAxis::Even { .. }))
        && let Some((even, levels, lost)) = edges::samples(&time, &rows.columns)
    {
        how = format!(
            "{how}; a list of {} edges, each level lasts until the next, high taken as {LOGIC_VOLTS} V",
            rows.count
        );
        for (scale, column) in scales.iter_mut().zip(&rows.columns) {
            if edges::is_level(column) {
                *scale = LOGIC_VOLTS;
            }
        }
        if lost > 0 {
            let message = format!(
                "{lost} level(s) are too short beside the length of the list and may be lost"
            );
            problems.push(problem(file, None, message));
        }
        time = even;
        columns = levels;
    }
    if columns.is_empty() {
        let gaps = time_axis::gaps(&time).filter(|_| time_source != model::TimeSource::Unknown);
        problems.extend(gaps.map(|message| problem(file, None, message)));
        columns = rows.columns;
    }
    let heads = layout
        .columns
        .iter()
        .enumerate()
        .zip(plan)
        .filter(|(_, p)| matches!(p, Plan::Keep(_)));
    let channels = heads
        .zip(columns)
        .zip(scales)
        .map(|((((i, head), _), samples), scale)| {
            let unit = head
                .unit
                .clone()
                .or_else(|| layout.metadata.value_unit.clone());
            Channel {
                scale,
                column: u32::try_from(i + 1).ok(),
                ..Channel::recorded(head.name.as_str(), unit, Samples::F32(samples.into()))
            }
        });
    Ok(Capture {
        file: file.into(),
        started: started.or(layout.metadata.started),
        time,
        time_source,
        channels: channels.collect(),
        problems,
        read_as: describe(layout, text, &how),
    })
}

/// The time of a table.
struct Timed {
    time: TimeAxis,
    /// Words on its source for a person.
    how: String,
    source: model::TimeSource,
    /// When the recording started, where the stamps say so.
    started: Option<NaiveDateTime>,
}

fn time_of(
    file: &str,
    rows: &mut AllRows,
    layout: &Layout,
    source: TimeFrom,
    problems: &mut Vec<Problem>,
) -> Timed {
    let stated = layout.metadata.interval_s;
    let by_interval = |step_s: f64, how: String| Timed {
        time: TimeAxis::Even {
            start_s: layout.metadata.start_s.unwrap_or(0.0),
            step_s,
            len: rows.count,
        },
        how,
        source: model::TimeSource::File,
        started: None,
    };
    let (stamps, at, unit_s) = match (rows.stamps.take(), source) {
        (Some(stamps), TimeFrom::Column(at, unit_s)) => (stamps, at, unit_s),
        (_, TimeFrom::Interval(step_s)) => {
            return by_interval(step_s, "time from the stated sample interval".into());
        }
        (None, TimeFrom::Column(_, unit_s)) => {
            return by_interval(unit_s.unwrap_or(1.0), "one row".into());
        }
    };
    let name = &layout.columns[at].name;
    let mut how = format!("time from column \"{name}\"");
    let mut source = model::TimeSource::File;
    let own = unit_s.or(stamps.cell_unit).or(layout.metadata.time_unit_s);
    let unit_s = match (own, stamps.bare_time()) {
        (Some(unit_s), _) => unit_s,
        // Clock times.
        (None, None) => 1.0,
        (None, Some(bare)) => match (stated.and_then(|s| stamps.fit_unit(s)), bare) {
            (Some(unit_s), _) => {
                how.push_str(" (no unit given, taken from the stated interval)");
                unit_s
            }
            (None, BareTime::Unix(unit_s, unit)) => {
                how.push_str(&format!(" (no unit given, taken as Unix time in {unit})"));
                unit_s
            }
            (None, BareTime::Seconds) => {
                source = model::TimeSource::Assumed;
                how.push_str(" (no unit given, taken as seconds)");
                1.0
            }
            (None, BareTime::Unknown) => {
                // The column counts the rows, and an interval is stated.
                if let Some(step_s) = stated.filter(|_| stamps.one_step()) {
                    return by_interval(
                        step_s,
                        format!("{how} as a counter, by the stated interval"),
                    );
                }
                source = model::TimeSource::Unknown;
                how.push_str(&format!(" ({})", time_axis::UNKNOWN_UNIT));
                problems.push(problem(
                    file,
                    Some(format!("column \"{name}\"")),
                    time_axis::ask_for_unit(name),
                ));
                1.0
            }
        },
    };
    let (time, zero) = stamps.axis(unit_s);
    let mut started = None;
    if let Some((day, seconds)) = zero {
        how.push_str(", counted from the first sample");
        // Some write the date into a column of its own.
        let day = day.or_else(|| layout.columns.iter().find_map(|c| c.day));
        started = day.and_then(|d| self::at(d.and_hms_opt(0, 0, 0)?, seconds));
    }
    if source != model::TimeSource::Unknown {
        compare_interval(file, &time, stated, problems);
    }
    Timed {
        time,
        how,
        source,
        started,
    }
}

fn at(midnight: NaiveDateTime, seconds: f64) -> Option<NaiveDateTime> {
    midnight.checked_add_signed(TimeDelta::milliseconds((seconds * 1000.0).round() as i64))
}

fn problem(file: &str, place: Option<String>, message: String) -> Problem {
    Problem {
        file: file.into(),
        place,
        message,
    }
}

/// The time column counts; a stated interval that contradicts it is said.
fn compare_interval(file: &str, time: &TimeAxis, stated: Option<f64>, problems: &mut Vec<Problem>) {
    if let (TimeAxis::Even { step_s, .. }, Some(stated)) = (time, stated)
        && (step_s / stated - 1.0).abs() > 0.01
    {
        problems.push(problem(
            file,
            None,
            format!(
                "the lines above the header state an interval of {stated:e} s, the time column has {step_s:e} s; \
                 the time column was used. Check the unit of the time column"
            ),
        ));
    }
}

fn describe(layout: &Layout, text: &Text, how: &str) -> String {
    let delimiter = match layout.delimiter {
        b';' => "semicolon",
        b',' => "comma",
        b'\t' => "tab",
        b' ' => "columns aligned with spaces",
        _ => "bar",
    };
    let decimal = if layout.style == NumberStyle::COMMA {
        ", decimal comma"
    } else {
        ""
    };
    format!("CSV, {delimiter}{decimal}, {}, {how}", text.charset.name())
}
