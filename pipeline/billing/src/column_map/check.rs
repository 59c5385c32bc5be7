//! Checks of a column map.

use crate::{BillingError, KeyPath};
use chrono::NaiveDate;
use model::shop_file::{Batch, Column, LabourCsvSection, LabourField};
use std::fmt::Write;

/// Greatest number of decimals that any number needs.
const MAX_DECIMALS: u32 = 6;

/// Formatting that a field allows.
#[derive(PartialEq, Eq)]
enum Form {
    /// A number, which may be given fixed decimals.
    Number,
    /// A text, which may be cut.
    Text,
    /// A date, which may be written in another form.
    Date,
    /// Neither cut nor rounded.
    Fixed,
}

/// Checks a column map. `digits` are those of the currency's minor unit.
///
/// # Errors
/// The first setting that is wrong.
pub(crate) fn check(map: &LabourCsvSection, digits: Option<u32>) -> Result<(), BillingError> {
    let section = KeyPath::new(["labour_csv"]);
    let delimiter = map.delimiter;
    let usable =
        delimiter == '\t' || (delimiter.is_ascii_graphic() && !delimiter.is_ascii_alphanumeric());
    if !usable || matches!(delimiter, '"' | '\'' | '.' | '-' | '+') {
        return Err(BillingError::setting(
            section.key("delimiter"),
            format!("{delimiter:?} cannot divide fields; expected one of , ; | or a tabulator"),
        ));
    }
    for (key, empty) in [
        ("column", map.columns.is_empty()),
        ("lines", map.lines.is_empty()),
    ] {
        if empty {
            let message = "is empty: expected at least one, or leave it out";
            return Err(BillingError::setting(section.key(key), message));
        }
    }
    for (i, column) in map.columns.iter().enumerate() {
        check_column(column, digits, &section.key("column").item(i))?;
    }
    let has_row_id = |c: &Column| c.field == Some(LabourField::RowId);
    if map.batch != Batch::None && !map.columns.iter().any(has_row_id) {
        return Err(BillingError::setting(
            section.key("batch"),
            "needs a column with field = \"row_id\": by it the file knows the rows that it has, and never gets one twice",
        ));
    }
    Ok(())
}

fn check_column(column: &Column, digits: Option<u32>, place: &KeyPath) -> Result<(), BillingError> {
    let wrong = |key: &str, what: &str| {
        let message = format!("column {:?} {what}", column.name);
        Err(BillingError::setting(place.key(key), message))
    };
    if column.field.is_some() == column.constant.is_some() {
        return wrong(
            "field",
            "must have either a field or a constant, and not both",
        );
    }
    let form = column.field.map_or(Form::Fixed, form);
    if let Some(decimals) = column.decimals {
        if form != Form::Number {
            return wrong("decimals", "is no number that decimals could be fixed for");
        }
        if decimals > MAX_DECIMALS {
            return wrong("decimals", "cannot have so many decimals; expected 0 to 6");
        }
        if column.field == Some(LabourField::NetAmount) && digits.is_some_and(|d| decimals < d) {
            return wrong(
                "decimals",
                "has fewer decimals than the currency, so amounts would be falsified",
            );
        }
    }
    if let Some(length) = column.max_length {
        if form != Form::Text {
            return wrong("max_length", "is no text that could be cut");
        }
        if length == 0 {
            return wrong(
                "max_length",
                "would always be empty; expected 1 or more characters",
            );
        }
    }
    if let Some(date) = &column.date {
        if form != Form::Date {
            return wrong("date", "is no date");
        }
        let day = NaiveDate::from_ymd_opt(2000, 1, 31).unwrap_or_default();
        let mut text = String::new();
        if write!(text, "{}", day.format(date)).is_err() || text.is_empty() {
            return wrong(
                "date",
                "has no form of a date: expected conversions such as %d.%m.%Y",
            );
        }
    }
    Ok(())
}

fn form(field: LabourField) -> Form {
    use LabourField::*;
    match field {
        Hours | Minutes | Quantity | Rate | NetAmount | TaxRate => Form::Number,
        Description | Technician | Complaint | Cause | Correction => Form::Text,
        Opened | Billed => Form::Date,
        Job | Line | Operation | Kind | Step | Unit | Currency | TaxCategory | LineId | RowId
        | Row | Revision => Form::Fixed,
    }
}
