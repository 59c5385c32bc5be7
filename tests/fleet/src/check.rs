//! A checker that looks at nothing but what database and store have.

use crate::servers::Postgres;
use anyhow::{Context, Result, ensure};
use fleet::{Objects, sha256};
use std::collections::{BTreeMap, BTreeSet};

/// Counts of a fleet that is at rest.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Jobs done.
    pub jobs: usize,
    /// Reports.
    pub reports: usize,
    /// Labour rows in batch files.
    pub rows: usize,
    /// Batch files.
    pub batches: usize,
    /// Objects of results that no row names.
    pub orphans: usize,
}

fn table(postgres: &Postgres, sql: &str) -> Result<Vec<Vec<String>>> {
    let text = postgres.sql("fleet", sql)?;
    Ok(text
        .lines()
        .map(|l| l.split('|').map(String::from).collect())
        .collect())
}

/// Checks that each job is done, with exactly one current report whose files are in the store with their digests; that
/// each labour row is in the batch files of its shop exactly once; and that nothing of one shop is with another.
///
/// # Errors
/// The first thing that does not hold.
pub async fn check(postgres: &Postgres, objects: &Objects) -> Result<Counts> {
    let mut counts = Counts::default();
    let jobs = table(
        postgres,
        "SELECT shop, name, state, inputs FROM baybrief.job ORDER BY 1, 2",
    )?;
    let reports = table(
        postgres,
        "SELECT shop, job, number, inputs FROM baybrief.revision ORDER BY shop, job, number, edition",
    )?;
    let mut newest: BTreeMap<(String, String), (String, String)> = BTreeMap::new();
    for r in &reports {
        newest.insert((r[0].clone(), r[1].clone()), (r[2].clone(), r[3].clone()));
    }
    counts.reports = reports.len();
    for job in &jobs {
        ensure!(job[2] == "done", "{}/{} is {}", job[0], job[1], job[2]);
        let report = newest.get(&(job[0].clone(), job[1].clone()));
        let (_, inputs) = report.with_context(|| format!("{}/{} has no report", job[0], job[1]))?;
        ensure!(
            *inputs == job[3],
            "{}/{}: the report is of other files",
            job[0],
            job[1]
        );
    }
    counts.jobs = jobs.len();
    let mut named = BTreeSet::new();
    let facts = table(
        postgres,
        "SELECT shop, job, revision, sha256, name FROM baybrief.object",
    )?;
    for f in &facts {
        let key = format!("results/{}/{}/{}/{}/{}", f[0], f[1], f[2], f[3], f[4]);
        let bytes = objects
            .get(&key.as_str().into())
            .await
            .with_context(|| key.clone())?;
        ensure!(sha256(&bytes) == f[3], "{key} has other content");
        let text = String::from_utf8_lossy(&bytes);
        let own = [
            format!("{}/{} ", f[0], f[1]),
            format!("\"shop\":\"{}\"", f[0]),
        ];
        ensure!(
            own.iter().any(|own| text.contains(own)),
            "{key} is of another shop: {text}"
        );
        named.insert(key);
    }
    for object in objects.list(&"results".into()).await? {
        counts.orphans += usize::from(!named.contains(object.location.as_ref()));
    }
    let wanted: BTreeSet<(String, String)> =
        table(postgres, "SELECT shop, row_id FROM baybrief.labour")?
            .into_iter()
            .map(|r| (r[0].clone(), r[1].clone()))
            .collect();
    let mut got = BTreeSet::new();
    for batch in objects.list(&"labour".into()).await? {
        counts.batches += 1;
        let shop = batch
            .location
            .parts()
            .nth(1)
            .context("a batch has a shop")?
            .as_ref()
            .to_owned();
        let bytes = objects.get(&batch.location).await?;
        for line in String::from_utf8_lossy(&bytes).lines() {
            let cells: Vec<&str> = line.split(',').collect();
            ensure!(
                cells[0] == shop,
                "{}: a row of {}",
                batch.location,
                cells[0]
            );
            ensure!(
                got.insert((shop.clone(), cells[2].to_owned())),
                "{}: {line} for the second time",
                batch.location
            );
            counts.rows += 1;
        }
    }
    ensure!(
        got == wanted,
        "{} rows in the files, {} in the ledger",
        got.len(),
        wanted.len()
    );
    Ok(counts)
}
