//! labour.csv and the life of a line: what is authorised and done is billed, what is only offered is not.

use crate::bench::{Bench, Results, Said, call};
use crate::jobs::{Files, drag, evaluation_case, with_job_file};
use baybrief_evaluation::standstill;
use rust_decimal::Decimal;
use std::collections::BTreeSet;
use std::path::PathBuf;

/// A drag, with these words in job.toml's `[job]`, for the example shop.
fn run(words: &str) -> Results {
    let bench = Bench::new();
    let (said, results) = bench.run(&job(&bench, words));
    said.ends_with(0);
    results
}

/// A job folder with a drag, with these words in job.toml's `[job]`.
fn job(bench: &Bench, words: &str) -> PathBuf {
    let mut files: Files = with_job_file(&drag(0, 1));
    let job = String::from_utf8(files["job.toml"].clone()).expect("UTF-8");
    let (head, captures) = job.split_at(job.find("[[capture]]").expect("a section"));
    let head = head.replace("[job]\n", "");
    assert!(!head.contains("[job]"), "{head}");
    files.insert(
        "job.toml".into(),
        format!("[job]\n{words}\n{head}{captures}").into(),
    );
    bench.job("R-50", &files)
}

/// `run` with a shop.toml of this text.
fn run_for(bench: &Bench, shop: &str, words: &str) -> Said {
    let path = bench.path("shop.toml");
    std::fs::write(&path, shop).expect("a shop.toml");
    let mut arguments = bench.run_arguments(&job(bench, words), "out");
    arguments[5] = path;
    call(arguments)
}

/// Calls a command about the lines of R-50.
fn record(bench: &Bench, arguments: &[&str]) -> Said {
    let (verb, rest) = arguments.split_first().expect("a verb");
    let out = bench.path("out").display().to_string();
    call([&[*verb, "R-50", "--out", &out], rest].concat())
}

/// The same drag with this work authorised and done; the files are there as long as the bench.
fn carry_out(words: &str, lines: &str) -> (Bench, Results) {
    let bench = Bench::new();
    let job = job(&bench, words);
    bench.run(&job).0.ends_with(0);
    let how = [
        "--by",
        "C. Invented",
        "--how",
        "telephone",
        "--lines",
        lines,
    ];
    record(&bench, &[&["authorise"], &how[..]].concat()).ends_with(0);
    record(&bench, &["complete", "--by", "=Robin", "--lines", lines]).ends_with(0);
    let results = Results::read(&bench.path("out"), &job);
    (bench, results)
}

#[test]
fn hours_times_rate_by_the_cent_in_rfc_4180() {
    let (_bench, results) = carry_out("technician = \"=Robin\"\ndiagnosis_hours = 1.5", "G200");
    let rows = results.labour_rows();
    let header = "job,line,operation,description,quantity,hours,rate,net_amount,tax_rate,currency,technician,line_id";
    assert_eq!(rows[0].iter().collect::<Vec<_>>().join(","), header);
    // Rates and hours of examples/shop.toml; by hand: 1.5 h * 148.00 and 6.4 h * 129.95.
    let lines: Vec<[&str; 3]> = rows[1..].iter().map(|r| [&r[2], &r[7], &r[9]]).collect();
    assert_eq!(
        lines,
        [["D100", "222.00", "EUR"], ["G200", "831.68", "EUR"]]
    );
    let ids: BTreeSet<&str> = rows[1..].iter().map(|r| &r[11]).collect();
    assert_eq!(ids.len(), 2, "each line has an id of its own");
    for row in &rows[1..] {
        assert!(
            !row[10].starts_with('='),
            "a spreadsheet would run {:?}",
            &row[10]
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

/// A motor is replaced and proven; nothing of it is relearned and nothing opened.
#[test]
fn only_steps_that_a_system_has_are_offered() {
    let bench = Bench::new();
    let files: Files = simulator::systems::dc_motor::folder().files;
    let (said, results) = bench.run(&bench.job("D-0109", &files));
    said.ends_with(0);
    let lines = results.list("/labour");
    let steps: BTreeSet<&str> = lines.iter().filter_map(|l| l["step"].as_str()).collect();
    assert_eq!(
        steps,
        BTreeSet::from(["diagnosis", "repair", "proof-recording"]),
        "{lines:#?}"
    );
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

#[test]
fn the_report_and_the_csv_never_disagree() {
    let (_bench, results) = carry_out("diagnosis_hours = 1.5", "G200,G310");
    let words = results.words();
    let rows = results.labour_rows();
    assert_eq!(rows.len(), 4);
    let billed = results
        .list("/labour")
        .iter()
        .filter(|l| l["state"] == "billed");
    let told: Vec<[&str; 4]> = billed
        .map(|l| {
            ["operation", "hours", "rate", "net_amount"].map(|key| l[key].as_str().expect("a text"))
        })
        .collect();
    let written: Vec<[&str; 4]> = rows[1..]
        .iter()
        .map(|r| [&r[2], &r[5], &r[6], &r[7]])
        .collect();
    assert_eq!(
        told, written,
        "case.json, from which the report is made, and labour.csv"
    );
    let mut net = Decimal::ZERO;
    for [_, hours, rate, amount] in written {
        // The table's own way of writing money, in a row with the line's hours.
        let row = format!("{hours} h {rate} EUR {amount} EUR");
        assert!(
            words.contains(&row),
            "{row:?} is not in the report: {words}"
        );
        net += Decimal::from_str_exact(amount).expect("a decimal");
    }
    let total = |key: &str| {
        results
            .at(&format!("/labour_totals/done/{key}"))
            .as_str()
            .expect("a text")
    };
    assert_eq!(net.to_string(), total("net"), "EN 16931 BR-CO-10");
    for key in ["net", "tax", "gross"] {
        let sum = grouped(total(key));
        assert!(
            words.contains(&sum),
            "{key} {sum:?} is not in the report: {words}"
        );
    }
}

/// An amount as the report writes it, with its thousands apart.
fn grouped(amount: &str) -> String {
    match amount.len() {
        7.. => format!(
            "{},{} EUR",
            &amount[..amount.len() - 6],
            &amount[amount.len() - 6..]
        ),
        _ => format!("{amount} EUR"),
    }
}

#[test]
fn a_currency_that_is_none_is_named_with_its_line_even_without_a_price() {
    let bench = Bench::new();
    let shop = "[shop]\nname = \"Invented\"\n\n[billing]\ncurrency = \"EURO\"\n";
    run_for(&bench, shop, "").ends_with(2).says(&[
        "shop.toml, line 5, key currency:",
        "EURO",
        "ISO 4217",
    ]);
    assert!(
        !bench.path("out").join("R-50").exists(),
        "nothing is done with half-read settings"
    );
    let misspelt = "[billing]\ncurrency = \"EUR\"\nrates = { m = 1 }\n[[billing.operation]]\ncode = \"A\"\n\
                    step = \"repair\"\ndescription = \"x\"\nhours = 1\ncauses = [\"clutch-2-drga\"]\n";
    run_for(&bench, misspelt, "")
        .ends_with(2)
        .says(&["line 9, key causes:", "clutch-2-drga"]);
}

#[test]
fn the_draft_and_the_order_texts_lie_beside_the_csv() {
    let words = "number = \"R-77\"\nopened = 2026-03-02\ndiagnosis_hours = 1.5";
    let (_bench, results) = carry_out(words, "G200");
    let read = |name: &str| std::fs::read_to_string(results.folder.join(name)).expect(name);
    let draft = read("invoice_draft.xml");
    // By hand: 1.5 h * 148.00 + 6.4 h * 129.95 = 222.00 + 831.68; 19 % of it is 200.1992.
    for part in [
        "<cbc:ID>DRAFT-R-77</cbc:ID>",
        "<cbc:LineExtensionAmount currencyID=\"EUR\">1053.68</cbc:LineExtensionAmount>",
        "<cbc:PayableAmount currencyID=\"EUR\">1253.88</cbc:PayableAmount>",
        "unitCode=\"HUR\">6.4<",
        "Not an invoice issued.",
    ] {
        assert!(draft.contains(part), "{part} is not in {draft}");
    }
    let order = read("repair_order.txt");
    let headings = ["Complaint\n", "\nCause\n", "\nCorrection\n"];
    assert!(headings.iter().all(|h| order.contains(h)), "{order}");
    assert!(order.contains("established by measurement"), "{order}");
    assert!(order.contains("Remove and open the gearbox"), "{order}");
    assert_eq!(
        results
            .at("/order/complaint")
            .as_str()
            .map(|t| order.contains(t)),
        Some(true)
    );
}

/// From the offer to the bill by the command line: who, how, up to what sum; what exceeds it is held.
#[test]
fn a_line_goes_from_offer_to_bill() {
    let bench = Bench::new();
    let job = job(&bench, "");
    bench
        .run(&job)
        .0
        .says(&["hours are missing", "diagnosis_hours"]);
    let by = ["--by", "C. Invented"];
    let with = |arguments: &[&str]| record(&bench, &[arguments, &by[..]].concat());
    // Stages are authorised apart; nothing is done that is not authorised; a sum says net or gross.
    with(&["authorise", "--how", "telephone"])
        .ends_with(2)
        .says(&["teardown (", "gross"]);
    with(&["complete", "--lines", "G200"])
        .ends_with(2)
        .says(&["G200 is not authorised"]);
    with(&["authorise", "--how", "telephone", "--up-to", "100"]).ends_with(2);
    with(&["complete", "--lines", "G999"])
        .ends_with(2)
        .says(&["G999", "G200"]);
    // By hand: opening and closing are 11.5 h * 129.95 = 1494.43 net, 1778.37 gross.
    let up_to = [
        "authorise",
        "--how",
        "message",
        "--lines",
        "teardown",
        "--gross",
        "--up-to",
    ];
    with(&[&up_to[..], &["1778.36"]].concat())
        .ends_with(0)
        .says(&["1,778.36 EUR gross", "held"]);
    with(&[&up_to[..], &["1778.37"]].concat())
        .ends_with(0)
        .says(&["authorised by C. Invented"]);
    with(&["complete", "--lines", "D100", "--hours", "1.4"]).ends_with(0);
    with(&["complete", "--at", "9.3.2026"])
        .ends_with(2)
        .says(&["2026-03-09 14:05"]);
    with(&["complete", "--at", "2999-03-09 14:05"])
        .ends_with(2)
        .says(&["lies ahead"]);
    with(&["complete", "--at", "2026-03-09 14:05"])
        .ends_with(0)
        .says(&["2026-03-09 14:05 done G200, G210"]);
    with(&["decline", "--how", "telephone"]).ends_with(0);
    let results = Results::read(&bench.path("out"), &job);
    let rows = results.labour_rows();
    let billed: Vec<[&str; 2]> = rows[1..].iter().map(|r| [&r[2], &r[7]]).collect();
    // By hand: 1.4 h * 148.00, 6.4 h and 5.1 h * 129.95.
    assert_eq!(
        billed,
        [["D100", "207.20"], ["G200", "831.68"], ["G210", "662.75"]]
    );
    let states = results.list("/labour").iter();
    let states: Vec<&str> = states.filter_map(|l| l["state"].as_str()).collect();
    assert!(
        states.contains(&"declined") && !states.contains(&"offered"),
        "{states:?}"
    );
    let out = bench.path("out").display().to_string();
    call(["status", "R-50", "--out", &out]).ends_with(0).says(&[
        "authorised G200, G210 up to 1,778.37 EUR gross by C. Invented (by message)",
        "declined",
    ]);
}

/// One job from its files to the proof of its repair: what is billed at each step, and the whole by hand.
#[test]
fn a_job_from_files_to_authorised_done_billed_and_proven() {
    let bench = Bench::new();
    let (files, _) = evaluation_case(standstill::after_repair, 30);
    let words = String::from_utf8(files["job.toml"].clone()).expect("UTF-8");
    let mut words: model::JobFile = toml::from_str(&words).expect("a job file");
    let is_after =
        |c: &model::job_file::CaptureSection| c.phase == Some(model::job_file::Phase::After);
    let later: Vec<String> = words
        .captures
        .iter()
        .filter(|c| is_after(c))
        .map(|c| c.file.clone())
        .collect();
    words.captures.retain(|c| !is_after(c));
    let mut before = files.clone();
    before.retain(|name, _| !later.contains(name));
    before.insert(
        "job.toml".into(),
        toml::to_string(&words).expect("TOML").into_bytes(),
    );
    assert!(before.len() < files.len(), "{:?}", files.keys());
    let job = bench.job("R-50", &before);
    let (said, offered) = bench.run(&job);
    said.ends_with(0);
    assert!(
        offered.verdict().starts_with("established") && offered.verdict().ends_with("teardown")
    );
    assert_eq!(offered.labour_rows().len(), 1, "the header alone");
    let owner = ["--by", "B. Owner", "--how", "signed"];
    let by = |arguments: &[&str]| record(&bench, &[arguments, &["--by", "A. Technician"]].concat());
    record(
        &bench,
        &[&["authorise", "--lines", "teardown"], &owner[..]].concat(),
    )
    .ends_with(0);
    by(&["complete", "--lines", "D100", "--hours", "1.4"]).ends_with(0);
    by(&["complete"]).ends_with(0);
    record(
        &bench,
        &[&["authorise", "--lines", "repair"], &owner[..]].concat(),
    )
    .ends_with(0);
    by(&["complete"]).ends_with(0);
    let done = Results::read(&bench.path("out"), &job);
    // Hours and rates of examples/shop.toml, by hand: 1.4 h * 148.00; 6.4, 2.3, 5.1, 0.7 h * 129.95 (298.885, 662.745
    // and 90.965 go up); 0.4 h * 148.00.
    let wanted = [
        ["D100", "207.20"],
        ["G200", "831.68"],
        ["G210", "662.75"],
        ["G310", "298.89"],
        ["G500", "90.97"],
        ["D900", "59.20"],
    ];
    let mut billed: Vec<[String; 2]> = (done.labour_rows()[1..].iter())
        .map(|r| [r[2].to_string(), r[7].to_string()])
        .collect();
    billed.sort();
    let mut sorted = wanted.map(|row| row.map(String::from)).to_vec();
    sorted.sort();
    assert_eq!(billed, sorted);
    // 2150.69 net; 19 % of it is 408.6311.
    for (key, sum) in [("net", "2150.69"), ("tax", "408.63"), ("gross", "2559.32")] {
        assert_eq!(done.at(&format!("/labour_totals/done/{key}")), sum);
    }
    let draft = std::fs::read_to_string(done.folder.join("invoice_draft.xml")).expect("a draft");
    assert!(
        draft.contains("<cbc:PayableAmount currencyID=\"EUR\">2559.32<"),
        "{draft}"
    );
    // The recording after the repair: it proves it, offers nothing more, and changes no bill.
    bench.job("R-50", &files);
    let (said, proven) = bench.run(&job);
    said.ends_with(0);
    assert_eq!(proven.at("/verdict/repair/proven"), true);
    assert!(proven.labour == done.labour, "{:?}", proven.labour_rows());
    let states: BTreeSet<&str> = (proven.list("/labour").iter())
        .filter_map(|l| l["state"].as_str())
        .collect();
    assert_eq!(states, BTreeSet::from(["billed"]));
}

/// A wrong line costs that line: what the file said before counts in its place, and nothing billed is taken back.
#[test]
fn a_job_file_that_breaks_later_takes_nothing_back() {
    let bench = Bench::new();
    let job = job(&bench, "number = \"R-9\"\ndiagnosis_hours = 1.5");
    let (said, sound) = bench.run(&job);
    said.ends_with(0);
    assert_eq!(sound.labour_rows().len(), 2);
    let right = std::fs::read_to_string(job.join("job.toml")).expect("the job file");
    let selector = right
        .lines()
        .find(|l| l.starts_with("selector"))
        .expect("a selector");
    let wrong = right
        .replace("number = \"R-9\"", "number = R-9")
        .replace("diagnosis_hours = 1.5", "diagnosis_hours = one and a half")
        .replace(selector, "selector = \"Q\"");
    for bytes in [wrong.clone().into_bytes(), b"\xFF\xFE[job]".to_vec()] {
        std::fs::write(job.join("job.toml"), bytes).expect("a mistake");
        let (said, broken) = bench.run(&job);
        said.ends_with(1)
            .says(&["as it was last right", "Nothing is handed over"]);
        assert_eq!(broken.verdict(), sound.verdict());
        assert_eq!(broken.at("/job/number"), "R-9");
        assert!(broken.labour == sound.labour, "{:?}", broken.labour_rows());
    }
    let out = bench.path("out").display().to_string();
    call(["status", "--out", &out]).says(&["what is wrong in job.toml put right"]);
    std::fs::write(job.join("job.toml"), right.replace("= 1.5", "= 2.0")).expect("it is mended");
    let (said, mended) = bench.run(&job);
    said.ends_with(0);
    // The row, its reversal and the new one: 2.0 h * 148.00.
    let rows = mended.labour_rows();
    let amounts: Vec<&str> = rows[1..].iter().map(|r| &r[7]).collect();
    assert_eq!(amounts, ["222.00", "-222.00", "296.00"]);
}

/// Nothing to report on: no report, no line, and what is missing is said wherever a person looks.
#[test]
fn a_job_without_recording_and_scan_text_has_no_report_and_no_bill() {
    let bench = Bench::new();
    let shop = std::fs::read_to_string(crate::bench::example_shop()).expect("the example shop");
    let shop = shop.replace("# flat_fee = \"180.00\"", "flat_fee = \"180.00\"");
    let path = bench.path("shop.toml");
    std::fs::write(&path, shop).expect("a shop.toml");
    let mut files = Files::from([
        (
            "job.toml".to_string(),
            b"[job]\ndiagnosis_hours = 1.5\n".to_vec(),
        ),
        (
            "photo.png".to_string(),
            include_bytes!("../../report-templates/customer/sample/page-one.png").to_vec(),
        ),
    ]);
    let job = bench.job("R-55", &files);
    let out = bench.path("out");
    let mut arguments = bench.run_arguments(&job, "out");
    arguments[5] = path;
    let missing = "no recording and no scan-tool text";
    call(&arguments).ends_with(1).says(&[missing]);
    let folder = out.join("R-55");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).expect(name);
    assert!(!folder.join("report.pdf").exists() && !folder.join("technician.pdf").exists());
    assert_eq!(read("labour.csv").lines().count(), 1, "the header alone");
    assert!(read("problems.txt").contains(missing));
    let at = out.display().to_string();
    call(["status", "--out", &at]).says(&["R-55: no report", "a recording or a scan-tool text"]);
    call(["sign", "R-55", "--by", "A. Reviewer", "--out", &at])
        .ends_with(2)
        .says(&["no report to sign"]);
    files.insert("scan.txt".into(), b"P0894 confirmed\n".to_vec());
    bench.job("R-55", &files);
    call(&arguments).ends_with(0);
    let results = Results::read(&out, &job);
    // The flat fee of the example shop.
    assert_eq!(&results.labour_rows()[1][7], "180.00");
    // What it was made from goes away again: so does the report, and the bill stays as it is.
    std::fs::remove_file(job.join("scan.txt")).expect("it goes");
    call(&arguments).ends_with(1);
    assert!(!folder.join("report.pdf").exists() && folder.join("rev-2/report.pdf").exists());
    assert!(std::fs::read(folder.join("labour.csv")).expect("rows") == results.labour);
}

#[test]
fn two_jobs_with_one_number_are_both_named_and_hand_nothing_over() {
    let bench = Bench::new();
    let words = "number = \"R-7\"\ndiagnosis_hours = 1.5";
    let first = job(&bench, words);
    bench.run(&first).0.ends_with(0);
    let second = bench.path("jobs").join("R-51");
    std::fs::create_dir_all(&second).expect("a folder");
    for entry in std::fs::read_dir(&first).expect("a folder").flatten() {
        std::fs::copy(entry.path(), second.join(entry.file_name())).expect("a copy");
    }
    let (said, results) = bench.run(&second);
    said.ends_with(1).says(&["R-50", "R-51", "[job] number"]);
    assert!(!results.pdf.is_empty(), "the report is made");
    assert_eq!(results.labour_rows().len(), 1, "the header alone");
    let out = bench.path("out").display().to_string();
    for job in ["R-50", "R-51"] {
        call(["sign", job, "--by", "A. Reviewer", "--out", &out])
            .ends_with(1)
            .says(&["R-50", "R-51"]);
    }
    let kept = Results::read(&bench.path("out"), &first);
    assert_eq!(kept.labour_rows().len(), 2, "what was handed over stays");
}
