//! `plugins`: lists the libraries, validates one, pins their hashes, releases one from quarantine.

use crate::arguments::Usage;
use crate::context::{AppContext, Settings, crash_log};
use crate::output::say;
use anyhow::Result;
use plugin_host::Outcome;
use std::path::Path;

/// Lists the plugins. Clean when at least one was found and none was refused.
pub fn list(shop: Option<&Path>) -> Result<bool> {
    let context = AppContext::open(shop, false)?;
    let host = &context.host;
    for library in host.libraries() {
        let d = &library.declaration;
        say!("{} {}  {}  ({})", d.system, d.version, d.name, d.vendor);
        say!("  library {}", library.path.display());
        say!("  sha256  {}", library.sha256);
        if library.foreign {
            say!("  foreign it did not come with baybrief: its weights are capped");
        }
        if let Some(inputs) = host.quarantined(library) {
            say!(
                "  quarantined: it crashed or ran out of time on {inputs} recordings in a row; \
                 `baybrief plugins --unquarantine {}`",
                library.path.display()
            );
        }
        if !d.assets.is_empty() {
            let names: Vec<&str> = d.assets.iter().map(|a| a.name.as_str()).collect();
            say!("  assets  {}", names.join(", "));
        }
        for a in &d.analyzers {
            say!("  {}  {}", a.id, a.name);
            say!("    needs   {}", sentence(&a.needs, "nothing", " and "));
            say!("    uses    {}", sentence(&a.uses, "nothing more", ", "));
            let kinds = a.outputs.kinds.iter().map(|k| k.name.clone());
            let series = a.outputs.series.iter().map(|s| s.name.clone());
            for (word, names) in [
                ("inputs ", a.inputs.clone()),
                ("kinds  ", kinds.collect()),
                ("series ", series.collect()),
            ] {
                if !names.is_empty() {
                    say!("    {word} {}", names.join(", "));
                }
            }
        }
    }
    for r in host.refused() {
        say!("refused: {}: {}", r.path.display(), r.reason);
    }
    say!("sandbox: {}", host.sandbox());
    if host.libraries().is_empty() {
        say!(
            "No plugin was found. Put their libraries into a folder `plugins` beside the executable, or name"
        );
        say!(
            "their folder in the environment variable BAYBRIEF_PLUGINS or in shop.toml ([plugins] folders)."
        );
    }
    Ok(!host.libraries().is_empty() && host.refused().is_empty())
}

fn sentence(roles: &[String], none: &str, between: &str) -> String {
    if roles.is_empty() {
        return none.into();
    }
    roles
        .iter()
        .map(|r| r.replace('|', " or "))
        .collect::<Vec<_>>()
        .join(between)
}

fn must_be_there(library: &Path) -> Result<()> {
    if library.is_file() {
        return Ok(());
    }
    let said = format!(
        "{}: there is no such file; name a plugin library",
        library.display()
    );
    Err(Usage(said).into())
}

/// Pins the libraries in the folders that are configured.
pub fn pin(shop: Option<&Path>) -> Result<bool> {
    let pinned = plugin_host::pin(&Settings::read(shop)?.host_options())?;
    for p in &pinned {
        say!("pinned {}  {}", p.sha256, p.path.display());
        if let Some(before) = &p.before {
            say!("  before {before}");
        }
    }
    if pinned.is_empty() {
        say!(
            "Nothing was pinned: there is no library in a folder `plugins` beside the executable, in the environment"
        );
        say!(
            "variable BAYBRIEF_PLUGINS or in shop.toml ([plugins] folders). What a build made changes with every build."
        );
    }
    Ok(!pinned.is_empty())
}

/// Releases a library from quarantine.
pub fn unquarantine(library: &Path) -> Result<bool> {
    must_be_there(library)?;
    let known = match crash_log() {
        Some(log) => plugin_host::unquarantine(&log, library)?,
        None => false,
    };
    let path = library.display();
    if known {
        say!("{path}: its crashes are forgotten; it runs again.");
    } else {
        say!("{path}: it is not quarantined: no crash of it is on record.");
    }
    Ok(known)
}

/// Validates a library. Clean when no check failed or crashed.
pub fn validate(library: &Path, seed: u64) -> Result<bool> {
    must_be_there(library)?;
    let mut clean = true;
    for c in plugin_host::validate(library, seed) {
        let word = match c.outcome {
            Outcome::Pass => "pass",
            Outcome::Fail => "FAIL",
            Outcome::Warn => "warn",
            Outcome::Skipped => "skipped",
            Outcome::Crashed => "CRASHED",
        };
        clean &= !matches!(c.outcome, Outcome::Fail | Outcome::Crashed);
        say!("{word:8} {}: {}", c.name, c.sentence);
    }
    Ok(clean)
}
