//! Labour lines: what the job's work costs, in exact decimals, and the CSV for the shop's billing system.
//!
//! [`lines`] turns a verdict and the shop's prices into a [`Bill`]; [`write_csv`] writes the part of it
//! that may be billed. No amount ever passes through a binary float. Sums follow EN 16931: each line is
//! rounded to the currency's minor unit first, the net total is the exact sum of the rounded lines
//! (BR-CO-10), and a tax is taken once on the sum of its category (BR-CO-17).

mod bill;
mod column_map;
mod currency;
mod hand_over;
mod neutralise;
mod price_book;
mod rounding;
mod totals;

pub use bill::{Bill, BillingInput, lines};
pub use column_map::write_csv;
pub use hand_over::{account, hand_over};

use model::ShopFile;

/// Why there is no bill, or no labour.csv.
#[derive(Debug, thiserror::Error)]
pub enum BillingError {
    /// A setting that no price can be made with.
    #[error("shop.toml, {place}: {message}")]
    Setting {
        /// The key: `billing.currency`.
        place: String,
        /// What is wrong, what was expected and what to do.
        message: String,
    },
    /// A character that the chosen encoding does not have.
    #[error(
        "labour.csv, line {line} of the job, column {column:?}: {encoding} has no character {character:?} \
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
    /// The file could not be written.
    #[error("labour.csv could not be written: {0}")]
    Write(#[from] std::io::Error),
}

impl BillingError {
    fn setting(place: impl Into<String>, message: impl Into<String>) -> Self {
        BillingError::Setting {
            place: place.into(),
            message: message.into(),
        }
    }
}

/// Says whether the `[billing]` and `[labour_csv]` sections can be used, before any job is done.
///
/// # Errors
/// The first setting that is wrong.
pub fn check(shop: &ShopFile) -> Result<(), BillingError> {
    price_book::PriceBook::read(&shop.billing)?;
    column_map::check(&shop.labour_csv)
}
