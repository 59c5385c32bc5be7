//! Facts about libraries.

use plugin_abi::LibraryDeclaration;
use std::path::PathBuf;

/// One library that was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LibraryInfo {
    /// Its declaration: system, its analyzers with their outputs, its assets.
    pub declaration: LibraryDeclaration,
    /// The file; absolute.
    pub path: PathBuf,
    /// SHA-256 of the file, hexadecimal.
    pub sha256: String,
    /// True where it did not come with this executable: its weights are capped, and it may declare no name that a
    /// built-in library has.
    pub foreign: bool,
}

/// A library or folder that is not used, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RefusedLibrary {
    /// The file or folder.
    pub path: PathBuf,
    /// Why, in a sentence.
    pub reason: String,
    /// True where it may be loaded another time: its worker died or took too long.
    pub transient: bool,
}
