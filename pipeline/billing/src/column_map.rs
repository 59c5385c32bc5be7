//! labour.csv by the shop's column map (RFC 4180).

mod check;

use crate::BillingError;
use crate::neutralise::neutralise;
use crate::rounding::round_to;
use chrono::NaiveDate;
use csv::{Terminator, WriterBuilder};
use model::LabourLine;
use model::ShopFile;
use model::labour::{HandedRow, OrderTexts};
use model::shop_file::{
    Column, DecimalSeparator, Encoding, LabourCsvSection, LabourField, LineTerminator,
    MoneyRounding,
};
use rust_decimal::Decimal;
use std::fmt::Write;

pub(crate) use check::check;

/// Rows on their way to the billing system.
#[derive(Debug, Clone, Copy)]
pub struct Export<'a> {
    /// Complaint, cause and correction, for maps that have a column for them.
    pub texts: Option<&'a OrderTexts>,
    /// Rows, in their order.
    pub rows: &'a [&'a HandedRow],
}

/// Writes labour.csv: the rows by the shop's column map, in its encoding.
///
/// Text that a spreadsheet would run as a formula gets a leading apostrophe; numbers and the shop's own
/// constants are written as they are.
///
/// # Errors
/// A character that the encoding lacks.
pub fn labour_csv(export: &Export<'_>, shop: &ShopFile) -> Result<Vec<u8>, BillingError> {
    let map = &shop.labour_csv;
    let mark: &[u8] = match map.encoding {
        Encoding::Utf8 | Encoding::Windows1252 => b"",
        Encoding::Utf8Bom => b"\xEF\xBB\xBF",
        Encoding::Utf16 => b"\xFF\xFE",
    };
    let table = table(export, shop, map.header)?;
    Ok([mark, &encode(&table, map.encoding)].concat())
}

/// Rows as text, behind the names of the columns where `header`.
pub(crate) fn table(
    export: &Export<'_>,
    shop: &ShopFile,
    header: bool,
) -> Result<String, BillingError> {
    let map = &shop.labour_csv;
    let rounding = shop.billing.money_rounding;
    let mut table = WriterBuilder::new()
        .delimiter(map.delimiter as u8)
        .terminator(match map.line_terminator {
            LineTerminator::Crlf => Terminator::CRLF,
            LineTerminator::Lf => Terminator::Any(b'\n'),
        })
        .from_writer(Vec::new());
    let mut write = |line: u32, cell: &dyn Fn(&Column) -> String| {
        let cells = map.columns.iter().map(|c| encodable(map, line, c, cell(c)));
        let cells = cells.collect::<Result<Vec<_>, _>>()?;
        table.write_record(cells).map_err(std::io::Error::other)?;
        Ok::<(), BillingError>(())
    };
    if header {
        write(0, &|column| column.name.clone())?;
    }
    for row in export.rows {
        if map.lines.contains(&row.line.kind) {
            write(row.line.line, &|column| {
                cell(export, row, column, (map.decimal_separator, rounding))
            })?;
        }
    }
    let utf8 = table
        .into_inner()
        .map_err(|e| std::io::Error::other(e.to_string()))?;
    Ok(String::from_utf8(utf8).map_err(std::io::Error::other)?)
}

/// One cell.
fn cell(
    export: &Export<'_>,
    row: &HandedRow,
    column: &Column,
    (separator, rounding): (DecimalSeparator, MoneyRounding),
) -> String {
    let line = &row.line;
    let number = |value: Decimal| {
        let digits = column.decimals;
        number(
            digits.map_or(value, |d| round_to(value, d, rounding)),
            separator,
        )
    };
    let text = |t: &str| {
        let cut = t
            .char_indices()
            .nth(column.max_length.unwrap_or(usize::MAX));
        neutralise(cut.map_or(t, |(at, _)| &t[..at])).into_owned()
    };
    let Some(field) = column.field else {
        return column.constant.clone().unwrap_or_default();
    };
    let order =
        |part: fn(&OrderTexts) -> &String| export.texts.map_or(String::new(), |t| text(part(t)));
    match field {
        LabourField::Job => text(&row.job),
        LabourField::Opened => row
            .opened
            .map_or(String::new(), |day| text(&date(day, column))),
        LabourField::Billed => text(&date(row.day, column)),
        LabourField::Line => line.line.to_string(),
        LabourField::Operation => text(&line.operation),
        LabourField::Kind => line.kind.to_string(),
        LabourField::Step => line.step.to_string(),
        LabourField::Description => text(&line.description),
        LabourField::Hours => number(line.hours),
        LabourField::Minutes => number((line.hours * Decimal::from(60)).round().normalize()),
        LabourField::Quantity => number(line.quantity()),
        LabourField::Unit => unit(line).into(),
        LabourField::Rate => number(line.rate),
        LabourField::NetAmount => number(line.net_amount),
        LabourField::Currency => text(&line.currency),
        LabourField::TaxCategory => {
            (line.tax.as_ref()).map_or(String::new(), |t| text(&t.category))
        }
        LabourField::TaxRate => line.tax.as_ref().map_or(String::new(), |t| number(t.rate)),
        LabourField::Technician => text(line.technician.as_deref().unwrap_or_default()),
        LabourField::LineId => text(&line.line_id),
        LabourField::RowId => text(&row.row_id),
        LabourField::Row => row.kind.to_string(),
        LabourField::Revision => row.revision.to_string(),
        LabourField::Complaint => order(|t| &t.complaint),
        LabourField::Cause => order(|t| &t.cause),
        LabourField::Correction => order(|t| &t.correction),
    }
}

/// Unit of the line's quantity by UN/ECE Recommendation 20: hours or pieces.
pub(crate) fn unit(line: &LabourLine) -> &'static str {
    match line.pieces {
        None => "HUR",
        Some(_) => "C62",
    }
}

fn number(value: Decimal, separator: DecimalSeparator) -> String {
    // A withdrawn negative amount is no "-0.00".
    let value = if value.is_zero() { value.abs() } else { value };
    match separator {
        DecimalSeparator::Point => value.to_string(),
        DecimalSeparator::Comma => value.to_string().replace('.', ","),
    }
}

/// Day in the column's format, which the check has tried.
fn date(day: NaiveDate, column: &Column) -> String {
    let form = column.date.as_deref().unwrap_or("%Y-%m-%d");
    let mut text = String::new();
    match write!(text, "{}", day.format(form)) {
        Ok(()) => text,
        Err(_) => day.to_string(),
    }
}

/// Returns the cell if the encoding has all of its characters.
fn encodable(
    map: &LabourCsvSection,
    line: u32,
    column: &Column,
    cell: String,
) -> Result<String, BillingError> {
    if map.encoding != Encoding::Windows1252 {
        return Ok(cell);
    }
    let lacks = |c: &char| {
        encoding_rs::WINDOWS_1252
            .encode(c.encode_utf8(&mut [0; 4]))
            .2
    };
    match cell.chars().find(lacks) {
        None => Ok(cell),
        Some(character) => Err(BillingError::Character {
            line,
            column: column.name.clone(),
            character,
            encoding: encoding_rs::WINDOWS_1252.name(),
        }),
    }
}

/// Bytes of the text, without a byte order mark.
pub(crate) fn encode(text: &str, encoding: Encoding) -> Vec<u8> {
    match encoding {
        Encoding::Utf8 | Encoding::Utf8Bom => text.as_bytes().to_vec(),
        Encoding::Utf16 => text.encode_utf16().flat_map(u16::to_le_bytes).collect(),
        Encoding::Windows1252 => encoding_rs::WINDOWS_1252.encode(text).0.into_owned(),
    }
}
