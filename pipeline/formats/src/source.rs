//! A file to be read: its beginning at hand, the rest when it is asked for.

use crate::input::Input;
use crate::text::Text;
use crate::{ErrorKind, FormatError};
use std::any::Any;
use std::borrow::Cow;
use std::fs::File;
use std::sync::OnceLock;

/// How much of a file every reader may look at, bytes.
pub(crate) const HEAD: usize = 4 << 20;
/// The largest file that a format which has to be read as a whole may have, bytes.
const LARGEST_WHOLE: u64 = 2 << 30;

/// Most values that a file which unfolds while it is read may give, over all channels: 1 GiB of them.
pub(crate) const MOST_VALUES: u64 = 1 << 28;

/// Message on a file that ends before what its header promises, bytes.
pub(crate) fn short(promised: u64, there: u64) -> String {
    format!("it promises {promised} bytes and has {there}")
}

/// A file to be read: its name inside the job folder and its content.
pub struct Source<'a> {
    /// The name for messages.
    pub name: &'a str,
    pub(crate) input: Input<'a>,
    head: Cow<'a, [u8]>,
    whole: OnceLock<Result<Vec<u8>, FormatError>>,
    text: OnceLock<Option<Text<'a>>>,
    /// Result of a probe that the reading needs again.
    kept: OnceLock<Box<dyn Any + Send + Sync>>,
}

impl<'a> Source<'a> {
    /// A source over bytes that are already in memory.
    pub fn new(name: &'a str, bytes: &'a [u8]) -> Self {
        Source::over(
            name,
            Input::Memory(bytes),
            Cow::Borrowed(&bytes[..bytes.len().min(HEAD)]),
        )
    }

    /// A source over an open file of `len` bytes; reads its first 4 MiB.
    ///
    /// # Errors
    /// When those cannot be read.
    pub fn open(name: &'a str, file: &'a File, len: u64) -> Result<Self, FormatError> {
        let input = Input::File(file, len);
        let head = input
            .range(0, HEAD)
            .map_err(|e| FormatError::io(name, &e))?;
        Ok(Source::over(name, input, Cow::Owned(head)))
    }

    fn over(name: &'a str, input: Input<'a>, head: Cow<'a, [u8]>) -> Self {
        Source {
            name,
            input,
            head,
            whole: OnceLock::new(),
            text: OnceLock::new(),
            kept: OnceLock::new(),
        }
    }

    /// The first 4 MiB, or all of it where it is shorter.
    pub fn head(&self) -> &[u8] {
        &self.head
    }

    /// The whole content, for formats that point back and forth inside it.
    ///
    /// # Errors
    /// When it cannot be read, or is larger than 2 GiB.
    pub fn bytes(&self) -> Result<&[u8], FormatError> {
        if let Input::Memory(bytes) = self.input {
            return Ok(bytes);
        }
        if self.input.len() == self.head.len() as u64 {
            return Ok(&self.head);
        }
        let read = || {
            if self.input.len() > LARGEST_WHOLE {
                return Err(FormatError::new(
                    ErrorKind::Unsupported,
                    self.name,
                    None,
                    "the file is larger than 2 GiB, which is the most that is read of this format",
                    "export the part of the recording that matters",
                ));
            }
            let most = usize::try_from(self.input.len()).unwrap_or(usize::MAX);
            self.input
                .range(0, most)
                .map_err(|e| FormatError::io(self.name, &e))
        };
        self.whole
            .get_or_init(read)
            .as_deref()
            .map_err(Clone::clone)
    }

    /// The content as text; `None` when it is binary.
    pub fn text(&self) -> Option<&Text<'a>> {
        self.text
            .get_or_init(|| Text::detect(self.input, &self.head))
            .as_ref()
    }

    /// Result of a probe, computed once for each source because probing and reading both ask. One type only.
    pub(crate) fn keep<T: Any + Send + Sync>(&self, make: impl Fn() -> T) -> &T {
        let kept = self.kept.get_or_init(|| Box::new(make()));
        kept.downcast_ref().expect("one reader keeps its probe")
    }

    /// True where there is nothing but a byte order mark, white space and NULs in the beginning.
    pub(crate) fn is_blank(&self) -> bool {
        let body = [&b"\xEF\xBB\xBF"[..], b"\xFF\xFE", b"\xFE\xFF"]
            .iter()
            .find_map(|mark| self.head.strip_prefix(*mark))
            .unwrap_or(&self.head);
        body.iter().all(|b| b.is_ascii_whitespace() || *b == 0)
    }
}
