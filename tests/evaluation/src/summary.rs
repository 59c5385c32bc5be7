//! The tables of an evaluation.

use crate::evaluate::Evaluated;
use crate::score::{CodeCount, Outcome};
use crate::stats::wilson;
use crate::table::{Table, percent};
use crate::{reliability, risk};
use std::collections::BTreeMap;

/// The whole evaluation in Markdown.
pub fn markdown(all: &[Evaluated]) -> String {
    let sections = [
        ("Verdicts by class", by_class(all).markdown()),
        ("What was said, by what is true", confusion(all).markdown()),
        ("Reliability of what is said", reliability::markdown(all)),
        ("Risk and coverage", risk::markdown(all)),
        ("Reliability of the states", states(all).markdown()),
        ("Verdicts by noise", by_noise(all).markdown()),
        ("Measured values", measured(all).markdown()),
        ("Trouble codes", code_table(all).markdown()),
    ];
    let mut text = String::new();
    for (title, section) in sections {
        text += &format!("## {title}\n\n{section}\n");
    }
    text + &closing(all)
}

fn count(all: &[&Evaluated], outcome: Outcome) -> usize {
    all.iter().filter(|j| j.outcome == outcome).count()
}

/// Groups by a key, in the keys' order.
fn grouped<K: Ord>(
    all: &[Evaluated],
    key: impl Fn(&Evaluated) -> K,
) -> BTreeMap<K, Vec<&Evaluated>> {
    let mut groups: BTreeMap<K, Vec<&Evaluated>> = BTreeMap::new();
    all.iter()
        .for_each(|j| groups.entry(key(j)).or_default().push(j));
    groups
}

fn outcome_row(name: &str, of: &[&Evaluated]) -> Vec<String> {
    let counts = Outcome::ALL.iter().map(|&o| count(of, o).to_string());
    [name.to_string(), of.len().to_string()]
        .into_iter()
        .chain(counts)
        .collect()
}

fn outcome_head(first: &str) -> Table {
    let columns = Outcome::ALL.map(Outcome::heading);
    Table::new(&[&[first, "cases"], &columns[..]].concat())
}

fn by_class(all: &[Evaluated]) -> Table {
    let columns = Outcome::ALL.map(Outcome::heading);
    let further = ["refused files", "false claims", "false clearances"];
    let mut table = Table::new(&[&["class", "cases"], &columns[..], &further[..]].concat());
    let mut row = |name: &str, of: &[&Evaluated]| {
        let sum = |f: &dyn Fn(&Evaluated) -> usize| of.iter().map(|e| f(e)).sum::<usize>();
        let mut cells = outcome_row(name, of);
        cells.extend([
            sum(&|e| e.refused.len()).to_string(),
            sum(&|e| e.false_claims.1).to_string(),
            sum(&|e| e.false_clearances.len()).to_string(),
        ]);
        table.row(cells);
    };
    for (class, of) in grouped(all, |j| j.truth.class.clone()) {
        row(&class, &of);
    }
    row("all", &all.iter().collect::<Vec<_>>());
    table
}

fn by_noise(all: &[Evaluated]) -> Table {
    let mut table = outcome_head("noise");
    for (level, of) in grouped(all, |j| j.truth.noise_level) {
        table.row(outcome_row(["quiet", "usual", "rough"][level.min(2)], &of));
    }
    table
}

/// The cause that was said, or the state where there is none.
fn said(e: &Evaluated) -> String {
    match &e.said {
        None => "nothing readable".into(),
        Some(s) => s
            .verdict
            .cause
            .clone()
            .unwrap_or_else(|| s.verdict.state.clone()),
    }
}

fn confusion(all: &[Evaluated]) -> Table {
    let mut table = Table::new(&["true", "cases", "said"]);
    let healthy = |j: &Evaluated| {
        j.truth
            .true_cause
            .clone()
            .unwrap_or_else(|| "(no fault)".into())
    };
    for (cause, of) in grouped(all, healthy) {
        let mut answers: BTreeMap<String, usize> = BTreeMap::new();
        of.iter()
            .for_each(|j| *answers.entry(said(j)).or_default() += 1);
        let mut answers: Vec<(String, usize)> = answers.into_iter().collect();
        answers.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
        let answers: Vec<String> = answers.iter().map(|(a, n)| format!("{a} {n}")).collect();
        table.row(vec![cause, of.len().to_string(), answers.join(", ")]);
    }
    table
}

fn interval(hits: usize, n: usize) -> String {
    let (low, high) = wilson(hits, n);
    format!("{:.0} to {:.0} %", 100.0 * low, 100.0 * high)
}

fn states(all: &[Evaluated]) -> Table {
    let mut table = Table::new(&["state", "cases", "right", "95 % interval"]);
    let state = |e: &Evaluated| {
        let said = e.said.as_ref();
        said.map_or("crashed".to_string(), |s| s.verdict.state.clone())
    };
    for (name, of) in grouped(all, state) {
        let right = count(&of, Outcome::Right);
        let share = percent(right, of.len());
        table.row(vec![
            name,
            of.len().to_string(),
            share,
            interval(right, of.len()),
        ]);
    }
    table
}

fn measured(all: &[Evaluated]) -> Table {
    let mut table = Table::new(&[
        "finding and field",
        "wanted",
        "within tolerance",
        "median error",
    ]);
    let mut by_kind: BTreeMap<&str, Vec<&crate::score::Number>> = BTreeMap::new();
    for n in all.iter().flat_map(|j| &j.numbers) {
        by_kind.entry(&n.what).or_default().push(n);
    }
    let (mut wanted, mut met) = (0, 0);
    for (what, of) in by_kind {
        let within = of.iter().filter(|n| n.within).count();
        let errors: Vec<f64> = of.iter().filter_map(|n| n.error).collect();
        let seconds = [".start_s", ".end_s", ".time"]
            .iter()
            .any(|f| what.ends_with(f));
        let error = match crate::measures::median(&errors) {
            _ if errors.is_empty() => "-".into(),
            e if seconds => format!("{e:.3} s"),
            e => format!("{:.2} %", 100.0 * e),
        };
        (wanted, met) = (wanted + of.len(), met + within);
        table.row(vec![
            what.into(),
            of.len().to_string(),
            percent(within, of.len()),
            error,
        ]);
    }
    table.row(vec![
        "all".into(),
        wanted.to_string(),
        percent(met, wanted),
        "-".into(),
    ]);
    table
}

fn code_table(all: &[Evaluated]) -> Table {
    let sum = all
        .iter()
        .fold(CodeCount::default(), |a, j| a.plus(j.codes));
    let mut table = Table::new(&[
        "codes",
        "right",
        "too many",
        "missing",
        "F1",
        "status right of the right",
    ]);
    table.row(vec![
        "with failure type".into(),
        sum.right.to_string(),
        sum.extra.to_string(),
        sum.missing.to_string(),
        format!("{:.3}", sum.f1()),
        percent(sum.status_right, sum.right),
    ]);
    table
}

fn closing(all: &[Evaluated]) -> String {
    let claims = all.iter().fold((0, 0), |a, j| {
        (a.0 + j.false_claims.0, a.1 + j.false_claims.1)
    });
    let cleared: usize = all.iter().map(|e| e.false_clearances.len()).sum();
    let refused: usize = all.iter().map(|e| e.refused.len()).sum();
    let slowest = all.iter().map(|j| j.seconds).fold(0.0, f64::max);
    let mut text = format!(
        "Claims that would be false: {} of {} were made. Causes cleared that nothing tested: {cleared}. Readable files \
         refused: {refused}. Slowest case: {slowest:.2} s.\n",
        claims.1, claims.0
    );
    for j in all.iter().filter(|j| !j.problems.is_empty()) {
        text += &format!("- {}: {}\n", j.truth.case, j.problems.join("; "));
    }
    let n = |o| all.iter().filter(|j| j.outcome == o).count();
    text + &format!(
        "\n{} cases: right {}, open though tolerated {}, abstained {}, wrong {}, false teardowns {}, crashed {}\n",
        all.len(),
        n(Outcome::Right),
        n(Outcome::OpenAllowed),
        n(Outcome::Abstained),
        n(Outcome::Wrong),
        n(Outcome::FalseTeardown),
        n(Outcome::Crashed)
    )
}

/// One line for each case that is not right, with what tells it.
pub fn not_right(all: &[Evaluated]) -> String {
    let lines = all.iter().filter(|e| e.outcome != Outcome::Right).map(|e| {
        let missed: Vec<&str> = e
            .numbers
            .iter()
            .filter(|n| !n.within)
            .map(|n| n.what.as_str())
            .collect();
        let seed = e.spec.as_ref().map_or("-".into(), |s| s.seed.to_string());
        format!(
            "{} seed {seed} {}: said {}, allowed {:?} {:?}; missed {:?}; refused {:?}\n",
            e.truth.class,
            e.outcome.heading(),
            e.said
                .as_ref()
                .map_or("nothing readable".into(), |s| s.short()),
            e.truth.verdict.states,
            e.truth.verdict.causes,
            missed,
            e.refused,
        )
    });
    lines.collect()
}
