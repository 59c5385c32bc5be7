//! Sums over lines, and the texts of the repair order.

use super::life::SumLimit;
use super::line::{LineTax, WorkStage};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Complaint, cause and correction of a repair order, in the shop's language.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
pub struct OrderTexts {
    /// The customer's complaint.
    pub complaint: String,
    /// Cause that was found.
    pub cause: String,
    /// Work that was done, is authorised, is offered or was declined.
    pub correction: String,
}

/// Sums of a job's lines by state.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LabourTotals {
    /// ISO 4217 code.
    pub currency: String,
    /// Lines that wait for an authorisation.
    pub offered: Totals,
    /// Lines that are authorised and not done.
    pub authorised: Totals,
    /// Lines that are done, billed ones among them.
    pub done: Totals,
    /// Lines that may neither be done nor billed at present; they are in no other sum but `stages`.
    pub held: Totals,
    /// Stages that have lines which are not declined, in the order of the work.
    pub stages: Vec<StageTotals>,
    /// Net price of an hour of diagnosis; `None` where the shop has no operation for it or bills a flat fee.
    #[schemars(with = "Option<String>")]
    pub diagnosis_rate: Option<Decimal>,
}

/// Price of one stage.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StageTotals {
    /// Stage.
    pub stage: WorkStage,
    /// All of its lines that are not declined.
    pub estimate: Totals,
    /// Lines among them that wait for an authorisation.
    pub offered: Totals,
    /// Sum that the shop does not exceed without asking, for the offered lines; `None` where nothing is offered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit: Option<SumLimit>,
}

/// Sums over some lines. Amounts have the currency's minor digits.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Totals {
    /// Sum of the rounded net amounts (EN 16931 BR-CO-10).
    #[schemars(with = "String")]
    pub net: Decimal,
    /// Sum of the taxes (EN 16931 BR-CO-14).
    #[schemars(with = "String")]
    pub tax: Decimal,
    /// net + tax (EN 16931 BR-CO-15).
    #[schemars(with = "String")]
    pub gross: Decimal,
    /// Each tax category and rate, with the sum that it is taken on.
    pub by_tax: Vec<TaxTotal>,
}

/// One tax over some lines.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TaxTotal {
    /// Category and rate.
    #[serde(flatten)]
    pub tax: LineTax,
    /// Sum of the rounded net amounts in it.
    #[schemars(with = "String")]
    pub base: Decimal,
    /// base * rate / 100, rounded once (EN 16931 BR-CO-17).
    #[schemars(with = "String")]
    pub amount: Decimal,
}
