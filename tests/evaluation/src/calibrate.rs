//! Proposes weights of evidence from the labelled cases.
//!
//! The procedure: every case whose true cause is single and known is run. For each row of a cause it is counted in how
//! many of the cases with that cause the row applied and in how many of the cases without it; a case counts where the
//! row applied or its cause was tested, as for a shop's own outcomes (`learn::weights`). The counted weight with its
//! 95 % interval is `learn::statistics::Weight`. Three cautions belong to every number: the cases are simulated, so
//! the weights say how telling the program's findings are on simulated gearboxes; the share without the cause depends
//! on the mixture of the other classes, here each as often as any other; and rows of one group rest on one event, so
//! that only the strongest of them counts. Mixed cases are left out, and so are rows on codes: which code goes with
//! which fault is invented here and says nothing of vehicles. What is proposed is the end of the interval that lies
//! nearer to zero, so that few cases give little weight, and only for rows that `checked.toml` names: those whose share
//! among simulated recordings was compared with the share among real ones.

use crate::evaluate::Evaluated;
use crate::said::{Said, SaidSystem};
use crate::stats::{Weight, wilson};
use crate::table::Table;
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};

/// Rows of the cause sheets whose simulated distribution was checked against real recordings.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Checked {
    /// Rows, each as `cause/row`.
    pub rows: Vec<String>,
    /// Observation that was compared.
    pub what: String,
    /// Made in the first of the second simulated recordings.
    pub simulated: [usize; 2],
    /// The same for real ones.
    pub real: [usize; 2],
    /// The real recordings.
    pub against: String,
}

impl Checked {
    /// Returns true when the real share lies within the 95 % interval of the simulated one or the other way round.
    pub fn agrees(&self) -> bool {
        let share = |[hits, n]: [usize; 2]| hits as f64 / n.max(1) as f64;
        let within = |of: [usize; 2], x: f64| {
            let (low, high) = wilson(of[0], of[1]);
            (low..=high).contains(&x)
        };
        within(self.simulated, share(self.real)) || within(self.real, share(self.simulated))
    }
}

/// Rows of `checked.toml`.
///
/// # Errors
/// Text that is no TOML of this shape, or a row whose shares do not agree.
pub fn checked(text: &str) -> anyhow::Result<Vec<Checked>> {
    #[derive(Deserialize)]
    struct File {
        #[serde(default)]
        checked: Vec<Checked>,
    }
    let file: File = toml::from_str(text)?;
    if let Some(row) = file.checked.iter().find(|c| !c.agrees()) {
        anyhow::bail!(
            "{}: {:?} real and {:?} simulated do not agree, so the comparison proves nothing",
            row.rows.join(", "),
            row.real,
            row.simulated
        );
    }
    Ok(file.checked)
}

/// Counts of one row: applied and all, with its cause and without it.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Counts {
    judged_dban: f64,
    with: (usize, usize),
    without: (usize, usize),
}

/// True where the cause may be counted: it was tested, or a row of it applied.
fn may_count(system: &SaidSystem, cause: &str, applied: bool) -> bool {
    let tested = |s: &SaidSystem| Some(s.coverage.as_ref()?.tested.iter().any(|t| t == cause));
    applied || tested(system).unwrap_or(false)
}

/// Counts by `(cause, row)`.
fn count(samples: &[(Option<&str>, &Said)]) -> BTreeMap<(String, String), Counts> {
    let all_weights = samples.iter().flat_map(|(_, said)| &said.systems);
    let mut counts: BTreeMap<(String, String), Counts> = all_weights
        .flat_map(|s| &s.causes)
        .flat_map(|c| c.weights.iter().map(move |w| (c, w)))
        .filter(|(_, w)| !w.row.starts_with("code-"))
        .map(|(c, w)| {
            let judged = Counts {
                judged_dban: w.weight_dban,
                ..Counts::default()
            };
            ((c.cause.clone(), w.row.clone()), judged)
        })
        .collect();
    for ((cause, row), counts) in &mut counts {
        for (truth, said) in samples {
            let named = |s: &&SaidSystem| s.causes.iter().any(|c| c.cause == *cause);
            let Some(system) = said.systems.iter().find(named) else {
                continue;
            };
            let own = system.causes.iter().filter(|c| c.cause == *cause);
            let applied = own.flat_map(|c| &c.weights).any(|w| w.row == *row);
            if !may_count(system, cause, applied) {
                continue;
            }
            let side = match *truth == Some(cause.as_str()) {
                true => &mut counts.with,
                false => &mut counts.without,
            };
            side.0 += usize::from(applied);
            side.1 += 1;
        }
    }
    counts
}

/// Weights in Markdown, proposed for the checked rows.
pub fn markdown(all: &[Evaluated], checked: &[Checked]) -> String {
    let single = all.iter().filter(|j| !j.truth.class.starts_with("mixed-"));
    let samples: Vec<(Option<&str>, &Said)> = single
        .filter_map(|j| Some((j.truth.true_cause.as_deref(), j.said.as_ref()?)))
        .collect();
    let is_checked: BTreeSet<&str> = checked
        .iter()
        .flat_map(|c| c.rows.iter().map(String::as_str))
        .collect();
    let mut table = Table::new(&[
        "row",
        "with the cause",
        "without",
        "judged, dBan",
        "counted",
        "95 % interval",
        "proposed",
    ]);
    for ((cause, row), counts) in count(&samples) {
        let name = format!("{cause}/{row}");
        let ((a, n), (b, m)) = (counts.with, counts.without);
        let weight = Weight::counted(a, n, b, m);
        let proposed = match is_checked.contains(name.as_str()) {
            true => format!("{:+.1}", weight.cautious()),
            false => "unchecked".into(),
        };
        table.row(vec![
            name,
            format!("{a} of {n}"),
            format!("{b} of {m}"),
            format!("{:+.1}", counts.judged_dban),
            format!("{:+.1}", weight.median),
            format!("{:+.1} to {:+.1}", weight.low, weight.high),
            proposed,
        ]);
    }
    let mut comparisons = Table::new(&["rows", "compared", "simulated", "real", "recordings"]);
    for c in checked {
        comparisons.row(vec![
            c.rows.join(", "),
            c.what.clone(),
            format!("{} of {}", c.simulated[0], c.simulated[1]),
            format!("{} of {}", c.real[0], c.real[1]),
            c.against.clone(),
        ]);
    }
    format!(
        "Counted in {} cases of one cause or none.\n\n{}\n## Checked against real recordings\n\n{}",
        samples.len(),
        table.markdown(),
        comparisons.markdown()
    )
}
