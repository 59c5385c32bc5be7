//! Plugins in worker processes. This test has a `main` of its own, because a worker is this executable again.

mod axes;
mod crashes;
mod examples;
mod findings;
mod fixtures;
mod foreign;
mod sandbox;
mod scan;
mod series;
mod trust;
mod validation;

use libtest_mimic::{Arguments, Trial};
use std::process::ExitCode;

fn main() -> ExitCode {
    if let Some(code) = baybrief_plugin_host::worker_entry() {
        return code;
    }
    if std::env::args().nth(1).as_deref() == Some(crashes::HOST_TO_BE_KILLED) {
        crashes::be_killed();
        return ExitCode::SUCCESS;
    }
    let mut trials = Vec::new();
    for (module, tests) in [
        ("axes", axes::TESTS),
        ("crashes", crashes::TESTS),
        ("examples", examples::TESTS),
        ("findings", findings::TESTS),
        ("foreign", foreign::TESTS),
        ("sandbox", sandbox::TESTS),
        ("scan", scan::TESTS),
        ("series", series::TESTS),
        ("trust", trust::TESTS),
        ("validation", validation::TESTS),
    ] {
        for &(name, test) in tests {
            let run = move || {
                test();
                Ok(())
            };
            // Shown as ignored where the system has no make.
            let ignored = name.contains("makefile") && !examples::there_is_make();
            let trial = Trial::test(format!("{module}::{name}"), run);
            trials.push(trial.with_ignored_flag(ignored));
        }
    }
    libtest_mimic::run(&Arguments::from_args(), trials).exit_code()
}

/// Names and functions of a module's tests.
pub type Tests = &'static [(&'static str, fn())];

/// Lists functions as [`Tests`].
#[macro_export]
macro_rules! tests {
    ($($name:ident),+ $(,)?) => {
        pub const TESTS: $crate::Tests = &[$((stringify!($name), $name)),+];
    };
}
