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
