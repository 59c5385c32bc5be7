//! Runs of plain rows that are of one shape: read column by column, with nothing looked for in any of them.

use super::{Column, Rows};
use crate::csv::fast::FixedForm;
use crate::csv::same_shape::same_shape;
use std::ops::Range;

/// A run of fewer rows gains nothing.
const WORTHWHILE: usize = 4;
/// After a run that was not worth its while only each so many-th row is asked for the next.
const ASK_AGAIN: usize = 8;

impl Rows<'_> {
    /// Reads the rows in the first `len` bytes that follow the plain row at `first` and are written like it; gives where
    /// the first other row begins.
    #[inline]
    pub(super) fn rows_of_one_shape(
        &mut self,
        bytes: &[u8],
        len: usize,
        first: Range<usize>,
    ) -> usize {
        let (next, width) = (first.end, first.len());
        if !self.runs && !self.count.is_multiple_of(ASK_AGAIN) {
            return next;
        }
        let n = self.run(bytes, len, first);
        self.runs = n >= WORTHWHILE;
        next + n * width
    }

    /// Gives how many rows were read.
    fn run(&mut self, bytes: &[u8], len: usize, first: Range<usize>) -> usize {
        let (row, next, width) = (&bytes[first.clone()], first.end, first.len());
        // Behind each row taken here stand at least as many bytes as it has, so that a whole word begins anywhere in it.
        let end = len.min(bytes.len() - width);
        let rest = bytes.get(next..end).unwrap_or_default();
        let fixed = |c: &Column| FixedForm::new(&bytes[first.start + c.at..], c.form);
        // The last byte alone tells most rows of another length.
        if rest.get(width - 1) != row.last() || self.columns.iter().any(|c| fixed(c).is_none()) {
            return 0;
        }
        let from = |place: usize| bytes[next + place..].chunks_exact(width);
        let rows = rest.chunks_exact(width).zip(from(self.time_at));
        let stamps = rows
            .take_while(|(other, _)| same_shape(row, other))
            .map(|(_, stamp)| stamp);
        let n = match &mut self.stamps {
            Some(own) => own.accept_all(stamps),
            None => stamps.count(),
        };
        let word = |row: &[u8]| *row.first_chunk().expect("rows of one shape are longer");
        for column in &mut self.columns {
            if let Some(cell) = fixed(column) {
                let cells = from(column.at + cell.sign).take(n);
                column.samples.extend(cells.map(|c| cell.value(word(c))));
            }
        }
        self.count += n;
        self.lines += n as u64;
        n
    }
}
