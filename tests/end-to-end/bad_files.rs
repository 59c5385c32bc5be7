//! Files that are empty, cut, foreign or lying, beside good ones.

use crate::bench::{Bench, Results, Said};
use crate::jobs::{Files, drag, with_job_file};
use simulator::csv::{CsvDialect, Encoding};

/// The head of a 16-bit WAVE file of one channel whose data chunk claims so many bytes.
fn wave_head(claimed: u32) -> Vec<u8> {
    let mut head = b"RIFF\xF0\xFF\xFF\xFFWAVEfmt \x10\0\0\0\x01\0\x01\0".to_vec();
    head.extend(8000u32.to_le_bytes());
    head.extend(16_000u32.to_le_bytes());
    head.extend(b"\x02\0\x10\0data");
    head.extend(claimed.to_le_bytes());
    head
}

/// Bytes of no kind, the same at each run (a linear congruential generator, Knuth's constants).
fn noise(len: usize) -> Vec<u8> {
    let next = |x: &u64| {
        Some(
            x.wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407),
        )
    };
    std::iter::successors(Some(7), next)
        .map(|x| (x >> 56) as u8)
        .take(len)
        .collect()
}

/// The good job with other files beside it.
#[track_caller]
fn run_with(others: Vec<(&str, Vec<u8>)>) -> (Said, Results) {
    let mut files: Files = with_job_file(&drag(0, 1));
    files.extend(
        others
            .into_iter()
            .map(|(name, bytes)| (name.to_string(), bytes)),
    );
    let bench = Bench::new();
    let job = bench.job("R-8", &files);
    let (said, results) = bench.run(&job);
    assert_eq!(
        results.verdict(),
        "established clutch-1-drag teardown",
        "the good files decide"
    );
    assert_eq!(
        results.list("/files").len(),
        files.len(),
        "every file stands in the case"
    );
    (said, results)
}

#[test]
fn what_cannot_be_read_is_set_aside_with_a_word_and_the_rest_decides() {
    let bad = vec![
        ("empty.csv", Vec::new()),
        ("blank.txt", b" \r\n\t\r\n".to_vec()),
        ("mark only.csv", b"\xFF\xFE".to_vec()),
        ("head cut.wav", wave_head(0)[..30].to_vec()),
        ("four gigabytes.wav", wave_head(0xFFFF_FF00)),
        (
            "prose.wav",
            b"This is a note about the vehicle, and no recording.\n".to_vec(),
        ),
        ("noise.csv", noise(20_000)),
        ("cut.mf4", b"MDF     4.10    ".to_vec()),
    ];
    let names: Vec<&str> = bad.iter().map(|(name, _)| *name).collect();
    let (said, results) = run_with(bad);
    let words = results.technician_words();
    let said = said.ends_with(1);
    for name in names {
        let file = results.file(name);
        assert_eq!(file["status"], "set-aside", "{file:#}");
        let message = file["message"].as_str().expect("a message");
        assert!(
            message.starts_with(name),
            "{message:?} does not name {name}"
        );
        assert!(
            said.out.contains(&format!("set aside: {message}\n")),
            "the terminal does not say {message:?}:\n{}",
            said.out
        );
        assert!(words.contains(name), "the report does not name {name}");
    }
}

/// The last whole row or sample still counts; what is missing is said, and nothing was set aside.
#[test]
fn what_was_cut_is_read_as_far_as_it_goes() {
    let recording = drag(1, 2).recording;
    let text = |encoding| {
        CsvDialect {
            encoding,
            ..CsvDialect::default()
        }
        .write(&recording)
    };
    let (mut row, mut unit) = (text(Encoding::Utf8), text(Encoding::Utf16));
    row.truncate(row.len() / 2);
    while row.last() != Some(&b',') {
        row.pop();
    }
    unit.truncate((unit.len() / 2) | 1);
    let promising = [wave_head(0xFFFF_FF00), noise(1001)].concat();
    let cut = vec![
        ("row.csv", row),
        ("unit.csv", unit),
        ("promising.wav", promising),
    ];
    let names: Vec<&str> = cut.iter().map(|(name, _)| *name).collect();
    let (said, results) = run_with(cut);
    let said = said.ends_with(0);
    for name in names {
        assert_eq!(results.file(name)["status"], "read");
        let noted = results.list("/problems").iter().find(|p| p["file"] == name);
        let note = noted.unwrap_or_else(|| panic!("nothing is said of {name}"));
        let message = note["message"].as_str().expect("a message");
        assert!(
            message.contains("cut") || message.contains("promises"),
            "{message}"
        );
        assert!(
            said.out.contains(message),
            "the terminal does not say {message:?}"
        );
    }
}

#[test]
fn a_job_of_bad_files_alone_is_open() {
    let bench = Bench::new();
    let files = Files::from([("a.csv".into(), Vec::new()), ("b.wav".into(), noise(300))]);
    let (said, results) = bench.run_without_report(&bench.job("nothing usable", &files));
    said.ends_with(1);
    assert_eq!(results.verdict(), "open");
}

#[test]
fn an_empty_folder_is_open_and_says_what_to_record() {
    let bench = Bench::new();
    let (said, results) = bench.run_without_report(&bench.job("nothing", &Files::new()));
    said.ends_with(1)
        .says(&["no recording and no scan-tool text"]);
    assert_eq!(results.verdict(), "open");
    assert!(!results.next().is_empty(), "nothing says what to record");
}

/// A link out of the job folder could show anybody's files; a pipe could keep the run waiting for ever.
#[cfg(unix)]
#[test]
fn links_out_of_the_folder_and_pipes_are_not_followed() {
    let bench = Bench::new();
    let job = bench.job("R-9", &with_job_file(&drag(0, 1)));
    let elsewhere = bench.path("elsewhere.csv");
    std::fs::write(&elsewhere, "time,a\n0,1\n").expect("a file");
    std::os::unix::fs::symlink(&elsewhere, job.join("link.csv")).expect("a link");
    let pipe = job.join("pipe.csv");
    let made = std::process::Command::new("mkfifo")
        .arg(&pipe)
        .status()
        .expect("mkfifo");
    assert!(made.success());
    let said = crate::bench::call(bench.run_arguments(&job, "out")).ends_with(1);
    let results = Results::read(&bench.path("out"), &job);
    assert_eq!(results.verdict(), "established clutch-1-drag teardown");
    for name in ["link.csv", "pipe.csv"] {
        let file = results.file(name);
        assert_eq!(file["status"], "set-aside");
        let message = file["message"].as_str().expect("a message");
        assert!(
            message.starts_with(name),
            "{message:?} does not name {name}"
        );
        assert!(said.out.contains(message), "{}", said.out);
    }
}
