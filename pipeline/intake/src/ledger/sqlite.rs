//! Ledger in an SQLite file.

mod rows;
mod writes;

use super::{
    FolderLedger, JobGroup, JobNote, JobView, Ledger, NumberClaim, PendingRow, Revision,
    RevisionCommit, Signature,
};
use crate::IntakeError;
use futures_executor::block_on;
use model::Outcome as JobOutcome;
use model::labour::{HandedRow, WorkEvent};
use rows::revision;
use serde::de::DeserializeOwned;
use sqlx::migrate::{Migration, MigrationType, Migrator};
use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqliteSynchronous};
use sqlx::{Connection, Row, SqlStr, SqliteConnection, Transaction, query};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Steps from an empty file to the present tables. Only ever added to.
const MIGRATIONS: [(i64, &str, &str); 3] = [
    (
        1,
        "jobs, revisions, files, steps, signatures, events of lines, labour rows",
        include_str!("migrations/1-ledger.sql"),
    ),
    (2, "outcomes", include_str!("migrations/2-outcomes.sql")),
    (
        3,
        "job files as they were last right, digests of stamps, entries of the inbox that belong to no job",
        include_str!("migrations/3-answers-refusals-stamps.sql"),
    ),
];

/// Time that a call waits for another process that writes.
const BUSY: Duration = Duration::from_secs(30);

/// Ledger in an SQLite file with a write-ahead log.
///
/// Other processes may read and write it at the same time. The log needs a file system of this machine: a folder
/// of results on a network share is not safe.
#[derive(Debug)]
pub struct SqliteLedger {
    path: PathBuf,
    connection: SqliteConnection,
}

type Outcome<T> = Result<T, sqlx::Error>;

impl SqliteLedger {
    /// Opens a ledger and brings its tables up to date. `create`: a missing one is made.
    ///
    /// # Errors
    /// When it cannot be opened, is no ledger, or was written by another version of this program.
    pub fn open(path: &Path, create: bool) -> Result<SqliteLedger, IntakeError> {
        let options = SqliteConnectOptions::new()
            .filename(path)
            .create_if_missing(create)
            .journal_mode(SqliteJournalMode::Wal)
            .synchronous(SqliteSynchronous::Full)
            .busy_timeout(BUSY)
            .foreign_keys(true);
        let migrations = MIGRATIONS.map(|(version, description, sql)| {
            let sql = SqlStr::from_static(sql);
            Migration::new(
                version,
                description.into(),
                MigrationType::Simple,
                sql,
                false,
            )
        });
        let migrator = Migrator {
            migrations: Cow::Owned(migrations.to_vec()),
            ..Migrator::DEFAULT
        };
        let opened = block_on(async {
            let mut connection = SqliteConnection::connect_with(&options).await?;
            migrator.run(&mut connection).await?;
            Ok(connection)
        });
        let connection = opened.map_err(|e: sqlx::Error| error(path, &e))?;
        Ok(SqliteLedger {
            path: path.to_path_buf(),
            connection,
        })
    }

    /// Runs one transaction: committed when all of it worked.
    fn all_or_nothing<T>(
        &mut self,
        work: impl AsyncFnOnce(&mut Transaction<'_, sqlx::Sqlite>) -> Outcome<T>,
    ) -> Result<T, IntakeError> {
        let done = block_on(async {
            // Taken for writing at once: a transaction that first reads could not wait for another writer.
            let mut transaction = self.connection.begin_with("BEGIN IMMEDIATE").await?;
            let value = work(&mut transaction).await?;
            transaction.commit().await?;
            Ok(value)
        });
        done.map_err(|e| error(&self.path, &e))
    }

    fn read<T>(
        &mut self,
        work: impl AsyncFnOnce(&mut SqliteConnection) -> Outcome<T>,
    ) -> Result<T, IntakeError> {
        block_on(work(&mut self.connection)).map_err(|e| error(&self.path, &e))
    }

    /// Contents that a query finds of a job.
    fn contents<T: DeserializeOwned>(
        &mut self,
        sql: &'static str,
        job: &str,
    ) -> Result<Vec<T>, IntakeError> {
        self.read(async |c| {
            let rows = query(sql).bind(job).fetch_all(c).await?;
            rows.iter().map(|r| rows::parsed(r, "content")).collect()
        })
    }
}

impl Ledger for SqliteLedger {
    fn latest(&mut self, job: &str) -> Result<Option<Revision>, IntakeError> {
        self.read(async |c| {
            let row = query("SELECT * FROM newest WHERE job_name = ?")
                .bind(job)
                .fetch_optional(c)
                .await?;
            row.as_ref().map_or(Ok(None), revision)
        })
    }

    fn last_signature(&mut self, job: &str) -> Result<Option<Signature>, IntakeError> {
        self.read(async |c| {
            let row = query(
                "SELECT name AS signed_by, at AS signed_at, note AS signed_note FROM signature WHERE job = ? \
                 ORDER BY revision DESC LIMIT 1",
            )
            .bind(job)
            .fetch_optional(c)
            .await?;
            row.as_ref().map_or(Ok(None), rows::signature)
        })
    }

    fn answers(&mut self, job: &str) -> Result<Option<String>, IntakeError> {
        self.read(async |c| {
            let row = query("SELECT answers FROM job WHERE name = ?")
                .bind(job)
                .fetch_optional(c)
                .await?;
            row.map_or(Ok(None), |r| r.try_get("answers"))
        })
    }

    fn handed_rows(&mut self, job: &str) -> Result<Vec<HandedRow>, IntakeError> {
        self.contents("SELECT content FROM labour WHERE job = ? ORDER BY id", job)
    }

    fn work_events(&mut self, job: &str) -> Result<Vec<WorkEvent>, IntakeError> {
        self.contents(
            "SELECT content FROM work_event WHERE job = ? ORDER BY id",
            job,
        )
    }

    fn record(
        &mut self,
        job: &str,
        event: &WorkEvent,
        events_known: usize,
    ) -> Result<bool, IntakeError> {
        self.all_or_nothing(async |t| {
            let is_current = writes::event_count(t, job).await? == events_known;
            if is_current {
                writes::work_event(t, job, event).await?;
            }
            Ok(is_current)
        })
    }

    fn outcomes(&mut self, job: &str) -> Result<Vec<JobOutcome>, IntakeError> {
        self.contents("SELECT content FROM outcome WHERE job = ? ORDER BY id", job)
    }

    fn all_outcomes(&mut self) -> Result<BTreeMap<String, Vec<JobOutcome>>, IntakeError> {
        self.read(async |c| {
            let rows = query("SELECT job, content FROM outcome ORDER BY id")
                .fetch_all(c)
                .await?;
            let mut all: BTreeMap<String, Vec<JobOutcome>> = BTreeMap::new();
            for row in &rows {
                let job = all.entry(row.try_get("job")?).or_default();
                job.push(rows::parsed(row, "content")?);
            }
            Ok(all)
        })
    }

    fn record_outcome(&mut self, job: &str, outcome: &JobOutcome) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| writes::outcome(t, job, outcome).await)
    }

    fn outcomes_owed(&mut self) -> Result<Vec<Revision>, IntakeError> {
        self.read(async |c| {
            let rows = query(
                "SELECT * FROM newest WHERE verdict IN ('established', 'probable') \
                 AND NOT EXISTS (SELECT 1 FROM outcome WHERE job = job_name) ORDER BY made, job_name",
            )
            .fetch_all(c)
            .await?;
            let owed = rows.iter().map(revision);
            Ok(owed.collect::<Outcome<Vec<_>>>()?.into_iter().flatten().collect())
        })
    }

    fn is_due_again(&mut self, job: &str, number: u32) -> Result<bool, IntakeError> {
        self.read(async |c| {
            let found =
                query("SELECT 1 FROM step WHERE job = ? AND revision = ? AND step = 'due-again'")
                    .bind(job)
                    .bind(number)
                    .fetch_optional(c)
                    .await?;
            Ok(found.is_some())
        })
    }

    fn refusals(&mut self) -> Result<Vec<String>, IntakeError> {
        self.read(async |c| {
            let rows = query("SELECT text FROM refusal ORDER BY text")
                .fetch_all(c)
                .await?;
            rows.iter().map(|r| r.try_get("text")).collect()
        })
    }

    fn group_sizes(&mut self) -> Result<BTreeMap<JobGroup, u64>, IntakeError> {
        self.read(async |c| {
            let rows = query("SELECT job_group, COUNT(*) AS size FROM job GROUP BY job_group")
                .fetch_all(c)
                .await?;
            rows.iter().map(rows::group_size).collect()
        })
    }

    fn job(&mut self, name: &str) -> Result<Option<JobView>, IntakeError> {
        self.read(async |c| {
            let row = query("SELECT * FROM newest WHERE job_name = ?")
                .bind(name)
                .fetch_optional(c)
                .await?;
            row.as_ref().map(rows::job_view).transpose()
        })
    }

    fn jobs_in(&mut self, group: JobGroup, limit: u32) -> Result<Vec<JobView>, IntakeError> {
        self.read(async |c| {
            let rows = query(
                "SELECT * FROM newest WHERE job_group = ? ORDER BY arrived DESC, job_name LIMIT ?",
            )
            .bind(group.name())
            .bind(limit)
            .fetch_all(c)
            .await?;
            rows.iter().map(rows::job_view).collect()
        })
    }
}

impl FolderLedger for SqliteLedger {
    fn note(&mut self, jobs: &[JobNote]) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| {
            for job in jobs {
                writes::job(t, job).await?;
            }
            Ok(())
        })
    }

    fn begin(&mut self, has_crashed: bool) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| {
            if has_crashed {
                writes::count_crash(t).await?;
            }
            writes::release(t, None).await
        })
    }

    fn release(&mut self, jobs: &[String]) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| {
            for job in jobs {
                writes::release(t, Some(job)).await?;
            }
            Ok(())
        })
    }

    fn crashes(&mut self, job: &str, fingerprint: &str) -> Result<u32, IntakeError> {
        self.read(async |c| {
            let row = query("SELECT count FROM crash WHERE job = ? AND fingerprint = ?")
                .bind(job)
                .bind(fingerprint)
                .fetch_optional(c)
                .await?;
            row.map_or(Ok(0), |r| r.try_get("count"))
        })
    }

    fn stamps(&mut self, jobs: &[&str]) -> Result<BTreeMap<String, String>, IntakeError> {
        self.read(async |c| {
            let rows = query(
                "SELECT name, stamps FROM job WHERE stamps IS NOT NULL AND name IN (SELECT value FROM json_each(?))",
            )
            .bind(rows::json(&jobs)?)
            .fetch_all(c)
            .await?;
            rows.iter()
                .map(|r| Ok((r.try_get("name")?, r.try_get("stamps")?)))
                .collect()
        })
    }

    fn number_claims(&mut self, number: &str, job: &str) -> Result<Vec<NumberClaim>, IntakeError> {
        self.read(async |c| {
            let rows = query(
                "SELECT name, source, EXISTS (SELECT 1 FROM labour WHERE job = j.name) \
                 OR EXISTS (SELECT 1 FROM signature WHERE job = j.name) \
                 OR EXISTS (SELECT 1 FROM work_event WHERE job = j.name AND action <> 'offered') AS is_binding \
                 FROM job j WHERE number = ? AND name <> ? ORDER BY name",
            )
            .bind(writes::number_key(number))
            .bind(job)
            .fetch_all(c)
            .await?;
            rows.iter().map(rows::claim).collect()
        })
    }

    fn commit(&mut self, commit: &RevisionCommit<'_>) -> Result<bool, IntakeError> {
        self.all_or_nothing(async |t| {
            if !writes::is_current(t, commit).await? {
                return Ok(false);
            }
            writes::job(t, &commit.note()).await?;
            writes::revision(t, commit).await?;
            for event in commit.events {
                writes::work_event(t, &commit.revision.job, event).await?;
            }
            writes::rows(t, commit).await?;
            writes::known_files(t, commit).await?;
            writes::group(t, &commit.revision.job).await?;
            let step = match commit.revision.signature {
                Some(_) => "signed",
                None => "made",
            };
            let (job, number) = (&commit.revision.job, commit.revision.number);
            writes::step(t, job, number, step).await?;
            if commit.is_due_again {
                writes::forget_stamps(t, job).await?;
                writes::step(t, job, number, "due-again").await?;
            }
            Ok(true)
        })
    }

    fn pending_revisions(&mut self) -> Result<Vec<(String, u32)>, IntakeError> {
        self.read(async |c| {
            let rows = query(
                "SELECT job, number FROM revision WHERE published = 0 ORDER BY made, job, number",
            )
            .fetch_all(c)
            .await?;
            rows.iter()
                .map(|r| Ok((r.try_get("job")?, r.try_get("number")?)))
                .collect()
        })
    }

    fn mark_published(&mut self, job: &str, number: u32) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| {
            query("UPDATE revision SET published = 1 WHERE job = ? AND number = ?")
                .bind(job)
                .bind(number)
                .execute(&mut **t)
                .await?;
            writes::step(t, job, number, "published").await
        })
    }

    fn mark_lost(&mut self, job: &str, number: u32) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| {
            query(
                "UPDATE revision SET published = 1, fingerprint = '' WHERE job = ? AND number = ?",
            )
            .bind(job)
            .bind(number)
            .execute(&mut **t)
            .await?;
            // Without them the job is no longer known as it lies in the inbox.
            writes::forget_stamps(t, job).await?;
            writes::step(t, job, number, "lost").await
        })
    }

    fn pending_rows(&mut self) -> Result<Vec<PendingRow>, IntakeError> {
        self.read(async |c| {
            let rows = query(
                "SELECT l.job, l.content, r.texts FROM labour l JOIN revision r ON r.job = l.job \
                 AND r.number = l.revision WHERE l.written = 0 ORDER BY l.id",
            )
            .fetch_all(c)
            .await?;
            rows.iter().map(rows::pending_row).collect()
        })
    }

    fn mark_written(&mut self, rows: &[PendingRow]) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| {
            for row in rows {
                query("UPDATE labour SET written = 1 WHERE job = ? AND row_id = ?")
                    .bind(&row.job)
                    .bind(&row.row.row_id)
                    .execute(&mut **t)
                    .await?;
            }
            Ok(())
        })
    }

    fn note_refusals(&mut self, refusals: &[String]) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| writes::refusals(t, refusals).await)
    }
}

fn error(path: &Path, e: &sqlx::Error) -> IntakeError {
    let path = path.to_path_buf();
    let reason = e.to_string();
    match e {
        sqlx::Error::Database(_) | sqlx::Error::Io(_) if !is_damage(e) => {
            IntakeError::Ledger { path, reason }
        }
        _ => IntakeError::LedgerDamaged { path, reason },
    }
}

/// SQLITE_CORRUPT and SQLITE_NOTADB, as the SQLite documentation numbers its result codes.
fn is_damage(e: &sqlx::Error) -> bool {
    let code = e.as_database_error().and_then(|e| e.code());
    code.and_then(|c| c.parse::<i32>().ok())
        .is_some_and(|c| matches!(c & 0xFF, 11 | 26))
}
