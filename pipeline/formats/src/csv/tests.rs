//! One small recording in many dialects. What recorders write is common practice without a source.

mod odd;
mod time;

use crate::{ErrorKind, READERS, Reading, read_bytes};
use model::{Capture, TimeAxis};

fn capture(text: impl AsRef<[u8]>) -> Capture {
    match read_bytes(text.as_ref(), "a.csv", &READERS) {
        Ok(Reading::Capture(c)) => c,
        other => panic!("{other:?}\n{}", String::from_utf8_lossy(text.as_ref())),
    }
}

fn says(c: &Capture, what: &str) -> bool {
    c.problems.iter().any(|p| p.message.contains(what))
}

fn values(c: &Capture, channel: usize) -> Vec<f64> {
    (0..c.time.len())
        .map(|i| c.channels[channel].value(i))
        .collect()
}

#[track_caller]
fn even(c: &Capture, start: f64, step: f64, n: usize) {
    match c.time {
        TimeAxis::Even {
            start_s,
            step_s,
            len,
        } => {
            assert!((start_s - start).abs() < 1e-9, "start {start_s}");
            assert!((step_s / step - 1.0).abs() < 1e-6, "step {step_s}");
            assert_eq!(len, n);
        }
        TimeAxis::Listed(_) => panic!("not even: {:?} {}", c.time, c.read_as),
    }
}

/// Twenty rows: a slow ramp and a square, 0.5 ms apart, from -2 ms on.
struct Dialect {
    delimiter: &'static str,
    comma: bool,
    header: &'static str,
    above: &'static str,
    time: Option<f64>,
    decimals: usize,
    trailing: bool,
    quoted: bool,
    end: &'static str,
}

const PLAIN: Dialect = Dialect {
    delimiter: ";",
    comma: false,
    header: "Time [s];Feed current [A];Sensor 1 [V]",
    above: "",
    time: Some(1.0),
    decimals: 5,
    trailing: false,
    quoted: false,
    end: "\n",
};

impl Dialect {
    fn text(&self) -> String {
        let mut lines: Vec<String> = Vec::new();
        if !self.above.is_empty() {
            lines.extend(self.above.lines().map(String::from));
        }
        if !self.header.is_empty() {
            lines.extend(self.header.lines().map(|h| h.replace(';', self.delimiter)));
        }
        for i in 0..20 {
            let mut cells = Vec::new();
            if let Some(per_second) = self.time {
                let t = (-0.002 + i as f64 * 0.0005) * per_second;
                cells.push(format!("{t:.*}", self.decimals));
            }
            cells.push(format!("{:.3}", 1.0 + 0.125 * i as f64));
            cells.push(format!("{:.2}", if i % 4 < 2 { 0.25 } else { 4.75 }));
            let cells = cells.iter().map(|c| {
                if self.comma {
                    c.replace('.', ",")
                } else {
                    c.clone()
                }
            });
            let cells: Vec<String> = cells
                .map(|c| if self.quoted { format!("\"{c}\"") } else { c })
                .collect();
            let mut row = cells.join(self.delimiter);
            if self.trailing {
                row.push_str(self.delimiter);
            }
            lines.push(row);
        }
        lines.join(self.end) + self.end
    }

    #[track_caller]
    fn check(&self, start: f64) -> Capture {
        let c = capture(self.text());
        even(&c, start, 0.0005, 20);
        assert_eq!(c.channels.len(), 2, "{:?}", c.channels);
        let want: Vec<f64> = (0..20).map(|i| 1.0 + 0.125 * i as f64).collect();
        assert_eq!(values(&c, 0), want);
        assert_eq!(values(&c, 1)[..4], [0.25, 0.25, 4.75, 4.75]);
        assert!(c.problems.is_empty(), "{:?}", c.problems);
        c
    }
}

#[test]
fn delimiters_decimal_signs_and_line_ends() {
    for delimiter in [";", "\t", "|", ","] {
        for end in ["\n", "\r\n", "\r"] {
            for comma in [false, true] {
                if comma && delimiter == "," {
                    continue;
                }
                for trailing in [false, true] {
                    Dialect {
                        delimiter,
                        comma,
                        end,
                        trailing,
                        ..PLAIN
                    }
                    .check(-0.002);
                }
            }
        }
    }
    Dialect {
        delimiter: ",",
        comma: true,
        quoted: true,
        ..PLAIN
    }
    .check(-0.002);
    Dialect {
        quoted: true,
        ..PLAIN
    }
    .check(-0.002);
}

#[test]
fn headers_and_units() {
    for (header, units) in [
        ("Time (s);Feed current (A);Sensor 1 (V)", true),
        ("Time in s;Feed current in A;Sensor 1 in V", true),
        ("Time_s;Feed current_A;Sensor 1_V", true),
        ("\"Time [s]\";\"Feed current [A]\";\"Sensor 1 [V]\"", true),
        ("Time;Feed current;Sensor 1\n(s);(A);(V)", true),
        ("Time;Feed current;Sensor 1\ns;A;V", true),
        ("s;A;V\nTime;Feed current;Sensor 1", true),
        ("Zeit / s;Feed current / A;Sensor 1 / V", true),
        ("# Time [s];Feed current [A];Sensor 1 [V]", true),
        ("tiempo;Feed current;Sensor 1", false),
        ("Temps;Feed current;Sensor 1", false),
    ] {
        let c = Dialect { header, ..PLAIN }.check(-0.002);
        assert_eq!(c.channels[0].name, "Feed current", "{header}");
        assert_eq!(
            c.channels[0].unit.as_deref(),
            units.then_some("A"),
            "{header}"
        );
        assert_eq!(
            c.channels[1].unit.as_deref(),
            units.then_some("V"),
            "{header}"
        );
    }
    let c = Dialect {
        header: "",
        ..PLAIN
    }
    .check(-0.002);
    assert_eq!(c.channels[0].name, "Column 2");
}

#[test]
fn lines_above_the_header() {
    let above = "Recording: bench test\nStarted: 2026-01-10T10:30:09\nSamples: 20\nChannels: 2\n\n";
    let c = Dialect { above, ..PLAIN }.check(-0.002);
    assert_eq!(c.started.unwrap().to_string(), "2026-01-10 10:30:09");
    let above = "Datum;10.01.2026\nUhrzeit;10:30:09\n";
    let c = Dialect { above, ..PLAIN }.check(-0.002);
    assert_eq!(c.started.unwrap().to_string(), "2026-01-10 10:30:09");
    Dialect {
        above: "sep=;",
        ..PLAIN
    }
    .check(-0.002);
}

#[test]
fn thousands_marks() {
    let text: String = (0..20)
        .map(|i| format!("{},5;{}.{:03},25;{}\n", i, i + 1, i * 7, i))
        .collect();
    let c = capture(format!("Zeit [ms];Strom [mA];x [V]\n{text}"));
    even(&c, 0.0005, 0.001, 20);
    assert_eq!(values(&c, 0)[3], 4021.25);
    let text: String = (0..20)
        .map(|i| format!("{i},\"{},{:03}.5\",1\n", i + 1, i))
        .collect();
    let c = capture(format!("time (s),a,b\n{text}"));
    assert_eq!(values(&c, 0)[2], 3002.5);
}

#[test]
fn whole_numbers_with_thousands_marks() {
    for mark in [",", "."] {
        let text: String = (0..40)
            .map(|i| {
                let t = i * 400;
                let t = if t < 1000 {
                    t.to_string()
                } else {
                    format!("{}{mark}{:03}", t / 1000, t % 1000)
                };
                format!("{t};{}\n", i % 7)
            })
            .collect();
        even(
            &capture(format!("Time (us);Feed current (A)\n{text}")),
            0.0,
            0.0004,
            40,
        );
    }
}

#[test]
fn columns_aligned_with_spaces() {
    for header in [
        "Time[s] Current[A] Sensor1[V]",
        "Time [s]   Feed current [A]   Sensor 1 [V]",
    ] {
        let rows: String = (0..20)
            .map(|i| {
                format!(
                    "{:10.4} {:8.3}  {:8.2} \n",
                    i as f64 * 0.01,
                    i as f64 * 0.5,
                    4.75
                )
            })
            .collect();
        let c = capture(format!("{header}\n{rows}"));
        even(&c, 0.0, 0.01, 20);
        assert_eq!(c.channels.len(), 2);
        assert_eq!(
            c.channels[0].unit.as_deref(),
            Some("A"),
            "{:?}",
            c.channels[0].name
        );
        assert_eq!(values(&c, 0)[3], 1.5);
        assert!(c.problems.is_empty(), "{:?}", c.problems);
    }
}

#[test]
fn metadata_of_the_tables_own_width_is_no_header() {
    let rows: String = (0..20)
        .map(|i| format!("{:.3};{i}\n", i as f64 * 0.001))
        .collect();
    let c = capture(format!("Started;2026-01-10\nSamples;20\n{rows}"));
    even(&c, 0.0, 0.001, 20);
    assert_eq!(c.channels[0].name, "Column 2");
}

#[test]
fn one_column_alone() {
    let text: String = (0..20).map(|i| format!("{}.5\n", i % 4)).collect();
    let c = capture(format!("Sample rate: 100 Hz\nFeed current [A]\n{text}"));
    even(&c, 0.0, 0.01, 20);
    assert_eq!(c.channels[0].name, "Feed current");
}

#[test]
fn cells_with_their_unit_behind_the_number() {
    let rows: String = (0..20)
        .map(|i| {
            format!(
                "{:.1} ms;{}.5 V;{:.3} A\n",
                i as f64 * 0.5,
                i,
                0.25 * i as f64
            )
        })
        .collect();
    let c = capture(format!("Time;Supply voltage;Feed current\n{rows}"));
    even(&c, 0.0, 0.0005, 20);
    assert_eq!(values(&c, 0)[3], 3.5);
    let units: Vec<_> = c.channels.iter().map(|c| c.unit.as_deref()).collect();
    assert_eq!(units, [Some("V"), Some("A")]);
    assert!(c.problems.is_empty(), "{:?}", c.problems);
    // Each cell with a prefix of its own; the column keeps that of the header, else the first.
    let rows: String = (0..20)
        .map(|i| {
            let a = if i % 3 == 0 {
                format!("{}00 mA", i)
            } else {
                format!("{},{} A", i / 10, i % 10)
            };
            format!("{i};{a}\n")
        })
        .collect();
    let c = capture(format!("Zeit [ms];Strom [A]\n{rows}"));
    assert_eq!(c.channels[0].unit.as_deref(), Some("A"));
    assert!(
        values(&c, 0)
            .iter()
            .enumerate()
            .all(|(i, v)| (v - i as f64 / 10.0).abs() < 1e-6),
        "{:?}",
        values(&c, 0)
    );
}
