//! `[labour_csv]`: the column map of labour.csv.

use crate::labour::LineKind;
use serde::{Deserialize, Serialize};

/// `[labour_csv]`: how labour.csv is written. Left out: RFC 4180, UTF-8, CRLF, a header row.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct LabourCsvSection {
    /// Character between two fields, one ASCII character.
    pub delimiter: char,
    /// Character between whole and fraction.
    pub decimal_sign: DecimalSign,
    /// Character encoding.
    pub encoding: Encoding,
    /// End of a row.
    pub line_end: LineEnd,
    /// Whether the first row names the columns.
    pub header: bool,
    /// How a line is corrected that was handed over and has changed since.
    pub corrections: Corrections,
    /// Also add every row to one file for all jobs of a day.
    pub daily_batch: bool,
    /// Which lines are written.
    pub lines: Vec<LineKind>,
    /// `[[labour_csv.column]]`: the columns, in their order.
    #[serde(rename = "column")]
    pub columns: Vec<Column>,
}

impl Default for LabourCsvSection {
    fn default() -> Self {
        LabourCsvSection {
            delimiter: ',',
            decimal_sign: DecimalSign::default(),
            encoding: Encoding::default(),
            line_end: LineEnd::default(),
            header: true,
            corrections: Corrections::default(),
            daily_batch: false,
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
    /// What of the line stands in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub field: Option<LabourField>,
    /// Text that stands in every row.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub constant: Option<String>,
    /// For numbers: always so many decimals. More are rounded, which an amount never needs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub decimals: Option<u32>,
    /// For texts: cut behind so many characters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub longest: Option<usize>,
    /// For dates: their form in the conversions of POSIX `strftime`; `%Y-%m-%d` (ISO 8601) where it is left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<String>,
}

/// What of a labour line can stand in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LabourField {
    /// The job's number.
    Job,
    /// The day the job was opened.
    Opened,
    /// The line's position in the job.
    Line,
    /// The operation's code; a part's number; a fee's code.
    Operation,
    /// `labour`, `part` or `fee`.
    Kind,
    /// The step of the job: `teardown`.
    Step,
    /// What is done.
    Description,
    /// Hours.
    Hours,
    /// The same time in minutes.
    Minutes,
    /// Hours of labour, pieces of anything else.
    Quantity,
    /// Their unit as UN/ECE Recommendation 20 writes it: `HUR` (hour) or `C62` (one).
    Unit,
    /// Price of one hour or one piece.
    Rate,
    /// Price of the line, without tax.
    Amount,
    /// ISO 4217 code.
    Currency,
    /// Tax category.
    TaxCategory,
    /// Tax rate, percent.
    TaxRate,
    /// Who did the work.
    Technician,
    /// The line's stable id.
    LineId,
    /// The row's own id: never twice, corrections included.
    RowId,
    /// `bill`, `reversal` or `withdrawal`.
    Row,
    /// Version of the line, from 1.
    Revision,
    /// What the customer complains of.
    Complaint,
    /// What was found.
    Cause,
    /// What was done about it.
    Correction,
}

impl LabourField {
    /// The columns that labour.csv has where shop.toml names none.
    pub const DEFAULT: [(&'static str, LabourField); 10] = [
        ("job", LabourField::Job),
        ("line", LabourField::Line),
        ("operation", LabourField::Operation),
        ("description", LabourField::Description),
        ("hours", LabourField::Hours),
        ("rate", LabourField::Rate),
        ("amount", LabourField::Amount),
        ("currency", LabourField::Currency),
        ("technician", LabourField::Technician),
        ("line_id", LabourField::LineId),
    ];
}

/// Character between whole and fraction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum DecimalSign {
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
pub enum LineEnd {
    /// CR LF, as RFC 4180 wants it.
    #[default]
    Crlf,
    /// LF alone.
    Lf,
}

/// How a line is corrected that was handed over and has changed since.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Corrections {
    /// Two rows: the old line with negative amounts, and the new one. Any sum over the rows stays right.
    #[default]
    Pair,
    /// One row with the next revision, which replaces the older one of the same `line_id`.
    Revision,
}
