//! Views: lists, jobs, traces, files.

use crate::Recording;
use crate::lock::Session;
use crate::routes::{Failure, answer, ask, job_name};
use crate::server::Shared;
use crate::trace::{Compare, View, compared, view as cut};
use crate::view::{self, Viewer};
use crate::words::Words;
use axum::Extension;
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use model::TimeAxis;
use serde::Deserialize;
use std::sync::Arc;

/// Widest view, pixels.
const MAX_PIXELS: usize = 8_000;

/// Search in the list of jobs.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct Search {
    /// Words that all must be found.
    pub(crate) q: String,
    /// Group; empty for all.
    pub(crate) group: String,
    /// Customer; empty for all.
    pub(crate) customer: String,
    /// Technician; empty for all.
    pub(crate) technician: String,
    /// First day, as 2026-03-02.
    pub(crate) from: String,
    /// Last day.
    pub(crate) to: String,
}

pub(crate) async fn jobs(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Query(search): Query<Search>,
) -> Response {
    let viewer = viewer(&shared, &session);
    let rows = ask(&shared, |w| w.jobs()).await;
    let page = rows.map(|rows| view::jobs(&viewer, &rows, &search, None).into_response());
    answer(&shared, page)
}

pub(crate) async fn job(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Path(id): Path<String>,
) -> Response {
    let viewer = viewer(&shared, &session);
    let page = read_job(&shared, id).await;
    let page = page.map(|job| view::job(&viewer, &job, None).into_response());
    answer(&shared, page)
}

pub(crate) async fn answers(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Path(id): Path<String>,
) -> Response {
    let viewer = viewer(&shared, &session);
    let page = async {
        let job = read_job(&shared, id).await?;
        let name = job.row.name.clone();
        let answers = ask(&shared, move |w| w.answers(&name)).await?;
        Ok(view::answers(&viewer, &job, &answers).into_response())
    };
    answer(&shared, page.await)
}

pub(crate) async fn trace(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Path((id, capture)): Path<(String, usize)>,
) -> Response {
    let viewer = viewer(&shared, &session);
    let page = async {
        let job = read_job(&shared, id).await?;
        let name = job.row.name.clone();
        let recording = ask(&shared, move |w| w.recording(&name, capture)).await?;
        let recording = recording.ok_or(Failure::NotFound)?;
        Ok(view::trace(&viewer, &job, capture, &recording).into_response())
    };
    answer(&shared, page.await)
}

/// Part of a trace.
#[derive(Debug, Deserialize)]
pub(crate) struct Part {
    from: f64,
    to: f64,
    pixels: usize,
}

/// Buckets of a trace between two times: little-endian; time of the first bucket and width of a bucket in seconds
/// (float64 each), then smallest and largest value of each bucket (float32 each; NaN breaks the line). Of instants that
/// are listed, width is zero and each bucket has its time before it (float64).
pub(crate) async fn data(
    State(shared): State<Arc<Shared>>,
    Path((id, capture, trace)): Path<(String, usize, usize)>,
    Query(part): Query<Part>,
) -> Response {
    let buckets = move |r: &Recording| {
        let trace = r.traces.get(trace)?;
        let sample = |t: f64| position(&trace.time, t);
        let view = cut(
            &trace.pyramid,
            sample(part.from),
            sample(part.to).saturating_add(2),
            part.pixels.clamp(1, MAX_PIXELS),
        );
        Some(encode(&trace.time, &view))
    };
    part_of_recording(&shared, id, capture, buckets).await
}

/// Way in which two speeds are compared.
#[derive(Debug, Deserialize)]
pub(crate) struct Comparison {
    by: Compare,
}

/// Buckets of two compared speeds, as those of one trace.
pub(crate) async fn compare(
    State(shared): State<Arc<Shared>>,
    Path((id, capture, one, other)): Path<(String, usize, usize, usize)>,
    Query(part): Query<Part>,
    Query(comparison): Query<Comparison>,
) -> Response {
    let buckets = move |r: &Recording| {
        let (one, other) = (r.traces.get(one)?, r.traces.get(other)?);
        let to = position(&one.time, part.to).saturating_add(2);
        let range = position(&one.time, part.from)..to;
        let pixels = part.pixels.clamp(1, MAX_PIXELS);
        let view = compared(one, other, comparison.by, range, pixels);
        Some(encode(&one.time, &view))
    };
    part_of_recording(&shared, id, capture, buckets).await
}

async fn part_of_recording(
    shared: &Arc<Shared>,
    id: String,
    capture: usize,
    part: impl FnOnce(&Recording) -> Option<Vec<u8>> + Send + 'static,
) -> Response {
    let bytes = async {
        let name = job_name(shared, id).await?;
        let bytes = ask(shared, move |w| {
            let recording = w.recording(&name, capture)?;
            Ok(recording.as_deref().and_then(part))
        });
        bytes.await?.ok_or(Failure::NotFound)
    };
    let kind = [(header::CONTENT_TYPE, "application/octet-stream")];
    answer(shared, bytes.await.map(|b| (kind, b).into_response()))
}

fn encode(time: &TimeAxis, view: &View) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(16 + view.buckets.len() * 16);
    let (start, step) = match time {
        TimeAxis::Even {
            start_s, step_s, ..
        } => (
            start_s + view.first as f64 * step_s,
            view.width as f64 * step_s,
        ),
        TimeAxis::Listed(_) => (0.0, 0.0),
    };
    bytes.extend(start.to_le_bytes());
    bytes.extend(step.to_le_bytes());
    for (i, bucket) in view.buckets.iter().enumerate() {
        if let TimeAxis::Listed(instants) = time {
            let instant = instants.get(view.first + i * view.width);
            bytes.extend(instant.copied().unwrap_or(f64::NAN).to_le_bytes());
        }
        bytes.extend(bucket.min.to_le_bytes());
        bytes.extend(bucket.max.to_le_bytes());
    }
    bytes
}

/// Last sample at or before a time.
fn position(time: &TimeAxis, t: f64) -> usize {
    match time {
        TimeAxis::Even {
            start_s,
            step_s,
            len,
        } => (((t - start_s) / step_s).max(0.0) as usize).min(*len),
        TimeAxis::Listed(instants) => instants.partition_point(|&i| i <= t).saturating_sub(1),
    }
}

pub(crate) async fn document(
    State(shared): State<Arc<Shared>>,
    Path((id, document)): Path<(String, usize)>,
) -> Response {
    let file = async {
        let job = job_name(&shared, id).await?;
        let found = ask(&shared, move |w| w.document(&job, document)).await?;
        let (name, bytes) = found.ok_or(Failure::NotFound)?;
        let kind = match name.rsplit_once('.').map(|(_, ending)| ending) {
            Some("pdf") => "application/pdf",
            Some("json") => "application/json",
            Some("csv") => "text/csv; charset=utf-8",
            // What a browser could run is shown as text.
            _ => "text/plain; charset=utf-8",
        };
        let headers = [
            (header::CONTENT_TYPE, kind.to_owned()),
            (
                header::CONTENT_DISPOSITION,
                format!("inline; filename=\"{name}\""),
            ),
        ];
        Ok((headers, bytes).into_response())
    };
    answer(&shared, file.await)
}

/// A photo of a job. Whatever else a file holds is not served: a browser could run it.
pub(crate) async fn photo(
    State(shared): State<Arc<Shared>>,
    Path((id, file)): Path<(String, usize)>,
) -> Response {
    let photo = async {
        let job = job_name(&shared, id).await?;
        let bytes = ask(&shared, move |w| w.photo(&job, file)).await?;
        let bytes = bytes.ok_or(Failure::NotFound)?;
        let kind = match bytes.as_slice() {
            [0xff, 0xd8, 0xff, ..] => "image/jpeg",
            [0x89, b'P', b'N', b'G', ..] => "image/png",
            _ => return Err(Failure::NotFound),
        };
        Ok(([(header::CONTENT_TYPE, kind)], bytes).into_response())
    };
    answer(&shared, photo.await)
}

pub(crate) async fn read_job(shared: &Arc<Shared>, id: String) -> Result<crate::Job, Failure> {
    let name = job_name(shared, id).await?;
    ask(shared, move |w| w.job(&name))
        .await?
        .ok_or(Failure::NotFound)
}

/// The person who looks at a page. Made before what is shown is read: a change in between makes the page load itself anew.
pub(crate) fn viewer<'s>(shared: &'s Shared, session: &'s Session) -> Viewer<'s> {
    let words: &Words = &shared.words;
    Viewer {
        words,
        session,
        persons: shared.workshop.persons(),
        has_proxy: !shared.hosts.proxied().is_empty(),
        changes: shared.news.borrow().changes,
    }
}
