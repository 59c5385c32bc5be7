//! One job: its verdict, what was tested, its recordings, findings, lines of work and files.

use super::fields::{FormFields, Refused};
use super::frame::Viewer;
use super::lines::lines;
use super::outcome::outcome;
use crate::routes::id;
use crate::{Duty, Job};
use maud::{Markup, html};
use model::case::FileStatus;
use model::{Case, Finding, Grade};

/// The page of a job; `refused`: a form of it that was refused.
pub(crate) fn job(viewer: &Viewer<'_>, job: &Job, refused: Option<&Refused<'_>>) -> Markup {
    let body = html! {
        (heading(viewer, job))
        (verdict(viewer, job))
        div.two {
            div {
                @if let Some(case) = &job.case {
                    (recordings(viewer, job, case))
                    (findings(viewer, job, case))
                    (coverage(viewer, job))
                }
                (add_files(viewer, job))
            }
            @if let Some(case) = &job.case {
                div {
                    (documents(viewer, job, refused))
                    (lines(viewer, job, case, refused))
                    (outcome(viewer, job, case, refused))
                    (photos(viewer, job, case))
                    (visits(viewer, job))
                    (files(viewer, case))
                }
            }
        }
    };
    match refused {
        Some(_) => viewer.answer_page(&job.row.name, body),
        None => viewer.page(&job.row.name, body),
    }
}

fn heading(viewer: &Viewer<'_>, job: &Job) -> Markup {
    let case = job.case.as_ref();
    let parts = [
        "verdict",
        "recordings",
        "findings",
        "coverage",
        "documents",
        "lines",
        "outcome",
    ];
    html! {
        div.heading {
            h1 { (job.row.name) }
            @if job.case.is_some() {
                nav.parts aria-label=(viewer.say("parts")) {
                    @for part in parts { a href={ "#" (part) } { (viewer.say(part)) } }
                }
            }
        }
        p.facts { (job.row.facts.all().join(" · ")) }
        @if let Some(text) = case.and_then(|c| c.concern.as_ref()) { blockquote { (text) } }
    }
}

fn verdict(viewer: &Viewer<'_>, job: &Job) -> Markup {
    let said = job.row.verdict.as_ref().unwrap_or(&job.row.state);
    html! {
        section.verdict aria-labelledby="verdict" {
            h2 #verdict { (viewer.say("verdict")) }
            p.sentence { (viewer.tell(said)) }
            p.progress data-progress=(id(&job.row.name)) {}
            @if !job.row.asks.is_empty() {
                h3 { (viewer.say("asked-for")) }
                ul.asks { @for ask in &job.row.asks { li { (viewer.tell(ask)) } } }
            }
            p { a.button href={ "/job/" (id(&job.row.name)) "/answers" } { (viewer.say("answer")) } }
        }
    }
}

fn add_files(viewer: &Viewer<'_>, job: &Job) -> Markup {
    html! {
        section.add data-add={ "/job/" (id(&job.row.name)) "/add" } aria-labelledby="add" {
            h2 #add { (viewer.say("add-files")) }
            p { (viewer.say("add-hint")) }
            label.button for="files" { (viewer.say("choose-files")) }
            input #files type="file" multiple;
            ul #added aria-live="polite" {}
        }
    }
}

fn recordings(viewer: &Viewer<'_>, job: &Job, case: &Case) -> Markup {
    let base = format!("/job/{}", id(&job.row.name));
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
                                    span.role { (channel.role.as_ref().map_or_else(|| viewer.say("no-role"), |r| job.role_words(r).into())) }
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
    let (normal, notable): (Vec<&Finding>, Vec<&Finding>) =
        (case.findings.iter()).partition(|f| f.grade == Grade::Normal);
    let item = |f: &Finding| {
        let capture = f
            .file
            .as_ref()
            .and_then(|file| case.captures.iter().position(|c| c.file == *file));
        html! {
            li id=(f.id) class={ "grade-" (grade(f.grade)) } {
                span.grade { (viewer.say(&format!("grade-{}", grade(f.grade)))) }
                @match capture {
                    Some(i) => span {
                        a href={ "/job/" (id(&job.row.name)) "/trace/" (i) "#" (f.id) } { (f.text) }
                        @if case.captures.len() > 1 { " " small { (case.captures[i].file) } }
                    },
                    None => span { (f.text) },
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
    let is_one = job.coverage.len() == 1;
    let heading = |key: &str| {
        html! { @if is_one { h3 { (viewer.say(key)) } } @else { h4 { (viewer.say(key)) } } }
    };
    html! {
        section.coverage aria-labelledby="coverage" {
            h2 #coverage { (viewer.say("coverage")) }
            @for system in &job.coverage {
                @if !is_one { h3 { (system.system) } p { (viewer.tell(&system.verdict)) } }
                div.columns {
                    div {
                        (heading("tested"))
                        ul { @for cause in &system.tested { li { (cause) } } }
                        @if system.tested.is_empty() { p { (viewer.say("nothing-tested")) } }
                    }
                    div {
                        (heading("not-tested"))
                        ul {
                            @for [cause, why, next] in &system.untested {
                                li { strong { (cause) } ": " (why) ". " (next) }
                            }
                        }
                        @if system.untested.is_empty() { p { (viewer.say("all-tested")) } }
                    }
                }
            }
        }
    }
}

fn documents(viewer: &Viewer<'_>, job: &Job, refused: Option<&Refused<'_>>) -> Markup {
    let fields = FormFields::new(viewer, "sign", refused);
    let base = format!("/job/{}", id(&job.row.name));
    html! {
        section aria-labelledby="documents" {
            h2 #documents { (viewer.say("documents")) }
            ul.documents {
                @for (i, name) in job.documents.iter().enumerate() {
                    li {
                        a href={ (base) "/file/" (i) } { (name) }
                        @if name.ends_with(".pdf") {
                            form method="post" action={ (base) "/send" } {
                                (viewer.token())
                                input type="hidden" name="document" value=(i);
                                button.quiet { (viewer.say("send")) span.unseen { " " (name) } }
                            }
                        }
                    }
                }
            }
            @match (&job.signed, &job.seen) {
                (Some((by, at)), _) => p.signed {
                    (viewer.say("signed-by")) " " strong { (by) } ", " (at.format("%Y-%m-%d %H:%M"))
                },
                (None, Some(seen)) if job.documents.iter().any(|d| d == "report.pdf") => {
                    form.sign method="post" action={ (base) "/sign" } {
                        (viewer.token())
                        input type="hidden" name="revision" value=(seen.revision);
                        input type="hidden" name="digest" value=(seen.digest);
                        (fields.error())
                        p { (viewer.words.say_with("sign-what", &[("revision", &seen.revision.to_string())])) }
                        div.fields {
                            (fields.person("sign-by", &[Duty::Sign]))
                            (fields.text("note", "note", "note"))
                            div.field.act { button { (viewer.say("sign")) } }
                        }
                    }
                },
                _ => {},
            }
        }
    }
}

fn photos(viewer: &Viewer<'_>, job: &Job, case: &Case) -> Markup {
    let files = case.files.iter().enumerate();
    let photos: Vec<_> = files.filter(|(_, f)| f.kind == "photo").collect();
    html! {
        @if !photos.is_empty() {
            section aria-labelledby="photos" {
                h2 #photos { (viewer.say("photos")) }
                p { (viewer.say("photos-hint")) }
                ul.photos {
                    @for (i, file) in photos {
                        @let address = format!("/job/{}/photo/{i}", id(&job.row.name));
                        li { a href=(address) { img.photo src=(address) alt=(file.path); } span { (file.path) } }
                    }
                }
            }
        }
    }
}

fn visits(viewer: &Viewer<'_>, job: &Job) -> Markup {
    html! {
        @if !job.visits.is_empty() {
            section aria-labelledby="visits" {
                h2 #visits { (viewer.say("visits")) }
                ul {
                    @for visit in &job.visits {
                        li {
                            @if let Some(day) = visit.arrived { (day.format("%Y-%m-%d")) " · " }
                            a href={ "/job/" (id(&visit.name)) } { (visit.name) }
                            @if let Some(verdict) = &visit.verdict { " · " (viewer.tell(verdict)) }
                        }
                    }
                }
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
