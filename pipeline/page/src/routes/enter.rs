//! Begin of a session: by the secret of the file that was opened, or by a code on another device.

use crate::lock::Refusal;
use crate::routes::{Fields, field, host_of};
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
    let host = host_of(&headers);
    let secure = match shared.hosts.is_proxied(host) {
        true => "; Secure",
        false => "",
    };
    let now = Instant::now();
    let mut sessions = shared.sessions();
    let value = match field(&fields, "code") {
        "" => sessions.enter(field(&fields, "secret"), now),
        code => {
            // A code is short: only the page's own form may try one.
            let origin = headers.get(header::ORIGIN).and_then(|o| o.to_str().ok());
            match shared.hosts.is_origin(origin.unwrap_or_default(), host) {
                true => sessions.enter_by_code(code, now),
                false => Ok(None),
            }
        }
    };
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
            let page = refused(&shared.words, Refusal::Session, &shared.hosts, host);
            (StatusCode::UNAUTHORIZED, page).into_response()
        }
    }
}
