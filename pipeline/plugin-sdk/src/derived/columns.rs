//! Columns of a series made from values, and values read from columns.

use crate::{Series, Values};

/// A column of numbers. A series holds no infinities: what is infinite was not measured.
pub fn numbers<T>(all: &[T], number: impl Fn(&T) -> f64) -> Values {
    let finite = |v: f64| if v.is_infinite() { f64::NAN } else { v };
    Values::F64(all.iter().map(|v| finite(number(v))).collect())
}

/// A column of numbers that may be missing (NaN).
pub fn options<T>(all: &[T], number: impl Fn(&T) -> Option<f64>) -> Values {
    numbers(all, |v| number(v).unwrap_or(f64::NAN))
}

/// A column of counts.
pub fn counts<T>(all: &[T], count: impl Fn(&T) -> usize) -> Values {
    Values::I64(all.iter().map(|v| count(v) as i64).collect())
}

/// A column of flags, 0 or 1.
pub fn flags<T>(all: &[T], flag: impl Fn(&T) -> bool) -> Values {
    counts(all, |v| usize::from(flag(v)))
}

/// A column of words.
pub fn words<T>(all: &[T], word: impl Fn(&T) -> &'static str) -> Values {
    Values::Text(all.iter().map(|v| word(v).into()).collect())
}

/// Columns of one series, row by row.
pub struct Rows<'a>(pub &'a Series);

impl Rows<'_> {
    pub fn number(&self, column: &str, row: usize) -> Option<f64> {
        self.0.numbers(column)?.get(row).copied()
    }

    /// A number that may be missing: the inner `None`.
    pub fn option(&self, column: &str, row: usize) -> Option<Option<f64>> {
        Some(Some(self.number(column, row)?).filter(|v| !v.is_nan()))
    }

    pub fn count(&self, column: &str, row: usize) -> Option<usize> {
        usize::try_from(*self.0.counts(column)?.get(row)?).ok()
    }

    pub fn small(&self, column: &str, row: usize) -> Option<u32> {
        self.count(column, row)?.try_into().ok()
    }

    pub fn flag(&self, column: &str, row: usize) -> Option<bool> {
        Some(self.count(column, row)? != 0)
    }

    pub fn word(&self, column: &str, row: usize) -> Option<&str> {
        Some(self.0.words(column)?.get(row)?.as_str())
    }
}
