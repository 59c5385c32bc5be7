//! Motors behind an inverter, by their phase currents or by the current of the link.

use crate::limits;
use crate::measure::phases::{Phases, link_ripple, phases, steady};
use crate::outputs;
use plugin_sdk::{
    Analyzer, Declaration, Grade, Input, Limit, Observation, Output, Record, Settings,
};

/// Electrical rate and balance of the phases.
pub struct ThreePhase;

const PHASES: [&str; 3] = ["phase-current-u", "phase-current-v", "phase-current-w"];
/// Share of the largest phase that the sum of the three may be: clamps differ in scale and delay.
const SUM: f64 = 0.12;
/// Correlation of the two others from which a phase surely carries nothing.
const OPPOSITE: f64 = -0.95;

impl Analyzer for ThreePhase {
    const DECLARATION: Declaration = Declaration {
        id: "three-phase",
        name: "Three-phase motor",
        needs: &["phase-current-u|phase-current-v|phase-current-w|link-current"],
        uses: &[
            "phase-current-u",
            "phase-current-v",
            "phase-current-w",
            "link-current",
        ],
        kinds: outputs::THREE_PHASE.kinds,
        messages: outputs::THREE_PHASE.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let recorded = PHASES.map(|r| Record::of(input, &[r]));
        if let Some(three) = Three::of(&recorded) {
            let all = [0, 1, 2].map(|k| &three.currents[k][..]);
            let (start, step) = (three.reference.start_s, three.reference.step_s);
            let found = steady(all, step)
                .and_then(|span| later_parts(span).find_map(|part| phases(all, start, step, part)));
            if let Some(p) = found {
                observe(&p, &three, &input.settings, out);
            }
        } else if let Some(link) = Record::of(input, &["link-current"]) {
            link_alone(&link, &input.settings, out);
        }
        Ok(())
    }
}

/// A stretch, its later half and its last third: the rate may still climb when the currents hold their size already.
fn later_parts((from, to): (usize, usize)) -> impl Iterator<Item = (usize, usize)> {
    (1..=3).map(move |k| (to - (to - from) / k, to))
}

/// The three phase currents.
struct Three<'a> {
    currents: [Vec<f64>; 3],
    /// One of the records.
    reference: &'a Record,
    /// Index of a current that follows from the other two (Kirchhoff), where only two were recorded.
    derived: Option<usize>,
}

impl Three<'_> {
    /// `None` with fewer than two records, or where they were not sampled together.
    fn of(recorded: &[Option<Record>; 3]) -> Option<Three<'_>> {
        let here: Vec<&Record> = recorded.iter().flatten().collect();
        let reference = *here.first()?;
        if here.len() < 2 || here.iter().any(|r| !r.matches(reference)) {
            return None;
        }
        let rest = |i: usize| -here.iter().map(|r| r.values[i]).sum::<f64>();
        let currents = [0, 1, 2].map(|k| match &recorded[k] {
            Some(r) => r.values.clone(),
            None => (0..reference.values.len()).map(rest).collect(),
        });
        Some(Three {
            currents,
            reference,
            derived: recorded.iter().position(Option::is_none),
        })
    }
}

fn observe(p: &Phases, three: &Three<'_>, settings: &Settings, out: &mut Output) {
    let derived = three.derived;
    let subject = &three.reference.role;
    let about = |kind: &str, message: &str| {
        Observation::new(kind, message)
            .about(subject)
            .span(p.rate.from_s, p.rate.to_s)
    };
    out.add(about("electrical-rate", "electrical-rate").value(
        p.rate.value,
        p.rate.uncertainty,
        "Hz",
    ));
    let limit = limits(settings).limit("phase-imbalance");
    let (value, u) = (p.imbalance.value, p.imbalance.uncertainty);
    // One phase that was not recorded says nothing against the clamps of the others, and nothing for them.
    let closed = derived.is_some() || p.sum < SUM;
    let proven = match p.missing {
        // A clamp that is not on its wire shows nothing, too; then the other two are not each other's mirror image.
        Some(k) => derived.is_none_or(|d| d == k) && p.others < OPPOSITE,
        None => closed,
    };
    let (message, grade) = match p.missing {
        _ if !proven || !three.reference.calibrated && derived.is_some() => {
            ("phases-unclear", Grade::Unusable)
        }
        Some(_) => ("phase-missing", Grade::Abnormal),
        None if value - 2.0 * u > limit.high.unwrap_or(f64::INFINITY) => {
            ("phases-unequal", Grade::Abnormal)
        }
        None => ("phases-alike", Grade::Normal),
    };
    let names = ["u", "v", "w"];
    out.add(
        about("phase-imbalance", message)
            .value(value, u, "%")
            .limit(limit)
            .grade(grade)
            .arg("u_a", p.rms[0])
            .arg("v_a", p.rms[1])
            .arg("w_a", p.rms[2])
            .arg("missing", p.missing.map_or("none", |k| names[k])),
    );
}

/// Judges the link alone: with all phases its current holds nearly still, with one missing it falls to nothing
/// twice in each electrical period.
fn link_alone(link: &Record, settings: &Settings, out: &mut Output) {
    let Some(l) = link_ripple(&link.values, link.start_s, link.step_s) else {
        return;
    };
    let limit = limits(settings).limit("link-ripple");
    let single = l.depth.value - 2.0 * l.depth.uncertainty > limit.high.unwrap_or(f64::INFINITY);
    let message = if single {
        "link-ripple-single-phase"
    } else {
        "link-ripple"
    };
    if single {
        out.add(
            Observation::new("electrical-rate", "electrical-rate")
                .about("link-current")
                .span(l.depth.from_s, l.depth.to_s)
                .value(l.hz / 2.0, l.hz_uncertainty / 2.0, "Hz"),
        );
    }
    out.add(
        Observation::new("link-ripple", message)
            .about("link-current")
            .span(l.depth.from_s, l.depth.to_s)
            .value(l.depth.value, l.depth.uncertainty, "%")
            .limit(Limit { low: None, ..limit })
            .grade(if single {
                Grade::Abnormal
            } else {
                Grade::Normal
            })
            .arg("hz", l.hz),
    );
}
