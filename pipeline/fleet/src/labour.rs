//! Labour rows on their way to the billing system: at least once, in batches that never change.

use crate::{Database, FleetError, Objects};
use bytes::Bytes;
use intake::PendingRow;
use model::labour::{HandedRow, OrderTexts};
use object_store::path::Path;
use sqlx::types::Json;
use sqlx::{query, query_as, query_scalar};

/// Writes the rows of a batch as the shop's billing system reads them. The same rows give the same bytes.
pub type WriteBatch<'w> = &'w (dyn Fn(&str, &[PendingRow]) -> Result<Vec<u8>, FleetError> + Sync);

impl Database {
    /// Puts the labour rows that wait into the store: labour/SHOP/NUMBER.csv, one file for each batch. Returns the
    /// number of files put.
    ///
    /// A batch is closed in the database before it is put, and noted as put afterwards: what ends in between is put once
    /// more, with the same bytes under the same name. Who reads the files takes a row by its `line_id` once.
    ///
    /// # Errors
    /// When database or store cannot be reached, or a batch cannot be written; what was not put waits.
    pub async fn hand_over(
        &self,
        objects: &Objects,
        write: WriteBatch<'_>,
    ) -> Result<usize, FleetError> {
        let shops: Vec<String> = query_scalar("SELECT * FROM shops_to_hand_over()")
            .fetch_all(&self.pool)
            .await?;
        let mut put = 0;
        for shop in shops {
            self.close_batch(&shop).await?;
            put += self.put_batches(&shop, objects, write).await?;
        }
        Ok(put)
    }

    async fn close_batch(&self, shop: &str) -> Result<(), FleetError> {
        let mut t = self.of_shop(shop).await?;
        // One at a time for a shop: numbers follow each other.
        query("SELECT pg_advisory_xact_lock(hashtextextended('labour ' || $1, 0))")
            .bind(shop)
            .execute(&mut *t)
            .await?;
        let number: i64 =
            query_scalar("SELECT COALESCE(MAX(number), 0) + 1 FROM batch WHERE shop = $1")
                .bind(shop)
                .fetch_one(&mut *t)
                .await?;
        let rows = query("UPDATE labour SET batch = $2 WHERE shop = $1 AND batch IS NULL")
            .bind(shop)
            .bind(number)
            .execute(&mut *t)
            .await?;
        if rows.rows_affected() > 0 {
            query("INSERT INTO batch (shop, number) VALUES ($1, $2)")
                .bind(shop)
                .bind(number)
                .execute(&mut *t)
                .await?;
        }
        t.commit().await?;
        Ok(())
    }

    async fn put_batches(
        &self,
        shop: &str,
        objects: &Objects,
        write: WriteBatch<'_>,
    ) -> Result<usize, FleetError> {
        let mut t = self.of_shop(shop).await?;
        let open: Vec<i64> =
            query_scalar("SELECT number FROM batch WHERE shop = $1 AND NOT put ORDER BY number")
                .bind(shop)
                .fetch_all(&mut *t)
                .await?;
        t.commit().await?;
        for number in &open {
            let mut t = self.of_shop(shop).await?;
            let rows: Vec<(String, Json<HandedRow>, Option<Json<OrderTexts>>)> = query_as(
                "SELECT l.job, l.content, NULLIF(r.facts->'texts', 'null') FROM labour l \
                 LEFT JOIN revision r ON r.shop = l.shop AND r.job = l.job \
                 AND r.number = (l.content->>'revision')::integer AND r.edition = l.edition \
                 WHERE l.shop = $1 AND l.batch = $2 ORDER BY l.id",
            )
            .bind(shop)
            .bind(number)
            .fetch_all(&mut *t)
            .await?;
            t.commit().await?;
            let rows: Vec<PendingRow> = rows
                .into_iter()
                .map(|(job, row, texts)| PendingRow {
                    job,
                    row: row.0,
                    texts: texts.map(|t| t.0),
                })
                .collect();
            let bytes = write(shop, &rows)?;
            let key = Path::from_iter(["labour", shop, &format!("{number:08}.csv")]);
            objects.put_once(&key, Bytes::from(bytes)).await?;
            let put = query("UPDATE batch SET put = true WHERE shop = $1 AND number = $2")
                .bind(shop)
                .bind(number);
            self.change(shop, put).await?;
        }
        Ok(open.len())
    }
}
