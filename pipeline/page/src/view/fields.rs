//! Fields of forms: one that was refused keeps what was typed, and has the error beside its field.

use super::frame::Viewer;
use crate::routes::{Fields, field};
use crate::{Duty, Message, Person};
use maud::{Markup, html};

/// A form that was refused.
pub(crate) struct Refused<'f> {
    /// Name of the form.
    pub(crate) form: &'static str,
    /// Fields as they were filled in.
    pub(crate) fields: &'f Fields,
    /// Field that the message is about; empty where it is about the whole.
    pub(crate) field: &'static str,
    /// The error.
    pub(crate) message: &'f Message,
}

/// Fields of one form.
pub(super) struct FormFields<'v> {
    viewer: &'v Viewer<'v>,
    refused: Option<&'v Refused<'v>>,
}

impl<'v> FormFields<'v> {
    /// Fields of the form of a name; `refused`: the form of the page that was refused.
    pub(super) fn new(
        viewer: &'v Viewer<'v>,
        form: &str,
        refused: Option<&'v Refused<'v>>,
    ) -> FormFields<'v> {
        FormFields {
            viewer,
            refused: refused.filter(|r| r.form == form),
        }
    }

    /// True where it was refused.
    pub(super) fn is_refused(&self) -> bool {
        self.refused.is_some()
    }

    /// Value of a field as it was filled in.
    pub(super) fn typed(&self, name: &str) -> &str {
        self.refused.map_or("", |r| field(r.fields, name))
    }

    /// True for a box that was ticked.
    pub(super) fn is_ticked(&self, name: &str, value: &str) -> bool {
        let ticked = |r: &Refused<'_>| r.fields.iter().any(|(n, v)| n == name && v == value);
        self.refused.is_some_and(ticked)
    }

    /// Error that is about no field.
    pub(super) fn error(&self) -> Markup {
        let error = self.refused.filter(|r| r.field.is_empty());
        html! { @if let Some(r) = error { p.error role="alert" { (self.viewer.tell(r.message)) } } }
    }

    /// A line of text.
    pub(super) fn text(&self, name: &str, id: &str, label: &str) -> Markup {
        let is_number = matches!(name, "up-to" | "hours");
        self.field(name, id, label, |error| {
            html! {
                input id=(id) name=(name) value=(self.typed(name)) aria-invalid=[error.map(|_| "true")]
                    aria-describedby=[error] inputmode=[is_number.then_some("decimal")];
            }
        })
    }

    /// A choice among values with their words.
    pub(super) fn choice(
        &self,
        name: &str,
        id: &str,
        label: &str,
        values: &[(String, String)],
    ) -> Markup {
        self.field(name, id, label, |error| {
            html! {
                select id=(id) name=(name) aria-invalid=[error.map(|_| "true")] aria-describedby=[error] {
                    @for (value, words) in values {
                        option value=(value) selected[self.is_refused() && value == self.typed(name)] { (words) }
                    }
                }
            }
        })
    }

    /// Fields for the person who does something: a name, or one of the shop's persons with the PIN, which is never kept.
    pub(super) fn person(&self, id: &str, duties: &[Duty]) -> Markup {
        let persons = &self.viewer.persons;
        let may = |p: &&Person| p.duties.iter().any(|d| duties.contains(d));
        let pin = format!("{id}-pin");
        html! {
            (self.field("by", id, "by", |error| html! {
                @if persons.is_empty() {
                    input id=(id) name="by" value=(self.typed("by")) required autocomplete="name" data-remember="person"
                        aria-invalid=[error.map(|_| "true")] aria-describedby=[error];
                } @else {
                    select id=(id) name="by" required data-remember="person"
                        aria-invalid=[error.map(|_| "true")] aria-describedby=[error] {
                        @for person in persons.iter().filter(may) {
                            option value=(person.name) selected[person.name == self.typed("by")] { (person.name) }
                        }
                    }
                }
            }))
            @if !persons.is_empty() {
                (self.field("pin", &pin, "pin", |error| html! {
                    input.pin id=(pin) name="pin" type="password" inputmode="numeric" autocomplete="off" required
                        aria-invalid=[error.map(|_| "true")] aria-describedby=[error];
                }))
            }
        }
    }

    /// A field with its label and its error; `input` takes the identifier of the error.
    fn field(
        &self,
        name: &str,
        id: &str,
        label: &str,
        input: impl FnOnce(Option<&str>) -> Markup,
    ) -> Markup {
        let error = self.refused.filter(|r| r.field == name);
        let error = error.map(|r| self.viewer.tell(r.message));
        labelled(&self.viewer.say(label), id, error.as_deref(), input)
    }
}

/// A labelled input with its error; `input` takes the identifier of the error.
pub(super) fn labelled(
    label: &str,
    id: &str,
    error: Option<&str>,
    input: impl FnOnce(Option<&str>) -> Markup,
) -> Markup {
    let error_id = format!("{id}-error");
    html! {
        div.field.wrong[error.is_some()] {
            label for=(id) { (label) }
            (input(error.map(|_| error_id.as_str())))
            @if let Some(error) = error { p.error id=(error_id) role="alert" { (error) } }
        }
    }
}
