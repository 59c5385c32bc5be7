//! Reliability: how often what is said with a weight is right.

use crate::evaluate::Evaluated;
use crate::stats::{probability, wilson};
use crate::table::{Table, percent};

/// Lower edges of the weight bins, decibans; 13.01 is 20 to 1, 21.76 is 150 to 1.
const EDGES: [f64; 7] = [f64::NEG_INFINITY, 0.0, 5.0, 10.0, 13.01, 21.76, 30.0];
/// Width of the diagram, characters.
const WIDTH: usize = 50;

/// Weight of each case's leading cause, said or not, and whether the truth allows it.
fn leading(all: &[Evaluated]) -> Vec<(f64, bool)> {
    let of = |e: &Evaluated| {
        let said = e.said.as_ref()?;
        let first = *said.causes().first()?;
        Some((first.weight, e.truth.verdict.causes.contains(&first.cause)))
    };
    all.iter().filter_map(of).collect()
}

/// Verdicts that name a cause, with its weight, and whether they are right.
fn said_causes(all: &[Evaluated]) -> Vec<(f64, bool)> {
    let of = |e: &Evaluated| {
        let said = e.said.as_ref()?;
        let cause = said.verdict.cause.as_ref()?;
        let weight = said.causes().iter().find(|c| c.cause == *cause)?.weight;
        Some((weight, e.truth.verdict.causes.contains(cause)))
    };
    all.iter().filter_map(of).collect()
}

/// Number of verdicts that name a cause of at least `weight_dban`, and how many of them the truth allows.
pub fn said_at(all: &[Evaluated], weight_dban: f64) -> (usize, usize) {
    let said = said_causes(all).into_iter();
    let at_least: Vec<bool> = (said.filter(|(w, _)| *w >= weight_dban))
        .map(|(_, right)| right)
        .collect();
    (
        at_least.len(),
        at_least.iter().filter(|right| **right).count(),
    )
}

/// The diagram: for each bin of weight the share of the causes said (established or probable) that is right with its
/// interval, and the share that even prior odds would give; beside them the leading cause of every case, also where
/// the verdict stayed open.
pub fn markdown(all: &[Evaluated]) -> String {
    let (said, leading) = (said_causes(all), leading(all));
    let head = [
        "weight, dban",
        "said",
        "right",
        "95 % interval",
        "even odds would give",
        "leading, said or not",
        "right",
    ];
    let mut table = Table::new(&head);
    let mut diagram = String::new();
    for (i, &low) in EDGES.iter().enumerate() {
        let high = EDGES.get(i + 1).copied().unwrap_or(f64::INFINITY);
        let within = |all: &[(f64, bool)]| -> Vec<(f64, bool)> {
            let own = all.iter().filter(|(w, _)| *w >= low && *w < high);
            own.copied().collect()
        };
        let count = |bin: &[(f64, bool)]| bin.iter().filter(|(_, right)| *right).count();
        let (bin, raw) = (within(&said), within(&leading));
        let right = count(&bin);
        let mean = bin.iter().map(|(w, _)| probability(*w)).sum::<f64>() / bin.len().max(1) as f64;
        let name = match (low.is_finite(), high.is_finite()) {
            (false, _) => format!("below {high}"),
            (_, false) => format!("{low} and more"),
            _ => format!("{low} to {high}"),
        };
        let (from, to) = wilson(right, bin.len());
        table.row(vec![
            name.clone(),
            bin.len().to_string(),
            percent(right, bin.len()),
            format!("{:.0} to {:.0} %", 100.0 * from, 100.0 * to),
            if bin.is_empty() {
                "-".into()
            } else {
                format!("{:.1} %", 100.0 * mean)
            },
            raw.len().to_string(),
            percent(count(&raw), raw.len()),
        ]);
        if !bin.is_empty() {
            let share = right as f64 / bin.len() as f64;
            diagram += &format!("{name:>14} |{}|\n", line(share, (from, to), mean));
        }
    }
    let statements = [(13.01, 20), (21.76, 150)].map(|(weight, odds)| {
        let (said, right) = said_at(all, weight);
        statement(odds, said, right)
    });
    format!(
        "{}\n```\n{:>14} 0 %{:>width$}\n{diagram}{:>14}  o right, - 95 % interval, : what even odds would give\n```\n\n{}",
        table.markdown(),
        "",
        "100 %",
        "",
        statements.concat(),
        width = WIDTH - 2,
    )
}

/// One line of the diagram.
fn line(share: f64, (from, to): (f64, f64), expected: f64) -> String {
    let at = |x: f64| ((x * WIDTH as f64) as usize).min(WIDTH - 1);
    let mut cells = vec![' '; WIDTH];
    cells[at(from)..=at(to)].fill('-');
    cells[at(expected)] = ':';
    cells[at(share)] = 'o';
    cells.into_iter().collect()
}

/// Sentence on whether verdicts of at least these odds are right as often as the odds say.
fn statement(odds: usize, said: usize, right: usize) -> String {
    let needed = odds as f64 / (odds + 1) as f64;
    let holds = if right as f64 >= needed * said as f64 {
        "holds"
    } else {
        "does NOT hold"
    };
    let (low, high) = wilson(right, said);
    format!(
        "- Causes said at {odds}:1 or more: {right} of {said} right ({}, interval {:.1} to {:.1} %); {:.1} % are \
         needed: {holds}.\n",
        percent(right, said),
        100.0 * low,
        100.0 * high,
        100.0 * needed
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn statements_hold_at_their_odds() {
        assert!(statement(20, 21, 20).contains(": holds"));
        assert!(statement(20, 21, 19).contains("does NOT hold"));
    }

    #[test]
    fn a_line_of_the_diagram() {
        let text = line(0.5, (0.3, 0.7), 0.952);
        assert_eq!(text.len(), WIDTH);
        assert_eq!(
            (text.find('o'), text.find(':'), text.find('-')),
            (Some(25), Some(47), Some(15))
        );
    }
}
