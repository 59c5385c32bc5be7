//! `plugins`: what was found, and the proof of one library against the plugin interface.

use crate::arguments::Usage;
use crate::house::House;
use anyhow::Result;
use plugin_host::Outcome;
use std::path::Path;

/// Lists the plugins. Clean when at least one was found and none was refused.
pub fn list(shop: Option<&Path>) -> Result<bool> {
    let house = House::open(shop, false)?;
    for p in house.host.plugins() {
        println!("{} {}  {}  ({})", p.id, p.version, p.name, p.vendor);
        println!("  needs   {}", sentence(&p.needs, "nothing", " and "));
        println!("  uses    {}", sentence(&p.uses, "nothing more", ", "));
        println!("  library {}", p.path.display());
        println!("  blake3  {}", p.blake3);
    }
    for r in house.host.refused() {
        println!("refused: {}: {}", r.path.display(), r.reason);
    }
    if house.host.plugins().is_empty() {
        println!(
            "No plugin was found. Put their libraries into a folder `plugins` beside the executable, or name"
        );
        println!(
            "their folder in the environment variable BAYBRIEF_PLUGINS or in shop.toml ([plugins] folders)."
        );
    }
    Ok(!house.host.plugins().is_empty() && house.host.refused().is_empty())
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

/// Proves a library. Clean when no check failed or crashed.
pub fn check(library: &Path) -> Result<bool> {
    if !library.is_file() {
        return Err(Usage(format!(
            "{}: there is no such file; name a plugin library",
            library.display()
        ))
        .into());
    }
    let mut clean = true;
    for c in plugin_host::check(library) {
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
