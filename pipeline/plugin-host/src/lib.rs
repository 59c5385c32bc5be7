//! Finds analysis plugins, validates them, and runs each library in a worker process of its own.
//!
//! A library is code from somewhere else: it may crash, hang, or eat all memory. So the host never loads it. It starts
//! its own executable again, with a hidden verb, as a worker that loads the one library and serves it until the host is
//! done: its analyzers run in their declared order on one recording after the other. The samples of a recording are
//! written once into a file in memory, sealed on Linux, and mapped read-only by each worker; series that one library
//! derives are handed to those that read them. Requests and answers go over a socket pair; what a library prints is
//! captured and never reaches the host's output. A worker has limits on memory, files and core files, is in a process
//! group of its own, and is killed with that group and waited for once its deadline is over.
//!
//! A worker has no more rights than it needs ([`Sandbox`]): Landlock lets it see the library's folder and the system's
//! libraries while it loads, and no path afterwards; seccomp lets it open no file, no connection and no process, signal
//! nobody and set no limit. Libraries come from folders that are configured or lie beside the executable, and only where
//! nobody but the owner can write; they may be pinned by hash ([`pin`]). One that crashes on recording after recording
//! is quarantined by its hash until it is replaced or released ([`unquarantine`]); a recording that several libraries
//! crash on is to blame itself. Of what did not run, [`NotRun`] says what it would have shown.
//!
//! For this to work, [`worker_entry`] must be the first thing that `main` calls:
//!
//! ```no_run
//! use std::process::ExitCode;
//!
//! fn main() -> ExitCode {
//!     if let Some(code) = baybrief_plugin_host::worker_entry() {
//!         return code;
//!     }
//!     // the program proper
//!     ExitCode::SUCCESS
//! }
//! ```
//!
//! # Systems
//! Written for Linux. On other Unix systems the samples travel in an unlinked temporary file that nothing seals,
//! a worker is found by the executable's path rather than by the running image, and the system may not enforce the
//! memory limit. Landlock and seccomp are Linux alone, the latter on x86-64, aarch64 and riscv64; [`Host::sandbox`] says
//! what confines libraries on the system at hand. Windows is not supported. A sandbox keeps mistakes and plain malice in; a
//! plugin's
//! findings are believed all the same, so install only those whose makers you trust.

mod captured_output;
mod crash_log;
mod discovery;
mod error;
mod evaluation;
mod host;
mod info;
mod library;
mod loader;
mod mapped;
mod names;
mod pins;
mod process;
mod runner;
mod sandbox;
mod scan;
mod scheduler;
mod series_cache;
mod session;
mod shared_samples;
mod trust;
mod validate;
mod wire;
mod worker;

pub use crash_log::unquarantine;
pub use error::AnalyzeError;
pub use host::{Analysis, Host, HostOptions, NotRun};
pub use info::{LibraryInfo, RefusedLibrary};
pub use pins::{Pinned, pin};
pub use plugin_abi::{
    AnalyzerDeclaration, Asset, LibraryDeclaration, Outputs, Scope, Series, Settings,
};
pub use sandbox::{Landlock, Sandbox};
pub use validate::{CheckResult, Outcome, validate};
#[cfg(feature = "fuzzing")]
pub use wire::read_reply;
pub use worker::worker_entry;
