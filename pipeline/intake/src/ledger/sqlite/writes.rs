//! Writes, each inside one transaction.

use super::super::{JobGroup, JobNote, JobState, RevisionCommit};
use super::Outcome;
use super::rows::{job_view, json};
use crate::stamps::stamps;
use crate::time::to_millis;
use model::Outcome as JobOutcome;
use model::labour::WorkEvent;
use sqlx::{Row, Sqlite, Transaction, query};
use std::time::SystemTime;

type Writing<'a> = Transaction<'a, Sqlite>;

pub(super) async fn job(t: &mut Writing<'_>, job: &JobNote) -> Outcome<()> {
    let (state, why) = match &job.state {
        JobState::Waiting => ("waiting", None),
        JobState::Working => ("working", None),
        JobState::Done => ("done", None),
        JobState::Failed(why) => ("failed", Some(why)),
        JobState::Held(why) => ("held", Some(why)),
    };
    query(
        "INSERT INTO job (name, source, arrived, state, note, fingerprint, job_group) VALUES (?, ?, ?, ?, ?, ?, ?) \
         ON CONFLICT (name) DO UPDATE SET source = excluded.source, arrived = excluded.arrived, \
         state = excluded.state, note = excluded.note, \
         fingerprint = COALESCE(excluded.fingerprint, fingerprint), job_group = excluded.job_group",
    )
    .bind(&job.name)
    .bind(json(&job.source)?)
    .bind(to_millis(job.arrived))
    .bind(state)
    .bind(why)
    .bind(&job.fingerprint)
    .bind(JobGroup::new(&job.state, None).name())
    .execute(&mut **t)
    .await?;
    if matches!(job.state, JobState::Done | JobState::Failed(_)) {
        // Whatever ends in a report or an error does not end the service.
        query("DELETE FROM crash WHERE job = ?")
            .bind(&job.name)
            .execute(&mut **t)
            .await?;
    }
    Ok(())
}

/// Counts an end of the service against each job that it worked on.
pub(super) async fn count_crash(t: &mut Writing<'_>) -> Outcome<()> {
    query(
        "INSERT INTO crash (job, fingerprint, count) \
         SELECT name, fingerprint, 1 FROM job WHERE state = 'working' AND fingerprint IS NOT NULL \
         ON CONFLICT (job) DO UPDATE SET fingerprint = excluded.fingerprint, \
         count = CASE WHEN fingerprint = excluded.fingerprint THEN count + 1 ELSE 1 END",
    )
    .execute(&mut **t)
    .await?;
    Ok(())
}

/// Nothing is to be done for a job, or for any: done with a revision, forgotten without.
pub(super) async fn release(t: &mut Writing<'_>, job: Option<&str>) -> Outcome<()> {
    query(
        "DELETE FROM job WHERE (?1 IS NULL OR name = ?1) AND state <> 'done' \
         AND NOT EXISTS (SELECT 1 FROM revision WHERE job = job.name)",
    )
    .bind(job)
    .execute(&mut **t)
    .await?;
    let rows = query("SELECT name FROM job WHERE (?1 IS NULL OR name = ?1) AND state <> 'done'")
        .bind(job)
        .fetch_all(&mut **t)
        .await?;
    for row in rows {
        let name: String = row.try_get("name")?;
        query("UPDATE job SET state = 'done', note = NULL WHERE name = ?")
            .bind(&name)
            .execute(&mut **t)
            .await?;
        group(t, &name).await?;
    }
    Ok(())
}

/// Brings the group of a job up to date.
pub(super) async fn group(t: &mut Writing<'_>, job: &str) -> Outcome<()> {
    let row = query("SELECT * FROM newest WHERE job_name = ?")
        .bind(job)
        .fetch_one(&mut **t)
        .await?;
    let view = job_view(&row)?;
    let group = JobGroup::new(&view.state, view.revision.as_ref());
    let number = view.revision.map(|r| number_key(&r.job_number));
    query("UPDATE job SET job_group = ?, number = ? WHERE name = ?")
        .bind(group.name())
        .bind(number)
        .bind(job)
        .execute(&mut **t)
        .await?;
    Ok(())
}

/// Billing systems do not tell capitals from small letters, nor blanks at the ends.
pub(super) fn number_key(number: &str) -> String {
    number.trim().to_lowercase()
}

/// Returns whether the job is as it was when the commit was made.
pub(super) async fn is_current(t: &mut Writing<'_>, commit: &RevisionCommit<'_>) -> Outcome<bool> {
    let job = &commit.revision.job;
    let row = query("SELECT token FROM revision WHERE job = ? ORDER BY number DESC LIMIT 1")
        .bind(job)
        .fetch_optional(&mut **t)
        .await?;
    let token: Option<String> = row.map(|r| r.try_get("token")).transpose()?;
    Ok(token.as_deref() == commit.base && event_count(t, job).await? == commit.events_known)
}

/// Number of the events of lines of a job.
pub(super) async fn event_count(t: &mut Writing<'_>, job: &str) -> Outcome<usize> {
    let row = query("SELECT COUNT(*) AS events FROM work_event WHERE job = ?")
        .bind(job)
        .fetch_one(&mut **t)
        .await?;
    let events: i64 = row.try_get("events")?;
    Ok(usize::try_from(events).unwrap_or(usize::MAX))
}

pub(super) async fn revision(t: &mut Writing<'_>, commit: &RevisionCommit<'_>) -> Outcome<()> {
    let r = commit.revision;
    query(
        "INSERT INTO revision (job, number, token, job_number, fingerprint, outcome, verdict, sentence, asks, set_aside, \
         shop, texts, made, published) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 0) \
         ON CONFLICT (job, number) DO UPDATE SET token = excluded.token, job_number = excluded.job_number, \
         fingerprint = excluded.fingerprint, outcome = excluded.outcome, verdict = excluded.verdict, \
         sentence = excluded.sentence, asks = excluded.asks, set_aside = excluded.set_aside, shop = excluded.shop, \
         texts = excluded.texts, made = excluded.made, published = 0",
    )
    .bind(&r.job)
    .bind(r.number)
    .bind(&r.token)
    .bind(&r.job_number)
    .bind(&r.fingerprint)
    .bind(&r.outcome)
    .bind(&r.verdict)
    .bind(&r.sentence)
    .bind(json(&r.asks)?)
    .bind(i64::try_from(r.set_aside).unwrap_or(i64::MAX))
    .bind(r.shop.as_ref().map(|p| p.to_string_lossy().into_owned()))
    .bind(commit.texts.map(json).transpose()?)
    .bind(to_millis(r.made))
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

pub(super) async fn rows(t: &mut Writing<'_>, commit: &RevisionCommit<'_>) -> Outcome<()> {
    for row in commit.rows {
        query(
            "INSERT INTO labour (job, revision, row_id, content, written) VALUES (?, ?, ?, ?, 0)",
        )
        .bind(&commit.revision.job)
        .bind(commit.revision.number)
        .bind(&row.row_id)
        .bind(json(row)?)
        .execute(&mut **t)
        .await?;
    }
    Ok(())
}

/// Keeps the stamps of a job's files, and its job.toml as it was last right.
pub(super) async fn known_files(t: &mut Writing<'_>, commit: &RevisionCommit<'_>) -> Outcome<()> {
    query("UPDATE job SET stamps = ?, answers = COALESCE(?, answers) WHERE name = ?")
        .bind(stamps(commit.files))
        .bind(commit.answers)
        .bind(&commit.revision.job)
        .execute(&mut **t)
        .await?;
    Ok(())
}

/// The job is not known any more as it lies in the inbox: the next look reads it again.
pub(super) async fn forget_stamps(t: &mut Writing<'_>, job: &str) -> Outcome<()> {
    query("UPDATE job SET stamps = NULL WHERE name = ?")
        .bind(job)
        .execute(&mut **t)
        .await?;
    Ok(())
}

/// Puts entries of the inbox that belong to no job in place of those that were known.
pub(super) async fn refusals(t: &mut Writing<'_>, texts: &[String]) -> Outcome<()> {
    query("DELETE FROM refusal").execute(&mut **t).await?;
    for text in texts {
        query("INSERT INTO refusal (text) VALUES (?)")
            .bind(text)
            .execute(&mut **t)
            .await?;
    }
    Ok(())
}

pub(super) async fn work_event(t: &mut Writing<'_>, job: &str, event: &WorkEvent) -> Outcome<()> {
    query("INSERT INTO work_event (job, action, content) VALUES (?, ?, ?)")
        .bind(job)
        .bind(event.action.to_string())
        .bind(json(event)?)
        .execute(&mut **t)
        .await?;
    Ok(())
}

pub(super) async fn outcome(t: &mut Writing<'_>, job: &str, outcome: &JobOutcome) -> Outcome<()> {
    query("INSERT INTO outcome (job, system, content) VALUES (?, ?, ?)")
        .bind(job)
        .bind(&outcome.system)
        .bind(json(outcome)?)
        .execute(&mut **t)
        .await?;
    Ok(())
}

pub(super) async fn step(t: &mut Writing<'_>, job: &str, revision: u32, step: &str) -> Outcome<()> {
    query("INSERT INTO step (job, revision, step, at) VALUES (?, ?, ?, ?)")
        .bind(job)
        .bind(revision)
        .bind(step)
        .bind(to_millis(SystemTime::now()))
        .execute(&mut **t)
        .await?;
    Ok(())
}
