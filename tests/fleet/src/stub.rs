//! Work that reads its files, takes some time, and says what it was done with.

use anyhow::{Context, Result};
use fleet::{Failure, Made, Task, Work, sha256};
use model::labour::{HandedRow, LabourLine, RowKind};

use std::time::Duration;

/// The stub.
#[derive(Debug, Clone)]
pub struct Stub {
    /// Time that a job waits for something else.
    pub pause: Duration,
}

impl Work for Stub {
    fn run(&self, task: &Task) -> Result<Made, Failure> {
        std::thread::sleep(self.pause);
        make(task).map_err(|e| Failure::Transient(format!("{e:#}")))
    }
}

fn make(task: &Task) -> Result<Made> {
    let content = std::fs::read(task.folder.join("input.txt")).context("input.txt")?;
    let text = String::from_utf8_lossy(&content);
    if text.starts_with("crash") {
        // As an abort of the typesetter would.
        std::process::abort();
    }
    let (shop, job) = (&task.claim.shop, &task.claim.job);
    let report = format!(
        "{shop}/{job} revision {} of {}",
        task.number,
        sha256(&content)
    );
    Ok(Made {
        job_number: job.clone(),
        facts: serde_json::json!({"verdict": "open", "sentence": text}),
        outputs: vec![
            ("report.txt".into(), report.clone().into_bytes()),
            (
                "case.json".into(),
                serde_json::json!({"shop": shop, "job": job})
                    .to_string()
                    .into_bytes(),
            ),
        ],
        rows: vec![row(job, task.number)?],
        events: Vec::new(),
    })
}

fn row(job: &str, revision: u32) -> Result<HandedRow> {
    Ok(HandedRow {
        row_id: format!("{job}-D-1"),
        revision,
        kind: RowKind::Bill,
        job: job.into(),
        opened: None,
        day: chrono::NaiveDate::from_ymd_opt(2026, 3, 2).context("a day")?,
        line: LabourLine::default(),
    })
}

/// Writes a batch of rows: shop, job and row, a line each.
pub fn write_batch(shop: &str, rows: &[HandedRow]) -> Vec<u8> {
    let lines = rows
        .iter()
        .map(|r| format!("{shop},{},{}\r\n", r.job, r.row_id));
    lines.collect::<String>().into_bytes()
}

/// Puts a job of one file into a folder of files as the store would have it.
pub fn input_key(shop: &str, job: &str) -> object_store::path::Path {
    object_store::path::Path::from_iter(["inbox", shop, job, "input.txt"])
}
