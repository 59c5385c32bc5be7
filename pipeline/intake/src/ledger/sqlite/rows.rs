//! Between rows of the tables and the words of the house.

use super::super::{FileFact, JobState, JobView, Revision, Signature, Unwritten};
use super::Outcome;
use serde::Serialize;
use serde::de::DeserializeOwned;
use sqlx::Row;
use sqlx::sqlite::SqliteRow;
use std::path::PathBuf;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// Milliseconds since 1970; a clock that stands before that gives 0.
pub(super) fn millis(at: SystemTime) -> i64 {
    let since = at.duration_since(UNIX_EPOCH).unwrap_or_default();
    i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
}

fn moment(row: &SqliteRow, column: &str) -> Outcome<SystemTime> {
    let millis: i64 = row.try_get(column)?;
    let since = Duration::from_millis(u64::try_from(millis).unwrap_or(0));
    Ok(UNIX_EPOCH.checked_add(since).unwrap_or(UNIX_EPOCH))
}

pub(super) fn signed(size: u64) -> i64 {
    i64::try_from(size).unwrap_or(i64::MAX)
}

pub(super) fn json<T: Serialize>(value: &T) -> Outcome<String> {
    serde_json::to_string(value).map_err(|e| sqlx::Error::Encode(e.into()))
}

pub(super) fn parsed<T: DeserializeOwned>(row: &SqliteRow, column: &str) -> Outcome<T> {
    let text: String = row.try_get(column)?;
    serde_json::from_str(&text).map_err(|e| sqlx::Error::ColumnDecode {
        index: column.into(),
        source: e.into(),
    })
}

/// `None` where the job has no revision yet.
pub(super) fn revision(row: &SqliteRow) -> Outcome<Option<Revision>> {
    let Some(number) = row.try_get::<Option<u32>, _>("number")? else {
        return Ok(None);
    };
    let signature = match row.try_get::<Option<String>, _>("signed_by")? {
        Some(by) => Some(Signature {
            by,
            at: parsed(row, "signed_at")?,
            note: row.try_get("signed_note")?,
        }),
        None => None,
    };
    Ok(Some(Revision {
        job: row.try_get("job_name")?,
        number,
        fingerprint: row.try_get("fingerprint")?,
        outcome: row.try_get("outcome")?,
        verdict: row.try_get("verdict")?,
        sentence: row.try_get("sentence")?,
        asks: parsed(row, "asks")?,
        set_aside: row
            .try_get::<i64, _>("set_aside")?
            .try_into()
            .unwrap_or_default(),
        source: parsed(row, "source")?,
        shop: row.try_get::<Option<String>, _>("shop")?.map(PathBuf::from),
        made: moment(row, "made")?,
        signature,
    }))
}

pub(super) fn job_view(row: &SqliteRow) -> Outcome<JobView> {
    let state: String = row.try_get("state")?;
    Ok(JobView {
        name: row.try_get("job_name")?,
        arrived: moment(row, "arrived")?,
        state: match state.as_str() {
            "waiting" => JobState::Waiting,
            "working" => JobState::Working,
            "failed" => JobState::Failed(
                row.try_get::<Option<String>, _>("note")?
                    .unwrap_or_default(),
            ),
            _ => JobState::Done,
        },
        revision: revision(row)?,
    })
}

pub(super) fn file(row: &SqliteRow) -> Outcome<FileFact> {
    let digest: Option<String> = row.try_get("blake3")?;
    let problem: Option<String> = row.try_get("problem")?;
    Ok(FileFact {
        path: row.try_get("path")?,
        size: row
            .try_get::<i64, _>("size")?
            .try_into()
            .unwrap_or_default(),
        modified: row.try_get("modified")?,
        changed: row.try_get("changed")?,
        content: digest.ok_or(problem.unwrap_or_default()),
    })
}

pub(super) fn unwritten(row: &SqliteRow) -> Outcome<Unwritten> {
    Ok(Unwritten {
        job: row.try_get("job")?,
        number: row.try_get("revision")?,
        day: parsed(row, "day")?,
        row: parsed(row, "content")?,
    })
}
