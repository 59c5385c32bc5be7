//! shop.toml: the shop's name, its report, its plugins, its prices.

mod billing;
mod labour_csv;

pub use billing::{
    BillingSection, Fee, HoursRounding, HoursUnit, InvoiceDraftSection, MoneyRounding, Operation,
    Part, Tax,
};
pub use labour_csv::{
    Column, Corrections, DecimalSign, Encoding, LabourCsvSection, LabourField, LineEnd,
};

use serde::{Deserialize, Serialize};
use std::path::PathBuf;

/// shop.toml. Everything in it may be left out.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ShopFile {
    /// `[shop]`
    pub shop: ShopSection,
    /// `[report]`
    pub report: ReportSection,
    /// `[plugins]`
    pub plugins: PluginSection,
    /// `[sheets]`
    pub sheets: SheetSection,
    /// `[billing]`
    pub billing: BillingSection,
    /// `[labour_csv]`
    pub labour_csv: LabourCsvSection,
    /// `[invoice_draft]`
    pub invoice_draft: InvoiceDraftSection,
}

/// `[shop]`
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ShopSection {
    /// Name on the report.
    pub name: Option<String>,
    /// Postal address.
    pub address: Option<String>,
    /// Telephone.
    pub phone: Option<String>,
    /// Registration or licence number, where the place asks for one.
    pub registration: Option<String>,
}

/// `[report]`
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ReportSection {
    /// Language of the report: `en`.
    pub language: String,
    /// `a4` or `us-letter`.
    pub paper: String,
    /// A file with the place's own teardown terms, shown in the authorisation block.
    pub legal_text: Option<PathBuf>,
}

impl Default for ReportSection {
    fn default() -> Self {
        ReportSection {
            language: "en".into(),
            paper: "a4".into(),
            legal_text: None,
        }
    }
}

/// `[plugins]`
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct PluginSection {
    /// Further folders to look for plugin libraries in.
    pub folders: Vec<PathBuf>,
}

/// `[sheets]`
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct SheetSection {
    /// Folders with spec sheets and cause sheets of the shop's own; a sheet there replaces the
    /// built-in one of the same name.
    pub folders: Vec<PathBuf>,
}
