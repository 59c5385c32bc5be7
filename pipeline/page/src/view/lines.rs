//! Lines of work: what each costs, and its next step.

use super::fields::{FormFields, Refused};
use super::frame::Viewer;
use crate::routes::id;
use crate::{Duty, Job};
use maud::{Markup, html};
use model::labour::{ConsentMethod, Hold, LineKind, SumLimit, WorkAction, WorkEvent};
use model::{Case, LabourLine};

pub(super) fn lines(
    viewer: &Viewer<'_>,
    job: &Job,
    case: &Case,
    refused: Option<&Refused<'_>>,
) -> Markup {
    if case.labour.is_empty() {
        return html! {};
    }
    let fields = FormFields::new(viewer, "lines", refused);
    html! {
        section aria-labelledby="lines" {
            h2 #lines { (viewer.say("lines")) }
            form.lines method="post" action={ "/job/" (id(&job.row.name)) "/lines" } {
                (viewer.token())
                (table(viewer, case, &fields))
                details open[fields.is_refused()] {
                    summary { (viewer.say("record-step")) }
                    (fields.error())
                    p { (viewer.say("choose-lines")) }
                    (step(viewer, &fields))
                }
            }
            @if !job.events.is_empty() {
                details {
                    summary { (viewer.say("events")) " (" (job.events.len()) ")" }
                    ol.events { @for e in &job.events { li { (event(viewer, e)) } } }
                }
            }
        }
    }
}

fn table(viewer: &Viewer<'_>, case: &Case, fields: &FormFields<'_>) -> Markup {
    let number = |n: &dyn ToString| viewer.words.number(n.to_string());
    html! {
        div.scroll tabindex="0" role="region" aria-label=(viewer.say("line-table")) {
            table.work {
                thead {
                    tr {
                        th scope="col" { span.unseen { (viewer.say("line-choose")) } }
                        @for key in ["line-work", "line-quantity", "line-net", "line-state"] {
                            th scope="col" { (viewer.say(key)) }
                        }
                    }
                }
                tbody {
                    @for line in &case.labour {
                        @let place = format!("line-{}", line.line);
                        tr {
                            td {
                                input type="checkbox" name="line" id=(place) value=(line.line)
                                    checked[fields.is_ticked("line", &line.line.to_string())];
                            }
                            td { label for=(place) { (line.operation) " " (line.description) } }
                            td.number {
                                (number(&line.quantity())) @if line.pieces.is_none() { " h" } " × " (number(&line.rate))
                            }
                            td.number {
                                (number(&line.net_amount)) " " (line.currency)
                                @if let Some(tax) = &line.tax {
                                    br; small { "+ " (number(&tax.rate.normalize())) " % " (viewer.say("line-tax")) }
                                }
                            }
                            td { (state(viewer, line)) }
                        }
                    }
                }
                @if let Some(totals) = &case.labour_totals {
                    tfoot {
                        @for (key, sum) in [
                            ("state-line-offered", &totals.offered), ("state-line-authorised", &totals.authorised),
                            ("state-line-done", &totals.done), ("state-line-held", &totals.held),
                        ] {
                            @if !sum.net.is_zero() {
                                tr {
                                    td {}
                                    th scope="row" colspan="2" { (viewer.say("sum-of")) " " (viewer.say(key)) }
                                    td.number { (number(&sum.net)) " " (totals.currency) }
                                    td { (number(&sum.gross)) " " (totals.currency) " " (viewer.say("gross")) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// State of a line, with whose word it rests on.
fn state(viewer: &Viewer<'_>, line: &LabourLine) -> String {
    let mut text = viewer.say(&format!("state-line-{}", line.state));
    for consent in [&line.life.authorised, &line.life.declined]
        .into_iter()
        .flatten()
    {
        text += &format!(
            " · {}, {}, {}",
            consent.by,
            viewer.say(&format!("how-{}", consent.how)),
            consent.at.format("%Y-%m-%d %H:%M")
        );
        text += &consent
            .limit
            .map_or(String::new(), |l| up_to(viewer, l, &line.currency));
    }
    let (why, what) = match &line.life.hold {
        Some(Hold::BeyondLimit { needed, .. }) => ("limit", viewer.words.number(needed)),
        Some(Hold::NotAuthorised) => ("word", String::new()),
        Some(Hold::NumberTaken { jobs }) => ("number", jobs.join(", ")),
        None => return text,
    };
    let held = format!("line-held-{why}");
    text + " · " + &viewer.words.say_with(&held, &[("what", &what)])
}

fn up_to(viewer: &Viewer<'_>, limit: SumLimit, currency: &str) -> String {
    let sum = viewer.words.number(limit.sum);
    let basis = viewer.say(limit.basis.into());
    format!(", ≤ {sum} {currency} {basis}")
}

fn step(viewer: &Viewer<'_>, fields: &FormFields<'_>) -> Markup {
    let said = |prefix: &str, names: &[&str]| -> Vec<(String, String)> {
        let said = |name: &&str| ((*name).into(), viewer.say(&format!("{prefix}{name}")));
        names.iter().map(said).collect()
    };
    let steps = said("step-", &["authorise", "decline", "complete", "reopen"]);
    let ways = said("how-", &ConsentMethod::ALL.map(<&str>::from));
    html! {
        div.fields {
            (fields.choice("step", "step", "step", &steps))
            (fields.text("said-by", "said-by", "said-by"))
            (fields.choice("how", "how", "how", &ways))
            (fields.text("up-to", "up-to", "up-to"))
            (fields.choice("basis", "basis", "basis", &said("", &["gross", "net"])))
            (fields.text("hours", "hours", "hours"))
            (fields.person("line-by", &[Duty::Customer, Duty::Work]))
            div.field.act { button { (viewer.say("record")) } }
        }
    }
}

fn event(viewer: &Viewer<'_>, event: &WorkEvent) -> String {
    let work = event.lines.iter().filter(|l| l.kind != LineKind::Part);
    let work: Vec<&str> = work.map(|l| l.operation.as_str()).collect();
    let step = match event.action {
        WorkAction::Offered => "state-line-offered",
        WorkAction::Authorised { .. } => "step-authorise",
        WorkAction::Declined { .. } => "step-decline",
        WorkAction::Done => "step-complete",
        WorkAction::Reopened => "step-reopen",
    };
    let mut text = format!(
        "{} {}: {}",
        event.at.format("%Y-%m-%d %H:%M"),
        viewer.say(step),
        work.join(", ")
    );
    if let WorkAction::Authorised { limit, .. } = event.action {
        let currency = event.lines.first().map_or("", |l| l.currency.as_str());
        text += &up_to(viewer, limit, currency);
    }
    let how = match event.action {
        WorkAction::Authorised { how, .. } | WorkAction::Declined { how } => Some(how),
        _ => None,
    };
    let names = [
        event.by.clone(),
        how.map(|how| viewer.say(&format!("how-{how}"))),
        (event.recorded_by.as_ref()).map(|by| format!("{} {by}", viewer.say("recorded-by"))),
    ];
    let names: Vec<String> = names.into_iter().flatten().collect();
    if !names.is_empty() {
        text += &format!(" ({})", names.join(", "));
    }
    text
}
