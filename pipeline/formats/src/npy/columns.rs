//! Arrays as columns of samples.

use super::array::{Array, Class, Field};
use crate::source::MOST_CHANNELS;
use crate::units;
use model::Samples;

/// One column: every so many elements of an array.
#[derive(Debug)]
pub(super) struct Column<'a> {
    /// The name without its unit.
    pub name: String,
    pub unit: Option<String>,
    /// True where the file gives the name.
    pub named: bool,
    array: &'a Array<'a>,
    field: &'a Field,
    first: usize,
    stride: usize,
    len: usize,
}

/// The columns of an array; the error says why it has none.
pub(super) fn read_columns<'a>(array: &'a Array<'a>) -> Result<Vec<Column<'a>>, String> {
    let (samples, columns, sample_stride, column_stride) = match array.shape[..] {
        [n] => (n, 1, 1, 0),
        [rows, columns] => {
            let (row_stride, column_stride) = if array.fortran {
                (1, rows)
            } else {
                (columns, 1)
            };
            // Samples are more than channels.
            if rows >= columns {
                (rows, columns, row_stride, column_stride)
            } else {
                (columns, rows, column_stride, row_stride)
            }
        }
        _ => {
            return Err(format!(
                "it has {} dimensions; one or two are read",
                array.shape.len()
            ));
        }
    };
    if columns.saturating_mul(array.fields.len()) > MOST_CHANNELS {
        return Err(format!(
            "it has {columns} columns; at most {MOST_CHANNELS} are read"
        ));
    }
    let mut out = Vec::new();
    for c in 0..columns {
        for field in &array.fields {
            let own = [array.name.as_str(), field.name.as_str()]
                .into_iter()
                .rfind(|n| !n.is_empty());
            let (name, unit) = own.map_or((String::new(), None), units::split);
            let name = match (name.as_str(), columns) {
                ("", _) => format!("Column {}", c + 1),
                (name, 1) => name.to_string(),
                (name, _) => format!("{name} {}", c + 1),
            };
            let (first, stride) = (c * column_stride, sample_stride);
            out.push(Column {
                name,
                unit,
                named: own.is_some(),
                array,
                field,
                first,
                stride,
                len: samples,
            });
        }
    }
    Ok(out)
}

impl Column<'_> {
    pub fn len(&self) -> usize {
        self.len
    }

    /// Memory that its samples take, bytes.
    pub fn bytes(&self) -> u64 {
        let each = match (self.field.kind.class, self.field.kind.width) {
            (Class::Signed, 1 | 2) => 2,
            (Class::Float, 8) => 8,
            _ => 4,
        };
        self.len as u64 * each
    }

    fn iter(&self) -> impl Iterator<Item = f64> {
        (0..self.len).map(|i| {
            self.array
                .value(self.field, self.first + i * self.stride)
                .unwrap_or(f64::NAN)
        })
    }

    pub fn values(&self) -> Vec<f64> {
        self.iter().collect()
    }

    /// The samples in their own type where that is kept, else as 32-bit floats.
    pub fn samples(&self) -> Samples {
        match (self.field.kind.class, self.field.kind.width) {
            (Class::Signed, 1 | 2) => Samples::I16(self.iter().map(|v| v as i16).collect()),
            (Class::Float, 8) => Samples::F64(self.iter().collect()),
            _ => Samples::F32(self.iter().map(|v| v as f32).collect::<Vec<_>>().into()),
        }
    }

    /// Rounding of a value of this size by its type.
    pub fn rounding(&self, size: f64) -> f64 {
        match (self.field.kind.class, self.field.kind.width) {
            (Class::Float, 8) => 0.0,
            (Class::Float, 4) => f64::from(f32::EPSILON) * size,
            (Class::Float, _) => size / 1024.0,
            _ => 1.0,
        }
    }
}
