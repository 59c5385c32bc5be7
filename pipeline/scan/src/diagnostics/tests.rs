//! Whole conversations.

use super::answers::code;
use super::*;
use crate::frame;
use formats::{READERS, Reading, read_bytes};
use model::scan::LiveQuantity;
use proptest::prelude::*;

fn record(text: &str) -> ScanRecord {
    let lines: Vec<&str> = text.lines().collect();
    let mut record = ScanRecord::default();
    read_lines(&lines, &mut record);
    record
}

/// The same as a log of frames, which is read by another way.
fn read_file(text: &str) -> ScanRecord {
    let mut readers = READERS.to_vec();
    readers.extend(crate::READERS);
    match read_bytes(text.as_bytes(), "a.log", &readers) {
        Ok(Reading::Scan(record)) => record,
        other => panic!("{other:?}"),
    }
}

fn written(record: ScanRecord) -> Vec<String> {
    let codes = record.codes.into_iter();
    codes
        .map(|c| format!("{} {:?} {:?}", c.code, c.failure_type, c.status))
        .collect()
}

fn codes(text: &str) -> Vec<String> {
    written(record(text))
}

/// Two-byte encoding of SAE J2012 / ISO 15031-6 (from memory; the rows computed).
#[test]
fn two_byte_codes() {
    for (high, low, want) in [
        (0x01, 0x43, "P0143"),
        (0x07, 0x15, "P0715"),
        (0x05, 0x62, "P0562"),
        (0x09, 0x02, "P0902"),
        (0x27, 0x87, "P2787"),
        (0x28, 0x72, "P2872"),
        (0x40, 0x35, "C0035"),
        (0x95, 0x62, "B1562"),
        (0xC1, 0x01, "U0101"),
        (0xE1, 0x00, "U2100"),
    ] {
        assert_eq!(code(high, low), want);
    }
}

#[test]
fn services_with_codes() {
    assert_eq!(
        codes("43 02 09 02 08 0A"),
        ["P0902 None [Confirmed]", "P080A None [Confirmed]"]
    );
    assert_eq!(
        codes("Rx: 43 01 43 00 00 00 00"),
        ["P0143 None [Confirmed]"]
    );
    assert_eq!(
        codes("47 01 07 00\n4A 01 07 00"),
        ["P0700 None [Pending, Permanent]"]
    );
    assert_eq!(
        codes("59 02 FF 09 02 13 2F"),
        ["P0902 Some(\"13\") [Active, Pending, Confirmed]"]
    );
    assert!(codes("4A 00\n43 00").is_empty());
}

/// ISO 15765-4 identifiers: 7E1 asks and 7E9 answers; 7DF asks all.
#[test]
fn answers_belong_to_questions() {
    let log = "(1700000000.10) can0 7E1#031902FFAAAAAAAA\n(1700000000.12) can0 7E9#100B5902FF090213\n\
               (1700000000.12) can0 7E1#300000AAAAAAAAAA\n(1700000000.13) can0 7E9#212F080A5428AAAA\n\
               (1700000000.20)  can0  7DF   [8]  01 03 00 00 00 00 00 00\n\
               (1700000000.21)  can0  7E8   [8]  04 43 01 07 00 00 00 00\n";
    for r in [record(log), read_file(log)] {
        let got: Vec<_> = r
            .codes
            .iter()
            .map(|c| (c.code.as_str(), c.module.as_deref(), c.line))
            .collect();
        assert_eq!(
            got,
            [
                ("P0902", Some("TCM"), 2),
                ("P080A", Some("TCM"), 2),
                ("P0700", Some("ECM"), 6)
            ]
        );
    }
}

/// Each of these lacks something of an answer: the question, its identifier, its time, its length, its count.
#[test]
fn what_is_no_answer() {
    let ask = "(10.0) can0 7DF#0103AAAAAAAAAAAA\n";
    for (what, log) in [
        (
            "nobody asked",
            "(10.1) can0 7E8#0443010700AAAAAA".to_string(),
        ),
        (
            "another service",
            format!("{ask}(10.1) can0 7E8#0447010700AAAAAA"),
        ),
        (
            "another identifier",
            format!("{ask}(10.1) can0 3E8#0443010700AAAAAA"),
        ),
        (
            "much later",
            format!("{ask}(16.0) can0 7E8#0443010700AAAAAA"),
        ),
        (
            "before the question",
            format!("(9.9) can0 7E8#0443010700AAAAAA\n{ask}"),
        ),
        (
            "a wrong count",
            format!("{ask}(10.1) can0 7E8#0443020700AAAAAA"),
        ),
        (
            "a wrong length",
            format!("{ask}(10.1) can0 7E8#0643010700AAAAAA"),
        ),
        (
            "filled up with data",
            "(10.0) can0 7B3#0103AAAAAAAAAAAA\n(10.1) can0 7BB#0443010700112233".into(),
        ),
        (
            "another report",
            "(10.0) can0 7E1#031902FFAAAAAAAA\n(10.1) can0 7E9#07590AFF09021308".into(),
        ),
        (
            "another module",
            "(10.0) can0 7E1#031902FFAAAAAAAA\n(10.1) can0 7E8#075902FF09021308".into(),
        ),
        (
            "no tester's identifier",
            "(10.0) can0 123#031902FFAAAAAAAA\n(10.1) can0 12B#075902FF09021308".into(),
        ),
    ] {
        assert!(codes(&log).is_empty(), "{what}: {:?}", codes(&log));
        assert!(
            written(read_file(&format!("{log}\n{log}"))).len() <= 1,
            "{what}"
        );
    }
    // A module may leave old bytes behind its answer.
    assert_eq!(
        codes(&format!("{ask}(10.1) can0 7E8#0443010700112233")).len(),
        1
    );
    // "Response pending" (7F ... 78) gives the module more time.
    let log = format!("{ask}(14.0) can0 7E8#037F0378AAAAAAAA\n(18.0) can0 7E8#0443010700AAAAAA");
    assert_eq!(codes(&log).len(), 1);
    // Makers' identifiers answer eight above; with 29 bits target and source change places.
    for log in [
        "(1.0) can0 7B3#031902FF00000000\n(1.1) can0 7BB#075902FF09021308",
        "(1.0) can0 18DA18F1#031902FF00000000\n(1.1) can0 18DAF118#075902FF09021308",
        "(1.0) can0 18DB33F1#0103000000000000\n(1.1) can0 18DAF110#0443010700000000",
        "03\n7E8: 04 43 01 07 00",
    ] {
        assert_eq!(codes(log).len(), 1, "{log}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]
    /// Traffic of any bus on which nobody asks gives no code, whatever its bytes.
    #[test]
    fn traffic_without_questions_gives_no_codes(
        frames in prop::collection::vec((0u32..0x800, prop::collection::vec(any::<u8>(), 0..9)), 2..200),
    ) {
        let log: String = frames
            .iter()
            .filter(|(id, _)| !(0x600..0x7F8).contains(id) || *id >= 0x7E8)
            .enumerate()
            .map(|(i, (id, data))| {
                let data: String = data.iter().map(|b| format!("{b:02X}")).collect();
                format!("({}.{:06}) can0 {id:03X}#{data}\n", i / 1000, i % 1000 * 1000)
            })
            .collect();
        prop_assert!(codes(&log).is_empty());
    }
}

/// Formulas and worked values of mode 01 as in the CC0 set OBDex, commit cf008f4252.
#[test]
fn live_values() {
    let value = |text: &str| record(text).live.first().and_then(|i| i.value);
    for (bytes, want) in [
        ("41 0C 1A F8", 1726.0),
        ("41 0C 0B B8", 750.0),
        ("41 0D 32", 50.0),
        ("41 05 7B", 83.0),
        ("41 42 37 2B", 14.123),
        ("41 42 30 39", 12.345),
    ] {
        assert_eq!(value(bytes), Some(want), "{bytes}");
    }
    assert_eq!(value("41 03 80"), None);
}

/// Reports of service 19 (ISO 14229-1; layouts from memory).
#[test]
fn reports_of_service_19() {
    assert_eq!(
        codes("59 0A FF 09 02 13 2F 08 0A 54 50 07 00 00 00"),
        ["P0902 Some(\"13\") [Active, Pending, Confirmed]"]
    );
    assert_eq!(
        codes("59 15 FF 09 02 13 08"),
        ["P0902 Some(\"13\") [Confirmed, Permanent]"]
    );
    assert_eq!(
        codes("59 06 09 02 13 09 01 02"),
        ["P0902 Some(\"13\") [Active, Confirmed]"]
    );
    assert_eq!(
        codes("59 08 FF 20 10 09 02 13 08"),
        ["P0902 Some(\"13\") [Confirmed]"]
    );
    assert!(codes("59 02 FF\n7F 19 31\n59 04 09").is_empty());
}

#[test]
fn answers_over_time_become_tracks() {
    let mut log = String::new();
    for i in 0..20 {
        let t = 1_700_000_000.0 + 0.1 * f64::from(i);
        log.push_str(&format!("({t:.6}) can0 7DF#02010C0000000000\n"));
        log.push_str(&format!(
            "({t:.6}) can0 7E8#04410C{:04X}000000\n",
            (700 + i) * 4
        ));
    }
    for r in [record(&log), read_file(&log)] {
        assert_eq!(r.live.len(), 1);
        let [track] = &r.tracks[..] else {
            panic!("{:?}", r.tracks)
        };
        assert_eq!(
            (track.values.len(), track.values[3], track.line),
            (20, 703.0, 2)
        );
        assert_eq!(track.quantity, Some(LiveQuantity::EngineSpeed));
        assert_eq!(track.module.as_deref(), Some("ECM"));
        assert!((track.time_s[19] - track.time_s[0] - 1.9).abs() < 1e-6);
    }
}

/// A vehicle number in three frames (ISO 15765-2); an invented number.
#[test]
fn a_vehicle_number_in_three_frames() {
    let vin = "ZZZEG000000000012";
    let bytes: Vec<u8> = [0x49, 0x02, 0x01].into_iter().chain(vin.bytes()).collect();
    let hex = |b: &[u8]| b.iter().map(|b| format!("{b:02X}")).collect::<String>();
    let log = format!(
        "can0 7E0#0209020000000000\ncan0 7E8#1014{}\ncan0 7E0#3000000000000000\ncan0 7E8#21{}\ncan0 7E8#22{}\n",
        hex(&bytes[..6]),
        hex(&bytes[6..13]),
        hex(&bytes[13..])
    );
    assert_eq!(record(&log).vin, Some((vin.into(), 2)));
    assert!(frame::frame("can0 7E8#22").is_some());
}
