//! `seal`: everything that a report rests on in one archive, signed.

use super::exchange::shop_key;
use super::learn::read_case;
use super::report::{NewestReport, now};
use crate::arguments::{SealArguments, Usage};
use crate::context::{AppContext, SHEET_FOLDERS, folder_name};
use crate::words::tell;
use anyhow::{Context, Result};
use chrono::{Local, NaiveDateTime, Timelike};
use intake::{JobSource, Revision, Store};
use learn::unit::{UnitKey, vehicle_id};
use model::Case;
use model::labour::{HandedRow, WorkEvent};
use model::outcome::Outcome;
use seal::{Entry, Sealing};
use serde::{Deserialize, Serialize};

/// Facts of the ledger that a report depends on, in the archive: events/ledger.json.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct LedgerRecord {
    /// Name of the job.
    pub job: String,
    /// Number of the report.
    pub revision: u32,
    /// Person who reviewed it, when and with which remark.
    pub signature: Option<(String, NaiveDateTime, Option<String>)>,
    /// Time at which it was made, in the shop's time.
    pub made: NaiveDateTime,
    /// Events of its lines of work, oldest first.
    pub events: Vec<WorkEvent>,
    /// Rows that the billing system got, oldest first.
    pub handed: Vec<HandedRow>,
    /// Outcomes, oldest first.
    pub outcomes: Vec<Outcome>,
    /// Other jobs that claimed its number.
    pub number_taken_by: Vec<String>,
    /// job.toml as it was last right, as TOML: it counts where the sealed one has wrong lines.
    pub answers: Option<String>,
}

/// Name of the facts of the ledger in an archive.
pub const LEDGER: &str = "events/ledger.json";

/// Name of the shop's settings in an archive.
pub const SETTINGS: &str = "settings/shop.toml";

/// Seals the newest report of a job.
pub fn seal(arguments: SealArguments) -> Result<bool> {
    let SealArguments { to, report } = arguments;
    let NewestReport {
        job,
        mut store,
        revision: latest,
        context,
    } = NewestReport::open(report)?;
    let case = read_case(&mut *store, &job, latest.number)?;
    let key = shop_key(&context)?;
    let mut entries = recordings(store.source(&latest)?, &latest, &case)?;
    entries.extend(results(&mut *store, &job, latest.number)?);
    entries.extend(settings(&context)?);
    entries.extend(in_force(&job, &case, &context)?);
    let record = ledger_record(&mut *store, &latest, &case)?;
    entries.push(json(LEDGER, &record)?);
    entries.push(Entry::bytes("README.txt", READ_ME.into()));
    let now = now();
    let mut sealing = Sealing::new(
        &job,
        latest.number,
        now.format("%Y-%m-%dT%H:%M:%S").to_string(),
        env!("CARGO_PKG_VERSION"),
    );
    let libraries = case.plugins.iter();
    sealing.libraries = libraries
        .map(|p| (p.id.clone(), p.sha256.clone()))
        .collect();
    let to =
        to.unwrap_or_else(|| format!("{}-report-{}.zip", file_name(&job), latest.number).into());
    let sealed = seal::write(&to, sealing, entries, &key)?;
    let localizer = context.localizer();
    tell!(localizer, "console-sealed",
        "job" => job.as_str(),
        "report" => latest.number,
        "count" => sealed.files.len(),
        "path" => to.display().to_string(),
    );
    tell!(localizer, "console-sealed-holds", "key" => key.public().thumbprint());
    Ok(true)
}

/// The job's files as the report read them.
fn recordings(source: JobSource, latest: &Revision, case: &Case) -> Result<Vec<Entry>> {
    let gathered = source.gather()?;
    let mut entries = Vec::new();
    for file in &case.files {
        let entry = gathered.iter().find(|e| e.path == file.path).ok_or_else(|| {
            Usage(format!(
                "{}: the file {} is not there any more; put it back into the inbox, and seal again",
                latest.job, file.path
            ))
        })?;
        // What could not be read then is sealed as far as it can be read now: nothing rests on it.
        if file.sha256.is_some() || entry.content.is_ok() {
            let path = format!("job/{}", file.path);
            entries.push(Entry::file(
                path,
                entry.location.clone(),
                file.sha256.clone(),
            ));
        }
    }
    Ok(entries)
}

fn results(store: &mut dyn Store, job: &str, number: u32) -> Result<Vec<Entry>> {
    let names = store.results(job, number)?.into_iter();
    names
        .map(|name| {
            let file = store.result(job, number, &name)?;
            Ok(Entry::file(format!("results/{name}"), file, None))
        })
        .collect()
}

/// shop.toml and the shop's own sheets, sentences and presets.
fn settings(context: &AppContext) -> Result<Vec<Entry>> {
    let mut entries = Vec::new();
    if let Some(file) = &context.settings.file {
        entries.push(Entry::file(SETTINGS, file.clone(), None));
    }
    for (number, folder) in context.settings.sheet_folders().enumerate() {
        for kind in SHEET_FOLDERS {
            let Ok(listed) = std::fs::read_dir(folder.join(kind)) else {
                continue;
            };
            let mut files: Vec<_> = listed.filter_map(|e| Some(e.ok()?.path())).collect();
            files.sort();
            for file in files.into_iter().filter(|f| f.is_file()) {
                let name = file.file_name().unwrap_or_default().to_string_lossy();
                let path = format!("settings/sheets/{number}/{kind}/{name}");
                entries.push(Entry::file(path, file.clone(), None));
            }
        }
    }
    Ok(entries)
}

/// Limits and causes that the job was held against, whole, and what was learned of its unit.
fn in_force(job: &str, case: &Case, context: &AppContext) -> Result<Vec<Entry>> {
    let mut entries = Vec::new();
    let vehicle = vehicle_id(&case.vehicle, job);
    let mut keys: Vec<UnitKey> = Vec::new();
    for record in &case.systems {
        let name = &record.system;
        if let Some(sheet) = context.knowledge.limits_sheet(&record.limits) {
            entries.push(json(&format!("in-force/{name}/limits.json"), sheet)?);
        }
        if let Some(system) = context.knowledge.system(name) {
            entries.push(json(
                &format!("in-force/{name}/causes.json"),
                &system.causes,
            )?);
        }
        for capture in &case.captures {
            keys.extend(UnitKey::of_capture(case, record, Some(capture)));
        }
    }
    for sheet in context.learned.as_applied(&keys, &vehicle) {
        let name = folder_name(&sheet.key, sheet.origin.as_ref());
        let path = format!("settings/learned/limits/{name}/{:04}.toml", sheet.version);
        let text = toml::to_string(&sheet).context("a learned sheet")?;
        entries.push(Entry::bytes(path, text.into_bytes()));
    }
    let folder = crate::context::LearnedFolder::of(&context.settings);
    if let Some(weights) = folder
        .map(|f| f.weights())
        .transpose()?
        .and_then(|w| w.last().cloned())
    {
        let path = format!("settings/learned/weights/{:04}.toml", weights.version);
        let text = toml::to_string(&weights).context("counted weights")?;
        entries.push(Entry::bytes(path, text.into_bytes()));
    }
    Ok(entries)
}

fn ledger_record(store: &mut dyn Store, latest: &Revision, case: &Case) -> Result<LedgerRecord> {
    let job = &latest.job;
    let number_taken_by = store.number_conflicts(&case.job.number, job)?;
    let ledger = store.ledger();
    let made = chrono::DateTime::<Local>::from(latest.made).naive_local();
    Ok(LedgerRecord {
        job: job.clone(),
        revision: latest.number,
        signature: latest.signature.clone().map(|s| (s.by, s.at, s.note)),
        made: made.with_nanosecond(0).unwrap_or(made),
        events: ledger.work_events(job)?,
        handed: ledger.handed_rows(job)?,
        outcomes: ledger.outcomes(job)?,
        number_taken_by,
        answers: ledger.answers(job)?,
    })
}

fn json(path: &str, value: &impl Serialize) -> Result<Entry> {
    let mut bytes = serde_json::to_vec_pretty(value).with_context(|| path.to_owned())?;
    bytes.push(b'\n');
    Ok(Entry::bytes(path, bytes))
}

/// A job's name as that of a file.
fn file_name(job: &str) -> String {
    let plain = |c: char| {
        if c.is_alphanumeric() || "-_.".contains(c) {
            c
        } else {
            '-'
        }
    };
    job.chars().map(plain).collect()
}

/// Text for somebody who has never seen such an archive.
const READ_ME: &str = "\
Sealed evidence of one vehicle's visit.

job/         the recordings and texts as they were added
results/     the report and everything that was handed over with it
settings/    the shop's settings, sheets of its own, limits that it learned
in-force/    the limits and the weights of evidence that the verdict rests on, whole
events/      what was authorised, done, billed and found, with who and when
manifest.json   SHA-256 of every file, and of the analysis libraries that ran
manifest.jws    the shop's signature over manifest.json: a JSON Web Signature (RFC 7515), Ed25519 (RFC 8037)

`baybrief verify FILE` checks all of it. Without that program: any JOSE library checks manifest.jws, whose payload is
manifest.json byte for byte; `sha256sum` checks the files. The key in the signature's header tells who sealed it only
where its thumbprint (RFC 7638) is the one that the shop made known.
";
