//! `--memory` holds over all processes, as the kernel counts them.

use crate::bench::{Bench, command};
use crate::jobs::{drag, with_job_file};
use std::collections::BTreeMap;
use std::fs;
use std::process::Stdio;
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

/// A recording of 16-bit samples as long as wanted, all of them there.
fn wav(samples: usize) -> Vec<u8> {
    let data = (2 * samples) as u32;
    let mut wav = b"RIFF".to_vec();
    wav.extend((data + 36).to_le_bytes());
    wav.extend(b"WAVEfmt \x10\0\0\0\x01\0\x01\0\x80\xbb\0\0\0\x77\x01\0\x02\0\x10\0data");
    wav.extend(data.to_le_bytes());
    wav.extend((0..samples).flat_map(|i| ((i % 977) as i16).to_le_bytes()));
    wav
}

const MEMORY_MB: u64 = 200;

#[test]
fn two_hundred_megabytes_hold_over_all_processes() {
    let bench = Bench::new();
    let mut long = with_job_file(&drag(0, 1));
    // As long as may be read, and longer.
    long.insert("long.wav".into(), wav(5_000_000));
    long.insert("too-long.wav".into(), wav(60_000_000));
    let jobs = [
        bench.job("R-70", &with_job_file(&drag(1, 2))),
        bench.job("R-71", &long),
    ];
    let out = bench.path("out");
    let mut call = command(["run".into(), jobs[0].clone(), jobs[1].clone()]);
    call.arg("--out").arg(&out);
    call.args(["--memory", &MEMORY_MB.to_string()]);
    let mut run = call
        .stdout(Stdio::null())
        .stderr(fs::File::create(bench.path("said")).expect("a file"))
        .spawn()
        .expect("it starts");
    let mut most = 0;
    let status = loop {
        most = most.max(memory_of_all(run.id()));
        if let Some(status) = run.try_wait().expect("a state") {
            break status;
        }
        sleep(Duration::from_millis(10));
    };
    let said = fs::read_to_string(bench.path("said")).unwrap_or_default();
    assert_eq!(status.code(), Some(1), "one file is too long: {said}");
    println!("{} MB at most", most / 1_000_000);
    assert!(most > 10_000_000, "nothing was measured: {most}");
    assert!(
        most < MEMORY_MB * 1_000_000,
        "{} MB of {MEMORY_MB}",
        most / 1_000_000
    );
    let case = fs::read_to_string(out.join("R-71/case.json")).expect(&said);
    let case: serde_json::Value = serde_json::from_str(&case).expect("JSON");
    let files = case["files"].as_array().expect("files").iter();
    let state = |name: &str| {
        let mut files = files.clone();
        let file = files.find(|f| f["path"] == name).expect("the file");
        (file["status"].clone(), file["message"].to_string())
    };
    assert_eq!(state("long.wav").0, "read");
    let (status, message) = state("too-long.wav");
    assert_eq!(status, "set-aside");
    assert!(message.contains("of memory"), "{message}");
    assert_eq!(case["verdict"]["cause"], "clutch-1-drag", "the rest counts");
}
