//! The ledger in an SQLite file.

mod rows;
mod writes;

use super::{FileFact, JobNote, JobView, Ledger, Made, Revision, Unwritten};
use crate::IntakeError;
use futures_executor::block_on;
use model::labour::HandedRow;
use rows::revision;
use sqlx::migrate::{Migration, MigrationType, Migrator};
use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqliteSynchronous};
use sqlx::{Connection, Row, SqlStr, SqliteConnection, Transaction, query};
use std::borrow::Cow;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The steps from an empty file to the present tables. Only ever added to.
const MIGRATIONS: [(i64, &str, &str); 1] = [(
    1,
    "jobs, revisions, files, steps, signatures, labour rows",
    include_str!("migrations/1-first.sql"),
)];

/// How long a call waits for another process that writes.
const BUSY: Duration = Duration::from_secs(30);

/// The ledger in an SQLite file with a write-ahead log.
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
    /// When it cannot be opened, is no ledger, or was written by a newer version of this program.
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

    /// One transaction: committed when all of it worked.
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
}

impl Ledger for SqliteLedger {
    fn note(&mut self, jobs: &[JobNote]) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| {
            for job in jobs {
                writes::job(t, job).await?;
            }
            Ok(())
        })
    }

    fn begin(&mut self) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| writes::rest(t, None).await)
    }

    fn leave(&mut self, jobs: &[String]) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| {
            for job in jobs {
                writes::rest(t, Some(job)).await?;
            }
            Ok(())
        })
    }

    fn latest(&mut self, job: &str) -> Result<Option<Revision>, IntakeError> {
        self.read(async |c| {
            let row = query("SELECT * FROM newest WHERE job_name = ?")
                .bind(job)
                .fetch_optional(c)
                .await?;
            row.as_ref().map_or(Ok(None), revision)
        })
    }

    fn files(&mut self, job: &str) -> Result<Vec<FileFact>, IntakeError> {
        self.read(async |c| {
            let rows = query(
                "SELECT path, size, modified, changed, blake3, problem FROM file WHERE job = ?1 AND revision = \
                 (SELECT MAX(number) FROM revision WHERE job = ?1) ORDER BY path",
            )
            .bind(job)
            .fetch_all(c)
            .await?;
            rows.iter().map(rows::file).collect()
        })
    }

    fn handed(&mut self, job: &str) -> Result<Vec<HandedRow>, IntakeError> {
        self.read(async |c| {
            let rows = query("SELECT content FROM labour WHERE job = ? ORDER BY id")
                .bind(job)
                .fetch_all(c)
                .await?;
            rows.iter().map(|r| rows::parsed(r, "content")).collect()
        })
    }

    fn commit(&mut self, made: &Made<'_>) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| {
            writes::job(t, &JobNote::done(made)).await?;
            writes::revision(t, made).await?;
            writes::files(t, made).await?;
            writes::rows(t, made).await?;
            let step = match made.revision.signature {
                Some(_) => "signed",
                None => "made",
            };
            writes::step(t, &made.revision.job, made.revision.number, step).await
        })
    }

    fn unplaced(&mut self) -> Result<Vec<(String, u32)>, IntakeError> {
        self.read(async |c| {
            let rows = query(
                "SELECT job, number FROM revision WHERE placed = 0 ORDER BY made, job, number",
            )
            .fetch_all(c)
            .await?;
            rows.iter()
                .map(|r| Ok((r.try_get("job")?, r.try_get("number")?)))
                .collect()
        })
    }

    fn placed(&mut self, job: &str, number: u32) -> Result<(), IntakeError> {
        self.all_or_nothing(async |t| {
            query("UPDATE revision SET placed = 1 WHERE job = ? AND number = ?")
                .bind(job)
                .bind(number)
                .execute(&mut **t)
                .await?;
            writes::step(t, job, number, "placed").await
        })
    }

    fn unwritten(&mut self) -> Result<Vec<Unwritten>, IntakeError> {
        self.read(async |c| {
            let rows = query(
                "SELECT job, revision, day, content FROM labour WHERE written = 0 ORDER BY id",
            )
            .fetch_all(c)
            .await?;
            rows.iter().map(rows::unwritten).collect()
        })
    }

    fn written(&mut self, rows: &[Unwritten]) -> Result<(), IntakeError> {
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

    fn overview(&mut self) -> Result<Vec<JobView>, IntakeError> {
        self.read(async |c| {
            let rows = query("SELECT * FROM newest ORDER BY job_name")
                .fetch_all(c)
                .await?;
            rows.iter().map(rows::job_view).collect()
        })
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
