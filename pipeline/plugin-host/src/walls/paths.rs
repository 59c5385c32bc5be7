//! Which paths may be opened: Landlock.

use landlock::{
    ABI, Access, AccessFs, AccessNet, Ruleset, RulesetAttr, RulesetCreatedAttr, RulesetError,
    RulesetStatus, Scope, path_beneath_rules,
};
use std::path::{Path, PathBuf};

/// The newest version of Landlock whose rights are asked for; an older kernel gives those that it knows.
const NEWEST: ABI = ABI::V6;

/// Where the dynamic loader finds the libraries that a library needs.
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

/// Lets this thread read the library's own folder and the system's libraries, and reach no network address. Whether
/// the kernel does so.
pub(super) fn only_libraries(library: &Path) -> bool {
    let mut open: Vec<PathBuf> = LIBRARIES.iter().map(PathBuf::from).collect();
    open.extend(library.parent().map(Path::to_path_buf));
    let listed = std::env::var_os("LD_LIBRARY_PATH").unwrap_or_default();
    open.extend(std::env::split_paths(&listed).filter(|p| p.is_absolute()));
    enforce(&open).unwrap_or(false)
}

/// Lets this thread open no path any more.
pub(super) fn none() -> bool {
    enforce(&[]).unwrap_or(false)
}

fn enforce(open: &[PathBuf]) -> Result<bool, RulesetError> {
    let rules = path_beneath_rules(open, AccessFs::from_read(NEWEST));
    let status = Ruleset::default()
        .handle_access(AccessFs::from_all(NEWEST))?
        .handle_access(AccessNet::from_all(NEWEST))?
        .scope(Scope::from_all(NEWEST))?
        .create()?
        .add_rules(rules)?
        .restrict_self()?;
    Ok(status.ruleset != RulesetStatus::NotEnforced)
}
