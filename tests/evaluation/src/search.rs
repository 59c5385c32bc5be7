//! Search for cases that defeat the program: random cases first, then hill-climbing from the worst of them.
//!
//! What is climbed is the margin: the distance in decibans between what is said rightly and what would be said
//! wrongly. It is negative where the verdict is wrong. Every case is told by its class, its seed and its overrides, so a
//! find is kept as a small TOML file and becomes a regression case.

use crate::case::{CaseSpec, case_name};
use crate::evaluate::{Evaluated, Runner, in_parallel};
use crate::params::Params;
use crate::score::Outcome;
use crate::stats::{risk_bound, wilson};
use crate::table::Table;

/// Weight from which a cause is called probable, decibans: odds of 20 to 1.
const PROBABLE: f64 = 13.01;
/// Weight of a cause that is not listed, decibans.
const UNLISTED: f64 = -40.0;

/// Extent of a search.
#[derive(Debug, Clone, Default)]
pub struct Extent {
    /// Seed of the whole search.
    pub seed: u64,
    /// Random cases.
    pub random: usize,
    /// Climbs from the worst of them.
    pub climbs: usize,
    /// Steps of each climb.
    pub steps: usize,
    /// Classes; empty for all.
    pub classes: Vec<String>,
}

/// Result of a search.
#[derive(Debug, Clone)]
pub struct Found {
    /// The random cases, in order.
    pub random: Vec<Evaluated>,
    /// The end of each climb, worst first.
    pub climbed: Vec<Evaluated>,
}

/// Distance to a wrong verdict, decibans; below zero where it is wrong, lowest where a sound part is condemned.
pub fn margin(e: &Evaluated) -> f64 {
    let penalty = match e.outcome {
        Outcome::FalseTeardown => 200.0,
        Outcome::Crashed => 150.0,
        Outcome::Wrong => 100.0,
        _ => 0.0,
    };
    let Some(said) = &e.said else {
        return -penalty;
    };
    let want = &e.truth.verdict;
    let heaviest = |right: bool| {
        let all = said.causes();
        let of = all
            .iter()
            .filter(|c| want.causes.contains(&c.cause) == right);
        of.map(|c| c.weight).fold(UNLISTED, f64::max)
    };
    let (right, wrong) = (heaviest(true), heaviest(false));
    let mut margin = PROBABLE - wrong;
    if want.expected == "established" || want.expected == "probable" {
        margin = margin.min(right - wrong);
    }
    let claims = 5.0 * (e.false_claims.1 + e.false_clearances.len()) as f64;
    let margin = margin - claims;
    if penalty > 0.0 {
        margin.min(0.0) - penalty
    } else {
        margin
    }
}

/// Searches.
pub fn search(runner: Runner, extent: &Extent) -> Found {
    let specs: Vec<CaseSpec> = (0..extent.random)
        .map(|i| CaseSpec::numbered(extent.seed, i, &extent.classes))
        .collect();
    let random = runner.evaluate_all(&specs);
    let mut order: Vec<usize> = (0..random.len()).collect();
    order.sort_by(|&a, &b| margin(&random[a]).total_cmp(&margin(&random[b])));
    // Not the same class again and again: at most two climbs a class.
    let mut starts: Vec<&Evaluated> = Vec::new();
    for &i in &order {
        let class = &random[i].truth.class;
        let same = starts.iter().filter(|s| s.truth.class == *class).count();
        if same < 2 && starts.len() < extent.climbs {
            starts.push(&random[i]);
        }
    }
    let mut climbed = in_parallel(starts.len(), runner.at_once, |i| {
        climb(runner, starts[i], extent, i)
    });
    climbed.sort_by(|a, b| margin(a).total_cmp(&margin(b)));
    Found { random, climbed }
}

/// Climbs from a case: one to three of its parameters are moved or drawn afresh, and what lowers the margin is kept.
fn climb(runner: Runner, start: &Evaluated, extent: &Extent, index: usize) -> Evaluated {
    let mut best = start.clone();
    let mut p = Params::new(extent.seed);
    for step in 0..extent.steps {
        let Some(mut spec) = best
            .spec
            .clone()
            .filter(|_| !best.truth.parameters.is_empty())
        else {
            break;
        };
        let key = |what: &str, k: u64| format!("{what} {index}/{step}/{k}");
        for k in 0..p.whole(&key("count", 0), 1, 3) {
            let drawn =
                &best.truth.parameters[p.index(&key("which", k), best.truth.parameters.len())];
            let position = if p.chance(&key("afresh", k), 0.5) {
                p.between(&key("position", k), 0.0, 1.0)
            } else {
                drawn.position + 0.08 * p.noise(&key("move", k)).normal()
            };
            let position = position.clamp(0.0, 1.0 - f64::EPSILON);
            spec.overrides.insert(drawn.name.clone(), position);
        }
        let tried = runner.evaluate_one(&spec, &case_name(index));
        if margin(&tried) < margin(&best) {
            best = tried;
        }
    }
    best
}

/// Formats the findings in Markdown, the worst first.
pub fn markdown(found: &Found, worst: usize) -> String {
    let n = found.random.len();
    let count = |o: Outcome| found.random.iter().filter(|e| e.outcome == o).count();
    let (wrong, teardowns) = (count(Outcome::Wrong), count(Outcome::FalseTeardown));
    let (low, high) = wilson(wrong, n);
    let mut text = format!(
        "{n} random cases: wrong {wrong} ({:.2} %, 95 % interval {:.2} to {:.2} %), false teardowns {teardowns} (at most \
         {:.3} % with 95 % confidence), abstained {}, crashed {}.\n\n",
        100.0 * wrong as f64 / n.max(1) as f64,
        100.0 * low,
        100.0 * high,
        100.0 * risk_bound(teardowns, n, 0.05),
        count(Outcome::Abstained),
        count(Outcome::Crashed),
    );
    let mut all: Vec<&Evaluated> = found.random.iter().chain(&found.climbed).collect();
    all.sort_by(|a, b| margin(a).total_cmp(&margin(b)));
    all.dedup_by(|a, b| a.spec == b.spec);
    let head = [
        "class",
        "seed",
        "margin, dban",
        "outcome",
        "said",
        "allowed",
        "overrides",
    ];
    let mut table = Table::new(&head);
    for e in all.iter().take(worst) {
        let Some(spec) = &e.spec else { continue };
        let want = &e.truth.verdict;
        let overrides: Vec<String> = spec
            .overrides
            .keys()
            .filter_map(|name| e.truth.parameters.iter().find(|d| d.name == *name))
            .map(|d| format!("{} = {}", d.name, d.value))
            .collect();
        table.row(vec![
            spec.class.clone(),
            spec.seed.to_string(),
            format!("{:.1}", margin(e)),
            e.outcome.heading().into(),
            e.said
                .as_ref()
                .map_or("nothing readable".into(), |s| s.short()),
            format!("{} {}", want.states.join("/"), want.causes.join("/")),
            overrides.join("; "),
        ]);
    }
    text += &table.markdown();
    text
}

/// The worst case of each class that is wrong, as regression cases.
pub fn regressions(found: &Found) -> Vec<CaseSpec> {
    let mut all: Vec<&Evaluated> = found.climbed.iter().chain(&found.random).collect();
    all.retain(|e| e.outcome == Outcome::Wrong || e.outcome == Outcome::FalseTeardown);
    all.sort_by(|a, b| margin(a).total_cmp(&margin(b)));
    let mut kept: Vec<CaseSpec> = Vec::new();
    for e in all {
        let Some(spec) = &e.spec else { continue };
        if kept.iter().all(|k| k.class != spec.class) {
            let said = e.said.as_ref().map_or(String::new(), |s| s.short());
            let note = format!("{}: said {said}", e.outcome.heading().to_lowercase());
            kept.push(CaseSpec {
                note,
                ..spec.clone()
            });
        }
    }
    kept
}

/// Returns true when any verdict condemns a sound part, or a case came to no verdict at all, which proves nothing.
pub fn has_failed(found: &Found) -> bool {
    let mut all = found.random.iter().chain(&found.climbed);
    all.any(|e| matches!(e.outcome, Outcome::FalseTeardown | Outcome::Crashed))
}
