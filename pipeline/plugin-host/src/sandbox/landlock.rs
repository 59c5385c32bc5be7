//! Paths that may be opened: Landlock.

use super::Landlock;
use ::landlock::{
    ABI, Access, AccessFs, AccessNet, Ruleset, RulesetAttr, RulesetCreatedAttr, RulesetError,
    RulesetStatus, Scope, path_beneath_rules,
};
use std::path::{Path, PathBuf};

/// The newest version of Landlock whose rights are asked for; an older kernel gives those that it knows.
const NEWEST: ABI = ABI::V6;

/// Paths where the dynamic loader finds shared libraries.
const LIBRARIES: [&str; 8] = [
    "/lib",
    "/lib64",
    "/usr/lib",
    "/usr/lib64",
    "/usr/local/lib",
    "/nix/store",
    "/etc/ld.so.cache",
    "/etc/ld.so.preload",
];

/// Lets this thread, and those that it starts, read the library's own folder and the system's libraries, and reach no
/// network address.
pub(super) fn only_libraries(library: &Path) -> Landlock {
    let mut open: Vec<PathBuf> = LIBRARIES.iter().map(PathBuf::from).collect();
    open.extend(library.parent().map(Path::to_path_buf));
    let listed = std::env::var_os("LD_LIBRARY_PATH").unwrap_or_default();
    open.extend(std::env::split_paths(&listed).filter(|p| p.is_absolute()));
    enforce(&open).unwrap_or(Landlock::Absent)
}

/// Lets this thread open no path any more.
pub(super) fn none() -> Landlock {
    enforce(&[]).unwrap_or(Landlock::Absent)
}

fn enforce(open: &[PathBuf]) -> Result<Landlock, RulesetError> {
    let rules = path_beneath_rules(open, AccessFs::from_read(NEWEST));
    let status = Ruleset::default()
        .handle_access(AccessFs::from_all(NEWEST))?
        .handle_access(AccessNet::from_all(NEWEST))?
        .scope(Scope::from_all(NEWEST))?
        .create()?
        .add_rules(rules)?
        .restrict_self()?;
    Ok(match status.ruleset {
        RulesetStatus::FullyEnforced => Landlock::Full,
        RulesetStatus::PartiallyEnforced => Landlock::Partial,
        RulesetStatus::NotEnforced => Landlock::Absent,
    })
}
