//! The words at a picture.

use super::plot::{View, is_about};
use super::{Part, PlotRow};
use crate::localizer::{Localizer, args, capital, number_arg};
use model::{Capture, Case, Channel, Finding, Grade};

/// Speed that a sensor's channel shows: that of its longest finding in rpm, or standstill. A sensor of which anything is
/// not tested, not readable or faulty shows no speed, not even none.
pub(super) fn speed(
    case: &Case,
    capture: &Capture,
    channel: &Channel,
    localizer: &Localizer,
) -> Option<String> {
    let here = |f: &&Finding| f.file.as_deref().is_none_or(|file| file == capture.file);
    let of_channel = || {
        let about = case.findings.iter().filter(|f| is_about(f, channel));
        about.filter(here)
    };
    let is_speed = |f: &Finding| f.unit.as_deref() == Some("rpm");
    let is_in_doubt = |f: &Finding| match f.grade {
        Grade::Normal => false,
        Grade::Abnormal => !is_speed(f),
        Grade::Unusable | Grade::Unreadable | Grade::NotTested => true,
    };
    if of_channel().any(is_in_doubt) {
        return None;
    }
    let long = |f: &Finding| f.end_s.unwrap_or(0.0) - f.start_s.unwrap_or(0.0);
    let longest = of_channel()
        .filter(|f| is_speed(f) && f.file.is_some())
        .max_by(|a, b| long(a).total_cmp(&long(b)))?;
    match longest.value? {
        0.0 => Some(localizer.message("report-evidence-at-rest")),
        rpm => Some(localizer.quantity(rpm, Some("rpm"))),
    }
}

/// The recordings and their conditions.
pub(super) fn title(case: &Case, views: &[View<'_>], localizer: &Localizer) -> String {
    let mut titles: Vec<String> = Vec::new();
    for view in views {
        let file = &view.capture.file;
        let mut parts = Vec::new();
        if let Some(record) = case.captures.iter().find(|c| c.file == *file) {
            parts.extend(record.phase.map(|p| localizer.phase(p)));
            parts.extend(record.engine.as_ref().map(|e| localizer.engine(e.value)));
            let selector = record.selector.as_ref();
            parts.extend(selector.map(|s| localizer.selector(s.value)));
        }
        let title = match parts.is_empty() {
            true => file.clone(),
            false => format!("{file}: {}", parts.join(", ")),
        };
        if !titles.contains(&title) {
            titles.push(title);
        }
    }
    titles.join("; ")
}

/// Caption of the picture in one sentence.
pub(super) fn caption(deciding: &[&Finding], views: &[View<'_>], localizer: &Localizer) -> String {
    if views.iter().any(|v| v.part == Part::After) {
        return localizer.message("report-evidence-caption-compared");
    }
    let file = &views[0].capture.file;
    let finding = deciding.iter().find(|f| f.file.as_ref() == Some(file));
    match finding {
        Some(finding) => localizer.finding_plain(finding),
        None => localizer.message("report-evidence-caption-normal"),
    }
}

/// The picture in words: every trace with its range, every labelled mark.
pub(super) fn alt(views: &[View<'_>], rows: &[PlotRow], localizer: &Localizer) -> String {
    let number = |v: f64| localizer.number(v);
    let mut lines = Vec::new();
    for row in rows {
        for trace in &row.traces {
            for (view, runs) in views.iter().zip(&trace.runs) {
                if view.part == Part::Detail {
                    continue;
                }
                let values = || runs.iter().flatten().map(|p| p.1).filter(|v| v.is_finite());
                let low = values().fold(f64::INFINITY, f64::min);
                let high = values().fold(f64::NEG_INFINITY, f64::max);
                if low > high {
                    lines.push(trace.label.clone());
                    continue;
                }
                let a = args([
                    ("label", trace.label.clone().into()),
                    ("low", number(low).into()),
                    ("high", number(high).into()),
                    ("unit", row.unit.clone().into()),
                ]);
                lines.push(localizer.message_with("report-evidence-alt-row", &a));
            }
        }
    }
    let traces = rows.iter().flat_map(|r| &r.traces);
    let marks: Vec<String> = traces
        .flat_map(|t| t.marks.iter().zip(views))
        .filter(|(_, view)| view.part != Part::Detail)
        .flat_map(|(marks, _)| marks)
        .filter(|m| !m.label.is_empty())
        .map(|m| {
            let a = args([
                ("from", number(m.start_s).into()),
                ("to", number(m.end_s).into()),
                ("label", m.label.clone().into()),
            ]);
            localizer.message_with("report-evidence-alt-mark", &a)
        })
        .collect();
    let mut files: Vec<&str> = views.iter().map(|v| v.capture.file.as_str()).collect();
    files.dedup();
    let span = views[0].span;
    let a = args([
        ("count", number_arg(lines.len() as f64)),
        ("file", files.join(", ").into()),
        ("duration", number(span.1 - span.0).into()),
        ("rows", lines.join("; ").into()),
        ("marks", marks.join(" ").into()),
    ]);
    capital(localizer.message_with("report-evidence-alt", &a).trim())
}
