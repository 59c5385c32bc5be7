//! `[labour_csv]`: the column map of labour.csv.

use crate::labour::LineKind;
use serde::{Deserialize, Serialize};

/// `[labour_csv]`: format of labour.csv. Left out: RFC 4180, UTF-8, CRLF, a header row.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct LabourCsvSection {
    /// Character between two fields, one ASCII character.
    pub delimiter: char,
    /// Character between whole and fraction.
    pub decimal_separator: DecimalSeparator,
    /// Character encoding.
    pub encoding: Encoding,
    /// End of a row.
    pub line_terminator: LineTerminator,
    /// Names the columns in the first row.
    pub header: bool,
    /// Correction of a line that was handed over and has changed since.
    pub corrections: Corrections,
    /// Files of new rows beside labour.csv, which holds the job's whole account.
    pub batch: Batch,
    /// Kinds of lines that are written.
    pub lines: Vec<LineKind>,
    /// `[[labour_csv.column]]`: the columns, in their order.
    #[serde(rename = "column")]
    pub columns: Vec<Column>,
}

impl Default for LabourCsvSection {
    fn default() -> Self {
        LabourCsvSection {
            delimiter: ',',
            decimal_separator: DecimalSeparator::default(),
            encoding: Encoding::default(),
            line_terminator: LineTerminator::default(),
            header: true,
            corrections: Corrections::default(),
            batch: Batch::default(),
            lines: vec![LineKind::Labour, LineKind::Part, LineKind::Fee],
            columns: LabourField::DEFAULT
                .into_iter()
                .map(|(name, field)| Column {
                    name: name.into(),
                    field: Some(field),
                    ..Column::default()
                })
                .collect(),
        }
    }
}

/// `[[labour_csv.column]]`: a field of the line, or a constant.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Column {
    /// Name in the header row.
    pub name: String,
    /// Field of the line in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub field: Option<LabourField>,
    /// Text that stands in every row.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub constant: Option<String>,
    /// For numbers: fixed number of decimals, 0 to 6. More are rounded, which an amount never needs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub decimals: Option<u32>,
    /// For texts: greatest number of characters; the rest is cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub max_length: Option<usize>,
    /// For dates: format in the conversions of POSIX `strftime`; `%Y-%m-%d` (ISO 8601) where it is left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<String>,
}

/// Field of a labour line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LabourField {
    /// Number of the job.
    Job,
    /// Day on which the job was opened.
    Opened,
    /// Day on which the row was handed over.
    Billed,
    /// Position of the line in the job.
    Line,
    /// Code of the operation or fee, number of the part.
    Operation,
    /// `labour`, `part` or `fee`.
    Kind,
    /// Step of the job: `teardown`.
    Step,
    /// Description.
    Description,
    /// Hours.
    Hours,
    /// The same time in minutes.
    Minutes,
    /// Hours of labour, pieces of anything else.
    Quantity,
    /// Their unit as UN/ECE Recommendation 20 writes it: `HUR` (hour) or `C62` (one).
    Unit,
    /// Net price of one hour or one piece.
    Rate,
    /// Net price of the line.
    NetAmount,
    /// ISO 4217 code.
    Currency,
    /// Tax category.
    TaxCategory,
    /// Tax rate, percent.
    TaxRate,
    /// Name of the person who did the work.
    Technician,
    /// Identifier of the line, the same in every run.
    LineId,
    /// Identifier of the row: never twice, corrections included.
    RowId,
    /// `bill`, `reversal` or `withdrawal`.
    Row,
    /// Version of the line, from 1.
    Revision,
    /// The customer's complaint.
    Complaint,
    /// Cause that was found.
    Cause,
    /// Work done, authorised, offered or declined.
    Correction,
}

impl LabourField {
    /// Columns of labour.csv where shop.toml names none.
    pub const DEFAULT: [(&'static str, LabourField); 12] = [
        ("job", LabourField::Job),
        ("line", LabourField::Line),
        ("operation", LabourField::Operation),
        ("description", LabourField::Description),
        ("quantity", LabourField::Quantity),
        ("hours", LabourField::Hours),
        ("rate", LabourField::Rate),
        ("net_amount", LabourField::NetAmount),
        ("tax_rate", LabourField::TaxRate),
        ("currency", LabourField::Currency),
        ("technician", LabourField::Technician),
        ("line_id", LabourField::LineId),
    ];
}

/// Files of new rows, which a billing system may take in and delete.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Batch {
    /// None.
    #[default]
    None,
    /// `OUT/labour-DAY.csv`: the new rows of all jobs of a day.
    Day,
    /// `OUT/JOB/labour-DAY.csv`: the new rows of one job on a day.
    Job,
}

/// Character between whole and fraction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum DecimalSeparator {
    /// `298.89`
    #[default]
    #[serde(rename = ".")]
    Point,
    /// `298,89`
    #[serde(rename = ",")]
    Comma,
}

/// Character encoding of labour.csv.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Encoding {
    /// UTF-8 without a byte order mark.
    #[default]
    #[serde(rename = "utf-8")]
    Utf8,
    /// UTF-8 behind a byte order mark, which some spreadsheets need.
    #[serde(rename = "utf-8-bom")]
    Utf8Bom,
    /// UTF-16, little-endian, behind a byte order mark.
    #[serde(rename = "utf-16")]
    Utf16,
    /// Windows-1252.
    #[serde(rename = "windows-1252")]
    Windows1252,
}

/// End of a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum LineTerminator {
    /// CR LF (RFC 4180).
    #[default]
    Crlf,
    /// LF alone.
    Lf,
}

/// Correction of a line that was handed over and has changed since.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Corrections {
    /// Two rows: the old line with negative amounts, and the new one. Any sum over the rows stays right.
    #[default]
    Pair,
    /// One row with the next revision, which replaces the older one of the same `line_id`.
    Revision,
}
