//! Being woken by what is queued. A notification is a hint that may get lost: the poll decides.

use crate::Database;
use sqlx::postgres::PgListener;
use std::time::Duration;

/// Channel on which whatever makes a job wait says so.
pub(crate) const QUEUE: &str = "baybrief_queue";

/// An ear for the queue, open only while there is nothing to do: whoever works looks again by itself afterwards.
#[derive(Debug, Default)]
pub(crate) struct Wake {
    listener: Option<PgListener>,
}

impl Wake {
    /// Begins to listen. True where it did not before: what was queued until now was not heard.
    pub(crate) async fn begin(&mut self, database: &Database) -> bool {
        if self.listener.is_some() {
            return false;
        }
        // Without it, polling alone decides.
        let listening = async {
            let mut listener = PgListener::connect_with(&database.pool).await?;
            listener.listen(QUEUE).await?;
            Ok::<_, sqlx::Error>(listener)
        };
        self.listener = listening.await.ok();
        self.listener.is_some()
    }

    /// Stops listening.
    pub(crate) fn end(&mut self) {
        self.listener = None;
    }

    /// Waits until something is queued, for as long as the poll at most.
    pub(crate) async fn wait(&mut self, poll: Duration) {
        let heard = async {
            match &mut self.listener {
                Some(listener) => listener.try_recv().await.map(drop),
                None => std::future::pending().await,
            }
        };
        if let Ok(Err(_)) = tokio::time::timeout(poll, heard).await {
            // A connection that broke is opened again at the next look, not in a hurry.
            self.end();
            tokio::time::sleep(poll).await;
        }
    }
}
