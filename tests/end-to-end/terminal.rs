//! The command line: statuses, the verbs that only look, and sameness from run to run.

use crate::bench::{Bench, Results, call, contents};
use crate::jobs::{drag, evaluation_case, with_job_file};
use baybrief_evaluation::standstill;
use std::path::PathBuf;

#[test]
fn wrong_usage_ends_with_2_and_says_what_to_do() {
    let bench = Bench::new();
    let file = bench.path("relearn.csv");
    std::fs::write(&file, "a\n1\n").expect("a file");
    let text = |p: PathBuf| p.display().to_string();
    let (out, missing) = (text(bench.path("out")), text(bench.path("missing")));
    let (file, blocked) = (text(file.clone()), format!("{}/out", file.display()));
    let here = text(bench.path(""));
    let calls: [(&[&str], &str); 13] = [
        (&[], "Usage"),
        (&["dance"], "dance"),
        (&["run"], "JOB_FOLDER"),
        (&["run", &here], "--out"),
        (&["run", &missing, "--out", &out], "missing"),
        (&["run", &file, "--out", &out], "is a file"),
        (&["run", &here, "--out", &blocked], "--out"),
        (&["run", &here, &here, "--out", &out], "both named"),
        (
            &["run", &here, "--out", &out, "--shop", &missing],
            "missing",
        ),
        (&["watch", &missing, "--out", &out], "missing"),
        (
            &["watch", &here, "--out", &out, "--settle", "0"],
            "--settle",
        ),
        (&["inspect"], "FILE"),
        (&["plugins", "--validate", &missing], "missing"),
    ];
    for (arguments, word) in calls {
        call(arguments).ends_with(2).says(&[word]);
    }
    assert!(
        contents(&bench.path("")).len() == 1,
        "a wrong call left files"
    );
}

/// A reader that has seen enough is no error, and what was asked for is done all the same.
#[test]
fn a_closed_pipe_is_no_error() {
    let bench = Bench::new();
    let job = bench.job("R-21", &with_job_file(&drag(0, 1)));
    let texts = |arguments: Vec<PathBuf>| arguments.into_iter().map(|a| a.display().to_string());
    let run: Vec<String> = texts(bench.run_arguments(&job, "out")).collect();
    let schema = vec!["schema".to_string()];
    let help = vec!["--help".to_string()];
    for arguments in [schema, help, run] {
        let mut child = crate::bench::command(&arguments)
            .stdout(std::process::Stdio::piped())
            .stderr(std::process::Stdio::piped())
            .spawn()
            .expect("it starts");
        drop((child.stdout.take(), child.stderr.take()));
        let status = child.wait().expect("it ends");
        assert_eq!(status.code(), Some(0), "{arguments:?}");
    }
    assert!(bench.path("out/R-21/report.pdf").exists());
}

/// From a first shop.toml by questions to a report with its prices.
#[test]
fn a_first_shop_file_by_questions_prices_a_job() {
    use std::io::Write;
    let bench = Bench::new();
    let file = bench.path("shop.toml");
    let init = || {
        let mut child = crate::bench::command(["init".into(), file.clone()])
            .stdin(std::process::Stdio::piped())
            .stdout(std::process::Stdio::piped())
            .stderr(std::process::Stdio::piped())
            .spawn()
            .expect("it starts");
        let answers = "Invented Shop\n\n\n\n\n\n\n\n\n100\n\n20\n0.5\n6\n2\n5\n0.5\n0.5\n\n\n";
        // It may end before it has read them.
        let _ = child
            .stdin
            .take()
            .expect("a pipe")
            .write_all(answers.as_bytes());
        crate::bench::said(child.wait_with_output().expect("it ends"))
    };
    init().ends_with(0).says(&["Written to"]);
    let written = std::fs::read_to_string(&file).expect("a shop.toml");
    init().ends_with(2).says(&["stays as it is"]);
    assert_eq!(std::fs::read_to_string(&file).ok(), Some(written));
    let job = bench.job("R-22", &with_job_file(&drag(0, 1)));
    let mut arguments = bench.run_arguments(&job, "out");
    arguments[5] = file;
    call(arguments).ends_with(0);
    let results = Results::read(&bench.path("out"), &job);
    let offered = results.list("/labour").iter();
    let teardown: Vec<&str> = offered
        .filter(|l| l["operation"] == "A200")
        .filter_map(|l| l["net_amount"].as_str())
        .collect();
    assert_eq!(teardown, ["600.00"], "6 h at 100.00");
}

#[test]
fn results_inside_the_inbox_are_refused() {
    let bench = Bench::new();
    let inbox = bench.job("inbox", &Default::default());
    let out = inbox.join("out");
    call(["watch".into(), inbox, "--out".into(), out])
        .ends_with(2)
        .says(&["inside the inbox"]);
}

/// The job done twice, into two folders: the same bytes.
#[test]
fn the_same_job_gives_the_same_bytes() {
    let (files, _) = evaluation_case(standstill::after_repair, 30);
    let bench = Bench::new();
    let job = bench.job("R-20", &files);
    let results = ["first", "second"].map(|out| {
        call(bench.run_arguments(&job, out)).ends_with(0);
        Results::read(&bench.path(out), &job)
    });
    let [first, second] = results;
    let differs = first.pdf.iter().zip(&second.pdf).position(|(a, b)| a != b);
    assert_eq!(
        differs,
        None,
        "report.pdf differs, case.json {}",
        first.case == second.case
    );
    assert_eq!(first.pdf.len(), second.pdf.len());
    assert!(first.labour == second.labour, "labour.csv differs");
    assert_eq!(first.case, second.case);
    assert_eq!(
        std::fs::read(first.folder.join("case.json")).ok(),
        std::fs::read(second.folder.join("case.json")).ok(),
    );
}

#[test]
fn several_jobs_in_one_call_each_get_their_report() {
    let bench = Bench::new();
    let good = bench.job("good", &with_job_file(&drag(0, 1)));
    let mut files = with_job_file(&drag(1, 2));
    files.insert("empty.csv".into(), Vec::new());
    let half = bench.job("half", &files);
    let out = bench.path("out");
    let said = call([
        "run".into(),
        good.clone(),
        half.clone(),
        "--out".into(),
        out.clone(),
    ]);
    said.ends_with(1)
        .says(&["good: established", "half: established", "empty.csv"]);
    assert_eq!(
        Results::read(&out, &good).verdict(),
        "established clutch-1-drag teardown"
    );
    assert_eq!(
        Results::read(&out, &half).verdict(),
        "established clutch-2-drag teardown"
    );
}

#[test]
fn a_plain_pipe_gets_plain_lines() {
    let bench = Bench::new();
    let job = bench.job("R-21", &with_job_file(&drag(0, 1)));
    let said = call(bench.run_arguments(&job, "out")).ends_with(0);
    for text in [&said.out, &said.err] {
        assert!(
            !text.contains(['\u{1b}', '\r', '\u{7}']),
            "not plain: {text:?}"
        );
    }
    assert!(
        said.out.lines().count() >= 2 && said.out.ends_with('\n'),
        "{:?}",
        said.out
    );
}

#[test]
fn the_demo_goes_from_nothing_to_a_report() {
    let bench = Bench::new();
    let said = call(["demo".into(), "--out".into(), bench.path("demo")]).ends_with(0);
    let inbox = bench.path("demo/inbox/demo-dual-dry-clutch");
    let results = Results::read(&bench.path("demo/out"), &inbox);
    let lines: Vec<&str> = said.out.lines().filter(|l| !l.is_empty()).collect();
    let (sentence, paths) = lines.split_last().expect("it says something");
    for (line, name) in paths.iter().zip(["report.pdf", "labour.csv", "case.json"]) {
        let path = line.split_once(':').map(|(_, p)| p.trim()).expect("a path");
        assert!(
            path.ends_with(name) && PathBuf::from(path).is_file(),
            "{line}"
        );
    }
    assert_eq!(paths.len(), 3, "{}", said.out);
    assert!(
        sentence.contains("established") && sentence.contains("Clutch 1"),
        "{sentence}"
    );
    assert_eq!(results.verdict(), "established clutch-1-drag teardown");
    inspect_each_demo_file(&inbox);
}

fn inspect_each_demo_file(inbox: &std::path::Path) {
    let before = contents(inbox);
    for (file, words) in [
        (
            "standstill in P.csv",
            ["recording", "\"Gearbox fuse\" [V]", "231.", "5000 S/s"],
        ),
        (
            "second attempt in N.wav",
            ["recording", "channel \"1\"", "channel \"5\"", "5000 S/s"],
        ),
        (
            "scan.txt",
            ["scan text", "P0716", "TCM", "odometer 143870 km"],
        ),
        (
            "job.toml",
            ["job file", "2 recordings described", "job.toml", ""],
        ),
    ] {
        call(["inspect".into(), inbox.join(file)])
            .ends_with(0)
            .says(&words);
    }
    assert!(contents(inbox) == before, "looking changed something");
}

#[test]
fn inspecting_a_bad_file_says_what_is_wrong_and_goes_on() {
    let bench = Bench::new();
    let files = [
        ("empty.csv", Vec::new()),
        (
            "good.csv",
            with_job_file(&drag(0, 1))["relearn.csv"].clone(),
        ),
        ("job.toml", b"[job]\nnumbr = 1\n".to_vec()),
    ];
    let job = bench.job("R-22", &files.map(|(n, b)| (n.to_string(), b)).into());
    let mut arguments: Vec<PathBuf> = vec!["inspect".into()];
    arguments.extend(["empty.csv", "good.csv", "job.toml", "gone.csv"].map(|n| job.join(n)));
    let words = [
        "the file is empty",
        "recording",
        "line 2, key numbr",
        "number",
        "gone.csv",
    ];
    call(arguments).ends_with(1).says(&words);
}
