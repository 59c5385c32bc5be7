//! Which pictures a case needs.

use super::row::{capital, row, share_scales, trace};
use super::window::around;
use super::{DETAIL_COLUMNS, EvidencePlot, PlotRow, WHOLE_COLUMNS};
use crate::localizer::{Localizer, args, number_arg};
use model::cause_sheet::is_claim;
use model::job_file::Phase;
use model::{Capture, Case, Channel, Finding, Grade, Role, VerdictState};
use signal::envelope::Runs;
use std::collections::BTreeMap;
use std::panic::resume_unwind;

/// Pictures in a report, and traces in a picture.
const MOST_PLOTS: usize = 3;
const MOST_ROWS: usize = 4;

/// The pictures of a case: of the findings that speak for its cause; without a cause, of the abnormal findings, and
/// of what keeps an open case from being decided; without those, an overview of the first recording. With a recording after the repair, what was compared,
/// before and after. `captures` are the recordings as they were calibrated; one that is not
/// among them gets no picture.
pub fn choose(case: &Case, captures: &[Capture], localizer: &Localizer) -> Vec<EvidencePlot> {
    let deciding = deciding(case);
    let mut files: Vec<&str> = Vec::new();
    for file in deciding.iter().filter_map(|f| f.file.as_deref()) {
        if !files.contains(&file) {
            files.push(file);
        }
    }
    // Where nothing is left to be found after the repair, that is what the second picture shows.
    if case.verdict.repair.is_some() {
        let after = case
            .captures
            .iter()
            .filter(|c| c.phase == Some(Phase::After));
        files.extend(
            after
                .map(|c| c.file.as_str())
                .filter(|f| !files.contains(f))
                .collect::<Vec<_>>(),
        );
    }
    if files.is_empty() {
        files.extend(captures.first().map(|c| c.file.as_str()));
    }
    let mut plots: Vec<(EvidencePlot, Vec<Option<Role>>)> = files
        .iter()
        .filter_map(|file| captures.iter().find(|c| c.file == *file))
        .filter(|c| c.time.duration_s() > 0.0)
        .take(MOST_PLOTS)
        .map(|capture| {
            let of_file: Vec<&Finding> = deciding
                .iter()
                .copied()
                .filter(|f| f.file.as_deref() == Some(capture.file.as_str()))
                .collect();
            plot(case, capture, &of_file, localizer)
        })
        .collect();
    let mut rows: Vec<(Option<Role>, &mut PlotRow)> = plots
        .iter_mut()
        .flat_map(|(plot, roles)| roles.iter().cloned().zip(&mut plot.rows))
        .collect();
    share_scales(&mut rows);
    plots.into_iter().map(|(plot, _)| plot).collect()
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
    let ranked = case
        .verdict
        .cause
        .as_ref()
        .and_then(|name| case.causes().iter().find(|c| c.cause == *name));
    if let Some(cause) = ranked {
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

/// A picture, and the role of each of its rows.
fn plot(
    case: &Case,
    capture: &Capture,
    deciding: &[&Finding],
    localizer: &Localizer,
) -> (EvidencePlot, Vec<Option<Role>>) {
    let span = (capture.time.at(0), capture.time.at(capture.time.len() - 1));
    let channels = channels(capture, deciding);
    let window = deciding
        .iter()
        .filter(|f| f.grade == Grade::Abnormal)
        .find_map(|f| {
            let channel = channels.iter().find(|c| is_about(f, c))?;
            around(f, capture, channel, span)
        });
    let rows: Vec<PlotRow> = channels
        .iter()
        .zip(traces(capture, &channels, span, window))
        .map(|(channel, traces)| {
            let on_it: Vec<&Finding> = deciding
                .iter()
                .copied()
                .filter(|f| is_about(f, channel))
                .collect();
            let all: Vec<&Finding> = case
                .findings
                .iter()
                .filter(|f| f.file.as_deref() == Some(&capture.file) && is_about(f, channel))
                .collect();
            let mut row = row(channel, traces, span, &on_it, &all, localizer);
            if let Some(speed) = speed(case, capture, channel, localizer) {
                row.label = format!("{}: {speed}", row.label);
            }
            row
        })
        .collect();
    let roles = channels.iter().map(|c| c.role.clone()).collect();
    let caption = match deciding.first() {
        Some(finding) => localizer.finding(finding),
        None => localizer.message_with(
            "report-evidence-caption-normal",
            &args([("file", capture.file.clone().into())]),
        ),
    };
    let plot = EvidencePlot {
        title: title(case, capture, localizer),
        file: capture.file.clone(),
        alt: alt(capture, span, &rows, localizer),
        span,
        window,
        rows,
        caption,
    };
    (plot, roles)
}

/// Of each channel the whole and the enlarged part. Going through millions of samples takes time: each channel by a
/// thread of its own.
fn traces(
    capture: &Capture,
    channels: &[&Channel],
    span: (f64, f64),
    window: Option<(f64, f64)>,
) -> Vec<(Runs, Runs)> {
    let both = |channel| {
        let detail = window.map(|w| trace(capture, channel, w, DETAIL_COLUMNS));
        let whole = trace(capture, channel, span, WHOLE_COLUMNS);
        (whole, detail.unwrap_or_default())
    };
    std::thread::scope(|scope| {
        let begun: Vec<_> = channels
            .iter()
            .map(|channel| scope.spawn(|| both(channel)))
            .collect();
        let done = begun.into_iter().map(|t| t.join());
        done.map(|t| t.unwrap_or_else(|panic| resume_unwind(panic)))
            .collect()
    })
}

fn is_about(finding: &Finding, channel: &Channel) -> bool {
    channel
        .role
        .as_ref()
        .is_some_and(|r| finding.subject.as_deref() == Some(r.name()))
}

/// The channels to show: those the findings are about, then context.
fn channels<'c>(capture: &'c Capture, deciding: &[&Finding]) -> Vec<&'c Channel> {
    // What drives stands above what is driven; a channel without a role stands last.
    let place = |c: &Channel| c.role.as_ref().map_or(u32::MAX, |r| r.plot_order());
    let mut context: Vec<&Channel> = capture.channels.iter().collect();
    context.sort_by_key(|c| place(c));
    let told = deciding
        .iter()
        .filter_map(|f| capture.channels.iter().find(|c| is_about(f, c)));
    let mut chosen: Vec<&Channel> = Vec::new();
    for channel in told.chain(context) {
        if chosen.len() < MOST_ROWS && !chosen.iter().any(|c| std::ptr::eq(*c, channel)) {
            chosen.push(channel);
        }
    }
    chosen.sort_by_key(|c| place(c));
    chosen
}

/// Speed that a sensor's channel shows: that of its longest finding in rpm, or standstill.
/// A sensor with a fault shows no speed, not even none.
fn speed(
    case: &Case,
    capture: &Capture,
    channel: &Channel,
    localizer: &Localizer,
) -> Option<String> {
    if !channel.role.as_ref()?.is_speed_sensor() {
        return None;
    }
    let of_channel = || {
        case.findings
            .iter()
            .filter(|f| f.file.as_deref() == Some(&capture.file) && is_about(f, channel))
    };
    let is_speed = |f: &&Finding| f.unit.as_deref() == Some("rpm") && is_claim(f.grade);
    if of_channel().any(|f| f.grade == Grade::Abnormal && !is_speed(&f)) {
        return None;
    }
    let long = |f: &Finding| f.end_s.unwrap_or(0.0) - f.start_s.unwrap_or(0.0);
    let longest = of_channel()
        .filter(is_speed)
        .max_by(|a, b| long(a).total_cmp(&long(b)))?;
    match longest.value? {
        0.0 => Some(localizer.message("report-evidence-at-rest")),
        rpm => Some(localizer.quantity(rpm, Some("rpm"))),
    }
}

/// The recording and its conditions.
fn title(case: &Case, capture: &Capture, localizer: &Localizer) -> String {
    let mut parts = Vec::new();
    if let Some(record) = case.captures.iter().find(|c| c.file == capture.file) {
        parts.extend(record.phase.map(|p| localizer.phase(p)));
        parts.extend(record.engine.as_ref().map(|e| localizer.engine(e.value)));
        parts.extend(
            record
                .selector
                .as_ref()
                .map(|s| localizer.selector(s.value)),
        );
    }
    if parts.is_empty() {
        capture.file.clone()
    } else {
        format!("{}: {}", capture.file, parts.join(", "))
    }
}

/// The picture in words: every trace with its range, every labelled mark.
fn alt(capture: &Capture, span: (f64, f64), rows: &[PlotRow], localizer: &Localizer) -> String {
    let number = |v: f64| localizer.number(v);
    let traces: Vec<String> = rows
        .iter()
        .map(|r| {
            let values = || {
                r.whole
                    .iter()
                    .flatten()
                    .map(|p| p.1)
                    .filter(|v| v.is_finite())
            };
            let low = values().fold(f64::INFINITY, f64::min);
            let high = values().fold(f64::NEG_INFINITY, f64::max);
            if low > high {
                return r.label.clone();
            }
            let a = args([
                ("label", r.label.clone().into()),
                ("low", number(low).into()),
                ("high", number(high).into()),
                ("unit", r.unit.clone().into()),
            ]);
            localizer.message_with("report-evidence-alt-row", &a)
        })
        .collect();
    let marks: Vec<String> = rows
        .iter()
        .flat_map(|r| &r.marks)
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
    let a = args([
        ("count", number_arg(rows.len() as f64)),
        ("file", capture.file.clone().into()),
        ("duration", number(span.1 - span.0).into()),
        ("rows", traces.join("; ").into()),
        ("marks", marks.join(" ").into()),
    ]);
    capital(localizer.message_with("report-evidence-alt", &a).trim())
}
