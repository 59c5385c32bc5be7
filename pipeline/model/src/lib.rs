//! Values passed between crates. No I/O, no clock, no threads.
//!
//! Those that are written to `case.json` carry a JSON Schema (see [`case::Case`]).

pub mod capture;
pub mod case;
pub mod cause;
pub mod exact;
pub mod finding;
pub mod job_file;
pub mod labour;
pub mod role;
pub mod scan;
pub mod sheets;
pub mod shop_file;
pub mod system;
pub mod verdict;
pub mod vin;

pub use capture::{Calibration, Capture, Channel, RoleSource, Samples, TimeAxis, TimeSource};
pub use case::Case;
pub use cause::RankedCause;
pub use exact::Exact;
pub use finding::{Finding, Grade, Limit};
pub use job_file::JobFile;
pub use labour::LabourLine;
pub use role::{Role, SensorKind};
pub use scan::{CodeStatus, LiveItem, LiveTrack, ScanRecord, TroubleCode};
pub use shop_file::ShopFile;
pub use verdict::{Verdict, VerdictState};

/// Something about a file that a person should know: where, what was expected, what to do.
#[derive(
    Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize, schemars::JsonSchema,
)]
pub struct Problem {
    /// The file's name inside its job folder.
    pub file: String,
    /// Line, byte offset, key or channel, as a person would look for it; `None` for the whole file.
    pub place: Option<String>,
    /// What is wrong, what was expected and what to do, in one or two plain sentences.
    pub message: String,
}
