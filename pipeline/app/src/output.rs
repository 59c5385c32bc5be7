//! Lines on the terminal. A reader that has seen enough, such as `head`, closes the pipe: that is no error, and the work
//! goes on without it.

use std::fmt::Arguments;
use std::io::{ErrorKind, Write};
use std::sync::atomic::{AtomicBool, Ordering};

static HAS_FAILED: AtomicBool = AtomicBool::new(false);

/// Prints a line on the standard output.
macro_rules! say {
    ($($text:tt)*) => {
        $crate::output::line(std::io::stdout().lock(), format_args!($($text)*))
    };
}

/// Prints a line on the standard error output.
macro_rules! say_error {
    ($($text:tt)*) => {
        $crate::output::line(std::io::stderr().lock(), format_args!($($text)*))
    };
}

pub(crate) use {say, say_error};

/// Writes a line.
pub fn line(mut to: impl Write, text: Arguments<'_>) {
    match writeln!(to, "{text}").and_then(|()| to.flush()) {
        Err(e) if e.kind() != ErrorKind::BrokenPipe => HAS_FAILED.store(true, Ordering::Relaxed),
        _ => {}
    }
}

/// Returns whether something could not be written, for want of space for instance.
pub fn has_failed() -> bool {
    HAS_FAILED.load(Ordering::Relaxed)
}

/// Rows of cells below each other: the first `left` columns begin and the others end at one place.
pub fn table(rows: &[Vec<String>], left: usize) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let length = |row: &Vec<String>, c: usize| row.get(c).map_or(0, |cell| cell.chars().count());
    let widths: Vec<usize> = (0..columns)
        .map(|c| rows.iter().map(|row| length(row, c)).max().unwrap_or(0))
        .collect();
    let line = |row: &Vec<String>| {
        let cells = row.iter().enumerate().map(|(c, cell)| match c < left {
            true => format!("{cell:<0$}", widths[c]),
            false => format!("{cell:>0$}", widths[c]),
        });
        cells.collect::<Vec<_>>().join("  ").trim_end().to_owned()
    };
    rows.iter().map(line).collect::<Vec<_>>().join("\n")
}
