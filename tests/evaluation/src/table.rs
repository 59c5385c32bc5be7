//! Tables in Markdown that are also readable as plain text.

/// A table.
#[derive(Debug, Clone, Default)]
pub struct Table {
    head: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// A table with a line of headings.
    pub fn new<S: ToString>(head: &[S]) -> Self {
        Table {
            head: head.iter().map(S::to_string).collect(),
            rows: Vec::new(),
        }
    }

    /// Adds a row.
    pub fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }

    /// The table in Markdown, the first column to the left, the others to the right.
    pub fn markdown(&self) -> String {
        let width = |column: usize| {
            let cells = std::iter::once(&self.head).chain(&self.rows);
            cells
                .filter_map(|r| r.get(column))
                .map(|c| c.chars().count())
                .max()
                .unwrap_or(0)
                .max(3)
        };
        let widths: Vec<usize> = (0..self.head.len()).map(width).collect();
        let line = |cells: &[String]| {
            let padded = widths.iter().enumerate().map(|(i, &w)| {
                let cell = cells.get(i).map_or("", String::as_str);
                if i == 0 {
                    format!("{cell:<w$}")
                } else {
                    format!("{cell:>w$}")
                }
            });
            format!("| {} |\n", padded.collect::<Vec<_>>().join(" | "))
        };
        let rule: Vec<String> = widths
            .iter()
            .enumerate()
            .map(|(i, &w)| {
                if i == 0 {
                    "-".repeat(w)
                } else {
                    format!("{}:", "-".repeat(w - 1))
                }
            })
            .collect();
        let mut text = line(&self.head) + &line(&rule);
        self.rows.iter().for_each(|r| text += &line(r));
        text
    }
}

/// `part` of `whole` in per cent; a dash for nothing.
pub fn percent(part: usize, whole: usize) -> String {
    if whole == 0 {
        "-".into()
    } else {
        format!("{:.1} %", 100.0 * part as f64 / whole as f64)
    }
}
