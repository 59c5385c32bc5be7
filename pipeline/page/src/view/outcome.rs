//! Outcomes: what was found when the unit was opened, or when it had proven itself.

use super::frame::Viewer;
use crate::routes::id;
use crate::{Duty, Job};
use maud::{Markup, html};
use model::outcome::Found;
use model::{Case, Outcome};

pub(super) fn outcome(viewer: &Viewer<'_>, job: &Job, case: &Case) -> Markup {
    let Some(lead) = case.lead() else {
        return html! {};
    };
    // What refers to a cause can only be said where the report names one.
    let kinds: &[&str] = match lead.verdict.cause {
        Some(_) => &[
            "confirmed",
            "other-cause",
            "part-sound",
            "healthy",
            "not-opened",
        ],
        None => &["other-cause", "healthy", "not-opened"],
    };
    let photos = case.files.iter().filter(|f| f.kind == "photo");
    html! {
        section aria-labelledby="outcome" {
            h2 #outcome { (viewer.say("outcome")) }
            @if !job.outcomes.is_empty() {
                ol.events { @for o in &job.outcomes { li { (said(viewer, job, o)) } } }
            }
            details {
                summary { (viewer.say("record-outcome")) }
                form.fields method="post" action={ "/job/" (id(&job.row.name)) "/outcome" } {
                    (viewer.token())
                    div.field {
                        label for="found" { (viewer.say("found")) }
                        select #found name="found" {
                            @for kind in kinds { option value=(kind) { (viewer.say(&format!("found-{kind}"))) } }
                        }
                    }
                    div.field {
                        label for="cause" { (viewer.say("found-cause")) }
                        select #cause name="cause" {
                            option value="" {}
                            @for (name, words) in &job.causes { option value=(name) { (words) } }
                        }
                    }
                    div.field {
                        label for="cause-words" { (viewer.say("found-cause-words")) }
                        input #cause-words name="cause-words";
                    }
                    div.field {
                        label for="part" { (viewer.say("found-part")) }
                        input #part name="part";
                    }
                    div.field {
                        label for="photo" { (viewer.say("found-photo")) }
                        select #photo name="photo" {
                            option value="" {}
                            @for photo in photos { option value=(photo.path) { (photo.path) } }
                        }
                    }
                    div.field {
                        label for="remark" { (viewer.say("remark")) }
                        input #remark name="remark";
                    }
                    div.line {
                        input #mended type="checkbox" name="mended" value="true";
                        label for="mended" { (viewer.say("mended")) }
                    }
                    (viewer.person("outcome-by", &[Duty::Work]))
                    div.field.act { button { (viewer.say("record")) } }
                }
            }
        }
    }
}

fn said(viewer: &Viewer<'_>, job: &Job, outcome: &Outcome) -> String {
    let mut text = viewer.say(&format!("found-{}", outcome.found.name()));
    if let Found::OtherCause { cause } = &outcome.found {
        let known = job.causes.iter().find(|(name, _)| name == cause);
        text += &format!(": {}", known.map_or(cause, |(_, words)| words));
    }
    if outcome.is_mended {
        text += &format!("; {}", viewer.say("mended"));
    }
    for (key, value) in [
        ("found-part", &outcome.part),
        (
            "found-photo",
            &outcome.photo.as_ref().map(|p| p.file.clone()),
        ),
        ("remark", &outcome.note),
    ] {
        if let Some(value) = value {
            text += &format!("; {}: {value}", viewer.say(key));
        }
    }
    format!(
        "{text} ({}, {})",
        outcome.by,
        outcome.at.format("%Y-%m-%d %H:%M")
    )
}
