//! Marks, blanks, cut and odd rows, tables that are none, and long ones.

use super::*;

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
fn a_list_of_codes_is_no_recording() {
    let text: String = (0..20)
        .map(|i| format!("P09{i:02};19;{i};3;{}\n", i * 2))
        .collect();
    let text = format!("DTC;Type;Count;Trips;Km\n{text}");
    let e = read_bytes(text.as_bytes(), "a.csv", &READERS).unwrap_err();
    assert_eq!(e.kind, ErrorKind::Unknown);
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
    assert!(read_bytes(wide.as_bytes(), "a.csv", &READERS).is_err());
}

#[test]
fn a_comma_for_everything_is_refused_with_the_reason() {
    let rows: String = (0..20)
        .map(|i| format!("0,{:03},1,{},4,{}5\n", i * 5, i % 10, i % 7))
        .collect();
    let e = read_bytes(
        format!("Zeit,Strom,Spannung\n{rows}").as_bytes(),
        "a.csv",
        &READERS,
    )
    .unwrap_err();
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

#[test]
fn lines_of_words_between_runs() {
    let run = |from: u32| -> String {
        (from..from + 25)
            .map(|i| format!("{:.3}, {}, 0.5\n", f64::from(i) * 0.002, i % 9))
            .collect()
    };
    let words = "Result: 5.90\nResult: 8.40\n".repeat(6);
    let c = capture(format!(
        "time [s], a [V], b [V]\n{}\n\n{words}{}{words}",
        run(0),
        run(40)
    ));
    assert_eq!((c.time.len(), c.channels.len()), (50, 2));
    assert!(says(&c, "no rows of numbers"), "{:?}", c.problems);
}

#[test]
fn settings_beside_the_table() {
    let settings = [
        "Record Length,4.000000e+01,",
        "Sample Interval,2.000000e-04,",
        "Trigger Point,4.0e+01,",
        ",,",
        "Vertical Units,V,",
        "Horizontal Units,s,",
    ];
    let rows: String = (0..40)
        .map(|i| {
            let beside = settings.get(i).unwrap_or(&",,");
            format!(
                "{beside}, {:.12}, {:.5},\n",
                i as f64 * 0.0002 - 0.008,
                (i % 3) as f64
            )
        })
        .collect();
    let c = capture(rows);
    even(&c, -0.008, 0.0002, 40);
    assert_eq!(c.time_source, model::TimeSource::File);
    assert_eq!(c.channels.len(), 1);
    assert_eq!(
        (c.channels[0].unit.as_deref(), c.channels[0].column),
        (Some("V"), Some(5))
    );
    assert!(c.problems.is_empty(), "{:?}", c.problems);
}

/// A controller's own log of its sensor's edges: a remark above the names, words beside the units, the last interval beside
/// the levels, and pulses of which only the beginning is noted.
#[test]
fn a_log_of_edges_with_values_beside_the_levels() {
    let mut text = String::from("#made by hand\nTooth,Mark,Time,Interval\nLevel,Level,ms,ms\n");
    let mut at_ms = 5_000.0;
    for k in 0..60 {
        let interval = if k % 6 == 0 {
            3.1
        } else {
            1.0 + 0.01 * f64::from(k % 3)
        };
        at_ms += interval;
        for level in [1.0, 0.0] {
            text += &format!("{level:.1},0.0,{at_ms:.3},{interval:.3}\n");
        }
    }
    let c = capture(&text);
    let names: Vec<&str> = c.channels.iter().map(|c| c.name.as_str()).collect();
    assert_eq!(names, ["Tooth", "Mark", "Interval"], "{}", c.read_as);
    assert!((c.time.at(0) - 5.0031).abs() < 1e-9);
    let tooth = values(&c, 0);
    let pulses = tooth
        .windows(2)
        .filter(|w| w[0] < 2.5 && w[1] >= 2.5)
        .count();
    // The first is there from the start.
    assert_eq!(pulses, 59);
    let highest = |channel: usize| values(&c, channel).into_iter().fold(0.0, f64::max);
    assert!((highest(0) - 5.0).abs() < 1e-6 && (highest(2) - 3.1).abs() < 1e-6);
}
