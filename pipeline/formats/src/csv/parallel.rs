//! Blocks of lines read by several threads, and put together in order.

use super::blocks::{Block, Blocks};
use super::layout::Layout;
use super::oddity::{Oddities, Oddity};
use super::rows::{Plan, Rows};
use super::stamps::Stamps;
use crate::text::Text;
use std::io;
use std::num::NonZero;
use std::sync::{Arc, Mutex, PoisonError};

/// Most threads; more than this the memory cannot feed.
const MOST_THREADS: usize = 8;
/// A text shorter than this is read by one thread, bytes.
const WORTH_A_THREAD: u64 = 1 << 20;

/// All rows of a text.
pub(super) struct AllRows {
    /// Samples by column kept, in pieces that follow each other.
    columns: Vec<Vec<Vec<f32>>>,
    pub stamps: Option<Stamps>,
    pub count: usize,
    pub lines: u64,
    pub odd: Oddities,
    /// The line, counted from the first row as 1, that was too long; what follows it was not read.
    pub long_line: Option<u64>,
}

/// Reads every row behind the first `layout.skip` bytes of the decoded text.
pub(super) fn read(text: &Text, layout: &Layout, plan: &[Plan]) -> io::Result<AllRows> {
    let line_break = if layout.bare_cr { b'\r' } else { b'\n' };
    let blocks = Mutex::new(Blocks::new(text, layout.skip, line_break));
    let work = || -> io::Result<Vec<(usize, Rows)>> {
        let (mut block, mut done) = (Block::new(), Vec::new());
        loop {
            // A thread that panicked left the blocks in order all the same.
            let more = blocks
                .lock()
                .unwrap_or_else(PoisonError::into_inner)
                .next(&mut block)?;
            if !more {
                return Ok(done);
            }
            let mut rows = Rows::new(layout, plan);
            let (bytes, len) = block.bytes();
            rows.read(bytes, len);
            done.push((block.index, rows));
        }
    };
    let cores = std::thread::available_parallelism().map_or(1, NonZero::get);
    let worth = 1 + (text.stored_len() / WORTH_A_THREAD) as usize;
    let mut done = Vec::new();
    let outcome: io::Result<()> = std::thread::scope(|scope| {
        let helpers: Vec<_> = (1..cores.min(worth).min(MOST_THREADS))
            .map(|_| scope.spawn(work))
            .collect();
        done.extend(work()?);
        for helper in helpers {
            match helper.join() {
                Ok(rows) => done.extend(rows?),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        Ok(())
    });
    outcome?;
    done.sort_unstable_by_key(|(index, _)| *index);
    let mut all = AllRows::new(plan);
    for (_, rows) in done {
        all.append(rows);
    }
    let blocks = blocks.into_inner().unwrap_or_else(PoisonError::into_inner);
    all.long_line = blocks.long_line.then_some(all.lines + 1);
    Ok(all)
}

impl AllRows {
    fn new(plan: &[Plan]) -> Self {
        let kept = plan.iter().filter(|p| matches!(p, Plan::Keep(_))).count();
        AllRows {
            columns: vec![Vec::new(); kept],
            stamps: None,
            count: 0,
            lines: 0,
            odd: Oddities::default(),
            long_line: None,
        }
    }

    fn append(&mut self, rows: Rows) {
        self.odd.append(&rows.odd, self.lines);
        let backwards = match (&mut self.stamps, rows.stamps) {
            (Some(stamps), Some(next)) => stamps.append(next),
            (stamps @ None, next) => {
                *stamps = next;
                0
            }
            (Some(_), None) => 0,
        };
        if backwards > 0 {
            self.odd
                .note_many(Oddity::Backwards, backwards as u64, self.lines + 1);
        }
        for (pieces, mut piece) in self.columns.iter_mut().zip(rows.columns) {
            if backwards > 0 {
                piece.drain(..backwards);
            }
            // What was reserved and not needed would add up.
            piece.shrink_to_fit();
            pieces.push(piece);
        }
        self.count += rows.count - backwards;
        self.lines += rows.lines;
    }

    /// The columns kept, each in one piece.
    pub fn columns(self) -> Vec<Arc<[f32]>> {
        let count = self.count;
        self.columns
            .into_iter()
            .map(|pieces| joined(pieces, count))
            .collect()
    }

    /// Whether the first rows are nothing but noughts and ones.
    pub fn may_be_levels(&self) -> bool {
        let first = self.columns.iter().filter_map(|pieces| pieces.first());
        first
            .flat_map(|p| p.iter().take(100))
            .all(|v| *v == 0.0 || *v == 1.0)
    }

    /// The columns kept, to be looked at and changed; for few rows.
    pub fn small_columns(&self) -> Vec<Vec<f32>> {
        self.columns.iter().map(|pieces| pieces.concat()).collect()
    }
}

/// Pieces that follow each other as one slice; each piece is let go as soon as it is copied.
fn joined(pieces: Vec<Vec<f32>>, count: usize) -> Arc<[f32]> {
    let mut all: Arc<[f32]> = std::iter::repeat_n(0.0, count).collect();
    let mut rest = Arc::get_mut(&mut all).unwrap_or_default();
    for piece in pieces {
        let (own, others) = rest.split_at_mut(piece.len().min(rest.len()));
        own.copy_from_slice(&piece[..own.len()]);
        rest = others;
    }
    all
}
