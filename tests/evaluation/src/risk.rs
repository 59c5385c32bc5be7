//! The risk-coverage curve: share decided against share wrong among the decided (Y. Geifman and R. El-Yaniv, Selective
//! classification for deep neural networks, NIPS 2017).
//!
//! Every case gets the answer that the evidence alone would give: its heaviest cause, or that there is nothing where no
//! cause has weight. The confidence is that weight's distance from zero. A threshold on it decides which cases
//! are answered at all. The working point is what the program truly decided, with its required observations, guards and
//! thresholds.

use crate::evaluate::Evaluated;
use crate::score::Outcome;
use crate::stats::risk_bound;
use crate::table::{Table, percent};

/// One case on the curve: confidence in decibans, and whether the forced answer is wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Forced {
    /// Decibans.
    pub confidence: f64,
    /// True when the truth does not allow it.
    pub wrong: bool,
}

/// The answer that the evidence alone would give.
pub fn forced(e: &Evaluated) -> Option<Forced> {
    let said = e.said.as_ref()?;
    let want = &e.truth.verdict;
    let top = said.causes().first().map(|c| (c.cause.clone(), c.weight));
    let (weight, right) = match top {
        Some((cause, weight)) if weight > 0.0 => (weight, want.causes.contains(&cause)),
        top => {
            let nothing = want.states.iter().any(|s| s == "nothing-found");
            (top.map_or(0.0, |t| t.1), nothing)
        }
    };
    Some(Forced {
        confidence: weight.abs(),
        wrong: !right,
    })
}

/// Decided and wrong among the decided, of all cases.
pub fn working_point(all: &[Evaluated]) -> (usize, usize) {
    let decided = |e: &&Evaluated| e.said.as_ref().is_some_and(|s| s.verdict.state != "open");
    let wrong = |e: &&Evaluated| matches!(e.outcome, Outcome::Wrong | Outcome::FalseTeardown);
    let decided: Vec<&Evaluated> = all.iter().filter(decided).collect();
    (decided.len(), decided.iter().filter(|e| wrong(e)).count())
}

/// Points of the curve, most confident first: (threshold, answered, wrong among them).
pub fn curve(cases: &[Forced]) -> Vec<(f64, usize, usize)> {
    let mut sorted = cases.to_vec();
    sorted.sort_by(|a, b| b.confidence.total_cmp(&a.confidence));
    let mut points: Vec<(f64, usize, usize)> = Vec::new();
    let mut wrong = 0;
    for (i, c) in sorted.iter().enumerate() {
        wrong += usize::from(c.wrong);
        // Cases of one confidence are answered together.
        if points.last().is_some_and(|p| p.0 == c.confidence) {
            points.pop();
        }
        points.push((c.confidence, i + 1, wrong));
    }
    points
}

/// Area under the curve: mean risk over the coverages 1/n, 2/n, ... 1, each case counted at its own threshold.
pub fn area(cases: &[Forced]) -> f64 {
    let points = curve(cases);
    let mut before = 0;
    let mut sum = 0.0;
    for (_, answered, wrong) in points {
        sum += (answered - before) as f64 * wrong as f64 / answered as f64;
        before = answered;
    }
    sum / cases.len().max(1) as f64
}

/// The curve as a table, with the working point.
pub fn markdown(all: &[Evaluated]) -> String {
    let cases: Vec<Forced> = all.iter().filter_map(forced).collect();
    let head = [
        "answered where the weight is at least",
        "coverage",
        "wrong among the answered",
        "risk",
        "risk at most (95 % confidence)",
    ];
    let mut table = Table::new(&head);
    let n = all.len().max(1);
    let row = |what: String, answered: usize, wrong: usize| {
        vec![
            what,
            percent(answered, n),
            format!("{wrong} of {answered}"),
            percent(wrong, answered),
            format!("{:.2} %", 100.0 * risk_bound(wrong, answered, 0.05)),
        ]
    };
    let points = curve(&cases);
    let mut tenths: Vec<_> = (1..=10)
        .filter_map(|tenth| {
            let wanted = tenth * cases.len() / 10;
            points.iter().find(|p| p.1 >= wanted.max(1))
        })
        .collect();
    tenths.dedup();
    for p in tenths {
        table.row(row(format!("{:.1} dban", p.0), p.1, p.2));
    }
    let (decided, wrong) = working_point(all);
    table.row(row("**working point**".into(), decided, wrong));
    format!(
        "{}\nArea under the curve: {:.4}. The curve forces an answer from the weights alone; the working point is what \
         the program decided.\n",
        table.markdown(),
        area(&cases)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Four cases, worked by hand: risks 0, 0, 1/3, 1/4, so the area is (0 + 0 + 1/3 + 1/4) / 4.
    #[test]
    fn curve_of_four_cases() {
        let case = |confidence, wrong| Forced { confidence, wrong };
        let cases = [
            case(5.0, false),
            case(20.0, false),
            case(8.0, true),
            case(12.0, false),
        ];
        let want = [(20.0, 1, 0), (12.0, 2, 0), (8.0, 3, 1), (5.0, 4, 1)];
        assert_eq!(curve(&cases), want);
        assert!((area(&cases) - 7.0 / 48.0).abs() < 1e-12);
        let tied = [case(5.0, true), case(5.0, false)];
        assert_eq!(curve(&tied), [(5.0, 2, 1)]);
    }
}
