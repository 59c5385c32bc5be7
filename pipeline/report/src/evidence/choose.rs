//! Which pictures a case needs.

use super::plot::{Source, View};
use super::row::share_scales;
use super::{EvidencePlot, Part, SpeedCurve};
use crate::localizer::Localizer;
use model::job_file::Phase;
use model::{Capture, Case, Finding, Grade, VerdictState};
use std::collections::BTreeMap;

/// Pictures in a report.
const MOST_PLOTS: usize = 2;

/// The pictures of a case: of the findings that speak for its cause; without a cause, of the abnormal findings, and
/// of what keeps an open case from being decided; without those, an overview of the first recording. With a recording
/// after the repair, before and after side by side. `captures` are the recordings as they were calibrated, `speeds`
/// what was derived from their pulses; a recording that is not among them gets no picture.
pub fn choose(
    case: &Case,
    captures: &[Capture],
    speeds: &[SpeedCurve],
    localizer: &Localizer,
) -> Vec<EvidencePlot> {
    let deciding = deciding(case);
    let source = Source {
        case,
        speeds,
        deciding: &deciding,
        localizer,
    };
    let find = |file: &str| captures.iter().find(|c| c.file == file && is_drawable(c));
    if let Some((before, after)) = compared(case, &deciding)
        && let (Some(before), Some(after)) = (find(before), find(after))
    {
        let views = [View::of(before, Part::Before), View::of(after, Part::After)];
        return vec![source.plot(&views)];
    }
    let mut files: Vec<&str> = Vec::new();
    for file in deciding.iter().filter_map(|f| f.file.as_deref()) {
        if !files.contains(&file) {
            files.push(file);
        }
    }
    let mut shown: Vec<&Capture> = files.into_iter().filter_map(find).collect();
    if shown.is_empty() {
        shown.extend(captures.iter().find(|c| is_drawable(c)));
    }
    shown.truncate(MOST_PLOTS);
    let mut plots: Vec<EvidencePlot> = shown
        .into_iter()
        .map(|capture| {
            let whole = View::of(capture, Part::Whole);
            let detail = source.detail(capture);
            source.plot(
                &[Some(whole), detail]
                    .into_iter()
                    .flatten()
                    .collect::<Vec<_>>(),
            )
        })
        .collect();
    share_scales(plots.iter_mut().flat_map(|p| &mut p.rows));
    plots
}

fn is_drawable(capture: &Capture) -> bool {
    capture.time.duration_s() > 0.0
}

/// The recordings before and after the repair.
fn compared<'c>(case: &'c Case, deciding: &[&'c Finding]) -> Option<(&'c str, &'c str)> {
    case.verdict.repair.as_ref()?;
    let of_phase = |phase: Phase| {
        let mut of_phase = case.captures.iter().filter(move |c| c.phase == Some(phase));
        of_phase
            .clone()
            .find(|c| deciding.iter().any(|f| f.file.as_deref() == Some(&c.file)))
            .or_else(|| of_phase.next())
    };
    Some((
        &of_phase(Phase::Before)?.file,
        &of_phase(Phase::After)?.file,
    ))
}

/// The findings to show, weightiest first.
fn deciding(case: &Case) -> Vec<&Finding> {
    let by_id: BTreeMap<&str, &Finding> =
        case.findings.iter().map(|f| (f.id.as_str(), f)).collect();
    if let Some(repair) = &case.verdict.repair {
        let sides = repair
            .compared
            .iter()
            .map(|c| &c.before)
            .chain(repair.compared.iter().map(|c| &c.after));
        return sides
            .flatten()
            .filter_map(|id| by_id.get(id.as_str()).copied())
            .collect();
    }
    if let Some(cause) = case.verdict_cause() {
        let weight = |id: &str| -> f64 {
            let of_id = cause
                .weights
                .iter()
                .filter(|w| w.finding.as_deref() == Some(id));
            of_id.map(|w| w.weight_dban).sum()
        };
        let mut found: Vec<(f64, &Finding)> = cause
            .supporting
            .iter()
            .filter_map(|id| Some((weight(id), *by_id.get(id.as_str())?)))
            .collect();
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        if !found.is_empty() {
            return found.into_iter().map(|(_, f)| f).collect();
        }
    }
    let of_grade = |grade| case.findings.iter().filter(move |f| f.grade == grade);
    let open = case.verdict.state == VerdictState::Open;
    of_grade(Grade::Abnormal)
        .chain(of_grade(Grade::Unusable).filter(|_| open))
        .collect()
}
