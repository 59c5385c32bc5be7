//! A picture as the template draws it: paths for the traces, fractions and texts for the rest.

use crate::evidence::{EvidencePlot, Panel, Part, PlotRow, Ticks, svg_path, ticks};
use crate::localizer::{Localizer, args};
use model::Grade;
use serde::Serialize;

/// Height of the boxes that paths are written in, and their widths: nearly the shapes of the template's panels, so that
/// stretching them leaves the strokes even.
const HEIGHT: f64 = 240.0;
const WIDE: f64 = 1000.0;
const NARROW: f64 = 640.0;

/// A picture. All places are fractions of the axis, from left to right and from bottom to top.
#[derive(Serialize)]
pub(super) struct Plot {
    title: String,
    caption: String,
    alt: String,
    axes: Vec<Axis>,
    rows: Vec<Row>,
}

/// One time axis.
#[derive(Serialize)]
struct Axis {
    title: String,
    ticks: Vec<Tick>,
    /// Part of the width that it takes.
    share: f64,
    /// True for a part of another axis, shown again.
    enlarged: bool,
    /// Position of the enlarged part in this one.
    window: Option<(f64, f64)>,
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
    band_label: Option<String>,
    ticks: Vec<Tick>,
    /// Names of the traces, where there are several.
    names: Vec<String>,
    /// One for each axis.
    frames: Vec<Frame>,
}

/// A row on one axis.
#[derive(Serialize)]
struct Frame {
    /// Width and height of the box that the paths are written in.
    size: (f64, f64),
    /// One for each trace; empty for one that is not shown here.
    paths: Vec<String>,
    bands: Vec<Band>,
    marks: Vec<Mark>,
}

#[derive(Serialize)]
struct Band {
    from: f64,
    to: f64,
    low: f64,
    high: f64,
    /// True for a piece of a curve, which is drawn no wider than it is.
    piece: bool,
}

#[derive(Serialize)]
struct Mark {
    from: f64,
    to: f64,
    label: String,
    grade: Grade,
    /// Number of its trace, from 0.
    trace: usize,
}

/// Puts a picture into the template's terms.
pub(super) fn plot(p: &EvidencePlot, localizer: &Localizer) -> Plot {
    Plot {
        title: p.title.clone(),
        caption: p.caption.clone(),
        alt: p.alt.clone(),
        axes: p
            .panels
            .iter()
            .map(|panel| axis(panel, p, localizer))
            .collect(),
        rows: p.rows.iter().map(|r| row(r, p, localizer)).collect(),
    }
}

fn axis(panel: &Panel, p: &EvidencePlot, localizer: &Localizer) -> Axis {
    let (from, to) = panel.span;
    let is_wide = panel.part == Part::Whole;
    let marks = ticks(
        from,
        to,
        if is_wide && p.panels.len() == 1 {
            10
        } else {
            6
        },
    );
    let title = match panel.part {
        Part::Whole => localizer.message("report-evidence-whole"),
        Part::Before => localizer.message("report-before"),
        Part::After => localizer.message("report-after"),
        Part::Detail => {
            let digits = marks.digits.max(1);
            let a = args([
                ("from", localizer.fixed(from, digits).into()),
                ("to", localizer.fixed(to, digits).into()),
            ]);
            localizer.message_with("report-evidence-detail", &a)
        }
    };
    let place = |t: f64| ((t - from) / (to - from)).clamp(0.0, 1.0);
    let detail = p.panels.iter().find(|d| d.part == Part::Detail);
    Axis {
        title,
        ticks: placed(marks, panel.span, localizer),
        share: if is_wide { 1.7 } else { 1.0 },
        enlarged: panel.part == Part::Detail,
        window: detail
            .filter(|_| is_wide)
            .map(|d| (place(d.span.0), place(d.span.1))),
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
    let names = r.traces.iter().map(|t| t.label.clone());
    Row {
        label: r.label.clone(),
        unit: r.unit.clone(),
        band_label: r.band_label.clone(),
        ticks: placed(ticks(r.range.0, r.range.1, 4), r.range, localizer),
        names: names.filter(|_| r.traces.len() > 1).collect(),
        frames: (0..p.panels.len())
            .map(|i| frame(i, r, &p.panels[i]))
            .collect(),
    }
}

fn frame(i: usize, r: &PlotRow, panel: &Panel) -> Frame {
    let span = panel.span;
    let size = match panel.part {
        Part::Whole => (WIDE, HEIGHT),
        Part::Detail | Part::Before | Part::After => (NARROW, HEIGHT),
    };
    let at = |t: f64| ((t - span.0) / (span.1 - span.0)).clamp(0.0, 1.0);
    let high = |v: f64| ((v - r.range.0) / (r.range.1 - r.range.0)).clamp(0.0, 1.0);
    let marks = r.traces.iter().enumerate().flat_map(|(trace, t)| {
        let seen = t.marks[i]
            .iter()
            .filter(|m| m.end_s >= span.0 && m.start_s <= span.1);
        seen.map(move |m| Mark {
            from: at(m.start_s),
            to: at(m.end_s),
            label: m.label.clone(),
            grade: m.grade,
            trace,
        })
    });
    Frame {
        size,
        paths: (r.traces.iter())
            .map(|t| svg_path(&t.runs[i], span, r.range, size))
            .collect(),
        bands: (r.bands[i].iter())
            .map(|b| Band {
                from: at(b.start_s),
                to: at(b.end_s),
                low: b.low.map_or(0.0, high),
                high: b.high.map_or(1.0, high),
                piece: b.vehicles.is_some(),
            })
            .collect(),
        marks: marks.collect(),
    }
}
