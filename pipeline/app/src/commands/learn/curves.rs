//! Curves of known-good units, read from the recordings of proven jobs.

use super::{Lesson, history};
use crate::context::AppContext;
use crate::job::{self, Early};
use crate::output::say_error;
use anyhow::Result;
use intake::{JobSource, Revision, Store};
use learn::curve::{Grid, Shape, Subject, curve};
use learn::known_good::{Proof, proof};
use learn::sheet::{Adoption, Proposal};
use learn::unit::vehicle_id;
use learn::{Job, LearnedSheet, UnitKey};
use model::cause_sheet::Pattern;
use model::{Capture, Channel, Finding, KnownGoodCurve, TimeAxis};
use std::collections::BTreeMap;

/// Adds the curves of a kind of unit to the version that is to be adopted; a version of its own where they alone are
/// new. Another shop's curves come with its values.
pub fn with_curves(
    adopted: Option<LearnedSheet>,
    adoption: &Adoption<'_>,
    proposals: &[&Proposal],
    present: Option<&LearnedSheet>,
    lesson: &mut Lesson,
) -> Result<Option<LearnedSheet>> {
    let first = proposals[0];
    let curves = match &first.origin {
        None => {
            let jobs = history(&mut *lesson.store)?;
            of_unit(&first.key, &jobs, &mut *lesson.store, &lesson.context)
        }
        Some(origin) => {
            let imported = lesson.folder.imported()?;
            let own = imported.into_iter().find(|i| i.origin == *origin);
            own.and_then(|i| learn::exchange::curves(&i.known).remove(&first.key))
                .unwrap_or_default()
        }
    };
    let before = present.map(|s| s.curves.as_slice()).unwrap_or_default();
    if curves.is_empty() || curves == before {
        return Ok(adopted);
    }
    let sheet = adopted.unwrap_or_else(|| LearnedSheet {
        key: first.key.clone(),
        version: present.map_or(0, |s| s.version) + 1,
        reverts_to: None,
        by: adoption.by.into(),
        at: adoption.at,
        program: adoption.program.into(),
        origin: first.origin.clone(),
        included: present.map(|s| s.included.clone()).unwrap_or_default(),
        value: present.map(|s| s.value.clone()).unwrap_or_default(),
        curves: Vec::new(),
    });
    Ok(Some(LearnedSheet { curves, ..sheet }))
}

/// Curves of a kind of unit over the jobs that are proven good.
pub fn of_unit(
    key: &UnitKey,
    jobs: &[(Job, Revision)],
    store: &mut dyn Store,
    context: &AppContext,
) -> Vec<KnownGoodCurve> {
    let Some(system) = context.knowledge.system(&key.system) else {
        return Vec::new();
    };
    let patterns = &system.sheet.curves;
    let events = events(key, jobs, patterns);
    let mut grids: BTreeMap<&Subject, Vec<f64>> = BTreeMap::new();
    for event in &events {
        grids
            .entry(&event.subject)
            .or_default()
            .push(event.duration_s);
    }
    let grids: BTreeMap<Subject, Grid> = grids
        .into_iter()
        .filter_map(|(subject, durations)| Some((subject.clone(), Grid::new(durations)?)))
        .collect();
    let mut shapes: BTreeMap<&Subject, BTreeMap<&str, Vec<Shape>>> = BTreeMap::new();
    for (job, revision) in jobs {
        let of_job: Vec<&Event> = events.iter().filter(|e| e.job == job.name).collect();
        if of_job.is_empty() {
            continue;
        }
        let source = store.source(revision).ok();
        let Some(captures) = source.and_then(|source| captures(job, &source, context)) else {
            say_error!(
                "{}: its recordings are not there any more as they were; no curve of it",
                job.name
            );
            continue;
        };
        for event in of_job {
            let shape = grids
                .get(&event.subject)
                .and_then(|grid| shape(event, *grid, &captures));
            if let Some(shape) = shape {
                let vehicles = shapes.entry(&event.subject).or_default();
                vehicles.entry(&event.vehicle).or_default().push(shape);
            }
        }
    }
    let engine = key.engine.as_deref();
    let engine = engine.and_then(|word| serde_json::from_value(word.into()).ok());
    let curves = shapes.into_iter().filter_map(|(subject, vehicles)| {
        let vehicles: Vec<Vec<Shape>> = vehicles.into_values().collect();
        curve(subject, engine, *grids.get(subject)?, &vehicles)
    });
    curves.collect()
}

/// One event of a job that is proven good.
struct Event {
    job: String,
    vehicle: String,
    file: String,
    subject: Subject,
    onset_s: f64,
    duration_s: f64,
}

fn events(key: &UnitKey, jobs: &[(Job, Revision)], patterns: &[Pattern]) -> Vec<Event> {
    let mut events = Vec::new();
    for (job, _) in jobs {
        let record = job.case.systems.iter().find(|s| s.system == key.system);
        let Some((record, proof)) = record.and_then(|r| Some((r, proof(job, r)?))) else {
            continue;
        };
        let is_of_unit = |proof: Proof, finding: &Finding| {
            let file = finding.file.as_deref();
            let capture = job
                .case
                .captures
                .iter()
                .find(|c| Some(c.file.as_str()) == file);
            capture.is_some_and(|c| {
                proof.includes(c)
                    && UnitKey::of_capture(&job.case, record, Some(c)).as_ref() == Some(key)
            })
        };
        for finding in job.case.findings.iter().filter(|f| is_of_unit(proof, f)) {
            let Some(pattern) = patterns.iter().find(|p| p.matches(finding)) else {
                continue;
            };
            events.extend(event(job, finding, pattern));
        }
    }
    events
}

fn event(job: &Job, finding: &Finding, pattern: &Pattern) -> Option<Event> {
    let onset_s = finding.start_s?;
    Some(Event {
        job: job.name.clone(),
        vehicle: vehicle_id(&job.case.vehicle, &job.name),
        file: finding.file.clone()?,
        subject: Subject {
            kind: finding.kind.clone(),
            message: pattern.message.as_ref().map(|_| finding.message.clone()),
            role: finding.subject.clone()?,
            unit: finding.unit.clone()?,
        },
        onset_s,
        duration_s: finding.end_s? - onset_s,
    })
}

/// Recordings of a job as its report read them; `None` where a file is not there any more or is another one.
fn captures(job: &Job, source: &JobSource, context: &AppContext) -> Option<Vec<Capture>> {
    let entries = source.gather().ok()?;
    let is_as_it_was = job.case.files.iter().all(|file| {
        let entry = entries.iter().find(|e| e.path == file.path);
        entry.is_some_and(|e| e.content.as_ref().ok() == file.sha256.as_ref())
    });
    if !is_as_it_was {
        return None;
    }
    let acquired = job::acquire(
        &entries,
        Early::new(),
        &context.known_names(),
        None,
        context.memory.limits(),
        &context.at_hand,
    );
    let derived = job::derive(acquired, &context.presets, &context.knowledge);
    Some(derived.acquired.captures)
}

fn shape(event: &Event, grid: Grid, captures: &[Capture]) -> Option<Shape> {
    let capture = captures.iter().find(|c| c.file == event.file)?;
    let is_it = |c: &&Channel| {
        c.role
            .as_ref()
            .is_some_and(|r| r.name() == event.subject.role)
    };
    let channel = capture.channels.iter().find(is_it)?;
    let at = |t| value_at(capture, channel, t);
    Some(grid.times(event.onset_s).map(at).collect())
}

/// Value of a channel at an instant, by linear interpolation; NaN outside the recording.
fn value_at(capture: &Capture, channel: &Channel, t: f64) -> f64 {
    let n = capture.time.len().min(channel.samples.len());
    let above = match &capture.time {
        TimeAxis::Even {
            start_s, step_s, ..
        } => ((t - start_s) / step_s).ceil().max(0.0) as usize,
        TimeAxis::Listed(times) => times.partition_point(|at| *at < t),
    };
    if above >= n || (above == 0 && capture.time.at(0) > t) {
        return f64::NAN;
    }
    let below = above.saturating_sub(1);
    let (from, to) = (capture.time.at(below), capture.time.at(above));
    let part = if to > from {
        (t - from) / (to - from)
    } else {
        1.0
    };
    let (a, b) = (channel.value(below), channel.value(above));
    a + part * (b - a)
}
