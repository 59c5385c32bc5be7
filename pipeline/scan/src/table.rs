//! Tables in scan texts: a heading row that names the columns.

use crate::words::{self, Key};

/// A heading row that has been understood.
#[derive(Debug, Clone)]
pub(crate) struct Table {
    separator: Separator,
    keys: Vec<Option<Key>>,
    /// Beginnings of the columns, in characters; for tables aligned with spaces.
    starts: Vec<usize>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Separator {
    Char(char),
    Spaces,
}

impl Table {
    /// Understands a heading row: it names the code and at least one thing more.
    pub fn heading(line: &str) -> Option<Table> {
        let separator = ['\t', ';', '|', ',']
            .into_iter()
            .find(|c| line.contains(*c))
            .map(Separator::Char);
        let separator = separator.unwrap_or(Separator::Spaces);
        let cells = cut(line, separator);
        let keys: Vec<Option<Key>> = cells.iter().map(|(_, c)| words::key(c)).collect();
        let known = keys.iter().flatten().count();
        (keys.contains(&Some(Key::Code)) && known >= 2).then(|| Table {
            separator,
            keys,
            starts: cells.iter().map(|(start, _)| *start).collect(),
        })
    }

    /// The cell of a column, where the row has it.
    pub fn cell<'a>(&self, line: &'a str, key: Key) -> Option<&'a str> {
        let column = self.keys.iter().position(|k| *k == Some(key))?;
        let cells = cut(line, self.separator);
        let cell = if self.separator == Separator::Spaces && cells.len() != self.keys.len() {
            let byte = |chars: usize| {
                line.char_indices()
                    .nth(chars)
                    .map_or(line.len(), |(i, _)| i)
            };
            let end = self.starts.get(column + 1).map_or(line.len(), |s| byte(*s));
            line.get(byte(self.starts[column])..end)?.trim()
        } else {
            cells.get(column)?.1
        };
        let cell = cell.trim_matches('"').trim();
        (!cell.is_empty()).then_some(cell)
    }
}

/// Cells with the character position where they begin.
fn cut(line: &str, separator: Separator) -> Vec<(usize, &str)> {
    let mut out = Vec::new();
    match separator {
        Separator::Char(c) => {
            let line = line
                .trim()
                .trim_start_matches(if c == '|' { '|' } else { '\0' });
            out.extend(line.split(c).map(|cell| (0, cell.trim())));
        }
        Separator::Spaces => {
            let mut start = None;
            let mut gap = 0;
            let mut end = 0;
            for (chars, (i, c)) in line.char_indices().enumerate() {
                if c == ' ' {
                    gap += 1;
                } else {
                    if gap >= 2
                        && let Some((at, from)) = start.take()
                    {
                        out.push((at, &line[from..end]));
                    }
                    start = start.or(Some((chars, i)));
                    gap = 0;
                    end = i + c.len_utf8();
                }
            }
            if let Some((at, from)) = start {
                out.push((at, &line[from..end]));
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_by_bar_and_by_position() {
        let t = Table::heading("Steuergerät | Code    | Status  | Bedeutung").unwrap();
        let row = "TCM         | P081E   | bestätigt | Kupplung B";
        assert_eq!(t.cell(row, Key::Status), Some("bestätigt"));
        assert_eq!(t.cell(row, Key::Module), Some("TCM"));
        let t = Table::heading("UNIT   CODE      STATE        TEXT").unwrap();
        let row = "TCM    P073E     Stored       Unable to engage reverse";
        assert_eq!(t.cell(row, Key::Status), Some("Stored"));
        assert_eq!(
            t.cell("       P073E     Stored       Unable", Key::Code),
            Some("P073E")
        );
        assert_eq!(
            t.cell("       P073E     Stored       Unable", Key::Module),
            None
        );
        assert!(Table::heading("Engine speed   0 rpm").is_none());
    }
}
