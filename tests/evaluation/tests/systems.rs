//! The further systems: every class once. No sound part is condemned and no faulty one called sound.

use baybrief_evaluation::case::CaseSpec;
use baybrief_evaluation::evaluate::{Evaluated, Runner};
use baybrief_evaluation::program::InProcess;
use baybrief_evaluation::score::Outcome;
use baybrief_evaluation::{summary, systems};
use libtest_mimic::{Arguments, Failed, Trial};
use std::process::ExitCode;

/// Most cases that may be left undecided.
const ABSTAINED: usize = 2;

fn every_class() -> Result<(), Failed> {
    let specs: Vec<CaseSpec> = (0..systems::CLASSES.len())
        .map(|number| CaseSpec::of_systems(2, number))
        .collect();
    let on_done = |_: &Evaluated| {};
    let runner = Runner {
        program: &InProcess,
        at_once: 2,
        on_done: &on_done,
    };
    let all = runner.evaluate_all(&specs);
    let count = |outcome| all.iter().filter(|e| e.outcome == outcome).count();
    let spoiled = count(Outcome::Wrong) + count(Outcome::FalseTeardown) + count(Outcome::Crashed);
    if spoiled > 0 || count(Outcome::Abstained) > ABSTAINED {
        return Err(summary::not_right(&all).into());
    }
    Ok(())
}

fn main() -> ExitCode {
    if let Some(code) = baybrief::worker_entry() {
        return code;
    }
    let trials = vec![Trial::test(
        "every_class_of_the_further_systems",
        every_class,
    )];
    libtest_mimic::run(&Arguments::from_args(), trials).exit_code()
}
