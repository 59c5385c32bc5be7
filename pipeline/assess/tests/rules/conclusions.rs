//! From weights to a verdict.

use crate::job::{Job, capture, cause, fault};
use model::Grade;

#[test]
fn weight_alone_makes_probable_at_20_and_established_at_150() {
    let table = [
        (13.0, "open"),
        (13.02, "probable fault"),
        (21.75, "probable fault"),
        (21.77, "established fault"),
    ];
    for (weight, verdict) in table {
        let sheet = fault(&[&format!("one x {weight}")]);
        assert_eq!(Job::new(&sheet).saw("x").verdict(), verdict, "{weight}");
    }
}

#[test]
fn a_missing_required_row_keeps_it_probable() {
    let job = Job::new(&fault(&["one x 24", "two y 3; required = true"])).saw("x");
    assert_eq!(job.verdict(), "probable fault");
    assert_eq!(job.reasons(), ["reason-required-missing"]);
    assert_eq!(job.saw("y").verdict(), "established fault");
}

/// 24 against a rival of 10.9 is 13.1 ahead, of 11.1 is 12.9; of 22 only 2, nearer than 2:1.
#[test]
fn an_established_cause_keeps_20_to_1_from_a_rival() {
    let table = [
        (10.9, "established fault"),
        (11.1, "probable fault"),
        (22.0, "open"),
    ];
    for (rival, verdict) in table {
        let sheet = fault(&["one x 24"]) + &cause("rival", "", &[&format!("one x {rival}")]);
        let job = Job::new(&sheet).saw("x");
        assert_eq!(job.verdict(), verdict, "{rival}");
        let margin = job.assess().verdict.margin_dban;
        if verdict != "open" {
            assert!((margin.expect("a margin") - (24.0 - rival)).abs() < 1e-9);
        }
    }
}

/// A cause that rests on other findings is no rival; a strong one is said to be there as well.
#[test]
fn two_faults_with_evidence_of_their_own_may_both_be_there() {
    let sheet = fault(&["one x 24"]) + &cause("other", "", &["two y 23"]);
    let job = Job::new(&sheet).saw("x").saw("y");
    assert_eq!(job.verdict(), "established fault");
    assert_eq!(job.assess().verdict.margin_dban, None);
    assert_eq!(job.reasons(), ["reason-margin", "reason-second-fault"]);
}

#[test]
fn an_inhibitor_holds_open_what_it_blocks() {
    let inhibitor = |blocks: &str| {
        format!(
            "[[inhibitor]]\nname = \"bad\"\nwhen = {{ kind = \"bad\" }}\nblocks = \"{blocks}\"\nreason = \"reason-bad\"\n\
             next = [\"next-mend\"]\n"
        )
    };
    let sheet = |blocks| cause("fault", "roles = [\"pump\"]", &["one x 24"]) + &inhibitor(blocks);
    let table = [
        ("all", "bad", "open"),
        ("fault|other", "bad", "open"),
        ("other", "bad", "established fault"),
        ("role", "bad pump", "open"),
        ("role", "bad feed", "established fault"),
        ("fallback", "bad", "established fault"),
    ];
    for (blocks, finding, verdict) in table {
        let job = Job::new(&sheet(blocks))
            .saw("x")
            .graded(finding, Grade::Unusable);
        assert_eq!(job.verdict(), verdict, "{blocks}, {finding}");
        if verdict == "open" {
            assert_eq!(job.reasons(), ["reason-bad"]);
            assert_eq!(job.next(), ["next-mend"]);
        }
    }
    // Nothing is called healthy either, except where only what is left over is blocked.
    let healthy = |blocks| {
        let job = Job::new(&sheet(blocks)).saw_normal("work");
        job.graded("bad pump", Grade::Unusable).verdict()
    };
    assert_eq!(healthy("role"), "open");
    assert_eq!(healthy("fallback"), "nothing-found");
}

/// A role that is not recorded, or not fit for use, holds a cause back.
#[test]
fn the_roles_of_a_cause_must_be_recorded() {
    let sheet = cause("fault", "roles = [\"pump|motor\", \"feed\"]", &["one x 24"]);
    let job = |roles: &[&str]| {
        Job::new(&sheet)
            .saw("x")
            .recorded(vec![capture("a.csv", roles)])
    };
    assert_eq!(job(&["motor", "feed"]).verdict(), "established fault");
    let held = job(&["feed"]);
    assert_eq!(held.verdict(), "open");
    assert_eq!(held.cause("fault").blocked_by, ["not-recorded:pump|motor"]);
}

#[test]
fn max_state_is_the_most_that_a_cause_reaches() {
    let sheet = cause("fault", "max_state = \"probable\"", &["one x 25"]);
    assert_eq!(Job::new(&sheet).saw("x").verdict(), "probable fault");
}

/// A fallback cause yields to a cause of 15 though it weighs 18 itself, unless it is established by its own weight.
#[test]
fn a_fallback_yields_to_whatever_may_be_called() {
    let left = |weight: &str| {
        cause(
            "left",
            "fallback = true\nmax_state = \"probable\"",
            &[&format!("code c {weight}")],
        )
    };
    let sheet = left("18") + &fault(&["one x 15"]);
    assert_eq!(Job::new(&sheet).saw("c").verdict(), "probable left");
    assert_eq!(
        Job::new(&sheet).saw("c").saw("x").verdict(),
        "probable fault"
    );
    let heavy = left("22") + &fault(&["one x 15"]);
    assert_eq!(
        Job::new(&heavy).saw("c").saw("x").verdict(),
        "probable left"
    );
    // Any inhibitor holds it back, whatever that blocks.
    let held = sheet
        + "[[inhibitor]]\nname = \"i\"\nwhen = { kind = \"i\" }\nblocks = \"nobody\"\nreason = \"r\"\n";
    assert_eq!(Job::new(&held).saw("c").saw("i").verdict(), "open");
}

#[test]
fn a_teardown_is_advised_for_an_established_cause_whose_repair_opens_the_unit() {
    let sheet = |weight: f64| {
        let sheet = fault(&[&format!("one x {weight}")]);
        sheet.replace("teardown = false", "teardown = true")
    };
    assert_eq!(
        Job::new(&sheet(24.0)).saw("x").verdict(),
        "established fault teardown"
    );
    assert_eq!(Job::new(&sheet(20.0)).saw("x").verdict(), "probable fault");
}

/// 24 from an uncalibrated channel and 3 from elsewhere: shape alone, so probable. With 22 from elsewhere it stands.
#[test]
fn numbers_without_a_scale_make_nothing_established() {
    let sheet = fault(&["one x 24", "two y 3"]);
    let job = Job::new(&sheet).saw("x pump").saw("y").uncalibrated();
    assert_eq!(job.verdict(), "probable fault");
    assert_eq!(job.reasons(), ["reason-not-calibrated"]);
    let sheet = fault(&["one x 24", "two y 22"]);
    let job = Job::new(&sheet).saw("x pump").saw("y").uncalibrated();
    assert_eq!(job.verdict(), "established fault");
    // Nor does a required row that only they give.
    let sheet = fault(&["one x 6; required = true", "two y 22"]);
    let job = Job::new(&sheet).saw("x pump").saw("y").uncalibrated();
    assert_eq!(job.verdict(), "probable fault");
}

/// A check that did not run could have cleared the cause, or given what it requires.
#[test]
fn a_check_that_did_not_run_holds_open_what_hangs_on_it() {
    let sheet = fault(&[
        "one x 24; required = true, group = \"g\"",
        "clears y -24",
        "more z 3",
    ]);
    let job = || Job::new(&sheet).saw("x");
    let held = job().did_not_run("y");
    assert_eq!(held.verdict(), "open");
    assert_eq!(held.reasons(), ["reason-check-did-not-run"]);
    assert!(held.next().contains(&"next-run-checks-again".to_string()));
    assert_eq!(
        job().did_not_run("z").verdict(),
        "established fault",
        "only support"
    );
    assert_eq!(
        job().did_not_run("x").verdict(),
        "established fault",
        "seen elsewhere"
    );
    assert_eq!(
        job().did_not_run("w").verdict(),
        "established fault",
        "nobody asks"
    );
}

/// An established cause that has narrower names leaves open which, and says what would tell; a step whose roles are
/// recorded is not named.
#[test]
fn the_next_step_tells_something_new() {
    let steps = "[[step]]\nname = \"next-feed\"\nrecords = [\"feed\"]\n";
    let sheet = cause(
        "fault",
        "next = [\"next-feed\", \"next-shaft\"]",
        &["one x 15"],
    ) + steps;
    assert_eq!(Job::new(&sheet).saw("x").next(), ["next-shaft"]);
    let sure = cause("fault", "next = [\"next-shaft\"]", &["one x 24"]);
    assert!(Job::new(&sure).saw("x").next().is_empty());
    let narrower = sure
        + &cause(
            "narrow",
            "specializes = [\"fault\"]",
            &["own y 24; required = true"],
        );
    assert_eq!(Job::new(&narrower).saw("x").next(), ["next-shaft"]);
}

/// A recording that was too short to show anything is made again before anything else; once it has shown it, it is not.
#[test]
fn what_came_to_no_result_is_recorded_again_first() {
    let sheet = fault(&["one x 15"])
        + &cause(
            "weak",
            "tested_by = [{ kind = \"y\" }]\nnext = [\"next-longer\", \"next-gauge\"]",
            &["two y 15"],
        )
        + "[[step]]\nname = \"next-longer\"\nshows = { kind = \"y\" }\n";
    let job = || Job::new(&sheet);
    for grade in [Grade::NotTested, Grade::Unusable] {
        let coverage = job().graded("y", grade).assess().coverage;
        let mut untested = coverage.not_tested.iter();
        let weak = untested.find(|u| u.cause == "weak").expect("weak");
        assert_eq!(weak.next.as_deref(), Some("next-longer"), "{grade:?}");
    }
    assert_eq!(job().saw("y").next(), ["next-gauge"]);
}

#[test]
fn an_open_verdict_without_a_lead_asks_for_the_first_recordings() {
    let sheet = "[[first]]\nstep = \"next-pump\"\nroles = [\"pump\"]\n[[first]]\nstep = \"next-motor\"\nroles = [\"motor\"]\n";
    let job = Job::new(&fault(&["one x 24"])).system(sheet);
    assert_eq!(job.next(), ["next-motor"]);
    assert_eq!(job.reasons(), ["reason-no-evidence"]);
    let nothing = job.recorded(Vec::new());
    assert_eq!(nothing.next(), ["next-pump", "next-motor"]);
    assert_eq!(nothing.reasons(), ["reason-nothing-read"]);
}
