//! A revision with everything that belongs to it, and its publication as the program does it.

use baybrief_intake::{
    FileFact, IntakeError, JobSource, Made, Outbox, Output, Revision, Signature,
};
use chrono::{NaiveDate, NaiveDateTime};
use model::LabourLine;
use model::labour::{HandedRow, RowKind};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::time::{Duration, UNIX_EPOCH};

pub fn revision(number: u32) -> Revision {
    Revision {
        job: "R-1".into(),
        number,
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
        line: LabourLine::default(),
    }
}

pub fn day() -> NaiveDate {
    NaiveDateTime::default().date()
}

/// Publishes as the program does: recovers first, makes nothing that is there, hands its rows over.
pub fn publish(
    outbox: &mut Outbox,
    revision: &Revision,
    names: &[&str],
    row: Option<HandedRow>,
) -> Result<(), IntakeError> {
    let lock = outbox.lock()?;
    assert!(outbox.recover(&lock)?.is_empty());
    let there = outbox.ledger().latest("R-1")?;
    let is_there =
        there.is_some_and(|r| (r.number, &r.signature) == (revision.number, &revision.signature));
    if !is_there {
        let handed = outbox.ledger().handed("R-1")?;
        let rows: Vec<HandedRow> = row
            .into_iter()
            .filter(|row| handed.iter().all(|h| h.row_id != row.row_id))
            .collect();
        let outputs: Vec<Output> = names
            .iter()
            .map(|name| Output {
                name: name.to_string(),
                bytes: content(revision, name),
            })
            .collect();
        let made = Made {
            revision,
            files: &files(),
            rows: &rows,
            day: day(),
        };
        outbox.publish(&lock, &made, &outputs)?;
    }
    outbox.hand_over(&lock, |out, rows| {
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
