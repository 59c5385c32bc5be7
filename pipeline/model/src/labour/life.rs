//! Life of a line: offered, authorised or declined, done, billed.

use chrono::NaiveDateTime;
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Furthest step of a line's life.
#[derive(Serialize, Deserialize, JsonSchema, strum::Display)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum LineState {
    /// Waits for the customer's authorisation. With a hold: exceeds the sum that was authorised.
    #[default]
    Offered,
    /// Declined, or withdrawn after it had been authorised.
    Declined,
    /// Authorised within the sum that was said.
    Authorised,
    /// Done.
    Done,
    /// Handed over to the billing system.
    Billed,
}

/// Steps of a line's life that hold at present. Earlier ones that were taken back stay in the ledger.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct LineLife {
    /// Authorisation in force.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub authorised: Option<Consent>,
    /// Refusal or withdrawal in force.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub declined: Option<Consent>,
    /// Completion of the work.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub done: Option<Completion>,
    /// Reason why it may neither be done nor billed at present.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hold: Option<Hold>,
}

impl LineLife {
    /// Returns whether nothing has happened to the line yet.
    pub fn is_empty(&self) -> bool {
        *self == LineLife::default()
    }
}

/// Word of a customer on some lines.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Consent {
    /// Name of the person who gave it.
    pub by: String,
    /// Time at which it was given, in the shop's time.
    pub at: NaiveDateTime,
    /// Way in which it was given.
    pub how: ConsentMethod,
    /// Sum that all lines of the authorisation may come to together; `None` for a refusal.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit: Option<SumLimit>,
    /// Remark of the person who recorded it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// Way in which a customer's word was given.
#[derive(
    Serialize, Deserialize, JsonSchema, strum::Display, strum::EnumString, strum::IntoStaticStr,
)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ConsentMethod {
    /// By a signature on paper.
    Signed,
    /// By telephone.
    Telephone,
    /// By a written message.
    Message,
    /// On a screen in the shop.
    Screen,
}

impl ConsentMethod {
    /// All of them.
    pub const ALL: [ConsentMethod; 4] = [
        ConsentMethod::Signed,
        ConsentMethod::Telephone,
        ConsentMethod::Message,
        ConsentMethod::Screen,
    ];
}

/// Sum that is not exceeded without asking.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct SumLimit {
    /// Sum, in the currency of the lines.
    #[schemars(with = "String")]
    pub sum: Decimal,
    /// Net or gross.
    pub basis: SumBasis,
}

/// Net or gross: without the tax or with it.
#[derive(Serialize, Deserialize, JsonSchema, strum::Display, strum::IntoStaticStr)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum SumBasis {
    /// Without the tax.
    Net,
    /// With the tax: what a consumer pays.
    #[default]
    Gross,
}

/// Completion of a line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Completion {
    /// Name of the person who did the work, as far as it is known.
    pub by: Option<String>,
    /// Time at which it was recorded, in the shop's time; `None` where job.toml says that it is done.
    pub at: Option<NaiveDateTime>,
}

/// Reason why a line may neither be done nor billed at present.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "reason")]
pub enum Hold {
    /// Exceeds the sum that was authorised.
    BeyondLimit {
        /// Sum that was authorised.
        limit: SumLimit,
        /// Sum of the authorised lines up to and with this one, on the limit's basis.
        #[schemars(with = "String")]
        needed: Decimal,
    },
    /// Done without an authorisation.
    NotAuthorised,
    /// Another job claims the same number.
    NumberTaken {
        /// Names of the other jobs.
        jobs: Vec<String>,
    },
}
