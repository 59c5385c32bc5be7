//! A person's review: the draft mark, the signature, and what makes it a draft again.

use crate::bench::{Bench, PRICES, Results, Said, call, said};
use crate::jobs::{Files, drag, with_job_file};
use std::fs;
use std::path::{Path, PathBuf};

const DRAFT_MARK: &str = "DRAFT: no person has checked it yet";

fn sign(bench: &Bench, job: &str, by: &str) -> Said {
    let out = bench.path("out").display().to_string();
    let note = "looked at the second attempt";
    call(["sign", job, "--by", by, "--note", note, "--out", &out])
}

fn status(bench: &Bench) -> String {
    let out = bench.path("out").display().to_string();
    call(["status", "--out", &out]).ends_with(0).out
}

fn run(bench: &Bench, job: &Path, shop: &Path) -> Results {
    let out = bench.path("out");
    let arguments: [PathBuf; 6] = [
        "run".into(),
        job.into(),
        "--out".into(),
        out.clone(),
        "--shop".into(),
        shop.into(),
    ];
    call(arguments).ends_with(0);
    Results::read(&out, job)
}

fn files() -> Files {
    let mut files = with_job_file(&drag(0, 1));
    let words = String::from_utf8(files["job.toml"].clone()).expect("text");
    let words = match words.contains("[job]") {
        true => words.replacen("[job]", "[job]\ndiagnosis_hours = 1.5", 1),
        false => format!("[job]\ndiagnosis_hours = 1.5\n{words}"),
    };
    files.insert("job.toml".into(), words.into_bytes());
    files
}

#[test]
fn a_signature_takes_the_draft_mark_away_and_a_change_brings_it_back() {
    let bench = Bench::new();
    let shop = bench.path("shop.toml");
    fs::write(&shop, PRICES).expect("the settings");
    let job = bench.job("R-50", &files());

    let draft = run(&bench, &job, &shop);
    assert!(draft.words().contains(DRAFT_MARK));
    assert_eq!(draft.labour_rows().len(), 2, "the diagnosis is done");
    assert!(status(&bench).contains("R-50: report 1, draft"));

    sign(&bench, "R-51", "A. Reviewer")
        .ends_with(2)
        .says(&["R-51", "R-50"]);
    sign(&bench, "R-50", " ").ends_with(2).says(&["--by"]);
    sign(&bench, "R-50", "A. Reviewer").ends_with(0);
    let signed = Results::read(&bench.path("out"), &job);
    assert!(!signed.words().contains(DRAFT_MARK));
    assert!(signed.words().contains("Reviewed by A. Reviewer"));
    assert_eq!(signed.at("/job/reviewed_by"), "A. Reviewer");
    assert_eq!(signed.at("/job/revision"), 1);
    assert!(signed.labour == draft.labour, "a review bills nothing");
    assert!(fs::read(signed.folder.join("rev-1/report.pdf")).ok() == Some(signed.pdf.clone()));
    assert!(status(&bench).contains("R-50: report 1 signed by A. Reviewer"));
    let page = fs::read_to_string(bench.path("out/index.html")).expect("the page");
    assert!(page.contains("report 1 signed by A. Reviewer"));
    sign(&bench, "R-50", "B. Other")
        .ends_with(2)
        .says(&["A. Reviewer"]);

    // Done again without a change: still signed, and nothing is handed over twice.
    let again = run(&bench, &job, &shop);
    assert!(again.pdf == signed.pdf && again.labour == signed.labour);

    // A change: the signature is not for what it says now.
    let words = fs::read_to_string(job.join("job.toml")).expect("text");
    fs::write(job.join("job.toml"), words.replace("= 1.5", "= 2.0")).expect("a change");
    let changed = run(&bench, &job, &shop);
    assert!(changed.words().contains(DRAFT_MARK));
    assert_eq!(changed.at("/job/revision"), 2);
    assert!(changed.at("/job/reviewed_by").is_null());
    // The first line, its reversal and the new one.
    assert_eq!(
        changed.labour_rows().len(),
        4,
        "{:?}",
        changed.labour_rows()
    );
    let kept = fs::read(changed.folder.join("rev-1/report.pdf")).expect("the signed report");
    assert!(kept == signed.pdf, "the signed report is kept");

    // What has changed since it was looked at cannot be signed.
    fs::write(job.join("scan.txt"), "P0894 confirmed\n").expect("a late file");
    sign(&bench, "R-50", "A. Reviewer")
        .ends_with(1)
        .says(&["have changed"]);
    fs::remove_file(job.join("scan.txt")).expect("it goes again");
    sign(&bench, "R-50", "A. Reviewer").ends_with(0);
    let last = Results::read(&bench.path("out"), &job);
    assert!(last.labour == changed.labour);
}

#[test]
fn settings_that_changed_since_the_review_are_not_signed() {
    let bench = Bench::new();
    let shop = bench.path("shop.toml");
    fs::write(&shop, PRICES).expect("the settings");
    let job = bench.job("R-52", &files());
    run(&bench, &job, &shop);
    fs::write(&shop, PRICES.replace("100.00", "200.00")).expect("dearer");
    sign(&bench, "R-52", "A. Reviewer")
        .ends_with(1)
        .says(&["settings"]);
}

#[test]
fn a_folder_without_results_is_said() {
    let bench = Bench::new();
    let out = bench.path("").display().to_string();
    for arguments in [
        vec!["status", "--out", &out],
        vec!["sign", "R-1", "--by", "A. Reviewer", "--out", &out],
    ] {
        let output = crate::bench::command(arguments)
            .output()
            .expect("it starts");
        said(output).ends_with(1).says(&["no results", "--out"]);
    }
    assert!(
        fs::read_dir(bench.path(""))
            .expect("a folder")
            .next()
            .is_none()
    );
}

#[test]
fn what_is_set_aside_is_told_in_plain_words() {
    let bench = Bench::new();
    let mut files = files();
    files.insert("empty.csv".into(), Vec::new());
    files.insert(
        "notes.bin".into(),
        vec![0xFD, 0xD8, 0xFF, 0xE0, 0, 16, 1, 2, 3],
    );
    let job = bench.job("R-53", &files);
    let out = bench.path("out");
    call(["run".into(), job.clone(), "--out".into(), out.clone()]).ends_with(1);
    let results = Results::read(&out, &job);
    let told = fs::read_to_string(results.folder.join("problems.txt")).expect("problems.txt");
    for words in [
        "set aside",
        "empty.csv",
        "notes.bin",
        "Nothing in the inbox was moved",
    ] {
        assert!(told.contains(words), "{words:?} is not said:\n{told}");
    }
    assert_eq!(results.file("notes.bin")["status"], "set-aside");
    fs::remove_file(job.join("empty.csv")).expect("it goes");
    fs::remove_file(job.join("notes.bin")).expect("it goes");
    call(["run".into(), job.clone(), "--out".into(), out]).ends_with(0);
    let left = fs::read_to_string(results.folder.join("problems.txt")).unwrap_or_default();
    assert!(!left.contains("set aside"), "{left}");
}
