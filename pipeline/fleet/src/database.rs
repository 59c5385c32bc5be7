//! The database: connections, roles, tables.

use crate::FleetError;
use sqlx::migrate::{Migration, MigrationType, Migrator};
use sqlx::postgres::{PgArguments, PgConnectOptions, PgPoolOptions};
use sqlx::query::Query;
use sqlx::{
    ConnectOptions, Connection, PgPool, Postgres, SqlStr, Transaction, query, query_scalar,
};
use std::borrow::Cow;
use std::str::FromStr;
use std::time::Duration;

/// Steps from nothing to the present tables. Only ever added to; each leaves the tables such that the version before
/// still works with them.
const MIGRATIONS: [(i64, &str, &str); 2] = [
    (
        1,
        "queue and ledger",
        include_str!("migrations/1-fleet.sql"),
    ),
    (
        2,
        "editions, technicians",
        include_str!("migrations/2-technicians.sql"),
    ),
];

/// Schema of all tables.
const SCHEMA: &str = "baybrief";

/// Time that a call waits for a free connection.
const ACQUIRE_TIMEOUT: Duration = Duration::from_secs(10);

/// Time for which a connection that lies idle is taken for good without asking the server.
const FRESH: Duration = Duration::from_secs(1);

/// Queue and ledger in PostgreSQL.
#[derive(Debug, Clone)]
pub struct Database {
    pub(crate) pool: PgPool,
}

fn options(url: &str) -> Result<PgConnectOptions, FleetError> {
    let options = PgConnectOptions::from_str(url).map_err(|_| FleetError::Address {
        // It may hold a password.
        address: url.split('@').next_back().unwrap_or_default().into(),
        why: "expected postgres://USER@HOST/DATABASE".into(),
    })?;
    Ok(options.options([("search_path", SCHEMA)]))
}

fn migrations() -> Migrator {
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
    Migrator {
        migrations: Cow::Owned(migrations.to_vec()),
        ..Migrator::DEFAULT
    }
}

impl Database {
    /// Brings the tables up to date, as their owner.
    ///
    /// # Errors
    /// When the database cannot be reached, the roles are missing, or a step fails; then nothing of the step is kept.
    pub async fn migrate(url: &str) -> Result<(), FleetError> {
        let mut connection = options(url)?.connect().await?;
        query("CREATE SCHEMA IF NOT EXISTS baybrief")
            .execute(&mut connection)
            .await?;
        migrations().run(&mut connection).await?;
        query("GRANT SELECT ON baybrief._sqlx_migrations TO baybrief_worker, baybrief_technician")
            .execute(&mut connection)
            .await?;
        connection.close().await?;
        Ok(())
    }

    /// Connects as a worker, with at most so many connections.
    ///
    /// # Errors
    /// When the database cannot be reached, the role would see every shop's rows, or the tables are of another version.
    pub async fn open(url: &str, connections: u32) -> Result<Database, FleetError> {
        let pool = PgPoolOptions::new()
            .max_connections(connections)
            .acquire_timeout(ACQUIRE_TIMEOUT)
            .test_before_acquire(false)
            .before_acquire(|connection, meta| {
                Box::pin(async move {
                    if meta.idle_for > FRESH {
                        connection.ping().await?;
                    }
                    Ok(true)
                })
            })
            .connect_with(options(url)?)
            .await?;
        let (role, sees_all): (String, bool) = sqlx::query_as(
            "SELECT rolname::text, rolsuper OR rolbypassrls FROM pg_roles WHERE rolname = current_user",
        )
        .fetch_one(&pool)
        .await?;
        if sees_all {
            return Err(FleetError::RoleSeesAll { role });
        }
        let known = MIGRATIONS[MIGRATIONS.len() - 1].0;
        let found = if query_scalar::<_, bool>(
            "SELECT to_regclass('baybrief._sqlx_migrations') IS NOT NULL",
        )
        .fetch_one(&pool)
        .await?
        {
            query_scalar::<_, Option<i64>>(
                "SELECT MAX(version) FROM _sqlx_migrations WHERE success",
            )
            .fetch_one(&pool)
            .await?
            .unwrap_or(0)
        } else {
            0
        };
        // The tables are brought up to date first; then old programs go on until they are replaced.
        if !(known..=known + 1).contains(&found) {
            return Err(FleetError::Version { found, known });
        }
        Ok(Database { pool })
    }

    /// Begins a transaction that sees one shop's rows alone.
    pub(crate) async fn of_shop(
        &self,
        shop: &str,
    ) -> Result<Transaction<'static, Postgres>, FleetError> {
        let mut transaction = self.pool.begin().await?;
        query("SELECT set_config('baybrief.shop', $1, true)")
            .bind(shop)
            .execute(&mut *transaction)
            .await?;
        Ok(transaction)
    }

    /// Makes one change in a transaction of a shop's own. True where it found its row.
    pub(crate) async fn change(
        &self,
        shop: &str,
        change: Query<'_, Postgres, PgArguments>,
    ) -> Result<bool, FleetError> {
        let mut t = self.of_shop(shop).await?;
        let changed = change.execute(&mut *t).await?;
        t.commit().await?;
        Ok(changed.rows_affected() == 1)
    }
}
