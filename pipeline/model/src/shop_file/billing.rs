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
    /// When labour lines are handed over.
    pub labour_after: LabourAfter,
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
    /// `[[billing.fee]]`: fixed charges.
    #[serde(rename = "fee")]
    pub fees: Vec<Fee>,
}

/// When labour lines are handed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LabourAfter {
    /// With the report.
    #[default]
    Report,
    /// Once a person has signed the report.
    Sign,
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
    /// Why no tax is taken, where the category needs a reason (EN 16931 BT-120: `E`, `AE`, `O`).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
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
    /// A further diagnosis: the next recordings that it is offered for, such as
    /// `next-record-own-actuator-current`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub next: Vec<String>,
    /// `[[billing.operation.part]]`: parts that the operation uses up.
    #[serde(default, rename = "part", skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<Part>,
}

/// `[[billing.operation.part]]`: offered, authorised and billed with its operation.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// The shop's number for it.
    pub number: String,
    /// What it is, in plain words.
    pub description: String,
    /// How many; one where it is left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pieces: Option<Exact>,
    /// Price of one.
    pub price: Exact,
    /// A name of `[billing.taxes]`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tax: Option<String>,
}

/// `[[billing.fee]]`: a fixed charge, once a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fee {
    /// The shop's code for it.
    pub code: String,
    /// What it is for, in plain words.
    pub description: String,
    /// What it comes to.
    pub price: Exact,
    /// The operations that bring it; left out, any does. It is billed when one of them is, and offered when one of
    /// them is offered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub operations: Vec<String>,
    /// A name of `[billing.taxes]`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tax: Option<String>,
}

/// `[invoice_draft]`: the bill as `invoice_draft.xml`, UBL 2.1.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct InvoiceDraftSection {
    /// Whether it is written.
    pub write: bool,
    /// The shop's country, ISO 3166-1 alpha-2: `DE`.
    pub seller_country: Option<String>,
    /// The shop's tax number.
    pub seller_tax_id: Option<String>,
    /// The customers' country, ISO 3166-1 alpha-2.
    pub buyer_country: Option<String>,
    /// The kind of tax, as UN/ECE 5153 writes it: `VAT`, `GST`, ...
    pub tax_scheme: String,
}

impl Default for InvoiceDraftSection {
    fn default() -> Self {
        InvoiceDraftSection {
            write: true,
            seller_country: None,
            seller_tax_id: None,
            buyer_country: None,
            tax_scheme: "VAT".into(),
        }
    }
}
