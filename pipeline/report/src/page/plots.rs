//! A picture as the template draws it: paths for the traces, fractions and texts for the rest.

use crate::evidence::{EvidencePlot, PlotRow, Ticks, svg_path, ticks};
use crate::localizer::{Localizer, args};
use model::Grade;
use serde::Serialize;

/// The boxes that paths are written in: nearly the shapes of the template's panels, so that stretching them
/// leaves the strokes even.
const WHOLE: (f64, f64) = (1000.0, 240.0);
const DETAIL: (f64, f64) = (540.0, 240.0);

/// A picture. All places are fractions of the axis, from left to right and from bottom to top.
#[derive(Serialize)]
pub(super) struct Plot {
    title: String,
    caption: String,
    alt: String,
    whole: Panel,
    detail: Option<Panel>,
    /// Position of the detail in the whole.
    window: Option<(f64, f64)>,
    rows: Vec<Row>,
}

/// One of the two time axes.
#[derive(Serialize)]
struct Panel {
    title: String,
    ticks: Vec<Tick>,
}

#[derive(Serialize)]
struct Tick {
    at: f64,
    text: String,
}

#[derive(Serialize)]
struct Row {
    label: String,
    unit: String,
    ticks: Vec<Tick>,
    band: Option<Band>,
    whole: Trace,
    detail: Option<Trace>,
}

#[derive(Serialize)]
struct Band {
    low: f64,
    high: f64,
    label: String,
}

#[derive(Serialize)]
struct Trace {
    path: String,
    /// Width and height of the box that the path is written in.
    size: (f64, f64),
    marks: Vec<Mark>,
}

#[derive(Serialize)]
struct Mark {
    from: f64,
    to: f64,
    label: String,
    grade: Grade,
}

/// Puts a picture into the template's terms.
pub(super) fn plot(p: &EvidencePlot, localizer: &Localizer) -> Plot {
    let place = |t: f64| ((t - p.span.0) / (p.span.1 - p.span.0)).clamp(0.0, 1.0);
    let detail = p.window.map(|w| {
        let axis = ticks(w.0, w.1, 4);
        let a = args([
            ("from", localizer.fixed(w.0, axis.digits.max(1)).into()),
            ("to", localizer.fixed(w.1, axis.digits.max(1)).into()),
        ]);
        panel(
            localizer.message_with("report-evidence-detail", &a),
            w,
            axis,
            localizer,
        )
    });
    Plot {
        title: p.title.clone(),
        caption: p.caption.clone(),
        alt: p.alt.clone(),
        whole: panel(
            localizer.message("report-evidence-whole"),
            p.span,
            ticks(p.span.0, p.span.1, 8),
            localizer,
        ),
        detail,
        window: p.window.map(|w| (place(w.0), place(w.1))),
        rows: p.rows.iter().map(|r| row(r, p, localizer)).collect(),
    }
}

fn panel(title: String, span: (f64, f64), axis: Ticks, localizer: &Localizer) -> Panel {
    Panel {
        title,
        ticks: placed(axis, span, localizer),
    }
}

fn placed(axis: Ticks, (low, high): (f64, f64), localizer: &Localizer) -> Vec<Tick> {
    let at = |v: f64| (v - low) / (high - low);
    let digits = axis.digits;
    axis.values
        .iter()
        .map(|&v| Tick {
            at: at(v),
            text: localizer.fixed(v, digits),
        })
        .collect()
}

fn row(r: &PlotRow, p: &EvidencePlot, localizer: &Localizer) -> Row {
    let at = |v: f64| ((v - r.range.0) / (r.range.1 - r.range.0)).clamp(0.0, 1.0);
    Row {
        label: r.label.clone(),
        unit: r.unit.clone(),
        ticks: placed(ticks(r.range.0, r.range.1, 4), r.range, localizer),
        band: r.band.as_ref().map(|b| Band {
            low: b.low.map_or(0.0, at),
            high: b.high.map_or(1.0, at),
            label: b.label.clone(),
        }),
        whole: trace(&r.whole, r, p.span, WHOLE),
        detail: p.window.map(|w| trace(&r.detail, r, w, DETAIL)),
    }
}

fn trace(runs: &signal::envelope::Runs, r: &PlotRow, span: (f64, f64), size: (f64, f64)) -> Trace {
    let at = |t: f64| ((t - span.0) / (span.1 - span.0)).clamp(0.0, 1.0);
    let marks = r
        .marks
        .iter()
        .filter(|m| m.end_s >= span.0 && m.start_s <= span.1)
        .map(|m| Mark {
            from: at(m.start_s),
            to: at(m.end_s),
            label: m.label.clone(),
            grade: m.grade,
        })
        .collect();
    Trace {
        path: svg_path(runs, span, r.range, size),
        size,
        marks,
    }
}
