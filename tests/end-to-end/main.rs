//! Through the real executable, from job folders to results: what a person at a terminal would see.
//!
//! Every job is made here by the evaluation set or the simulator; nothing comes from outside.

mod bad_files;
mod bench;
#[cfg(unix)]
mod crash;
mod jobs;
mod labour;
mod learning;
#[cfg(target_os = "linux")]
mod memory;
mod plugins;
mod review;
#[cfg(unix)]
mod service;
mod settings;
#[cfg(unix)]
mod soak;
mod terminal;
mod verdicts;
#[cfg(unix)]
mod watch;
mod words;
