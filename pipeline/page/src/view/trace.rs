//! Traces of a recording: one lane a channel, findings as marks, two cursors, and a table of the same view.

use super::frame::Viewer;
use super::job::grade;
use crate::routes::id;
use crate::{Job, Recording};
use maud::{Markup, html};
use model::Grade;

pub(crate) fn trace(
    viewer: &Viewer<'_>,
    job: &Job,
    number: usize,
    recording: &Recording,
) -> Markup {
    let base = format!("/job/{}", id(&job.name));
    let capture = job.case.as_ref().and_then(|c| c.captures.get(number));
    let file = capture.map_or("", |c| c.file.as_str());
    let findings = job.case.iter().flat_map(|c| &c.findings);
    let here: Vec<_> = findings
        .filter(|f| f.file.as_deref() == Some(file))
        .collect();
    let start = match recording.time.is_empty() {
        true => 0.0,
        false => recording.time.at(0),
    };
    let end = start + recording.time.duration_s();
    let body = html! {
        p { a href=(base) { (job.name) } }
        h1 { (file) }
        p { (viewer.say("trace-hint")) }
        div.tools {
            button type="button" data-view="all" { (viewer.say("show-all")) }
            button type="button" data-view="in" { (viewer.say("zoom-in")) }
            button type="button" data-view="out" { (viewer.say("zoom-out")) }
            button type="button" data-view="left" { (viewer.say("pan-left")) }
            button type="button" data-view="right" { (viewer.say("pan-right")) }
        }
        div #lanes tabindex="0" role="group" aria-label=(viewer.say("lanes")) data-start=(start) data-end=(end) {
            @for (i, trace) in recording.channels.iter().enumerate() {
                @let record = capture.and_then(|c| c.channels.iter().find(|r| r.name == trace.name));
                section.lane id={ "lane-" (i) } data-data={ (base) "/data/" (number) "/" (i) }
                    data-unit=(trace.unit.as_deref().unwrap_or_default()) data-name=(trace.name) {
                    h2 { (trace.name)
                        @if let Some(role) = record.and_then(|r| r.role.as_ref()) { " · " (role) }
                        @if let Some(unit) = &trace.unit { " · " (unit) }
                    }
                    div.plot {}
                }
            }
        }
        h2 { (viewer.say("readings")) }
        div.scroll tabindex="0" role="region" aria-label=(viewer.say("readings")) { table #readings {} }
        h2 { (viewer.say("findings-here")) }
        ul.findings {
            @for f in &here {
                li id=(f.id) class={ "grade-" (grade(f.grade)) } {
                    span.grade { (viewer.say(&format!("grade-{}", grade(f.grade)))) }
                    button.link type="button" data-mark-from=[f.start_s] data-mark-to=[f.end_s]
                        data-notable[f.grade != Grade::Normal] { (f.text) }
                }
            }
        }
        link rel="stylesheet" href="/assets/plot.css";
        script src="/assets/plot.js" defer {}
        script src="/assets/trace.js" defer {}
    };
    viewer.page(file, body)
}
