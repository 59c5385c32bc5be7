//! Sources of a row's time.

use super::*;

#[test]
fn units_of_time() {
    for (unit, per_second, decimals) in [
        ("ms", 1e3, 2),
        ("us", 1e6, 0),
        ("µs", 1e6, 0),
        ("ns", 1e9, 0),
        ("min", 1.0 / 60.0, 13),
    ] {
        let header = format!("t [{unit}];Feed current [A];Sensor 1 [V]");
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
        header: "Feed current (A);Sensor 1 (V)",
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
    let e = read_bytes(bare.text().as_bytes(), "a.csv", &READERS).unwrap_err();
    assert_eq!(e.kind, ErrorKind::Unsupported);
    assert!(e.to_string().contains("Sample interval"), "{e}");
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
    let c = capture(format!("Sensor 1,time,Sensor 2\n{text}"));
    even(&c, 0.0, 0.001, 20);
    assert_eq!(c.channels[0].name, "Sensor 1");
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

/// A time column without a unit: fractions of one are seconds, whole numbers may be anything.
#[test]
fn a_time_without_a_unit_is_read_as_seconds_or_asked_for() {
    use model::TimeSource::{Assumed, File, Unknown};
    let table = |name: &str, time: &dyn Fn(u32) -> String| {
        let rows: String = (0..30)
            .map(|i| format!("{};{}.5\n", time(i), i % 7))
            .collect();
        capture(format!("{name};a [V]\n{rows}"))
    };
    for (name, source, time) in [
        (
            "time",
            Assumed,
            (&|i| format!("{:.4}", f64::from(i) * 0.0005)) as &dyn Fn(u32) -> String,
        ),
        ("time", Assumed, &|i| format!("{:e}", f64::from(i) * 0.01)),
        ("t", Unknown, &|i| i.to_string()),
        ("t", Unknown, &|i| (i * 5 + 5910).to_string()),
        ("time", Unknown, &|i| format!("{:.3}", f64::from(i) * 20.0)),
        ("time", Unknown, &|i| format!("{:.1}", f64::from(i) * 2.5)),
        // Uneven, as a microcontroller's milliseconds are.
        ("time", Unknown, &|i| (i * 2 + i % 3 * 2).to_string()),
        ("time [ms]", File, &|i| i.to_string()),
        ("seconds", File, &|i| i.to_string()),
        // Unix time counts seconds, or thousandths of them, of our days.
        ("timestamp", File, &|i| (1_700_000_000 + i).to_string()),
        ("timestamp", File, &|i| {
            (1_700_000_000_000u64 + u64::from(i) * 20).to_string()
        }),
    ] {
        let c = table(name, time);
        assert_eq!(c.time_source, source, "{name} {}: {}", time(3), c.read_as);
        assert_eq!(
            c.read_as.contains("taken as seconds"),
            source == Assumed,
            "{}",
            c.read_as
        );
        assert_eq!(
            says(&c, "time_unit ="),
            source == Unknown,
            "{:?}",
            c.problems
        );
    }
    let unix = table("timestamp", &|i| {
        (1_700_000_000_000u64 + u64::from(i) * 20).to_string()
    });
    assert!((unix.time.duration_s() - 0.58).abs() < 1e-6);
    // A stated interval makes a counter of it.
    let rows: String = (0..30).map(|i| format!("{i};{}.5\n", i % 7)).collect();
    let c = capture(format!("Sample interval: 7 ms\nTime;a [V]\n{rows}"));
    even(&c, 0.0, 0.007, 30);
    assert_eq!(c.time_source, File);
}

#[test]
fn clock_times_win_over_a_counter() {
    let rows = |cell: &dyn Fn(u32) -> String| (0..30).map(|i| cell(i) + "\n").collect::<String>();
    let clock = |i: u32| format!("12.07.2026 14:{:02}:{:02}", 51 + i / 6, i % 6 * 10);
    for (header, cells) in [
        (
            "\"Index\",\"Timestamp\",\"Voltage (V)\",\"Recorder\",\"Serial\"",
            (&|i| format!("\"{i}\",\"{}\",\"6,{:02}\"", clock(i), i)) as &dyn Fn(u32) -> String,
        ),
        ("t;Zeit;Spannung [V]", &|i| {
            format!("{i};{};6,{i:02}", clock(i))
        }),
        ("", &|i| format!("{i};{};6,{i:02}", clock(i))),
    ] {
        let c = capture(format!("{header}\n{}", rows(cells)));
        even(&c, 0.0, 10.0, 30);
        assert_eq!(c.time_source, model::TimeSource::File);
        let last = c.channels.last().unwrap();
        assert!((last.value(7) - 6.07).abs() < 1e-6, "{header}");
        assert_eq!(last.column, Some(3));
    }
    // The header may name cells that only the first row has.
    let first = "\"0\",\"12.07.2026 14:51:00\",\"6,00\",\"R-1\",\"77\"\n";
    let rest = rows(&|i| format!("\"{}\",\"{}\",\"6,{:02}\"", i + 1, clock(i + 1), i));
    let header = "\"Index\",\"Timestamp\",\"Voltage (V)\",\"Recorder\",\"Serial\"\n";
    let c = capture(format!("{header}{first}{rest}"));
    assert_eq!(
        (c.channels.len(), c.channels[0].name.as_str()),
        (1, "Voltage")
    );
    assert_eq!(c.time.len(), 31);
    // Fractions of a second are finer than a clock.
    let c = capture(format!(
        "Time;Clock;a\n{}",
        rows(&|i| format!("{:.3};{};5", f64::from(i) * 0.01, clock(0)))
    ));
    even(&c, 0.0, 0.01, 30);
}
