//! Random histories on PostgreSQL and a store with conditional puts, held to the model that folders are held to as well.

use anyhow::Result;
use baybrief_fleet_tests::histories::{
    Servers, Shared, THREADS, number_of_histories, run_histories,
};
use baybrief_fleet_tests::servers::{Postgres, Store};
use object_store::ObjectStore;
use object_store::memory::InMemory;
use object_store::prefix::PrefixStore;
use std::sync::Arc;

/// Histories with a bucket in memory: the store's crashes are not what they are about, and thousands of them take time.
pub fn in_memory() -> Result<()> {
    let postgres = Postgres::start()?;
    // Nothing kills this server: its syncs would be waited for and prove nothing.
    postgres.sql("postgres", "ALTER SYSTEM SET fsync = off")?;
    postgres.sql("postgres", "SELECT pg_reload_conf()")?;
    run(&postgres, number_of_histories(200), |_| {
        Arc::new(InMemory::new())
    })
}

/// Fewer on the S3-compatible store itself.
pub fn on_the_store() -> Result<()> {
    let (postgres, store) = (Postgres::start()?, Store::start()?);
    let bucket = store.objects()?.store();
    run(
        &postgres,
        number_of_histories(200).div_ceil(20),
        move |history| Arc::new(PrefixStore::new(Arc::clone(&bucket), history)),
    )
}

/// Each thread has a database of its own, since the queue is for all shops, and each history a bucket of that name.
fn run(
    postgres: &Postgres,
    histories: u32,
    bucket: impl Fn(String) -> Arc<dyn ObjectStore> + Clone + Send + Sync + 'static,
) -> Result<()> {
    let database = |thread: u32| format!("histories{thread}");
    for thread in 0..THREADS {
        postgres.copy_database(&database(thread))?;
    }
    run_histories::<Shared>(histories, |thread| {
        let database = database(thread);
        let urls = ["baybrief_worker", "postgres"].map(|role| postgres.url_in(&database, role));
        let bucket = bucket.clone();
        let of_history = move |history| bucket(format!("{database}-{history}"));
        Servers::set(&urls[0], &urls[1], Box::new(of_history))
    })?;
    println!("{histories} histories");
    Ok(())
}
