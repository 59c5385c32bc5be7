//! labour.csv by the shop's column map.

use crate::neutralise::neutralise;
use crate::{Bill, BillingError};
use csv::{Terminator, WriterBuilder};
use model::LabourLine;
use model::labour::LineState;
use model::shop_file::{Column, DecimalSign, Encoding, LabourCsvSection, LabourField, LineEnd};
use rust_decimal::Decimal;
use std::io::Write;

/// Writes the billable lines of a bill. Estimates stay out.
///
/// Text that a spreadsheet would run as a formula gets a leading apostrophe; numbers and the shop's own
/// constants are written as they are.
///
/// # Errors
/// A column map that cannot be used, a character that the encoding lacks (nothing is written then), or
/// a failing `out`.
pub fn write_csv(
    bill: &Bill,
    map: &LabourCsvSection,
    mut out: impl Write,
) -> Result<(), BillingError> {
    check(map)?;
    let mut table = WriterBuilder::new()
        .delimiter(map.delimiter as u8)
        .terminator(match map.line_end {
            LineEnd::Crlf => Terminator::CRLF,
            LineEnd::Lf => Terminator::Any(b'\n'),
        })
        .from_writer(Vec::new());
    if map.header {
        let names = map
            .columns
            .iter()
            .map(|c| encodable(map, 0, c, c.name.clone()));
        table
            .write_record(names.collect::<Result<Vec<_>, _>>()?)
            .map_err(std::io::Error::other)?;
    }
    for line in bill.lines.iter().filter(|l| l.state == LineState::Billable) {
        let cells = map
            .columns
            .iter()
            .map(|c| encodable(map, line.line, c, cell(bill, line, c, map.decimal_sign)));
        table
            .write_record(cells.collect::<Result<Vec<_>, _>>()?)
            .map_err(std::io::Error::other)?;
    }
    let utf8 = table
        .into_inner()
        .map_err(|e| std::io::Error::other(e.to_string()))?;
    let text = String::from_utf8(utf8).map_err(std::io::Error::other)?;
    out.write_all(&encode(&text, map.encoding))?;
    Ok(out.flush()?)
}

/// Says whether a column map can be used.
pub(crate) fn check(map: &LabourCsvSection) -> Result<(), BillingError> {
    let delimiter = map.delimiter;
    let usable =
        delimiter == '\t' || (delimiter.is_ascii_graphic() && !delimiter.is_ascii_alphanumeric());
    if !usable || matches!(delimiter, '"' | '\'' | '.' | '-' | '+') {
        return Err(BillingError::setting(
            "labour_csv.delimiter",
            format!("{delimiter:?} cannot divide fields; expected one of , ; | or a tabulator"),
        ));
    }
    if map.columns.is_empty() {
        return Err(BillingError::setting(
            "labour_csv.column",
            "is empty: expected at least one column",
        ));
    }
    match map
        .columns
        .iter()
        .find(|c| c.field.is_some() == c.constant.is_some())
    {
        None => Ok(()),
        Some(column) => Err(BillingError::setting(
            format!("labour_csv.column {:?}", column.name),
            "must have either a field or a constant, and not both",
        )),
    }
}

/// One cell.
fn cell(bill: &Bill, line: &LabourLine, column: &Column, sign: DecimalSign) -> String {
    let number = |value: Decimal| match sign {
        DecimalSign::Point => value.to_string(),
        DecimalSign::Comma => value.to_string().replace('.', ","),
    };
    let text = |t: &str| neutralise(t).into_owned();
    let Some(field) = column.field else {
        return column.constant.clone().unwrap_or_default();
    };
    match field {
        LabourField::Job => text(&bill.job),
        LabourField::Line => line.line.to_string(),
        LabourField::Operation => text(&line.operation),
        LabourField::Step => text(line.step.name()),
        LabourField::Description => text(&line.description),
        LabourField::Hours => number(line.hours),
        LabourField::Minutes => (line.hours * Decimal::from(60))
            .round()
            .normalize()
            .to_string(),
        LabourField::Rate => number(line.rate),
        LabourField::Amount => number(line.amount),
        LabourField::Currency => text(&line.currency),
        LabourField::TaxCategory => line
            .tax
            .as_ref()
            .map_or(String::new(), |t| text(&t.category)),
        LabourField::TaxRate => line.tax.as_ref().map_or(String::new(), |t| number(t.rate)),
        LabourField::Technician => text(line.technician.as_deref().unwrap_or_default()),
        LabourField::LineId => text(&line.line_id),
    }
}

/// The cell, if the encoding has all of its characters.
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

fn encode(text: &str, encoding: Encoding) -> Vec<u8> {
    match encoding {
        Encoding::Utf8 => text.as_bytes().to_vec(),
        Encoding::Utf8Bom => [b"\xEF\xBB\xBF", text.as_bytes()].concat(),
        Encoding::Utf16 => {
            let units = std::iter::once(0xFEFF).chain(text.encode_utf16());
            units.flat_map(u16::to_le_bytes).collect()
        }
        Encoding::Windows1252 => encoding_rs::WINDOWS_1252.encode(text).0.into_owned(),
    }
}
