//! The sentinels evaluated anew: no sound part is condemned, nothing crashes, and TABLE.md tells the truth.

use baybrief_evaluation::judge::InProcess;
use baybrief_evaluation::score::Outcome;
use baybrief_evaluation::sentinels::{evaluate, lines, lines_of, package};

#[test]
fn no_sound_part_is_condemned_and_the_table_is_not_stale() {
    let sentinels = evaluate(&InProcess, 2).expect("regression cases are read");
    assert!(sentinels.len() >= 80, "{} sentinels", sentinels.len());
    let now = lines(&sentinels);
    let bad = |o: Outcome| sentinels.iter().filter(|e| e.outcome == o).count();
    assert_eq!(bad(Outcome::FalseTeardown), 0, "false teardowns in\n{now}");
    assert_eq!(bad(Outcome::Crashed), 0, "crashes in\n{now}");
    let table = std::fs::read_to_string(package().join("TABLE.md")).expect("TABLE.md");
    let changed: Vec<(&str, &str)> = lines_of(&table)
        .lines()
        .zip(now.lines())
        .filter(|(then, now)| then != now)
        .collect();
    assert!(
        changed.is_empty() && lines_of(&table).lines().count() == now.lines().count(),
        "TABLE.md is stale, write it again with `cargo run --release -p baybrief-evaluation -- table`; then, now:\n\
         {changed:#?}"
    );
}
