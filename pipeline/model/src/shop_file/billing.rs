//! `[billing]`: what an hour costs and what work there is.

use crate::Exact;
use crate::labour::WorkStep;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// `[billing]`. Without a rate nothing is priced.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct BillingSection {
    /// ISO 4217 code: `EUR`. Must be given when there is a rate.
    pub currency: Option<String>,
    /// To which side hours are rounded.
    pub hours_rounding: HoursRounding,
    /// To what hours are rounded.
    pub hours_unit: HoursUnit,
    /// Where an amount goes that lies halfway between two minor units.
    pub money_rounding: MoneyRounding,
    /// The class of work that operations without a `rate` belong to.
    pub default_rate: Option<String>,
    /// The tax on operations without a `tax`.
    pub default_tax: Option<String>,
    /// `[billing.rates]`: price of one hour by class of work.
    pub rates: BTreeMap<String, Exact>,
    /// `[billing.taxes.NAME]`
    pub taxes: BTreeMap<String, Tax>,
    /// `[[billing.operation]]`: the shop's operation catalogue.
    #[serde(rename = "operation")]
    pub operations: Vec<Operation>,
}

/// To which side hours are rounded. Rounding up changes the bill, so it is never the default.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HoursRounding {
    /// To the nearest; halves go up.
    #[default]
    Nearest,
    /// Every begun unit counts.
    Up,
}

/// To what hours are rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HoursUnit {
    /// Tenths of an hour, 6 minutes: the trade's common unit.
    #[default]
    Tenths,
    /// Whole minutes.
    Minutes,
}

/// Where an amount goes that lies halfway between two minor units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MoneyRounding {
    /// Away from zero: 2.345 becomes 2.35.
    #[default]
    HalfUp,
    /// To the even neighbour: 2.345 becomes 2.34.
    HalfEven,
}

/// `[billing.taxes.NAME]`
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tax {
    /// Category code, as UNTDID 5305 and EN 16931 write it: `S` (standard), `Z`, `E`, `AE`, `O`.
    pub category: String,
    /// Percent, 0 to 100.
    pub rate: Exact,
}

/// `[[billing.operation]]`: one kind of work that the shop bills for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Operation {
    /// The shop's code for it.
    pub code: String,
    /// What is done, in plain words.
    pub description: String,
    /// The step of the job that it is.
    pub step: WorkStep,
    /// Hours it takes. May be left out for `diagnosis` alone, whose time job.toml states.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hours: Option<Exact>,
    /// Class of work, a name of `[billing.rates]`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rate: Option<String>,
    /// A name of `[billing.taxes]`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tax: Option<String>,
    /// Offered only where the verdict carries a teardown. `teardown` and `reassembly` always are so.
    #[serde(default)]
    pub needs_teardown: bool,
    /// The causes that it is offered for; empty for any cause.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub causes: Vec<String>,
}
