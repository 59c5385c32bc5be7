//! `plugins`: what was found, and the proof of one library against the plugin interface.

use crate::arguments::Usage;
use crate::context::{AppContext, Settings, crash_log};
use anyhow::Result;
use plugin_host::Outcome;
use std::path::Path;

/// Lists the plugins. Clean when at least one was found and none was refused.
pub fn list(shop: Option<&Path>) -> Result<bool> {
    let context = AppContext::open(shop, false)?;
    for p in context.host.plugins() {
        println!("{} {}  {}  ({})", p.id, p.version, p.name, p.vendor);
        println!("  needs   {}", sentence(&p.needs, "nothing", " and "));
        println!("  uses    {}", sentence(&p.uses, "nothing more", ", "));
        for (word, tracks) in [("gives", &p.gives), ("takes", &p.takes)] {
            if !tracks.is_empty() {
                println!("  {word}   {}", tracks.join(", "));
            }
        }
        if !p.texts.is_empty() {
            let names: Vec<&str> = p.texts.iter().map(|t| t.name.as_str()).collect();
            println!("  brings  {}", names.join(", "));
        }
        println!("  library {}", p.path.display());
        println!("  blake3  {}", p.blake3);
        if let Some(times) = context.host.set_aside(p) {
            println!(
                "  aside   it crashed or ran out of time {times} times in a row; `baybrief plugins --bring-back {}`",
                p.path.display()
            );
        }
    }
    for r in context.host.refused() {
        println!("refused: {}: {}", r.path.display(), r.reason);
    }
    println!("walls: {}", context.host.walls());
    if context.host.plugins().is_empty() {
        println!(
            "No plugin was found. Put their libraries into a folder `plugins` beside the executable, or name"
        );
        println!(
            "their folder in the environment variable BAYBRIEF_PLUGINS or in shop.toml ([plugins] folders)."
        );
    }
    Ok(!context.host.plugins().is_empty() && context.host.refused().is_empty())
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
        println!("pinned {}  {}", p.blake3, p.path.display());
        if let Some(before) = &p.before {
            println!("  before {before}");
        }
    }
    if pinned.is_empty() {
        println!(
            "Nothing was pinned: there is no library in a folder `plugins` beside the executable, in the environment"
        );
        println!(
            "variable BAYBRIEF_PLUGINS or in shop.toml ([plugins] folders). What a build made changes with every build."
        );
    }
    Ok(!pinned.is_empty())
}

/// Lets a library run again that was set aside for crashing.
pub fn bring_back(library: &Path) -> Result<bool> {
    must_be_there(library)?;
    let known = match crash_log() {
        Some(record) => plugin_host::bring_back(&record, library)?,
        None => false,
    };
    let path = library.display();
    if known {
        println!("{path}: its crashes are forgotten; it runs again.");
    } else {
        println!("{path}: it was not set aside: no crash of it is on record.");
    }
    Ok(known)
}

/// Proves a library. Clean when no check failed or crashed.
pub fn check(library: &Path, seed: u64) -> Result<bool> {
    must_be_there(library)?;
    let mut clean = true;
    for c in plugin_host::check(library, seed) {
        let word = match c.outcome {
            Outcome::Pass => "pass",
            Outcome::Fail => "FAIL",
            Outcome::Warn => "warn",
            Outcome::Skipped => "skipped",
            Outcome::Crashed => "CRASHED",
        };
        clean &= !matches!(c.outcome, Outcome::Fail | Outcome::Crashed);
        println!("{word:8} {}: {}", c.name, c.sentence);
    }
    Ok(clean)
}
