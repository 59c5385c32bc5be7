//! shop.toml: the shop's name, reports, plugins and prices.

mod billing;
mod labour_csv;
mod page;
mod report;

pub use billing::{
    BilledAt, BillingSection, Fee, HoursRounding, HoursUnit, InvoiceDraftSection, MoneyRounding,
    Operation, Part, Tax,
};
pub use labour_csv::{
    Batch, Column, Corrections, DecimalSeparator, Encoding, LabourCsvSection, LabourField,
    LineTerminator,
};
pub use page::{PageSection, Person, PersonRole};
pub use report::*;

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
    /// `[learning]`
    pub learning: LearningSection,
    /// `[page]`. Not written: who uses the page changes no report.
    #[serde(skip_serializing)]
    pub page: PageSection,
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
    /// Folders with limits sheets and cause sheets of the shop's own; a sheet there replaces the built-in one of the
    /// same name.
    pub folders: Vec<PathBuf>,
}

/// `[learning]`
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct LearningSection {
    /// Folder with the limits and weights that were adopted from the shop's own jobs, and with what other shops sent.
    pub folder: PathBuf,
    /// The shop's private key, Ed25519 in PKCS #8 (PEM); made when it is first needed.
    pub key: PathBuf,
}

impl Default for LearningSection {
    fn default() -> Self {
        LearningSection {
            folder: "learned".into(),
            key: "shop-key.pem".into(),
        }
    }
}
