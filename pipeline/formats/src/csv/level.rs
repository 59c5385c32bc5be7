//! Levels in words, as logic recorders write them.

use crate::words::{WORDS, fold};

/// 1 for a high level or a rising edge, 0 for a low one or a falling edge, NaN for an unknown level; `None` for anything
/// else.
pub(super) fn value(cell: &str) -> Option<f64> {
    let cell = fold(cell.trim().trim_matches(['"', '\'']));
    match cell.as_str() {
        "" | "x" | "z" | "-" => Some(f64::NAN),
        "1" => Some(1.0),
        "0" => Some(0.0),
        word if WORDS.high.contains(word) => Some(1.0),
        word if WORDS.low.contains(word) => Some(0.0),
        _ => None,
    }
}

/// True where all of a column's cells are levels, both occur, and words are among them: a column of zeros and ones is one
/// of numbers.
pub(super) fn is_column<'a>(cells: impl Iterator<Item = &'a str>) -> bool {
    let (mut high, mut low, mut word) = (false, false, false);
    for cell in cells {
        match value(cell) {
            Some(1.0) => high = true,
            Some(0.0) => low = true,
            Some(_) => continue,
            None => return false,
        }
        word |= !matches!(cell.trim(), "0" | "1");
    }
    high && low && word
}
