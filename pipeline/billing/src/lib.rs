//! Labour lines: what the job's work costs, in exact decimals, and how the shop's billing system gets it.
//!
//! - [`lines`] turns a verdict and the shop's prices into a [`Bill`]; every table and file is made from it.
//! - [`hand_over`](fn@hand_over) says which rows the billing system does not have yet, [`account`] what it should have.
//! - [`labour_csv`] and [`append_batch`] write rows by the shop's column map, [`invoice_draft`] the bill as UBL.
//! - [`order_texts`] gives complaint, cause and correction.
//!
//! No amount ever passes through a binary float. Sums follow EN 16931: each line is rounded to the currency's minor
//! unit first, the net total is the exact sum of the rounded lines (BR-CO-10), and a tax is taken once on the sum of
//! its category (BR-CO-17).

mod batch;
mod bill;
mod column_map;
mod currency;
mod hand_over;
mod invoice_draft;
mod neutralise;
mod order_texts;
mod place;
mod price_book;
mod rounding;
mod totals;

pub use batch::append_batch;
pub use bill::{Bill, BillingInput, lines};
pub use column_map::{Export, labour_csv};
pub use hand_over::{account, hand_over};
pub use invoice_draft::{DraftInput, invoice_draft};
pub use order_texts::{OrderInput, Phrase, order_file, order_texts};
pub use place::Place;

use model::{Problem, ShopFile};

/// Why there is no bill, or a file of it cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum BillingError {
    /// A setting that no price can be made with.
    #[error("shop.toml, {place}: {message}")]
    Setting {
        /// Where it stands, or should.
        place: Place,
        /// What is wrong, what was expected and what to do.
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
        "the day's batch file cannot be added to: {0}; move it away, and a new one is begun with the same rows"
    )]
    Batch(String),
    /// A draft invoice of a job without a date.
    #[error(
        "a draft invoice needs a date: write the day the job was opened into job.toml, such as opened = 2026-03-02"
    )]
    NoDay,
    /// The rows could not be written.
    #[error("the rows could not be written: {0}")]
    Write(#[from] std::io::Error),
}

impl BillingError {
    fn setting(place: Place, message: impl Into<String>) -> Self {
        BillingError::Setting {
            place,
            message: message.into(),
        }
    }

    /// The error as a problem of the settings file: with its name, and line and key as its `text` has them.
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

/// Says whether the sections `[billing]`, `[labour_csv]` and `[invoice_draft]` can be used, before any job is done.
///
/// # Errors
/// The first setting that is wrong.
pub fn check(shop: &ShopFile) -> Result<(), BillingError> {
    let digits = price_book::PriceBook::read(&shop.billing)?.map(|book| book.money.digits);
    column_map::check(&shop.labour_csv, digits)?;
    invoice_draft::check(&shop.invoice_draft)
}

/// Says whether the catalogue speaks of causes and next recordings that there are: a misspelt name would never be
/// offered, and nobody would know.
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
                let place = Place::of(["billing", "operation"]).item(i).key(key);
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
