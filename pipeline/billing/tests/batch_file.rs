//! The batch file of a day: it grows, and no crash writes a row twice or loses one.

mod common;

use baybrief_billing::{account, append_batch, batch_path};
use common::handed::{add, append, at, batch_map, export, shop_of, some, sum, total};
use model::LabourLine;
use model::labour::HandedRow;
use model::shop_file::{Corrections, LabourCsvSection};
use proptest::prelude::*;
use rust_decimal::Decimal;
use std::collections::BTreeSet;

#[test]
fn the_batch_file_grows_and_keeps_what_it_has_byte_for_byte() {
    for more in [
        "",
        "encoding = \"utf-16\"\ndelimiter = \"\\t\"",
        "encoding = \"utf-8-bom\"\nline_terminator = \"lf\"",
        "encoding = \"windows-1252\"\nheader = false\ndelimiter = \";\"",
    ] {
        let map = batch_map(more);
        let rows = add(&[], &at("129.95", &["T", "R", "C"]), Corrections::Pair);
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
    let map = batch_map("line_terminator = \"lf\"");
    let rows = add(&[], &at("129.95", &["T"]), Corrections::Pair);
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
    let rows = add(&[], &at("129.95", &["T"]), Corrections::Pair);
    let rows: Vec<&HandedRow> = rows.iter().collect();
    let export = export(&rows);
    for (file, why) in [
        (&b"id,net\n"[..], "columns are not those"),
        (b"id,job,net\na,b\n", "row 2 has 2 fields, not 3"),
        (b"\xFF\xFE\x00", "not UTF-8"),
    ] {
        let error = append_batch(Some(file), &export, &shop_of(&batch_map("")))
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
struct Handover {
    ledger: Vec<HandedRow>,
    /// Rows that the ledger has not seen written.
    open: usize,
    batch: Option<Vec<u8>>,
}

impl Handover {
    /// Hands a bill over, and crashes behind the step of that number.
    fn run(&mut self, lines: &[LabourLine], rule: Corrections, map: &LabourCsvSection, crash: u8) {
        let new = add(&self.ledger, lines, rule);
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

    /// Total in the billing system: the sum over the batch file's rows, each id counted once.
    fn billed(&self) -> Decimal {
        let Some(file) = &self.batch else {
            return Decimal::ZERO;
        };
        let mut reader = csv::Reader::from_reader(file.as_slice());
        let mut ids = BTreeSet::new();
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
        let mut state = Handover::default();
        state.run(&at("129.95", &["T", "R"]), Corrections::Pair, &map, crash);
        // The job has changed before it is done again.
        for _ in 0..2 {
            state.run(&at("140.00", &["T", "R"]), Corrections::Pair, &map, 0);
            assert_eq!(
                state.billed().to_string(),
                "420.00",
                "322 + 98, crash behind {crash}"
            );
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Any order of changes and crashes: once a run gets through, the billing system has the bill.
    #[test]
    fn what_is_billed_is_the_bill(
        runs in prop::collection::vec((0..4usize, 0..8usize, 0..5u8), 1..12),
    ) {
        let map = batch_map("");
        let mut state = Handover::default();
        let mut lines = Vec::new();
        for (rate, mask, crash) in runs {
            lines = some(rate, mask);
            state.run(&lines, Corrections::Pair, &map, crash);
        }
        state.run(&lines, Corrections::Pair, &map, 0);
        let bill = total(&lines);
        prop_assert_eq!(state.billed(), bill);
        prop_assert_eq!(sum(account(&state.ledger)), bill);
    }
}

#[test]
fn a_batch_is_of_a_day_or_of_a_job_and_a_day() {
    let row = &add(&[], &at("129.95", &["T"]), Corrections::Pair)[0];
    let path = |batch: &str| {
        let map = common::shop(&format!("[labour_csv]\nbatch = {batch:?}")).labour_csv;
        batch_path(&map, "R-1 Golf", row).map(|p| p.display().to_string())
    };
    assert_eq!(path("none"), None);
    assert_eq!(path("day").as_deref(), Some("labour-2026-03-02.csv"));
    assert_eq!(
        path("job").as_deref(),
        Some("R-1 Golf/labour-2026-03-02.csv")
    );
}
