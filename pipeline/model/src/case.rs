//! case.json: everything that one job came to.

use crate::job_file::{
    ClientSection, CustomerSection, EngineState, Phase, Selector, VehicleSection,
};
use crate::labour::{LabourLine, LabourTotals, OrderTexts};
use crate::{
    Coverage, Finding, KnownGoodCurve, Problem, RankedCause, RoleSource, TroubleCode, Verdict,
};
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The schema's name, in every case.json.
pub const SCHEMA: &str = "baybrief.case/2";

/// Everything that one job came to; the content of case.json.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Case {
    /// Always `baybrief.case/2`.
    pub schema: String,
    /// The job.
    pub job: JobRecord,
    /// The caller, such as another workshop; empty where the owner called.
    #[serde(default, skip_serializing_if = "ClientSection::is_empty")]
    pub client: ClientSection,
    /// The owner of the vehicle.
    pub customer: CustomerSection,
    /// The vehicle.
    pub vehicle: VehicleSection,
    /// The customer's complaint.
    pub concern: Option<String>,
    /// Every file of the job folder and what became of it.
    pub files: Vec<FileRecord>,
    /// Every recording that was read.
    pub captures: Vec<CaptureRecord>,
    /// Trouble codes from scan texts.
    pub codes: Vec<TroubleCode>,
    /// Observations.
    pub findings: Vec<Finding>,
    /// Systems that were examined, the leading one first where job.toml names one.
    pub systems: Vec<SystemRecord>,
    /// Verdict on the leading system.
    pub verdict: Verdict,
    /// Labour lines, billable ones and estimates.
    pub labour: Vec<LabourLine>,
    /// Sum of the lines; `None` when there are no lines.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub labour_totals: Option<LabourTotals>,
    /// Complaint, cause and correction for the repair order.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub order: Option<OrderTexts>,
    /// Checks that did not run, and why.
    pub not_run: Vec<NotRun>,
    /// The plugins that ran.
    pub plugins: Vec<PluginRecord>,
    /// Oddities of the files that were read.
    pub problems: Vec<Problem>,
}

impl Case {
    /// Record of the leading system; `None` where no system was examined.
    pub fn lead(&self) -> Option<&SystemRecord> {
        let name = self.verdict.system.as_deref()?;
        self.systems.iter().find(|s| s.system == name)
    }

    /// Causes of the leading system, heaviest first.
    pub fn causes(&self) -> &[RankedCause] {
        self.lead().map_or(&[], |s| &s.causes)
    }

    /// The verdict's cause among the ranked ones.
    pub fn verdict_cause(&self) -> Option<&RankedCause> {
        let name = self.verdict.cause.as_deref()?;
        self.causes().iter().find(|c| c.cause == name)
    }
}

/// One system that was examined.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SystemRecord {
    /// Name of the system.
    pub system: String,
    /// Name of the limits sheet that measurements were held against.
    pub limits: String,
    /// True where job.toml names the unit; false for the system's own limits.
    pub unit_named: bool,
    /// Conclusion on this system.
    pub verdict: Verdict,
    /// Causes, heaviest first.
    pub causes: Vec<RankedCause>,
    /// Tests that were made and tests that were not.
    pub coverage: Coverage,
    /// Curves of known-good units of this kind.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub known_good: Vec<KnownGoodCurve>,
}

/// The job's own words.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct JobRecord {
    /// The shop's number, or the folder's name.
    pub number: String,
    /// The day the job was opened.
    pub opened: Option<NaiveDate>,
    /// Who examined the vehicle.
    pub technician: Option<String>,
    /// Which report of the job this is, from 1; 0 where nobody counts.
    #[serde(default)]
    pub revision: u32,
    /// Who reviewed the report; `None` while it is a draft.
    pub reviewed_by: Option<String>,
}

/// One file of the job folder.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FileRecord {
    /// Path inside the job folder, with forward slashes.
    pub path: String,
    /// SHA-256 of the content, hexadecimal; `None` when the content could not be read.
    pub sha256: Option<String>,
    /// Type of the file: `capture`, `scan`, `job`, `unknown`.
    pub kind: String,
    /// `read` or `set-aside`.
    pub status: FileStatus,
    /// Why it was set aside, or how it was read.
    pub message: Option<String>,
}

/// Outcome of reading a file.
#[derive(Serialize, Deserialize, JsonSchema, strum::Display)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileStatus {
    /// Read and used.
    Read,
    /// Not used; the message says why.
    SetAside,
}

/// One recording as it was used.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CaptureRecord {
    /// The file.
    pub file: String,
    /// Before or after the repair.
    pub phase: Option<Phase>,
    /// Selector position and who says so.
    pub selector: Option<Stated<Selector>>,
    /// Engine state and who says so.
    pub engine: Option<Stated<EngineState>>,
    /// Samples per second.
    pub rate_hz: Option<f64>,
    /// Number of samples.
    pub samples: usize,
    /// Time of the first sample, s.
    pub start_s: f64,
    /// Time of the last sample, s.
    pub end_s: f64,
    /// The channels.
    pub channels: Vec<ChannelRecord>,
}

/// A statement and who made it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Stated<T> {
    /// The statement.
    pub value: T,
    /// `job.toml`, a scan text's name, or `recording`.
    pub source: String,
}

/// One channel as it was used.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ChannelRecord {
    /// Its name in the file.
    pub name: String,
    /// Role that was assigned to the channel.
    pub role: Option<String>,
    /// Source of the assignment.
    pub role_source: RoleSource,
    /// Unit of the calibrated value.
    pub unit: Option<String>,
    /// value = recorded * scale + offset.
    pub scale: f64,
    /// value = recorded * scale + offset.
    pub offset: f64,
    /// True if the value is in its true unit.
    pub calibrated: bool,
}

/// A check that did not run: a silent skip must never look like a pass.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct NotRun {
    /// The plugin.
    pub plugin: String,
    /// The recording, or `None` for the whole job.
    pub file: Option<String>,
    /// Why.
    pub reason: String,
    /// Kinds of finding that it would have given, as far as they are known.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kinds: Vec<String>,
}

/// A plugin that ran.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PluginRecord {
    /// Its identifier.
    pub id: String,
    /// Its version.
    pub version: String,
    /// SHA-256 of its library, hexadecimal.
    pub sha256: String,
}
