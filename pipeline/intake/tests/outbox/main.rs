//! The folder of results: revisions in their places, and what goes wrong there.

mod crash;
mod shared;

use baybrief_intake::{
    IntakeError, JobNote, JobSource, JobState, Made, Outbox, Output, Revision, only_one,
};
use shared::{content, day, files, publish, revision};
use std::fs;
use std::time::UNIX_EPOCH;

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

/// A file where a job's folder belongs: said, the results are kept for later, and the other jobs go on.
#[test]
fn what_stands_in_one_jobs_way_keeps_no_other_from_its_results() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path();
    let mut outbox = Outbox::open(out, true).unwrap();
    outbox.on_step(|what| match what {
        "committed" => Err(IntakeError::OutGone(what.into())),
        _ => Ok(()),
    });
    publish(&mut outbox, &revision(1), &["report.pdf"], None).unwrap_err();
    fs::remove_dir(out.join("R-1")).unwrap();
    fs::write(out.join("R-1"), "a note").unwrap();

    let mut outbox = Outbox::open(out, true).unwrap();
    let lock = outbox.lock().unwrap();
    let stuck = outbox.recover(&lock).unwrap();
    assert_eq!(stuck.len(), 1);
    assert_eq!(stuck[0].0, "R-1");
    let other = Revision {
        job: "R-2".into(),
        ..revision(1)
    };
    let made = Made {
        revision: &other,
        files: &files(),
        rows: &[],
        day: day(),
    };
    let report = [Output::new("report.pdf", b"other".to_vec())];
    outbox.publish(&lock, &made, &report).unwrap();
    assert!(out.join("R-2/report.pdf").is_file());
    assert_eq!(fs::read(out.join("R-1")).unwrap(), b"a note");

    fs::remove_file(out.join("R-1")).unwrap();
    assert!(outbox.recover(&lock).unwrap().is_empty());
    let report = fs::read(out.join("R-1/rev-1/report.pdf")).unwrap();
    assert_eq!(report, content(&revision(1), "report.pdf"));

    // Found in the way before anything was kept: then there is no revision.
    fs::write(out.join("R-3"), "a note").unwrap();
    let third = Revision {
        job: "R-3".into(),
        ..revision(1)
    };
    let made = Made {
        revision: &third,
        ..made
    };
    outbox.publish(&lock, &made, &[]).unwrap_err();
    assert!(outbox.ledger().latest("R-3").unwrap().is_none());
}

#[test]
fn a_job_for_which_nothing_is_to_be_done_rests() {
    let dir = tempfile::tempdir().unwrap();
    let mut outbox = Outbox::open(dir.path(), true).unwrap();
    publish(&mut outbox, &revision(1), &["report.pdf"], None).unwrap();
    let waiting = |name: &str| JobNote {
        name: name.into(),
        source: JobSource::Folder(name.into()),
        arrived: UNIX_EPOCH,
        state: JobState::Waiting,
    };
    let ledger = outbox.ledger();
    let names = ["R-1", "R-2", "R-3"];
    ledger.note(&names.map(waiting)).unwrap();
    ledger.leave(&["R-1".into(), "R-2".into()]).unwrap();
    let left = ledger.overview().unwrap();
    let left: Vec<_> = left.iter().map(|j| (j.name.as_str(), &j.state)).collect();
    assert_eq!(
        left,
        [("R-1", &JobState::Done), ("R-3", &JobState::Waiting)]
    );
}
