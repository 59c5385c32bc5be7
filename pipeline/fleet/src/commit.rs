//! A publication: one transaction in which results become real, or nothing does.

use crate::{Claim, Database, FleetError};
use intake::{JobGroup, JobState, Revision, RevisionCommit, Signature};
use model::labour::{HandedRow, OrderTexts};
use serde::{Deserialize, Serialize};
use sqlx::types::Json;
use sqlx::{PgConnection, query, query_as, query_scalar};
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

/// Facts of a revision that have no column of their own; see [`Revision`].
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Facts {
    pub(crate) job_number: String,
    pub(crate) fingerprint: String,
    pub(crate) outcome: String,
    pub(crate) verdict: String,
    pub(crate) sentence: String,
    pub(crate) asks: Vec<String>,
    pub(crate) set_aside: usize,
    pub(crate) signature: Option<Signature>,
    pub(crate) texts: Option<OrderTexts>,
}

impl Facts {
    fn new(revision: &Revision, texts: Option<&OrderTexts>) -> Facts {
        Facts {
            job_number: revision.job_number.clone(),
            fingerprint: revision.fingerprint.clone(),
            outcome: revision.outcome.clone(),
            verdict: revision.verdict.clone(),
            sentence: revision.sentence.clone(),
            asks: revision.asks.clone(),
            set_aside: revision.set_aside,
            signature: revision.signature.clone(),
            texts: texts.cloned(),
        }
    }
}

/// Outcome of a publication.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CommitResult {
    /// The report is real, by this call or by an earlier one of the same publication.
    Published,
    /// The claim that it was made under is no longer the newest: nothing was kept.
    Outdated,
    /// Another report came before, or something was recorded of the job's lines: nothing was kept.
    Changed,
    /// Another job has taken the shop's number, so that the rows must not go out: nothing was kept.
    NumberTaken,
}

/// Attempts to learn what became of a transaction whose answer was lost, and the pause between them.
const LOOKS: u32 = 20;
const LOOK_AGAIN: Duration = Duration::from_millis(500);

/// Times that a job is done once more with the same files because a check did not run.
const REPEATS: i32 = 3;

impl Database {
    /// Makes a report real whose files lie in the store already, if nothing has changed since it was made: the claim, where
    /// it was made under one, the newest report and the events of the job. `gone`: other jobs with the same number that
    /// claim nothing any more.
    ///
    /// Where the answer to the commit is lost, it is asked for until the database tells what became of it.
    ///
    /// # Errors
    /// When the database cannot be reached: then the report may be real or not, and the same call finds out.
    pub async fn commit(
        &self,
        shop: &str,
        claim: Option<&Claim>,
        commit: &RevisionCommit<'_>,
        objects: &[ObjectFact],
        gone: &[String],
    ) -> Result<CommitResult, FleetError> {
        let publication = Publication {
            shop,
            claim,
            commit,
            objects,
            gone,
        };
        let mut looks = 0;
        loop {
            match publication.run(self).await {
                // The same once more changes nothing twice: it is known by its token.
                Err(e) if e.is_transient() && looks < LOOKS => looks += 1,
                result => return result,
            }
            tokio::time::sleep(LOOK_AGAIN).await;
        }
    }

    /// Other jobs of the shop with the same number of the shop's, by name, each with whether something of it was handed
    /// over, signed, authorised or done.
    pub(crate) async fn number_claims(
        &self,
        shop: &str,
        number: &str,
        job: &str,
    ) -> Result<Vec<(String, bool)>, FleetError> {
        let mut t = self.of_shop(shop).await?;
        let claims = claims_of(&mut t, shop, number, job).await?;
        t.commit().await?;
        Ok(claims)
    }
}

/// A publication under way.
struct Publication<'a> {
    shop: &'a str,
    claim: Option<&'a Claim>,
    commit: &'a RevisionCommit<'a>,
    objects: &'a [ObjectFact],
    gone: &'a [String],
}

impl Publication<'_> {
    async fn run(&self, database: &Database) -> Result<CommitResult, FleetError> {
        let (shop, revision) = (self.shop, self.commit.revision);
        let job = revision.job.as_str();
        let mut t = database.of_shop(shop).await?;
        // Locks the row: who checks first, publishes first.
        let row: Option<(String, String, i64)> = query_as(
            "SELECT inputs, state, token FROM job WHERE shop = $1 AND name = $2 FOR UPDATE",
        )
        .bind(shop)
        .bind(job)
        .fetch_optional(&mut *t)
        .await?;
        let Some((inputs, state, token)) = row else {
            return Ok(CommitResult::Changed);
        };
        // A statement of its own: that of the lock sees what there was before it waited.
        let (is_published, newest): (bool, Option<String>) = query_as(
            "SELECT EXISTS (SELECT 1 FROM revision WHERE shop = $1 AND job = $2 AND publication = $3), \
             (SELECT publication FROM revision WHERE shop = $1 AND job = $2 ORDER BY number DESC, edition DESC LIMIT 1)",
        )
        .bind(shop)
        .bind(job)
        .bind(&revision.token)
        .fetch_one(&mut *t)
        .await?;
        if is_published {
            return Ok(CommitResult::Published);
        }
        let is_outdated = |c: &Claim| c.token != token || state != "running";
        if self.claim.is_some_and(is_outdated) {
            return Ok(CommitResult::Outdated);
        }
        let is_current = newest.as_deref() == self.commit.base
            && count_events(&mut t, shop, job).await? == self.commit.events_known;
        if !is_current {
            return Ok(CommitResult::Changed);
        }
        if !self.commit.rows.is_empty() {
            lock_number(&mut t, shop, &revision.job_number).await?;
            let claims = claims_of(&mut t, shop, &revision.job_number, job).await?;
            if claims
                .iter()
                .any(|(other, is_binding)| *is_binding || !self.gone.contains(other))
            {
                return Ok(CommitResult::NumberTaken);
            }
        }
        self.write(&mut t).await?;
        self.note(&mut t, &inputs).await?;
        t.commit().await?;
        Ok(CommitResult::Published)
    }

    async fn write(&self, t: &mut PgConnection) -> Result<(), FleetError> {
        let (shop, commit) = (self.shop, self.commit);
        let revision = commit.revision;
        let job = revision.job.as_str();
        let number = i32::try_from(revision.number).unwrap_or(i32::MAX);
        let edition: i32 = query_scalar(
            "INSERT INTO revision (shop, job, number, edition, publication, token, inputs, facts) \
             SELECT $1, $2, $3, COALESCE(MAX(edition), 0) + 1, $4, $5, $6, $7 FROM revision \
             WHERE shop = $1 AND job = $2 AND number = $3 RETURNING edition",
        )
        .bind(shop)
        .bind(job)
        .bind(number)
        .bind(&revision.token)
        .bind(self.claim.map(|c| c.token))
        .bind(self.claim.map_or("", |c| &c.inputs))
        .bind(Json(Facts::new(revision, commit.texts)))
        .fetch_one(&mut *t)
        .await?;
        let objects = self.objects.iter();
        let (names, digests): (Vec<&str>, Vec<&str>) = objects
            .map(|o| (o.name.as_str(), o.sha256.as_str()))
            .unzip();
        let sizes = self.objects.iter();
        let sizes: Vec<i64> = sizes
            .map(|o| i64::try_from(o.size).unwrap_or(i64::MAX))
            .collect();
        query(
            "INSERT INTO object (shop, job, revision, edition, name, sha256, size) \
             SELECT $1, $2, $3, $4, name, sha256, size FROM UNNEST($5, $6, $7) AS o (name, sha256, size)",
        )
        .bind(shop)
        .bind(job)
        .bind(number)
        .bind(edition)
        .bind(names)
        .bind(digests)
        .bind(sizes)
        .execute(&mut *t)
        .await?;
        for event in commit.events {
            add_event(t, shop, job, "work", event).await?;
        }
        if let Some(signature) = &revision.signature
            && newest_signature(t, shop, job).await?.as_ref() != Some(signature)
        {
            add_event(t, shop, job, "signature", signature).await?;
        }
        if commit.rows.is_empty() {
            return Ok(());
        }
        let (ids, rows): (Vec<&str>, Vec<Json<&HandedRow>>) = commit
            .rows
            .iter()
            .map(|row| (row.row_id.as_str(), Json(row)))
            .unzip();
        query(
            "INSERT INTO labour (shop, job, row_id, content, edition) \
             SELECT $1, $2, row_id, content, $3 FROM UNNEST($4, $5) WITH ORDINALITY AS r (row_id, content, place) \
             ORDER BY place ON CONFLICT (shop, job, row_id) DO NOTHING",
        )
        .bind(shop)
        .bind(job)
        .bind(edition)
        .bind(ids)
        .bind(rows)
        .execute(t)
        .await?;
        Ok(())
    }

    /// Brings the job's own row up to date: of a claim also its place in the queue.
    async fn note(&self, t: &mut PgConnection, inputs: &str) -> Result<(), FleetError> {
        let (commit, revision) = (self.commit, self.commit.revision);
        // Files that changed since the claim are due again.
        let is_done = self.claim.map(|claim| inputs == claim.inputs);
        let sql = match is_done {
            Some(_) => {
                "UPDATE job SET number = $3, answers = COALESCE($4, answers), review = $5, \
                 state = CASE WHEN $6 THEN 'done' ELSE 'waiting' END, lease_until = NULL, worker = NULL, reason = NULL, \
                 attempts = 0, due = clock_timestamp() WHERE shop = $1 AND name = $2"
            }
            None => {
                "UPDATE job SET number = $3, answers = COALESCE($4, answers), review = $5 WHERE shop = $1 AND name = $2"
            }
        };
        let change = query(sql)
            .bind(self.shop)
            .bind(&revision.job)
            .bind(number_key(&revision.job_number))
            .bind(commit.answers)
            .bind(JobGroup::new(&JobState::Done, Some(revision)).name());
        let change = match is_done {
            Some(is_done) => change.bind(is_done),
            None => change,
        };
        change.execute(&mut *t).await?;
        let told = is_done.map(|done| match done {
            true => "NOTIFY baybrief_done",
            false => "NOTIFY baybrief_queue",
        });
        if let Some(told) = told {
            query(told).execute(&mut *t).await?;
        }
        if commit.is_due_again {
            query(
                "UPDATE job SET state = 'waiting', reason = 'a check did not run', repeats = repeats + 1, \
                 due = clock_timestamp() + interval '1 minute' * power(4, repeats) \
                 WHERE shop = $1 AND name = $2 AND state = 'done' AND repeats < $3",
            )
            .bind(self.shop)
            .bind(&revision.job)
            .bind(REPEATS)
            .execute(&mut *t)
            .await?;
        }
        Ok(())
    }
}

/// Adds an event to a job.
pub(crate) async fn add_event(
    t: &mut PgConnection,
    shop: &str,
    job: &str,
    kind: &str,
    content: &(impl Serialize + Sync),
) -> Result<(), FleetError> {
    query("INSERT INTO event (shop, job, kind, content) VALUES ($1, $2, $3, $4)")
        .bind(shop)
        .bind(job)
        .bind(kind)
        .bind(Json(content))
        .execute(t)
        .await?;
    Ok(())
}

/// Number of events of a job's lines of work.
pub(crate) async fn count_events(
    t: &mut PgConnection,
    shop: &str,
    job: &str,
) -> Result<usize, FleetError> {
    let count: i64 =
        query_scalar("SELECT count(*) FROM event WHERE shop = $1 AND job = $2 AND kind = 'work'")
            .bind(shop)
            .bind(job)
            .fetch_one(t)
            .await?;
    Ok(usize::try_from(count).unwrap_or_default())
}

/// The newest signature under any report of a job.
pub(crate) async fn newest_signature(
    t: &mut PgConnection,
    shop: &str,
    job: &str,
) -> Result<Option<Signature>, FleetError> {
    let content: Option<Json<Signature>> = query_scalar(
        "SELECT content FROM event WHERE shop = $1 AND job = $2 AND kind = 'signature' ORDER BY id DESC LIMIT 1",
    )
    .bind(shop)
    .bind(job)
    .fetch_optional(t)
    .await?;
    Ok(content.map(|c| c.0))
}

/// A number as two people would write the same one.
fn number_key(number: &str) -> Option<String> {
    let key = number.trim().to_lowercase();
    (!key.is_empty()).then_some(key)
}

/// Until the transaction ends, nobody else of the shop publishes rows under that number.
async fn lock_number(t: &mut PgConnection, shop: &str, number: &str) -> Result<(), FleetError> {
    query("SELECT pg_advisory_xact_lock(hashtextextended('number ' || $1 || ' ' || $2, 0))")
        .bind(shop)
        .bind(number_key(number))
        .execute(t)
        .await?;
    Ok(())
}

async fn claims_of(
    t: &mut PgConnection,
    shop: &str,
    number: &str,
    job: &str,
) -> Result<Vec<(String, bool)>, FleetError> {
    let claims = query_as(
        "SELECT name, EXISTS (SELECT 1 FROM labour WHERE shop = $1 AND job = j.name) \
         OR EXISTS (SELECT 1 FROM event WHERE shop = $1 AND job = j.name AND (kind = 'signature' \
         OR kind = 'work' AND content->>'action' <> 'offered')) \
         FROM job j WHERE shop = $1 AND number = $2 AND name <> $3 ORDER BY name",
    )
    .bind(shop)
    .bind(number_key(number))
    .bind(job)
    .fetch_all(t)
    .await?;
    Ok(claims)
}
