//! The queue: jobs wait in it, are claimed for a time, done, failed, tried again.

use crate::{Database, FleetError};
use sqlx::postgres::types::PgInterval;
use sqlx::{FromRow, query, query_as, query_scalar};
use std::time::Duration;

/// Attempts after which a job is given up.
pub(crate) const ATTEMPTS: i32 = 5;

/// A job that was handed to this worker for some time.
#[derive(Debug, Clone, PartialEq, Eq, FromRow)]
pub struct Claim {
    /// Shop that the job belongs to.
    pub shop: String,
    /// Name of the job.
    #[sqlx(rename = "name")]
    pub job: String,
    /// Digest of the files that it is to be done with.
    pub inputs: String,
    /// Fencing token: grows with each claim of the job.
    pub token: i64,
    /// Number of claims since its files last changed, this one included.
    pub attempts: i32,
}

/// Number of jobs in a state.
#[derive(Debug, Clone, PartialEq, FromRow)]
pub struct QueueFigures {
    /// State: `waiting`, `running`, `failed`.
    pub state: String,
    /// Number of jobs.
    pub jobs: i64,
    /// Age of the oldest one, s.
    pub oldest_s: Option<f64>,
}

/// Another try of a job that was given back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Again {
    /// None: it fails.
    Never,
    /// One after a pause, until its attempts are used up.
    After(Duration),
    /// One after a pause, for a reason that is not the job's: it counts as no attempt.
    Uncounted(Duration),
}

fn interval(time: Duration) -> PgInterval {
    PgInterval {
        months: 0,
        days: 0,
        microseconds: i64::try_from(time.as_micros()).unwrap_or(i64::MAX),
    }
}

impl Database {
    /// Puts a job into the queue, or once more where its files have changed. False where it is known with these files.
    ///
    /// # Errors
    /// When the database cannot be reached, or the names are not allowed.
    pub async fn enqueue(&self, shop: &str, job: &str, inputs: &str) -> Result<bool, FleetError> {
        let added = query_scalar("SELECT enqueue($1, $2, $3)")
            .bind(shop)
            .bind(job)
            .bind(inputs)
            .fetch_one(&self.pool)
            .await?;
        Ok(added)
    }

    /// Claims at most so many jobs, for the time of the lease.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub async fn claim(
        &self,
        worker: &str,
        lease: Duration,
        most: u32,
    ) -> Result<Vec<Claim>, FleetError> {
        let claims = query_as("SELECT * FROM claim($1, $2, $3, $4)")
            .bind(worker)
            .bind(interval(lease))
            .bind(i32::try_from(most).unwrap_or(i32::MAX))
            .bind(ATTEMPTS)
            .fetch_all(&self.pool)
            .await?;
        Ok(claims)
    }

    /// Makes the lease of a claim last longer. False where the claim is no longer the newest: what is done for it counts
    /// as nothing.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub async fn renew(&self, claim: &Claim, lease: Duration) -> Result<bool, FleetError> {
        let change = query(
            "UPDATE job SET lease_until = clock_timestamp() + $4 \
             WHERE shop = $1 AND name = $2 AND token = $3 AND state = 'running'",
        )
        .bind(&claim.shop)
        .bind(&claim.job)
        .bind(claim.token)
        .bind(interval(lease));
        self.change(&claim.shop, change).await
    }

    /// Gives a claim back. False where it is no longer the newest.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub async fn give_back(
        &self,
        claim: &Claim,
        reason: &str,
        again: Again,
    ) -> Result<bool, FleetError> {
        let (is_tried, pause, uncounted) = match again {
            Again::Never => (false, Duration::ZERO, 0),
            Again::After(pause) => (claim.attempts < ATTEMPTS, pause, 0),
            Again::Uncounted(pause) => (true, pause, 1),
        };
        let change = query(
            "UPDATE job SET lease_until = NULL, worker = NULL, reason = $4, attempts = attempts - $8, \
             state = CASE WHEN $5 OR inputs <> $6 THEN 'waiting' ELSE 'failed' END, due = clock_timestamp() + $7 \
             WHERE shop = $1 AND name = $2 AND token = $3 AND state = 'running'",
        )
        .bind(&claim.shop)
        .bind(&claim.job)
        .bind(claim.token)
        .bind(reason)
        .bind(is_tried)
        .bind(&claim.inputs)
        .bind(interval(pause))
        .bind(uncounted);
        self.change(&claim.shop, change).await
    }

    /// Tries a failed job again, by a person's word. False where there is none of that name.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub async fn retry(&self, shop: &str, job: &str) -> Result<bool, FleetError> {
        let change = query(
            "UPDATE job SET state = 'waiting', attempts = 0, due = clock_timestamp() \
             WHERE shop = $1 AND name = $2 AND state = 'failed'",
        )
        .bind(shop)
        .bind(job);
        self.change(shop, change).await
    }

    /// Fails jobs whose workers ended again and again without a word. Returns their number.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub async fn give_up(&self) -> Result<i64, FleetError> {
        let lost = query_scalar("SELECT give_up($1)")
            .bind(ATTEMPTS)
            .fetch_one(&self.pool)
            .await?;
        Ok(lost)
    }

    /// Numbers of jobs by state, over all shops.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub async fn queue_figures(&self) -> Result<Vec<QueueFigures>, FleetError> {
        let figures = query_as("SELECT * FROM queue_figures()")
            .fetch_all(&self.pool)
            .await?;
        Ok(figures)
    }
}
