//! The end of a job: one transaction in which its results become real, or nothing does.

use crate::{Claim, Database, FleetError};
use model::labour::{HandedRow, WorkEvent};
use sqlx::types::Json;
use sqlx::{PgConnection, query, query_scalar};
use std::time::Duration;

/// A file of a report, as it lies in the store.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ObjectFact {
    /// Name: `report.pdf`.
    pub name: String,
    /// SHA-256 of its content, hexadecimal.
    pub sha256: String,
    /// Size, bytes.
    pub size: u64,
}

/// A report whose files lie in the store already.
#[derive(Debug, Clone, PartialEq)]
pub struct Report {
    /// Number of the revision.
    pub number: u32,
    /// The shop's number for the job; empty for none.
    pub job_number: String,
    /// Verdict, its sentence, what is asked for: as the shop's lists show it.
    pub facts: serde_json::Value,
    /// Its files.
    pub objects: Vec<ObjectFact>,
    /// Labour rows that it hands over.
    pub rows: Vec<HandedRow>,
    /// Events of lines that come with it: its offer.
    pub events: Vec<WorkEvent>,
}

/// Outcome of the transaction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FinishResult {
    /// The report is real.
    Kept,
    /// Another job has taken the shop's number meanwhile, so that its rows must not go out: nothing was kept.
    NumberTaken,
    /// The claim was no longer the newest, or another report came before: nothing was kept.
    Outdated,
}

/// Facts of the ledger that a job's next report is made with.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Known {
    /// Number of the newest revision; 0 for none.
    pub(crate) number: u32,
    /// Labour rows handed over, oldest first.
    pub(crate) handed: Vec<HandedRow>,
    /// Events of lines of work, oldest first.
    pub(crate) events: Vec<WorkEvent>,
}

/// Attempts to learn what became of a transaction whose answer was lost, and the pause between them.
const LOOKS: u32 = 20;
const LOOK_AGAIN: Duration = Duration::from_millis(500);

impl Database {
    /// Facts that a job's next report is made with.
    pub(crate) async fn known(&self, claim: &Claim) -> Result<Known, FleetError> {
        let mut t = self.of_shop(&claim.shop).await?;
        let number = newest_number(&mut t, claim).await?;
        let handed: Vec<Json<HandedRow>> =
            query_scalar("SELECT content FROM labour WHERE shop = $1 AND job = $2 ORDER BY id")
                .bind(&claim.shop)
                .bind(&claim.job)
                .fetch_all(&mut *t)
                .await?;
        let events: Vec<Json<WorkEvent>> = query_scalar(
            "SELECT content FROM event WHERE shop = $1 AND job = $2 AND kind = 'work' ORDER BY id",
        )
        .bind(&claim.shop)
        .bind(&claim.job)
        .fetch_all(&mut *t)
        .await?;
        t.commit().await?;
        Ok(Known {
            number,
            handed: handed.into_iter().map(|row| row.0).collect(),
            events: events.into_iter().map(|event| event.0).collect(),
        })
    }

    /// Other jobs of the shop with the same number of the shop's, by name.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub(crate) async fn number_conflicts(
        &self,
        claim: &Claim,
        number: &str,
    ) -> Result<Vec<String>, FleetError> {
        let mut t = self.of_shop(&claim.shop).await?;
        let others = others_with(&mut t, claim, number).await?;
        t.commit().await?;
        Ok(others)
    }

    /// Makes a report real, in one transaction, if the claim is still the newest.
    ///
    /// Where the answer to the commit is lost, it is asked for until the database tells what became of it.
    ///
    /// # Errors
    /// When the database cannot be reached: then the report may be real or not, and a later claim finds out.
    pub async fn finish(&self, claim: &Claim, report: &Report) -> Result<FinishResult, FleetError> {
        let lost = match self.try_finish(claim, report).await {
            Err(e) if e.is_transient() => e,
            finished => return finished,
        };
        for _ in 0..LOOKS {
            match self.is_kept(claim).await {
                Ok(true) => return Ok(FinishResult::Kept),
                // Not kept: the same once more changes nothing twice, for the token is checked again.
                Ok(false) => match self.try_finish(claim, report).await {
                    Err(e) if e.is_transient() => {}
                    finished => return finished,
                },
                Err(e) if e.is_transient() => {}
                Err(e) => return Err(e),
            }
            tokio::time::sleep(LOOK_AGAIN).await;
        }
        Err(lost)
    }

    async fn is_kept(&self, claim: &Claim) -> Result<bool, FleetError> {
        let mut t = self.of_shop(&claim.shop).await?;
        let kept = query_scalar(
            "SELECT EXISTS (SELECT 1 FROM revision WHERE shop = $1 AND job = $2 AND token = $3)",
        )
        .bind(&claim.shop)
        .bind(&claim.job)
        .bind(claim.token)
        .fetch_one(&mut *t)
        .await?;
        Ok(kept)
    }

    async fn try_finish(&self, claim: &Claim, report: &Report) -> Result<FinishResult, FleetError> {
        let mut t = self.of_shop(&claim.shop).await?;
        // Locks the row: who checks the token first, finishes first.
        let inputs: Option<String> = query_scalar(
            "SELECT inputs FROM job WHERE shop = $1 AND name = $2 AND token = $3 AND state = 'running' FOR UPDATE",
        )
        .bind(&claim.shop)
        .bind(&claim.job)
        .bind(claim.token)
        .fetch_optional(&mut *t)
        .await?;
        let Some(inputs) = inputs else {
            return Ok(FinishResult::Outdated);
        };
        if newest_number(&mut t, claim).await? + 1 != report.number {
            return Ok(FinishResult::Outdated);
        }
        if !report.rows.is_empty()
            && !others_with(&mut t, claim, &report.job_number)
                .await?
                .is_empty()
        {
            return Ok(FinishResult::NumberTaken);
        }
        write(&mut t, claim, report).await?;
        // Files that changed meanwhile are due again.
        let state = if inputs == claim.inputs {
            "done"
        } else {
            "waiting"
        };
        query(
            "UPDATE job SET state = $3, number = $4, lease_until = NULL, worker = NULL, reason = NULL, attempts = 0, \
             due = clock_timestamp() WHERE shop = $1 AND name = $2",
        )
        .bind(&claim.shop)
        .bind(&claim.job)
        .bind(state)
        .bind(number_key(&report.job_number))
        .execute(&mut *t)
        .await?;
        query("NOTIFY baybrief_done").execute(&mut *t).await?;
        t.commit().await?;
        Ok(FinishResult::Kept)
    }
}

/// Number of a job's newest report; 0 for none.
async fn newest_number(t: &mut PgConnection, claim: &Claim) -> Result<u32, FleetError> {
    let number: Option<i32> =
        query_scalar("SELECT MAX(number) FROM revision WHERE shop = $1 AND job = $2")
            .bind(&claim.shop)
            .bind(&claim.job)
            .fetch_one(t)
            .await?;
    Ok(number.and_then(|n| u32::try_from(n).ok()).unwrap_or(0))
}

/// A number as two people would write the same one.
fn number_key(number: &str) -> Option<String> {
    let key = number.trim().to_lowercase();
    (!key.is_empty()).then_some(key)
}

/// Other jobs of the shop with that number. Until the transaction ends, nobody else takes it.
async fn others_with(
    t: &mut PgConnection,
    claim: &Claim,
    number: &str,
) -> Result<Vec<String>, FleetError> {
    let Some(key) = number_key(number) else {
        return Ok(Vec::new());
    };
    query("SELECT pg_advisory_xact_lock(hashtextextended('number ' || $1 || ' ' || $2, 0))")
        .bind(&claim.shop)
        .bind(&key)
        .execute(&mut *t)
        .await?;
    let others = query_scalar(
        "SELECT name FROM job WHERE shop = $1 AND number = $2 AND name <> $3 ORDER BY name",
    )
    .bind(&claim.shop)
    .bind(&key)
    .bind(&claim.job)
    .fetch_all(&mut *t)
    .await?;
    Ok(others)
}

async fn write(t: &mut PgConnection, claim: &Claim, report: &Report) -> Result<(), FleetError> {
    let number = i32::try_from(report.number).unwrap_or(i32::MAX);
    query("INSERT INTO revision (shop, job, number, token, inputs, facts) VALUES ($1, $2, $3, $4, $5, $6)")
        .bind(&claim.shop)
        .bind(&claim.job)
        .bind(number)
        .bind(claim.token)
        .bind(&claim.inputs)
        .bind(&report.facts)
        .execute(&mut *t)
        .await?;
    for object in &report.objects {
        query("INSERT INTO object (shop, job, revision, name, sha256, size) VALUES ($1, $2, $3, $4, $5, $6)")
            .bind(&claim.shop)
            .bind(&claim.job)
            .bind(number)
            .bind(&object.name)
            .bind(&object.sha256)
            .bind(i64::try_from(object.size).unwrap_or(i64::MAX))
            .execute(&mut *t)
            .await?;
    }
    for event in &report.events {
        query("INSERT INTO event (shop, job, kind, content) VALUES ($1, $2, 'work', $3)")
            .bind(&claim.shop)
            .bind(&claim.job)
            .bind(Json(event))
            .execute(&mut *t)
            .await?;
    }
    for row in &report.rows {
        query(
            "INSERT INTO labour (shop, job, row_id, content) VALUES ($1, $2, $3, $4) \
             ON CONFLICT (shop, job, row_id) DO NOTHING",
        )
        .bind(&claim.shop)
        .bind(&claim.job)
        .bind(&row.row_id)
        .bind(Json(row))
        .execute(&mut *t)
        .await?;
    }
    Ok(())
}
