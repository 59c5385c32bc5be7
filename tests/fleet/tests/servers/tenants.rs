//! One shop's rows and another's.

use crate::block_on;
use anyhow::{Result, ensure};
use baybrief_fleet_tests::histories::event;
use baybrief_fleet_tests::servers::Postgres;
use fleet::{Database, FleetError, Objects, ShopStore};
use intake::{JobGroup, Store};
use object_store::memory::InMemory;
use sqlx::postgres::PgPoolOptions;
use sqlx::{AssertSqlSafe, Executor, query, query_scalar};
use std::sync::Arc;

/// Tables with rows of shops.
const TABLES: [&str; 7] = [
    "shop", "job", "revision", "object", "event", "labour", "batch",
];

/// Fills every table with a row of each of two shops, as the superuser.
fn fill(postgres: &Postgres) -> Result<()> {
    for shop in ["north", "south"] {
        postgres.sql(
            "fleet",
            &format!(
                "SET search_path = baybrief; INSERT INTO shop VALUES ('{shop}'); \
                 INSERT INTO job (shop, name, state, inputs, turn, queued, due) VALUES ('{shop}', 'J', 'done', 'a', 1, now(), now()); \
                 INSERT INTO revision (shop, job, number, token, inputs, facts) VALUES ('{shop}', 'J', 1, 1, 'a', '{{}}'); \
                 INSERT INTO object (shop, job, revision, name, sha256, size) VALUES ('{shop}', 'J', 1, 'r', repeat('0', 64), 1); \
                 INSERT INTO event (shop, job, kind, content) VALUES ('{shop}', 'J', 'outcome', '{{}}'); \
                 INSERT INTO labour (shop, job, row_id, content) VALUES ('{shop}', 'J', '1', '{{}}'); \
                 INSERT INTO batch (shop, number) VALUES ('{shop}', 1);"
            ),
        )?;
    }
    Ok(())
}

pub fn isolation() -> Result<()> {
    let postgres = Postgres::start()?;
    fill(&postgres)?;
    block_on(async {
        // One connection, so that each transaction gets the one that another shop's had before.
        let pool = PgPoolOptions::new()
            .max_connections(1)
            .connect(&postgres.url("baybrief_worker"))
            .await?;
        let of = |table: &str| if table == "shop" { "id" } else { "shop" };
        for round in 0..3 {
            for shop in ["north", "south"] {
                let mut t = pool.begin().await?;
                query("SELECT set_config('baybrief.shop', $1, true)")
                    .bind(shop)
                    .execute(&mut *t)
                    .await?;
                for table in TABLES {
                    let sql = format!(
                        "SELECT string_agg({}, ',') FROM baybrief.{table}",
                        of(table)
                    );
                    let seen: Option<String> =
                        query_scalar(AssertSqlSafe(sql)).fetch_one(&mut *t).await?;
                    ensure!(
                        seen.as_deref() == Some(shop),
                        "{table} for {shop}, round {round}: {seen:?}"
                    );
                }
                // Every other one ends by an error, which must not leave the setting behind.
                if round % 2 == 0 {
                    t.commit().await?
                } else {
                    t.rollback().await?
                }
            }
            for table in TABLES {
                let sql = format!("SELECT count(*) FROM baybrief.{table}");
                let seen: i64 = query_scalar(AssertSqlSafe(sql)).fetch_one(&pool).await?;
                ensure!(seen == 0, "{table} without a shop: {seen} rows");
            }
        }
        // Nothing is written for another shop either, nor taken from it.
        for sql in [
            "INSERT INTO baybrief.event (shop, job, kind, content) VALUES ('south', 'J', 'work', '{}')",
            "INSERT INTO baybrief.batch (shop, number) VALUES ('south', 7)",
            "UPDATE baybrief.labour SET shop = 'south'",
        ] {
            let mut t = pool.begin().await?;
            query("SELECT set_config('baybrief.shop', 'north', true)")
                .execute(&mut *t)
                .await?;
            ensure!(t.execute(sql).await.is_err(), "{sql}");
        }
        let mut t = pool.begin().await?;
        query("SELECT set_config('baybrief.shop', 'north', true)")
            .execute(&mut *t)
            .await?;
        let taken = t
            .execute("UPDATE baybrief.labour SET batch = 9 WHERE shop = 'south'")
            .await?;
        ensure!(taken.rows_affected() == 0);
        drop(t);
        // What was said stays said.
        for sql in [
            "UPDATE baybrief.event SET kind = 'work'",
            "DELETE FROM baybrief.revision",
        ] {
            let mut t = pool.begin().await?;
            query("SELECT set_config('baybrief.shop', 'north', true)")
                .execute(&mut *t)
                .await?;
            ensure!(t.execute(sql).await.is_err(), "{sql}");
        }
        Ok(())
    })
}

pub fn technicians() -> Result<()> {
    let postgres = Postgres::start()?;
    fill(&postgres)?;
    postgres.sql(
        "fleet",
        "CREATE ROLE north LOGIN IN ROLE baybrief_technician; \
         CREATE ROLE nobody_s LOGIN IN ROLE baybrief_technician; \
         INSERT INTO baybrief.technician (login, shop) VALUES ('north', 'north')",
    )?;
    // The login decides, whatever shop is named.
    for (login, shop, sees) in [
        ("north", "north", true),
        ("north", "south", false),
        ("nobody_s", "north", false),
    ] {
        let runtime = tokio::runtime::Runtime::new()?;
        let database = runtime.block_on(Database::open(&postgres.url(login), 1))?;
        let objects = Objects::new(Arc::new(InMemory::new()));
        let mut store = ShopStore::new(database, objects, shop, runtime.handle().clone())?;
        let jobs = store.ledger().jobs_in(JobGroup::Draft, 10)?;
        ensure!(
            jobs.len() == usize::from(sees),
            "{login} in {shop}: {jobs:?}"
        );
        let revision = store.ledger().latest("J")?;
        ensure!(
            revision.is_some() == sees,
            "{login} in {shop}: {revision:?}"
        );
        let events = store.ledger().work_events("J").map_or(0, |e| e.len());
        let recorded = store.ledger().record("J", &event(), events);
        ensure!(
            matches!(recorded, Ok(true)) == sees,
            "{login} in {shop}: {recorded:?}"
        );
    }
    block_on(async {
        let pool = PgPoolOptions::new()
            .max_connections(1)
            .connect(&postgres.url("north"))
            .await?;
        let mut t = pool.begin().await?;
        query("SELECT set_config('baybrief.shop', 'south', true)")
            .execute(&mut *t)
            .await?;
        for table in TABLES {
            let sql = format!("SELECT count(*) FROM baybrief.{table}");
            let seen: i64 = query_scalar(AssertSqlSafe(sql)).fetch_one(&mut *t).await?;
            ensure!(seen == 0, "{table} of another shop: {seen} rows");
        }
        drop(t);
        // The queue of all shops is none of a technician's business.
        for sql in [
            "SELECT * FROM baybrief.claim('t', '1 minute', 1, 5)",
            "SELECT baybrief.enqueue('south', 'J', 'b')",
            "SELECT * FROM baybrief.queue_figures()",
            "INSERT INTO baybrief.technician VALUES ('north', 'south')",
            "UPDATE baybrief.labour SET batch = 1",
        ] {
            ensure!(pool.execute(sql).await.is_err(), "{sql}");
        }
        Ok(())
    })
}

pub fn roles() -> Result<()> {
    let postgres = Postgres::start()?;
    block_on(async {
        let superuser = Database::open(&postgres.url("postgres"), 1).await;
        ensure!(
            matches!(superuser, Err(FleetError::RoleSeesAll { .. })),
            "{superuser:?}"
        );
        postgres.sql(
            "fleet",
            "CREATE ROLE wide LOGIN BYPASSRLS; GRANT baybrief_worker TO wide",
        )?;
        let wide = Database::open(&postgres.url("wide"), 1).await;
        ensure!(
            matches!(wide, Err(FleetError::RoleSeesAll { .. })),
            "{wide:?}"
        );
        Database::open(&postgres.url("baybrief_worker"), 1).await?;
        // Brought up to date once more: nothing changes. Newer tables by two: too new.
        Database::migrate(&postgres.url("baybrief_owner")).await?;
        let row =
            "INSERT INTO baybrief._sqlx_migrations SELECT VERSION, 'later', now(), true, '', 0";
        for (version, works) in [("3", true), ("4", false)] {
            postgres.sql("fleet", &row.replace("VERSION", version))?;
            let opened = Database::open(&postgres.url("baybrief_worker"), 1).await;
            ensure!(opened.is_ok() == works, "version {version}: {opened:?}");
        }
        Ok(())
    })
}
