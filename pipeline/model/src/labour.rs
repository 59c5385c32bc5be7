//! Labour lines, in exact decimals.

use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One line for the shop's billing system.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct LabourLine {
    /// Stable over runs: the same job done again gives the same ids.
    pub line_id: String,
    /// Position in the job, from 1.
    pub line: u32,
    /// The shop's own operation code.
    pub operation: String,
    /// The step of the job that the line is for.
    #[serde(default)]
    pub step: WorkStep,
    /// What is done, in plain words.
    pub description: String,
    /// Hours, rounded as shop.toml says; minutes become hours with six decimals.
    #[schemars(with = "String")]
    pub hours: Decimal,
    /// Where the hours come from.
    #[serde(default)]
    pub hours_from: HoursFrom,
    /// Price of one hour.
    #[schemars(with = "String")]
    pub rate: Decimal,
    /// hours * rate, rounded to the currency's minor unit.
    #[schemars(with = "String")]
    pub amount: Decimal,
    /// ISO 4217 code.
    pub currency: String,
    /// The tax on it; `None` where shop.toml names no tax.
    #[serde(default)]
    pub tax: Option<LineTax>,
    /// Who does or did the work.
    pub technician: Option<String>,
    /// Done already (diagnosis), or offered and waiting for the customer's authorisation.
    pub state: LineState,
    /// Labour, a part or a fee.
    #[serde(default)]
    pub kind: LineKind,
    /// How many pieces; `None` for labour, which is counted in hours. A part's `rate` is the price of one piece and
    /// its `hours` are zero.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>")]
    pub pieces: Option<Decimal>,
}

impl LabourLine {
    /// What the rate is multiplied by: hours of labour, pieces of anything else.
    pub fn quantity(&self) -> Decimal {
        self.pieces.unwrap_or(self.hours)
    }
}

/// What a line is for.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Default,
    Serialize,
    Deserialize,
    JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum LineKind {
    /// Work, by the hour.
    #[default]
    Labour,
    /// A part, by the piece.
    Part,
    /// A fixed charge.
    Fee,
}

impl LineKind {
    /// The word used in shop.toml and case.json.
    pub fn name(self) -> &'static str {
        match self {
            LineKind::Labour => "labour",
            LineKind::Part => "part",
            LineKind::Fee => "fee",
        }
    }
}

/// One row as it is handed to the billing system. Rows are never changed: what has been handed over is corrected by
/// further rows.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HandedRow {
    /// Belongs to this row alone, for ever: `line_id`, revision and kind.
    pub row_id: String,
    /// Counts the versions of one line, from 1. A reversal carries the revision that it takes back.
    pub revision: u32,
    /// What the row does.
    pub kind: RowKind,
    /// The line as it was handed over; amounts of a reversal are negative, those of a withdrawal zero.
    pub line: LabourLine,
}

/// What a handed row does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RowKind {
    /// Bills the line, in place of any earlier version that was not reversed.
    Bill,
    /// Takes a billed version back: the same line with its amounts negative.
    Reversal,
    /// Says in a new revision that nothing is billed for the line any more.
    Withdrawal,
}

impl RowKind {
    /// The word used in labour.csv.
    pub fn name(self) -> &'static str {
        match self {
            RowKind::Bill => "bill",
            RowKind::Reversal => "reversal",
            RowKind::Withdrawal => "withdrawal",
        }
    }
}

/// The three parts of a repair order, in the shop's language.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
pub struct OrderTexts {
    /// What the customer complains of.
    pub complaint: String,
    /// What was found.
    pub cause: String,
    /// What was done, what is offered and what is left to do.
    pub correction: String,
}

/// The steps of a job, in the order in which they are done.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Default,
    Serialize,
    Deserialize,
    JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum WorkStep {
    /// Recording and finding the cause.
    #[default]
    Diagnosis,
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
    /// The word used in shop.toml and case.json.
    pub fn name(self) -> &'static str {
        match self {
            WorkStep::Diagnosis => "diagnosis",
            WorkStep::Teardown => "teardown",
            WorkStep::Repair => "repair",
            WorkStep::Reassembly => "reassembly",
            WorkStep::Relearn => "relearn",
            WorkStep::ProofRecording => "proof-recording",
        }
    }
}

/// Where a line's hours come from.
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
    /// How long the recordings last: an offer, never billed by itself.
    Recordings,
}

/// Whether a line may be billed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LineState {
    /// Authorised or done: goes into labour.csv.
    Billable,
    /// An estimate until the customer authorises it: stands in the report only.
    #[default]
    Estimate,
}

/// The tax on a line.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
pub struct LineTax {
    /// Category code, as UNTDID 5305 and EN 16931 write it: `S`, `Z`, `E`, `AE`, `O`.
    pub category: String,
    /// Percent.
    #[schemars(with = "String")]
    pub rate: Decimal,
}

/// What a job's lines come to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LabourTotals {
    /// ISO 4217 code.
    pub currency: String,
    /// The lines that may be billed.
    pub billable: Totals,
    /// The lines that wait for the customer's authorisation.
    pub estimate: Totals,
    /// Estimates for teardown and reassembly alone: the price of opening the unit and closing it.
    pub teardown_estimate: Totals,
    /// What an hour of diagnosis costs, before tax; `None` where the shop has no operation for it.
    #[schemars(with = "Option<String>")]
    pub diagnosis_rate: Option<Decimal>,
}

/// Sums over some lines. Amounts have the currency's minor digits.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Totals {
    /// Sum of the rounded amounts (EN 16931 BR-CO-10).
    #[schemars(with = "String")]
    pub net: Decimal,
    /// Sum of the taxes.
    #[schemars(with = "String")]
    pub tax: Decimal,
    /// net + tax.
    #[schemars(with = "String")]
    pub gross: Decimal,
    /// Each tax category and rate, with what it is taken on.
    pub by_tax: Vec<TaxTotal>,
}

/// One tax over some lines.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TaxTotal {
    /// Category and rate.
    #[serde(flatten)]
    pub tax: LineTax,
    /// Sum of the rounded amounts in it.
    #[schemars(with = "String")]
    pub base: Decimal,
    /// base * rate / 100, rounded once (EN 16931 BR-CO-17).
    #[schemars(with = "String")]
    pub amount: Decimal,
}
