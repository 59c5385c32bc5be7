//! Lines of work: what each costs, and its next step.

use super::frame::Viewer;
use crate::Job;
use crate::routes::id;
use maud::{Markup, html};
use model::Case;
use model::labour::ConsentMethod;

pub(super) fn lines(viewer: &Viewer<'_>, job: &Job, case: &Case) -> Markup {
    if case.labour.is_empty() {
        return html! {};
    }
    html! {
        section aria-labelledby="lines" {
            h2 #lines { (viewer.say("lines")) }
            form.lines method="post" action={ "/job/" (id(&job.name)) "/lines" } {
                (viewer.token())
                fieldset {
                    legend { (viewer.say("choose-lines")) }
                    @for (line, words) in case.labour.iter().zip(&job.lines) {
                        div.line {
                            input type="checkbox" name="line" id={ "line-" (line.line) } value=(line.line);
                            label for={ "line-" (line.line) } { (words) }
                        }
                    }
                }
                fieldset.step {
                    legend { (viewer.say("record-step")) }
                    label for="step" { (viewer.say("step")) }
                    select id="step" name="step" {
                        @for step in ["authorise", "decline", "complete"] {
                            option value=(step) { (viewer.say(&format!("step-{step}"))) }
                        }
                    }
                    label for="said-by" { (viewer.say("said-by")) }
                    input id="said-by" name="said-by";
                    label for="how" { (viewer.say("how")) }
                    select id="how" name="how" {
                        @for how in ConsentMethod::ALL {
                            option value=(how.name()) { (viewer.say(&format!("how-{}", how.name()))) }
                        }
                    }
                    label for="up-to" { (viewer.say("up-to")) }
                    input id="up-to" name="up-to" inputmode="decimal";
                    label for="basis" { (viewer.say("basis")) }
                    select id="basis" name="basis" {
                        option value="gross" { (viewer.say("gross")) }
                        option value="net" { (viewer.say("net")) }
                    }
                    label for="hours" { (viewer.say("hours")) }
                    input id="hours" name="hours" inputmode="decimal";
                    (viewer.person("line-by"))
                    button { (viewer.say("record")) }
                }
            }
            @if !job.events.is_empty() {
                h3 { (viewer.say("events")) }
                ol.events { @for event in &job.events { li { (event) } } }
            }
        }
    }
}
