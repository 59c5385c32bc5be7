//! Labour lines, in exact decimals.

use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One line for the shop's billing system.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LabourLine {
    /// Stable over runs: the same job done again gives the same ids.
    pub line_id: String,
    /// Position in the job, from 1.
    pub line: u32,
    /// The shop's own operation code.
    pub operation: String,
    /// What is done, in plain words.
    pub description: String,
    /// Hours, rounded as shop.toml says.
    #[schemars(with = "String")]
    pub hours: Decimal,
    /// Price of one hour.
    #[schemars(with = "String")]
    pub rate: Decimal,
    /// hours * rate, rounded to the currency's minor unit.
    #[schemars(with = "String")]
    pub amount: Decimal,
    /// ISO 4217 code.
    pub currency: String,
    /// Who does or did the work.
    pub technician: Option<String>,
    /// Done already (diagnosis), or offered and waiting for the customer's authorisation.
    pub state: LineState,
}

/// Whether a line may be billed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LineState {
    /// Authorised or done: goes into labour.csv.
    Billable,
    /// An estimate until the customer authorises it: stands in the report only.
    Estimate,
}
