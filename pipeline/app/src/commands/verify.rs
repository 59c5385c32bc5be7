//! `verify`: what of a sealed archive is as it was, and whether it gives the same verdict again.

use super::exchange::key_file;
use super::seal::{LEDGER, LedgerRecord, SETTINGS};
use crate::arguments::{Usage, VerifyArguments};
use crate::context::{AppContext, SHEET_FOLDERS, Settings};
use crate::job::{self, Early, LedgerFacts, Review};
use crate::memory::Memory;
use crate::output::say;
use crate::words::{self, phrase, tell};
use anyhow::{Context, Result};
use intake::{JobSource, Signature};
use model::JobFile;
use report::localizer::Localizer;
use seal::{Archive, ShopKey};
use std::path::{Path, PathBuf};

/// Checks an archive. `Ok(false)` where something was changed, or where nothing tells whose key sealed it.
pub fn verify(arguments: VerifyArguments) -> Result<bool> {
    let VerifyArguments {
        file,
        key,
        again,
        shop,
    } = arguments;
    let mut archive = Archive::open(&file).map_err(|e| match e {
        seal::SealError::Io { .. } => anyhow::Error::from(Usage(e.to_string())),
        e => e.into(),
    })?;
    let sealing = archive.sealing.clone();
    let theme = words::of_shop_file(shop.as_deref())?;
    let localizer = theme.localizer();
    tell!(localizer, "console-sealed-file",
        "file" => file.display().to_string(),
        "job" => sealing.job.as_str(),
        "report" => sealing.revision,
        "at" => sealing.sealed_at.as_str(),
        "version" => sealing.program.as_str(),
    );
    let faults = archive.faults()?;
    for fault in &faults {
        say!("  {}", localizer.translate(&fault.to_string()));
    }
    match faults.is_empty() {
        true => tell!(localizer, "console-sealed-intact", "count" => sealing.files.len()),
        false => tell!(localizer, "console-sealed-changed"),
    }
    let is_known = signer(&archive, key.as_deref(), shop.as_deref(), localizer)?;
    let is_same = match (again, faults.is_empty()) {
        (true, true) => run_again(&mut archive, localizer)?,
        (true, false) => {
            tell!(localizer, "console-again-not");
            false
        }
        (false, _) => true,
    };
    Ok(faults.is_empty() && is_known && is_same)
}

/// Says whose key it is, as far as that is known.
fn signer(
    archive: &Archive,
    key: Option<&str>,
    shop: Option<&Path>,
    localizer: &Localizer,
) -> Result<bool> {
    let thumbprint = archive.key.thumbprint();
    let own = match shop {
        None => None,
        Some(shop) => {
            let file = key_file(&Settings::read(Some(shop))?)?;
            Some(ShopKey::read(&file)?.public().thumbprint())
        }
    };
    let expected = key.map(str::trim).or(own.as_deref());
    match expected {
        Some(expected) if expected == thumbprint => {
            tell!(localizer, "console-sealed-expected", "key" => thumbprint);
            Ok(true)
        }
        Some(expected) => {
            tell!(localizer, "console-sealed-other", "key" => thumbprint, "expected" => expected);
            Ok(false)
        }
        None => {
            tell!(localizer, "console-sealed-unknown", "key" => thumbprint);
            Ok(false)
        }
    }
}

/// Runs the job once more, by the sealed settings, and compares case.json byte for byte.
fn run_again(archive: &mut Archive, localizer: &Localizer) -> Result<bool> {
    let folder = tempfile::tempdir().context("a temporary folder")?;
    let (job_folder, settings_folder) = (folder.path().join("job"), folder.path().join("settings"));
    std::fs::create_dir_all(&job_folder).context("a temporary folder")?;
    archive.unpack("job/", &job_folder)?;
    archive.unpack("settings/", &settings_folder)?;
    let record: LedgerRecord =
        serde_json::from_slice(&archive.read(LEDGER)?).with_context(|| LEDGER.to_owned())?;
    let settings = match archive.sealing.files.iter().any(|f| f.path == SETTINGS) {
        true => Settings::read(Some(&settings_folder.join("shop.toml")))?.in_folders(
            sheet_folders(&settings_folder),
            settings_folder.join("learned"),
        ),
        false => Settings::default(),
    };
    let mut context = AppContext::with_settings(settings, false, Memory::default())?;
    let now = env!("CARGO_PKG_VERSION");
    if archive.sealing.program != now {
        let then = archive.sealing.program.as_str();
        tell!(localizer, "console-again-version", "now" => now, "then" => then);
    }
    for library in context.host.libraries() {
        let name = &library.declaration.system;
        match archive.sealing.libraries.get(name) {
            Some(sha256) if *sha256 == library.sha256 => {}
            Some(_) => tell!(localizer, "console-again-other-library", "name" => name.as_str()),
            None => tell!(localizer, "console-again-new-library", "name" => name.as_str()),
        }
    }
    let answers = record.answers.as_deref().map(toml::from_str).transpose();
    let answers: Option<JobFile> = answers.with_context(|| LEDGER.to_owned())?;
    let source = JobSource::Folder(job_folder);
    let entries = source.gather()?;
    let examined = job::examine(
        &record.job,
        &source,
        &entries,
        Early::new(),
        answers.as_ref(),
        &mut context,
    )?;
    let signature = record
        .signature
        .clone()
        .map(|(by, at, note)| Signature { by, at, note });
    let facts = LedgerFacts {
        handed: &record.handed,
        events: &record.events,
        number_taken_by: &record.number_taken_by,
        now: record.made,
    };
    let review = Review {
        signature: signature.as_ref(),
        // Only the report says of an earlier signature; case.json is compared.
        earlier: None,
    };
    let results = examined.results(record.revision, review, facts, &context)?;
    let case = results.outputs.iter().find(|o| o.name == "case.json");
    let case = case.context("case.json")?;
    let sealed = archive.read("results/case.json")?;
    match sealed == case.bytes {
        true => tell!(localizer, "console-again-same"),
        false => {
            let difference = difference(&sealed, &case.bytes, localizer);
            tell!(localizer, "console-again-differs", "difference" => difference);
        }
    }
    Ok(sealed == case.bytes)
}

fn sheet_folders(settings: &Path) -> Vec<PathBuf> {
    let folders = (0..).map(|n| settings.join("sheets").join(n.to_string()));
    let has_sheets = |f: &PathBuf| SHEET_FOLDERS.iter().any(|kind| f.join(kind).is_dir());
    // A folder without sheets was not packed; the ones behind it count all the same.
    folders.take(MOST_FOLDERS).filter(has_sheets).collect()
}

/// Most folders with sheets that a shop.toml is expected to name.
const MOST_FOLDERS: usize = 100;

/// First line that differs.
fn difference(then: &[u8], now: &[u8], localizer: &Localizer) -> String {
    let (then, now) = (String::from_utf8_lossy(then), String::from_utf8_lossy(now));
    let lines = then.lines().zip(now.lines()).enumerate();
    match lines.into_iter().find(|(_, (a, b))| a != b) {
        Some((i, (a, b))) => phrase!(localizer, "console-again-line",
            "line" => i + 1,
            "then" => a.trim(),
            "now" => b.trim(),
        ),
        None => phrase!(localizer, "console-again-shorter"),
    }
}
