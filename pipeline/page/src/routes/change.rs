//! Commands of a person: answers, signatures, steps of lines of work.

use crate::answers::{edit, fields_of};
use crate::lock::Session;
use crate::routes::show::viewer;
use crate::routes::{Failure, Fields, answer, ask, check_token, field, id, job_of_form};
use crate::server::Shared;
use crate::view;
use crate::{LineChange, Seen};
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use axum::{Extension, Form};
use model::labour::{ConsentMethod, SumBasis, SumLimit};
use rust_decimal::Decimal;
use std::sync::Arc;

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
        let name = job.name.clone();
        let before = ask(&shared, move |w| w.answers(&name)).await?;
        let (text, mut errors) = edit(&before, &fields_of(&fields)).map_err(Failure::Said)?;
        errors.extend(shared.workshop.check_answers(&text));
        if !errors.is_empty() {
            // What was typed is kept, and each error stands beside its field.
            let viewer = viewer(&shared, &session);
            let page = view::answers_again(&viewer, &job, &fields, &errors);
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
        }
        let name = job.name.clone();
        ask(&shared, move |w| w.answer(&name, &text)).await?;
        Ok(back_to(&job.name, ""))
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
        let by = person(&shared, &fields)?;
        let revision = field(&fields, "revision").parse();
        let seen = Seen {
            revision: revision.map_err(|_| Failure::Token)?,
            digest: field(&fields, "digest").into(),
        };
        let note = Some(field(&fields, "note").to_owned()).filter(|n| !n.is_empty());
        let name = job.name.clone();
        ask(&shared, move |w| w.sign(&name, &seen, &by, note.as_deref())).await?;
        Ok(back_to(&job.name, "#documents"))
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
        let change = line_change(&shared, &fields)?;
        let recorded_by = person(&shared, &fields)?;
        let by = match field(&fields, "said-by") {
            "" => recorded_by,
            customer => customer.to_owned(),
        };
        let chosen = fields.iter().filter(|(name, _)| name == "line");
        let lines: Vec<String> = chosen.map(|(_, line)| line.clone()).collect();
        let name = job.name.clone();
        ask(&shared, move |w| w.record(&name, &lines, &by, change)).await?;
        Ok(back_to(&job.name, "#lines"))
    };
    answer(&shared, done.await)
}

fn line_change(shared: &Shared, fields: &Fields) -> Result<LineChange, Failure> {
    let how = ConsentMethod::ALL
        .into_iter()
        .find(|m| m.name() == field(fields, "how"))
        .unwrap_or(ConsentMethod::Screen);
    let amount = |name: &str| match field(fields, name) {
        "" => Ok(None),
        text => Decimal::from_str_exact(text)
            .map(Some)
            .map_err(|_| Failure::Said(shared.words.say_with("wrong-number", &[("text", text)]))),
    };
    Ok(match field(fields, "step") {
        "authorise" => {
            let basis = match field(fields, "basis") {
                "net" => SumBasis::Net,
                _ => SumBasis::Gross,
            };
            let limit = amount("up-to")?.map(|sum| SumLimit { sum, basis });
            LineChange::Authorise { how, limit }
        }
        "decline" => LineChange::Decline { how },
        "complete" => LineChange::Complete {
            hours: amount("hours")?,
        },
        _ => return Err(Failure::Token),
    })
}

/// Name of the person who does it.
fn person(shared: &Shared, fields: &Fields) -> Result<String, Failure> {
    match field(fields, "by") {
        "" => Err(Failure::Said(shared.words.say("name-missing"))),
        name => Ok(name.into()),
    }
}
