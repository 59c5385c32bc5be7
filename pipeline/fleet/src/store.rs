//! The store of one shop, on servers that many machines share.

use crate::inbox::Inbox;
use crate::ledger::ShopLedger;
use crate::{Claim, CommitResult, Database, FleetError, Metrics, ObjectFact, Objects, sha256};
use bytes::Bytes;
use futures_util::future::try_join_all;
use intake::{
    IntakeError, JobSource, Ledger, Lock, Output, Revision, RevisionCommit, Store, WriteRows,
};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Instant;
use tempfile::TempDir;
use tokio::runtime::{Handle, Runtime};

/// The store of one shop. Its calls wait for the servers: they belong on threads of their own, never into an async task.
#[derive(Debug, Clone)]
pub struct ShopStore {
    ledger: ShopLedger,
    objects: Objects,
    /// Place on this machine of what was fetched; it goes with the last handle.
    fetched: Arc<TempDir>,
    under: Option<Work>,
    /// Does the waiting where no other runtime does.
    _own: Option<Arc<Runtime>>,
}

/// A worker's claim, under which a report is made.
#[derive(Debug, Clone)]
struct Work {
    claim: Claim,
    metrics: Arc<Metrics>,
    begun: Instant,
}

impl ShopStore {
    /// Store of a shop on a database and a bucket. `runtime` does the waiting.
    ///
    /// # Errors
    /// When this machine has no room for what is fetched.
    pub fn new(
        database: Database,
        objects: Objects,
        shop: &str,
        runtime: Handle,
    ) -> Result<ShopStore, FleetError> {
        Ok(ShopStore {
            ledger: ShopLedger {
                database,
                shop: shop.into(),
                runtime,
            },
            objects,
            fetched: Arc::new(tempfile::tempdir()?),
            under: None,
            _own: None,
        })
    }

    /// Store of a shop at the addresses of [`Database::open`] and [`Objects::open`], with a thread of its own that waits.
    ///
    /// # Errors
    /// As those two.
    pub fn open(
        database: &str,
        objects: &str,
        settings: impl IntoIterator<Item = (String, String)>,
        shop: &str,
    ) -> Result<ShopStore, FleetError> {
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .worker_threads(1)
            .enable_all()
            .build()?;
        let database = runtime.block_on(Database::open(database, 2))?;
        let objects = Objects::open(objects, settings)?;
        let store = ShopStore::new(database, objects, shop, runtime.handle().clone())?;
        Ok(ShopStore {
            _own: Some(Arc::new(runtime)),
            ..store
        })
    }

    /// The same, where what is published counts only while a claim is the newest of its job.
    #[must_use]
    pub fn under(self, claim: &Claim, metrics: &Arc<Metrics>) -> ShopStore {
        let under = Work {
            claim: claim.clone(),
            metrics: Arc::clone(metrics),
            begun: Instant::now(),
        };
        ShopStore {
            under: Some(under),
            ..self
        }
    }

    /// Name of the shop.
    pub fn shop(&self) -> &str {
        &self.ledger.shop
    }

    /// Puts a file into a job of the inbox. One with the same path is kept under replaced/SHOP/JOB/DIGEST/PATH.
    ///
    /// # Errors
    /// When the store cannot be reached.
    pub fn add_file(&self, job: &str, path: &str, bytes: Vec<u8>) -> Result<(), FleetError> {
        let key = Inbox::key(self.shop(), job, path);
        let kept = |old: &[u8]| Inbox::replaced_key(self.shop(), job, path, &sha256(old));
        self.wait(self.objects.replace(&key, bytes.into(), kept))
    }

    fn wait<T>(&self, work: impl Future<Output = T>) -> T {
        self.ledger.runtime.block_on(work)
    }

    async fn put(
        &self,
        commit: &RevisionCommit<'_>,
        outputs: &[Output],
    ) -> Result<Vec<ObjectFact>, FleetError> {
        let put = outputs.iter().map(async |output| {
            let revision = commit.revision;
            let digest = sha256(&output.bytes);
            let name = output.name.as_str();
            let key =
                Objects::result_key(self.shop(), &revision.job, revision.number, &digest, name);
            let bytes = Bytes::copy_from_slice(&output.bytes);
            self.objects.put_once(&key, bytes).await?;
            Ok(ObjectFact {
                name: name.into(),
                sha256: digest,
                size: output.bytes.len() as u64,
            })
        });
        try_join_all(put).await
    }

    async fn publish(
        &self,
        commit: &RevisionCommit<'_>,
        outputs: &[Output],
    ) -> Result<CommitResult, FleetError> {
        let took = |stage, since: Instant| {
            if let Some(work) = &self.under {
                work.metrics.took(stage, since.elapsed().as_secs_f64());
            }
            Instant::now()
        };
        let begun = self.under.as_ref().map_or_else(Instant::now, |w| w.begun);
        let start = took("work", begun);
        let objects = self.put(commit, outputs).await?;
        let start = took("put", start);
        let claim = self.under.as_ref().map(|w| &w.claim);
        let database = &self.ledger.database;
        let committed = database.commit(self.shop(), claim, commit, &objects, &[]);
        let mut result = committed.await?;
        if result == CommitResult::NumberTaken {
            // By jobs that may be gone: their files are looked for only now, since it is rare.
            let revision = commit.revision;
            let (gone, _) = self.claims(&revision.job_number, &revision.job).await?;
            let committed = database.commit(self.shop(), claim, commit, &objects, &gone);
            result = committed.await?;
        }
        took("finish", start);
        Ok(result)
    }

    /// Other jobs with a number of which nothing is bound and whose files are gone, and those that claim it.
    async fn claims(
        &self,
        number: &str,
        job: &str,
    ) -> Result<(Vec<String>, Vec<String>), FleetError> {
        let (mut gone, mut claim) = (Vec::new(), Vec::new());
        let database = &self.ledger.database;
        for (other, is_binding) in database.number_claims(self.shop(), number, job).await? {
            let is_there = is_binding
                || !Inbox::files_of(&self.objects, self.shop(), &other)
                    .await?
                    .is_empty();
            if is_there { &mut claim } else { &mut gone }.push(other);
        }
        Ok((gone, claim))
    }
}

impl Store for ShopStore {
    fn ledger(&mut self) -> &mut dyn Ledger {
        &mut self.ledger
    }

    fn reopen(&self) -> Result<Box<dyn Store>, IntakeError> {
        Ok(Box::new(self.clone()))
    }

    fn folder(&self) -> Option<&Path> {
        None
    }

    fn lock(&self) -> Result<Option<Lock>, IntakeError> {
        Ok(None)
    }

    fn results(&mut self, job: &str, number: u32) -> Result<Vec<String>, IntakeError> {
        let objects = self.ledger.objects_of(job, number)?;
        Ok(objects.into_iter().map(|(name, _)| name).collect())
    }

    fn result(&mut self, job: &str, number: u32, name: &str) -> Result<PathBuf, IntakeError> {
        let objects = self.ledger.objects_of(job, number)?;
        let object = objects.into_iter().find(|(n, _)| n == name);
        let (_, digest) = object.ok_or_else(|| FleetError::NoResult {
            job: job.into(),
            number,
            name: name.into(),
        })?;
        // The same bytes wherever they are named.
        let folder = self.fetched.path().join("results").join(&digest);
        let file = folder.join(name);
        if !file.is_file() {
            let key = Objects::result_key(self.shop(), job, number, &digest, name);
            let bytes = self.wait(self.objects.get(&key))?;
            if sha256(&bytes) != digest {
                let key = key.to_string();
                return Err(FleetError::OtherContent { key }.into());
            }
            std::fs::create_dir_all(&folder).map_err(FleetError::from)?;
            intake::write_atomic(&file, &bytes)?;
        }
        Ok(file)
    }

    fn shown(&mut self, job: &str) -> Result<Vec<String>, IntakeError> {
        match self.ledger.latest(job)? {
            Some(latest) => self.results(job, latest.number),
            None => Ok(Vec::new()),
        }
    }

    fn place_of(&mut self, job: &str, name: &str) -> Result<Option<String>, IntakeError> {
        let Some(latest) = self.ledger.latest(job)? else {
            return Ok(None);
        };
        let objects = self.ledger.objects_of(job, latest.number)?;
        let object = objects.into_iter().find(|(n, _)| n == name);
        Ok(object.map(|(name, digest)| {
            Objects::result_key(self.shop(), job, latest.number, &digest, &name).to_string()
        }))
    }

    fn source(&mut self, revision: &Revision) -> Result<JobSource, IntakeError> {
        let prefix = Inbox::prefix(self.shop(), &revision.job);
        let folder = self.wait(async {
            let mut files = self.objects.files(&prefix).await?;
            Inbox::leave_out_manifest(&mut files);
            let below = self.fetched.path();
            self.objects.mirror(&files, &revision.job, below).await
        });
        Ok(JobSource::Folder(folder?))
    }

    fn settings(&mut self, _: Option<&Revision>) -> Result<Option<PathBuf>, IntakeError> {
        let folder = self.wait(async {
            let files = self.objects.files(&["shops", self.shop()]).await?;
            let below = self.fetched.path();
            self.objects.mirror(&files, self.shop(), below).await
        });
        let file = folder?.join("shop.toml");
        Ok(file.is_file().then_some(file))
    }

    fn number_conflicts(&mut self, number: &str, job: &str) -> Result<Vec<String>, IntakeError> {
        Ok(self.wait(self.claims(number, job))?.1)
    }

    fn finish_begun(&mut self) -> Result<Vec<(String, IntakeError)>, IntakeError> {
        Ok(Vec::new())
    }

    fn publish_revision(
        &mut self,
        commit: &RevisionCommit<'_>,
        outputs: &[Output],
    ) -> Result<bool, IntakeError> {
        let published = self.wait(self.publish(commit, outputs));
        Ok(published? == CommitResult::Published)
    }

    fn hand_over_rows(&mut self, _: WriteRows<'_>) -> Result<(), IntakeError> {
        Ok(())
    }
}

/// Gives a folder that is complete its name, unless another thread was faster.
pub(crate) fn keep(part: TempDir, folder: &Path) -> Result<(), FleetError> {
    if let Some(parent) = folder.parent() {
        std::fs::create_dir_all(parent)?;
    }
    match std::fs::rename(part.path(), folder) {
        Err(e) if !folder.is_dir() => Err(e.into()),
        _ => Ok(()),
    }
}
