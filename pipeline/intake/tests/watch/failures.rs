//! Failures of an inbox, and entries that must not be followed.

use crate::shared::*;
use baybrief_intake::{IntakeError, Watch, WatchOptions};
use std::fs;

#[test]
fn another_folder_in_the_inboxs_place_is_said_and_watched() {
    both_ways(|b| {
        fill(&b.inbox().join("R-18"), &[("a.csv", b"1")]);
        b.job();
        let other = b.elsewhere().join("other");
        fill(&other.join("R-19"), &[("a.csv", b"1")]);
        fs::rename(b.inbox(), b.elsewhere().join("old")).unwrap();
        fs::rename(&other, b.inbox()).unwrap();
        let notice = loop {
            match b.error() {
                IntakeError::InboxGone { .. } => {} // between the two renames
                notice => break notice,
            }
        };
        assert!(matches!(notice, IntakeError::InboxReplaced(_)), "{notice}");
        assert_eq!(b.job().name, "R-19");
        fill(&b.inbox().join("R-20"), &[("a.csv", b"1")]);
        assert_eq!(b.job().name, "R-20", "what comes later is seen too");
    });
}

#[test]
fn a_loose_job_file_belongs_to_no_job() {
    both_ways(|b| {
        fill(&b.inbox(), &[("job.toml", b"")]);
        let notice = b.error();
        assert!(
            matches!(notice, IntakeError::UnmatchedJobFile(_)),
            "{notice}"
        );
        fill(&b.inbox(), &[("R-21_job.toml", b"")]);
        assert_eq!(paths(&b.job()), ["R-21_job.toml"]);
    });
}

#[test]
fn an_inbox_that_vanishes_is_said_once_and_picked_up_again() {
    both_ways(|b| {
        let away = b.elsewhere().join("inbox");
        fs::rename(b.inbox(), &away).unwrap();
        let error = b.error();
        assert!(matches!(error, IntakeError::InboxGone { .. }), "{error}");
        assert!(error.to_string().contains("inbox"));
        b.assert_quiet();
        fs::rename(&away, b.inbox()).unwrap();
        fill(&b.inbox().join("R-8"), &[("a.csv", b"1")]);
        assert_eq!(b.job().name, "R-8");
    });
    let missing = tempfile::tempdir().unwrap().path().join("inbox");
    assert!(matches!(
        Watch::new(&missing, WatchOptions::default()),
        Err(IntakeError::InboxGone { .. })
    ));
}

#[test]
fn loose_files_never_share_a_name_with_a_folder() {
    both_ways(|b| {
        fill(&b.inbox().join("R-9"), &[("a.csv", b"1")]);
        fill(&b.inbox(), &[("R-9_scan.txt", b"1")]);
        let (x, y) = (
            b.got.recv_timeout(RECEIVE_TIMEOUT).unwrap(),
            b.got.recv_timeout(RECEIVE_TIMEOUT).unwrap(),
        );
        let (job, error) = if x.is_ok() { (x, y) } else { (y, x) };
        assert_eq!(paths(&job.unwrap()), ["a.csv"]);
        let error = error.unwrap_err();
        assert!(
            matches!(&error, IntakeError::NameTaken { job, .. } if job == "R-9"),
            "{error}"
        );
        b.assert_quiet();
    });
}

#[cfg(unix)]
#[test]
fn links_in_the_inbox_are_refused_and_links_out_of_a_job_are_set_aside() {
    use std::os::unix::fs::symlink;
    both_ways(|b| {
        fill(&b.elsewhere().join("R-10"), &[("a.csv", b"1")]);
        symlink(b.elsewhere().join("R-10"), b.inbox().join("R-10")).unwrap();
        let error = b.error();
        assert!(matches!(error, IntakeError::LinkInInbox(_)), "{error}");
        fs::create_dir(b.inbox().join("R-11")).unwrap();
        symlink(
            b.elsewhere().join("R-10/a.csv"),
            b.inbox().join("R-11/a.csv"),
        )
        .unwrap();
        let job = b.job();
        assert_eq!(job.name, "R-11");
        assert!(
            job.entries[0]
                .content
                .as_ref()
                .unwrap_err()
                .message
                .contains("link out")
        );
        b.assert_quiet();
    });
}
