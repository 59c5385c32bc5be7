//! Results that no row names: left by workers that ended between putting and finishing.

use crate::{Database, FleetError, Objects};
use chrono::{DateTime, TimeDelta, Utc};
use object_store::ObjectStoreExt;
use object_store::path::Path;
use sqlx::query_scalar;

impl Objects {
    /// Removes results that lie there for longer than `age` and that no report names. Returns their number.
    ///
    /// # Errors
    /// When database or store cannot be reached; what was removed until then is removed.
    pub async fn sweep(
        &self,
        database: &Database,
        now: DateTime<Utc>,
        age: TimeDelta,
    ) -> Result<usize, FleetError> {
        let mut removed = 0;
        for object in self.list(&Path::from("results")).await? {
            if now - object.last_modified < age {
                continue;
            }
            let parts: Vec<String> = object
                .location
                .parts()
                .map(|p| p.as_ref().to_owned())
                .collect();
            let [_, shop, job, revision, digest, name] = parts.as_slice() else {
                continue;
            };
            let mut t = database.of_shop(shop).await?;
            let is_named: bool = query_scalar(
                "SELECT EXISTS (SELECT 1 FROM object WHERE shop = $1 AND job = $2 AND revision::text = $3 \
                 AND sha256 = $4 AND name = $5)",
            )
            .bind(shop)
            .bind(job)
            .bind(revision)
            .bind(digest)
            .bind(name)
            .fetch_one(&mut *t)
            .await?;
            if !is_named {
                self.store.delete(&object.location).await?;
                removed += 1;
            }
        }
        Ok(removed)
    }
}
