//! Changes of the jobs as server-sent events. One connection serves all tabs: a shared worker holds it.

use crate::server::Shared;
use axum::extract::State;
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::stream::{self, Stream};
use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

pub(crate) async fn events(
    State(shared): State<Arc<Shared>>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    // The present count comes at once: a page that was shown before compares it with its own.
    let state = (shared.changes.clone(), true);
    let events = stream::unfold(state, |(mut changes, is_first)| async move {
        if !is_first {
            changes.changed().await.ok()?;
            // Several changes in a row are one event.
            tokio::time::sleep(Duration::from_millis(200)).await;
        }
        let count = *changes.borrow_and_update();
        let event = Event::default().event("change").data(count.to_string());
        Some((Ok(event), (changes, false)))
    });
    Sse::new(events).keep_alive(KeepAlive::default())
}

/// Number of changes, for a browser without shared workers.
pub(crate) async fn changes(State(shared): State<Arc<Shared>>) -> String {
    shared.changes.borrow().to_string()
}
