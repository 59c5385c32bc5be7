//! A running `watch` for the tests, and what it leaves.

use crate::bench::{Bench, command};
use rustix::process::{Pid, Signal, kill_process};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Long enough for a busy machine; a passing test does not wait for it.
pub const PATIENCE: Duration = Duration::from_secs(120);

/// A watch that ends with its test, whatever happens.
pub struct Watch(pub Child);

impl Drop for Watch {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

impl Watch {
    /// Starts one over `inbox` and `out` of the bench. Its log goes to `log` of the bench.
    pub fn start(bench: &Bench, more: &[&str]) -> Watch {
        let (inbox, out) = (bench.path("inbox"), bench.path("out"));
        fs::create_dir_all(&inbox).expect("an inbox");
        let log = fs::OpenOptions::new()
            .create(true)
            .append(true)
            .open(bench.path("log"))
            .expect("a log");
        let mut call = command(["watch".into(), inbox, "--out".into(), out]);
        call.args(more).stdout(Stdio::null()).stderr(log);
        Watch(call.spawn().expect("the watch starts"))
    }

    /// As a power cut ends it.
    pub fn kill(mut self) {
        self.0.kill().expect("it can be killed");
        self.0.wait().expect("it ends");
    }

    /// As a service manager ends it: must end well.
    #[track_caller]
    pub fn stop(mut self) {
        kill_process(Pid::from_child(&self.0), Signal::TERM).expect("the signal is sent");
        let mut status = None;
        wait_until("the watch ends", || {
            status = self.0.try_wait().expect("a state");
            status.is_some()
        });
        let code = status.and_then(|s| s.code());
        assert_eq!(code, Some(0), "asked to end, it ends well");
    }
}

#[track_caller]
pub fn wait_until(what: &str, mut is_so: impl FnMut() -> bool) {
    let begun = Instant::now();
    while !is_so() {
        assert!(begun.elapsed() < PATIENCE, "waited too long until {what}");
        sleep(Duration::from_millis(50));
    }
}

/// Log so far.
pub fn log(bench: &Bench) -> String {
    fs::read_to_string(bench.path("log")).unwrap_or_default()
}

/// The files below a folder that somebody who looks into it may open: nothing hidden.
pub fn visible(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    let Ok(entries) = fs::read_dir(folder) else {
        return all;
    };
    for path in entries.flatten().map(|e| e.path()) {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if name.starts_with('.') {
            continue;
        }
        if path.is_dir() {
            all.extend(visible(&path));
        } else {
            all.push(path);
        }
    }
    all.sort();
    all
}

/// Nothing that can be seen is half written.
#[track_caller]
pub fn assert_whole(out: &Path) {
    for path in visible(out) {
        // Replaced between listing and reading: then it is looked at next time.
        let Ok(bytes) = fs::read(&path) else { continue };
        let ending = match path.extension().and_then(|e| e.to_str()) {
            Some("pdf") => "%%EOF",
            Some("json") => "}",
            Some("html") => "</html>",
            _ => "",
        };
        let text = String::from_utf8_lossy(&bytes);
        assert!(
            text.trim_end().ends_with(ending) && !bytes.is_empty(),
            "{} is half written",
            path.display()
        );
    }
}
