//! Proposes weights of evidence from the labelled cases.
//!
//! The procedure: every case whose true cause is single and known is run. An observation is a finding kind with
//! its subject and its grade. For each cause and each observation it is counted in how many of the `n` cases with
//! that cause the observation occurs (`a`) and in how many of the `m` cases without it (`b`). The weight of the
//! observation for the cause is 10 log10 (p1 / p0) decibans (I. J. Good) with p1, p0 the shares under Jeffreys'
//! prior; the interval is the mean plus and minus 1.96 standard deviations of that posterior. The same is done for
//! the observation's absence. Three cautions belong to every number: the cases are simulated, so the weights say how
//! telling the program's findings are on simulated gearboxes; p0 depends on the mixture of the other classes, here
//! each as often as any other; and observations of one event depend on each other, so their weights must not be
//! added. Mixed cases are left out, and so are findings about codes: which code goes with which fault is invented
//! here and says nothing of vehicles. What is proposed is the end of the interval that lies nearer to zero, so that
//! few cases give little weight, and only for kinds of findings that `checked.toml` lists: those whose share among
//! simulated recordings was compared with the share among real ones.

use crate::evaluate::Evaluated;
use crate::said::SaidFinding;
use crate::stats::{Z95, weight_dban, wilson};
use crate::table::Table;
use serde::Deserialize;
use std::collections::BTreeSet;

/// Weights whose interval does not reach this near to zero are listed, decibans.
const WORTH_MENTION: f64 = 1.0;

fn observation(f: &SaidFinding) -> String {
    let subject = f.subject.as_deref().unwrap_or("-");
    format!("{} {subject} {}", f.kind, f.grade)
}

struct Sample {
    cause: Option<String>,
    seen: BTreeSet<String>,
}

/// A kind of finding whose simulated distribution was checked against real recordings.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Checked {
    /// Kind of the finding.
    pub kind: String,
    /// Made in the first of the second simulated recordings that should show it.
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
            "{}: {:?} real and {:?} simulated do not agree, so the row proves nothing",
            row.kind,
            row.real,
            row.simulated
        );
    }
    Ok(file.checked)
}

/// Weights in Markdown, proposed for the checked kinds.
pub fn markdown(all: &[Evaluated], checked: &[Checked]) -> String {
    let samples: Vec<Sample> = all
        .iter()
        .filter(|j| !j.truth.class.starts_with("mixed-"))
        .filter_map(|j| {
            let findings = j.said.as_ref()?.findings.iter();
            let seen = findings
                .filter(|f| !f.kind.starts_with("code-"))
                .map(observation)
                .collect();
            Some(Sample {
                cause: j.truth.true_cause.clone(),
                seen,
            })
        })
        .collect();
    let causes: BTreeSet<&str> = samples.iter().filter_map(|s| s.cause.as_deref()).collect();
    let observations: BTreeSet<&String> = samples.iter().flat_map(|s| &s.seen).collect();
    let mut text = format!(
        "Counted in {} cases of one cause or none.\n\n",
        samples.len()
    );
    for cause in causes {
        let (with, without): (Vec<&Sample>, Vec<&Sample>) = samples
            .iter()
            .partition(|s| s.cause.as_deref() == Some(cause));
        let mut rows: Vec<(f64, Vec<String>)> = Vec::new();
        for o in &observations {
            for absent in [false, true] {
                let seen =
                    |of: &[&Sample]| of.iter().filter(|s| s.seen.contains(*o) != absent).count();
                let (a, b) = (seen(&with), seen(&without));
                let (weight, sd) = weight_dban(a, with.len(), b, without.len());
                if weight.abs() - Z95 * sd < WORTH_MENTION {
                    continue;
                }
                let what = if absent {
                    format!("no {o}")
                } else {
                    o.to_string()
                };
                let cells = vec![
                    what,
                    format!("{a} of {}", with.len()),
                    format!("{b} of {}", without.len()),
                    format!("{weight:+.1}"),
                    format!("{:+.1} to {:+.1}", weight - Z95 * sd, weight + Z95 * sd),
                    if checked
                        .iter()
                        .any(|c| o.starts_with(&format!("{} ", c.kind)))
                    {
                        format!("{:+.1}", weight - (Z95 * sd).copysign(weight))
                    } else {
                        "unchecked".into()
                    },
                ];
                rows.push((weight, cells));
            }
        }
        rows.sort_by(|a, b| b.0.total_cmp(&a.0));
        let mut table = Table::new(&[
            "observation",
            "with the cause",
            "without",
            "weight, dban",
            "95 % interval",
            "proposed",
        ]);
        rows.into_iter().for_each(|(_, cells)| table.row(cells));
        text += &format!("## {cause}\n\n{}\n", table.markdown());
    }
    text
}
