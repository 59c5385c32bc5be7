//! The tables of an evaluation.

use crate::run::Judged;
use crate::score::{CodeCount, Outcome, state_name};
use crate::stats::{probability, wilson};
use crate::table::{Table, percent};
use std::collections::BTreeMap;

/// The whole evaluation in Markdown.
pub fn markdown(all: &[Judged]) -> String {
    let sections = [
        ("Verdicts by class", by_class(all)),
        ("What was said, by what is true", confusion(all)),
        (
            "Reliability of the leading cause's weight",
            reliability(all),
        ),
        ("Reliability of the states", states(all)),
        ("Verdicts by noise", by_noise(all)),
        ("Measured values", measured(all)),
        ("Trouble codes", code_table(all)),
    ];
    let mut text = String::new();
    for (title, table) in sections {
        text += &format!("## {title}\n\n{}\n", table.markdown());
    }
    text + &closing(all)
}

fn count(all: &[&Judged], outcome: Outcome) -> usize {
    all.iter().filter(|j| j.outcome == outcome).count()
}

/// Groups by a key, in the keys' order.
fn grouped<K: Ord>(all: &[Judged], key: impl Fn(&Judged) -> K) -> BTreeMap<K, Vec<&Judged>> {
    let mut groups: BTreeMap<K, Vec<&Judged>> = BTreeMap::new();
    all.iter()
        .for_each(|j| groups.entry(key(j)).or_default().push(j));
    groups
}

fn outcome_row(name: &str, of: &[&Judged]) -> Vec<String> {
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

fn by_class(all: &[Judged]) -> Table {
    let mut table = outcome_head("class");
    for (class, of) in grouped(all, |j| j.truth.class.clone()) {
        table.row(outcome_row(&class, &of));
    }
    table.row(outcome_row("all", &all.iter().collect::<Vec<_>>()));
    table
}

fn by_noise(all: &[Judged]) -> Table {
    let mut table = outcome_head("noise");
    for (level, of) in grouped(all, |j| j.truth.noise_level) {
        table.row(outcome_row(["quiet", "usual", "rough"][level.min(2)], &of));
    }
    table
}

/// What was said: the cause, or the state where there is none.
fn said(j: &Judged) -> String {
    match &j.case {
        None => "nothing readable".into(),
        Some(c) => c
            .verdict
            .cause
            .clone()
            .unwrap_or_else(|| state_name(c.verdict.state).to_string()),
    }
}

fn confusion(all: &[Judged]) -> Table {
    let mut table = Table::new(&["true", "cases", "said"]);
    let healthy = |j: &Judged| {
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

/// Lower edges of the weight bins, decibans.
const EDGES: [f64; 7] = [f64::NEG_INFINITY, 0.0, 5.0, 10.0, 15.0, 20.0, 30.0];

fn interval(hits: usize, n: usize) -> String {
    let (low, high) = wilson(hits, n);
    format!("{:.0} to {:.0} %", 100.0 * low, 100.0 * high)
}

fn reliability(all: &[Judged]) -> Table {
    let head = [
        "weight, dB",
        "cases",
        "leading cause right",
        "95 % interval",
        "even odds would give",
    ];
    let mut table = Table::new(&head);
    let leading: Vec<(f64, bool)> = all
        .iter()
        .filter_map(|j| {
            let first = j.case.as_ref()?.causes.first()?;
            Some((
                first.weight_db,
                j.truth.verdict.causes.contains(&first.cause),
            ))
        })
        .collect();
    for (i, &low) in EDGES.iter().enumerate() {
        let high = EDGES.get(i + 1).copied().unwrap_or(f64::INFINITY);
        let bin: Vec<&(f64, bool)> = leading
            .iter()
            .filter(|(w, _)| *w >= low && *w < high)
            .collect();
        let right = bin.iter().filter(|(_, right)| *right).count();
        let mean = bin.iter().map(|(w, _)| probability(*w)).sum::<f64>() / bin.len().max(1) as f64;
        let name = match (low.is_finite(), high.is_finite()) {
            (false, _) => format!("below {high}"),
            (_, false) => format!("{low} and more"),
            _ => format!("{low} to {high}"),
        };
        let expected = if bin.is_empty() {
            "-".into()
        } else {
            format!("{:.1} %", 100.0 * mean)
        };
        let share = percent(right, bin.len());
        table.row(vec![
            name,
            bin.len().to_string(),
            share,
            interval(right, bin.len()),
            expected,
        ]);
    }
    table
}

fn states(all: &[Judged]) -> Table {
    let mut table = Table::new(&["state", "cases", "right", "95 % interval"]);
    let state = |j: &Judged| j.case.as_ref().map(|c| state_name(c.verdict.state));
    for (state, of) in grouped(all, state) {
        let right = count(&of, Outcome::Right);
        let name = state.unwrap_or("crashed").to_string();
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

fn measured(all: &[Judged]) -> Table {
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

fn code_table(all: &[Judged]) -> Table {
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

fn closing(all: &[Judged]) -> String {
    let claims = all.iter().fold((0, 0), |a, j| {
        (a.0 + j.false_claims.0, a.1 + j.false_claims.1)
    });
    let slowest = all.iter().map(|j| j.seconds).fold(0.0, f64::max);
    let mut text = format!(
        "Claims that would be false: {} of {} were made. Slowest case: {slowest:.2} s.\n",
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

/// One line for each case that is not right.
pub fn not_right(all: &[Judged]) -> String {
    let lines = all.iter().filter(|j| j.outcome != Outcome::Right).map(|j| {
        let missed: Vec<&str> = j
            .numbers
            .iter()
            .filter(|n| !n.within)
            .map(|n| n.what.as_str())
            .collect();
        format!(
            "{} {} {}: said {}, allowed {:?} {:?}; missed {:?}\n",
            j.truth.case,
            j.truth.class,
            j.outcome.heading(),
            said(j),
            j.truth.verdict.states,
            j.truth.verdict.causes,
            missed
        )
    });
    lines.collect()
}
