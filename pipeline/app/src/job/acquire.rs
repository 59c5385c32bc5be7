//! Acquire: every file of the job is read or set aside.

use crate::house::{House, line};
use formats::Reading;
use intake::JobEntry;
use model::case::{CaptureRecord, ChannelRecord, FileRecord, FileStatus, JobRecord, SCHEMA};
use model::{Capture, Case, JobFile, Problem, ScanRecord, Verdict, VerdictState};
use std::collections::BTreeMap;
use std::path::PathBuf;

/// What was read of files before they were hashed, by their path inside the job.
pub type Early = BTreeMap<String, Result<Reading, formats::FormatError>>;

/// What the job's files said.
#[derive(Default)]
pub struct Files {
    pub job: Option<JobFile>,
    /// The text of job.toml, for the lines of messages.
    pub job_text: String,
    pub captures: Vec<Capture>,
    pub scans: Vec<ScanRecord>,
    pub records: Vec<FileRecord>,
    pub problems: Vec<Problem>,
}

/// Reads the recordings and scan texts among files.
pub fn early(files: &[(String, PathBuf)]) -> Early {
    let others = files.iter().filter(|(path, _)| !is_job_file(path));
    others
        .map(|(path, location)| (path.clone(), formats::read(location, path)))
        .collect()
}

/// Reads all files, but for those that were read early. Nothing here fails: what cannot be read is set aside with its
/// reason.
pub fn read(entries: &[JobEntry], mut early: Early) -> Files {
    let mut files = Files::default();
    for entry in entries {
        let outcome = read_one(entry, early.remove(&entry.path), &mut files);
        let (kind, status, message) = match outcome {
            Ok((kind, read_as)) => (kind, FileStatus::Read, Some(read_as)),
            Err(message) => ("unknown", FileStatus::SetAside, Some(message)),
        };
        files.records.push(FileRecord {
            path: entry.path.clone(),
            sha256: entry.content.as_ref().ok().map(|d| d.sha256.clone()),
            kind: kind.into(),
            status,
            message,
        });
    }
    files
}

/// `job.toml` of a folder, `JOB_job.toml` among loose files.
fn is_job_file(path: &str) -> bool {
    path == "job.toml" || (path.ends_with("_job.toml") && !path.contains('/'))
}

fn read_one(
    entry: &JobEntry,
    early: Option<Result<Reading, formats::FormatError>>,
    files: &mut Files,
) -> Result<(&'static str, String), String> {
    entry.content.as_ref().map_err(line)?;
    if is_job_file(&entry.path) {
        if files.job.is_some() {
            return Err(format!(
                "{}: a second job file; put both into one",
                entry.path
            ));
        }
        let text = std::fs::read_to_string(&entry.location).map_err(|e| {
            format!(
                "{}: cannot be read as UTF-8 text: {e}; save it as UTF-8",
                entry.path
            )
        })?;
        let job = formats::settings::read_job_file(&text, &entry.path)
            .map_err(|p| p.iter().map(line).collect::<Vec<_>>().join("; "))?;
        files
            .problems
            .extend(formats::settings::job_file_doubts(&job, &text, &entry.path));
        files.job = Some(job);
        files.job_text = text;
        return Ok(("job", "job file".into()));
    }
    let reading = early.unwrap_or_else(|| formats::read(&entry.location, &entry.path));
    match reading.map_err(|e| e.to_string())? {
        Reading::Capture(c) => {
            let read_as = c.read_as.clone();
            files.problems.extend(c.problems.iter().cloned());
            files.captures.push(c);
            Ok(("capture", read_as))
        }
        Reading::Scan(s) => {
            let read_as = s.read_as.clone();
            files.problems.extend(s.problems.iter().cloned());
            files.scans.push(s);
            Ok(("scan", read_as))
        }
    }
}

/// The case as far as the files alone tell it.
pub fn case(name: &str, files: &mut Files, house: &House) -> Case {
    let job = files.job.clone().unwrap_or_default();
    let mut vehicle = job.vehicle.clone();
    let scan_vin = files
        .scans
        .iter()
        .find_map(|s| s.vin.as_ref().map(|v| (s.file.clone(), v.clone())));
    match (&vehicle.vin, scan_vin) {
        (None, Some((_, (vin, _)))) => vehicle.vin = Some(vin),
        (Some(stated), Some((file, (vin, at)))) if !stated.eq_ignore_ascii_case(&vin) => {
            files.problems.push(Problem {
                file,
                place: Some(format!("line {at}")),
                message: format!(
                    "The vehicle number {vin} is not the one in job.toml ({stated}): make sure that the scan text belongs to this vehicle."
                ),
            });
        }
        _ => {}
    }
    if vehicle.odometer_km.is_none() {
        vehicle.odometer_km = files.scans.iter().find_map(|s| s.odometer_km);
    }
    if let Some(unit) = vehicle
        .unit
        .as_deref()
        .filter(|u| house.spec(Some(u)).is_none())
    {
        files.problems.push(Problem {
            file: "job.toml".into(),
            place: Some("vehicle.unit".into()),
            message: format!(
                "There is no spec sheet {unit:?}; known are {}. The general limits are used.",
                house
                    .specs
                    .iter()
                    .map(|s| s.name.as_str())
                    .collect::<Vec<_>>()
                    .join(", ")
            ),
        });
    }
    let captures = files.captures.iter().map(|c| record(c, files)).collect();
    Case {
        schema: SCHEMA.into(),
        job: JobRecord {
            number: job.job.number.clone().unwrap_or_else(|| name.to_string()),
            opened: job
                .job
                .opened
                .or_else(|| files.scans.iter().find_map(|s| s.date)),
            technician: job.job.technician.clone(),
            revision: 0,
            reviewed_by: None,
        },
        customer: job.customer.clone(),
        vehicle,
        concern: job.concern.text.clone(),
        files: files.records.clone(),
        captures,
        codes: files
            .scans
            .iter()
            .flat_map(|s| s.codes.iter().cloned())
            .collect(),
        findings: Vec::new(),
        causes: Vec::new(),
        verdict: Verdict {
            state: VerdictState::Open,
            cause: None,
            teardown: false,
            next: Vec::new(),
            margin_db: None,
            reasons: Vec::new(),
            repair: None,
        },
        labour: Vec::new(),
        labour_totals: None,
        order: None,
        not_run: Vec::new(),
        plugins: Vec::new(),
        problems: files.problems.clone(),
    }
}

fn record(c: &Capture, files: &Files) -> CaptureRecord {
    let stated = super::conditions::of(c, files);
    let n = c.time.len();
    CaptureRecord {
        file: c.file.clone(),
        phase: stated.phase,
        selector: stated.selector,
        engine: stated.engine,
        rate_hz: c.time.rate_hz(),
        samples: n,
        start_s: if n > 0 { c.time.at(0) } else { 0.0 },
        end_s: if n > 0 { c.time.at(n - 1) } else { 0.0 },
        channels: c
            .channels
            .iter()
            .map(|ch| ChannelRecord {
                name: ch.name.clone(),
                role: ch.role.as_ref().map(|r| r.name().into()),
                role_source: ch.role_source.clone(),
                unit: ch.unit.clone(),
                scale: ch.scale,
                offset: ch.offset,
                calibrated: ch.calibrated,
            })
            .collect(),
    }
}
