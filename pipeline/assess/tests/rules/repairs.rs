//! Before and after a repair.

use crate::job::{Job, cause, fault, phased};
use model::Grade;
use model::job_file::Phase;
use model::verdict::ComparedOutcome;

fn job(before: &[&str], after: &[&str]) -> Job {
    let sheet = cause(
        "fault",
        "roles = [\"pump\"]",
        &["one x 24; required = true"],
    ) + &fault(&["two y 23"]).replace("\"fault\"", "\"other\"");
    let mut job = Job::new(&sheet.replace("teardown = false", "teardown = true")).recorded(vec![
        phased("before.csv", Phase::Before),
        phased("after.csv", Phase::After),
    ]);
    for (file, findings) in [("before.csv", before), ("after.csv", after)] {
        for what in findings {
            let normal = what.starts_with("work");
            job = job.with(what, |f| {
                f.file = Some(file.into());
                f.grade = if normal {
                    Grade::Normal
                } else {
                    Grade::Abnormal
                };
            });
        }
    }
    job
}

#[test]
fn the_cause_found_before_stands_and_nothing_is_opened_again() {
    let repaired = job(&["work", "x pump"], &["work"]);
    assert_eq!(repaired.verdict(), "established fault");
    let verdict = repaired.assess().verdict;
    let repair = verdict.repair.expect("a comparison");
    assert!(repair.proven && verdict.next.is_empty());
    assert_eq!(repair.compared[0].outcome, ComparedOutcome::Mended);
    assert!(
        verdict
            .reasons
            .contains(&"reason-repair-proven".to_string())
    );
}

#[test]
fn what_the_after_recording_does_not_show_is_not_proven() {
    let table: [(&[&str], &str, bool); 4] = [
        (&["work"], "established fault", true),
        (&[], "established fault", false),
        (&["work", "x pump"], "established fault", false),
        (&["work", "y pump"], "established other", false),
    ];
    for (after, verdict, proven) in table {
        let job = job(&["work", "x pump"], after);
        assert_eq!(job.verdict(), verdict, "{after:?}");
        let repair = job.assess().verdict.repair.expect("a comparison");
        assert_eq!(repair.proven, proven, "{after:?}");
    }
}

/// The channel that showed the fault is there afterwards, and nothing can be read from it; or what is said of it now came to no
/// result.
#[test]
fn a_channel_that_is_dead_afterwards_proves_nothing() {
    for silent in ["silent pump", "x pump"] {
        let dead = job(&["work", "x pump"], &["work"]).with(silent, |f| {
            f.file = Some("after.csv".into());
            f.grade = Grade::Unreadable;
        });
        let repair = dead.assess().verdict.repair.expect("a comparison");
        let compared = repair.compared.iter().find(|c| c.kind == "x");
        let outcome = compared.expect("the fault").outcome;
        assert_eq!(outcome, ComparedOutcome::NotComparable, "{silent}");
        assert!(!repair.proven, "{silent}");
    }
}

/// Before the repair something was abnormal and named no cause; afterwards it is gone and all is well.
#[test]
fn a_proof_outlasts_an_open_verdict_before() {
    let repaired = job(&["work", "z pump"], &["work"]);
    assert_eq!(repaired.verdict(), "nothing-found");
    let verdict = repaired.assess().verdict;
    assert!(verdict.repair.expect("a comparison").proven);
    assert_eq!(job(&["work", "z pump"], &[]).verdict(), "open");
}

/// The fault may be mended: the recording that would show it could not be read.
#[test]
fn an_unread_recording_of_after_the_repair_holds_the_verdict_open() {
    let fault = job(&["work", "x pump"], &[]).recorded(vec![phased("before.csv", Phase::Before)]);
    assert_eq!(fault.verdict(), "established fault teardown");
    let unread = fault.without_the_repair();
    assert_eq!(unread.verdict(), "open");
    let verdict = unread.assess().verdict;
    assert_eq!(verdict.reasons, ["reason-repair-unread"]);
    assert_eq!(verdict.next[0].step, "next-mend-recording");
}

/// A fault that was there before and is there now is unchanged; one that is only there now is worse.
#[test]
fn each_observation_is_compared() {
    let repair = job(&["x pump"], &["x pump", "y feed"])
        .assess()
        .verdict
        .repair;
    let outcomes: Vec<(String, ComparedOutcome)> = repair
        .expect("a comparison")
        .compared
        .into_iter()
        .map(|c| (c.kind, c.outcome))
        .collect();
    assert_eq!(
        outcomes,
        [
            ("x".to_string(), ComparedOutcome::Unchanged),
            ("y".to_string(), ComparedOutcome::Worse)
        ]
    );
}
