//! Whole logs.

use super::*;
use model::scan::LiveQuantity;

fn record(text: &str) -> ScanRecord {
    let lines: Vec<&str> = text.lines().collect();
    let mut record = ScanRecord::default();
    read("log", &lines, &mut record);
    record
}

fn codes(text: &str) -> Vec<String> {
    record(text)
        .codes
        .into_iter()
        .map(|c| format!("{} {:?} {:?}", c.code, c.failure_type, c.status))
        .collect()
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

#[test]
fn frames_of_a_can_log() {
    let log = "(1700000000.12) can0 7E9#100B5902FF090213\n(1700000000.12) can0 7E1#30000000\n\
               (1700000000.13) can0 7E9#212F080A5428AAAA\n  can0  7E8   [8]  04 43 01 07 00 00 00 00\n";
    let r = record(log);
    let got: Vec<_> = r
        .codes
        .iter()
        .map(|c| (c.code.as_str(), c.module.as_deref()))
        .collect();
    assert_eq!(
        got,
        [
            ("P0902", Some("TCM")),
            ("P080A", Some("TCM")),
            ("P0700", Some("ECM"))
        ]
    );
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
    let r = record(&log);
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

/// Frames that only look like answers: other traffic of the bus.
#[test]
fn traffic_that_nobody_asked_for_is_no_answer() {
    assert!(codes("can0 123#0643010902000000\ncan0 044#0443010700000000").is_empty());
    assert_eq!(
        codes("can0 7B3#031902FF00000000\ncan0 7BB#075902FF09021308").len(),
        1,
        "asked for before"
    );
}

/// The worked multi-frame vehicle number in ISO 15765-2's manner; an invented number.
#[test]
fn a_vehicle_number_in_three_frames() {
    let vin = "ZZZEG000000000012";
    let bytes: Vec<u8> = [0x49, 0x02, 0x01].into_iter().chain(vin.bytes()).collect();
    let hex = |b: &[u8]| b.iter().map(|b| format!("{b:02X}")).collect::<String>();
    let log = format!(
        "can0 7E8#1014{}\ncan0 7E0#3000000000000000\ncan0 7E8#21{}\ncan0 7E8#22{}\n",
        hex(&bytes[..6]),
        hex(&bytes[6..13]),
        hex(&bytes[13..])
    );
    assert_eq!(record(&log).vin, Some((vin.into(), 1)));
}
