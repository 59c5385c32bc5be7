//! A guess of a role.

use model::Role;

/// A guess and its certainty.
#[derive(Debug, Clone, PartialEq)]
pub struct RoleGuess {
    /// Role that the channel seems to measure.
    pub role: Role,
    /// From 0 (no idea) to 1 (no doubt); [`SAFE`] and more only when the name is plain.
    pub certainty: f64,
    /// Reason in words.
    pub reason: String,
}

/// A guess that is at least this certain may be measured by; a less certain one is only shown.
pub const SAFE: f64 = 0.8;
