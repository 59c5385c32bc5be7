//! Acquire: every file of the job is read or rejected.

use super::at_hand::{AtHand, Step};
use super::photos;
use crate::context::line;
use formats::{ErrorKind, FormatError, FormatReader, Limits, Reading};
use intake::{JobEntry, is_job_file};
use model::case::{FileRecord, FileStatus};
use model::{Capture, JobFile, Problem, ScanRecord};
use report::Photo;
use settings::KnownNames;
use std::collections::BTreeMap;
use std::fs::File;
use std::io;

/// Readings of files that were made before they were hashed, by their path inside the job.
pub type Early = BTreeMap<String, Result<Reading, FormatError>>;

/// Contents of the job's files.
#[derive(Debug, Default)]
pub struct Acquired {
    /// job.toml, where there is one: what is right in it, and answers that an earlier one gave to its wrong lines.
    pub job: Option<JobFile>,
    /// The same as a person typed it, whatever is derived from it later.
    pub typed: JobFile,
    /// Text of job.toml, for the lines of messages.
    pub job_text: String,
    /// Recordings, in the order of their names.
    pub captures: Vec<Capture>,
    /// Scan-tool texts, in the order of their names.
    pub scans: Vec<ScanRecord>,
    /// Every file and what became of it.
    pub files: Vec<FileRecord>,
    /// Photos for the customer's report.
    pub photos: Vec<Photo>,
    /// Oddities.
    pub problems: Vec<Problem>,
    /// Lines of job.toml that were left out or name what does not exist; a file that cannot be read at all.
    pub job_errors: Vec<Problem>,
    /// True where there is a recording or a scan text that can be read: something to report on.
    pub has_evidence: bool,
    /// Recordings that were rejected because the unit of their time is not known.
    pub untimed: Vec<String>,
}

/// Every format: recordings, photos, scan-tool texts, bus logs.
pub fn readers() -> Vec<&'static dyn FormatReader> {
    let all = formats::READERS.iter().chain(&scan::READERS);
    all.copied().collect()
}

impl Acquired {
    /// Reads the photos that job.toml names. One that cannot be shown is rejected like any other file.
    fn show_photos(&mut self, entries: &[JobEntry]) {
        let sections = self.job.as_ref().map_or(&[][..], |job| &job.photos);
        let photos = photos::read(sections, entries);
        self.photos = photos.ready;
        for (path, reason) in photos.rejected {
            for file in self.files.iter_mut().filter(|f| f.path == path) {
                file.status = FileStatus::SetAside;
                file.message = Some(reason.clone());
            }
        }
        for message in photos.wrong {
            let error = Problem {
                file: self.job_file_name().to_owned(),
                place: None,
                message,
            };
            self.problems.push(error.clone());
            self.job_errors.push(error);
        }
    }

    /// Name of job.toml inside the job.
    pub fn job_file_name(&self) -> &str {
        let job = self.files.iter().find(|f| f.kind == "job");
        job.map_or("job.toml", |f| &f.path)
    }
}

/// Reads the recordings and scan texts among a job's files, opened, by their path inside the job.
pub fn early(files: &mut dyn Iterator<Item = (String, io::Result<File>)>, limits: Limits) -> Early {
    let at_hand = AtHand::default();
    let mut reader = Reader::new(limits, &at_hand);
    let others = files.filter(|(path, _)| !is_job_file(path));
    others
        .map(|(path, file)| {
            let reading = reader.read(file, &path);
            (path, reading)
        })
        .collect()
}

/// Reads one file of a job after the other, within what all of them may take.
struct Reader<'h> {
    readers: Vec<&'static dyn FormatReader>,
    limits: Limits,
    at_hand: &'h AtHand,
    /// Room for samples that is left, bytes.
    left: u64,
}

impl Reader<'_> {
    fn new(limits: Limits, at_hand: &AtHand) -> Reader<'_> {
        Reader {
            readers: readers(),
            limits,
            at_hand,
            left: limits.samples,
        }
    }

    fn read(&mut self, opened: io::Result<File>, path: &str) -> Result<Reading, FormatError> {
        let file = opened.map_err(|e| FormatError::io(path, &e))?;
        let limits = Limits {
            samples: self.limits.samples.min(self.left),
        };
        let reading = formats::read_file(
            &file,
            path,
            &self.readers,
            limits,
            Some(self.at_hand.reached()),
        )
        .map_err(|e| {
            match e.kind == ErrorKind::TooLarge && self.left < self.limits.samples {
                true => self.too_many(path),
                false => e,
            }
        })?;
        self.count(&reading);
        Ok(reading)
    }

    fn too_many(&self, path: &str) -> FormatError {
        let most = self.limits.samples >> 20;
        FormatError::new(
            ErrorKind::TooLarge,
            path,
            None,
            &format!(
                "with the recordings before it the job takes more than {most} MiB, the most that is read"
            ),
            "make a job of its own of it, export only the parts that matter, or free space on the disk for temporary files",
        )
    }

    /// Counts what was read.
    fn count(&mut self, reading: &Reading) {
        if let Reading::Capture(capture) = reading {
            self.left = self.left.saturating_sub(capture.bytes());
        }
    }
}

/// Reads all files, but for those that were read early. Nothing here fails: what cannot be read is rejected with its
/// reason. `known` are the names that job.toml may use, `before` is the file as it was last right, `at_hand` is told what
/// is read.
pub fn acquire(
    entries: &[JobEntry],
    mut early: Early,
    known: &KnownNames,
    before: Option<&JobFile>,
    limits: Limits,
    at_hand: &AtHand,
) -> Acquired {
    let mut acquired = Acquired::default();
    let mut reader = Reader::new(limits, at_hand);
    early.values().flatten().for_each(|r| reader.count(r));
    let (mut done, all) = (0, entries.iter().map(|e| e.stamp.size).sum());
    for entry in entries {
        at_hand.note(Step::Reading {
            file: entry.path.clone(),
            before: done,
            all,
        });
        done += entry.stamp.size;
        let read = early.remove(&entry.path);
        let outcome = read_one(entry, read, known, &mut reader, &mut acquired);
        let (kind, status, message) = match outcome {
            Ok((kind, read_as)) => (kind, FileStatus::Read, Some(read_as)),
            Err(message) => {
                if is_job_file(&entry.path) {
                    acquired.job_errors.push(Problem {
                        file: entry.path.clone(),
                        place: None,
                        message: message.clone(),
                    });
                }
                ("unknown", FileStatus::SetAside, Some(message))
            }
        };
        acquired.files.push(FileRecord {
            path: entry.path.clone(),
            sha256: entry.content.as_ref().ok().cloned(),
            kind: kind.into(),
            status,
            message,
        });
    }
    at_hand.note(Step::Begun);
    acquired.show_photos(entries);
    if !acquired.job_errors.is_empty()
        && let Some(before) = before
    {
        let now = acquired.job.take().unwrap_or_default();
        acquired.job = Some(settings::keep_answers(now, before));
        acquired.problems.push(Problem {
            file: acquired.job_errors[0].file.clone(),
            place: None,
            message: "Where its lines are wrong, the file counts as it was last right.".into(),
        });
    }
    acquired.typed = acquired.job.clone().unwrap_or_default();
    acquired.has_evidence = !acquired.captures.is_empty() || !acquired.scans.is_empty();
    if !acquired.has_evidence {
        acquired.problems.push(Problem {
            file: "report.pdf".into(),
            place: None,
            message: "There is none: the job has no recording and no scan-tool text that can be read. Put one of them \
                      into its folder; the job then goes on by itself."
                .into(),
        });
    }
    acquired
}

/// Message for job.toml as it was read; errors stand on the file's own line.
fn read_as(errors: &[Problem]) -> String {
    match errors {
        [] => "job file".into(),
        [only] => format!("job file, but for what is wrong in it: {}", line(only)),
        [first, rest @ ..] => format!(
            "job file, but for what is wrong in it: {} (and {} more, see problems.txt)",
            line(first),
            rest.len()
        ),
    }
}

fn read_one(
    entry: &JobEntry,
    early: Option<Result<Reading, FormatError>>,
    known: &KnownNames,
    reader: &mut Reader<'_>,
    acquired: &mut Acquired,
) -> Result<(&'static str, String), String> {
    entry.content.as_ref().map_err(line)?;
    if is_job_file(&entry.path) {
        if acquired.job.is_some() {
            return Err(format!(
                "{}: a second job file; put both into one",
                entry.path
            ));
        }
        let text = settings::read_open(entry.open(), &entry.path).map_err(|e| line(&e))?;
        let parsed = settings::read_job_file(&text, &entry.path, known);
        let read_as = read_as(&parsed.errors);
        acquired.problems.extend(parsed.errors.iter().cloned());
        acquired.problems.extend(parsed.doubts);
        acquired.job_errors.extend(parsed.errors);
        acquired.job = Some(parsed.value);
        acquired.job_text = text;
        return Ok(("job", read_as));
    }
    let reading = early.unwrap_or_else(|| reader.read(entry.open(), &entry.path));
    let reading = reading.map_err(|e| e.to_string())?;
    let read = (reading.kind(), reading.read_as().to_owned());
    match reading {
        Reading::Capture(c) => acquired.captures.push(c),
        Reading::Scan(s) => acquired.scans.push(s),
        Reading::Photo { .. } => {}
    }
    Ok(read)
}
