//! Work that one worker of many does at a time, because it costs as much as there is: looking through the inbox.

use crate::{Database, FleetError};
use sqlx::pool::PoolConnection;
use sqlx::{Connection, Postgres, query_scalar};

/// The lead over the other workers, for as long as a connection lives.
#[derive(Debug, Default)]
pub struct Lead {
    connection: Option<PoolConnection<Postgres>>,
}

impl Lead {
    /// Returns whether this worker led when it was asked last.
    pub fn is_held(&self) -> bool {
        self.connection.is_some()
    }

    /// Returns whether this worker leads; takes the lead where nobody has it. Two may believe so for a moment, after a
    /// connection was cut: what they do must be the same done twice.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub async fn is_taken(&mut self, database: &Database) -> Result<bool, FleetError> {
        if let Some(connection) = &mut self.connection {
            if connection.ping().await.is_ok() {
                return Ok(true);
            }
            self.connection = None;
        }
        let mut connection = database.pool.acquire().await?;
        let taken: bool = query_scalar("SELECT pg_try_advisory_lock(hashtextextended('lead', 0))")
            .fetch_one(&mut *connection)
            .await?;
        if taken {
            self.connection = Some(connection);
        }
        Ok(taken)
    }
}

impl Drop for Lead {
    /// A pool would keep the connection, and the lead with it.
    fn drop(&mut self) {
        if let Some(connection) = self.connection.take() {
            drop(connection.detach());
        }
    }
}
