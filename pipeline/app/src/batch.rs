//! The batch files of labour rows: one a day, for all jobs.

use billing::Export;
use intake::{IntakeError, Unwritten, write_atomic};
use model::{Case, ShopFile};
use std::collections::BTreeMap;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::Path;

/// Adds rows to the batch files that shop.toml wants; rows that are there already are left out.
///
/// # Errors
/// When a file cannot be read or written, or was not written by the column map: then it is left as it is, and the
/// rows wait.
pub fn write(out: &Path, rows: &[Unwritten], shop: &ShopFile) -> Result<(), IntakeError> {
    // One export has the rows of one revision of a job.
    let mut exports: BTreeMap<_, Vec<&Unwritten>> = BTreeMap::new();
    for row in rows {
        let Some(path) = billing::batch_path(&shop.labour_csv, &row.job, &row.row) else {
            continue;
        };
        let export = exports.entry((path, &row.job, row.number));
        export.or_default().push(row);
    }
    for ((path, job, number), rows) in exports {
        let path = out.join(path);
        let wrong = |why: io::Error| IntakeError::Unwritable {
            path: path.clone(),
            why,
        };
        let existing = match fs::read(&path) {
            Ok(bytes) => Some(bytes),
            Err(e) if e.kind() == ErrorKind::NotFound => None,
            Err(e) => return Err(wrong(e)),
        };
        let case = case(&out.join(job).join(format!("rev-{number}")))?;
        let export = Export {
            texts: case.order.as_ref(),
            rows: &rows.iter().map(|r| &r.row).collect::<Vec<_>>(),
        };
        let added = billing::append_batch(existing.as_deref(), &export, shop)
            .map_err(|e| wrong(io::Error::other(e)))?;
        if let Some(bytes) = added {
            write_atomic(&path, &bytes)?;
        }
    }
    Ok(())
}

/// What the revision said, which outlives the files that it was made from.
fn case(kept: &Path) -> Result<Case, IntakeError> {
    let path = kept.join("case.json");
    let read = fs::read(&path).and_then(|bytes| serde_json::from_slice(&bytes).map_err(Into::into));
    read.map_err(|why| IntakeError::Unreadable { path, why })
}
