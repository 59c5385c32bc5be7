//! One picture from one recording or two.

use super::marks::{bands, marks};
use super::row::{Line, draw, least_width, range};
use super::words::{alt, caption, speed, title};
use super::{EvidencePlot, NARROW_COLUMNS, Panel, Part, PlotRow, SpeedCurve, Trace, WIDE_COLUMNS};
use crate::localizer::{Localizer, args, capital};
use model::{Capture, Case, Channel, Finding, Grade};
use signal::envelope::Runs;

/// Rows in a picture, and curves in a row.
const MOST_ROWS: usize = 4;
const MOST_CURVES: usize = 4;

/// Share of a recording up to which an event is worth enlarging.
const DETAIL_SHARE: f64 = 0.4;

/// Source of all pictures of a case.
pub(super) struct Source<'a> {
    pub case: &'a Case,
    pub speeds: &'a [SpeedCurve],
    /// The findings to show, weightiest first.
    pub deciding: &'a [&'a Finding],
    pub localizer: &'a Localizer,
}

/// One recording between two instants.
#[derive(Clone, Copy)]
pub(super) struct View<'a> {
    pub capture: &'a Capture,
    pub part: Part,
    pub span: (f64, f64),
}

impl<'a> View<'a> {
    /// A whole recording.
    pub(super) fn of(capture: &'a Capture, part: Part) -> View<'a> {
        let last = capture.time.len().saturating_sub(1);
        View {
            capture,
            part,
            span: (capture.time.at(0), capture.time.at(last)),
        }
    }

    fn columns(&self) -> usize {
        match self.part {
            Part::Whole => WIDE_COLUMNS,
            Part::Detail | Part::Before | Part::After => NARROW_COLUMNS,
        }
    }
}

/// Content of a row: a channel's own samples, or the speeds of several.
enum Content<'a> {
    Samples(&'a Channel),
    Speeds(Vec<&'a Channel>),
}

impl<'a> Source<'a> {
    /// The event of the weightiest abnormal finding with what comes before and after it; `None` where the whole
    /// recording shows it as well.
    pub(super) fn detail(&self, capture: &'a Capture) -> Option<View<'a>> {
        let whole = View::of(capture, Part::Whole);
        let (first, last) = whole.span;
        let event =
            |f: &&&Finding| f.grade == Grade::Abnormal && f.file.as_deref() == Some(&capture.file);
        let finding = self
            .deciding
            .iter()
            .filter(event)
            .find(|f| f.start_s.is_some() && capture.channels.iter().any(|c| is_about(f, c)))?;
        let channel = capture.channels.iter().find(|c| is_about(finding, c))?;
        let start = finding.start_s?.clamp(first, last);
        let end = finding.end_s.unwrap_or(start).clamp(start, last);
        let air = (0.25 * (end - start)).max(0.05);
        let mut span = (start - air, end + air);
        if self.shows_pulses(capture, channel) {
            let width = super::row::width_of_teeth(capture, channel, span);
            span = (start - 0.25 * width, start + width);
        }
        let span = (span.0.max(first), span.1.min(last));
        let width = span.1 - span.0;
        let part = Part::Detail;
        (width > 0.0 && width < DETAIL_SHARE * (last - first)).then_some(View {
            span,
            part,
            ..whole
        })
    }

    /// A picture of the views side by side. Two recordings get axes of one length.
    pub(super) fn plot(&self, views: &[View<'a>]) -> EvidencePlot {
        let mut views = views.to_vec();
        if views.iter().any(|v| v.part == Part::After) {
            let longest = views
                .iter()
                .map(|v| v.span.1 - v.span.0)
                .fold(0.0, f64::max);
            views.iter_mut().for_each(|v| v.span.1 = v.span.0 + longest);
        }
        let rows: Vec<PlotRow> = self
            .contents(&views)
            .iter()
            .map(|content| self.row(content, &views))
            .collect();
        EvidencePlot {
            title: title(self.case, &views, self.localizer),
            caption: caption(self.deciding, &views, self.localizer),
            alt: alt(&views, &rows, self.localizer),
            panels: (views.iter())
                .map(|v| Panel {
                    part: v.part,
                    file: v.capture.file.clone(),
                    span: v.span,
                })
                .collect(),
            rows,
        }
    }

    /// The rows to show: of the channels that the findings are about, then context. Speeds share one row.
    fn contents(&self, views: &[View<'a>]) -> Vec<Content<'a>> {
        // What drives stands above what is driven; a channel without a role stands last.
        let place = |c: &Channel| c.role.as_ref().map_or(u32::MAX, |r| r.plot_order());
        let capture = views[0].capture;
        let mut context: Vec<&Channel> = capture.channels.iter().collect();
        context.sort_by_key(|c| place(c));
        let told = self
            .deciding
            .iter()
            .filter_map(|f| capture.channels.iter().find(|c| is_about(f, c)));
        let mut speeds: Vec<&Channel> = Vec::new();
        let mut samples: Vec<&Channel> = Vec::new();
        for channel in told.chain(context) {
            let is_speed = self.is_speed(views, channel);
            let (kept, most) = match is_speed {
                true => (&mut speeds, MOST_CURVES),
                false => (&mut samples, MOST_ROWS - 1),
            };
            if kept.len() < most && !kept.iter().any(|c| std::ptr::eq(*c, channel)) {
                kept.push(channel);
            }
        }
        if speeds.is_empty() {
            // There is room for one more.
            let more = capture
                .channels
                .iter()
                .find(|c| !samples.iter().any(|s| std::ptr::eq(*s, *c)));
            samples.extend(more);
        }
        samples.sort_by_key(|c| place(c));
        speeds.sort_by_key(|c| place(c));
        let at = speeds.first().map_or(u32::MAX, |c| place(c));
        let before = samples.iter().filter(|c| place(c) < at).count();
        let mut contents: Vec<Content<'_>> = samples.into_iter().map(Content::Samples).collect();
        if !speeds.is_empty() {
            contents.insert(before, Content::Speeds(speeds));
        }
        contents
    }

    /// True for a channel whose speed is drawn and not its pulses.
    fn is_speed(&self, views: &[View<'_>], channel: &Channel) -> bool {
        channel.role.as_ref().is_some_and(|r| r.is_speed_sensor())
            && !views
                .iter()
                .any(|v| self.is_told_by_pulses(v.capture, channel))
            && views
                .iter()
                .any(|v| self.curve(v.capture, channel).is_some())
    }

    /// True for a sensor whose pulses are enlarged: they are the evidence, or no speed was derived from them.
    fn shows_pulses(&self, capture: &Capture, channel: &Channel) -> bool {
        channel.role.as_ref().is_some_and(|r| r.is_speed_sensor())
            && (self.is_told_by_pulses(capture, channel) || self.curve(capture, channel).is_none())
    }

    /// True for a sensor whose pulses are the evidence: a finding that is no speed is about them.
    fn is_told_by_pulses(&self, capture: &Capture, channel: &Channel) -> bool {
        let is_speed = |f: &Finding| matches!(f.unit.as_deref(), Some("rpm" | "Hz"));
        let about_pulses = |f: &&&Finding| {
            f.file.as_deref() == Some(&capture.file)
                && is_about(f, channel)
                && f.grade != Grade::Normal
                && !is_speed(f)
        };
        self.deciding.iter().any(|f| about_pulses(&f))
    }

    /// Speed of a channel, where it has one anywhere.
    fn curve(&self, capture: &Capture, channel: &Channel) -> Option<&'a SpeedCurve> {
        let role = channel.role.as_ref()?;
        self.speeds
            .iter()
            .find(|s| s.file == capture.file && s.role == role.name())
            .filter(|s| s.values.iter().any(|v| v.is_finite()))
    }

    fn row(&self, content: &Content<'a>, views: &[View<'a>]) -> PlotRow {
        match content {
            Content::Samples(channel) => self.samples_row(channel, views),
            Content::Speeds(channels) => self.speeds_row(channels, views),
        }
    }

    fn samples_row(&self, channel: &'a Channel, views: &[View<'a>]) -> PlotRow {
        let role = channel.role.as_ref();
        let unit = channel
            .unit
            .clone()
            .or_else(|| role.map(|r| r.unit().to_owned()))
            .unwrap_or_default();
        let lines = views.iter().map(|v| {
            let same = match role {
                // Of another recording the channel of the same role.
                Some(role) => (v.capture.channels.iter())
                    .find(|c| c.role.as_ref().is_some_and(|r| r.name() == role.name())),
                None => v
                    .capture
                    .channels
                    .iter()
                    .find(|c| std::ptr::eq(*c, channel)),
            };
            same.map(|c| Line::Samples(v.capture, c))
        });
        let label = match role {
            Some(role) if !role.declaration().hints.many => {
                capital(&self.localizer.subject(Some(role.name())))
            }
            _ => channel.name.clone(),
        };
        let trace = self.trace(label.clone(), lines.collect(), channel, views);
        self.finish(label, unit, vec![trace], &[channel], views)
    }

    fn speeds_row(&self, channels: &[&'a Channel], views: &[View<'a>]) -> PlotRow {
        let mut unit = "rpm";
        let traces: Vec<Trace> = channels
            .iter()
            .map(|channel| {
                let lines = views.iter().map(|v| {
                    let curve = self.curve(v.capture, channel)?;
                    unit = curve.unit;
                    Some(Line::Speed(curve))
                });
                let lines: Vec<Option<Line<'_>>> = lines.collect();
                let name = capital(
                    &self
                        .localizer
                        .subject(channel.role.as_ref().map(|r| r.name())),
                );
                let about = match views {
                    [before, after] if after.part == Part::After => {
                        self.without_speed(channel, before, after)
                    }
                    _ => speed(self.case, views[0].capture, channel, self.localizer),
                };
                let label = about.map_or_else(|| name.clone(), |v| format!("{name}: {v}"));
                self.trace(label, lines, channel, views)
            })
            .collect();
        let label = match &traces[..] {
            [one] => one.label.clone(),
            _ => self.localizer.message("report-evidence-speed"),
        };
        self.finish(label, unit.to_owned(), traces, channels, views)
    }

    /// Says of which of two recordings no speed was derived; `None` where both have one.
    fn without_speed(
        &self,
        channel: &Channel,
        before: &View<'_>,
        after: &View<'_>,
    ) -> Option<String> {
        let phase = match (
            self.curve(before.capture, channel),
            self.curve(after.capture, channel),
        ) {
            (None, _) => "phase-before",
            (_, None) => "phase-after",
            _ => return None,
        };
        let phase = args([("phase", self.localizer.message(phase).into())]);
        Some(
            self.localizer
                .message_with("report-evidence-no-speed", &phase),
        )
    }

    fn trace(
        &self,
        label: String,
        lines: Vec<Option<Line<'a>>>,
        channel: &Channel,
        views: &[View<'a>],
    ) -> Trace {
        let runs = draw(
            views
                .iter()
                .zip(lines)
                .map(|(v, line)| (line, v.span, v.columns())),
        );
        Trace {
            label,
            runs,
            marks: (views.iter())
                .map(|v| {
                    let on_it = |f: &&Finding| {
                        f.file.as_deref() == Some(&v.capture.file) && is_about(f, channel)
                    };
                    let on_it: Vec<&Finding> =
                        self.deciding.iter().copied().filter(on_it).collect();
                    marks(&on_it, v.span, self.localizer)
                })
                .collect(),
        }
    }

    fn finish(
        &self,
        label: String,
        unit: String,
        traces: Vec<Trace>,
        channels: &[&Channel],
        views: &[View<'_>],
    ) -> PlotRow {
        let of_view = |(v, trace): (&View<'_>, &Runs)| {
            let judged = |f: &&Finding| {
                f.file.as_deref() == Some(&v.capture.file)
                    && channels.iter().any(|c| is_about(f, c))
            };
            let judged: Vec<&Finding> = self.case.findings.iter().filter(judged).collect();
            let engine = (self.case.captures.iter())
                .find(|c| c.file == v.capture.file)
                .and_then(|c| Some(c.engine.as_ref()?.value));
            let curves = self.case.systems.iter().flat_map(|s| &s.known_good);
            let curves: Vec<_> = curves.filter(|c| c.engine == engine).collect();
            bands(&judged, &curves, &unit, trace, v.span)
        };
        // A limit of one shaft says nothing of the others beside it.
        let bands: Vec<_> = match channels {
            [_] => views.iter().zip(&traces[0].runs).map(of_view).collect(),
            _ => vec![Vec::new(); views.len()],
        };
        let least = least_width(channels[0].role.as_ref(), &unit);
        let first = bands.iter().flatten().next();
        let band_label = first.and_then(|b| super::marks::label(b, &unit, self.localizer));
        PlotRow {
            range: range(
                traces.iter().flat_map(|t| &t.runs),
                bands.iter().flatten(),
                least,
            ),
            label,
            unit: self.localizer.unit(&unit),
            traces,
            bands,
            band_label,
        }
    }
}

/// True for a finding on the channel's role.
pub(super) fn is_about(finding: &Finding, channel: &Channel) -> bool {
    channel
        .role
        .as_ref()
        .is_some_and(|r| finding.subject.as_deref() == Some(r.name()))
}
