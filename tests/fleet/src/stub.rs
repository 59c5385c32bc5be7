//! Work that reads its files, takes some time, and says what it was done with.

use anyhow::{Context, Result};
use fleet::{Failure, FleetError, Task, Work, sha256};
use intake::{
    FileFact, IntakeError, JobSource, Output, PendingRow, Revision, RevisionCommit, Store,
};
use model::labour::{HandedRow, LabourLine, RowKind};
use std::time::{Duration, SystemTime};

/// The stub.
#[derive(Debug, Clone)]
pub struct Stub {
    /// Time that a job waits for something else.
    pub pause: Duration,
}

impl Work for Stub {
    fn run(&self, task: Task) -> Result<bool, Failure> {
        std::thread::sleep(self.pause);
        make(task).map_err(|e| match e.downcast_ref() {
            Some(IntakeError::Shared {
                is_transient: true, ..
            }) => Failure::Away(format!("{e:#}")),
            _ => Failure::Transient(format!("{e:#}")),
        })
    }
}

fn make(mut task: Task) -> Result<bool> {
    let content = std::fs::read(task.folder.join("input.txt")).context("input.txt")?;
    let text = String::from_utf8_lossy(&content);
    if text.starts_with("crash") {
        // As an abort of the typesetter would.
        std::process::abort();
    }
    let (shop, job) = (task.claim.shop.as_str(), task.claim.job.as_str());
    let latest = task.store.ledger().latest(job)?;
    let number = latest.as_ref().map_or(0, |r| r.number) + 1;
    let report = format!("{shop}/{job} revision {number} of {}", sha256(&content));
    let case = serde_json::json!({"shop": shop, "job": job}).to_string();
    let outputs = [
        Output::new("report.txt", report.into_bytes()),
        Output::new("case.json", case.into_bytes()),
    ];
    let revision = revision(job, number, &text);
    let rows = [row(job, number)];
    let commit = RevisionCommit {
        rows: &rows,
        base: latest.as_ref().map(|r| r.token.as_str()),
        ..commit(&revision)
    };
    Ok(task.store.publish_revision(&commit, &outputs)?)
}

/// A report of a job.
pub fn revision(job: &str, number: u32, sentence: &str) -> Revision {
    Revision {
        job: job.into(),
        number,
        token: Revision::new_token(),
        job_number: job.into(),
        fingerprint: sha256(sentence.as_bytes()),
        outcome: sha256(sentence.as_bytes()),
        verdict: "open".into(),
        sentence: sentence.into(),
        asks: Vec::new(),
        set_aside: 0,
        source: JobSource::Folder(job.into()),
        shop: None,
        made: SystemTime::UNIX_EPOCH,
        signature: None,
    }
}

/// A first report without rows and events.
pub fn commit(revision: &Revision) -> RevisionCommit<'_> {
    const NO_FILES: &[FileFact] = &[];
    RevisionCommit {
        revision,
        files: NO_FILES,
        rows: &[],
        texts: None,
        events: &[],
        answers: None,
        base: None,
        events_known: 0,
        is_due_again: false,
    }
}

/// A labour row of a job.
pub fn row(job: &str, revision: u32) -> HandedRow {
    HandedRow {
        row_id: format!("{job}-D-1"),
        revision,
        kind: RowKind::Bill,
        job: job.into(),
        opened: None,
        day: chrono::NaiveDate::default(),
        line: LabourLine::default(),
    }
}

/// Writes a batch of rows: shop, job and row, a line each.
///
/// # Errors
/// None.
pub fn write_batch(shop: &str, rows: &[PendingRow]) -> Result<Vec<u8>, FleetError> {
    let line = |r: &PendingRow| format!("{shop},{},{}\r\n", r.job, r.row.row_id);
    Ok(rows.iter().map(line).collect::<String>().into_bytes())
}

/// Puts a job of one file into a folder of files as the store would have it.
pub fn input_key(shop: &str, job: &str) -> object_store::path::Path {
    object_store::path::Path::from_iter(["inbox", shop, job, "input.txt"])
}
