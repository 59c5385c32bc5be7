//! job.toml and shop.toml: wrong, missing, and filled in for the technician.

use crate::bench::{Bench, call};
use crate::jobs::{Files, drag, with_job_file};

/// A drag whose channel names tell what they measure.
fn telling_drag() -> Files {
    let shot = (1..)
        .map(|seed| drag(1, seed))
        .find(|s| s.telling_names)
        .expect("one tells");
    with_job_file(&shot)
}

fn job_toml(files: &Files) -> String {
    String::from_utf8(files["job.toml"].clone()).expect("UTF-8")
}

#[test]
fn a_wrong_key_in_the_job_file_is_named_and_the_recording_still_counts() {
    for (wrong, line, key, nearest) in [
        (
            "[vehicle]\nodometer_k = 81000\n",
            2,
            "odometer_k",
            "odometer_km",
        ),
        (
            "[job]\nnumber = \"R-1\"\nopend = 2026-03-02\n",
            3,
            "opend",
            "opened",
        ),
        (
            "[[capture]]\nfile = \"relearn.csv\"\nengine = \"runing\"\n",
            3,
            "engine",
            "running",
        ),
    ] {
        let mut files = telling_drag();
        files.insert("job.toml".into(), wrong.into());
        let bench = Bench::new();
        let (said, results) = bench.run(&bench.job("R-10", &files));
        let place = format!("job.toml, line {line}, key {key}:");
        said.ends_with(1).says(&[&place, nearest]);
        // What is right in it counts; its row carries the error all the same.
        let file = results.file("job.toml");
        assert_eq!(file["status"], "read");
        let message = file["message"].as_str().expect("a message");
        assert!(
            message.contains(&place) && message.contains(nearest),
            "{message}"
        );
        assert_eq!(results.file("relearn.csv")["status"], "read");
        assert!(
            !results.list("/findings").is_empty(),
            "the recording was not measured"
        );
    }
}

#[test]
fn a_capture_that_names_no_file_of_the_job_is_said() {
    let mut files = telling_drag();
    let words = job_toml(&files).replace("relearn.csv", "relaern.csv");
    files.insert("job.toml".into(), words.into_bytes());
    let bench = Bench::new();
    let (said, results) = bench.run(&bench.job("R-13", &files));
    let words = "job.toml, capture \"relaern.csv\": The job has no such file; its recordings are relearn.csv.";
    said.ends_with(0).says(&[words]);
    assert_eq!(results.verdict(), "open", "nobody said selector and engine");
}

/// Whole numbers in a column without a unit are asked about, and no longer once job.toml has answered.
#[test]
fn the_unit_of_time_is_asked_for_until_it_is_stated() {
    let rows: String = (0..3000)
        .map(|ms| format!("{ms};{}\n", if ms % 40 < 20 { 4.8 } else { 0.2 }))
        .collect();
    let section = "[[capture]]\nfile = \"shaft.csv\"\n";
    for (stated, asks) in [("", true), ("time_unit = \"ms\"\n", false)] {
        let job = format!("{section}{stated}");
        let table = format!("Time;Input shaft 1 [V]\n{rows}");
        let files = Files::from([
            ("job.toml".into(), job.into_bytes()),
            ("shaft.csv".into(), table.into_bytes()),
        ]);
        let bench = Bench::new();
        let (said, results) = bench.run(&bench.job("R-14", &files));
        assert_eq!(said.out.contains("has no unit"), asks, "{}", said.out);
        let problems = format!("{:?}", results.list("/problems"));
        assert_eq!(problems.contains("has no unit"), asks, "{problems}");
        let status = if asks { "set-aside" } else { "read" };
        assert_eq!(results.file("shaft.csv")["status"], status);
    }
}

#[test]
fn without_a_job_file_roles_are_guessed_and_said_to_be() {
    let mut files = telling_drag();
    files.remove("job.toml");
    let bench = Bench::new();
    let (said, results) = bench.run(&bench.job("R-11", &files));
    said.ends_with(0);
    let guessed: Vec<String> = results
        .list("/captures/0/channels")
        .iter()
        .filter(|c| c["role_source"].to_string().contains("guess"))
        .filter_map(|c| c["role"].as_str().map(String::from))
        .collect();
    for role in ["supply-current", "input-shaft-1", "input-shaft-2"] {
        assert!(
            guessed.iter().any(|g| g == role),
            "{role} is not among the guesses {guessed:?}"
        );
    }
    assert!(
        results.words().contains("guess"),
        "the report does not say what was guessed"
    );
    // Neither selector nor engine is known: a turning shaft proves nothing.
    assert_eq!(results.verdict(), "open");
    let next = results.next();
    assert!(
        next.contains(&"next-state-selector") && next.contains(&"next-state-engine"),
        "{next:?}"
    );
}

#[test]
fn the_filled_in_job_file_decides_once_it_is_answered() {
    let mut files = telling_drag();
    let whole = job_toml(&files);
    files.remove("job.toml");
    let bench = Bench::new();
    let job = bench.job("R-12", &files);
    let (_, open) = bench.run(&job);
    assert_eq!(open.verdict(), "open");
    let draft =
        std::fs::read_to_string(open.folder.join("job.toml")).expect("a filled-in job.toml");
    // As it is, it must be readable and change nothing.
    std::fs::write(job.join("job.toml"), &draft).expect("the job file");
    let (said, again) = bench.run(&job);
    said.ends_with(0);
    assert_eq!(again.verdict(), "open");
    // The technician takes the marks away and answers.
    let mut answered = String::new();
    for line in draft.lines() {
        let line = match line.trim_start_matches("# ") {
            l if l.starts_with("selector =") || l.starts_with("engine =") => l,
            l if l.starts_with("amps_per_volt =") => {
                said_in(&whole, "amps_per_volt").unwrap_or(line)
            }
            _ => line,
        };
        answered.push_str(line);
        answered.push('\n');
    }
    std::fs::write(job.join("job.toml"), &answered).expect("the job file");
    let (said, decided) = bench.run(&job);
    said.ends_with(0);
    assert_eq!(
        decided.verdict(),
        "established clutch-2-drag teardown",
        "{answered}"
    );
    assert!(
        !decided.folder.join("job.toml").exists(),
        "an answered question is still asked"
    );
}

/// Keys that are asked for in a filled-in file, as lines of it.
fn asked(draft: &str) -> Vec<usize> {
    let is_key = |line: &str| {
        let key = line.strip_prefix("# ").and_then(|l| l.split_once(" = "));
        key.is_some_and(|(key, _)| key.bytes().all(|b| b == b'_' || b.is_ascii_lowercase()))
    };
    let lines = draft.lines().enumerate();
    lines.filter(|(_, l)| is_key(l)).map(|(i, _)| i).collect()
}

/// The file with some of its lines uncommented.
fn uncommented(draft: &str, lines: &[usize]) -> String {
    let line = |(i, line): (usize, &str)| match lines.contains(&i) {
        true => format!("{}\n", line.trim_start_matches("# ")),
        false => format!("{line}\n"),
    };
    draft.lines().enumerate().map(line).collect()
}

#[test]
fn the_filled_in_job_file_is_right_whatever_is_uncommented() {
    let mut files = telling_drag();
    files.remove("job.toml");
    // A channel whose name would end a key, and one that says nothing.
    let csv = String::from_utf8(files["relearn.csv"].clone()).expect("UTF-8");
    let (header, rows) = csv.split_once('\n').expect("rows");
    let more = rows.lines().take(400).map(|row| format!("{row},1,2\n"));
    let odd = format!("{header},\"A\"\"]b\",C7\n{}", more.collect::<String>());
    files.insert("odd.csv".into(), odd.into_bytes());
    let bench = Bench::new();
    let job = bench.job("R-15", &files);
    let (_, open) = bench.run(&job);
    let draft = std::fs::read_to_string(open.folder.join("job.toml")).expect("a filled-in file");
    let asked = asked(&draft);
    assert!(asked.len() > 10, "{draft}");
    let right = |text: &str| {
        let known = settings::KnownNames::default();
        let parsed = settings::read_job_file(text, "job.toml", &known);
        assert!(parsed.errors.is_empty(), "{:#?}\n{text}", parsed.errors);
    };
    right(&draft);
    for line in &asked {
        right(&uncommented(&draft, &[*line]));
    }
    let all = uncommented(&draft, &asked);
    right(&all);
    std::fs::write(job.join("job.toml"), &all).expect("the job file");
    let (_, answered) = bench.run(&job);
    assert_eq!(answered.file("job.toml")["message"], "job file", "{all}");
}

#[test]
fn what_was_typed_is_kept_where_a_line_is_wrong() {
    let mut files = telling_drag();
    let typed = "[job]\nnumber = \"R-16\"\ntechnician = \"A. \\\"T\\\"\"\ndiagnosis_hours = 1,5\n\
                 [client]\nname = \"Garage\"\n[customer]\nphone = \"+1 555 0101\"\n[vehicle]\nplate = \"EX 16\"\n\
                 [unit]\ncylinders = 4\n[concern]\ntext = \"it's \\u00e4 \\\\ test\"\n\
                 [[capture]]\nfile = \"gone.csv\"\nphase = \"after\"\n[capture.channels.X]\nteeth = 36\n\
                 missing_teeth = 1\naccuracy_percent = 2.0\n";
    files.insert("job.toml".into(), typed.into());
    let bench = Bench::new();
    let (said, results) = bench.run(&bench.job("R-16", &files));
    said.ends_with(1).says(&["write 1.5 with a point"]);
    let draft = std::fs::read_to_string(results.folder.join("job.toml")).expect("a filled-in file");
    assert!(draft.contains("line 4: diagnosis_hours = 1,5"), "{draft}");
    let known = settings::KnownNames::default();
    let parsed = settings::read_job_file(&draft, "job.toml", &known);
    assert!(parsed.errors.is_empty(), "{:#?}\n{draft}", parsed.errors);
    let wanted = settings::read_job_file(typed, "job.toml", &known).value;
    let mut kept = parsed.value;
    let gone = kept.captures.iter().position(|c| c.file == "gone.csv");
    assert_eq!(
        kept.captures.remove(gone.expect("the section")),
        wanted.captures[0]
    );
    assert_eq!(kept.job, wanted.job);
    assert_eq!(kept.client, wanted.client);
    assert_eq!(kept.customer, wanted.customer);
    assert_eq!(kept.vehicle.plate, wanted.vehicle.plate);
    assert_eq!(kept.unit, wanted.unit);
    assert_eq!(kept.concern, wanted.concern);
}

/// The line of a TOML text that gives a key its value.
fn said_in<'a>(text: &'a str, key: &str) -> Option<&'a str> {
    text.lines().find(|l| l.starts_with(key))
}

#[test]
fn a_broken_shop_file_ends_before_any_work() {
    let bench = Bench::new();
    let job = bench.job("R-13", &telling_drag());
    for (wrong, place, hint) in [
        (
            "[shop]\nname = \"A\"\nadress = \"B\"\n",
            "line 3, key adress",
            "address",
        ),
        ("[shop]\nname = \"A\n", "line 2", "shop.toml"),
        (
            "[billing]\nhours_unit = \"tenth\"\n",
            "line 2, key hours_unit",
            "tenths",
        ),
        (
            "[billing]\ncurrency = \"EURO\"\nrates.work = 100\n",
            "line 2, key currency",
            "EURO",
        ),
    ] {
        let shop = bench.path("shop.toml");
        std::fs::write(&shop, wrong).expect("a shop file");
        let arguments = [
            "run".into(),
            job.clone(),
            "--out".into(),
            bench.path("out"),
            "--shop".into(),
            shop,
        ];
        call(arguments)
            .ends_with(2)
            .says(&[place, hint, "shop.toml"]);
        assert!(
            !bench.path("out/R-13").exists(),
            "work was done on half-read settings"
        );
    }
}
