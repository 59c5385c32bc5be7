//! The baybrief executable: arguments, progress, wiring.

mod arguments;
mod batch;
mod board;
mod commands;
mod house;
mod job;
mod log;
mod progress;
mod publish;

use clap::Parser;
use std::process::ExitCode;

/// Everything worked; wrong usage is 2 and comes from the argument parser or [`arguments::Usage`].
const EXIT_SET_ASIDE: u8 = 1;
const EXIT_USAGE: u8 = 2;

fn main() -> ExitCode {
    // A worker process is this executable too; it must not get as far as reading arguments.
    if let Some(code) = plugin_host::worker_entry() {
        return code;
    }
    let arguments = arguments::Arguments::parse();
    log::start(matches!(arguments.command, arguments::Command::Watch(_)));
    match commands::run(arguments.command) {
        Ok(clean) => {
            if clean {
                ExitCode::SUCCESS
            } else {
                ExitCode::from(EXIT_SET_ASIDE)
            }
        }
        Err(e) => {
            eprintln!("baybrief: {e:#}");
            let usage = e.downcast_ref::<arguments::Usage>().is_some();
            ExitCode::from(if usage { EXIT_USAGE } else { EXIT_SET_ASIDE })
        }
    }
}
