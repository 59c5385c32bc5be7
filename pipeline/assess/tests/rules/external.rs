//! Causes of other systems: what they explain weighs less, and they are cleared first.

use crate::job::Job;
use model::VerdictState;

const SHEET: &str = r#"
[[cause]]
name = "worn"
teardown = true
next = ["next-listen"]
tested_by = [{ kind = "work" }]
[[cause.row]]
name = "slow"
when = { kind = "work", grade = "abnormal" }
weight_dban = 24.0
required = true
reason = "it is slow"
source = "judgement"

[[external]]
name = "source-weak"
system = "mains"
causes = "empty|loose"
explains = "worn"
weight_dban = -12.0
reason = "a weak source slows it as well"
source = "judgement"
next = "next-mend-source"
"#;

fn slow() -> Job {
    Job::new(SHEET).saw("work")
}

/// 24 - 12 = 12 decibans are less than the 13.01 of a probable cause.
#[test]
fn what_another_system_explains_is_cleared_first() {
    assert_eq!(slow().verdict(), "established worn teardown");
    for state in [VerdictState::Established, VerdictState::Probable] {
        let job = slow().other("mains", state, "loose");
        assert_eq!(job.verdict(), "open");
        let verdict = job.assess().verdict;
        assert_eq!(verdict.clear_first, ["mains"]);
        assert_eq!(verdict.next[0].step, "next-mend-source");
        assert!(
            verdict
                .reasons
                .contains(&"reason-explained-elsewhere".into())
        );
    }
}

/// Another cause, another system, an open question: none of them explains anything.
#[test]
fn what_is_not_named_explains_nothing() {
    let unnamed = [
        slow().other("mains", VerdictState::Established, "humming"),
        slow().other("water", VerdictState::Established, "empty"),
        slow().other("mains", VerdictState::Open, "empty"),
        slow().other("mains", VerdictState::NothingFound, "empty"),
    ];
    for job in unnamed {
        assert_eq!(job.verdict(), "established worn teardown");
        assert!(job.assess().verdict.clear_first.is_empty());
    }
}

/// Nothing speaks for the cause: nothing is to be explained.
#[test]
fn a_cause_without_evidence_is_not_touched() {
    let job = Job::new(SHEET)
        .saw_normal("work")
        .other("mains", VerdictState::Established, "empty");
    let assessment = job.assess();
    assert_eq!(assessment.causes[0].weight_dban, 0.0);
    assert!(assessment.verdict.clear_first.is_empty());
}
