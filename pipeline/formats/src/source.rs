//! A file to be read: its beginning at hand, the rest when it is asked for.

use crate::input::Input;
use crate::text::Text;
use crate::{ErrorKind, FormatError};
use std::any::Any;
use std::borrow::Cow;
use std::fs::File;
use std::sync::OnceLock;
use std::sync::atomic::AtomicU64;

/// Part of a file that every reader may look at, bytes.
pub(crate) const HEAD: usize = 4 << 20;

/// Bounds of what reading one file may take.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Most that the samples and the instants of one recording take, bytes. A larger one is refused.
    pub samples: u64,
}

impl Default for Limits {
    /// 1 GiB: 268 million values.
    fn default() -> Self {
        Limits { samples: 1 << 30 }
    }
}

/// Most channels of a recording; no recorder has as many.
pub(crate) const MOST_CHANNELS: usize = 1024;
/// A packed file may unfold to so many times its size, and to as much as small files may in any case.
const MOST_UNFOLDED: u64 = 100;
const LEAST_UNFOLDED: u64 = 64 << 20;

/// Message on a file that ends before what its header promises, bytes.
pub(crate) fn short(promised: u64, there: u64) -> String {
    format!("it promises {promised} bytes and has {there}")
}

/// A file to be read: its name inside the job folder and its content.
pub struct Source<'a> {
    /// The name for messages.
    pub name: &'a str,
    pub(crate) input: Input<'a>,
    limits: Limits,
    head: Cow<'a, [u8]>,
    whole: OnceLock<Result<Vec<u8>, FormatError>>,
    text: OnceLock<Option<Text<'a>>>,
    /// Result of a probe that the reading needs again.
    kept: OnceLock<Box<dyn Any + Send + Sync>>,
}

impl<'a> Source<'a> {
    /// A source over bytes that are already in memory.
    pub fn new(name: &'a str, bytes: &'a [u8]) -> Self {
        let head = Cow::Borrowed(&bytes[..bytes.len().min(HEAD)]);
        Source::over(name, Input::Memory(bytes), head, Limits::default())
    }

    /// A source over an open file of `len` bytes; reads its first 4 MiB. `reached` is kept at the end of what was read.
    ///
    /// # Errors
    /// When those cannot be read.
    pub fn open(
        name: &'a str,
        file: &'a File,
        len: u64,
        limits: Limits,
        reached: Option<&'a AtomicU64>,
    ) -> Result<Self, FormatError> {
        let input = Input::File(file, len, reached);
        let head = input
            .range(0, HEAD)
            .map_err(|e| FormatError::io(name, &e))?;
        Ok(Source::over(name, input, Cow::Owned(head), limits))
    }

    fn over(name: &'a str, input: Input<'a>, head: Cow<'a, [u8]>, limits: Limits) -> Self {
        Source {
            name,
            input,
            limits,
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
    /// When it cannot be read, or is larger than its samples may be.
    pub fn bytes(&self) -> Result<&[u8], FormatError> {
        if let Input::Memory(bytes) = self.input {
            return Ok(bytes);
        }
        if self.input.len() == self.head.len() as u64 {
            return Ok(&self.head);
        }
        let read = || {
            self.bounded(self.input.len())?;
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

    /// Refuses samples that take more memory than they may, or than the system gives, bytes.
    ///
    /// # Errors
    /// Samples that do.
    pub(crate) fn bounded(&self, bytes: u64) -> Result<(), FormatError> {
        if bytes > self.limits.samples {
            return Err(self.too_large(Some(bytes)));
        }
        // Asked for and given back: an allocation that fails later would end the process with all its jobs.
        let wanted = usize::try_from(bytes).unwrap_or(usize::MAX);
        let asked = Vec::<u8>::new().try_reserve_exact(wanted);
        asked.map_err(|_| self.not_given())
    }

    /// Error for memory that the system does not give.
    pub(crate) fn not_given(&self) -> FormatError {
        FormatError::new(
            ErrorKind::TooLarge,
            self.name,
            None,
            "the system does not give the memory that the recording takes",
            "end other programs, or export the part of the recording that matters",
        )
    }

    /// Error for samples that take more memory than they may; `bytes` where it is known how much.
    pub(crate) fn too_large(&self, bytes: Option<u64>) -> FormatError {
        let mib = |bytes: u64| bytes.div_ceil(1 << 20);
        let most = mib(self.limits.samples);
        FormatError::new(
            ErrorKind::TooLarge,
            self.name,
            None,
            &match bytes {
                Some(bytes) => format!(
                    "the recording takes {} MiB, and at most {most} MiB are read",
                    mib(bytes)
                ),
                None => format!("the recording takes more than {most} MiB, the most that is read"),
            },
            "export the part of the recording that matters, or at a lower sample rate, or free space on the disk for temporary files",
        )
    }

    /// Most rows of a table, each of so many bytes of memory.
    pub(crate) fn most_rows(&self, row_bytes: u64) -> usize {
        usize::try_from(self.limits.samples / row_bytes.max(1)).unwrap_or(usize::MAX)
    }

    /// Bytes that the file may unfold to while it is read: a bound by its own size.
    pub(crate) fn most_unfolded(&self) -> u64 {
        let by_size = self.input.len().saturating_mul(MOST_UNFOLDED);
        by_size.max(LEAST_UNFOLDED).min(self.limits.samples)
    }

    /// Refuses more channels than any recorder has.
    ///
    /// # Errors
    /// More channels than that.
    pub(crate) fn few_channels(&self, channels: usize) -> Result<(), FormatError> {
        if channels <= MOST_CHANNELS {
            return Ok(());
        }
        Err(FormatError::new(
            ErrorKind::TooLarge,
            self.name,
            None,
            &format!("the recording has {channels} channels, and at most {MOST_CHANNELS} are read"),
            "export the channels that matter",
        ))
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

/// The bytes of a number that begins at byte `at`; `None` beyond the end.
pub(crate) fn bytes_at<const N: usize>(bytes: &[u8], at: usize) -> Option<[u8; N]> {
    bytes.get(at..at.checked_add(N)?)?.try_into().ok()
}
