//! The search held against a program whose blind spot is known.

use baybrief_evaluation::evaluate::Runner;
use baybrief_evaluation::program::{Answer, Program};
use baybrief_evaluation::said::Said;
use baybrief_evaluation::score::Outcome;
use baybrief_evaluation::search::{Extent, margin, markdown, regressions, search};
use serde_json::json;
use std::path::Path;

/// Takes the weight of a wrong cause from the length of a recording: the shorter, the heavier. Above 21 it is said.
struct Shortsighted;

impl Program for Shortsighted {
    fn run(&self, folder: &Path) -> Answer {
        let rows = std::fs::read_dir(folder)
            .expect("a folder")
            .map(|f| f.expect("a file").path())
            .filter(|f| f.file_name().is_some_and(|n| n != "job.toml"))
            .map(|f| std::fs::read(f).expect("is read").len())
            .max()
            .unwrap_or(0);
        let weight = 30.0 - rows as f64 / 60_000.0;
        let (state, cause) = if weight > 21.0 {
            ("established", Some("clutch-1-slip"))
        } else {
            ("open", None)
        };
        let case = json!({
            "schema": "baybrief.case/1",
            "verdict": {"state": state, "cause": cause, "teardown": cause.is_some()},
            "causes": [{"cause": "clutch-1-slip", "weight_db": weight}],
        });
        Answer {
            said: Said::parse(case.to_string().as_bytes()).map_err(|e| e.to_string()),
            problems: Vec::new(),
            seconds: 0.0,
        }
    }
}

#[test]
fn climbing_finds_what_chance_does_not_and_is_the_same_each_time() {
    let extent = Extent {
        seed: 11,
        random: 4,
        climbs: 2,
        steps: 12,
        classes: vec!["relearn-not-completed".into()],
    };
    let runner = Runner {
        program: &Shortsighted,
        at_once: 2,
        on_done: &|_| {},
    };
    let found = search(runner, &extent);
    let best = |all: &[_]| all.iter().map(margin).fold(f64::INFINITY, f64::min);
    let (random, climbed) = (best(&found.random), best(&found.climbed));
    assert!(climbed < random, "climbed to {climbed}, random {random}");
    let again = search(runner, &extent);
    assert_eq!(found.climbed[0].spec, again.climbed[0].spec);
    let text = markdown(&found, 5);
    assert!(text.contains("4 random cases"), "{text}");
    // Every case kept is wrong again when it is made anew.
    for spec in regressions(&found) {
        let e = runner.evaluate_one(&spec, "C-1");
        assert_eq!(e.outcome, Outcome::FalseTeardown, "{spec:?}");
    }
}
