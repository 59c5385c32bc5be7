//! A last line that was cut while it was written.

use super::cells::cells;
use super::layout::{self, Layout};
use super::score::cell_score;
use crate::number::{self, Cell};
use crate::text::Text;

/// True for a last line that was cut while it was written: no line break behind it, and fewer cells than
/// the others, a broken cell, or fewer decimals in the last cell than every line before has.
pub(crate) fn is_cut(text: &Text, layout: &Layout) -> bool {
    if text.ends_with_break() && !text.cut {
        return false;
    }
    let tail = text.tail(1 << 14);
    let lines: Vec<&str> = tail
        .lines()
        .flat_map(|l| l.split('\r'))
        .filter(|l| !l.trim().is_empty())
        .collect();
    let Some((last, before)) = lines.split_last() else {
        return false;
    };
    let row = cells(last, layout.delimiter);
    let before: Vec<Vec<String>> = before
        .iter()
        .skip(1)
        .rev()
        .take(20)
        .map(|l| cells(l, layout.delimiter))
        .collect();
    if before.iter().any(|b| row.len() < b.len()) && before.iter().all(|b| row.len() <= b.len()) {
        return true;
    }
    let width = layout.columns.len();
    let broken = |(cell, column): (&String, &layout::Column)| {
        column.numeric && cell_score(cell, column.levels, layout.style) < 0
    };
    if row.iter().zip(&layout.columns).any(broken) {
        return true;
    }
    let decimals =
        |row: &Vec<String>| match number::cell(row.get(width - 1)?.as_bytes(), layout.style) {
            Cell::Number(d) => Some(d.decimals),
            _ => None,
        };
    match (decimals(&row), before.iter().filter_map(decimals).min()) {
        (Some(last), Some(least)) => before.len() >= 3 && last < least,
        (None, Some(_)) => {
            before.len() >= 3 && row.get(width - 1).is_none_or(|c| c.is_empty() || c == "-")
        }
        _ => false,
    }
}
