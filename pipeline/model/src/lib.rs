//! Values passed between crates. No I/O, no clock, no threads.
//!
//! What leaves the program as `case.json` carries a JSON Schema (see [`case::Case`]).

pub mod capture;
pub mod case;
pub mod cause;
pub mod cause_sheet;
pub mod exact;
pub mod finding;
pub mod job_file;
pub mod knowledge;
pub mod known_good;
pub mod labour;
pub mod limits_sheet;
pub mod outcome;
pub mod party;
pub mod role;
pub mod scan;
pub mod shop_file;
pub mod system;
pub mod verdict;
pub mod vin;

pub use capture::{Calibration, Capture, Channel, RoleSource, Samples, TimeAxis, TimeSource};
pub use case::{Case, SystemRecord};
pub use cause::RankedCause;
pub use exact::Exact;
pub use finding::{Finding, Grade, Limit, Observation};
pub use job_file::JobFile;
pub use knowledge::Knowledge;
pub use known_good::KnownGoodCurve;
pub use labour::LabourLine;
pub use outcome::Outcome;
pub use party::{Parties, Party};
pub use role::{Role, SensorKind};
pub use scan::{CodeStatus, LiveItem, LiveTrack, ScanRecord, TroubleCode};
pub use shop_file::ShopFile;
pub use verdict::{Coverage, Verdict, VerdictState};

/// Something about a file that a person should know: where, what was expected, what to do.
#[derive(
    Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize, schemars::JsonSchema,
)]
pub struct Problem {
    /// The file's name inside its job folder.
    pub file: String,
    /// Line, byte offset, key or channel, as a person would look for it; `None` for the whole file.
    pub place: Option<String>,
    /// The fault, the expectation and the remedy, in one or two plain sentences.
    pub message: String,
}
