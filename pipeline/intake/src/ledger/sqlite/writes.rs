//! What is written, inside one transaction.

use super::super::{JobNote, JobState, Made};
use super::Outcome;
use super::rows::{json, millis, signed};
use sqlx::{Sqlite, Transaction, query};
use std::time::SystemTime;

type Writing<'a> = Transaction<'a, Sqlite>;

pub(super) async fn job(t: &mut Writing<'_>, job: &JobNote) -> Outcome<()> {
    let (state, why) = match &job.state {
        JobState::Waiting => ("waiting", None),
        JobState::Working => ("working", None),
        JobState::Done => ("done", None),
        JobState::Failed(why) => ("failed", Some(why)),
    };
    query(
        "INSERT INTO job (name, source, arrived, state, note, changed) VALUES (?, ?, ?, ?, ?, ?) \
         ON CONFLICT (name) DO UPDATE SET source = excluded.source, arrived = excluded.arrived, \
         state = excluded.state, note = excluded.note, changed = excluded.changed",
    )
    .bind(&job.name)
    .bind(json(&job.source)?)
    .bind(millis(job.arrived))
    .bind(state)
    .bind(why)
    .bind(millis(SystemTime::now()))
    .execute(&mut **t)
    .await?;
    Ok(())
}

/// Nothing is to be done for a job, or for any: done with a revision, forgotten without.
pub(super) async fn rest(t: &mut Writing<'_>, job: Option<&str>) -> Outcome<()> {
    query(
        "DELETE FROM job WHERE (?1 IS NULL OR name = ?1) \
         AND NOT EXISTS (SELECT 1 FROM revision WHERE job = job.name)",
    )
    .bind(job)
    .execute(&mut **t)
    .await?;
    query(
        "UPDATE job SET state = 'done', note = NULL WHERE (?1 IS NULL OR name = ?1) AND state <> 'done'",
    )
    .bind(job)
    .execute(&mut **t)
    .await?;
    Ok(())
}

pub(super) async fn revision(t: &mut Writing<'_>, made: &Made<'_>) -> Outcome<()> {
    let r = made.revision;
    query(
        "INSERT INTO revision (job, number, fingerprint, outcome, verdict, sentence, asks, set_aside, shop, made, \
         placed) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 0) ON CONFLICT (job, number) DO UPDATE SET \
         fingerprint = excluded.fingerprint, outcome = excluded.outcome, verdict = excluded.verdict, \
         sentence = excluded.sentence, asks = excluded.asks, set_aside = excluded.set_aside, shop = excluded.shop, \
         made = excluded.made, placed = 0",
    )
    .bind(&r.job)
    .bind(r.number)
    .bind(&r.fingerprint)
    .bind(&r.outcome)
    .bind(&r.verdict)
    .bind(&r.sentence)
    .bind(json(&r.asks)?)
    .bind(i64::try_from(r.set_aside).unwrap_or(i64::MAX))
    .bind(r.shop.as_ref().map(|p| p.to_string_lossy().into_owned()))
    .bind(millis(r.made))
    .execute(&mut **t)
    .await?;
    query("DELETE FROM signature WHERE job = ? AND revision = ?")
        .bind(&r.job)
        .bind(r.number)
        .execute(&mut **t)
        .await?;
    if let Some(s) = &r.signature {
        query("INSERT INTO signature (job, revision, name, note, at) VALUES (?, ?, ?, ?, ?)")
            .bind(&r.job)
            .bind(r.number)
            .bind(&s.by)
            .bind(&s.note)
            .bind(json(&s.at)?)
            .execute(&mut **t)
            .await?;
    }
    Ok(())
}

pub(super) async fn files(t: &mut Writing<'_>, made: &Made<'_>) -> Outcome<()> {
    query("DELETE FROM file WHERE job = ? AND revision = ?")
        .bind(&made.revision.job)
        .bind(made.revision.number)
        .execute(&mut **t)
        .await?;
    for f in made.files {
        query(
            "INSERT INTO file (job, revision, path, size, modified, changed, blake3, problem) \
             VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        )
        .bind(&made.revision.job)
        .bind(made.revision.number)
        .bind(&f.path)
        .bind(signed(f.size))
        .bind(f.modified)
        .bind(f.changed)
        .bind(f.content.as_ref().ok())
        .bind(f.content.as_ref().err())
        .execute(&mut **t)
        .await?;
    }
    Ok(())
}

pub(super) async fn rows(t: &mut Writing<'_>, made: &Made<'_>) -> Outcome<()> {
    for row in made.rows {
        query(
            "INSERT INTO labour (job, revision, row_id, content, day, written) VALUES (?, ?, ?, ?, ?, 0)",
        )
        .bind(&made.revision.job)
        .bind(made.revision.number)
        .bind(&row.row_id)
        .bind(json(row)?)
        .bind(json(&made.day)?)
        .execute(&mut **t)
        .await?;
    }
    Ok(())
}

pub(super) async fn step(t: &mut Writing<'_>, job: &str, revision: u32, step: &str) -> Outcome<()> {
    query("INSERT INTO step (job, revision, step, at) VALUES (?, ?, ?, ?)")
        .bind(job)
        .bind(revision)
        .bind(step)
        .bind(millis(SystemTime::now()))
        .execute(&mut **t)
        .await?;
    Ok(())
}
