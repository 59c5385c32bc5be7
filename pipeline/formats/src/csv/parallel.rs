//! Blocks of lines read by several threads, and put together in order.

use super::blocks::{Block, Blocks};
use super::edges;
use super::layout::Layout;
use super::rows::{Plan, Rows};
use super::stamps::Stamps;
use super::warnings::{RowWarning, RowWarnings};
use crate::text::Text;
use std::collections::BTreeMap;
use std::io;
use std::num::NonZero;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

/// Most threads; more than this the memory cannot feed.
const MOST_THREADS: usize = 8;
/// A text shorter than this is read by one thread, bytes.
const WORTH_A_THREAD: u64 = 1 << 20;
/// Blocks that wait for one before them, at most: a thread that is held up must not make the others pile up the file.
const MOST_EARLY: usize = 2 * MOST_THREADS;
/// Memory is reserved for at most so many times the rows that were read.
const MOST_AHEAD: f64 = 8.0;

/// All rows of a text.
pub(super) struct AllRows {
    /// Samples by column kept.
    pub columns: Vec<Vec<f32>>,
    pub stamps: Option<Stamps>,
    pub count: usize,
    pub lines: u64,
    pub odd: RowWarnings,
    /// The line, counted from the first row as 1, that was too long; what follows it was not read.
    pub long_line: Option<u64>,
    /// True where there are more rows than may be read; what follows was not read.
    pub full: bool,
    /// True where the system did not give the memory for more rows.
    pub lacks_memory: bool,
}

/// Reads every row behind the first `layout.skip` bytes of the decoded text, `most_rows` of them at most and those of a
/// block.
pub(super) fn read(
    text: &Text,
    layout: &Layout,
    plan: &[Plan],
    most_rows: usize,
) -> io::Result<AllRows> {
    let line_break = if layout.bare_cr { b'\r' } else { b'\n' };
    let blocks = Mutex::new(Blocks::new(text, layout.skip, line_break));
    let gathered = Mutex::new(Gathered {
        all: AllRows::new(plan),
        next: 0,
        early: BTreeMap::new(),
        spare: Vec::new(),
        most_rows,
        is_given_up: false,
    });
    let advanced = Condvar::new();
    let work = || -> io::Result<()> {
        // Whoever ends before the end of the text, by an error or a panic, keeps nobody waiting.
        let mut end = End {
            gathered: &gathered,
            advanced: &advanced,
            is_early: true,
        };
        let mut block = Block::new();
        let mut room = Vec::new();
        while lock(&gathered).goes_on() && lock(&blocks).next(&mut block)? {
            let mut rows = Rows::new(layout, plan, room);
            let (bytes, len) = block.bytes();
            rows.read(bytes, len);
            let blocks_in_all = 1 + text.stored_len() / len.max(1) as u64;
            let mut all = lock(&gathered);
            room = all.add_block(block.index, rows, blocks_in_all);
            advanced.notify_all();
            let waits = |g: &mut Gathered| g.early.len() >= MOST_EARLY && g.goes_on();
            drop(advanced.wait_while(all, waits));
        }
        end.is_early = false;
        Ok(())
    };
    let cores = std::thread::available_parallelism().map_or(1, NonZero::get);
    let worth = 1 + (text.stored_len() / WORTH_A_THREAD) as usize;
    std::thread::scope(|scope| {
        let helpers: Vec<_> = (1..cores.min(worth).min(MOST_THREADS))
            .map(|_| scope.spawn(work))
            .collect();
        let own = work();
        for helper in helpers {
            match helper.join() {
                Ok(outcome) => outcome?,
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        own
    })?;
    let gathered = gathered
        .into_inner()
        .unwrap_or_else(PoisonError::into_inner);
    let mut all = gathered.all;
    // What was reserved and not needed.
    all.columns.iter_mut().for_each(Vec::shrink_to_fit);
    let blocks = blocks.into_inner().unwrap_or_else(PoisonError::into_inner);
    all.long_line = blocks.long_line.then_some(all.lines + 1);
    Ok(all)
}

/// A thread that panicked left what is behind the lock in order all the same.
fn lock<T>(shared: &Mutex<T>) -> MutexGuard<'_, T> {
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The rows so far, and blocks that came before their turn.
struct Gathered<'a> {
    all: AllRows,
    next: usize,
    early: BTreeMap<usize, Rows<'a>>,
    /// Columns of blocks whose samples were taken over.
    spare: Vec<Vec<Vec<f32>>>,
    most_rows: usize,
    /// A thread ended before its time.
    is_given_up: bool,
}

/// The end of one thread's work.
struct End<'g, 'a> {
    gathered: &'g Mutex<Gathered<'a>>,
    advanced: &'g Condvar,
    is_early: bool,
}

impl Drop for End<'_, '_> {
    fn drop(&mut self) {
        if self.is_early {
            lock(self.gathered).is_given_up = true;
            self.advanced.notify_all();
        }
    }
}

impl<'a> Gathered<'a> {
    fn goes_on(&self) -> bool {
        !self.all.full && !self.all.lacks_memory && !self.is_given_up
    }

    /// Takes the rows of a block, and gives columns to be filled again.
    fn add_block(&mut self, index: usize, rows: Rows<'a>, blocks_in_all: u64) -> Vec<Vec<f32>> {
        self.early.insert(index, rows);
        while let Some(rows) = self.early.remove(&self.next) {
            self.next += 1;
            let wanted = self.all.count + rows.count;
            // Room for all rows if they go on like this, so that the columns seldom move when they grow; but never so
            // much that a few rows before something else would ask for all memory.
            let share = blocks_in_all as f64 / self.next as f64;
            let rows_in_all = (wanted as f64 * share.clamp(1.0, MOST_AHEAD)) as usize;
            let rows_in_all = rows_in_all.min(self.most_rows).max(wanted);
            let short = |column: &&mut Vec<f32>| column.capacity() < wanted;
            for column in self.all.columns.iter_mut().filter(short) {
                // Too little memory for a guess is no error.
                let _ = column.try_reserve_exact(rows_in_all - column.len());
            }
            let mut columns = self.all.columns.iter_mut();
            self.all.lacks_memory |= columns.any(|c| c.try_reserve(rows.count).is_err());
            if self.all.lacks_memory {
                break;
            }
            self.spare.push(self.all.append(rows));
            self.all.full |= self.all.count > self.most_rows;
        }
        self.spare.pop().unwrap_or_default()
    }
}

impl AllRows {
    fn new(plan: &[Plan]) -> Self {
        let kept = plan.iter().filter(|p| matches!(p, Plan::Keep(_))).count();
        AllRows {
            columns: vec![Vec::new(); kept],
            stamps: None,
            count: 0,
            lines: 0,
            odd: RowWarnings::default(),
            long_line: None,
            full: false,
            lacks_memory: false,
        }
    }

    /// Takes over what the rows hold, and gives their columns back, emptied.
    fn append(&mut self, rows: Rows) -> Vec<Vec<f32>> {
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
                .note_many(RowWarning::Backwards, backwards as u64, self.lines + 1);
        }
        for (column, piece) in self.columns.iter_mut().zip(&rows.columns) {
            column.extend_from_slice(piece.samples.get(backwards..).unwrap_or_default());
        }
        self.count += rows.count - backwards;
        self.lines += rows.lines;
        let emptied = rows.columns.into_iter().map(|mut column| {
            column.samples.clear();
            column.samples
        });
        emptied.collect()
    }

    /// True where the first rows of a column are nothing but zeros and ones.
    pub fn may_be_levels(&self) -> bool {
        let mut columns = self.columns.iter();
        columns.any(|c| edges::is_level(&c[..c.len().min(100)]))
    }
}
