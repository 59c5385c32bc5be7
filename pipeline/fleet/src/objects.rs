//! The object store: recordings and results by their names.

use crate::FleetError;
use bytes::Bytes;
use futures_util::TryStreamExt;
use object_store::aws::{AmazonS3Builder, S3ConditionalPut};
use object_store::path::Path;
use object_store::{
    Error, ObjectMeta, ObjectStore, ObjectStoreExt, PutMode, PutOptions, UpdateVersion,
};
use sha2::{Digest, Sha256};
use std::sync::Arc;
use std::time::Duration;

/// Attempts to put an object, and the pause before the second one; each further pause is twice as long.
const ATTEMPTS: u32 = 6;
const PAUSE: Duration = Duration::from_millis(200);

/// SHA-256, hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes)
        .iter()
        .map(|b| format!("{b:02x}"))
        .collect()
}

/// Store of recordings and results.
#[derive(Debug, Clone)]
pub struct Objects {
    pub(crate) store: Arc<dyn ObjectStore>,
}

impl Objects {
    /// Opens a bucket of an S3-compatible store, `s3://BUCKET`. Where it lies and the keys are settings with the names that
    /// every program of that kind takes from its environment: `AWS_ENDPOINT_URL`, `AWS_ACCESS_KEY_ID`,
    /// `AWS_SECRET_ACCESS_KEY`, `AWS_REGION`, and `AWS_ALLOW_HTTP=true` for one on this machine. Others are passed over.
    ///
    /// # Errors
    /// When the address or a setting cannot be used. The store is not asked.
    pub fn open(
        url: &str,
        settings: impl IntoIterator<Item = (String, String)>,
    ) -> Result<Objects, FleetError> {
        // One library for all TLS; a second call changes nothing.
        let _ = rustls::crypto::ring::default_provider().install_default();
        if !url.starts_with("s3://") {
            return Err(FleetError::Address {
                address: url.into(),
                why: "expected s3://BUCKET".into(),
            });
        }
        let mut builder = AmazonS3Builder::new()
            .with_url(url)
            .with_conditional_put(S3ConditionalPut::ETagMatch);
        for (name, value) in settings {
            if let Ok(key) = name.to_ascii_lowercase().parse() {
                builder = builder.with_config(key, value);
            }
        }
        Ok(Objects {
            store: Arc::new(builder.build()?),
        })
    }

    /// A store of another kind, for tests.
    pub fn new(store: Arc<dyn ObjectStore>) -> Objects {
        Objects { store }
    }

    /// The store itself.
    pub fn store(&self) -> Arc<dyn ObjectStore> {
        Arc::clone(&self.store)
    }

    /// Name of a file of a report. The digest in it keeps what two workers made of one job apart.
    pub(crate) fn result_key(
        shop: &str,
        job: &str,
        revision: u32,
        digest: &str,
        name: &str,
    ) -> Path {
        let revision = revision.to_string();
        Path::from_iter(["results", shop, job, &revision, digest, name])
    }

    /// Puts an object that nobody else may have put otherwise: the same bytes again are no error.
    ///
    /// # Errors
    /// When the store cannot be reached after several attempts, or has other bytes under that name.
    pub async fn put_once(&self, key: &Path, bytes: Bytes) -> Result<(), FleetError> {
        let mut pause = PAUSE;
        for attempt in 1.. {
            let options = PutOptions::from(PutMode::Create);
            let failed = match self
                .store
                .put_opts(key, bytes.clone().into(), options)
                .await
            {
                Ok(_) => return Ok(()),
                // A store says so too when two puts meet (409), and then neither may be there.
                Err(e @ (Error::AlreadyExists { .. } | Error::Precondition { .. })) => {
                    match self.get(key).await {
                        Ok(there) if there == bytes => return Ok(()),
                        Ok(_) => {
                            return Err(FleetError::OtherContent {
                                key: key.to_string(),
                            });
                        }
                        Err(FleetError::Objects(Error::NotFound { .. })) => e,
                        Err(FleetError::Objects(e)) => e,
                        Err(e) => return Err(e),
                    }
                }
                Err(e @ Error::Generic { .. }) => e,
                Err(e) => return Err(e.into()),
            };
            if attempt == ATTEMPTS {
                return Err(failed.into());
            }
            tokio::time::sleep(pause).await;
            pause *= 2;
        }
        unreachable!("the attempts end")
    }

    /// Puts an object in place of another, which is kept under the name that `kept` gives for its content.
    ///
    /// # Errors
    /// When the store cannot be reached, or others replace the same object over and over.
    pub(crate) async fn replace(
        &self,
        key: &Path,
        bytes: Bytes,
        kept: impl Fn(&[u8]) -> Path,
    ) -> Result<(), FleetError> {
        for attempt in 1.. {
            let mode = match self.store.get(key).await {
                Err(Error::NotFound { .. }) => PutMode::Create,
                Err(e) => return Err(e.into()),
                Ok(there) => {
                    let version = UpdateVersion {
                        e_tag: there.meta.e_tag.clone(),
                        version: there.meta.version.clone(),
                    };
                    let old = there.bytes().await?;
                    if old == bytes {
                        return Ok(());
                    }
                    self.put_once(&kept(&old), old).await?;
                    PutMode::Update(version)
                }
            };
            let put = self.store.put_opts(key, bytes.clone().into(), mode.into());
            match put.await {
                Ok(_) => return Ok(()),
                // Somebody else was faster: theirs is kept as well.
                Err(Error::AlreadyExists { .. } | Error::Precondition { .. })
                    if attempt < ATTEMPTS => {}
                Err(e) => return Err(e.into()),
            }
        }
        unreachable!("the attempts end")
    }

    /// Content of an object.
    ///
    /// # Errors
    /// When it is not there or the store cannot be reached.
    pub async fn get(&self, key: &Path) -> Result<Bytes, FleetError> {
        Ok(self.store.get(key).await?.bytes().await?)
    }

    /// Objects below a prefix, by name.
    ///
    /// # Errors
    /// When the store cannot be reached.
    pub async fn list(&self, prefix: &Path) -> Result<Vec<ObjectMeta>, FleetError> {
        let mut found: Vec<ObjectMeta> = self.store.list(Some(prefix)).try_collect().await?;
        found.sort_by(|a, b| a.location.cmp(&b.location));
        Ok(found)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use object_store::memory::InMemory;

    fn objects() -> Objects {
        Objects::new(Arc::new(InMemory::new()))
    }

    #[tokio::test]
    async fn the_same_bytes_again_are_no_error_and_others_are() {
        let (objects, key) = (objects(), Path::from("results/a/b"));
        for _ in 0..2 {
            objects
                .put_once(&key, Bytes::from_static(b"one"))
                .await
                .expect("put");
        }
        let other = objects.put_once(&key, Bytes::from_static(b"two")).await;
        assert!(matches!(other, Err(FleetError::OtherContent { .. })));
        assert_eq!(
            objects.get(&key).await.expect("there"),
            Bytes::from_static(b"one")
        );
    }

    #[tokio::test]
    async fn what_is_replaced_is_kept() {
        let (objects, key) = (objects(), Path::from("inbox/a/b/job.toml"));
        let kept = |old: &[u8]| Path::from(format!("replaced/a/b/{}/job.toml", sha256(old)));
        for text in ["one", "one", "two"] {
            let bytes = Bytes::from_static(text.as_bytes());
            objects.replace(&key, bytes, kept).await.expect("put");
        }
        assert_eq!(objects.get(&key).await.expect("there"), "two");
        assert_eq!(objects.get(&kept(b"one")).await.expect("kept"), "one");
        assert_eq!(
            objects
                .list(&Path::from("replaced"))
                .await
                .expect("listed")
                .len(),
            1
        );
    }

    /// FIPS 180-4, example of a message of three bytes.
    #[test]
    fn digest_of_a_known_message() {
        let wanted = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(sha256(b"abc"), wanted);
    }
}
