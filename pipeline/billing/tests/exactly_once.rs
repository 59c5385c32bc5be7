//! What is handed over, is handed over once, whatever happens in between.

mod common;

use baybrief_billing::{Export, account, append_batch, hand_over, labour_csv};
use common::{bill, clutch_2_drag, shop, three_operations};
use model::LabourLine;
use model::labour::HandedRow;
use model::shop_file::{Corrections, LabourCsvSection};
use proptest::prelude::*;
use rust_decimal::Decimal;

fn at(rate: &str, authorised: &[&str]) -> Vec<LabourLine> {
    bill(
        &three_operations("EUR", rate, ""),
        &clutch_2_drag(),
        authorised,
    )
    .lines
}

/// Operation, row kind, revision and amount of each row.
fn told<'a>(rows: impl IntoIterator<Item = &'a HandedRow>) -> Vec<String> {
    rows.into_iter()
        .map(|r| {
            let (kind, l) = (r.kind.name(), &r.line);
            format!("{} {kind} {} {}", l.operation, r.revision, l.amount)
        })
        .collect()
}

fn sum<'a>(rows: impl IntoIterator<Item = &'a HandedRow>) -> Decimal {
    rows.into_iter().map(|r| r.line.amount).sum()
}

#[test]
fn an_unchanged_job_hands_nothing_over() {
    for rule in [Corrections::Pair, Corrections::Revision] {
        let lines = at("129.95", &["T", "R"]);
        let first = hand_over(&[], &lines, rule);
        assert_eq!(
            told(&first),
            ["T bill 1 298.89", "R bill 1 90.97"],
            "the estimate stays out"
        );
        assert_eq!(hand_over(&first, &lines, rule), []);
        // Authorising more moves no line that is there; another position is no change either.
        let mut moved = lines.clone();
        moved.reverse();
        moved.iter_mut().for_each(|l| l.line += 7);
        assert_eq!(hand_over(&first, &moved, rule), []);
    }
}

#[test]
fn a_changed_line_becomes_a_reversal_and_a_new_line() {
    let mut handed = hand_over(&[], &at("129.95", &["T", "R"]), Corrections::Pair);
    let new = hand_over(&handed, &at("140.00", &["T", "R", "C"]), Corrections::Pair);
    assert_eq!(
        told(&new),
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
    handed.extend(hand_over(&handed, &at("129.95", &["T"]), Corrections::Pair));
    assert_eq!(
        told(&handed[7..]),
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
    let mut handed = hand_over(&[], &at("129.95", &["T", "R"]), Corrections::Revision);
    handed.extend(hand_over(
        &handed,
        &at("140.00", &["T"]),
        Corrections::Revision,
    ));
    assert_eq!(
        told(&handed[2..]),
        ["R withdrawal 2 0.00", "T bill 2 322.00"]
    );
    assert_eq!(
        told(account(&handed)),
        ["R withdrawal 2 0.00", "T bill 2 322.00"]
    );
    handed.extend(hand_over(
        &handed,
        &at("140.00", &["T", "R"]),
        Corrections::Revision,
    ));
    assert_eq!(told(&handed[4..]), ["R bill 3 98.00"]);
    assert_eq!(
        told(account(&handed)),
        ["T bill 2 322.00", "R bill 3 98.00"]
    );
}

const BATCH: &str = "
    [labour_csv]
    daily_batch = true
    [[labour_csv.column]]
    name = \"id\"
    field = \"row_id\"
    [[labour_csv.column]]
    name = \"job\"
    field = \"job\"
    [[labour_csv.column]]
    name = \"net\"
    field = \"amount\"
";

fn batch_map(more: &str) -> LabourCsvSection {
    shop(&BATCH.replace("daily_batch = true", &format!("daily_batch = true\n{more}"))).labour_csv
}

fn append(file: Option<&[u8]>, rows: &[HandedRow], map: &LabourCsvSection) -> Option<Vec<u8>> {
    let rows: Vec<&HandedRow> = rows.iter().collect();
    let export = Export {
        job: "R-1",
        opened: None,
        texts: None,
        rows: &rows,
    };
    append_batch(file, &export, map).unwrap()
}

#[test]
fn the_batch_file_grows_and_keeps_what_it_has_byte_for_byte() {
    for more in [
        "",
        "encoding = \"utf-16\"\ndelimiter = \"\\t\"",
        "encoding = \"utf-8-bom\"\nline_end = \"lf\"",
        "encoding = \"windows-1252\"\nheader = false\ndelimiter = \";\"",
    ] {
        let map = batch_map(more);
        let rows = hand_over(&[], &at("129.95", &["T", "R", "C"]), Corrections::Pair);
        let one = append(None, &rows[..1], &map).unwrap();
        let two = append(Some(&one), &rows, &map).unwrap();
        assert!(two.starts_with(&one));
        // The same as had all been written at once: one header, one byte order mark.
        assert_eq!(two, append(None, &rows, &map).unwrap(), "{more}");
        assert_eq!(append(Some(&two), &rows, &map), None);
        assert_eq!(
            append(Some(b""), &rows, &map).unwrap(),
            two,
            "an empty file is a new one"
        );
    }
    let map = batch_map("line_end = \"lf\"");
    let rows = hand_over(&[], &at("129.95", &["T"]), Corrections::Pair);
    let file = append(None, &rows, &map).unwrap();
    let id = &rows[0].row_id;
    assert_eq!(
        String::from_utf8(file).unwrap(),
        format!("id,job,net\n{id},R-1,298.89\n")
    );
    // A last line whose end an editor has taken away.
    let cut = append(Some(b"id,job,net\nx-1,R-0,5.00"), &rows, &map).unwrap();
    assert!(cut.starts_with(b"id,job,net\nx-1,R-0,5.00\n"));
}

#[test]
fn a_batch_file_of_another_map_is_left_alone() {
    let rows = hand_over(&[], &at("129.95", &["T"]), Corrections::Pair);
    let rows: Vec<&HandedRow> = rows.iter().collect();
    let export = Export {
        job: "R-1",
        opened: None,
        texts: None,
        rows: &rows,
    };
    for (file, why) in [
        (&b"id,net\n"[..], "columns are not those"),
        (b"id,job,net\na,b\n", "row 2 has 2 fields, not 3"),
        (b"\xFF\xFE\x00", "not UTF-8"),
    ] {
        let error = append_batch(Some(file), &export, &batch_map(""))
            .unwrap_err()
            .to_string();
        assert!(
            error.contains(why) && error.contains("move it away"),
            "{error}"
        );
    }
}

/// A ledger and a batch file, as the protocol of `hand_over` has them.
#[derive(Default)]
struct Desk {
    ledger: Vec<HandedRow>,
    /// Rows that the ledger has not seen written.
    open: usize,
    batch: Option<Vec<u8>>,
}

impl Desk {
    /// Hands a bill over, and crashes behind the step of that number.
    fn run(&mut self, lines: &[LabourLine], rule: Corrections, map: &LabourCsvSection, crash: u8) {
        let new = hand_over(&self.ledger, lines, rule);
        if crash == 2 {
            return;
        }
        self.open += new.len();
        self.ledger.extend(new);
        if crash == 3 {
            return;
        }
        let written = self.ledger.len() - self.open;
        if let Some(file) = append(self.batch.as_deref(), &self.ledger[written..], map) {
            self.batch = Some(file);
        }
        if crash == 4 {
            return;
        }
        self.open = 0;
    }

    /// What the billing system has: the sum over the batch file's rows, each id counted once.
    fn billed(&self) -> Decimal {
        let Some(file) = &self.batch else {
            return Decimal::ZERO;
        };
        let mut reader = csv::Reader::from_reader(file.as_slice());
        let mut ids = std::collections::BTreeSet::new();
        let rows = reader.records().map(|row| {
            let row = row.unwrap();
            assert!(ids.insert(row[0].to_string()), "{} stands twice", &row[0]);
            Decimal::from_str_exact(&row[2]).unwrap()
        });
        rows.sum()
    }
}

#[test]
fn a_crash_between_the_ledger_and_the_files_writes_nothing_twice_and_loses_nothing() {
    let map = batch_map("");
    for crash in [2, 3, 4] {
        let mut desk = Desk::default();
        desk.run(&at("129.95", &["T", "R"]), Corrections::Pair, &map, crash);
        // The job has changed before it is done again.
        for _ in 0..2 {
            desk.run(&at("140.00", &["T", "R"]), Corrections::Pair, &map, 0);
            assert_eq!(
                desk.billed().to_string(),
                "420.00",
                "322 + 98, crash behind {crash}"
            );
        }
    }
}

proptest! {
    /// Any order of changes and crashes: once a run gets through, the billing system has the bill.
    #[test]
    fn what_is_billed_is_the_bill(
        runs in prop::collection::vec((0..4usize, 0..8usize, 0..5u8), 1..12),
    ) {
        let map = batch_map("");
        let mut desk = Desk::default();
        let mut lines = Vec::new();
        for (rate, mask, crash) in runs {
            let rate = ["100", "129.95", "0.01", "140"][rate];
            let codes: Vec<&str> = (0..3).filter(|i| mask >> i & 1 == 1).map(|i| ["T", "R", "C"][i]).collect();
            lines = at(rate, &codes);
            desk.run(&lines, Corrections::Pair, &map, crash);
        }
        desk.run(&lines, Corrections::Pair, &map, 0);
        let bill: Decimal = lines.iter().filter(|l| l.state == model::labour::LineState::Billable).map(|l| l.amount).sum();
        prop_assert_eq!(desk.billed(), bill);
        prop_assert_eq!(sum(account(&desk.ledger)), bill);
    }

    /// With revisions the account, the latest of each line, is the bill; mixing both rules too.
    #[test]
    fn the_account_is_the_bill_under_either_rule(
        runs in prop::collection::vec((0..4usize, 0..8usize, any::<bool>()), 1..12),
    ) {
        let mut handed = Vec::new();
        for (rate, mask, pair) in runs {
            let rate = ["100", "129.95", "0.01", "140"][rate];
            let codes: Vec<&str> = (0..3).filter(|i| mask >> i & 1 == 1).map(|i| ["T", "R", "C"][i]).collect();
            let lines = at(rate, &codes);
            let rule = if pair { Corrections::Pair } else { Corrections::Revision };
            handed.extend(hand_over(&handed, &lines, rule));
            let bill: Decimal = lines.iter().filter(|l| l.state == model::labour::LineState::Billable).map(|l| l.amount).sum();
            prop_assert_eq!(sum(account(&handed)), bill);
            let ids: std::collections::BTreeSet<_> = handed.iter().map(|r| &r.row_id).collect();
            prop_assert_eq!(ids.len(), handed.len(), "no row id twice");
        }
    }
}

#[test]
fn labour_csv_tells_the_account() {
    let rows = |rule| {
        let mut handed = hand_over(&[], &at("129.95", &["T"]), rule);
        handed.extend(hand_over(&handed, &at("140.00", &["T"]), rule));
        handed
    };
    let text = |rule| {
        let rows = rows(rule);
        let export = Export {
            job: "R-1",
            opened: None,
            texts: None,
            rows: &account(&rows),
        };
        let map = &shop(
            "[labour_csv]\ncolumn = [{ name = \"what\", field = \"row\" }, { name = \"revision\", field = \"revision\" }, \
             { name = \"hours\", field = \"hours\" }, { name = \"net\", field = \"amount\" }]",
        )
        .labour_csv;
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
