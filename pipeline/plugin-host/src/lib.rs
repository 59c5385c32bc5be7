//! Finds analysis plugins, checks them, and runs each library in a worker process of its own.
//!
//! A plugin library is code from somewhere else: it may crash, hang, or eat all memory. So the host never loads it.
//! It starts its own executable again, with a hidden verb, as a worker that loads the one library and serves it
//! until the host is done. The samples of a recording are written once into a file in memory, sealed on Linux, and
//! mapped read-only by each worker. Requests and answers go over a socket pair; what a plugin prints is captured
//! and never reaches the host's output. A worker has limits on memory, processor time and core files, is in a
//! process group of its own, and is killed with that group and waited for once its deadline is over.
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
//! memory limit. Windows is not supported. Nowhere does a worker keep a plugin from reading files or the network:
//! install only plugins that you trust not to be malicious; the walls are against mistakes.

mod blob;
mod call;
mod check;
mod discovery;
mod error;
mod host;
mod info;
mod installed;
mod judge;
mod library;
mod mapped;
mod noise;
mod process;
mod runner;
mod scan;
mod session;
mod wire;
mod worker;

pub use check::{CheckResult, Outcome, check};
pub use error::AnalyzeError;
pub use host::{Host, HostOptions};
pub use info::{PluginInfo, RefusedLibrary, Scope};
pub use worker::worker_entry;
