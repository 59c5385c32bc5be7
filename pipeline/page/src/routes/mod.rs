//! Addresses of the page.

mod assets;
mod change;
mod enter;
mod events;
mod show;

pub(crate) use show::Search;

use crate::Message;
use crate::lock::{Refusal, Session, is_token};
use crate::server::{Shared, guard};
use crate::upload;
use crate::view::{failed, refused};
use axum::Router;
use axum::http::{HeaderMap, StatusCode, header};
use axum::middleware::from_fn_with_state;
use axum::response::{IntoResponse, Response};
use axum::routing::{MethodRouter, get, post};
use sha2::{Digest, Sha256};
use std::sync::{Arc, PoisonError};

/// Address that takes the secret.
pub(crate) const ENTER: &str = "/enter";

/// Addresses, and what answers them; `{...}` stands for a part that varies.
fn routes() -> Vec<(&'static str, MethodRouter<Arc<Shared>>)> {
    vec![
        ("/", get(show::jobs)),
        (ENTER, post(enter::enter)),
        ("/events", get(events::events)),
        ("/news", get(events::news)),
        ("/assets/{name}", get(assets::asset)),
        ("/new", post(change::new_job)),
        ("/pair", post(change::pair)),
        ("/job/{id}", get(show::job)),
        ("/job/{id}/trace/{capture}", get(show::trace)),
        ("/job/{id}/data/{capture}/{trace}", get(show::data)),
        (
            "/job/{id}/compare/{capture}/{one}/{other}",
            get(show::compare),
        ),
        ("/job/{id}/file/{document}", get(show::document)),
        ("/job/{id}/photo/{file}", get(show::photo)),
        (
            "/job/{id}/answers",
            get(show::answers).post(change::answers),
        ),
        ("/job/{id}/sign", post(change::sign)),
        ("/job/{id}/lines", post(change::lines)),
        ("/job/{id}/outcome", post(change::outcome)),
        ("/job/{id}/send", post(change::send)),
        ("/job/{id}/add", post(upload::add)),
    ]
}

/// Every address that the page answers; `{...}` stands for a part that varies.
pub fn addresses() -> Vec<&'static str> {
    routes().into_iter().map(|(address, _)| address).collect()
}

pub(crate) fn router(shared: Arc<Shared>) -> Router {
    let mut router = Router::new();
    for (address, answer) in routes() {
        router = router.route(address, answer);
    }
    router
        .fallback(|| async { StatusCode::NOT_FOUND })
        .layer(from_fn_with_state(shared.clone(), guard))
        .with_state(shared)
}

/// Identifier of a job in addresses: names are never parts of them.
pub(crate) fn id(name: &str) -> String {
    let digest = Sha256::digest(name);
    digest[..8].iter().map(|b| format!("{b:02x}")).collect()
}

/// Name of the job with that identifier. Jobs are listed only for one that was not asked for before.
pub(crate) async fn job_name(shared: &Arc<Shared>, wanted: String) -> Result<String, Failure> {
    let names = || shared.names.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(known) = names().get(&wanted) {
        return Ok(known.clone());
    }
    let rows = ask(shared, |w| w.jobs()).await?;
    let mut names = names();
    names.extend(rows.into_iter().map(|r| (id(&r.name), r.name)));
    names.get(&wanted).cloned().ok_or(Failure::NotFound)
}

/// Asks the program on a thread that may wait.
pub(crate) async fn ask<T: Send + 'static>(
    shared: &Arc<Shared>,
    question: impl FnOnce(&dyn crate::Workshop) -> Result<T, Message> + Send + 'static,
) -> Result<T, Failure> {
    let workshop = shared.workshop.clone();
    let answer = tokio::task::spawn_blocking(move || question(&*workshop)).await;
    match answer {
        Ok(answer) => answer.map_err(Failure::Said),
        Err(e) => Err(Failure::Said(e.to_string().into())),
    }
}

/// Reason why a request came to nothing.
#[derive(Debug)]
pub(crate) enum Failure {
    NotFound,
    /// The form belongs to another session.
    Token,
    /// A message for the person.
    Said(Message),
    /// A message about a field of the form.
    Wrong(&'static str, Message),
}

/// A failure in the words of the page.
pub(crate) fn answer(shared: &Shared, result: Result<Response, Failure>) -> Response {
    match result {
        Ok(response) => response,
        Err(Failure::NotFound) => {
            let page = failed(&shared.words, &Message::new("not-found"));
            (StatusCode::NOT_FOUND, page).into_response()
        }
        Err(Failure::Token) => {
            let page = refused(&shared.words, Refusal::Token, &shared.hosts, "");
            (StatusCode::FORBIDDEN, page).into_response()
        }
        Err(Failure::Said(message) | Failure::Wrong(_, message)) => {
            let page = failed(&shared.words, &message);
            (StatusCode::UNPROCESSABLE_ENTITY, page).into_response()
        }
    }
}

/// Value of the header Host; empty where there is none.
pub(crate) fn host_of(headers: &HeaderMap) -> &str {
    let host = headers.get(header::HOST).and_then(|h| h.to_str().ok());
    host.unwrap_or_default()
}

/// Fields of a form, in its order.
pub(crate) type Fields = Vec<(String, String)>;

/// Value of a field, without blanks around it; empty where it is not there.
pub(crate) fn field<'f>(fields: &'f Fields, name: &str) -> &'f str {
    let found = fields.iter().find(|(n, _)| n == name);
    found.map_or("", |(_, value)| value.trim())
}

/// Checks that a form is one of the session.
pub(crate) fn check_token(session: &Session, given: &str) -> Result<(), Failure> {
    match is_token(&session.form_token, given) {
        true => Ok(()),
        false => Err(Failure::Token),
    }
}

/// The job that a form of the session is about.
pub(crate) async fn job_of_form(
    shared: &Arc<Shared>,
    session: &Session,
    id: String,
    fields: &Fields,
) -> Result<crate::Job, Failure> {
    check_token(session, field(fields, "token"))?;
    show::read_job(shared, id).await
}
