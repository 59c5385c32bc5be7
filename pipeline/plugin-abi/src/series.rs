//! Derived series: even tracks and tables, with typed columns.

use serde::{Deserialize, Serialize};

/// A series that one analyzer derives from a recording and others use.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub struct Series {
    /// Machine name.
    pub name: String,
    /// Index of the channel that it was derived from; `None` for the whole recording.
    pub channel: Option<u32>,
    /// The even grid of a track; `None` for a table.
    pub grid: Option<Grid>,
    /// Columns, all of one length.
    pub columns: Vec<Column>,
}

/// Row `i` of a track belongs to `start_s + i * step_s`, s of the recording's own time.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Grid {
    /// Time of the first row, s.
    pub start_s: f64,
    /// Time from one row to the next, s, greater than 0.
    pub step_s: f64,
}

/// A column of a series.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub struct Column {
    /// Name: `start_s`, `rpm`.
    pub name: String,
    /// Unit of its values: `s`, `rpm`; empty for none, or for that of the channel.
    pub unit: String,
    /// Its values.
    pub values: Values,
}

/// Values of a column.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Values {
    /// NaN where there is no value; no infinities.
    F64(#[serde(with = "as_bytes")] Vec<f64>),
    /// Counts, indices, 0 and 1 for no and yes.
    I64(#[serde(with = "as_bytes")] Vec<i64>),
    /// Short words.
    Text(Vec<String>),
}

impl Default for Values {
    fn default() -> Self {
        Values::F64(Vec::new())
    }
}

/// Form of a series.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Form {
    /// Rows on an even grid of time.
    Track,
    /// Rows with instants, where they have any, in columns of their own.
    #[default]
    Table,
}

/// Type of a column's values.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ColumnType {
    /// Numbers.
    #[default]
    F64,
    /// Whole numbers.
    I64,
    /// Short words.
    Text,
}

impl Series {
    /// Track or table.
    pub fn form(&self) -> Form {
        match self.grid {
            Some(_) => Form::Track,
            None => Form::Table,
        }
    }

    /// Number of rows.
    pub fn rows(&self) -> usize {
        self.columns.first().map_or(0, |c| c.values.len())
    }

    /// Numbers of the column of that name; `None` without such a column of that type.
    pub fn numbers(&self, column: &str) -> Option<&[f64]> {
        match self.column(column)? {
            Values::F64(v) => Some(v),
            _ => None,
        }
    }

    /// Whole numbers of the column of that name; `None` without such a column of that type.
    pub fn counts(&self, column: &str) -> Option<&[i64]> {
        match self.column(column)? {
            Values::I64(v) => Some(v),
            _ => None,
        }
    }

    /// Words of the column of that name; `None` without such a column of that type.
    pub fn words(&self, column: &str) -> Option<&[String]> {
        match self.column(column)? {
            Values::Text(v) => Some(v),
            _ => None,
        }
    }

    fn column(&self, name: &str) -> Option<&Values> {
        let column = self.columns.iter().find(|c| c.name == name)?;
        Some(&column.values)
    }
}

impl Values {
    /// Number of values.
    pub fn len(&self) -> usize {
        match self {
            Values::F64(v) => v.len(),
            Values::I64(v) => v.len(),
            Values::Text(v) => v.len(),
        }
    }

    /// True without any value.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Their type.
    pub fn column_type(&self) -> ColumnType {
        match self {
            Values::F64(_) => ColumnType::F64,
            Values::I64(_) => ColumnType::I64,
            Values::Text(_) => ColumnType::Text,
        }
    }
}

/// Numbers as one string of bytes: a million of them pass between processes at the speed of a copy.
mod as_bytes {
    use bytemuck::Pod;
    use serde::de::{Error, Visitor};
    use serde::{Deserializer, Serializer};
    use std::fmt;
    use std::marker::PhantomData;

    pub fn serialize<T: Pod, S: Serializer>(numbers: &[T], s: S) -> Result<S::Ok, S::Error> {
        s.serialize_bytes(bytemuck::cast_slice(numbers))
    }

    pub fn deserialize<'de, T: Pod, D: Deserializer<'de>>(d: D) -> Result<Vec<T>, D::Error> {
        struct Bytes<T>(PhantomData<T>);
        impl<T: Pod> Visitor<'_> for Bytes<T> {
            type Value = Vec<T>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("numbers of eight bytes each")
            }
            fn visit_byte_buf<E: Error>(self, bytes: Vec<u8>) -> Result<Vec<T>, E> {
                self.visit_bytes(&bytes)
            }
            fn visit_bytes<E: Error>(self, bytes: &[u8]) -> Result<Vec<T>, E> {
                match bytes.len() % size_of::<T>() {
                    0 => Ok(bytemuck::pod_collect_to_vec(bytes)),
                    _ => Err(E::invalid_length(bytes.len(), &self)),
                }
            }
        }
        d.deserialize_byte_buf(Bytes(PhantomData))
    }
}
