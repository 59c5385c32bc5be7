//! Odd things that may happen often: how often, and where first.

use model::Problem;

/// Kinds of odd rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum RowWarning {
    NoRow,
    Cell,
    Short,
    Long,
    Backwards,
    NoTime,
    OpenQuote,
}

const KINDS: [(RowWarning, &str); 7] = [
    (
        RowWarning::OpenQuote,
        "row(s) have a quote that is never closed; it was taken for an ordinary character",
    ),
    (
        RowWarning::NoRow,
        "line(s) among the rows are no rows of numbers and were left out",
    ),
    (
        RowWarning::Cell,
        "cell(s) hold neither a number nor a known mark and count as missing",
    ),
    (
        RowWarning::Short,
        "row(s) are too short; what is missing counts as missing values",
    ),
    (
        RowWarning::Long,
        "row(s) have more cells than the header; the further cells were left out",
    ),
    (
        RowWarning::Backwards,
        "row(s) go back in time and were left out",
    ),
    (
        RowWarning::NoTime,
        "row(s) have no readable time and were left out",
    ),
];

/// Counts of all of them.
#[derive(Debug, Default, Clone)]
pub(super) struct RowWarnings {
    /// Count and first line of each kind.
    seen: [(u64, u64); KINDS.len()],
}

impl RowWarnings {
    pub fn note(&mut self, warning: RowWarning, line: u64) {
        self.note_many(warning, 1, line);
    }

    pub fn note_many(&mut self, warning: RowWarning, count: u64, line: u64) {
        let seen = &mut self.seen[warning as usize];
        if seen.0 == 0 {
            seen.1 = line;
        }
        seen.0 += count;
    }

    /// Takes over what was seen in the lines that follow the first `lines`.
    pub fn append(&mut self, next: &RowWarnings, lines: u64) {
        for (kind, _) in KINDS {
            let (count, first) = next.seen[kind as usize];
            if count > 0 {
                self.note_many(kind, count, lines + first);
            }
        }
    }

    /// Problems of them; `first_line` is the number of the line that is counted as 1 here.
    pub fn problems(&self, file: &str, first_line: u64) -> impl Iterator<Item = Problem> {
        KINDS.into_iter().filter_map(move |(kind, what)| {
            let (count, first) = self.seen[kind as usize];
            (count > 0).then(|| Problem {
                file: file.into(),
                place: Some(format!("line {}", first_line + first - 1)),
                message: format!("{count} {what}; this is the first"),
            })
        })
    }
}
