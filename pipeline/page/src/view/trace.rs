//! Traces of a recording: one lane a channel, findings as marks, two cursors, and a table of the same view.

use super::frame::Viewer;
use super::job::grade;
use crate::routes::id;
use crate::trace::Compare;
use crate::{Job, Recording, Trace};
use maud::{Markup, html};
use model::case::CaptureRecord;
use model::{Finding, Grade};

pub(crate) fn trace(
    viewer: &Viewer<'_>,
    job: &Job,
    number: usize,
    recording: &Recording,
) -> Markup {
    let base = format!("/job/{}", id(&job.row.name));
    let capture = job.case.as_ref().and_then(|c| c.captures.get(number));
    let file = capture.map_or("", |c| c.file.as_str());
    let findings = job.case.iter().flat_map(|c| &c.findings);
    let here: Vec<&Finding> = findings
        .filter(|f| f.file.as_deref() == Some(file))
        .collect();
    let (start, end) = capture.map_or((0.0, 0.0), |c| (c.start_s, c.end_s));
    let body = html! {
        p { a href=(base) { (viewer.say("back-to")) " " (job.row.name) } }
        h1 { (file) }
        div.tools {
            button.quiet type="button" data-view="all" { (viewer.say("show-all")) }
            button.quiet type="button" data-view="in" { (viewer.say("zoom-in")) }
            button.quiet type="button" data-view="out" { (viewer.say("zoom-out")) }
            button.quiet type="button" data-view="left" { (viewer.say("pan-left")) }
            button.quiet type="button" data-view="right" { (viewer.say("pan-right")) }
            span #cursor-set { (viewer.say("cursor-set")) }
            span.tools role="group" aria-labelledby="cursor-set" {
                button.quiet type="button" data-cursor="a" aria-pressed="true" { "A" }
                button.quiet type="button" data-cursor="b" aria-pressed="false" { "B" }
            }
            details.how { summary { (viewer.say("trace-keys")) } p { (viewer.say("trace-hint")) } }
        }
        div.bench {
            div #lanes tabindex="0" role="group" aria-label=(viewer.say("lanes")) data-start=(start) data-end=(end) {
                @for (i, trace) in recording.traces.iter().enumerate() {
                    (lane(viewer, job, capture, trace, i, &format!("{base}/data/{number}/{i}")))
                }
                (comparison(viewer, recording, &format!("{base}/compare/{number}")))
            }
            div.beside {
                h2 { (viewer.say("readings")) }
                div.scroll tabindex="0" role="region" aria-label=(viewer.say("readings")) { table #readings {} }
                h2 { (viewer.say("findings-here")) }
                ul.findings {
                    @for f in &here {
                        li id=(f.id) class={ "grade-" (grade(f.grade)) } {
                            span.grade { (viewer.say(&format!("grade-{}", grade(f.grade)))) }
                            span {
                                button.link type="button" data-mark-from=[f.start_s] data-mark-to=[f.end_s]
                                    data-notable[f.grade != Grade::Normal] { (f.text) }
                                " "
                                a.back href={ (base) "#" (f.id) } { (viewer.say("in-the-job")) span.unseen { ": " (f.text) } }
                            }
                        }
                    }
                }
            }
        }
        link rel="stylesheet" href="/assets/plot.css";
        script src="/assets/plot.js" defer {}
        script src="/assets/trace.js" defer {}
    };
    viewer.page(file, body)
}

fn lane(
    viewer: &Viewer<'_>,
    job: &Job,
    capture: Option<&CaptureRecord>,
    trace: &Trace,
    number: usize,
    data: &str,
) -> Markup {
    let record = capture.and_then(|c| c.channels.iter().find(|r| r.name == trace.name));
    let role = record.and_then(|r| r.role.as_ref());
    let role = role.map(|role| job.role_words(role));
    let name = match trace.is_speed {
        true => format!("{} {}", viewer.say("speed-of"), trace.name),
        false => trace.name.clone(),
    };
    html! {
        section.lane.derived[trace.is_speed] id={ "lane-" (number) } data-data=(data)
            data-unit=(trace.unit.as_deref().unwrap_or_default()) data-name=(name) {
            h2 { (name)
                @if let Some(role) = role { " · " (role) }
                @if let Some(unit) = &trace.unit { " · " (unit) }
            }
            div.plot {}
        }
    }
}

/// Lane in which two speeds are held against each other.
fn comparison(viewer: &Viewer<'_>, recording: &Recording, data: &str) -> Markup {
    let speeds: Vec<(usize, &Trace)> = (recording.traces.iter().enumerate())
        .filter(|(_, t)| t.is_speed)
        .collect();
    let choice = |field: &str, chosen: usize| {
        html! {
            label for=(field) { (viewer.say(field)) }
            select id=(field) data-compare=(field) {
                @for (place, (i, trace)) in speeds.iter().enumerate() {
                    option value=(i) selected[place == chosen] data-unit=[trace.unit.as_deref()] { (trace.name) }
                }
            }
        }
    };
    html! {
        @if speeds.len() > 1 {
            section.lane.derived #compared data-data="" data-compared=(data) data-unit="" data-name=(viewer.say("compared")) {
                h2 { (viewer.say("compared")) }
                div.tools {
                    (choice("compare-one", 0))
                    (choice("compare-other", 1))
                    label for="compare-by" { (viewer.say("compare-by")) }
                    select id="compare-by" data-compare="compare-by" {
                        @for by in Compare::ALL { option value=(by) { (viewer.say(&format!("compare-{by}"))) } }
                    }
                }
                div.plot {}
            }
        }
    }
}
