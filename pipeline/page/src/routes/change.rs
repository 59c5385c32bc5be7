//! Commands of a person: answers, signatures, steps of lines of work, outcomes, mail.

use crate::answers::{FieldError, edit, errors_of, fields_of};
use crate::lock::Session;
use crate::routes::show::viewer;
use crate::routes::{
    Failure, Fields, Search, answer, ask, check_token, field, host_of, id, job_of_form, show,
};
use crate::server::Shared;
use crate::upload::plain_name;
use crate::view::{self, Refused};
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

/// Answers a form of a job's page. One that was refused is shown again: what was typed is kept, and the error stands
/// beside its field.
async fn answer_form(
    shared: &Arc<Shared>,
    session: &Session,
    id: String,
    (form, fields): (&'static str, &Fields),
    done: Result<Response, Failure>,
) -> Response {
    let (field, message) = match done {
        Err(Failure::Said(message)) => (field_of(&message), message),
        Err(Failure::Wrong(field, message)) => (field, message),
        other => return answer(shared, other),
    };
    let refused = Refused {
        form,
        fields,
        field,
        message: &message,
    };
    let page = show::read_job(shared, id).await.map(|job| {
        let page = view::job(&viewer(shared, session), &job, Some(&refused));
        (StatusCode::UNPROCESSABLE_ENTITY, page).into_response()
    });
    answer(shared, page)
}

/// Field of a form that a message is about; empty where it is about none.
fn field_of(message: &Message) -> &'static str {
    let Message::Known(key, _) = message else {
        return "";
    };
    match key.as_ref() {
        "pin-wrong" | "pin-locked" | "pin-none" => "pin",
        "person-unknown" | "person-not-allowed" => "by",
        "outcome-not-possible" => "cause",
        "wrong-hours" | "missing-hours" => "hours",
        "wrong-sum" => "up-to",
        _ => "",
    }
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
        if plain_name(&name).is_none() {
            return Err(Failure::Said(Message::with("wrong-job-name", "name", name)));
        }
        let made = name.clone();
        ask(&shared, move |w| {
            w.check_name(&made)?;
            w.drop_folder(&made)
        })
        .await?;
        Ok(back_to(&name, ""))
    };
    let message = match done.await {
        Err(Failure::Said(message)) => message,
        other => return answer(&shared, other),
    };
    let page = ask(&shared, |w| w.jobs()).await.map(|rows| {
        let refused = Refused {
            form: "new",
            fields: &fields,
            field: "name",
            message: &message,
        };
        let viewer = viewer(&shared, &session);
        let page = view::jobs(&viewer, &rows, &Search::default(), Some(&refused));
        (StatusCode::UNPROCESSABLE_ENTITY, page).into_response()
    });
    answer(&shared, page)
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
        let is_asked = |e: &FieldError| fields.iter().any(|(name, _)| *name == e.field);
        let edited = edit(&before.text, &fields_of(&fields));
        let (text, mut errors) = edited.map_err(|e| Failure::Said(e.into()))?;
        let wrong = shared.workshop.check_answers(&text);
        // A wrong line that the form does not ask is told, and keeps nobody from answering the rest.
        errors.extend(errors_of(&text, &wrong).into_iter().filter(is_asked));
        if !errors.is_empty() {
            let viewer = viewer(&shared, &session);
            let page = view::answers_again(&viewer, &job, &before, &fields, &errors);
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
        let job = job_of_form(&shared, &session, id.clone(), &fields).await?;
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
    let form = ("sign", &fields);
    let done = done.await;
    answer_form(&shared, &session, id, form, done).await
}

pub(crate) async fn lines(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Path(id): Path<String>,
    Form(fields): Form<Fields>,
) -> Response {
    let done = async {
        let job = job_of_form(&shared, &session, id.clone(), &fields).await?;
        let step = line_change(&fields)?;
        let by = person(&fields)?;
        let chosen = fields.iter().filter(|(name, _)| name == "line");
        let lines: Vec<String> = chosen.map(|(_, line)| line.clone()).collect();
        change(&shared, &job, "#lines", move |w, name| {
            w.record(name, &lines, &by, step)
        })
        .await
    };
    let form = ("lines", &fields);
    let done = done.await;
    answer_form(&shared, &session, id, form, done).await
}

fn line_change(fields: &Fields) -> Result<LineChange, Failure> {
    let how = field(fields, "how")
        .parse()
        .unwrap_or(ConsentMethod::Screen);
    let amount = |name: &'static str| match field(fields, name) {
        "" => Ok(None),
        // A decimal comma is one; thousands are not grouped.
        text => Decimal::from_str_exact(&text.replace(',', "."))
            .map(Some)
            .map_err(|_| Failure::Wrong(name, Message::with("wrong-number", "text", text))),
    };
    let customer = || match field(fields, "said-by") {
        "" => Err(Failure::Wrong("said-by", Message::new("customer-missing"))),
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
        let job = job_of_form(&shared, &session, id.clone(), &fields).await?;
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
    let form = ("outcome", &fields);
    let done = done.await;
    answer_form(&shared, &session, id, form, done).await
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
        "" => Err(Failure::Wrong("by", Message::new("name-missing"))),
        name => Ok(Who {
            name: name.into(),
            pin: field(fields, "pin").into(),
        }),
    }
}
