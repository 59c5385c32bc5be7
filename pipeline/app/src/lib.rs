//! baybrief: arguments, wiring, and the pipeline of one job for programs that use it without the command line.
//!
//! [`AppContext::open`] reads the settings and finds the plugins, [`job::examine`] takes a job's files through
//! acquire, derive, detect and assess; no report is made. A program that does so calls [`worker_entry`] first: the
//! workers of the plugin host are the same executable.

mod arguments;
mod batch;
mod commands;
pub mod context;
pub mod job;
mod log;
mod memory;
mod output;
mod progress;
mod publish;
mod serve;
mod status_page;
mod words;
mod work_lines;

pub use context::AppContext;
pub use memory::Memory;
pub use plugin_host::worker_entry;

use clap::{CommandFactory, Parser};
use output::say_error;
use std::path::Path;
use std::process::ExitCode;

/// Exit status of wrong usage, which the argument parser gives too.
const EXIT_USAGE: u8 = 2;

/// Exit status where something was set aside.
const EXIT_SET_ASIDE: u8 = 1;

/// The command line with all its verbs and options, for man pages and completions.
pub fn command() -> clap::Command {
    arguments::Arguments::command()
}

/// Runs the command line of this process: 0 where everything worked, 1 where something was set aside, 2 for wrong
/// usage.
pub fn main() -> ExitCode {
    // A worker process is this executable too; it must not get as far as reading arguments.
    if let Some(code) = worker_entry() {
        return code;
    }
    let arguments = arguments::Arguments::parse();
    log::start(matches!(
        arguments.command,
        arguments::Command::Watch(_) | arguments::Command::Serve(_)
    ));
    let (shop, out) = arguments.command.places();
    let (shop, out) = (shop.map(Path::to_owned), out.map(Path::to_owned));
    let say_wrong = |error: &str| {
        // The language is asked for where there is something to say.
        let shop = shop.clone().or_else(|| commands::shop_of(out.as_deref()?));
        say_error!("baybrief: {}", words::of_error(error, shop.as_deref()));
    };
    match commands::run(arguments.command) {
        Ok(true) if !output::has_failed() => ExitCode::SUCCESS,
        Ok(true) => {
            say_wrong("what was to be printed could not be written");
            ExitCode::from(EXIT_SET_ASIDE)
        }
        Ok(false) => ExitCode::from(EXIT_SET_ASIDE),
        Err(e) => {
            say_wrong(&format!("{e:#}"));
            let usage = e.downcast_ref::<arguments::Usage>().is_some();
            ExitCode::from(if usage { EXIT_USAGE } else { EXIT_SET_ASIDE })
        }
    }
}
