//! One job: its verdict, what was tested, its recordings, findings, lines of work and files.

use super::frame::Viewer;
use super::lines::lines;
use crate::Job;
use crate::routes::id;
use maud::{Markup, html};
use model::case::FileStatus;
use model::{Case, Grade};

pub(crate) fn job(viewer: &Viewer<'_>, job: &Job) -> Markup {
    let body = html! {
        (heading(viewer, job))
        (verdict(viewer, job))
        (add_files(viewer, job))
        @if let Some(case) = &job.case {
            (recordings(viewer, job, case))
            (findings(viewer, job, case))
            (coverage(viewer, job))
            (lines(viewer, job, case))
            (documents(viewer, job))
            (files(viewer, case))
        }
    };
    viewer.page(&job.name, body)
}

fn heading(viewer: &Viewer<'_>, job: &Job) -> Markup {
    let case = job.case.as_ref();
    let vehicle = case.map(|c| &c.vehicle);
    let facts: Vec<String> = [
        case.and_then(|c| c.customer.name.clone()),
        vehicle.and_then(|v| v.make.clone()),
        vehicle.and_then(|v| v.model.clone()),
        vehicle.and_then(|v| v.plate.clone()),
        vehicle.and_then(|v| v.vin.clone()),
    ]
    .into_iter()
    .flatten()
    .collect();
    html! {
        h1 { (job.name) }
        p.facts { (facts.join(" · ")) }
        @if let Some(text) = case.and_then(|c| c.concern.as_ref()) { blockquote { (text) } }
        @if !job.visits.is_empty() {
            p { (viewer.say("visits")) ": "
                @for (i, name) in job.visits.iter().enumerate() {
                    @if i > 0 { ", " }
                    a href={ "/job/" (id(name)) } { (name) }
                }
            }
        }
    }
}

fn verdict(viewer: &Viewer<'_>, job: &Job) -> Markup {
    html! {
        section.verdict aria-labelledby="verdict" {
            h2 #verdict { (viewer.say("verdict")) }
            p.sentence { (job.verdict.as_deref().unwrap_or(&job.state)) }
            @if !job.asks.is_empty() {
                h3 { (viewer.say("asked-for")) }
                ul.asks { @for ask in &job.asks { li { (ask) } } }
            }
            p { a.button href={ "/job/" (id(&job.name)) "/answers" } { (viewer.say("answer")) } }
        }
    }
}

fn add_files(viewer: &Viewer<'_>, job: &Job) -> Markup {
    html! {
        section.add data-add={ "/job/" (id(&job.name)) "/add" } aria-labelledby="add" {
            h2 #add { (viewer.say("add-files")) }
            p { (viewer.say("add-hint")) }
            label.button for="files" { (viewer.say("choose-files")) }
            input #files type="file" multiple;
            ul #added aria-live="polite" {}
        }
    }
}

fn recordings(viewer: &Viewer<'_>, job: &Job, case: &Case) -> Markup {
    let base = format!("/job/{}", id(&job.name));
    html! {
        section aria-labelledby="recordings" {
            h2 #recordings { (viewer.say("recordings")) }
            @if case.captures.is_empty() { p { (viewer.say("no-recordings")) } }
            @for (i, capture) in case.captures.iter().enumerate() {
                article.recording {
                    h3 { a href={ (base) "/trace/" (i) } { (capture.file) } }
                    ul.channels {
                        @for (j, channel) in capture.channels.iter().enumerate() {
                            li {
                                a href={ (base) "/trace/" (i) "#lane-" (j) } {
                                    canvas.thumbnail width="240" height="48" aria-hidden="true"
                                        data-data={ (base) "/data/" (i) "/" (j) }
                                        data-from=(capture.start_s) data-to=(capture.end_s) {}
                                    span.name { (channel.name) }
                                    span.role { (channel.role.as_deref().unwrap_or(&viewer.say("no-role"))) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn findings(viewer: &Viewer<'_>, job: &Job, case: &Case) -> Markup {
    let shown = |grade: Grade| grade != Grade::Normal;
    let notable: Vec<_> = case.findings.iter().filter(|f| shown(f.grade)).collect();
    let normal: Vec<_> = case.findings.iter().filter(|f| !shown(f.grade)).collect();
    let item = |f: &model::Finding| {
        let capture = f
            .file
            .as_ref()
            .and_then(|file| case.captures.iter().position(|c| c.file == *file));
        html! {
            li id=(f.id) class={ "grade-" (grade(f.grade)) } {
                span.grade { (viewer.say(&format!("grade-{}", grade(f.grade)))) }
                @match capture {
                    Some(i) => a href={ "/job/" (id(&job.name)) "/trace/" (i) "#" (f.id) } { (f.text) },
                    None => (f.text),
                }
            }
        }
    };
    html! {
        section aria-labelledby="findings" {
            h2 #findings { (viewer.say("findings")) }
            ul.findings { @for f in &notable { (item(f)) } }
            details {
                summary { (viewer.say("normal-findings")) " (" (normal.len()) ")" }
                ul.findings { @for f in &normal { (item(f)) } }
            }
        }
    }
}

pub(super) fn grade(grade: Grade) -> &'static str {
    match grade {
        Grade::Normal => "normal",
        Grade::Abnormal => "abnormal",
        Grade::Unusable => "unusable",
        Grade::Unreadable => "unreadable",
        Grade::NotTested => "not-tested",
    }
}

fn coverage(viewer: &Viewer<'_>, job: &Job) -> Markup {
    html! {
        section.coverage aria-labelledby="coverage" {
            h2 #coverage { (viewer.say("coverage")) }
            div.columns {
                div {
                    h3 { (viewer.say("tested")) }
                    ul { @for cause in &job.tested { li { (cause) } } }
                }
                div {
                    h3 { (viewer.say("not-tested")) }
                    ul { @for [cause, why, next] in &job.untested { li { strong { (cause) } ": " (why) ". " (next) } } }
                }
            }
        }
    }
}

fn documents(viewer: &Viewer<'_>, job: &Job) -> Markup {
    html! {
        section aria-labelledby="documents" {
            h2 #documents { (viewer.say("documents")) }
            ul.documents {
                @for (i, name) in job.documents.iter().enumerate() {
                    li { a href={ "/job/" (id(&job.name)) "/file/" (i) } { (name) } }
                }
            }
            @match (&job.signed, &job.seen) {
                (Some(signed), _) => p.signed { (viewer.say("signed-by")) " " (signed) },
                (None, Some(seen)) => form.sign method="post" action={ "/job/" (id(&job.name)) "/sign" } {
                    (viewer.token())
                    input type="hidden" name="revision" value=(seen.revision);
                    input type="hidden" name="digest" value=(seen.digest);
                    p { (viewer.words.say_with("sign-what", &[("revision", &seen.revision.to_string())])) }
                    (viewer.person("sign-by"))
                    label for="note" { (viewer.say("note")) }
                    input id="note" name="note";
                    button { (viewer.say("sign")) }
                },
                _ => {},
            }
        }
    }
}

fn files(viewer: &Viewer<'_>, case: &Case) -> Markup {
    html! {
        section aria-labelledby="all-files" {
            h2 #all-files { (viewer.say("files")) }
            ul.files {
                @for file in &case.files {
                    li.rejected[file.status == FileStatus::SetAside] {
                        strong { (file.path) } ": " (file.message.as_deref().unwrap_or_default())
                    }
                }
            }
        }
    }
}
