//! The inbox: a listing of the store decides what is there; events of a store only wake, repeat and come in any order.

use crate::files::{StoredFile, listing_digest};
use crate::{Database, FleetError, Objects};
use object_store::path::Path;
use serde::Deserialize;
use std::collections::{BTreeMap, HashMap};
use std::time::{Duration, Instant};

/// Prefix of all inboxes: inbox/SHOP/JOB/FILE.
const INBOX: &str = "inbox";

/// Prefix of files that others took the place of.
const REPLACED: &str = "replaced";

/// Name of the file that names a job's files, for those who want no waiting.
const MANIFEST: &str = "manifest.json";

/// A job of a shop.
type JobKey = (String, String);

#[derive(Debug, Deserialize)]
struct Manifest {
    files: BTreeMap<String, u64>,
}

/// A job as it was last listed.
#[derive(Debug)]
struct Seen {
    digest: String,
    /// Time at which it was first listed like this.
    since: Instant,
    /// True once it is in the queue like this: the database is not asked again.
    is_queued: bool,
}

/// Jobs in the store, and how long each has lain there unchanged.
#[derive(Debug)]
pub struct Inbox {
    settle: Duration,
    seen: HashMap<JobKey, Seen>,
}

impl Inbox {
    /// An inbox whose jobs are ready once their listing has not changed for that time.
    pub fn new(settle: Duration) -> Inbox {
        Inbox {
            settle,
            seen: HashMap::new(),
        }
    }

    /// Lists the store and puts what is ready into the queue. Returns the number of jobs that are to be done.
    ///
    /// # Errors
    /// When store or database cannot be reached; what was found so far is in the queue.
    pub async fn scan(
        &mut self,
        objects: &Objects,
        database: &Database,
    ) -> Result<usize, FleetError> {
        let jobs = jobs(objects).await?;
        self.seen.retain(|key, _| jobs.contains_key(key));
        let mut added = 0;
        for ((shop, job), files) in jobs {
            let digest = listing_digest(&files);
            let now = Instant::now();
            let seen = self.seen.entry((shop.clone(), job.clone()));
            let seen = seen.or_insert_with(|| Seen::new(&digest, now));
            if seen.digest != digest {
                *seen = Seen::new(&digest, now);
            }
            let is_settled = now.duration_since(seen.since) >= self.settle;
            if seen.is_queued || !is_settled && !is_complete(objects, &files).await? {
                continue;
            }
            match database.enqueue(&shop, &job, &digest).await {
                Ok(is_new) => added += usize::from(is_new),
                // A name that the tables refuse is that job's own trouble.
                Err(FleetError::Database(sqlx::Error::Database(e))) if e.is_check_violation() => {
                    tracing::warn!(
                        "inbox/{shop}/{job}: the name of the shop or the job is not allowed: {e}"
                    );
                }
                Err(e) => return Err(e),
            }
            seen.is_queued = true;
        }
        Ok(added)
    }

    /// True where each job that lies there is in the queue.
    pub fn is_settled(&self) -> bool {
        self.seen.values().all(|seen| seen.is_queued)
    }

    /// Prefix of one job.
    pub(crate) fn prefix<'j>(shop: &'j str, job: &'j str) -> [&'j str; 3] {
        [INBOX, shop, job]
    }

    /// Name in the store of a file of a job.
    pub(crate) fn key(shop: &str, job: &str, path: &str) -> Path {
        Path::from_iter([INBOX, shop, job].into_iter().chain(path.split('/')))
    }

    /// Name in the store of a file that another one of its path took the place of.
    pub(crate) fn replaced_key(shop: &str, job: &str, path: &str, digest: &str) -> Path {
        Path::from_iter(
            [REPLACED, shop, job, digest]
                .into_iter()
                .chain(path.split('/')),
        )
    }

    /// The manifest speaks of the files and is none of them.
    pub(crate) fn leave_out_manifest(files: &mut Vec<StoredFile>) {
        files.retain(|f| f.path != MANIFEST);
    }

    /// Files of one job, by path.
    ///
    /// # Errors
    /// When the store cannot be reached.
    pub async fn files_of(
        objects: &Objects,
        shop: &str,
        job: &str,
    ) -> Result<Vec<StoredFile>, FleetError> {
        objects.files(&Inbox::prefix(shop, job)).await
    }
}

impl Seen {
    fn new(digest: &str, since: Instant) -> Seen {
        Seen {
            digest: digest.into(),
            since,
            is_queued: false,
        }
    }
}

/// Files of all jobs.
async fn jobs(objects: &Objects) -> Result<BTreeMap<JobKey, Vec<StoredFile>>, FleetError> {
    let mut jobs: BTreeMap<JobKey, Vec<StoredFile>> = BTreeMap::new();
    for object in objects.list(&Path::from(INBOX)).await? {
        if let Some((prefix, file)) = StoredFile::below(3, object)
            && let [_, shop, job] = prefix.as_slice()
        {
            let key = (shop.clone(), job.clone());
            jobs.entry(key).or_default().push(file);
        }
    }
    Ok(jobs)
}

/// True where a manifest names the files and all of them are there with their sizes.
async fn is_complete(objects: &Objects, files: &[StoredFile]) -> Result<bool, FleetError> {
    let Some(manifest) = files.iter().find(|f| f.path == MANIFEST) else {
        return Ok(false);
    };
    let text = match objects.get(&Path::from(manifest.key.as_str())).await {
        Err(FleetError::Objects(object_store::Error::NotFound { .. })) => return Ok(false),
        text => text?,
    };
    let Ok(manifest) = serde_json::from_slice::<Manifest>(&text) else {
        return Ok(false);
    };
    let has =
        |(path, size): (&String, &u64)| files.iter().any(|f| f.path == *path && f.size == *size);
    Ok(manifest.files.iter().all(has))
}

#[cfg(test)]
mod tests {
    use super::*;
    use bytes::Bytes;
    use object_store::memory::InMemory;
    use std::sync::Arc;

    #[tokio::test]
    async fn a_manifest_is_complete_once_all_its_files_are_there() {
        let objects = Objects::new(Arc::new(InMemory::new()));
        let put = async |path: &str, bytes: &'static [u8]| {
            let key = Path::from(format!("inbox/a/b/{path}"));
            objects
                .put_once(&key, Bytes::from_static(bytes))
                .await
                .expect("put");
        };
        put(
            "manifest.json",
            br#"{"files": {"one.csv": 3, "sub/two.csv": 4}}"#,
        )
        .await;
        put("one.csv", b"1,2").await;
        let files = async || Inbox::files_of(&objects, "a", "b").await.expect("listed");
        assert!(!is_complete(&objects, &files().await).await.expect("read"));
        put("sub/two.csv", b"1,22").await;
        assert!(is_complete(&objects, &files().await).await.expect("read"));
    }
}
