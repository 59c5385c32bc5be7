//! Growing files of new rows.

use crate::BillingError;
use crate::column_map::{Export, encode, labour_csv, table};
use model::ShopFile;
use model::labour::HandedRow;
use model::shop_file::{Batch, Encoding, LabourCsvSection, LabourField, LineTerminator};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Path of the batch file that a row belongs into, below the folder of results; `None` where the shop wants none. `job`
/// is the name of the job's own folder there.
pub fn batch_path(map: &LabourCsvSection, job: &str, row: &HandedRow) -> Option<PathBuf> {
    let name = format!("labour-{}.csv", row.day);
    match map.batch {
        Batch::None => None,
        Batch::Day => Some(name.into()),
        Batch::Job => Some(Path::new(job).join(name)),
    }
}

/// Adds the export's rows to a batch file: what is there stays byte for byte, rows that are there already (by their
/// `row_id`) are left out. `None` where nothing is to be added. `existing` is the file as it lies there;
/// `None` begins a new one. The caller replaces the file in one step.
///
/// # Errors
/// A file that is not written by this column map, so that it cannot be told which rows it has; a character that the
/// encoding lacks.
pub fn append_batch(
    existing: Option<&[u8]>,
    export: &Export<'_>,
    shop: &ShopFile,
) -> Result<Option<Vec<u8>>, BillingError> {
    let map = &shop.labour_csv;
    let there = match existing {
        None => BTreeSet::new(),
        Some(bytes) => row_ids(bytes, map)?,
    };
    let rows: Vec<&HandedRow> = export
        .rows
        .iter()
        .copied()
        .filter(|row| map.lines.contains(&row.line.kind) && !there.contains(&row.row_id))
        .collect();
    if rows.is_empty() {
        return Ok(None);
    }
    let added = Export {
        rows: &rows,
        ..*export
    };
    // An empty file has no header and no byte order mark yet.
    let Some(existing) = existing.filter(|bytes| !bytes.is_empty()) else {
        return labour_csv(&added, shop).map(Some);
    };
    let terminator = encode(
        match map.line_terminator {
            LineTerminator::Crlf => "\r\n",
            LineTerminator::Lf => "\n",
        },
        map.encoding,
    );
    let mut file = existing.to_vec();
    if !file.ends_with(&terminator) {
        file.extend(terminator);
    }
    file.extend(encode(&table(&added, shop, false)?, map.encoding));
    Ok(Some(file))
}

/// Identifiers of the rows that a batch file has.
fn row_ids(bytes: &[u8], map: &LabourCsvSection) -> Result<BTreeSet<String>, BillingError> {
    let wrong = |what: String| BillingError::Batch(what);
    let column = (map.columns.iter())
        .position(|c| c.field == Some(LabourField::RowId))
        .ok_or_else(|| wrong("the column map has no column with field = \"row_id\"".into()))?;
    let encoding = match map.encoding {
        Encoding::Utf8 | Encoding::Utf8Bom => encoding_rs::UTF_8,
        Encoding::Utf16 => encoding_rs::UTF_16LE,
        Encoding::Windows1252 => encoding_rs::WINDOWS_1252,
    };
    let (text, broken) = encoding.decode_with_bom_removal(bytes);
    if broken {
        return Err(wrong(format!("it is not {} throughout", encoding.name())));
    }
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(map.delimiter as u8)
        .from_reader(text.as_bytes());
    let mut rows = reader.records();
    if map.header && !text.is_empty() {
        let names = rows.next().and_then(Result::ok).unwrap_or_default();
        if !names.iter().eq(map.columns.iter().map(|c| c.name.as_str())) {
            return Err(wrong("its columns are not those of shop.toml".into()));
        }
    }
    let mut ids = BTreeSet::new();
    for (i, row) in rows.enumerate() {
        let at = i + 1 + usize::from(map.header);
        let row = row.map_err(|e| wrong(format!("row {at}: {e}")))?;
        if row.len() != map.columns.len() {
            let expected = map.columns.len();
            return Err(wrong(format!(
                "row {at} has {} fields, not {expected}",
                row.len()
            )));
        }
        ids.extend(row.get(column).map(str::to_string));
    }
    Ok(ids)
}
