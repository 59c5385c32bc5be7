//! labour.csv: what was done or authorised is billed, what is only offered is not.

use crate::bench::{Bench, Results};
use crate::jobs::{Files, drag, with_job_file};
use std::collections::BTreeSet;

/// A drag, with these words in job.toml's `[job]`.
fn run(words: &str) -> Results {
    let mut files: Files = with_job_file(&drag(0, 1));
    let job = String::from_utf8(files["job.toml"].clone()).expect("UTF-8");
    let (head, captures) = job.split_at(job.find("[[capture]]").expect("a section"));
    let head = head.replace("[job]\nauthorised = []\n", "");
    assert!(!head.contains("[job]"), "{head}");
    files.insert(
        "job.toml".into(),
        format!("[job]\n{words}\n{head}{captures}").into(),
    );
    let bench = Bench::new();
    let (said, results) = bench.run(&bench.job("R-50", &files));
    said.ends_with(0);
    results
}

#[test]
fn hours_times_rate_by_the_cent_in_rfc_4180() {
    let results = run("technician = \"=Robin\"\ndiagnosis_hours = 1.5\nauthorised = [\"G200\"]");
    let rows = results.labour_rows();
    let header = "job,line,operation,description,hours,rate,amount,currency,technician,line_id";
    assert_eq!(rows[0].iter().collect::<Vec<_>>().join(","), header);
    // Rates and hours of examples/shop.toml; by hand: 1.5 h * 148.00 and 6.4 h * 129.95.
    let lines: Vec<[&str; 3]> = rows[1..].iter().map(|r| [&r[2], &r[6], &r[7]]).collect();
    assert_eq!(
        lines,
        [["D100", "222.00", "EUR"], ["G200", "831.68", "EUR"]]
    );
    let ids: BTreeSet<&str> = rows[1..].iter().map(|r| &r[9]).collect();
    assert_eq!(ids.len(), 2, "each line has an id of its own");
    for row in &rows[1..] {
        assert!(
            !row[8].starts_with('='),
            "a spreadsheet would run {:?}",
            &row[8]
        );
    }
    let text = String::from_utf8(results.labour.clone()).expect("UTF-8");
    assert_eq!(
        text.matches("\r\n").count(),
        3,
        "RFC 4180 ends each line with CR LF"
    );
    assert_eq!(text.matches('\n').count(), 3);
}

#[test]
fn what_is_only_offered_is_not_billed() {
    let results = run("");
    assert_eq!(
        results.labour_rows().len(),
        1,
        "nothing was done and nothing authorised"
    );
    let offered = results.list("/labour");
    for step in [
        "teardown",
        "repair",
        "reassembly",
        "relearn",
        "proof-recording",
    ] {
        assert!(
            offered.iter().any(|l| l["step"] == step),
            "no {step} is offered: {offered:#?}"
        );
    }
}
