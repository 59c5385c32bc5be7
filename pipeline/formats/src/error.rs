//! Errors of files that could not be read.

use std::fmt;

/// Kind of an error.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ErrorKind {
    /// The file has no content.
    Empty,
    /// The file ends before anything usable.
    Truncated,
    /// The content is of no known kind.
    Unknown,
    /// The kind is known, this variant of it is not read.
    Unsupported,
    /// The content contradicts itself.
    Damaged,
    /// It takes more memory than reading may.
    TooLarge,
    /// The operating system did not give the file out.
    Io,
}

/// Error of a file that could not be read: its name, the place, what was expected, what to do.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub struct FormatError {
    /// Kind of the error.
    pub kind: ErrorKind,
    /// The file's name inside its job folder.
    pub file: String,
    /// Line or byte, as a person would look for it; `None` for the whole file.
    pub place: Option<String>,
    /// Finding and expectation.
    pub expected: String,
    /// Advice on what to do.
    pub remedy: String,
}

impl FormatError {
    /// A new error; see the fields.
    pub fn new(
        kind: ErrorKind,
        file: &str,
        place: Option<String>,
        expected: &str,
        remedy: &str,
    ) -> Self {
        FormatError {
            kind,
            file: file.into(),
            place,
            expected: expected.into(),
            remedy: remedy.into(),
        }
    }

    /// Error of a file that the system does not let open or read.
    pub fn io(file: &str, error: &std::io::Error) -> Self {
        FormatError::new(
            ErrorKind::Io,
            file,
            None,
            &format!("the file could not be read: {error}"),
            "check that it still exists and may be read",
        )
    }

    /// The content contradicts itself at a byte offset.
    pub(crate) fn damaged(file: &str, byte: u64, expected: &str) -> Self {
        FormatError::new(
            ErrorKind::Damaged,
            file,
            Some(format!("byte {byte}")),
            expected,
            "export the recording again",
        )
    }

    /// Everything but the file's name, as one sentence for a [`model::Problem`].
    pub fn message(&self) -> String {
        format!("{}; {}", self.expected, self.remedy)
    }
}

impl fmt::Display for FormatError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.place {
            Some(place) => write!(f, "{}, {place}: {}", self.file, self.message()),
            None => write!(f, "{}: {}", self.file, self.message()),
        }
    }
}

impl From<FormatError> for model::Problem {
    fn from(e: FormatError) -> Self {
        let message = e.message();
        model::Problem {
            file: e.file,
            place: e.place,
            message,
        }
    }
}
