//! Form with the job's facts: what the verdict waits for comes first.

use super::fields::labelled;
use super::frame::Viewer;
use crate::answers::{
    CAPTURE_KEYS, CHANNEL_KEYS, FieldError, KEYS, Kind, UNIT_KEYS, caption_name, current,
    errors_of, field_name,
};
use crate::routes::{Fields, field, id};
use crate::{Answers, Asked, Job};
use maud::{Markup, html};
use model::RoleSource;
use model::case::{CaptureRecord, ChannelRecord};
use toml_edit::DocumentMut;

/// The form with the present answers, each wrong one with its error.
pub(crate) fn answers(viewer: &Viewer<'_>, job: &Job, answers: &Answers) -> Markup {
    let document: DocumentMut = answers.text.parse().unwrap_or_default();
    let form = Form {
        viewer,
        job,
        last_preset: answers.last_preset.as_deref(),
        errors: &errors_of(&answers.text, &answers.wrong),
        value: &|name| current(&document, name),
        asked: asked_names(job),
    };
    viewer.page(&viewer.say("answers-of"), form.show("answers-left-out"))
}

/// The form with what was typed, each error beside its field.
pub(crate) fn answers_again(
    viewer: &Viewer<'_>,
    job: &Job,
    before: &Answers,
    fields: &Fields,
    errors: &[FieldError],
) -> Markup {
    let form = Form {
        viewer,
        job,
        last_preset: before.last_preset.as_deref(),
        errors,
        value: &|name| field(fields, name).to_owned(),
        asked: asked_names(job),
    };
    viewer.answer_page(&viewer.say("answers-of"), form.show("answers-wrong"))
}

/// Names of the fields that the verdict waits for.
fn asked_names(job: &Job) -> Vec<String> {
    job.asked.iter().map(asked_name).collect()
}

fn asked_name(asked: &Asked) -> String {
    match &asked.file {
        Some(file) => field_name(file, asked.channel.as_deref(), asked.key),
        None => format!("vehicle.{}", asked.key),
    }
}

struct Form<'f> {
    viewer: &'f Viewer<'f>,
    job: &'f Job,
    last_preset: Option<&'f str>,
    errors: &'f [FieldError],
    value: &'f dyn Fn(&str) -> String,
    /// Fields that stand first, and nowhere else.
    asked: Vec<String>,
}

impl Form<'_> {
    fn show(&self, about_errors: &str) -> Markup {
        let (viewer, job) = (self.viewer, self.job);
        let captures = job.case.as_ref().map_or(&[][..], |c| &c.captures);
        let others: Vec<&FieldError> = (self.errors.iter())
            .filter(|e| e.field.is_empty())
            .collect();
        html! {
            h1 { (viewer.say("answers-of")) " " (job.row.name) }
            @if !self.errors.is_empty() {
                div.error role="alert" {
                    p { (viewer.say(about_errors)) }
                    ul { @for e in &others { li { (viewer.tell(&e.message)) } } }
                }
            }
            form.answers method="post" action={ "/job/" (id(&job.row.name)) "/answers" } {
                (viewer.token())
                (self.asked_first())
                @for (i, capture) in captures.iter().enumerate() { (self.capture(i, capture)) }
                (self.photos())
                fieldset {
                    legend { (viewer.say("job-and-vehicle")) }
                    div.fields { @for (key, kind) in KEYS { (self.unless_asked(key, key, kind, None)) } }
                }
                details open[self.errors.iter().any(|e| e.field.starts_with("unit."))] {
                    summary { (viewer.say("unit-facts")) }
                    fieldset {
                        div.fields { @for (key, kind) in UNIT_KEYS { (self.field(key, key, kind, None)) } }
                    }
                }
                p {
                    button { (viewer.say("save-answers")) } " "
                    a href={ "/job/" (id(&job.row.name)) } { (viewer.say("back")) }
                }
            }
        }
    }

    /// Requests to a person, and the fields that answer them.
    fn asked_first(&self) -> Markup {
        let kind = |name: &str, key: &str| {
            let mut all = KEYS.iter().chain(&CAPTURE_KEYS).chain(&CHANNEL_KEYS);
            all.find(|(k, _)| *k == name || *k == key)
                .map_or(Kind::Text, |(_, kind)| *kind)
        };
        html! {
            @if !self.job.row.asks.is_empty() {
                fieldset.asked {
                    legend { (self.viewer.say("asked-for")) }
                    ul.asks { @for ask in &self.job.row.asks { li { (self.viewer.tell(ask)) } } }
                    div.fields {
                        @for asked in &self.job.asked {
                            @let name = asked_name(asked);
                            div {
                                @if let Some(file) = &asked.file {
                                    p.of { (file) @if let Some(channel) = &asked.channel { " · " strong { (channel) } } }
                                    (self.field(&name, asked.key, kind(&name, asked.key), None))
                                } @else {
                                    (self.field(&name, &name, kind(&name, asked.key), None))
                                }
                            }
                        }
                    }
                }
            }
        }
    }

    fn capture(&self, number: usize, capture: &CaptureRecord) -> Markup {
        let is_offered = |key: &str| key != "preset" || !self.job.presets.is_empty();
        html! {
            fieldset.capture {
                legend { (capture.file) }
                div.fields {
                    @for (key, kind) in CAPTURE_KEYS {
                        @if is_offered(key) {
                            @let name = field_name(&capture.file, None, key);
                            (self.unless_asked(&name, key, kind, self.stated(capture, key).as_deref()))
                        }
                    }
                }
                @for (j, channel) in capture.channels.iter().enumerate() {
                    (self.channel(number, j, capture, channel))
                }
            }
        }
    }

    /// Answer that the recording or a scan-tool text gives, in words.
    fn stated(&self, capture: &CaptureRecord, key: &str) -> Option<String> {
        let engine = || {
            let engine = capture.engine.as_ref()?;
            Some(self.viewer.say(&format!("choice-{}", engine.value)))
        };
        match key {
            "selector" => Some(capture.selector.as_ref()?.value.letter().into()),
            "engine" => engine(),
            _ => None,
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
            RoleSource::Guess { reason, .. } => {
                let role = channel.role.as_ref();
                role.map(|role| (self.job.role_words(role), reason))
            }
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
                        @let hint = if key == "role" { guess.map(|(role, _)| role) } else { None };
                        (self.unless_asked(&name, key, kind, hint))
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

    /// A field, unless it stands among those that are asked first.
    fn unless_asked(&self, name: &str, key: &str, kind: Kind, hint: Option<&str>) -> Markup {
        match self.asked.iter().any(|a| a == name) {
            true => html! {},
            false => self.field(name, key, kind, hint),
        }
    }

    /// A field; `hint`: the answer that counts while there is none.
    fn field(&self, name: &str, key: &str, kind: Kind, hint: Option<&str>) -> Markup {
        let value = (self.value)(name);
        let error = self.errors.iter().find(|e| e.field == name);
        let error = error.map(|e| self.viewer.tell(&e.message));
        let input = format!("f-{}", id(name));
        let label = format!("field-{}", key.replace(['.', '_'], "-"));
        labelled(
            &self.viewer.say(&label),
            &input,
            error.as_deref(),
            |error| {
                let is_wrong = error.map(|_| "true");
                html! {
                    @match self.choices(key) {
                        Some(choices) => select id=(input) name=(name) aria-describedby=[error] aria-invalid=[is_wrong] {
                            option value="" { (hint.map_or(String::new(), |h| format!("({h})"))) }
                            @for (choice, words) in &choices {
                                option value=(choice) selected[*choice == value] { (words) }
                            }
                            @if !value.is_empty() && !choices.iter().any(|(c, _)| *c == value) {
                                option value=(value) selected { (value) }
                            }
                        },
                        None if key == "concern.text" => textarea id=(input) name=(name) rows="3" aria-describedby=[error] { (value) },
                        None if key == "vehicle.vin" => {
                            input id=(input) name=(name) value=(value) autocapitalize="characters"
                                autocomplete="off" spellcheck="false" data-check="vin" aria-describedby="vin-hint"
                            placeholder=[self.job.row.facts.vin.as_deref()];
                            p.hint #vin-hint role="status" {}
                        },
                        None => input id=(input) name=(name) value=(value) type=(input_type(kind)) aria-describedby=[error]
                            aria-invalid=[is_wrong];,
                    }
                }
            },
        )
    }

    /// Choices of a key, with their words.
    fn choices(&self, key: &str) -> Option<Vec<(String, String)>> {
        let fixed: &[&str] = match key {
            "vehicle.high_voltage" => &["true", "false"],
            "phase" => &["before", "after"],
            "selector" => return Some(as_written(["P", "R", "N", "D", "S", "M"])),
            "engine" => &["running", "off", "cranking"],
            "state" => &["key-off", "loaded", "free"],
            "time_unit" => return Some(as_written(["s", "ms", "us", "min", "h"])),
            "sensor" => &["hall", "vr", "current-loop"],
            "vehicle.unit" => return Some(as_written(&self.job.units)),
            "vehicle.systems" => return Some(self.job.systems.clone()),
            "preset" => {
                let last = |p: &String| self.last_preset == Some(p.as_str());
                let mut presets: Vec<&String> = self.job.presets.iter().collect();
                presets.sort_by_key(|p| !last(p));
                let words = |p: &String| match last(p) {
                    true => self.viewer.words.say_with("preset-last", &[("name", p)]),
                    false => p.clone(),
                };
                return Some(presets.into_iter().map(|p| (p.clone(), words(p))).collect());
            }
            "role" => return Some(self.job.roles.clone()),
            _ => return None,
        };
        let said = |c: &&str| ((*c).to_owned(), self.viewer.say(&format!("choice-{c}")));
        Some(fixed.iter().map(said).collect())
    }
}

/// Choices whose words are what is written.
fn as_written(names: impl IntoIterator<Item = impl Into<String>>) -> Vec<(String, String)> {
    let names = names.into_iter().map(Into::into);
    names.map(|name: String| (name.clone(), name)).collect()
}

fn input_type(kind: Kind) -> &'static str {
    match kind {
        Kind::Date => "date",
        _ => "text",
    }
}
