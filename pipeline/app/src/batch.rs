//! Batch files of labour rows.

use billing::{BillingError, Export};
use intake::{IntakeError, PendingRow, write_atomic};
use model::ShopFile;
use model::labour::OrderTexts;
use std::collections::BTreeMap;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Adds rows to the batch files that shop.toml wants; rows that are there already are left out.
///
/// # Errors
/// When a file cannot be read or written, or was not written by the column map: then it is left as it is, and the
/// rows wait.
pub fn write(out: &Path, rows: &[PendingRow], shop: &ShopFile) -> Result<(), IntakeError> {
    let mut files: BTreeMap<PathBuf, Vec<&PendingRow>> = BTreeMap::new();
    for row in rows {
        if let Some(path) = billing::batch_path(&shop.labour_csv, &row.job, &row.row) {
            files.entry(out.join(path)).or_default().push(row);
        }
    }
    for (path, rows) in files {
        let wrong = |why: io::Error| IntakeError::Unwritable {
            path: path.clone(),
            why,
        };
        let before = match fs::read(&path) {
            Ok(bytes) => Some(bytes),
            Err(e) if e.kind() == ErrorKind::NotFound => None,
            Err(e) => return Err(wrong(e)),
        };
        let after = append(before.as_deref(), &rows, shop);
        if let Some(bytes) = after.map_err(|e| wrong(io::Error::other(e)))? {
            write_atomic(&path, &bytes)?;
        }
    }
    Ok(())
}

/// Content of a batch file with rows added to it; `None` where it has all of them already.
///
/// # Errors
/// When the file was not written by the shop's column map.
pub fn append(
    before: Option<&[u8]>,
    rows: &[&PendingRow],
    shop: &ShopFile,
) -> Result<Option<Vec<u8>>, BillingError> {
    let mut after: Option<Vec<u8>> = None;
    // Rows of one report share its texts.
    for rows in rows.chunk_by(|a, b| a.job == b.job && a.texts == b.texts) {
        let texts: Option<&OrderTexts> = rows.first().and_then(|r| r.texts.as_ref());
        let export = Export {
            texts,
            rows: &rows.iter().map(|r| &r.row).collect::<Vec<_>>(),
        };
        let present = after.as_deref().or(before);
        after = billing::append_batch(present, &export, shop)?.or(after);
    }
    Ok(after)
}
