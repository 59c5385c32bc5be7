//! Through the real executable, from job folders to results: what a person at a terminal would see.
//!
//! Every job is made here by the casebook or the simulator; nothing comes from outside.

mod bad_files;
mod bench;
mod jobs;
mod labour;
mod plugins;
mod settings;
mod terminal;
mod verdicts;
#[cfg(unix)]
mod watch;
