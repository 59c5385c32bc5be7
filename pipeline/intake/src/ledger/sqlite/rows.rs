//! Conversion between rows of the tables and records.

use super::super::{JobGroup, JobState, JobView, NumberClaim, PendingRow, Revision, Signature};
use super::Outcome;
use crate::time::from_millis;
use serde::Serialize;
use serde::de::DeserializeOwned;
use sqlx::Row;
use sqlx::sqlite::SqliteRow;
use std::path::PathBuf;
use std::time::SystemTime;

fn moment(row: &SqliteRow, column: &str) -> Outcome<SystemTime> {
    Ok(from_millis(row.try_get(column)?))
}

pub(super) fn json<T: Serialize>(value: &T) -> Outcome<String> {
    serde_json::to_string(value).map_err(|e| sqlx::Error::Encode(e.into()))
}

pub(super) fn parsed<T: DeserializeOwned>(row: &SqliteRow, column: &str) -> Outcome<T> {
    let text: String = row.try_get(column)?;
    parse(&text, column)
}

fn parse<T: DeserializeOwned>(text: &str, column: &str) -> Outcome<T> {
    serde_json::from_str(text).map_err(|e| sqlx::Error::ColumnDecode {
        index: column.into(),
        source: e.into(),
    })
}

/// `None` where nobody has signed.
pub(super) fn signature(row: &SqliteRow) -> Outcome<Option<Signature>> {
    let Some(by) = row.try_get::<Option<String>, _>("signed_by")? else {
        return Ok(None);
    };
    Ok(Some(Signature {
        by,
        at: parsed(row, "signed_at")?,
        note: row.try_get("signed_note")?,
    }))
}

/// `None` where the job has no revision yet.
pub(super) fn revision(row: &SqliteRow) -> Outcome<Option<Revision>> {
    let Some(number) = row.try_get::<Option<u32>, _>("number")? else {
        return Ok(None);
    };
    let signature = signature(row)?;
    Ok(Some(Revision {
        job: row.try_get("job_name")?,
        number,
        token: row.try_get("token")?,
        job_number: row.try_get("job_number")?,
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
    let note = || row.try_get::<Option<String>, _>("note");
    Ok(JobView {
        name: row.try_get("job_name")?,
        arrived: moment(row, "arrived")?,
        state: match state.as_str() {
            "waiting" => JobState::Waiting,
            "working" => JobState::Working,
            "failed" => JobState::Failed(note()?.unwrap_or_default()),
            "held" => JobState::Held(note()?.unwrap_or_default()),
            _ => JobState::Done,
        },
        revision: revision(row)?,
    })
}

pub(super) fn pending_row(row: &SqliteRow) -> Outcome<PendingRow> {
    let texts: Option<String> = row.try_get("texts")?;
    Ok(PendingRow {
        job: row.try_get("job")?,
        row: parsed(row, "content")?,
        texts: texts.map(|t| parse(&t, "texts")).transpose()?,
    })
}

pub(super) fn claim(row: &SqliteRow) -> Outcome<NumberClaim> {
    Ok(NumberClaim {
        job: row.try_get("name")?,
        source: parsed(row, "source")?,
        is_binding: row.try_get("is_binding")?,
    })
}

pub(super) fn group_size(row: &SqliteRow) -> Outcome<(JobGroup, u64)> {
    let name: String = row.try_get("job_group")?;
    let group = JobGroup::ALL.into_iter().find(|g| g.name() == name);
    let size: i64 = row.try_get("size")?;
    Ok((group.unwrap_or(JobGroup::Asks), size.unsigned_abs()))
}
