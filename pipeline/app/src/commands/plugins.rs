//! `plugins`: lists the libraries, validates one, pins their hashes, releases one from quarantine.

use crate::arguments::Usage;
use crate::context::{AppContext, Settings, crash_log};
use crate::output::say;
use crate::words::{self, fluent_args, tell};
use anyhow::Result;
use plugin_host::Outcome;
use report::localizer::Localizer;
use std::path::Path;

/// Lists the plugins. Clean when at least one was found and none was refused.
pub fn list(shop: Option<&Path>) -> Result<bool> {
    let context = AppContext::open(shop, false)?;
    let (host, localizer) = (&context.host, context.localizer());
    for library in host.libraries() {
        let d = &library.declaration;
        say!("{} {}  {}  ({})", d.system, d.version, d.name, d.vendor);
        let path = library.path.display().to_string();
        tell!(localizer, "console-plugin-library", "path" => path.as_str());
        say!("  SHA-256 {}", library.sha256);
        if library.foreign {
            tell!(localizer, "console-plugin-foreign");
        }
        if let Some(inputs) = host.quarantined(library) {
            tell!(localizer, "console-plugin-quarantined", "count" => inputs, "path" => path);
        }
        if !d.assets.is_empty() {
            let names: Vec<&str> = d.assets.iter().map(|a| a.name.as_str()).collect();
            tell!(localizer, "console-plugin-assets", "names" => names.join(", "));
        }
        for a in &d.analyzers {
            say!("  {}  {}", a.id, a.name);
            let needs = alternatives(&a.needs, "console-plugin-all-of", localizer);
            tell!(localizer, "console-plugin-needs", "roles" => needs);
            let uses = alternatives(&a.uses, "console-plugin-any-of", localizer);
            tell!(localizer, "console-plugin-uses", "roles" => uses);
            let kinds: Vec<&str> = a.outputs.kinds.iter().map(|k| k.name.as_str()).collect();
            let series: Vec<&str> = a.outputs.series.iter().map(|s| s.name.as_str()).collect();
            if !a.inputs.is_empty() {
                tell!(localizer, "console-plugin-inputs", "names" => a.inputs.join(", "));
            }
            if !kinds.is_empty() {
                tell!(localizer, "console-plugin-kinds", "names" => kinds.join(", "));
            }
            if !series.is_empty() {
                tell!(localizer, "console-plugin-series", "names" => series.join(", "));
            }
        }
    }
    for r in host.refused() {
        let path = r.path.display().to_string();
        let reason = localizer.translate(&r.reason);
        tell!(localizer, "console-plugin-refused", "path" => path, "reason" => reason);
    }
    let sandbox = localizer.translate(&host.sandbox().to_string());
    tell!(localizer, "console-plugin-sandbox", "what" => sandbox);
    if host.libraries().is_empty() {
        tell!(localizer, "console-plugin-none");
    }
    Ok(!host.libraries().is_empty() && host.refused().is_empty())
}

/// Roles joined by the sentence of `key`; alternatives of one role stand as such.
fn alternatives(roles: &[String], key: &str, localizer: &Localizer) -> String {
    let join = |key: &str, first: String, second: &str| {
        localizer.message_with(key, &fluent_args!["first" => first, "second" => second])
    };
    let words = roles.iter().map(|role| {
        let names = role.split('|').map(str::to_owned);
        let or = |a: String, b: String| join("console-plugin-or", a, &b);
        names.reduce(or).unwrap_or_default()
    });
    let all = words.reduce(|a, b| join(key, a, &b));
    all.unwrap_or_else(|| localizer.message("console-plugin-nothing"))
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
    let settings = Settings::read(shop)?;
    let theme = words::of_shop(&settings.shop)?;
    let localizer = theme.localizer();
    let pinned = plugin_host::pin(&settings.host_options())?;
    for p in &pinned {
        let path = p.path.display().to_string();
        tell!(localizer, "console-plugin-pinned", "hash" => p.sha256.as_str(), "path" => path);
        if let Some(before) = &p.before {
            tell!(localizer, "console-plugin-before", "hash" => before.as_str());
        }
    }
    if pinned.is_empty() {
        tell!(localizer, "console-plugin-nothing-pinned");
    }
    Ok(!pinned.is_empty())
}

/// Releases a library from quarantine.
pub fn unquarantine(library: &Path, shop: Option<&Path>) -> Result<bool> {
    must_be_there(library)?;
    let known = match crash_log() {
        Some(log) => plugin_host::unquarantine(&log, library)?,
        None => false,
    };
    let theme = words::of_shop_file(shop)?;
    let path = library.display().to_string();
    match known {
        true => tell!(theme.localizer(), "console-plugin-released", "path" => path),
        false => tell!(theme.localizer(), "console-plugin-not-quarantined", "path" => path),
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
