//! Begin of a session.

use crate::lock::Refusal;
use crate::routes::{Fields, field};
use crate::server::Shared;
use crate::view::refused;
use axum::Form;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Response};
use std::sync::Arc;
use std::time::Instant;

pub(crate) async fn enter(
    State(shared): State<Arc<Shared>>,
    headers: HeaderMap,
    Form(fields): Form<Fields>,
) -> Response {
    let host = headers.get(header::HOST).and_then(|h| h.to_str().ok());
    let secure = match shared.hosts.is_proxied(host.unwrap_or_default()) {
        true => "; Secure",
        false => "",
    };
    let mut sessions = shared.sessions();
    let value = sessions.enter(field(&fields, "secret"), Instant::now());
    match value {
        Ok(Some(value)) => {
            let cookie = format!(
                "{}={value}; HttpOnly; SameSite=Strict; Path=/{secure}",
                sessions.cookie
            );
            // A page that sends on by itself: after a redirect of a request from a file the browser keeps a Strict
            // cookie back.
            let page = crate::view::entered(&shared.words);
            ([(header::SET_COOKIE, cookie)], page).into_response()
        }
        _ => {
            let page = refused(&shared.words, Refusal::Session, &shared.hosts);
            (StatusCode::UNAUTHORIZED, page).into_response()
        }
    }
}
