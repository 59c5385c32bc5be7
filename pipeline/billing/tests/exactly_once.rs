//! Rows are handed over exactly once.

mod common;

use baybrief_billing::{account, labour_csv};
use common::handed::{add, at, export, some, sum, total};
use common::shop;
use model::labour::HandedRow;
use model::shop_file::Corrections;
use proptest::prelude::*;
use std::collections::BTreeSet;

/// Operation, row kind, revision and amount of each row.
fn describe<'a>(rows: impl IntoIterator<Item = &'a HandedRow>) -> Vec<String> {
    rows.into_iter()
        .map(|r| {
            let (kind, l) = (r.kind, &r.line);
            format!("{} {kind} {} {}", l.operation, r.revision, l.net_amount)
        })
        .collect()
}

#[test]
fn an_unchanged_job_hands_nothing_over() {
    for rule in [Corrections::Pair, Corrections::Revision] {
        let lines = at("129.95", &["T", "R"]);
        let first = add(&[], &lines, rule);
        assert_eq!(
            describe(&first),
            ["T bill 1 298.89", "R bill 1 90.97"],
            "what is only offered stays out"
        );
        assert_eq!(add(&first, &lines, rule), []);
        // Authorising more moves no line that is there; another position is no change either.
        let mut moved = lines.clone();
        moved.reverse();
        moved.iter_mut().for_each(|l| l.line += 7);
        assert_eq!(add(&first, &moved, rule), []);
    }
}

#[test]
fn a_changed_line_becomes_a_reversal_and_a_new_line() {
    let mut handed = add(&[], &at("129.95", &["T", "R"]), Corrections::Pair);
    let new = add(&handed, &at("140.00", &["T", "R", "C"]), Corrections::Pair);
    assert_eq!(
        describe(&new),
        [
            "T reversal 1 -298.89",
            "T bill 2 322.00",
            "R reversal 1 -90.97",
            "R bill 2 98.00",
            "C bill 1 154.00",
        ]
    );
    assert_eq!(new[0].line.hours.to_string(), "-2.3");
    assert_eq!(
        new[0].line.rate.to_string(),
        "129.95",
        "at the price of then"
    );
    handed.extend(new);
    assert_eq!(sum(&handed).to_string(), "574.00", "322 + 98 + 154");
    assert_eq!(account(&handed).len(), 7, "every row stays in the account");
    // Back again: further rows, none of which has an id that was given before.
    handed.extend(add(&handed, &at("129.95", &["T"]), Corrections::Pair));
    assert_eq!(
        describe(&handed[7..]),
        [
            "R reversal 2 -98.00",
            "C reversal 1 -154.00",
            "T reversal 2 -322.00",
            "T bill 3 298.89"
        ]
    );
    assert_eq!(sum(&handed).to_string(), "298.89");
}

#[test]
fn a_changed_line_becomes_a_new_revision() {
    let mut handed = add(&[], &at("129.95", &["T", "R"]), Corrections::Revision);
    handed.extend(add(&handed, &at("140.00", &["T"]), Corrections::Revision));
    assert_eq!(
        describe(&handed[2..]),
        ["R withdrawal 2 0.00", "T bill 2 322.00"]
    );
    assert_eq!(
        describe(account(&handed)),
        ["R withdrawal 2 0.00", "T bill 2 322.00"]
    );
    handed.extend(add(
        &handed,
        &at("140.00", &["T", "R"]),
        Corrections::Revision,
    ));
    assert_eq!(describe(&handed[4..]), ["R bill 3 98.00"]);
    assert_eq!(
        describe(account(&handed)),
        ["T bill 2 322.00", "R bill 3 98.00"]
    );
}

#[test]
fn labour_csv_tells_the_account() {
    let rows = |rule| {
        let mut handed = add(&[], &at("129.95", &["T"]), rule);
        handed.extend(add(&handed, &at("140.00", &["T"]), rule));
        handed
    };
    let text = |rule| {
        let rows = rows(rule);
        let account = account(&rows);
        let export = export(&account);
        let map = &shop(
            "[labour_csv]\ncolumn = [{ name = \"what\", field = \"row\" }, { name = \"revision\", field = \"revision\" }, \
             { name = \"hours\", field = \"hours\" }, { name = \"net\", field = \"net_amount\" }]",
        );
        String::from_utf8(labour_csv(&export, map).unwrap()).unwrap()
    };
    assert_eq!(
        text(Corrections::Pair),
        "what,revision,hours,net\r\nbill,1,2.3,298.89\r\nreversal,1,-2.3,-298.89\r\nbill,2,2.3,322.00\r\n"
    );
    assert_eq!(
        text(Corrections::Revision),
        "what,revision,hours,net\r\nbill,2,2.3,322.00\r\n"
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// With revisions the account, the latest of each line, is the bill; mixing both rules too.
    #[test]
    fn the_account_is_the_bill_under_either_rule(
        runs in prop::collection::vec((0..4usize, 0..8usize, any::<bool>()), 1..12),
    ) {
        let mut handed = Vec::new();
        for (rate, mask, pair) in runs {
            let lines = some(rate, mask);
            let rule = if pair { Corrections::Pair } else { Corrections::Revision };
            handed.extend(add(&handed, &lines, rule));
            let bill = total(&lines);
            prop_assert_eq!(sum(account(&handed)), bill);
            let ids: BTreeSet<_> = handed.iter().map(|r| &r.row_id).collect();
            prop_assert_eq!(ids.len(), handed.len(), "no row id twice");
        }
    }
}
