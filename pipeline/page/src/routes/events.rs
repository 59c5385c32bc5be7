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
    let changes = shared.changes.clone();
    let events = stream::unfold(changes, |mut changes| async move {
        changes.changed().await.ok()?;
        let count = *changes.borrow_and_update();
        // Several changes in a row are one event.
        tokio::time::sleep(Duration::from_millis(200)).await;
        Some((
            Ok(Event::default().event("change").data(count.to_string())),
            changes,
        ))
    });
    Sse::new(events).keep_alive(KeepAlive::default())
}
