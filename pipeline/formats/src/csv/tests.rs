//! One small recording in many dialects. What recorders write is common practice without a source.

use crate::{ErrorKind, Reading, read_bytes};
use model::{Capture, TimeAxis};

fn capture(text: impl AsRef<[u8]>) -> Capture {
    match read_bytes(text.as_ref(), "a.csv") {
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
    header: "Time [s];Feed current [A];ISS A [V]",
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
        ("Time (s);Feed current (A);ISS A (V)", true),
        ("Time in s;Feed current in A;ISS A in V", true),
        ("Time_s;Feed current_A;ISS A_V", true),
        ("\"Time [s]\";\"Feed current [A]\";\"ISS A [V]\"", true),
        ("Time;Feed current;ISS A\n(s);(A);(V)", true),
        ("Time;Feed current;ISS A\ns;A;V", true),
        ("Zeit / s;Feed current / A;ISS A / V", true),
        ("# Time [s];Feed current [A];ISS A [V]", true),
        ("tiempo;Feed current;ISS A", false),
        ("Temps;Feed current;ISS A", false),
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
fn units_of_time() {
    for (unit, per_second, decimals) in [
        ("ms", 1e3, 2),
        ("us", 1e6, 0),
        ("µs", 1e6, 0),
        ("ns", 1e9, 0),
        ("min", 1.0 / 60.0, 13),
    ] {
        let header = format!("t [{unit}];Feed current [A];ISS A [V]");
        let header: &'static str = header.leak();
        let c = Dialect {
            header,
            time: Some(per_second),
            decimals,
            ..PLAIN
        };
        c.check(-0.002);
    }
}

#[test]
fn a_missing_time_column_needs_an_interval_or_a_rate() {
    let bare = Dialect {
        header: "Feed current (A);ISS A (V)",
        time: None,
        ..PLAIN
    };
    for above in [
        "Recording: x\nSamples: 20\nSample interval: 500 us\n",
        "dt: 0.0005 s",
        "dt = 0.0005",
        "Abtastrate;2000 S/s",
        "Abtastrate;2 kS/s",
        "Frecuencia de muestreo;2000 S/s",
        "Fréquence d'échantillonnage : 2 kHz",
        "Frequenza di campionamento: 2000 Hz",
        "# Sample rate: 2000",
        "Abtastintervall: 0,5 ms",
        "Sample interval (us);500",
    ] {
        Dialect { above, ..bare }.check(0.0);
    }
    let e = read_bytes(bare.text().as_bytes(), "a.csv").unwrap_err();
    assert_eq!(e.kind, ErrorKind::Unsupported);
    assert!(e.to_string().contains("Sample interval"), "{e}");
}

#[test]
fn lines_above_the_header() {
    let above =
        "Recording: gearbox test\nStarted: 2026-01-10T10:30:09\nSamples: 20\nChannels: 2\n\n";
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
fn clock_times() {
    let rows: String = (0..20)
        .map(|i| format!("00:00:{:06.3};{i}\n", 0.5 + i as f64 * 0.05))
        .collect();
    even(
        &capture(format!("Uhrzeit;Strom [A]\n{rows}")),
        0.5,
        0.05,
        20,
    );
    // A time of day counts from the first sample.
    even(
        &capture(format!("Uhrzeit;Strom [A]\n{rows}").replace("00:00:", "10:30:")),
        0.0,
        0.05,
        20,
    );
    // Past midnight.
    let rows: String = (0..20)
        .map(|i| {
            format!(
                "{};{i}\n",
                if i < 10 {
                    format!("23:59:5{i}")
                } else {
                    format!("00:00:0{}", i - 10)
                }
            )
        })
        .collect();
    even(&capture(format!("time;a\n{rows}")), 0.0, 1.0, 20);
    let mut text = String::from("Zeitstempel;Strom [A]\n");
    for i in 0..20 {
        text.push_str(&format!("2026-01-10 23:59:59.{:03};{i}\n", i * 50));
    }
    let c = capture(&text);
    even(&c, 0.0, 0.05, 20);
    assert_eq!(c.started.unwrap().to_string(), "2026-01-10 23:59:59");
}

#[test]
fn missing_values_and_over_range_marks() {
    for mark in ["", "---", "***", "n/a", "NaN"] {
        let mut text = String::from("time;a;b\n");
        for i in 0..20 {
            let a = if (5..8).contains(&i) {
                mark.to_string()
            } else {
                format!("{i}.5")
            };
            text.push_str(&format!("{:.2};{a};1.0\n", i as f64 * 0.01));
        }
        let c = capture(&text);
        even(&c, 0.0, 0.01, 20);
        assert!(values(&c, 0)[5..8].iter().all(|v| v.is_nan()), "{mark}");
        assert_eq!(values(&c, 0)[8], 8.5);
    }
    for (mark, want) in [
        ("OL", f64::INFINITY),
        ("∞", f64::INFINITY),
        ("+Inf", f64::INFINITY),
        ("-OL", f64::NEG_INFINITY),
    ] {
        let text: String = (0..20)
            .map(|i| {
                format!(
                    "{i},{},2\n",
                    if i == 9 { mark.into() } else { i.to_string() }
                )
            })
            .collect();
        let c = capture(format!("t (ms),a,b\n{text}"));
        assert_eq!(values(&c, 0)[9], want, "{mark}");
    }
}

#[test]
fn a_cut_last_line_is_left_out_and_said() {
    let whole = PLAIN.text();
    for cut in [1, 2, 4, 7, 9] {
        let c = capture(&whole[..whole.len() - cut]);
        let lost = usize::from(cut > 1);
        assert_eq!(c.time.len(), 20 - lost, "cut {cut}: {:?}", c.problems);
        assert_eq!(says(&c, "cut off"), lost == 1, "cut {cut}");
        assert_eq!(c.problems.len(), lost, "{:?}", c.problems);
    }
}

#[test]
fn uneven_time_and_gaps() {
    let rows = |f: &dyn Fn(usize) -> f64| {
        (0..60)
            .map(|i| format!("{:.4};{i}\n", f(i)))
            .collect::<String>()
    };
    let jitter = |i: usize| i as f64 * 0.01 + if i % 3 == 1 { 0.002 } else { 0.0 };
    let c = capture(format!("time;a\n{}", rows(&jitter)));
    assert!(matches!(c.time, TimeAxis::Listed(_)));
    assert!(!says(&c, "gap"));
    let gap = |i: usize| i as f64 * 0.01 + if i > 30 { 1.5 } else { 0.0 };
    let c = capture(format!("time;a\n{}", rows(&gap)));
    assert!(matches!(c.time, TimeAxis::Listed(_)));
    assert!(says(&c, "1 gap(s)"), "{:?}", c.problems);
}

#[test]
fn odd_rows_do_not_end_the_reading() {
    let mut text = PLAIN.text();
    let cut = text.match_indices('\n').nth(8).unwrap().0 + 1;
    text.insert_str(cut, "\n--- pause ---\n# a comment\n");
    let c = capture(&text);
    even(&c, -0.002, 0.0005, 20);
    assert!(says(&c, "no rows of numbers"), "{:?}", c.problems);
    // A row that goes back in time.
    let text = PLAIN.text() + "-0.00200;1.0;2.00\n";
    let c = capture(&text);
    assert_eq!(c.time.len(), 20);
    assert!(says(&c, "back in time"));
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
fn the_stated_interval_gives_a_time_column_its_unit() {
    let text: String = (0..20)
        .map(|i| format!("{};{}.5\n", i * 400, i % 7))
        .collect();
    even(
        &capture(format!("Sample interval: 400 us\ntime;a\n{text}")),
        0.0,
        0.0004,
        20,
    );
}

#[test]
fn a_sample_number_is_no_time() {
    let text: String = (1..=20)
        .map(|i| format!("{i},{:.2},5\n", i as f64 * 0.5))
        .collect();
    let c = capture(format!("Sample interval: 2 ms\nIndex,a (V),b (V)\n{text}"));
    even(&c, 0.0, 0.002, 20);
    assert_eq!(c.channels.len(), 2);
}

#[test]
fn time_need_not_come_first_and_may_have_no_name() {
    let text: String = (0..20)
        .map(|i| format!("{}.5,{:.3},1\n", i % 3, i as f64 * 0.001))
        .collect();
    let c = capture(format!("ISS A,time,ISS B\n{text}"));
    even(&c, 0.0, 0.001, 20);
    assert_eq!(c.channels[0].name, "ISS A");
    let text: String = (0..20)
        .map(|i| format!("{:.3},{},1\n", i as f64 * 0.001, i % 3))
        .collect();
    even(&capture(&text), 0.0, 0.001, 20);
}

#[test]
fn a_stated_interval_that_contradicts_the_time_column_is_said() {
    let c = capture(
        Dialect {
            above: "Sample interval: 1 ms\n",
            ..PLAIN
        }
        .text(),
    );
    even(&c, -0.002, 0.0005, 20);
    assert!(says(&c, "Check the unit"), "{:?}", c.problems);
}

#[test]
fn columns_aligned_with_spaces() {
    for header in [
        "Time[s] Current[A] ISSA[V]",
        "Time [s]   Feed current [A]   ISS A [V]",
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
fn a_list_of_codes_is_no_recording() {
    let text: String = (0..20)
        .map(|i| format!("P09{i:02};19;{i};3;{}\n", i * 2))
        .collect();
    let Ok(Reading::Scan(s)) = read_bytes(
        format!("DTC;Type;Count;Trips;Km\n{text}").as_bytes(),
        "a.csv",
    ) else {
        panic!("not a scan text");
    };
    assert_eq!(s.codes.len(), 20);
    assert_eq!(s.codes[3].failure_type.as_deref(), Some("19"));
}

#[test]
fn hostile_tables() {
    // A quote that is never closed takes nothing with it but its own cell.
    let mut text = PLAIN.text();
    let cut = text.match_indices('\n').nth(9).unwrap().0 + 1;
    let end = cut + text[cut..].find(';').unwrap() + 1;
    text.insert(end, '"');
    for text in [
        text.clone(),
        text.replace('\n', "\r\n"),
        text.replace('\n', "\r"),
    ] {
        let c = capture(&text);
        even(&c, -0.002, 0.0005, 20);
        assert!(says(&c, "never closed"), "{:?}", c.problems);
        assert_eq!(c.problems[0].place.as_deref(), Some("line 11"));
    }
    // A line that never ends.
    let text = PLAIN.text() + &"9".repeat(2 << 20);
    let c = capture(&text);
    assert!(
        c.time.len() >= 19 && !c.problems.is_empty(),
        "{:?}",
        c.problems
    );
    // More columns than anyone records.
    let wide = format!("{}\n", vec!["1"; 5000].join(";")).repeat(12);
    assert!(read_bytes(wide.as_bytes(), "a.csv").is_err());
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

#[test]
fn edge_lists_of_logic_recorders() {
    // A tooth signal of 100 Hz: an edge every 5 ms, then a pause.
    let edges: Vec<f64> = (0..40)
        .map(|i| 0.1 + i as f64 * 0.005 + if i >= 20 { 0.3 } else { 0.0 })
        .collect();
    for (header, high, low) in [
        ("Time [s],Level", "1", "0"),
        ("time (s),D0", "H", "L"),
        ("Zeit [s],Pegel", "high", "low"),
        ("t [s],edge", "rising", "falling"),
        ("Time[s],Channel 0", "True", "False"),
    ] {
        let rows: String = edges
            .iter()
            .enumerate()
            .map(|(i, t)| format!("{t:.9},{}\n", if i % 2 == 0 { high } else { low }))
            .collect();
        let c = capture(format!("{header}\n{rows}"));
        assert!(
            c.read_as.contains("list of 40 edges"),
            "{header}: {}",
            c.read_as
        );
        let TimeAxis::Even {
            start_s,
            step_s,
            len,
        } = c.time
        else {
            panic!()
        };
        assert!(step_s < 0.001 && (start_s - 0.1).abs() < 1e-9);
        // Each edge is crossed at its own instant.
        assert!(c.read_as.contains("high taken as 5 V"));
        let x: Vec<f64> = values(&c, 0).iter().map(|v| v / 5.0).collect();
        let crossings: Vec<f64> = (1..len)
            .filter(|i| (x[*i] < 0.5) != (x[i - 1] < 0.5))
            .map(|i| start_s + step_s * (i as f64 - (x[i] - 0.5) / (x[i] - x[i - 1])))
            .collect();
        assert_eq!(crossings.len(), 39);
        assert!(
            crossings
                .iter()
                .zip(&edges[1..])
                .all(|(a, b)| (a - b).abs() < 1e-6)
        );
        assert!(c.problems.is_empty(), "{:?}", c.problems);
    }
    // Without a header.
    let rows: String = edges
        .iter()
        .enumerate()
        .map(|(i, t)| format!("{t:.6},{}\n", i % 2))
        .collect();
    assert!(capture(rows).read_as.contains("list of 40 edges"));
}

#[test]
fn a_date_in_a_column_of_its_own() {
    let rows: String = (0..20)
        .map(|i| format!("10.01.2026;10:30:{:06.3};{i}\n", 9.0 + i as f64 * 0.05))
        .collect();
    let c = capture(format!("Datum;Uhrzeit;Strom [A]\n{rows}"));
    even(&c, 0.0, 0.05, 20);
    assert_eq!(c.started.unwrap().to_string(), "2026-01-10 10:30:09");
    assert!(c.problems.is_empty(), "{:?}", c.problems);
    let rows: String = (0..20)
        .map(|i| format!("10:30:{:05.2} PM,{i},2\n", 9.0 + i as f64 * 0.05))
        .collect();
    even(&capture(format!("Time,a [V],b [V]\n{rows}")), 0.0, 0.05, 20);
}

#[test]
fn a_comma_for_everything_is_refused_with_the_reason() {
    let rows: String = (0..20)
        .map(|i| format!("0,{:03},1,{},4,{}5\n", i * 5, i % 10, i % 7))
        .collect();
    let e = read_bytes(format!("Zeit,Strom,Spannung\n{rows}").as_bytes(), "a.csv").unwrap_err();
    assert!(e.to_string().contains("decimal sign as well"), "{e}");
}

/// Values that the plain and the careful way both read, in one table.
#[test]
fn plain_and_careful_rows_agree() {
    let cells = ["1.5", " 1.5", "\"1.5\"", "+1.5", "1.50", "15e-1", "1.5 "];
    let rows: String = (0..700)
        .map(|i| format!("{};{};2\n", i, cells[i % cells.len()]))
        .collect();
    let c = capture(format!("t [ms];a;b\n{rows}"));
    even(&c, 0.0, 0.001, 700);
    assert!(values(&c, 0).iter().all(|v| *v == 1.5));
    assert!(values(&c, 1).iter().all(|v| *v == 2.0));
}

/// Longer than several blocks, so that threads share it: the same as read in one go.
#[test]
fn long_tables_are_put_together_in_order() {
    let n = 200_000;
    let mut text = String::from("Time [s];a [V];b [V]\n");
    for i in 0..n {
        // Something odd far behind, to see its line.
        let odd = if i == 150_000 { "?!x" } else { "2.5" };
        text.push_str(&format!("{:.4};{}.25;{odd}\n", i as f64 * 0.0001, i % 1000));
    }
    for text in [text.clone(), text.replace('\n', "\r\n")] {
        let c = capture(&text);
        even(&c, 0.0, 0.0001, n);
        assert!((0..n).all(|i| c.channels[0].value(i) == (i % 1000) as f64 + 0.25));
        assert_eq!(c.problems.len(), 1, "{:?}", c.problems);
        assert_eq!(c.problems[0].place.as_deref(), Some("line 150002"));
    }
    let utf16: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let c = capture(utf16);
    even(&c, 0.0, 0.0001, n);
    assert_eq!(c.problems[0].place.as_deref(), Some("line 150002"));
    // One interval that differs in the last block is found.
    let uneven = text.replace("19.9000;", "19.9005;");
    assert!(matches!(capture(uneven).time, TimeAxis::Listed(_)));
}
