//! One line of work, part or fee.

use super::life::{LineLife, LineState};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One line of work, with its part and fees on lines of their own.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct LabourLine {
    /// Identifier, the same in every run: made of the job's identity in the ledger, operation and step.
    pub line_id: String,
    /// Position in the job, from 1.
    pub line: u32,
    /// Operation code, part number or fee code of the shop.
    pub operation: String,
    /// Step of the job that the line is for.
    #[serde(default)]
    pub step: WorkStep,
    /// Description in plain words.
    pub description: String,
    /// Hours, rounded as shop.toml says; minutes become hours with six decimals. Zero for parts and fees.
    #[schemars(with = "String")]
    pub hours: Decimal,
    /// Source of the hours.
    #[serde(default)]
    pub hours_from: HoursFrom,
    /// Net price of one hour or one piece.
    #[schemars(with = "String")]
    pub rate: Decimal,
    /// Net price of the line: quantity times `rate`, rounded to the currency's minor unit.
    #[schemars(with = "String")]
    pub net_amount: Decimal,
    /// ISO 4217 code.
    pub currency: String,
    /// Tax on the line; `None` where shop.toml names no tax.
    #[serde(default)]
    pub tax: Option<LineTax>,
    /// Name of the person who does or did the work.
    pub technician: Option<String>,
    /// Labour, part or fee.
    #[serde(default)]
    pub kind: LineKind,
    /// Number of pieces; `None` for work that is billed by the hour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>")]
    pub pieces: Option<Decimal>,
    /// Rule by which the price was made.
    #[serde(default)]
    pub price_rule: PriceRule,
    /// `line_id` of the work that a part goes with; `None` for work and fees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub parent_id: Option<String>,
    /// Furthest step of its life.
    #[serde(default)]
    pub state: LineState,
    /// Steps of its life, with who, when and how.
    #[serde(default, skip_serializing_if = "LineLife::is_empty")]
    pub life: LineLife,
}

impl LabourLine {
    /// Quantity that the rate is multiplied by: hours of labour, pieces of anything else.
    pub fn quantity(&self) -> Decimal {
        self.pieces.unwrap_or(self.hours)
    }

    /// Returns the line without its position and life: what was agreed, done or handed over.
    #[must_use]
    pub fn terms(&self) -> LabourLine {
        LabourLine {
            line: 0,
            state: LineState::default(),
            life: LineLife::default(),
            ..self.clone()
        }
    }
}

/// Kind of a line.
#[derive(Serialize, Deserialize, JsonSchema, strum::Display)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum LineKind {
    /// Work, by the hour or at a flat fee.
    #[default]
    Labour,
    /// A part, by the piece.
    Part,
    /// A fixed charge.
    Fee,
}

/// Rule by which a line's price is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "rule")]
pub enum PriceRule {
    /// Hours or pieces times the rate.
    #[default]
    PerUnit,
    /// A flat fee for the operation, whatever the hours: one piece at that price.
    FlatFee,
    /// The greater of a charge and the hours times a rate. Where the charge applies, the line is one piece at that
    /// price.
    Minimum {
        /// Net price that the operation costs at least.
        #[schemars(with = "String")]
        charge: Decimal,
        /// Net price of one hour.
        #[schemars(with = "String")]
        hourly_rate: Decimal,
    },
}

/// Steps of a job, in the order in which they are done.
#[derive(Serialize, Deserialize, JsonSchema, strum::Display, strum::IntoStaticStr)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum WorkStep {
    /// Recording and finding the cause.
    #[default]
    Diagnosis,
    /// Something cheap that is tried before anything is opened: a relearn, a check of the wiring.
    FirstStep,
    /// Opening the unit.
    Teardown,
    /// The repair itself.
    Repair,
    /// Closing the unit again.
    Reassembly,
    /// Teaching the controller the unit again.
    Relearn,
    /// The same recording made again, as proof.
    ProofRecording,
}

impl WorkStep {
    /// Stage in which the step is authorised.
    pub fn stage(self) -> WorkStage {
        match self {
            WorkStep::Diagnosis => WorkStage::Diagnosis,
            WorkStep::FirstStep => WorkStage::FirstStep,
            WorkStep::Teardown | WorkStep::Reassembly => WorkStage::Teardown,
            WorkStep::Repair | WorkStep::Relearn | WorkStep::ProofRecording => WorkStage::Repair,
        }
    }
}

/// Work that is authorised together; stages are authorised apart.
#[derive(Serialize, Deserialize, JsonSchema, strum::Display, strum::EnumString)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WorkStage {
    /// Recording and finding the cause; further recordings.
    Diagnosis,
    /// The cheap step before anything is opened.
    FirstStep,
    /// Opening the unit and closing it again: nobody opens what may not be closed.
    Teardown,
    /// Repair, relearn and the recording that proves them.
    Repair,
}

impl WorkStage {
    /// All stages, in their order.
    pub const ALL: [WorkStage; 4] = [
        WorkStage::Diagnosis,
        WorkStage::FirstStep,
        WorkStage::Teardown,
        WorkStage::Repair,
    ];
}

/// Source of a line's hours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum HoursFrom {
    /// The shop's operation catalogue.
    #[default]
    Catalogue,
    /// The built-in example catalogue: invented, not a time guide.
    ExampleCatalogue,
    /// job.toml: time that was spent.
    JobFile,
    /// Stated when the work was recorded as done.
    Completion,
}

/// Tax on a line.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
pub struct LineTax {
    /// Category code, as UNTDID 5305 and EN 16931 write it: `S`, `Z`, `E`, `AE`, `O`.
    pub category: String,
    /// Rate, percent.
    #[schemars(with = "String")]
    pub rate: Decimal,
}
