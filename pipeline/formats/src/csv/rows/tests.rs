//! Rows read a run at a time, against the same rows taken apart line by line with care and against the standard library.

use super::*;
use crate::csv::metadata::Metadata;
use crate::number::NumberStyle;
use proptest::prelude::*;

/// Time, two columns of numbers with one of words between them.
const PLAN: [Plan; 4] = [Plan::Time, Plan::Keep(0), Plan::Pass, Plan::Keep(1)];

fn layout(trailing: bool) -> Layout {
    let column = layout::Column {
        name: String::new(),
        unit: None,
        numeric: true,
        side: false,
        clock: false,
        fractional: false,
        rising: false,
        counts: false,
        levels: false,
        day: None,
    };
    Layout {
        delimiter: b';',
        style: NumberStyle::POINT,
        first_line: 1,
        skip: 0,
        bare_cr: false,
        columns: vec![column; PLAN.len()],
        trailing,
        rows_seen: 0,
        metadata: Metadata::default(),
        named: false,
    }
}

/// Notation of the rows of a run.
#[derive(Debug, Clone)]
struct Run {
    rows: usize,
    /// Minus signs, digits before the decimal sign and behind it.
    cells: [(bool, usize, usize); 2],
    word: &'static str,
    /// Step of the time from row to row, in its last place; rows of no step but one are not even.
    step: u64,
    /// The line behind the run.
    odd: &'static str,
}

fn run() -> impl Strategy<Value = Run> {
    let cell = || (any::<bool>(), 0..6usize, 0..5usize);
    let odd = prop::sample::select(vec![
        "",
        "\n",
        "# a remark\n",
        "1.0;2.0\n",
        "9000.5; 1.5;on;OL\n",
        "9000.6;1.5;on;\n",
        "9000.7;\"1.5\";on;2;3\n",
        "0.0001;1.5;on;2.5\n",
    ]);
    let word = prop::sample::select(vec!["", "on", "off 1", "\u{b0}C"]);
    let step = prop::sample::select(vec![1, 1, 1, 25, 0]);
    (1..40usize, [cell(), cell()], word, step, odd).prop_map(|(rows, cells, word, step, odd)| Run {
        rows,
        cells,
        word,
        step,
        odd,
    })
}

fn text(runs: &[Run], end: &str, digits: &mut impl Iterator<Item = u8>) -> String {
    let mut out = String::new();
    let mut time = 99_900;
    for run in runs {
        for _ in 0..run.rows {
            let mut number = |(minus, whole, places): (bool, usize, usize)| {
                let mut digits = |n: usize| -> String { digits.take(n).map(char::from).collect() };
                let (whole, places) = (digits(whole), digits(places));
                let sign = if minus { "-" } else { "" };
                match places.is_empty() {
                    true => format!("{sign}{whole}"),
                    false => format!("{sign}{whole}.{places}"),
                }
            };
            let (a, b) = (number(run.cells[0]), number(run.cells[1]));
            let seconds = format!("{}.{:04}", time / 10_000, time % 10_000);
            out += &format!("{seconds};{a};{};{b}{end}", run.word);
            time += run.step;
        }
        out += run.odd;
    }
    out
}

/// Everything that came of the rows, floats as their bits.
fn outcome(rows: Rows) -> String {
    let bits = |c: &Column| c.samples.iter().map(|v| v.to_bits()).collect::<Vec<_>>();
    let columns: Vec<_> = rows.columns.iter().map(bits).collect();
    let axis = rows.stamps.map(|s| s.axis(1.0));
    let odd: Vec<_> = rows.odd.problems("a.csv", 1).collect();
    format!("{} {} {axis:?} {odd:?} {columns:?}", rows.count, rows.lines)
}

fn with_care(layout: &Layout, text: &[u8]) -> String {
    let mut rows = Rows::new(layout, &PLAN, Vec::new());
    for line in text.split_inclusive(|b| *b == b'\n') {
        rows.lines += 1;
        rows.careful_row(line.strip_suffix(b"\n").unwrap_or(line));
    }
    outcome(rows)
}

fn in_runs(layout: &Layout, text: &[u8], behind: usize) -> String {
    let mut rows = Rows::new(layout, &PLAN, Vec::new());
    // What stands behind the text has no meaning.
    let bytes = [text, &b"7;1.5\n-8"[..].repeat(20)[..behind]].concat();
    rows.read(&bytes, text.len());
    outcome(rows)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, ..ProptestConfig::default() })]
    #[test]
    fn as_line_by_line(
        runs in prop::collection::vec(run(), 1..6),
        digits in prop::collection::vec(b'0'..=b'9', 97),
        end in prop::sample::select(vec!["\n", "\r\n", ";\n"]),
        cut in 0..3usize,
        behind in 0..160usize,
    ) {
        let layout = layout(end.starts_with(';'));
        let mut text = text(&runs, end, &mut digits.into_iter().cycle()).into_bytes();
        // A last line that is cut off is ended by whoever hands out the lines.
        text.truncate(text.len().saturating_sub(cut));
        if !text.ends_with(b"\n") {
            text.push(b'\n');
        }
        prop_assert_eq!(in_runs(&layout, &text, behind), with_care(&layout, &text));
    }

    #[test]
    fn equal_to_the_standard_library(values in prop::collection::vec(-999..=999i32, 1..200)) {
        let cell = |v: &i32| format!("{:.2}", f64::from(*v) / 100.0);
        let row = |(i, v): (usize, &i32)| format!("0.{i:04};{};on;{}\n", cell(v), cell(v));
        let text: String = values.iter().enumerate().map(row).collect();
        let layout = layout(false);
        let mut rows = Rows::new(&layout, &PLAN, Vec::new());
        rows.read(text.as_bytes(), text.len());
        let want: Vec<u32> = values.iter().filter_map(|v| Some(cell(v).parse::<f32>().ok()?.to_bits())).collect();
        for column in &rows.columns {
            let got: Vec<u32> = column.samples.iter().map(|v| v.to_bits()).collect();
            prop_assert_eq!(&got, &want);
        }
    }
}
