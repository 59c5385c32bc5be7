//! The text of a settings file, of a bounded size.

use model::Problem;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

/// Largest settings file, bytes.
pub const LARGEST_FILE: usize = 1 << 20;

/// Reads the text of a settings file; `name` is its name for messages.
///
/// # Errors
/// A file that cannot be read, is larger than [`LARGEST_FILE`], or is no UTF-8.
pub fn read_text(path: &Path, name: &str) -> Result<String, Problem> {
    read_open(File::open(path), name)
}

/// Reads the text of a settings file that was opened; `name` is its name for messages.
///
/// # Errors
/// As [`read_text`], and a file that could not be opened.
pub fn read_open(opened: io::Result<File>, name: &str) -> Result<String, Problem> {
    let problem = |message: String| Problem {
        file: name.into(),
        place: None,
        message,
    };
    let file = opened.map_err(|e| problem(format!("the file cannot be read: {e}")))?;
    let mut bytes = Vec::new();
    let read = file.take(LARGEST_FILE as u64 + 1).read_to_end(&mut bytes);
    read.map_err(|e| problem(format!("the file cannot be read: {e}")))?;
    if bytes.len() > LARGEST_FILE {
        return Err(too_large(name));
    }
    String::from_utf8(bytes).map_err(|e| {
        let before = &e.as_bytes()[..e.utf8_error().valid_up_to()];
        let line = before.iter().filter(|b| **b == b'\n').count() + 1;
        Problem {
            place: Some(format!("line {line}")),
            ..problem("a character that is no UTF-8; save the file as UTF-8".into())
        }
    })
}

pub(crate) fn too_large(name: &str) -> Problem {
    Problem {
        file: name.into(),
        place: None,
        message: "the file is larger than 1 MiB, which no settings are; look whether another file has its name".into(),
    }
}
