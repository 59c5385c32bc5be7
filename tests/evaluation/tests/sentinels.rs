//! The sentinels evaluated anew: no sound part is condemned, nothing crashes, what is said at 20:1 is right at least 20 of
//! 21 times, and TABLE.md is not stale.

use baybrief_evaluation::evaluate::Runner;
use baybrief_evaluation::program::InProcess;
use baybrief_evaluation::reliability::said_at;
use baybrief_evaluation::score::Outcome;
use baybrief_evaluation::sentinels::{evaluate, lines, lines_of, package};
use libtest_mimic::{Arguments, Failed, Trial};
use std::process::ExitCode;

fn main() -> ExitCode {
    // A plugin's worker process is this executable too.
    if let Some(code) = baybrief::worker_entry() {
        return code;
    }
    let name = "no_sound_part_is_condemned_and_the_table_is_not_stale";
    let trial = Trial::test(name, || check().map_err(Failed::from));
    libtest_mimic::run(&Arguments::from_args(), vec![trial]).exit_code()
}

fn check() -> Result<(), String> {
    let runner = Runner {
        program: &InProcess,
        at_once: 2,
        on_done: &|_| {},
    };
    let sentinels = evaluate(runner).map_err(|e| format!("{e:#}"))?;
    let now = lines(&sentinels);
    let count = |o: Outcome| sentinels.iter().filter(|e| e.outcome == o).count();
    let (teardowns, crashed) = (count(Outcome::FalseTeardown), count(Outcome::Crashed));
    if sentinels.len() < 80 || teardowns + crashed > 0 {
        let n = sentinels.len();
        return Err(format!(
            "{teardowns} false teardowns, {crashed} crashes in {n}:\n{now}"
        ));
    }
    // Whatever is said at 20:1 is right at least 20 of 21 times.
    let (said, right) = said_at(&sentinels, 13.01);
    if said < 40 || 21 * right < 20 * said {
        return Err(format!("said at 20:1: {right} of {said} right:\n{now}"));
    }
    let file = package().join("TABLE.md");
    let table = std::fs::read_to_string(&file).map_err(|e| format!("{}: {e}", file.display()))?;
    let then = lines_of(&table);
    if then == now {
        return Ok(());
    }
    let changed: Vec<String> = then
        .lines()
        .zip(now.lines())
        .filter(|(then, now)| then != now)
        .map(|(then, now)| format!("then {then}\nnow  {now}\n"))
        .collect();
    Err(format!(
        "TABLE.md is stale ({} lines, now {}); write it again with `cargo run --release -p baybrief-evaluation -- \
         table`:\n{}",
        then.lines().count(),
        now.lines().count(),
        changed.concat()
    ))
}
