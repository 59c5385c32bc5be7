//! The folder of results: revisions in their places, and what goes wrong there.

mod crash;
mod shared;

use baybrief_intake::{
    IntakeError, JobGroup, JobNote, JobSource, JobState, Output, ResultStore, Revision,
    RevisionCommit, only_one,
};
use shared::{commit, content, publish, revision, row, seen, signed};
use std::fs;
use std::time::UNIX_EPOCH;

#[test]
fn a_job_file_that_a_person_edits_is_not_overwritten() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = ResultStore::open(dir.path(), true).unwrap();
    publish(&mut store, &revision(1), &["job.toml"], None).unwrap();
    let shown = dir.path().join("R-1/job.toml");
    fs::write(&shown, "half answered").unwrap();
    publish(&mut store, &revision(2), &["job.toml"], None).unwrap();
    assert_eq!(fs::read_to_string(&shown).unwrap(), "half answered");
    publish(&mut store, &revision(3), &["report.pdf"], None).unwrap();
    assert_eq!(fs::read_to_string(&shown).unwrap(), "half answered");
    fs::copy(dir.path().join("R-1/rev-2/job.toml"), &shown).unwrap();
    publish(&mut store, &revision(4), &["report.pdf"], None).unwrap();
    assert!(!shown.exists(), "what nobody has touched is withdrawn");
}

#[test]
fn a_folder_of_results_that_vanished_is_not_made_anew() {
    let dir = tempfile::tempdir().unwrap();
    let (out, away) = (dir.path().join("out"), dir.path().join("away"));
    let mut store = ResultStore::open(&out, true).unwrap();
    fs::rename(&out, &away).unwrap();
    let gone = publish(&mut store, &revision(1), &["report.pdf"], None);
    assert!(matches!(gone, Err(IntakeError::OutGone(_))), "{gone:?}");
    assert!(!out.exists());
    fs::rename(&away, &out).unwrap();
    publish(&mut store, &revision(1), &["report.pdf"], None).unwrap();
    assert!(out.join("R-1/report.pdf").is_file());
}

#[test]
fn only_one_process_watches_and_the_message_names_it() {
    let dir = tempfile::tempdir().unwrap();
    ResultStore::open(dir.path(), true).unwrap();
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
        ResultStore::open(dir.path(), false),
        Err(IntakeError::NoLedger(_))
    ));
    let path = dir.path().join(".baybrief/ledger.db");
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    let content = [b'x'; 5000];
    fs::write(&path, content).unwrap();
    let error = ResultStore::open(dir.path(), true).unwrap_err();
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
    let mut store = ResultStore::open(out, true).unwrap();
    store.on_step(|what| match what {
        "committed" => Err(IntakeError::OutGone(what.into())),
        _ => Ok(()),
    });
    publish(&mut store, &revision(1), &["report.pdf"], None).unwrap_err();
    fs::remove_dir(out.join("R-1")).unwrap();
    fs::write(out.join("R-1"), "a note").unwrap();

    let mut store = ResultStore::open(out, true).unwrap();
    let lock = store.lock().unwrap();
    let stuck = store.recover(&lock).unwrap();
    assert_eq!(stuck.len(), 1);
    assert_eq!(stuck[0].0, "R-1");
    let other = of_job("R-2");
    let report = [Output::new("report.pdf", b"other".to_vec())];
    assert!(store.publish(&lock, &commit(&other), &report).unwrap());
    assert!(out.join("R-2/report.pdf").is_file());
    assert_eq!(fs::read(out.join("R-1")).unwrap(), b"a note");

    fs::remove_file(out.join("R-1")).unwrap();
    assert!(store.recover(&lock).unwrap().is_empty());
    let report = fs::read(out.join("R-1/rev-1/report.pdf")).unwrap();
    assert_eq!(report, content(&revision(1), "report.pdf"));

    // Found in the way before anything was kept: then there is no revision.
    fs::write(out.join("R-3"), "a note").unwrap();
    let third = of_job("R-3");
    store.publish(&lock, &commit(&third), &[]).unwrap_err();
    assert!(store.ledger().latest("R-3").unwrap().is_none());
}

fn of_job(job: &str) -> Revision {
    Revision {
        job: job.into(),
        token: format!("token of {job}"),
        ..revision(1)
    }
}

#[test]
fn a_job_for_which_nothing_is_to_be_done_rests() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = ResultStore::open(dir.path(), true).unwrap();
    publish(&mut store, &revision(1), &["report.pdf"], None).unwrap();
    let waiting = |name: &str| JobNote {
        name: name.into(),
        source: JobSource::Folder(name.into()),
        arrived: UNIX_EPOCH,
        state: JobState::Waiting,
        fingerprint: None,
    };
    let ledger = store.ledger();
    let names = ["R-1", "R-2", "R-3"];
    ledger.note(&names.map(waiting)).unwrap();
    ledger.release(&["R-1".into(), "R-2".into()]).unwrap();
    let mut jobs = JobGroup::ALL
        .map(|g| ledger.jobs_in(g, 10).unwrap())
        .concat();
    jobs.sort_by(|a, b| a.name.cmp(&b.name));
    let left: Vec<_> = jobs.iter().map(|j| (j.name.as_str(), &j.state)).collect();
    assert_eq!(
        left,
        [("R-1", &JobState::Done), ("R-3", &JobState::Waiting)]
    );
}

/// Removed by a person between the commit and the last step: the job is done again, and nobody waits for it.
#[test]
fn results_that_are_lost_are_made_again_and_hold_nobody_up() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path();
    let mut store = ResultStore::open(out, true).unwrap();
    store.on_step(|what| match what {
        "committed" => Err(IntakeError::OutGone(what.into())),
        _ => Ok(()),
    });
    publish(
        &mut store,
        &revision(1),
        &["report.pdf"],
        Some(row("line-1")),
    )
    .unwrap_err();
    fs::remove_dir_all(out.join(".baybrief/staging")).unwrap();
    let mut store = ResultStore::open(out, true).unwrap();
    let lock = store.lock().unwrap();
    let stuck = store.recover(&lock).unwrap();
    assert!(
        matches!(&stuck[..], [(job, IntakeError::ResultsLost { .. })] if job == "R-1"),
        "{stuck:?}"
    );
    assert!(store.recover(&lock).unwrap().is_empty(), "said once");
    assert!(store.publish(&lock, &commit(&of_job("R-2")), &[]).unwrap());
    // It is due again: neither its fingerprint nor its stamps are known, but its row is.
    let latest = store.ledger().latest("R-1").unwrap().unwrap();
    assert_eq!((latest.number, latest.fingerprint.as_str()), (1, ""));
    assert!(store.ledger().stamps(&["R-1"]).unwrap().is_empty());
    assert_eq!(store.ledger().handed_rows("R-1").unwrap().len(), 1);
    assert_eq!(store.ledger().pending_rows().unwrap().len(), 1);
}

/// What was last right of job.toml stays until something right replaces it; refusals are those of the last look.
#[test]
fn answers_refusals_and_the_last_signature_are_remembered() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = ResultStore::open(dir.path(), true).unwrap();
    assert_eq!(store.ledger().answers("R-1").unwrap(), None);
    let mut publish = |revision: &Revision, answers, base| {
        let lock = store.lock().unwrap();
        let commit = RevisionCommit {
            answers,
            base,
            ..commit(revision)
        };
        assert!(store.publish(&lock, &commit, &[]).unwrap());
    };
    let (first, second) = (signed(1), revision(2));
    publish(&first, Some("[job]"), None);
    publish(&second, None, Some(&first.token));
    let ledger = store.ledger();
    assert_eq!(ledger.answers("R-1").unwrap().as_deref(), Some("[job]"));
    assert_eq!(ledger.last_signature("R-1").unwrap(), first.signature);
    assert_eq!(ledger.last_signature("R-2").unwrap(), None);
    for refusals in [&["b", "a"][..], &["c"], &[]] {
        let mut refusals: Vec<String> = refusals.iter().map(|r| (*r).into()).collect();
        ledger.note_refusals(&refusals).unwrap();
        refusals.sort();
        assert_eq!(ledger.refusals().unwrap(), refusals);
    }
}

#[test]
fn results_are_kept_once_and_read_only_but_for_what_a_person_fills_in() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path();
    let mut store = ResultStore::open(out, true).unwrap();
    publish(&mut store, &revision(1), &["report.pdf", "job.toml"], None).unwrap();
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        let file = |path: &str| fs::metadata(out.join(path)).unwrap();
        let (shown, kept) = (file("R-1/report.pdf"), file("R-1/rev-1/report.pdf"));
        assert_eq!((shown.ino(), shown.nlink()), (kept.ino(), 2));
        assert!(kept.permissions().readonly());
        let (shown, kept) = (file("R-1/job.toml"), file("R-1/rev-1/job.toml"));
        assert_ne!(shown.ino(), kept.ino());
        assert!(!shown.permissions().readonly());
    }
    // A new revision takes the name over and leaves the old content alone.
    publish(&mut store, &revision(2), &["report.pdf"], None).unwrap();
    assert_eq!(
        fs::read(out.join("R-1/report.pdf")).unwrap(),
        content(&revision(2), "report.pdf")
    );
    assert_eq!(
        fs::read(out.join("R-1/rev-1/report.pdf")).unwrap(),
        content(&revision(1), "report.pdf")
    );
    publish(&mut store, &signed(2), &["report.pdf"], None).unwrap();
    assert_eq!(
        fs::read(out.join("R-1/report.pdf")).unwrap(),
        content(&signed(2), "report.pdf")
    );
}

#[test]
fn a_commit_on_top_of_something_else_is_not_published() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path();
    let mut store = ResultStore::open(out, true).unwrap();
    publish(&mut store, &revision(1), &["report.pdf"], None).unwrap();
    let before = seen(out);
    let lock = store.lock().unwrap();
    let second = revision(2);
    let report = [Output::new("report.pdf", b"late".to_vec())];
    // Made from nothing, or before an authorisation was recorded.
    assert!(!store.publish(&lock, &commit(&second), &report).unwrap());
    let event = shared::authorisation();
    assert!(store.ledger().record("R-1", &event, 0).unwrap());
    assert!(
        !store.ledger().record("R-1", &event, 0).unwrap(),
        "somebody else recorded something"
    );
    let base = RevisionCommit {
        base: Some("token 1"),
        ..commit(&second)
    };
    assert!(!store.publish(&lock, &base, &report).unwrap());
    assert_eq!(seen(out), before);
    let current = RevisionCommit {
        answers: None,
        events_known: 1,
        ..base
    };
    assert!(store.publish(&lock, &current, &report).unwrap());
    // Asked again by the same publication, as after an error that came late.
    assert!(store.publish(&lock, &current, &report).unwrap());
    assert_eq!(store.ledger().work_events("R-1").unwrap(), [event]);
}

#[test]
fn a_number_that_two_jobs_claim_hands_nothing_over() {
    let dir = tempfile::tempdir().unwrap();
    let (out, inbox) = (dir.path().join("out"), dir.path().join("inbox"));
    let mut store = ResultStore::open(&out, true).unwrap();
    let lock = store.lock().unwrap();
    let job = |name: &str, number: &str| {
        fs::create_dir_all(inbox.join(name)).unwrap();
        Revision {
            source: JobSource::Folder(inbox.join(name)),
            job_number: number.into(),
            ..of_job(name)
        }
    };
    let first = job("R-1", "R-7");
    assert!(store.publish(&lock, &commit(&first), &[]).unwrap());
    // Billing systems do not tell these apart.
    let second = job("R-2", " r-7 ");
    assert_eq!(store.number_conflicts(" r-7 ", "R-2").unwrap(), ["R-1"]);
    let rows = [row("line-1")];
    let with_rows = RevisionCommit {
        rows: &rows,
        ..commit(&second)
    };
    assert!(
        !store.publish(&lock, &with_rows, &[]).unwrap(),
        "to be made without rows"
    );
    assert!(
        store.publish(&lock, &commit(&second), &[]).unwrap(),
        "the report is made"
    );
    assert_eq!(store.number_conflicts("R-7", "R-1").unwrap(), ["R-2"]);
    // A folder that was renamed claims nothing any more, unless something of it is bound.
    fs::remove_dir(inbox.join("R-2")).unwrap();
    assert!(store.number_conflicts("R-7", "R-1").unwrap().is_empty());
    let ledger = store.ledger();
    assert!(ledger.record("R-2", &shared::authorisation(), 0).unwrap());
    assert_eq!(store.number_conflicts("R-7", "R-1").unwrap(), ["R-2"]);
}

#[test]
fn lists_are_by_group_newest_first_and_as_long_as_wanted() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = ResultStore::open(dir.path(), true).unwrap();
    let lock = store.lock().unwrap();
    for (i, (asks, signature)) in [(true, false), (false, false), (false, false), (false, true)]
        .into_iter()
        .enumerate()
    {
        let revision = Revision {
            asks: if asks {
                vec!["more".into()]
            } else {
                Vec::new()
            },
            set_aside: 0,
            signature: signature.then(|| signed(1).signature).flatten(),
            ..of_job(&format!("R-{i}"))
        };
        assert!(store.publish(&lock, &commit(&revision), &[]).unwrap());
    }
    let ledger = store.ledger();
    let sizes: Vec<_> = ledger.group_sizes().unwrap().into_iter().collect();
    assert_eq!(
        sizes,
        [
            (JobGroup::Asks, 1),
            (JobGroup::Draft, 2),
            (JobGroup::Signed, 1)
        ]
    );
    assert_eq!(ledger.jobs_in(JobGroup::Draft, 1).unwrap()[0].name, "R-1");
    assert_eq!(ledger.jobs_in(JobGroup::Draft, 9).unwrap().len(), 2);
    let note = JobNote {
        name: "R-1".into(),
        source: JobSource::Folder("R-1".into()),
        arrived: UNIX_EPOCH - std::time::Duration::from_secs(1),
        state: JobState::Failed("why".into()),
        fingerprint: None,
    };
    ledger.note(std::slice::from_ref(&note)).unwrap();
    let failed = ledger.jobs_in(JobGroup::Asks, 9).unwrap();
    assert_eq!(
        (failed[1].name.as_str(), failed[1].arrived),
        ("R-1", note.arrived)
    );
    ledger.release(&["R-1".into()]).unwrap();
    assert_eq!(ledger.group_sizes().unwrap()[&JobGroup::Draft], 2);
}

#[test]
fn reserved_names_are_refused() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = ResultStore::open(dir.path(), true).unwrap();
    let lock = store.lock().unwrap();
    for name in ["index.html", ".baybrief", "labour-2026-03-02.csv"] {
        let error = store
            .publish(&lock, &commit(&of_job(name)), &[])
            .unwrap_err();
        assert!(matches!(error, IntakeError::ReservedName(_)) && error.is_of_one_job());
    }
}

#[test]
fn an_event_of_a_line_is_never_changed() {
    use futures_executor::block_on;
    use sqlx::{Connection, SqliteConnection};
    let dir = tempfile::tempdir().unwrap();
    let mut store = ResultStore::open(dir.path(), true).unwrap();
    publish(&mut store, &revision(1), &[], None).unwrap();
    let (ledger, event) = (store.ledger(), shared::authorisation());
    assert!(ledger.record("R-1", &event, 0).unwrap());
    assert!(ledger.record("R-9", &event, 0).is_err(), "no such job");
    let path = dir.path().join(".baybrief/ledger.db");
    let mut connection = block_on(SqliteConnection::connect(&path.display().to_string())).unwrap();
    for sql in [
        "UPDATE work_event SET content = ''",
        "DELETE FROM work_event",
    ] {
        let error = block_on(sqlx::query(sql).execute(&mut connection)).unwrap_err();
        assert!(error.to_string().contains("is never"), "{error}");
    }
}
