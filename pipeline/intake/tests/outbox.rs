//! A publication that ends at any step, and what the next start makes of it.

use baybrief_intake::{
    FileFact, IntakeError, JobSource, Made, Outbox, Output, Revision, Signature, only_one,
};
use chrono::{NaiveDate, NaiveDateTime};
use model::LabourLine;
use model::labour::{HandedRow, RowKind};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::{Duration, UNIX_EPOCH};

fn revision(number: u32) -> Revision {
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

fn signed(number: u32) -> Revision {
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

fn files() -> Vec<FileFact> {
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

fn row(id: &str) -> HandedRow {
    HandedRow {
        row_id: id.into(),
        revision: 1,
        kind: RowKind::Bill,
        line: LabourLine::default(),
    }
}

fn day() -> NaiveDate {
    NaiveDateTime::default().date()
}

/// Publishes as the program does: recovers first, makes nothing that is there, hands its rows over.
fn publish(
    outbox: &mut Outbox,
    revision: &Revision,
    names: &[&str],
    row: Option<HandedRow>,
) -> Result<(), IntakeError> {
    let lock = outbox.lock()?;
    outbox.recover(&lock)?;
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

fn content(revision: &Revision, name: &str) -> Vec<u8> {
    let by = revision.signature.as_ref().map(|s| s.by.as_str());
    format!("{name} {} {by:?}", revision.number).into_bytes()
}

/// Ends the publication at one step, as a crash would.
fn crash_at(outbox: &mut Outbox, step: usize) {
    let mut left = step;
    outbox.on_step(move |what| match left {
        0 => Err(IntakeError::ReservedName(format!("crashed after: {what}"))),
        _ => {
            left -= 1;
            Ok(())
        }
    });
}

/// Everything that can be seen below a folder.
fn seen(folder: &Path) -> BTreeMap<String, Vec<u8>> {
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

const NAMES: [&str; 4] = ["case.json", "labour.csv", "problems.txt", "report.pdf"];

#[test]
fn a_crash_at_any_step_of_a_first_revision() {
    crash_at_every_step_of(0);
}

#[test]
fn a_crash_at_any_step_of_a_second_revision() {
    crash_at_every_step_of(1);
}

#[test]
fn a_crash_at_any_step_of_a_signature() {
    crash_at_every_step_of(2);
}

/// Two revisions and the signature of the second: nothing is lost and nothing doubled, wherever one of them ends.
fn crash_at_every_step_of(act: usize) {
    let acts: [(Revision, &[&str], Option<HandedRow>); 3] = [
        (revision(1), &NAMES, None),
        (
            revision(2),
            &["case.json", "labour.csv", "report.pdf"],
            None,
        ),
        (
            signed(2),
            &["case.json", "labour.csv", "report.pdf"],
            Some(row("line-1")),
        ),
    ];
    let mut crashes = 0;
    loop {
        let dir = tempfile::tempdir().unwrap();
        let out = dir.path();
        for (revision, names, row) in &acts[..act] {
            let mut outbox = Outbox::open(out, true).unwrap();
            publish(&mut outbox, revision, names, row.clone()).unwrap();
        }
        let (revision, names, row) = &acts[act];
        let mut outbox = Outbox::open(out, true).unwrap();
        let before = seen(out);
        crash_at(&mut outbox, crashes);
        let crashed = publish(&mut outbox, revision, names, row.clone()).is_err();
        drop(outbox);
        assert_nothing_half(&seen(out), &before, revision, names);
        // The next start, and the same job found again.
        let mut outbox = Outbox::open(out, true).unwrap();
        publish(&mut outbox, revision, names, row.clone()).unwrap();
        assert_published(out, revision, names, act);
        let latest = outbox.ledger().latest("R-1").unwrap();
        assert_eq!(latest.as_ref(), Some(revision));
        assert_eq!(outbox.ledger().files("R-1").unwrap(), files());
        let handed = outbox.ledger().handed("R-1").unwrap();
        assert_eq!(handed.len(), usize::from(act == 2), "after step {crashes}");
        assert!(outbox.ledger().unplaced().unwrap().is_empty());
        assert!(outbox.ledger().unwritten().unwrap().is_empty());
        if !crashed {
            break;
        }
        crashes += 1;
    }
    assert!(crashes > 8, "only {crashes} steps were tried");
}

/// What can be seen after a crash is the old content or the new one of each file.
fn assert_nothing_half(
    after: &BTreeMap<String, Vec<u8>>,
    before: &BTreeMap<String, Vec<u8>>,
    revision: &Revision,
    names: &[&str],
) {
    for (path, bytes) in after.iter().filter(|(p, _)| p.starts_with("R-1/")) {
        let name = path.rsplit('/').next().unwrap_or_default();
        let new = names.contains(&name) && *bytes == content(revision, name);
        let old = before.get(path) == Some(bytes);
        assert!(new || old, "{path}: {}", String::from_utf8_lossy(bytes));
    }
}

fn assert_published(out: &Path, revision: &Revision, names: &[&str], act: usize) {
    let mut expected = BTreeMap::new();
    for name in names {
        expected.insert(format!("R-1/{name}"), content(revision, name));
        let kept = format!("R-1/rev-{}/{name}", revision.number);
        expected.insert(kept, content(revision, name));
    }
    if revision.number == 2 {
        for name in NAMES {
            let kept = format!("R-1/rev-1/{name}");
            expected.insert(kept, content(&self::revision(1), name));
        }
    }
    if act == 2 {
        expected.insert("batch.txt".into(), b"line-1\n".to_vec());
    }
    assert_eq!(seen(out), expected);
    let left = fs::read_dir(out.join(".baybrief/staging")).map_or(0, Iterator::count);
    assert_eq!(left, 0, "the program's own folder is tidy");
}

#[test]
fn a_job_file_that_a_person_edits_is_not_overwritten() {
    let dir = tempfile::tempdir().unwrap();
    let mut outbox = Outbox::open(dir.path(), true).unwrap();
    publish(&mut outbox, &revision(1), &["job.toml"], None).unwrap();
    let shown = dir.path().join("R-1/job.toml");
    fs::write(&shown, "half answered").unwrap();
    publish(&mut outbox, &revision(2), &["job.toml"], None).unwrap();
    assert_eq!(fs::read_to_string(&shown).unwrap(), "half answered");
    publish(&mut outbox, &revision(3), &["report.pdf"], None).unwrap();
    assert_eq!(fs::read_to_string(&shown).unwrap(), "half answered");
    fs::copy(dir.path().join("R-1/rev-2/job.toml"), &shown).unwrap();
    publish(&mut outbox, &revision(4), &["report.pdf"], None).unwrap();
    assert!(!shown.exists(), "what nobody has touched is withdrawn");
}

#[test]
fn a_folder_of_results_that_vanished_is_not_made_anew() {
    let dir = tempfile::tempdir().unwrap();
    let (out, away) = (dir.path().join("out"), dir.path().join("away"));
    let mut outbox = Outbox::open(&out, true).unwrap();
    fs::rename(&out, &away).unwrap();
    let gone = publish(&mut outbox, &revision(1), &["report.pdf"], None);
    assert!(matches!(gone, Err(IntakeError::OutGone(_))), "{gone:?}");
    assert!(!out.exists());
    fs::rename(&away, &out).unwrap();
    publish(&mut outbox, &revision(1), &["report.pdf"], None).unwrap();
    assert!(out.join("R-1/report.pdf").is_file());
}

#[test]
fn only_one_process_watches_and_the_message_names_it() {
    let dir = tempfile::tempdir().unwrap();
    Outbox::open(dir.path(), true).unwrap();
    let held = only_one(dir.path()).unwrap();
    let taken = only_one(dir.path()).unwrap_err();
    let number = std::process::id().to_string();
    assert!(taken.to_string().contains(&number), "{taken}");
    drop(held);
    only_one(dir.path()).unwrap();
}

#[test]
fn what_is_no_ledger_is_said_and_kept() {
    let dir = tempfile::tempdir().unwrap();
    assert!(matches!(
        Outbox::open(dir.path(), false),
        Err(IntakeError::NoLedger(_))
    ));
    let path = dir.path().join(".baybrief/ledger.db");
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    let content = [b'x'; 5000];
    fs::write(&path, content).unwrap();
    let error = Outbox::open(dir.path(), true).unwrap_err();
    assert!(
        matches!(error, IntakeError::LedgerDamaged { .. }),
        "{error}"
    );
    assert!(error.to_string().contains("ledger.db"));
    assert_eq!(fs::read(&path).unwrap(), content);
}

#[test]
fn each_step_has_its_place() {
    let dir = tempfile::tempdir().unwrap();
    let mut outbox = Outbox::open(dir.path(), true).unwrap();
    let steps: Arc<Mutex<RefCell<Vec<String>>>> = Arc::default();
    let noted = steps.clone();
    outbox.on_step(move |what| {
        noted.lock().unwrap().borrow_mut().push(what.into());
        Ok(())
    });
    publish(
        &mut outbox,
        &revision(1),
        &["report.pdf"],
        Some(row("line-1")),
    )
    .unwrap();
    let steps = steps.lock().unwrap().borrow().clone();
    let order = [
        "staged",
        "committed",
        "kept",
        "shown a file",
        "placed",
        "batch written",
        "batch noted",
    ];
    let at = order.map(|o| steps.iter().position(|s| s == o));
    assert!(
        at.iter().all(Option::is_some) && at.is_sorted(),
        "{steps:?}"
    );
}
