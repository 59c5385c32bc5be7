//! Coverage, cleared parts, and the verdict `nothing-found`.

use crate::job::{Job, capture, cause, fault};
use model::verdict::NotTested;
use model::{Grade, Limit};

const TESTED: &str = "tested_by = [{ kind = \"x|rest\" }]\nroles = [\"pump\"]\nuntested = \"never-driven\"\nnext = [\"next-drive\"]";

fn sheet() -> String {
    let spoils = "[[inhibitor]]\nname = \"clipped\"\nwhen = { kind = \"clipped\" }\nblocks = \"role\"\nreason = \"r\"\n";
    cause(
        "fault",
        TESTED,
        &["one x 24; required = true", "rest rest -22", "other y -22"],
    ) + spoils
}

/// -22 by a test that it could have failed rules it out; -22 by something else does not.
#[test]
fn a_part_is_cleared_only_by_a_test_that_it_could_have_failed() {
    assert!(
        Job::new(&sheet())
            .saw_normal("rest")
            .cause("fault")
            .ruled_out
    );
    let elsewhere = Job::new(&sheet()).saw_normal("y");
    assert_eq!(elsewhere.weight(), -22.0);
    assert!(!elsewhere.cause("fault").ruled_out);
}

/// Nor is it cleared while something holds it open: what could not be read may be what would have shown it.
#[test]
fn what_is_held_open_is_not_cleared() {
    let held = sheet()
        + "[[inhibitor]]\nname = \"refused\"\nwhen = { kind = \"refused\" }\nblocks = \"fault\"\nreason = \"r\"\n";
    let cleared = |job: Job| job.saw_normal("rest").cause("fault").ruled_out;
    assert!(cleared(Job::new(&held)));
    assert!(!cleared(Job::new(&held).saw("refused")));
}

#[test]
fn coverage_says_why_something_was_not_tested() {
    let usual = || Job::new(&sheet());
    let table = [
        (usual().saw_normal("rest"), None),
        (usual().saw("x"), None),
        (usual(), Some("never-driven")),
        (
            usual().graded("rest", Grade::Unusable),
            Some("never-driven"),
        ),
        (
            usual().graded("rest", Grade::NotTested),
            Some("not-shown-in-any-recording"),
        ),
        (
            usual().graded("rest", Grade::Unreadable),
            Some("not-readable"),
        ),
        (usual().saw("clipped pump"), Some("recording-not-fit")),
        (
            usual().recorded(vec![capture("a.csv", &["feed"])]),
            Some("not-recorded"),
        ),
        (usual().recorded(Vec::new()), Some("not-recorded")),
        (usual().did_not_run("x"), Some("check-did-not-run")),
    ];
    for (i, (job, why)) in table.into_iter().enumerate() {
        let coverage = job.assess().coverage;
        match why {
            None => assert_eq!(
                (coverage.tested, coverage.not_tested.len()),
                (vec!["fault".into()], 0),
                "{i}"
            ),
            Some(why) => assert_eq!(
                coverage.not_tested,
                [NotTested {
                    cause: "fault".into(),
                    why: why.into(),
                    next: Some("next-drive".into()),
                }],
                "{i}"
            ),
        }
    }
}

/// A motor with brushes has no phase that could be missing.
#[test]
fn a_cause_of_another_kind_of_unit_is_neither_ranked_nor_called_untested() {
    let keys = "roles = [\"phase\"]\nother_kind = \"brush\"\nuntested = \"never-driven\"";
    let job = |roles: &[&str]| {
        Job::new(&cause("fault", keys, &["one x 24"])).recorded(vec![capture("a.csv", roles)])
    };
    let examined = |roles: &[&str]| {
        let a = job(roles).assess();
        (a.causes.len(), a.coverage.not_tested.len())
    };
    assert_eq!(examined(&["brush"]), (0, 0));
    assert_eq!(examined(&["brush", "phase"]), (1, 1));
    assert_eq!(examined(&["supply"]), (1, 1));
}

/// A fallback cause is no part that could be tested.
#[test]
fn a_fallback_is_not_covered() {
    let left = cause("left", "fallback = true", &["code c 15"]);
    let coverage = Job::new(&left).assess().coverage;
    assert!(coverage.tested.is_empty() && coverage.not_tested.is_empty());
}

#[test]
fn nothing_is_healthy_that_was_not_seen_at_work() {
    assert_eq!(Job::new(&fault(&["one x 24"])).verdict(), "open");
    assert_eq!(
        Job::new(&fault(&["one x 24"])).saw_normal("work").verdict(),
        "nothing-found"
    );
    let unknown = vec![{
        let mut c = capture("a.csv", &["pump"]);
        c.channels[0].role = None;
        c
    }];
    let job = Job::new(&fault(&["one x 24"]))
        .saw_normal("work")
        .recorded(unknown);
    assert_eq!(job.verdict(), "open");
    assert_eq!(job.reasons(), ["reason-roles-unsure"]);
    assert!(job.next().contains(&"next-state-channels".to_string()));
}

/// A measurement beyond its limit is not healthy, whatever explains it; what a control unit says is no measurement.
#[test]
fn an_abnormal_measurement_is_not_healthy() {
    let job = || Job::new(&fault(&["one x 24"])).saw_normal("work");
    assert_eq!(job().saw("odd").verdict(), "open");
    let code = job().with("code", |f| {
        f.grade = Grade::Abnormal;
        f.file = None;
    });
    assert_eq!(code.verdict(), "nothing-found");
}

/// The guard band of ISO 14253-1 (from memory): a value is good only where it is so beyond its uncertainty (k = 2).
/// 12.0 - 11.5 is more than 2 x 0.15, 12.1 - 12.0 is less.
#[test]
fn a_value_at_its_limit_is_not_called_healthy() {
    let measured = |value: f64| {
        Job::new(&fault(&["one x 24"])).with("work", |f| {
            f.value = Some(value);
            f.uncertainty = Some(0.15);
            f.limit = Some(Limit {
                low: None,
                high: Some(12.0),
                unit: "%".into(),
                source: "a test".into(),
            });
        })
    };
    assert_eq!(measured(11.5).verdict(), "nothing-found");
    assert_eq!(measured(12.1).verdict(), "open");
    assert_eq!(measured(12.1).reasons(), ["reason-at-limit"]);
}

/// Health needs each test of one set; a partial set says what is left, and how to test it.
#[test]
fn health_needs_every_test_of_a_set() {
    let second = cause(
        "second",
        "tested_by = [{ kind = \"z\" }]\nnext = [\"next-second\"]",
        &["one w 24"],
    );
    let sheet = sheet() + &second;
    let whole = "examined = [{ kind = \"work\" }]\n[[healthy]]\nname = \"whole\"\ntested = [\"fault\", \"second\"]\n";
    let part = "[[healthy]]\nname = \"part\"\ntested = [\"fault\"]\npartial = true\n";
    let job = |system: &str| {
        let job = Job::new(&sheet).system(system);
        job.saw_normal("work").saw_normal("rest")
    };
    assert_eq!(job(whole).verdict(), "open");
    assert_eq!(job(whole).reasons(), ["reason-not-all-tested"]);
    assert_eq!(job(whole).next(), ["next-second"]);
    let system = [whole, part].concat();
    let all = job(&system).saw_normal("z");
    assert_eq!(all.verdict(), "nothing-found");
    assert_eq!(all.reasons(), ["reason-healthy"]);
    let part = job(&system);
    assert_eq!(part.verdict(), "nothing-found");
    assert_eq!(part.reasons(), ["reason-healthy-in-part"]);
    assert_eq!(part.next(), ["next-second"]);
}

/// A code of 5 speaks for a part that no recording tested: 3:1 is 4.77.
#[test]
fn a_suspect_that_was_not_tested_is_not_cleared_by_silence() {
    let suspect = |weight: &str| {
        let sheet = cause(
            "fault",
            TESTED,
            &["one x 24; required = true", &format!("code c {weight}")],
        );
        Job::new(&sheet)
            .saw_normal("work")
            .graded("c", Grade::Normal)
    };
    assert_eq!(suspect("4.7").verdict(), "nothing-found");
    assert_eq!(suspect("5").verdict(), "open");
    assert_eq!(suspect("5").reasons(), ["reason-suspect-not-tested"]);
    assert_eq!(suspect("5").next(), ["next-drive"]);
    assert_eq!(suspect("5").saw_normal("rest").verdict(), "nothing-found");
}

#[test]
fn a_check_that_did_not_run_leaves_health_open() {
    let job = || Job::new(&sheet()).saw_normal("work").saw_normal("rest");
    assert_eq!(job().verdict(), "nothing-found");
    for kind in ["x", "y", "clipped"] {
        assert_eq!(job().did_not_run(kind).verdict(), "open", "{kind}");
    }
    assert_eq!(job().did_not_run("of-nobody").verdict(), "nothing-found");
}
