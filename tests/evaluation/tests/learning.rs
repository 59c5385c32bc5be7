//! Learned limits through the whole program: false findings of healthy units go, sound parts stay uncondemned, and wrong
//! outcomes move nothing that true ones would not. The full curve: `cargo run -p baybrief-evaluation -- learning`.

use baybrief_evaluation::learning::{Extent, Learned, markdown, run};
use libtest_mimic::{Arguments, Failed, Trial};
use std::process::ExitCode;

fn main() -> ExitCode {
    // A plugin's worker process is this executable too.
    if let Some(code) = baybrief::worker_entry() {
        return code;
    }
    let name = "limits_of_proven_jobs_end_false_findings_and_condemn_nothing";
    let trial = Trial::test(name, || check().map_err(Failed::from));
    libtest_mimic::run(&Arguments::from_args(), vec![trial]).exit_code()
}

fn check() -> Result<(), String> {
    let extent = Extent {
        seed: 11,
        jobs: 180,
        recordings: 180,
        probes: 6,
        set: None,
        steps: vec![0, 60, 180],
        at_once: 2,
    };
    let learned: Learned = run(&extent).map_err(|e| format!("{e:#}"))?;
    let table = markdown(&learned);
    let of = |i: usize| &learned.honest[i];
    let all = learned.honest.iter().chain(&learned.poisoned);
    let teardowns: usize = all.map(|s| s.probes.false_teardowns()).sum();
    let expected = [
        (
            of(0).probes.false_findings > 0,
            "the sheet is wrong, so there are false findings",
        ),
        (
            of(1).limit == of(0).limit,
            "fewer than 59 vehicles move nothing",
        ),
        (of(2).limit > of(0).limit, "59 and more move the limit"),
        (
            2 * of(2).probes.false_findings <= of(0).probes.false_findings,
            "false findings are halved",
        ),
        (
            of(0).probes.sourced == 0 && of(2).probes.sourced > 0,
            "findings name the source of their limit",
        ),
        (teardowns == 0, "no sound part is condemned"),
        (
            learned.honest[2].probes.verdicts == learned.poisoned[2].probes.verdicts
                || learned.poisoned[2].limit == of(0).limit,
            "one wrong outcome in ten moves no verdict",
        ),
    ];
    for (holds, what) in expected {
        if !holds {
            return Err(format!("{what}:\n{table}"));
        }
    }
    Ok(())
}
