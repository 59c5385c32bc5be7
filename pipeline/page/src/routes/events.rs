//! News of the jobs as server-sent events. One connection serves all tabs: a shared worker holds it.

use crate::server::{News, Shared};
use axum::extract::State;
use axum::response::IntoResponse;
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::stream::{self, Stream};
use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

pub(crate) async fn events(
    State(shared): State<Arc<Shared>>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    // The present news come at once: a page that was shown before compares them with its own.
    let state = (shared.news.clone(), true);
    let events = stream::unfold(state, |(mut news, is_first)| async move {
        if !is_first {
            news.changed().await.ok()?;
            // Several in a row are one event.
            tokio::time::sleep(Duration::from_millis(200)).await;
        }
        let text = text_of(&news.borrow_and_update());
        let event = Event::default().event("news").data(text);
        Some((Ok(event), (news, false)))
    });
    Sse::new(events).keep_alive(KeepAlive::default())
}

/// The same news, for a browser without shared workers.
pub(crate) async fn news(State(shared): State<Arc<Shared>>) -> impl IntoResponse {
    text_of(&shared.news.borrow())
}

/// News as JSON. Numbers and texts alone: they always serialise.
fn text_of(news: &News) -> String {
    serde_json::to_string(news).unwrap_or_default()
}
