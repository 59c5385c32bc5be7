//! A revision with everything that belongs to it, and its publication as the program does it.

use baybrief_intake::{
    FileFact, IntakeError, JobSource, Output, ResultStore, Revision, RevisionCommit, Signature,
};
use chrono::{NaiveDate, NaiveDateTime};
use model::LabourLine;
use model::labour::{ConsentMethod, HandedRow, RowKind, SumBasis, SumLimit, WorkAction, WorkEvent};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::time::{Duration, UNIX_EPOCH};

pub fn revision(number: u32) -> Revision {
    Revision {
        job: "R-1".into(),
        number,
        token: format!("token {number}"),
        job_number: "R-1".into(),
        fingerprint: format!("content {number}"),
        outcome: format!("outcome {number}"),
        verdict: "open".into(),
        sentence: "open: more is asked for".into(),
        asks: vec!["record it with the engine running".into()],
        set_aside: 1,
        source: JobSource::Folder("inbox/R-1".into()),
        shop: Some("shop.toml".into()),
        made: UNIX_EPOCH + Duration::from_secs(1_700_000_000),
        signature: None,
    }
}

pub fn signed(number: u32) -> Revision {
    let at = NaiveDate::from_ymd_opt(2026, 3, 2).and_then(|d| d.and_hms_opt(14, 5, 0));
    Revision {
        signature: Some(Signature {
            by: "A. Reviewer".into(),
            at: at.unwrap_or_default(),
            note: Some("seen on the bench".into()),
        }),
        token: format!("token {number}, signed"),
        ..revision(number)
    }
}

pub fn files() -> Vec<FileFact> {
    let file = |path: &str, content| FileFact {
        path: path.into(),
        size: 3,
        modified: Some(1),
        changed: None,
        content,
    };
    vec![
        file("a.csv", Ok("digest".into())),
        file("b.csv", Err("Cannot be read.".into())),
    ]
}

pub fn row(id: &str) -> HandedRow {
    HandedRow {
        row_id: id.into(),
        revision: 1,
        kind: RowKind::Bill,
        job: "R-1".into(),
        opened: None,
        day: NaiveDate::default(),
        line: LabourLine::default(),
    }
}

/// Publishes as the program does: recovers first, and hands its rows over.
pub fn publish(
    store: &mut ResultStore,
    revision: &Revision,
    names: &[&str],
    row: Option<HandedRow>,
) -> Result<(), IntakeError> {
    let lock = store.lock()?;
    assert!(store.recover(&lock)?.is_empty());
    let latest = store.ledger().latest("R-1")?;
    let base = latest.map(|r| r.token);
    let handed = store.ledger().handed_rows("R-1")?;
    let rows: Vec<HandedRow> = row
        .into_iter()
        .filter(|row| handed.iter().all(|h| h.row_id != row.row_id))
        .collect();
    let outputs: Vec<Output> = names
        .iter()
        .map(|name| Output::new(name, content(revision, name)))
        .collect();
    let commit = RevisionCommit {
        rows: &rows,
        base: base.as_deref(),
        ..commit(revision)
    };
    assert!(store.publish(&lock, &commit, &outputs)?);
    store.hand_over(&lock, |out, rows| {
        // A batch file that is appended to, and leaves out what it has.
        let path = out.join("batch.txt");
        let mut text = fs::read_to_string(&path).unwrap_or_default();
        for row in rows {
            if !text.lines().any(|l| l == row.row.row_id) {
                text.push_str(&format!("{}\n", row.row.row_id));
            }
        }
        baybrief_intake::write_atomic(&path, text.as_bytes())
    })
}

/// A first revision without rows and events.
pub fn commit(revision: &Revision) -> RevisionCommit<'_> {
    RevisionCommit {
        revision,
        files: FILES.get_or_init(files),
        rows: &[],
        texts: None,
        events: &[],
        base: None,
        answers: None,
        events_known: 0,
        is_due_again: false,
    }
}

static FILES: std::sync::OnceLock<Vec<FileFact>> = std::sync::OnceLock::new();

/// An authorisation of no line.
pub fn authorisation() -> WorkEvent {
    WorkEvent {
        at: NaiveDateTime::default(),
        by: Some("C. Invented".into()),
        action: WorkAction::Authorised {
            how: ConsentMethod::Telephone,
            limit: SumLimit {
                sum: "100.00".parse().unwrap(),
                basis: SumBasis::Gross,
            },
        },
        recorded_by: None,
        note: None,
        lines: vec![LabourLine::default()],
    }
}

pub fn content(revision: &Revision, name: &str) -> Vec<u8> {
    let by = revision.signature.as_ref().map(|s| s.by.as_str());
    format!("{name} {} {by:?}", revision.number).into_bytes()
}

/// Everything that can be seen below a folder.
pub fn seen(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    for entry in fs::read_dir(folder).unwrap().flatten() {
        let name = entry.file_name().into_string().unwrap();
        if entry.path().is_dir() && name != ".baybrief" {
            let below = seen(&entry.path()).into_iter();
            all.extend(below.map(|(n, bytes)| (format!("{name}/{n}"), bytes)));
        } else if entry.path().is_file() {
            all.insert(name, fs::read(entry.path()).unwrap());
        }
    }
    all
}

pub const NAMES: [&str; 4] = ["case.json", "labour.csv", "problems.txt", "report.pdf"];
