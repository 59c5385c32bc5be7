//! The ledger of one shop, in the database of all.

use crate::commit::{Facts, add_event, count_events, newest_signature};
use crate::{Database, FleetError};
use chrono::{DateTime, Utc};
use intake::{IntakeError, JobGroup, JobSource, JobState, JobView, Ledger, Revision, Signature};
use model::Outcome;
use model::labour::{HandedRow, WorkEvent};
use serde::de::DeserializeOwned;
use sqlx::types::Json;
use sqlx::{FromRow, PgConnection, query_as, query_scalar};
use std::collections::BTreeMap;
use tokio::runtime::Handle;

/// The ledger of one shop.
#[derive(Debug, Clone)]
pub(crate) struct ShopLedger {
    pub(crate) database: Database,
    pub(crate) shop: String,
    pub(crate) runtime: Handle,
}

/// A job with its newest report, as the view `newest` has it.
#[derive(FromRow)]
struct NewestRow {
    name: String,
    state: String,
    reason: Option<String>,
    queued: DateTime<Utc>,
    number: Option<i32>,
    publication: Option<String>,
    facts: Option<Json<Facts>>,
    made: Option<DateTime<Utc>>,
}

impl NewestRow {
    /// `None` where the job has no report yet.
    fn revision(&self, shop: &str) -> Option<Revision> {
        let facts = self.facts.as_ref()?.0.clone();
        Some(Revision {
            job: self.name.clone(),
            number: u32::try_from(self.number?).ok()?,
            token: self.publication.clone()?,
            job_number: facts.job_number,
            fingerprint: facts.fingerprint,
            outcome: facts.outcome,
            verdict: facts.verdict,
            sentence: facts.sentence,
            asks: facts.asks,
            set_aside: facts.set_aside,
            source: JobSource::Folder(["inbox", shop, &self.name].iter().collect()),
            shop: None,
            made: self.made?.into(),
            signature: facts.signature,
        })
    }

    fn view(self, shop: &str) -> JobView {
        let revision = self.revision(shop);
        let why = self.reason.unwrap_or_default();
        JobView {
            name: self.name,
            arrived: self.queued.into(),
            state: match self.state.as_str() {
                "waiting" => JobState::Waiting,
                "running" => JobState::Working,
                "failed" => JobState::Failed(why),
                _ => JobState::Done,
            },
            revision,
        }
    }
}

const NEWEST: &str = "SELECT name, state, reason, queued, number, publication, facts, made FROM newest WHERE shop = $1";

impl From<FleetError> for IntakeError {
    fn from(e: FleetError) -> Self {
        IntakeError::Shared {
            is_transient: e.is_transient(),
            why: e.into(),
        }
    }
}

impl ShopLedger {
    /// Does something in one transaction of the shop's.
    fn run<T>(
        &self,
        work: impl AsyncFnOnce(&mut PgConnection) -> Result<T, FleetError>,
    ) -> Result<T, IntakeError> {
        let done = self.runtime.block_on(async {
            let mut t = self.database.of_shop(&self.shop).await?;
            let value = work(&mut t).await?;
            t.commit().await?;
            Ok::<T, FleetError>(value)
        });
        Ok(done?)
    }

    /// Contents of the events of a kind, oldest first.
    fn events<T>(&self, job: &str, kind: &str) -> Result<Vec<T>, IntakeError>
    where
        T: DeserializeOwned + Send + Unpin + 'static,
    {
        self.run(async |t| {
            let events: Vec<Json<T>> = query_scalar(
                "SELECT content FROM event WHERE shop = $1 AND job = $2 AND kind = $3 ORDER BY id",
            )
            .bind(&self.shop)
            .bind(job)
            .bind(kind)
            .fetch_all(t)
            .await?;
            Ok(events.into_iter().map(|e| e.0).collect())
        })
    }

    /// Jobs of the view `newest` under a further condition with one parameter, in an order.
    async fn newest(
        &self,
        t: &mut PgConnection,
        rest: &'static str,
        parameter: &str,
    ) -> Result<Vec<NewestRow>, FleetError> {
        let sql = sqlx::AssertSqlSafe(format!("{NEWEST} {rest}"));
        let rows = query_as(sql).bind(&self.shop).bind(parameter);
        Ok(rows.fetch_all(t).await?)
    }
}

impl Ledger for ShopLedger {
    fn latest(&mut self, job: &str) -> Result<Option<Revision>, IntakeError> {
        Ok(self.job(job)?.and_then(|view| view.revision))
    }

    fn last_signature(&mut self, job: &str) -> Result<Option<Signature>, IntakeError> {
        self.run(async |t| newest_signature(t, &self.shop, job).await)
    }

    fn answers(&mut self, job: &str) -> Result<Option<String>, IntakeError> {
        self.run(async |t| {
            let answers: Option<Option<String>> =
                query_scalar("SELECT answers FROM job WHERE shop = $1 AND name = $2")
                    .bind(&self.shop)
                    .bind(job)
                    .fetch_optional(t)
                    .await?;
            Ok(answers.flatten())
        })
    }

    fn handed_rows(&mut self, job: &str) -> Result<Vec<HandedRow>, IntakeError> {
        self.run(async |t| {
            let rows: Vec<Json<HandedRow>> =
                query_scalar("SELECT content FROM labour WHERE shop = $1 AND job = $2 ORDER BY id")
                    .bind(&self.shop)
                    .bind(job)
                    .fetch_all(t)
                    .await?;
            Ok(rows.into_iter().map(|r| r.0).collect())
        })
    }

    fn work_events(&mut self, job: &str) -> Result<Vec<WorkEvent>, IntakeError> {
        self.events(job, "work")
    }

    fn record(
        &mut self,
        job: &str,
        event: &WorkEvent,
        events_known: usize,
    ) -> Result<bool, IntakeError> {
        self.run(async |t| {
            self.lock_job(t, job).await?;
            let is_current = count_events(t, &self.shop, job).await? == events_known;
            if is_current {
                add_event(t, &self.shop, job, "work", event).await?;
            }
            Ok(is_current)
        })
    }

    fn outcomes(&mut self, job: &str) -> Result<Vec<Outcome>, IntakeError> {
        self.events(job, "outcome")
    }

    fn all_outcomes(&mut self) -> Result<BTreeMap<String, Vec<Outcome>>, IntakeError> {
        let outcomes: Vec<(String, Json<Outcome>)> = self.run(async |t| {
            let rows = query_as(
                "SELECT job, content FROM event WHERE shop = $1 AND kind = 'outcome' ORDER BY id",
            )
            .bind(&self.shop)
            .fetch_all(t)
            .await?;
            Ok(rows)
        })?;
        let mut all: BTreeMap<String, Vec<Outcome>> = BTreeMap::new();
        for (job, outcome) in outcomes {
            all.entry(job).or_default().push(outcome.0);
        }
        Ok(all)
    }

    fn record_outcome(&mut self, job: &str, outcome: &Outcome) -> Result<(), IntakeError> {
        self.run(async |t| add_event(t, &self.shop, job, "outcome", outcome).await)
    }

    fn outcomes_owed(&mut self) -> Result<Vec<Revision>, IntakeError> {
        const OWED: &str = "AND facts->>'verdict' IN ('established', 'probable') AND NOT EXISTS (SELECT 1 FROM event e \
             WHERE e.shop = newest.shop AND e.job = newest.name AND e.kind = $2) ORDER BY made, name";
        self.run(async |t| {
            let rows = self.newest(t, OWED, "outcome").await?;
            Ok(rows.iter().filter_map(|r| r.revision(&self.shop)).collect())
        })
    }

    fn is_due_again(&mut self, job: &str, number: u32) -> Result<bool, IntakeError> {
        self.run(async |t| {
            let is_due: bool = query_scalar(
                "SELECT EXISTS (SELECT 1 FROM newest n JOIN job j USING (shop, name) WHERE n.shop = $1 AND n.name = $2 \
                 AND n.number = $3 AND j.state = 'waiting' AND j.repeats > 0)",
            )
            .bind(&self.shop)
            .bind(job)
            .bind(i32::try_from(number).unwrap_or(i32::MAX))
            .fetch_one(t)
            .await?;
            Ok(is_due)
        })
    }

    /// None: what lies in the inbox outside of a job's prefix belongs to nobody.
    fn refusals(&mut self) -> Result<Vec<String>, IntakeError> {
        Ok(Vec::new())
    }

    fn group_sizes(&mut self) -> Result<BTreeMap<JobGroup, u64>, IntakeError> {
        let sizes: Vec<(String, i64)> = self.run(async |t| {
            let sizes = query_as(
                "SELECT baybrief.job_group(state, review), count(*) FROM job WHERE shop = $1 GROUP BY 1",
            )
            .bind(&self.shop)
            .fetch_all(t)
            .await?;
            Ok(sizes)
        })?;
        let group = |name: &str| JobGroup::ALL.into_iter().find(|g| g.name() == name);
        let sizes = sizes.into_iter();
        Ok(sizes
            .filter_map(|(name, size)| Some((group(&name)?, size.unsigned_abs())))
            .collect())
    }

    fn job(&mut self, name: &str) -> Result<Option<JobView>, IntakeError> {
        self.run(async |t| {
            let mut rows = self.newest(t, "AND name = $2", name).await?;
            Ok(rows.pop().map(|row| row.view(&self.shop)))
        })
    }

    fn jobs_in(&mut self, group: JobGroup, limit: u32) -> Result<Vec<JobView>, IntakeError> {
        self.run(async |t| {
            let sql = sqlx::AssertSqlSafe(format!(
                "{NEWEST} AND job_group = $2 ORDER BY queued DESC, name LIMIT $3"
            ));
            let rows: Vec<NewestRow> = query_as(sql)
                .bind(&self.shop)
                .bind(group.name())
                .bind(i64::from(limit))
                .fetch_all(t)
                .await?;
            Ok(rows.into_iter().map(|r| r.view(&self.shop)).collect())
        })
    }
}

impl ShopLedger {
    /// Until the transaction ends, nobody else publishes or records anything of the job.
    async fn lock_job(&self, t: &mut PgConnection, job: &str) -> Result<(), FleetError> {
        sqlx::query("SELECT 1 FROM job WHERE shop = $1 AND name = $2 FOR UPDATE")
            .bind(&self.shop)
            .bind(job)
            .execute(t)
            .await?;
        Ok(())
    }

    /// Files of the newest edition of a report, by name, each with its digest.
    pub(crate) fn objects_of(
        &self,
        job: &str,
        number: u32,
    ) -> Result<Vec<(String, String)>, IntakeError> {
        self.run(async |t| {
            let objects = query_as(
                "SELECT name, sha256 FROM object WHERE shop = $1 AND job = $2 AND revision = $3 AND edition = \
                 (SELECT MAX(edition) FROM revision WHERE shop = $1 AND job = $2 AND number = $3) ORDER BY name",
            )
            .bind(&self.shop)
            .bind(job)
            .bind(i32::try_from(number).unwrap_or(i32::MAX))
            .fetch_all(t)
            .await?;
            Ok(objects)
        })
    }
}
