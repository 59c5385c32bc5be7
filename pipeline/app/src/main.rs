//! The baybrief executable.

use std::process::ExitCode;

fn main() -> ExitCode {
    baybrief::main()
}
