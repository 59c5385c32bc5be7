//! Form with the job's facts: what the verdict waits for comes first.

use super::frame::Viewer;
use crate::answers::{CAPTURE_KEYS, CHANNEL_KEYS, KEYS, Kind, caption_name, current, field_name};
use crate::routes::{Fields, field, id};
use crate::{AnswerError, Job};
use maud::{Markup, html};
use model::RoleSource;
use model::case::{CaptureRecord, ChannelRecord};
use toml_edit::DocumentMut;

/// The form with the present answers.
pub(crate) fn answers(
    viewer: &Viewer<'_>,
    job: &Job,
    text: &str,
    errors: &[AnswerError],
) -> Markup {
    let document: DocumentMut = text.parse().unwrap_or_default();
    form(viewer, job, errors, &|name| current(&document, name))
}

/// The form with what was typed, each error beside its field.
pub(crate) fn answers_again(
    viewer: &Viewer<'_>,
    job: &Job,
    fields: &Fields,
    errors: &[AnswerError],
) -> Markup {
    form(viewer, job, errors, &|name| field(fields, name).to_owned())
}

type Value<'f> = &'f dyn Fn(&str) -> String;

struct Form<'f> {
    viewer: &'f Viewer<'f>,
    job: &'f Job,
    errors: &'f [AnswerError],
    value: Value<'f>,
}

fn form(viewer: &Viewer<'_>, job: &Job, errors: &[AnswerError], value: Value<'_>) -> Markup {
    let form = Form {
        viewer,
        job,
        errors,
        value,
    };
    let captures = job.case.as_ref().map_or(&[][..], |c| &c.captures);
    let others: Vec<&AnswerError> = errors.iter().filter(|e| !form.has_field(&e.key)).collect();
    let body = html! {
        h1 { (viewer.say("answers-of")) " " (job.row.name) }
        @if !errors.is_empty() {
            div.error role="alert" {
                p { (viewer.say("answers-wrong")) }
                ul { @for e in &others { li { (e.key) ": " (viewer.tell(&e.message)) } } }
            }
        }
        @if !job.row.asks.is_empty() {
            section.verdict aria-labelledby="asked" {
                h2 #asked { (viewer.say("asked-for")) }
                ul.asks { @for ask in &job.row.asks { li { (viewer.tell(ask)) } } }
            }
        }
        form.answers method="post" action={ "/job/" (id(&job.row.name)) "/answers" } {
            (viewer.token())
            @for (i, capture) in captures.iter().enumerate() { (form.capture(i, capture)) }
            (form.photos())
            fieldset {
                legend { (viewer.say("job-and-vehicle")) }
                @for (key, kind) in KEYS { (form.field(key, key, kind, None)) }
            }
            p {
                button { (viewer.say("save-answers")) } " "
                a href={ "/job/" (id(&job.row.name)) } { (viewer.say("back")) }
            }
        }
    };
    viewer.page(&viewer.say("answers-of"), body)
}

impl Form<'_> {
    fn has_field(&self, key: &str) -> bool {
        KEYS.iter().any(|(k, _)| *k == key) || key.contains(crate::answers::SEPARATOR)
    }

    fn capture(&self, number: usize, capture: &CaptureRecord) -> Markup {
        html! {
            fieldset.capture {
                legend { (capture.file) }
                div.fields {
                    @for (key, kind) in CAPTURE_KEYS {
                        (self.field(&field_name(&capture.file, None, key), key, kind, None))
                    }
                }
                @for (j, channel) in capture.channels.iter().enumerate() {
                    (self.channel(number, j, capture, channel))
                }
            }
        }
    }

    fn channel(
        &self,
        number: usize,
        index: usize,
        capture: &CaptureRecord,
        channel: &ChannelRecord,
    ) -> Markup {
        let guess = match &channel.role_source {
            RoleSource::Guess { reason, .. } => channel.role.as_ref().map(|r| (r, reason)),
            _ => None,
        };
        let base = format!("/job/{}/data/{number}/{index}", id(&self.job.row.name));
        html! {
            fieldset.channel {
                legend { (channel.name) }
                canvas.thumbnail width="240" height="48" aria-hidden="true" data-data=(base)
                    data-from=(capture.start_s) data-to=(capture.end_s) {}
                @if let Some((role, reason)) = guess {
                    p.guess { (self.viewer.say("guessed")) " " strong { (role) } ": " (reason) }
                }
                div.fields {
                    @for (key, kind) in CHANNEL_KEYS {
                        @let name = field_name(&capture.file, Some(&channel.name), key);
                        @let hint = if key == "role" { guess.map(|(role, _)| role.as_str()) } else { None };
                        (self.field(&name, key, kind, hint))
                    }
                }
            }
        }
    }

    fn photos(&self) -> Markup {
        let files = self.job.case.iter().flat_map(|c| &c.files).enumerate();
        let photos: Vec<_> = files.filter(|(_, f)| f.kind == "photo").collect();
        html! {
            @if !photos.is_empty() {
                fieldset {
                    legend { (self.viewer.say("photos")) }
                    div.fields {
                        @for (i, photo) in photos {
                            div {
                                img.photo src={ "/job/" (id(&self.job.row.name)) "/photo/" (i) } alt=(photo.path);
                                (self.field(&caption_name(&photo.path), "caption", Kind::Text, None))
                            }
                        }
                    }
                }
            }
        }
    }

    fn field(&self, name: &str, key: &str, kind: Kind, hint: Option<&str>) -> Markup {
        let value = (self.value)(name);
        let error = self.errors.iter().find(|e| e.key == name);
        let input = format!("f-{}", super::super::routes::id(name));
        let error_id = format!("{input}-error");
        let described = error.map(|_| error_id.as_str());
        let label = self
            .viewer
            .say(&format!("field-{}", key.replace(['.', '_'], "-")));
        html! {
            div.field.wrong[error.is_some()] {
                label for=(input) { (label) }
                @match self.choices(key) {
                    Some(choices) => select id=(input) name=(name) aria-describedby=[described] {
                        option value="" { (hint.map_or(String::new(), |h| format!("({h})"))) }
                        @for (choice, words) in &choices {
                            option value=(choice) selected[*choice == value] { (words) }
                        }
                        @if !value.is_empty() && !choices.iter().any(|(c, _)| *c == value) {
                            option value=(value) selected { (value) }
                        }
                    },
                    None if key == "concern.text" => textarea id=(input) name=(name) rows="3" aria-describedby=[described] { (value) },
                    None => input id=(input) name=(name) value=(value) type=(input_type(kind)) aria-describedby=[described]
                        data-check=[(key == "vehicle.vin").then_some("vin")] aria-invalid=[error.map(|_| "true")];,
                }
                @if let Some(error) = error { p.error id=(error_id) { (self.viewer.tell(&error.message)) } }
            }
        }
    }

    /// Choices of a key, with their words.
    fn choices(&self, key: &str) -> Option<Vec<(String, String)>> {
        let fixed: &[&str] = match key {
            "vehicle.high_voltage" => &["true", "false"],
            "phase" => &["before", "after"],
            "selector" => {
                return Some(
                    ["P", "R", "N", "D", "S", "M"]
                        .map(|s| (s.into(), s.into()))
                        .to_vec(),
                );
            }
            "engine" => &["running", "off", "cranking"],
            "state" => &["key-off", "loaded", "free"],
            "time_unit" => {
                return Some(
                    ["s", "ms", "us", "min", "h"]
                        .map(|s| (s.into(), s.into()))
                        .to_vec(),
                );
            }
            "sensor" => &["hall", "vr", "current-loop"],
            "vehicle.unit" => {
                let units = self.job.units.iter();
                return Some(units.map(|u| (u.clone(), u.clone())).collect());
            }
            "preset" => {
                let presets = self.job.presets.iter();
                return Some(presets.map(|p| (p.clone(), p.clone())).collect());
            }
            "role" => return Some(self.job.roles.clone()),
            _ => return None,
        };
        let said = |c: &&str| ((*c).to_owned(), self.viewer.say(&format!("choice-{c}")));
        Some(fixed.iter().map(said).collect())
    }
}

fn input_type(kind: Kind) -> &'static str {
    match kind {
        Kind::Date => "date",
        _ => "text",
    }
}
