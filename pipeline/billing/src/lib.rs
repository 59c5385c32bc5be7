//! Lines of work: offered, authorised, done and billed, in exact decimals.
//!
//! - [`make_bill`] turns verdicts, the shop's prices and the ledger's events into a [`Bill`]: each line with its state,
//!   the sums, and the rows that the billing system does not have yet. Every table and file is made from it.
//! - [`authorise`], [`decline`], [`complete`] and [`reopen`] make the events that people record.
//! - [`labour_csv`] and [`append_batch`] write rows by the shop's column map, [`invoice_draft`] the bill as UBL.
//! - [`order_texts`] gives complaint, cause and correction.
//!
//! No amount ever passes through a binary float. Sums follow EN 16931: each line is rounded to the currency's minor
//! unit first, the net total is the exact sum of the rounded lines (BR-CO-10), and a tax is taken once on the sum of
//! its category (BR-CO-17). One rule rounds every amount: `money_rounding` of shop.toml.

mod batch;
mod bill;
mod column_map;
mod currency;
mod hand_over;
mod invoice_draft;
mod key_path;
mod life;
mod limit;
mod neutralise;
mod order_texts;
mod price;
mod price_book;
mod rounding;
mod totals;
mod work;

pub use batch::{append_batch, batch_path};
pub use bill::{Bill, BillingInput, make_bill};
pub use column_map::{Export, labour_csv};
pub use hand_over::{HandOver, account, hand_over};
pub use invoice_draft::{DraftInput, invoice_draft};
pub use key_path::KeyPath;
pub use order_texts::{OrderInput, Phrase, order_file, order_texts};
pub use work::{NamedLines, Statement, WorkError, authorise, complete, decline, reopen, sum_lines};

use model::{Problem, ShopFile};
use sha2::{Digest, Sha256};

/// Reason why there is no bill, or a file of it cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum BillingError {
    /// A setting that no price can be made with.
    #[error("shop.toml, {place}: {message}")]
    Setting {
        /// Path of the setting, present or missing.
        place: KeyPath,
        /// Fault, expectation and remedy.
        message: String,
    },
    /// A character that the chosen encoding does not have.
    #[error(
        "line {line} of the job, column {column:?}: {encoding} has no character {character:?} \
         (U+{:04X}); set labour_csv.encoding = \"utf-8\" in shop.toml or change the text",
        *.character as u32
    )]
    Character {
        /// The labour line's number; 0 for the header row.
        line: u32,
        /// The column's name.
        column: String,
        /// The character.
        character: char,
        /// The encoding's name.
        encoding: &'static str,
    },
    /// A batch file that was not written by the column map of today.
    #[error(
        "the batch file cannot be added to: {0}; move it away, and a new one is begun with the same rows"
    )]
    Batch(String),
    /// The rows could not be written.
    #[error("the rows could not be written: {0}")]
    Write(#[from] std::io::Error),
}

impl BillingError {
    fn setting(place: KeyPath, message: impl Into<String>) -> Self {
        BillingError::Setting {
            place,
            message: message.into(),
        }
    }

    /// Returns the error as a problem of the settings file, with its name, and line and key as its `text` has them.
    pub fn in_file(&self, file: &str, text: &str) -> Problem {
        match self {
            BillingError::Setting { place, message } => Problem {
                file: file.into(),
                place: Some(match (place.line(text), place.last_key()) {
                    (Some(line), Some(key)) => format!("line {line}, key {key}"),
                    _ => place.to_string(),
                }),
                message: message.clone(),
            },
            other => Problem {
                file: file.into(),
                place: None,
                message: other.to_string(),
            },
        }
    }
}

/// Checks the sections `[billing]`, `[labour_csv]`, `[invoice_draft]` and `[report.authorisation]`, before any job is
/// done.
///
/// # Errors
/// The first setting that is wrong.
pub fn check(shop: &ShopFile) -> Result<(), BillingError> {
    let digits = price_book::PriceBook::read(&shop.billing)?.map(|book| book.money.digits);
    column_map::check(&shop.labour_csv, digits)?;
    invoice_draft::check(&shop.invoice_draft)?;
    limit::check(&shop.report.authorisation)
}

/// Checks that the causes and next recordings of the catalogue exist: a misspelt name would never be offered, and
/// nobody would know.
///
/// # Errors
/// The first name that is not known.
pub fn check_names(
    shop: &ShopFile,
    is_cause: &dyn Fn(&str) -> bool,
    is_next: &dyn Fn(&str) -> bool,
) -> Result<(), BillingError> {
    for (i, op) in shop.billing.operations.iter().enumerate() {
        for (key, names, is_known) in [
            ("causes", &op.causes, is_cause),
            ("next", &op.next, is_next),
        ] {
            if let Some(name) = names.iter().find(|name| !is_known(name)) {
                let place = KeyPath::new(["billing", "operation"]).item(i).key(key);
                let message = format!(
                    "operation {:?} names {name:?}, which no sheet knows: it would never be offered",
                    op.code
                );
                return Err(BillingError::setting(place, message));
            }
        }
    }
    Ok(())
}

/// Identifier of a line: the first 16 hexadecimal digits of SHA-256 over the job's identity and the line's parts, each
/// behind its length.
pub(crate) fn line_id(job: &str, parts: &[&str]) -> String {
    let mut hasher = Sha256::new();
    for part in [job].iter().chain(parts) {
        hasher.update((part.len() as u64).to_le_bytes());
        hasher.update(part);
    }
    let digest = hasher.finalize();
    digest.iter().take(8).map(|b| format!("{b:02x}")).collect()
}
