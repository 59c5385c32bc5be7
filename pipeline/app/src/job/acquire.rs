//! Acquire: every file of the job is read or rejected.

use crate::context::line;
use formats::{FormatReader, Limits, Reading};
use intake::JobEntry;
use model::case::{FileRecord, FileStatus};
use model::{Capture, JobFile, Problem, ScanRecord};
use settings::KnownNames;
use std::collections::BTreeMap;
use std::fs::File;
use std::io;

/// Readings of files that were made before they were hashed, by their path inside the job.
pub type Early = BTreeMap<String, Result<Reading, formats::FormatError>>;

/// Contents of the job's files.
#[derive(Debug, Default)]
pub struct Acquired {
    /// job.toml, where there is one that can be used.
    pub job: Option<JobFile>,
    /// Text of job.toml, for the lines of messages.
    pub job_text: String,
    /// Recordings, in the order of their names.
    pub captures: Vec<Capture>,
    /// Scan-tool texts, in the order of their names.
    pub scans: Vec<ScanRecord>,
    /// Every file and what became of it.
    pub files: Vec<FileRecord>,
    /// Oddities.
    pub problems: Vec<Problem>,
    /// True where a line of job.toml was left out or names what does not exist.
    pub job_errors: bool,
}

/// Every format: recordings, photos, scan-tool texts, bus logs.
pub fn readers() -> Vec<&'static dyn FormatReader> {
    let all = formats::READERS.iter().chain(&scan::READERS);
    all.copied().collect()
}

impl Acquired {
    /// Name of job.toml inside the job.
    pub fn job_file_name(&self) -> &str {
        let job = self.files.iter().find(|f| f.kind == "job");
        job.map_or("job.toml", |f| &f.path)
    }
}

/// Reads the recordings and scan texts among a job's files, opened, by their path inside the job.
pub fn early(files: &mut dyn Iterator<Item = (String, io::Result<File>)>, limits: Limits) -> Early {
    let readers = readers();
    let others = files.filter(|(path, _)| !is_job_file(path));
    others
        .map(|(path, file)| {
            let reading = read_file(file, &path, &readers, limits);
            (path, reading)
        })
        .collect()
}

fn read_file(
    opened: io::Result<File>,
    path: &str,
    readers: &[&dyn FormatReader],
    limits: Limits,
) -> Result<Reading, formats::FormatError> {
    let file = opened.map_err(|e| formats::FormatError::io(path, &e))?;
    formats::read_file(&file, path, readers, limits)
}

/// Reads all files, but for those that were read early. Nothing here fails: what cannot be read is rejected with its
/// reason. `known` are the names that job.toml may use.
pub fn acquire(
    entries: &[JobEntry],
    mut early: Early,
    known: &KnownNames,
    limits: Limits,
) -> Acquired {
    let mut acquired = Acquired::default();
    for entry in entries {
        let read = early.remove(&entry.path);
        let outcome = read_one(entry, read, known, limits, &mut acquired);
        let (kind, status, message) = match outcome {
            Ok((kind, read_as)) => (kind, FileStatus::Read, Some(read_as)),
            Err(message) => ("unknown", FileStatus::SetAside, Some(message)),
        };
        acquired.files.push(FileRecord {
            path: entry.path.clone(),
            sha256: entry.content.as_ref().ok().cloned(),
            kind: kind.into(),
            status,
            message,
        });
    }
    acquired
}

/// `job.toml` of a folder, `JOB_job.toml` among loose files.
pub fn is_job_file(path: &str) -> bool {
    path == "job.toml" || (path.ends_with("_job.toml") && !path.contains('/'))
}

fn read_one(
    entry: &JobEntry,
    early: Option<Result<Reading, formats::FormatError>>,
    known: &KnownNames,
    limits: Limits,
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
        acquired.job_errors = !parsed.errors.is_empty();
        acquired.problems.extend(parsed.errors);
        acquired.problems.extend(parsed.doubts);
        acquired.job = Some(parsed.value);
        acquired.job_text = text;
        return Ok(("job", "job file".into()));
    }
    let reading = early.unwrap_or_else(|| read_file(entry.open(), &entry.path, &readers(), limits));
    let reading = reading.map_err(|e| e.to_string())?;
    let read = (reading.kind(), reading.read_as().to_owned());
    match reading {
        Reading::Capture(c) => {
            acquired.problems.extend(c.problems.iter().cloned());
            acquired.captures.push(c);
        }
        Reading::Scan(s) => {
            acquired.problems.extend(s.problems.iter().cloned());
            acquired.scans.push(s);
        }
        Reading::Photo { .. } => {}
    }
    Ok(read)
}
