//! `--memory` holds over all processes, as the kernel counts them.

use crate::bench::{Bench, command};
use crate::jobs::{Files, drag, with_job_file};
use std::collections::BTreeMap;
use std::fs;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

/// Memory that no file on a disk stands behind, of a process and all its descendants, bytes: what processes share counts
/// once (proc_pid_smaps(5)).
fn memory_of_all(root: u32) -> u64 {
    let mut parents: BTreeMap<u32, u32> = BTreeMap::new();
    for entry in fs::read_dir("/proc").expect("the processes").flatten() {
        let name = entry.file_name();
        let Some(pid) = name.to_str().and_then(|n| n.parse::<u32>().ok()) else {
            continue;
        };
        let stat = fs::read_to_string(entry.path().join("stat")).unwrap_or_default();
        // The name in parentheses may hold anything.
        let after = stat.rsplit_once(')').map_or("", |(_, rest)| rest);
        let parent = after.split_whitespace().nth(1);
        let parent = parent.and_then(|p| p.parse::<u32>().ok());
        parents.extend(parent.map(|parent| (pid, parent)));
    }
    let is_ours = |mut pid: u32| {
        while let Some(&parent) = parents.get(&pid).filter(|_| pid != root) {
            pid = parent;
        }
        pid == root
    };
    let all = parents.keys().copied().filter(|&pid| is_ours(pid));
    all.map(|pid| {
        let rollup = fs::read_to_string(format!("/proc/{pid}/smaps_rollup")).unwrap_or_default();
        let kib = |name: &str| -> u64 {
            let line = rollup.lines().find_map(|l| l.strip_prefix(name));
            let number = line.and_then(|l| l.trim().strip_suffix("kB"));
            number.and_then(|n| n.trim().parse().ok()).unwrap_or(0)
        };
        (kib("Pss_Anon:") + kib("Pss_Shmem:")) * 1024
    })
    .sum()
}

/// A recording of 16-bit samples as long as wanted, all of them there, a million a second.
fn wav(samples: usize) -> Vec<u8> {
    let (data, rate) = ((2 * samples) as u32, 1_000_000u32);
    let mut wav = b"RIFF".to_vec();
    wav.extend((data + 36).to_le_bytes());
    wav.extend(b"WAVEfmt \x10\0\0\0\x01\0\x01\0");
    wav.extend(rate.to_le_bytes());
    wav.extend((2 * rate).to_le_bytes());
    wav.extend(b"\x02\0\x10\0data");
    wav.extend(data.to_le_bytes());
    wav.extend((0..samples).flat_map(|i| ((i % 977) as i16).to_le_bytes()));
    wav
}

const MEMORY_MB: u64 = 200;

/// Runs jobs with [`MEMORY_MB`], which holds; gives the exit status and what was said.
fn run_within_memory(bench: &Bench, mut call: Command) -> (Option<i32>, String) {
    let said = bench.path("said");
    call.arg("--out").arg(bench.path("out"));
    call.args(["--memory", &MEMORY_MB.to_string()]);
    let mut run = call
        .stdout(Stdio::null())
        .stderr(fs::File::create(&said).expect("a file"))
        .spawn()
        .expect("it starts");
    let mut most = 0;
    let status = loop {
        most = most.max(memory_of_all(run.id()) / 1_000_000);
        if let Some(status) = run.try_wait().expect("a state") {
            break status.code();
        }
        sleep(Duration::from_millis(10));
    };
    println!("{most} MB at most");
    assert!(most > 10, "nothing was measured: {most}");
    assert!(most < MEMORY_MB, "{most} MB of {MEMORY_MB}");
    (status, fs::read_to_string(said).unwrap_or_default())
}

/// A recording far beyond the memory for samples, and what its channel measured.
fn long_recording() -> Files {
    let job = "[[capture]]\nfile = \"long.wav\"\n[capture.channels.1]\nrole = \"input-shaft-1\"\nsensor = \"hall\"\n\
               teeth = 24\nscale = 300.0\n";
    Files::from([
        ("long.wav".into(), wav(60_000_000)),
        ("job.toml".into(), job.into()),
    ])
}

fn case_of(bench: &Bench, job: &str) -> serde_json::Value {
    let case = bench.path("out").join(job).join("case.json");
    let case = fs::read_to_string(case).expect("a case");
    serde_json::from_str(&case).expect("JSON")
}

#[test]
fn two_hundred_megabytes_hold_over_all_processes() {
    let bench = Bench::new();
    let mut beside = with_job_file(&drag(0, 1));
    beside.insert("beside.wav".into(), wav(20_000_000));
    let mut call = command(["run".into(), bench.job("R-70", &long_recording())]);
    call.arg(bench.job("R-71", &beside));
    let (status, said) = run_within_memory(&bench, call);
    assert_eq!(status, Some(0), "all of it is read: {said}");
    assert_eq!(case_of(&bench, "R-71")["verdict"]["cause"], "clutch-1-drag");
    let case = case_of(&bench, "R-70");
    // A source of even pulses: all of them were looked at.
    let mut findings = case["findings"].as_array().expect("findings").iter();
    let refused = findings
        .find(|f| f["kind"] == "rotation-refused")
        .expect("measured");
    let (rate, end) = (refused["value"].as_f64(), refused["end_s"].as_f64());
    assert!((rate.expect("Hz") - 1e6 / 977.0).abs() < 1e-3, "{refused}");
    assert!(end.expect("s") > 59.99, "{refused}");
}

/// Without a disk for what exceeds the memory, the recording is refused and the rest counts.
#[test]
fn what_fits_nowhere_is_refused() {
    let bench = Bench::new();
    let mut both = with_job_file(&drag(0, 1));
    both.insert("long.wav".into(), wav(60_000_000));
    let mut call = command(["run".into(), bench.job("R-72", &both)]);
    call.env("TMPDIR", bench.path("not-there"));
    let (status, said) = run_within_memory(&bench, call);
    assert_eq!(status, Some(1), "one file is too long: {said}");
    let case = case_of(&bench, "R-72");
    let mut files = case["files"].as_array().expect("files").iter();
    let refused = files.find(|f| f["path"] == "long.wav").expect("the file");
    assert_eq!(refused["status"], "set-aside");
    let message = refused["message"].to_string();
    assert!(message.contains("free space on the disk"), "{message}");
    assert_eq!(case["verdict"]["cause"], "clutch-1-drag", "the rest counts");
}
