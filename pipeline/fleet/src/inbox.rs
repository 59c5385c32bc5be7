//! The inbox: a listing of the store decides what is there; events of a store only wake, repeat and come in any order.

use crate::objects::sha256;
use crate::{Database, FleetError, Objects};
use object_store::path::Path;
use serde::Deserialize;
use std::collections::{BTreeMap, HashMap};
use std::time::{Duration, Instant};

/// Prefix of all inboxes: inbox/SHOP/JOB/FILE.
const INBOX: &str = "inbox";

/// Name of the file that names a job's files, for those who want no waiting.
const MANIFEST: &str = "manifest.json";

/// A file of a job, as the store lists it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InputFile {
    /// Path inside the job, with forward slashes.
    pub path: String,
    /// Name in the store.
    pub key: String,
    /// Size, bytes.
    pub size: u64,
    /// Version as the store tells it: its entity tag, else the time of the last write.
    pub version: String,
}

/// Digest of a job's files as they are listed: other files, another digest.
pub fn listing_digest(files: &[InputFile]) -> String {
    let lines: Vec<String> = files
        .iter()
        .map(|f| format!("{:?} {} {}\n", f.path, f.size, f.version))
        .collect();
    sha256(lines.concat().as_bytes())
}

/// A job of a shop.
type JobKey = (String, String);

#[derive(Debug, Deserialize)]
struct Manifest {
    files: BTreeMap<String, u64>,
}

/// Jobs in the store, and how long each has lain there unchanged.
#[derive(Debug)]
pub struct Inbox {
    settle: Duration,
    seen: HashMap<JobKey, (String, Instant)>,
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
        let jobs = jobs(objects, &Path::from(INBOX)).await?;
        self.seen.retain(|key, _| jobs.contains_key(key));
        let mut added = 0;
        for ((shop, job), files) in jobs {
            let digest = listing_digest(&files);
            let now = Instant::now();
            let entry = self
                .seen
                .entry((shop.clone(), job.clone()))
                .or_insert_with(|| (digest.clone(), now));
            if entry.0 != digest {
                *entry = (digest.clone(), now);
            }
            let is_settled = now.duration_since(entry.1) >= self.settle;
            if !is_settled && !is_complete(objects, &files).await? {
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
        }
        Ok(added)
    }

    /// True where each job that lies there is in the queue.
    pub fn is_settled(&self) -> bool {
        self.seen
            .values()
            .all(|(_, since)| since.elapsed() >= self.settle)
    }

    /// Files of one job, by path.
    ///
    /// # Errors
    /// When the store cannot be reached.
    pub async fn files_of(
        objects: &Objects,
        shop: &str,
        job: &str,
    ) -> Result<Vec<InputFile>, FleetError> {
        let mut jobs = jobs(objects, &Path::from_iter([INBOX, shop, job])).await?;
        Ok(jobs.remove(&(shop.into(), job.into())).unwrap_or_default())
    }
}

async fn jobs(
    objects: &Objects,
    prefix: &Path,
) -> Result<BTreeMap<JobKey, Vec<InputFile>>, FleetError> {
    let mut jobs: BTreeMap<JobKey, Vec<InputFile>> = BTreeMap::new();
    for object in objects.list(prefix).await? {
        let parts: Vec<String> = object
            .location
            .parts()
            .map(|p| p.as_ref().to_owned())
            .collect();
        let [_, shop, job, path @ ..] = parts.as_slice() else {
            continue;
        };
        if path.is_empty() {
            continue;
        }
        jobs.entry((shop.clone(), job.clone()))
            .or_default()
            .push(InputFile {
                path: path.join("/"),
                key: object.location.to_string(),
                size: object.size,
                version: object
                    .e_tag
                    .unwrap_or_else(|| object.last_modified.to_rfc3339()),
            });
    }
    Ok(jobs)
}

/// True where a manifest names the files and all of them are there with their sizes.
async fn is_complete(objects: &Objects, files: &[InputFile]) -> Result<bool, FleetError> {
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

    fn file(path: &str, size: u64) -> InputFile {
        InputFile {
            path: path.into(),
            key: format!("inbox/a/b/{path}"),
            size,
            version: "1".into(),
        }
    }

    #[test]
    fn other_files_have_another_digest() {
        let digest = |files: &[InputFile]| listing_digest(files);
        let one = digest(&[file("a", 1), file("b", 2)]);
        assert_ne!(one, digest(&[file("a", 1), file("b", 3)]));
        assert_ne!(one, digest(&[file("a", 1)]));
        // A name that looks like two lines is one name.
        assert_ne!(
            digest(&[file("a\" 1 1\n\"b", 2)]),
            digest(&[file("a", 1), file("b", 2)])
        );
    }

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
