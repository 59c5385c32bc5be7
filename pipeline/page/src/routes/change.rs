//! Commands of a person: answers, signatures, steps of lines of work, outcomes, mail.

use crate::answers::{edit, fields_of};
use crate::lock::Session;
use crate::routes::show::viewer;
use crate::routes::{Failure, Fields, answer, ask, check_token, field, host_of, id, job_of_form};
use crate::server::Shared;
use crate::view;
use crate::{Discovery, Job, LineChange, Message, Seen, Who, Workshop};
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Redirect, Response};
use axum::{Extension, Form};
use model::labour::{ConsentMethod, SumBasis, SumLimit};
use rust_decimal::Decimal;
use std::sync::Arc;

/// Asks for something of a job, and goes back to a part of its page.
async fn change(
    shared: &Arc<Shared>,
    job: &Job,
    part: &str,
    command: impl FnOnce(&dyn Workshop, &str) -> Result<(), Message> + Send + 'static,
) -> Result<Response, Failure> {
    let name = job.row.name.clone();
    ask(shared, move |w| command(w, &name)).await?;
    Ok(back_to(&job.row.name, part))
}

/// Redirects after a command.
fn back_to(name: &str, part: &str) -> Response {
    Redirect::to(&format!("/job/{}{part}", id(name))).into_response()
}

pub(crate) async fn new_job(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Form(fields): Form<Fields>,
) -> Response {
    let done = async {
        check_token(&session, field(&fields, "token"))?;
        let name = field(&fields, "name").to_owned();
        let made = name.clone();
        ask(&shared, move |w| {
            w.check_name(&made)?;
            w.drop_folder(&made)
        })
        .await?;
        Ok(back_to(&name, ""))
    };
    answer(&shared, done.await)
}

pub(crate) async fn answers(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Path(id): Path<String>,
    Form(fields): Form<Fields>,
) -> Response {
    let done = async {
        let job = job_of_form(&shared, &session, id, &fields).await?;
        let name = job.row.name.clone();
        let before = ask(&shared, move |w| w.answers(&name)).await?;
        let edited = edit(&before, &fields_of(&fields));
        let (text, mut errors) = edited.map_err(|e| Failure::Said(e.into()))?;
        errors.extend(shared.workshop.check_answers(&text));
        if !errors.is_empty() {
            // What was typed is kept, and each error stands beside its field.
            let viewer = viewer(&shared, &session);
            let page = view::answers_again(&viewer, &job, &fields, &errors);
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
        }
        change(&shared, &job, "", move |w, name| w.answer(name, &text)).await
    };
    answer(&shared, done.await)
}

pub(crate) async fn sign(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Path(id): Path<String>,
    Form(fields): Form<Fields>,
) -> Response {
    let done = async {
        let job = job_of_form(&shared, &session, id, &fields).await?;
        let by = person(&fields)?;
        let revision = field(&fields, "revision").parse();
        let seen = Seen {
            revision: revision.map_err(|_| Failure::Token)?,
            digest: field(&fields, "digest").into(),
        };
        let note = filled(&fields, "note");
        change(&shared, &job, "#documents", move |w, name| {
            w.sign(name, &seen, &by, note.as_deref())
        })
        .await
    };
    answer(&shared, done.await)
}

pub(crate) async fn lines(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Path(id): Path<String>,
    Form(fields): Form<Fields>,
) -> Response {
    let done = async {
        let job = job_of_form(&shared, &session, id, &fields).await?;
        let step = line_change(&fields)?;
        let by = person(&fields)?;
        let chosen = fields.iter().filter(|(name, _)| name == "line");
        let lines: Vec<String> = chosen.map(|(_, line)| line.clone()).collect();
        change(&shared, &job, "#lines", move |w, name| {
            w.record(name, &lines, &by, step)
        })
        .await
    };
    answer(&shared, done.await)
}

fn line_change(fields: &Fields) -> Result<LineChange, Failure> {
    let how = ConsentMethod::ALL
        .into_iter()
        .find(|m| m.name() == field(fields, "how"))
        .unwrap_or(ConsentMethod::Screen);
    let amount = |name: &str| match field(fields, name) {
        "" => Ok(None),
        // A decimal comma is one; thousands are not grouped.
        text => Decimal::from_str_exact(&text.replace(',', "."))
            .map(Some)
            .map_err(|_| Failure::Said(Message::with("wrong-number", "text", text))),
    };
    let customer = || match field(fields, "said-by") {
        "" => Err(Failure::Said(Message::new("customer-missing"))),
        name => Ok(name.to_owned()),
    };
    Ok(match field(fields, "step") {
        "authorise" => {
            let basis = match field(fields, "basis") {
                "net" => SumBasis::Net,
                _ => SumBasis::Gross,
            };
            let limit = amount("up-to")?.map(|sum| SumLimit { sum, basis });
            let by = customer()?;
            LineChange::Authorise { by, how, limit }
        }
        "decline" => LineChange::Decline {
            by: customer()?,
            how,
        },
        "complete" => LineChange::Complete {
            hours: amount("hours")?,
        },
        "reopen" => LineChange::Reopen,
        _ => return Err(Failure::Token),
    })
}

pub(crate) async fn outcome(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Path(id): Path<String>,
    Form(fields): Form<Fields>,
) -> Response {
    let done = async {
        let job = job_of_form(&shared, &session, id, &fields).await?;
        let by = person(&fields)?;
        let discovery = Discovery {
            found: field(&fields, "found").into(),
            cause: filled(&fields, "cause-words").or_else(|| filled(&fields, "cause")),
            is_mended: filled(&fields, "mended").is_some(),
            part: filled(&fields, "part"),
            photo: filled(&fields, "photo"),
            note: filled(&fields, "remark"),
        };
        change(&shared, &job, "#outcome", move |w, name| {
            w.record_outcome(name, &by, &discovery)
        })
        .await
    };
    answer(&shared, done.await)
}

pub(crate) async fn send(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Path(id): Path<String>,
    headers: HeaderMap,
    Form(fields): Form<Fields>,
) -> Response {
    let done = async {
        let job = job_of_form(&shared, &session, id, &fields).await?;
        // The desktop is that of this machine, not of a tablet behind the proxy.
        if shared.hosts.is_proxied(host_of(&headers)) {
            return Err(Failure::Said(Message::new("send-only-there")));
        }
        let document = field(&fields, "document").parse();
        let document: usize = document.map_err(|_| Failure::NotFound)?;
        let name = job.row.name.clone();
        let sent = ask(&shared, move |w| w.send(&name, document)).await?;
        let viewer = viewer(&shared, &session);
        Ok(view::sent(&viewer, &job, &sent).into_response())
    };
    answer(&shared, done.await)
}

/// A code that begins a session on another device.
pub(crate) async fn pair(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Form(fields): Form<Fields>,
) -> Response {
    let done = check_token(&session, field(&fields, "token")).and_then(|()| {
        if shared.hosts.proxied().is_empty() {
            return Err(Failure::NotFound);
        }
        let code = shared.sessions().invite_device(std::time::Instant::now());
        let code = code.map_err(|e| Failure::Said(e.to_string().into()))?;
        let viewer = viewer(&shared, &session);
        Ok(view::pair(&viewer, &code, shared.hosts.proxied()).into_response())
    });
    answer(&shared, done)
}

/// Value of a field that is filled in.
fn filled(fields: &Fields, name: &str) -> Option<String> {
    Some(field(fields, name).to_owned()).filter(|v| !v.is_empty())
}

/// The person who does it.
fn person(fields: &Fields) -> Result<Who, Failure> {
    match field(fields, "by") {
        "" => Err(Failure::Said(Message::new("name-missing"))),
        name => Ok(Who {
            name: name.into(),
            pin: field(fields, "pin").into(),
        }),
    }
}
