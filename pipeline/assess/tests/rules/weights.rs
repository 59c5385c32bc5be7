//! Weights of rows, and when they apply.

use crate::job::{Job, capture, cause, fault};
use baybrief_assess::{ESTABLISHED_DBAN, JUDGEMENT_CAP_DBAN, PROBABLE_DBAN};
use model::Grade;
use model::cause::Effect;

/// 10 log10 of a likelihood ratio.
fn dban(ratio: f64) -> f64 {
    10.0 * ratio.log10()
}

#[test]
fn the_classes_are_likelihood_ratios_of_20_and_150() {
    assert!((dban(20.0) - PROBABLE_DBAN).abs() < 0.005);
    assert!((dban(150.0) - ESTABLISHED_DBAN).abs() < 0.005);
}

/// 20:1 and 7.5:1 are 150:1 together: 13.01 + 8.75 = 21.76.
#[test]
fn independent_rows_add() {
    let sheet = fault(&["one x 13.01", "two y 8.75"]);
    assert_eq!(Job::new(&sheet).saw("x").saw("y").weight(), 21.76);
    assert_eq!(Job::new(&sheet).saw("x").weight(), 13.01);
    assert_eq!(Job::new(&sheet).weight(), 0.0);
}

/// Of 8 and 11 the 11 counts, of 11 and -15 the -15: one observation, told twice.
#[test]
fn of_a_group_the_strongest_counts_either_way() {
    let sheet = fault(&[
        "one x 8; group = \"g\"",
        "two y 11; group = \"g\"",
        "three z -15; group = \"g\"",
        "alone w 2",
    ]);
    let job = Job::new(&sheet).saw("x").saw("y").saw("w");
    assert_eq!(job.weight(), 13.0);
    // Both findings are named all the same.
    assert_eq!(job.cause("fault").supporting, ["f1", "f2", "f3"]);
    let job = job.saw("z");
    assert_eq!(job.weight(), -13.0);
    assert_eq!(job.cause("fault").against, ["f4"]);
}

#[test]
fn judgement_is_capped_and_counts_are_not() {
    let judged = fault(&["one x 60; source_ = 0"]).replace("source_ = 0", "");
    let judged = judged.replace("source = \"counted\"", "source = \"judgement\"");
    assert_eq!(Job::new(&judged).saw("x").weight(), JUDGEMENT_CAP_DBAN);
    let against = judged.replace("= 60", "= -60");
    assert_eq!(Job::new(&against).saw("x").weight(), -JUDGEMENT_CAP_DBAN);
    assert_eq!(Job::new(&fault(&["one x 60"])).saw("x").weight(), 60.0);
}

/// Whatever a library claims of its sources, its weights are capped, and it opens no unit.
#[test]
fn a_library_that_is_not_built_in_is_capped_and_opens_nothing() {
    let sheet = fault(&["one x 90"]).replace("teardown = false", "teardown = true");
    let job = Job::new(&sheet).saw("x");
    assert_eq!(
        (job.weight(), &*job.verdict()),
        (90.0, "established fault teardown")
    );
    let job = job.foreign();
    assert_eq!((job.weight(), &*job.verdict()), (25.0, "established fault"));
}

#[test]
fn a_pattern_is_held_against_kind_subject_grade_message_and_arguments() {
    let table = [
        ("kind = \"x\"", true),
        ("kind = \"w|x\"", true),
        ("kind = \"w\"", false),
        ("kind = \"x\", subject = \"feed|pump\"", true),
        ("kind = \"x\", subject = \"feed\"", false),
        ("kind = \"x\", grade = \"abnormal\"", true),
        ("kind = \"x\", grade = \"normal\"", false),
        ("kind = \"x\", message = \"x\"", true),
        ("kind = \"x\", message = \"y\"", false),
        ("kind = \"x\", args = { state = \"active|pending\" }", true),
        ("kind = \"x\", args = { state = \"pending\" }", false),
        ("kind = \"x\", args = { failure = \"13\" }", false),
        ("kind = \"x\", at_least = 1", true),
        ("kind = \"x\", at_least = 2", false),
    ];
    for (pattern, applies) in table {
        let sheet = fault(&["one k 5"]).replace("kind = \"k\"", pattern);
        let job = Job::new(&sheet).with("x pump", |f| {
            f.grade = Grade::Abnormal;
            f.args.insert("state".into(), "active confirmed".into());
        });
        assert_eq!(job.weight() == 5.0, applies, "{pattern}");
    }
}

/// Findings graded `not-tested` or `unreadable` count as nothing, for or against.
#[test]
fn a_finding_that_claims_nothing_counts_as_nothing() {
    let sheet = fault(&["one x 24; required = true", "two rest -22"]);
    for grade in [Grade::NotTested, Grade::Unreadable] {
        let job = Job::new(&sheet).graded("x", grade).graded("rest", grade);
        assert_eq!(job.weight(), 0.0, "{grade:?}");
    }
    // A row may ask for it by name.
    let asks = sheet.replace("kind = \"rest\"", "kind = \"rest\", grade = \"unreadable\"");
    assert_eq!(
        Job::new(&asks).graded("rest", Grade::Unreadable).weight(),
        -22.0
    );
}

#[test]
fn a_row_does_not_apply_beside_what_it_excludes() {
    let sheet = fault(&["one x 9; unless = { kind = \"y\" }"]);
    assert_eq!(Job::new(&sheet).saw("x").weight(), 9.0);
    assert_eq!(Job::new(&sheet).saw("x").saw("y").weight(), 0.0);
}

/// A negated row needs a channel that is there, fit for use and alive, and the check that would have seen it.
#[test]
fn what_was_not_seen_counts_only_where_it_would_have_been() {
    let row =
        "quiet x -20; negated = true, observable_on = \"pump|motor\", alive = { kind = \"pulse\" }";
    let spoils = "[[inhibitor]]\nname = \"clipped\"\nwhen = { kind = \"clipped\" }\nblocks = \"role\"\nreason = \"r\"\n";
    let sheet = fault(&[row]) + spoils;
    let job = || Job::new(&sheet).saw_normal("pulse pump");
    assert_eq!(job().weight(), -20.0);
    assert_eq!(job().saw("x").weight(), 0.0, "seen after all");
    assert_eq!(
        Job::new(&sheet).weight(),
        0.0,
        "a flat channel proves nothing"
    );
    let elsewhere = vec![capture("a.csv", &["feed"])];
    assert_eq!(job().recorded(elsewhere).weight(), 0.0, "not recorded");
    assert_eq!(job().saw("clipped pump").weight(), 0.0, "not fit for use");
    assert_eq!(job().saw("clipped feed").weight(), -20.0, "another channel");
    assert_eq!(job().did_not_run("x").weight(), 0.0, "nobody looked");
    assert_eq!(
        Job::new(&sheet)
            .graded("pulse pump", Grade::NotTested)
            .weight(),
        0.0
    );
}

/// Required rows of one group are alternatives, those of different groups are all needed.
#[test]
fn required_rows_are_missing_until_they_apply() {
    let sheet = fault(&[
        "dead x 24; required = true, group = \"sensor\"",
        "worn y 15; required = true, group = \"sensor\"",
        "fed z 3; required = true",
    ]);
    let missing = |job: Job| -> Vec<String> {
        let missing = job.cause("fault").missing.into_iter();
        missing.map(|m| m.row).collect()
    };
    assert_eq!(missing(Job::new(&sheet)), ["dead", "worn", "fed"]);
    assert_eq!(missing(Job::new(&sheet).saw("y")), ["fed"]);
    assert_eq!(missing(Job::new(&sheet).saw("z")), ["dead", "worn"]);
    assert!(missing(Job::new(&sheet).saw("x").saw("z")).is_empty());
}

/// Proof is 24 and required, rest -22 in the same group, a code 3. Without anything seen: proof makes 24 (established),
/// rest makes -22 (ruled out), the code 3 changes nothing. With proof, rest stands in for it: -22.
#[test]
fn what_would_change_the_verdict_is_said() {
    let sheet = fault(&[
        "proof x 24; required = true, group = \"motion\"",
        "rest y -22; group = \"motion\"",
        "code z 3",
    ]);
    let changes = |job: Job| -> Vec<(String, Effect, f64)> {
        let changes = job.cause("fault").would_change.into_iter();
        changes.map(|c| (c.row, c.effect, c.weight_dban)).collect()
    };
    let proof = ("proof".to_string(), Effect::Establish, 24.0);
    let rest = ("rest".to_string(), Effect::RuleOut, -22.0);
    assert_eq!(changes(Job::new(&sheet)), [proof.clone(), rest.clone()]);
    assert_eq!(changes(Job::new(&sheet).saw("x")), [rest]);
    assert_eq!(changes(Job::new(&sheet).saw("y")), [proof]);
}

/// A narrower name with all of its required rows takes the wider one's evidence: 22 becomes 0.
#[test]
fn a_narrower_name_explains_the_wider_one_away() {
    let sheet = cause(
        "narrow",
        "specializes = [\"fault\"]",
        &["own y 24; required = true"],
    ) + &fault(&["feed x 22; required = true"]);
    assert_eq!(Job::new(&sheet).saw("x").weight(), 22.0);
    let job = Job::new(&sheet).saw("x").saw("y");
    assert_eq!(job.weight(), 0.0);
    assert_eq!(job.verdict(), "established narrow");
    // Below 20:1 it does not.
    let weak = sheet.replace("weight_dban = 24", "weight_dban = 12");
    assert_eq!(Job::new(&weak).saw("x").saw("y").weight(), 22.0);
}
