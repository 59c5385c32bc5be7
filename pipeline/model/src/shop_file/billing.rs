//! `[billing]`: prices, taxes and the operation catalogue; `[invoice_draft]`.

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
    /// Step at which a line is handed over to the billing system.
    pub billed_at: BilledAt,
    /// Direction in which hours are rounded.
    pub hours_rounding: HoursRounding,
    /// Unit that hours are rounded to.
    pub hours_unit: HoursUnit,
    /// Rounding of every amount, total, tax and limit that lies halfway between two minor units.
    pub money_rounding: MoneyRounding,
    /// Class of work of operations without a `rate`.
    pub default_rate: Option<String>,
    /// Tax on operations without a `tax`.
    pub default_tax: Option<String>,
    /// `[billing.rates]`: net price of one hour by class of work.
    pub rates: BTreeMap<String, Exact>,
    /// `[billing.taxes.NAME]`
    pub taxes: BTreeMap<String, Tax>,
    /// `[[billing.operation]]`: the shop's operation catalogue.
    #[serde(rename = "operation")]
    pub operations: Vec<Operation>,
    /// `[[billing.fee]]`: fixed charges.
    #[serde(rename = "fee")]
    pub fees: Vec<Fee>,
    /// Work on each system, by the steps that its sheet declares: the example catalogue. Not of the file.
    #[serde(skip)]
    pub system_work: BTreeMap<String, Vec<Operation>>,
}

/// Step at which a line is handed over to the billing system.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BilledAt {
    /// Once the work is authorised and done.
    #[default]
    Done,
    /// As soon as it is authorised: for billing systems that follow the work themselves.
    Authorised,
}

/// Direction in which hours are rounded. Rounding up changes the bill, so it is never the default.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HoursRounding {
    /// To the nearest; halves go up.
    #[default]
    Nearest,
    /// Every begun unit counts.
    Up,
}

/// Unit that hours are rounded to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HoursUnit {
    /// Tenths of an hour, 6 minutes: the trade's common unit.
    #[default]
    Tenths,
    /// Whole minutes.
    Minutes,
}

/// Rounding of an amount that lies halfway between two minor units.
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
    /// Rate, percent, 0 to 100.
    pub rate: Exact,
    /// Reason why no tax is taken, where the category needs a reason (EN 16931 BT-120: `E`, `AE`, `O`).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
}

/// `[[billing.operation]]`: one kind of work that the shop bills for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Operation {
    /// Code of the shop.
    pub code: String,
    /// Description in plain words.
    pub description: String,
    /// Step of the job.
    pub step: WorkStep,
    /// Hours it takes. May be left out where `flat_fee` is given, and for the diagnosis, whose hours are stated by the
    /// person who did it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hours: Option<Exact>,
    /// Net price of the operation, whatever hours it takes, instead of hours and a rate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flat_fee: Option<Exact>,
    /// Net price that the operation costs at least.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minimum_charge: Option<Exact>,
    /// Class of work, a name of `[billing.rates]`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rate: Option<String>,
    /// A name of `[billing.taxes]`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tax: Option<String>,
    /// Offered only where the verdict carries a teardown. `teardown` and `reassembly` always are so.
    #[serde(default)]
    pub needs_teardown: bool,
    /// Causes that it is offered for; empty for any cause.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub causes: Vec<String>,
    /// Makes it a further diagnosis: the next recordings that it is offered for.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub next: Vec<String>,
    /// `[[billing.operation.part]]`: parts that the operation uses up.
    #[serde(default, rename = "part", skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<Part>,
}

/// `[[billing.operation.part]]`: offered, authorised, done and billed with its operation.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// Number of the shop.
    pub number: String,
    /// Description in plain words.
    pub description: String,
    /// Number of pieces; one where it is left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pieces: Option<Exact>,
    /// Net price of one piece.
    pub price: Exact,
    /// A name of `[billing.taxes]`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tax: Option<String>,
}

/// `[[billing.fee]]`: a fixed charge, once a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fee {
    /// Code of the shop.
    pub code: String,
    /// Description in plain words.
    pub description: String,
    /// Net price.
    pub price: Exact,
    /// Operations that bring it; left out, any does. It is offered, authorised and done with the first of them.
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
    /// Writes it. On where it is left out.
    pub enabled: bool,
    /// Country of the shop, ISO 3166-1 alpha-2: `DE`.
    pub seller_country: Option<String>,
    /// Tax number of the shop, with its country's prefix: `DE123456789`.
    pub seller_tax_id: Option<String>,
    /// Country of the customers, ISO 3166-1 alpha-2.
    pub buyer_country: Option<String>,
    /// Kind of tax, as UN/ECE 5153 writes it: `VAT`, `GST`, ... Left out, it follows from the shop's country.
    pub tax_scheme: Option<String>,
}

impl Default for InvoiceDraftSection {
    fn default() -> Self {
        InvoiceDraftSection {
            enabled: true,
            seller_country: None,
            seller_tax_id: None,
            buyer_country: None,
            tax_scheme: None,
        }
    }
}
