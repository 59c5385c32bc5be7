//! Whatever the bytes: an answer or an error, never a panic, and codes that stand in the text.

use baybrief_scan::{READERS, parse};
use formats::{FormatReader, Reading, read_bytes};
use proptest::prelude::*;

fn readers() -> Vec<&'static dyn FormatReader> {
    let mut readers = formats::READERS.to_vec();
    readers.extend(READERS);
    readers
}

const SEEDS: [&str; 5] = [
    "Module: TCM\nDTC: P0902-13\ntestFailed: 1\nconfirmedDTC: 1\nVIN: ZZZEG000000000012\nEngine speed: 700 rpm\n",
    "(1700000000.10) can0 7E1#031902FFAAAAAAAA\n(1700000000.12) can0 7E9#100B5902FF090213\n(1700000000.13) can0 7E9#212F080A5428AAAA\n",
    "Time,ID,Extended,LEN,D1,D2\n7100,0000013A,false,2,3F,00\n17100,0000013A,false,2,3F,00\n27100,0000013A,false,2,3F,00\n",
    "DTC: P0700-00\nLive data\nTime [s];Engine speed [rpm];Module voltage [V]\n0,0;700;12,5\n0,5;710;12,4\n1,0;720;\n",
    "Steuergerät | Code  | Status\nTCM | P0900 | aktiv\nBCM | C0040 | früher aufgetreten\n03\n43 01 07 00\n",
];

#[test]
fn every_seed_is_read() {
    for seed in SEEDS {
        let reading = read_bytes(seed.as_bytes(), "x", &readers()).unwrap();
        assert!(matches!(reading, Reading::Scan(_)), "{seed}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn random_text(text in "[PCBU0-9A-F;:,.#()\\-\\t\\n\"\\[\\] éµ=|a-z]{0,400}") {
        let _ = read_bytes(text.as_bytes(), "x", &readers());
        let record = parse("x", &text);
        let lines = text.split(['\r', '\n']).count();
        prop_assert!(record.codes.iter().all(|c| c.code.len() == 5 && (1..=lines).contains(&c.line)));
    }

    #[test]
    fn spoilt_texts(
        which in 0..SEEDS.len(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..12),
        cut in any::<prop::sample::Index>(),
        whether_cut in any::<bool>(),
    ) {
        let mut bytes = SEEDS[which].as_bytes().to_vec();
        for (at, value) in changes {
            let i = at.index(bytes.len());
            bytes[i] = value;
        }
        if whether_cut {
            bytes.truncate(cut.index(bytes.len() + 1));
        }
        if let Ok(Reading::Scan(record)) = read_bytes(&bytes, "x", &readers()) {
            prop_assert!(record.tracks.iter().all(|t| t.time_s.len() == t.values.len()));
            for log in record.bus_log.iter() {
                prop_assert!(log.frames.iter().all(|f| log.data(f).len() <= 64));
            }
        }
    }
}
