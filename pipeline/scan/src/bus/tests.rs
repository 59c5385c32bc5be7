//! Whole logs. Frames are invented.

use super::*;
use formats::{READERS, read_bytes};
use model::TimeSource;

fn record(text: &str) -> ScanRecord {
    let mut readers = READERS.to_vec();
    readers.extend(crate::READERS);
    match read_bytes(text.as_bytes(), "a.csv", &readers) {
        Ok(Reading::Scan(record)) => record,
        other => panic!("{other:?}\n{text}"),
    }
}

fn log(text: &str) -> BusLog {
    record(text).bus_log.expect("a bus log")
}

/// Rows of two identifiers: time, identifier, data.
fn frames() -> impl Iterator<Item = (u32, &'static str, [u8; 3])> {
    (0..30u8).map(|i| {
        let id = if i % 2 == 0 { "13A" } else { "2B4" };
        (u32::from(i) * 5_000, id, [i, 0x31, 0x8C])
    })
}

#[test]
fn tables_in_columns_of_any_order() {
    let hex = |d: &[u8], between: &str| {
        d.iter()
            .map(|b| format!("{b:02X}"))
            .collect::<Vec<_>>()
            .join(between)
    };
    let texts: Vec<String> = vec![
        "Time Stamp,ID,Extended,Dir,Bus,LEN,D1,D2,D3,D4\n".to_string()
            + &frames()
                .map(|(t, id, d)| format!("{t},00000{id},false,Rx,0,3,{},\n", hex(&d, ",")))
                .collect::<String>(),
        "Time [us];Identifier;DLC;Data\n".to_string()
            + &frames()
                .map(|(t, id, d)| format!("{t};{id};3;{}\n", hex(&d, " ")))
                .collect::<String>(),
        "data\tid\tlen\ttime (ms)\n".to_string()
            + &frames()
                .map(|(t, id, d)| format!("{}\t0x{id}\t3\t{}\n", hex(&d, ""), f64::from(t) / 1e3))
                .collect::<String>(),
        "Logged by a workshop\n\nTime     ID    DLC  Data\n".to_string()
            + &frames()
                .map(|(t, id, d)| format!("{:.6} {id}  3   {}\n", f64::from(t) / 1e6, hex(&d, " ")))
                .collect::<String>(),
        "time,id,len,d0,d1,d2\n".to_string()
            + &frames()
                .map(|(t, id, d)| {
                    format!(
                        "{:.4},{id},3,{},{},{}\n",
                        f64::from(t) / 1e6,
                        d[0],
                        d[1],
                        d[2]
                    )
                })
                .collect::<String>(),
    ];
    for text in &texts {
        let log = log(text);
        assert_eq!(log.frames.len(), 30, "{text}");
        let f = &log.frames[4];
        assert_eq!((f.id, f.extended), (0x13A, false), "{text}");
        assert_eq!(log.data(f), [4, 0x31, 0x8C], "{text}");
        assert!((f.time_s - 0.02).abs() < 1e-9, "{} {text}", f.time_s);
        assert!(log.time_source != TimeSource::Unknown);
    }
    assert_eq!(log(&texts[0]).time_source, TimeSource::Assumed);
    assert_eq!(log(&texts[1]).time_source, TimeSource::File);
}

#[test]
fn lines_with_their_own_marks() {
    let text: String = (0..40)
        .map(|i| {
            format!(
                "(1700000000.{i:02}0000) can{} 18FEF1{i:02X}#00{i:02X}\n",
                i % 2
            )
        })
        .collect();
    let log = log(&text);
    assert_eq!((log.frames.len(), log.interfaces.len()), (40, 2));
    let f = &log.frames[3];
    assert!(f.extended && f.interface == 1 && f.line == 4);
    assert_eq!(log.data(f), [0, 3]);
    assert_eq!(log.time_source, TimeSource::File);
}

#[test]
fn a_recording_is_no_bus_log() {
    let rows: String = (0..30)
        .map(|i| format!("{:.3};{i};5\n", f64::from(i) * 0.001))
        .collect();
    for header in [
        "Time [s];ID;Length",
        "Time [s];Data 1;Data 2",
        "Time [s];Current [A];Data",
    ] {
        assert!(layout(&format!("{header}\n{rows}")).is_none(), "{header}");
    }
    assert!(layout("Engine speed: 700 rpm\n[TCM]\nP0902 active\n").is_none());
}

/// A logger that starts anew sets its clock back; one that gathers the frames of two controllers mixes them by a little.
#[test]
fn a_clock_that_is_set_back_goes_on() {
    let log_of = |times: &dyn Fn(u32) -> f64| -> ScanRecord {
        let rows = (0..400).map(|i| format!("({:.6}) can{} 13A#{i:04X}\n", times(i), i % 2));
        record(&rows.collect::<String>())
    };
    let steps = |record: &ScanRecord| -> Vec<f64> {
        let capture = record
            .bus_log
            .as_ref()
            .unwrap()
            .to_capture("a.log")
            .unwrap();
        let at = |i| capture.time.at(i);
        (1..capture.time.len()).map(|i| at(i) - at(i - 1)).collect()
    };
    let even = |i: u32| 100.0 + 0.01 * f64::from(i);
    let set_back = log_of(&|i| even(i) - if i < 250 { 0.0 } else { 90.0 });
    assert!(
        set_back.problems[0]
            .message
            .contains("at 2 place(s), first here, by -90.0 s"),
        "{:?}",
        set_back.problems
    );
    assert_eq!(set_back.problems[0].place.as_deref(), Some("line 251"));
    assert!(
        steps(&set_back).iter().all(|s| (0.0..0.03).contains(s)),
        "{set_back:?}"
    );
    let set = log_of(&|i| even(i) + if i < 250 { 0.0 } else { 1.7e9 });
    assert!(!set.problems.is_empty() && steps(&set).iter().all(|s| (0.0..0.03).contains(s)));
    let mixed = log_of(&|i| even(i) + if i % 2 == 0 { 0.03 } else { 0.0 });
    assert!(mixed.problems.is_empty() && steps(&mixed).iter().all(|s| *s >= 0.0));
    // Two interfaces with clocks of their own.
    let apart = log_of(&|i| even(i) + if i % 2 == 0 { 40.0 } else { 0.0 });
    assert!(apart.problems.is_empty(), "{:?}", apart.problems);
}
