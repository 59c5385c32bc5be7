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
