//! Curves that healthy units drew.

use crate::job_file::EngineState;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Range of a channel's curve over the known-good units of a shop, aligned at the onset of an event.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownGoodCurve {
    /// Kind of the findings at whose start it is aligned.
    pub kind: String,
    /// Message of those findings; `None` for all of the kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub message: Option<String>,
    /// Role of the channel, which is the subject of the findings.
    pub subject: String,
    /// State of the engine in the recordings; `None` where it was not stated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub engine: Option<EngineState>,
    /// Unit of the curve.
    pub unit: String,
    /// Time of the first point after the onset, s; negative before it.
    pub start_s: f64,
    /// Time from point to point, s.
    pub step_s: f64,
    /// 5 % quantile over the vehicles at each point, in `unit`.
    pub low: Vec<f64>,
    /// 95 % quantile at each point, in `unit`.
    pub high: Vec<f64>,
    /// Number of vehicles, each counted once.
    pub vehicles: usize,
}
