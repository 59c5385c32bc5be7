//! Values of settings files, and the names that they may use.

use model::Problem;

/// Names that exist, for errors on names that do not. An empty list is not checked against.
#[derive(Debug, Clone, Default)]
pub struct KnownNames {
    /// Units: the names of limits sheets.
    pub units: Vec<String>,
    /// Systems.
    pub systems: Vec<String>,
    /// Roles.
    pub roles: Vec<String>,
    /// Channel presets.
    pub presets: Vec<String>,
}

/// A file as far as it is right.
#[derive(Debug, Clone, Default)]
pub struct Parsed<T> {
    /// Everything that could be read; a wrong line is left out.
    pub value: T,
    /// Errors: lines that were left out, and names that do not exist.
    pub errors: Vec<Problem>,
    /// Doubts about lines that were read, such as a vehicle number that cannot be right.
    pub doubts: Vec<Problem>,
}
