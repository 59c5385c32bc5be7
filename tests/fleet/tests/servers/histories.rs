//! Random histories on PostgreSQL and a store with conditional puts, held to the model that folders are held to as well.

use anyhow::{Result, anyhow};
use baybrief_fleet_tests::histories::{Model, Servers, Shared, number_of_histories};
use baybrief_fleet_tests::servers::{Postgres, Store};
use object_store::ObjectStore;
use object_store::prefix::PrefixStore;
use proptest::test_runner::{Config, TestRunner};
use proptest_state_machine::{ReferenceStateMachine, StateMachineTest};
use std::sync::Arc;

/// Histories with a bucket in memory: the store's crashes are not what they are about, and thousands of them take time.
pub fn in_memory() -> Result<()> {
    let postgres = Postgres::start()?;
    // Nothing kills this server: its syncs would be waited for and prove nothing.
    postgres.sql("postgres", "ALTER SYSTEM SET fsync = off")?;
    postgres.sql("postgres", "SELECT pg_reload_conf()")?;
    Servers::set(
        &postgres.url("baybrief_worker"),
        &postgres.url("postgres"),
        Servers::in_memory(),
    )?;
    run(number_of_histories(200))
}

/// Fewer on the S3-compatible store itself.
pub fn on_the_store() -> Result<()> {
    let (postgres, store) = (Postgres::start()?, Store::start()?);
    let bucket = store.objects()?.store();
    Servers::set(
        &postgres.url("baybrief_worker"),
        &postgres.url("postgres"),
        Box::new(move |history| -> Arc<dyn ObjectStore> {
            Arc::new(PrefixStore::new(Arc::clone(&bucket), format!("h{history}")))
        }),
    )?;
    run(number_of_histories(200).div_ceil(50))
}

fn run(histories: u32) -> Result<()> {
    let config = Config {
        cases: histories,
        failure_persistence: None,
        max_shrink_iters: 200,
        ..Config::default()
    };
    let strategy = Model::<Shared>::sequential_strategy(1..40);
    let run = TestRunner::new(config.clone()).run(&strategy, |(model, steps, seen)| {
        Shared::test_sequential(config.clone(), model, steps, seen);
        Ok(())
    });
    run.map_err(|e| anyhow!("{e}"))?;
    println!("{histories} histories");
    Ok(())
}
