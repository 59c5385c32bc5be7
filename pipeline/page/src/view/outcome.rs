//! Outcomes: what was found when the unit was opened, or when it had proven itself.

use super::fields::{FormFields, Refused};
use super::frame::Viewer;
use crate::routes::id;
use crate::{Duty, Job};
use maud::{Markup, html};
use model::outcome::Found;
use model::{Case, Outcome};

pub(super) fn outcome(
    viewer: &Viewer<'_>,
    job: &Job,
    case: &Case,
    refused: Option<&Refused<'_>>,
) -> Markup {
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
    let kinds: Vec<(String, String)> = (kinds.iter())
        .map(|kind| ((*kind).into(), viewer.say(&format!("found-{kind}"))))
        .collect();
    let none = || std::iter::once((String::new(), String::new()));
    let causes: Vec<(String, String)> = none().chain(job.causes.clone()).collect();
    let photos = case.files.iter().filter(|f| f.kind == "photo");
    let photos = photos.map(|f| (f.path.clone(), f.path.clone()));
    let photos: Vec<(String, String)> = none().chain(photos).collect();
    let fields = FormFields::new(viewer, "outcome", refused);
    html! {
        section aria-labelledby="outcome" {
            h2 #outcome { (viewer.say("outcome")) }
            @if !job.outcomes.is_empty() {
                ol.events { @for o in &job.outcomes { li { (said(viewer, job, o)) } } }
            }
            details open[fields.is_refused()] {
                summary { (viewer.say("record-outcome")) }
                (fields.error())
                form.fields method="post" action={ "/job/" (id(&job.row.name)) "/outcome" } {
                    (viewer.token())
                    (fields.choice("found", "found", "found", &kinds))
                    (fields.choice("cause", "cause", "found-cause", &causes))
                    (fields.text("cause-words", "cause-words", "found-cause-words"))
                    (fields.text("part", "part", "found-part"))
                    (fields.choice("photo", "photo", "found-photo", &photos))
                    (fields.text("remark", "remark", "remark"))
                    div.line {
                        input #mended type="checkbox" name="mended" value="true" checked[fields.is_ticked("mended", "true")];
                        label for="mended" { (viewer.say("mended")) }
                    }
                    (fields.person("outcome-by", &[Duty::Work]))
                    div.field.act { button { (viewer.say("record")) } }
                }
            }
        }
    }
}

fn said(viewer: &Viewer<'_>, job: &Job, outcome: &Outcome) -> String {
    let mut text = viewer.say(&format!("found-{}", outcome.found));
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
