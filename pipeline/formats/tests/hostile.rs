//! Whatever the bytes: an answer or an error, never a panic.

use baybrief_formats::{ErrorKind, Limits, READERS, Reading, read, read_bytes};
use model::TimeAxis;
use proptest::prelude::*;

fn kind(bytes: &[u8]) -> ErrorKind {
    read_bytes(bytes, "x", &READERS)
        .map(|r| format!("{r:?}"))
        .unwrap_err()
        .kind
}

#[test]
fn empty_blank_and_noise() {
    assert_eq!(kind(b""), ErrorKind::Empty);
    assert_eq!(kind(b" \r\n\t\n"), ErrorKind::Empty);
    assert_eq!(kind(b"\xFF\xFE"), ErrorKind::Empty);
    assert_eq!(kind(&[0; 4096]), ErrorKind::Empty);
    assert_eq!(kind(b"\""), ErrorKind::Unknown);
    assert_eq!(kind(b"lorem ipsum dolor sit amet"), ErrorKind::Unknown);
    assert_eq!(
        kind(&[0x89, b'P', b'N', b'G', 0, 1, 2, 3, 4, 5, 6, 7]),
        ErrorKind::Unknown
    );
    assert_eq!(kind(&vec![b'x'; 3 << 20]), ErrorKind::Unknown);
    let e = read_bytes(b"lorem ipsum", "x", &READERS).unwrap_err();
    assert!(e.to_string().contains("CSV, WAV, ASAM MDF 4"), "{e}");
}

#[test]
fn a_file_that_is_not_there() {
    let e = read(
        std::path::Path::new("no/such/file"),
        "gone.csv",
        &READERS,
        Limits::default(),
    )
    .unwrap_err();
    assert_eq!(e.kind, ErrorKind::Io);
    assert!(e.to_string().starts_with("gone.csv: "));
}

#[test]
fn a_file_on_disk_is_read_by_its_content() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("misnamed.wav");
    let rows: String = (0..50).map(|i| format!("{i};{}\n", i % 5)).collect();
    std::fs::write(&path, format!("time [ms];a [V]\n{rows}")).unwrap();
    let Ok(Reading::Capture(c)) = read(&path, "misnamed.wav", &READERS, Limits::default()) else {
        panic!()
    };
    assert_eq!(c.time.len(), 50);
    assert_eq!(
        read(dir.path(), "d", &READERS, Limits::default())
            .unwrap_err()
            .kind,
        ErrorKind::Unsupported
    );
}

/// The beginnings of every format, so that random changes reach deep.
fn seeds() -> Vec<Vec<u8>> {
    let rows: String = (0..30)
        .map(|i| format!("{:.4};{};\"x\"\n", i as f64 * 0.01, i % 5))
        .collect();
    let csv = format!("Started: 2026-01-01\nTime [s];a [V];b\n{rows}");
    let utf16: Vec<u8> = csv.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let mut wav = b"RIFF\x24\0\0\0WAVEfmt \x10\0\0\0\x01\0\x01\0\x40\x1f\0\0\x80\x3e\0\0\x02\0\x10\0data\x08\0\0\0".to_vec();
    wav.extend([1, 2, 3, 4, 5, 6, 7, 8]);
    let scan = "[TCM]\nP0902-13 0x2F stored\nVIN: ZZZEG000000000012\nEngine speed: 700 rpm\n";
    let mut out = vec![csv.into_bytes(), utf16, wav, scan.as_bytes().to_vec()];
    let fixtures = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures");
    for folder in [fixtures.to_string(), format!("{fixtures}/npy")] {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_file() {
                out.push(std::fs::read(path).unwrap());
            }
        }
    }
    out
}

/// Steps of a time axis that nobody records, and some that somebody does.
fn odd_step() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(0.0),
        Just(1e-300),
        Just(5e-324),
        Just(1e-15),
        Just(1e-4),
        Just(1.0),
        Just(1e15),
        Just(1e300),
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(-1.0),
        any::<f64>(),
    ]
}

/// Properties of every recording that is read: instants never go back and are a recording's.
fn check(reading: Result<Reading, baybrief_formats::FormatError>) {
    let Ok(Reading::Capture(c)) = reading else {
        return;
    };
    assert!(c.channels.iter().all(|ch| ch.samples.len() == c.time.len()));
    assert!((1..c.time.len()).all(|i| c.time.at(i - 1) <= c.time.at(i)));
    let duration = c.time.duration_s();
    assert!((0.0..=1e10).contains(&duration), "{duration}");
    if let TimeAxis::Even { step_s, .. } = c.time {
        assert!(step_s >= 1e-12 || c.time.len() < 2, "{step_s}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn odd_axes_of_tables(
        first in odd_step(),
        steps in prop::collection::vec((odd_step(), 1usize..30), 1..5),
        unit in prop::sample::select(vec!["time", "time [s]", "time [ns]", "time [h]", "x"]),
        levels in any::<bool>(),
    ) {
        let mut t = first;
        let mut rows = String::new();
        for (i, step) in steps.iter().flat_map(|(s, n)| std::iter::repeat_n(*s, *n)).enumerate() {
            let value = if levels { (i % 2) as f64 } else { i as f64 * 0.5 };
            rows.push_str(&format!("{t:e};{value}\n"));
            t += step;
        }
        check(read_bytes(format!("{unit};a [V]\n{rows}").as_bytes(), "x", &READERS));
    }

    #[test]
    fn odd_axes_of_arrays(first in odd_step(), steps in prop::collection::vec(odd_step(), 2..60)) {
        let mut t = first;
        let header = format!("{{'descr': '<f8', 'fortran_order': False, 'shape': ({}, 2), }}\n", steps.len());
        let mut bytes = b"\x93NUMPY\x01\x00".to_vec();
        bytes.extend((header.len() as u16).to_le_bytes());
        bytes.extend(header.bytes());
        for step in steps {
            bytes.extend(t.to_le_bytes());
            bytes.extend(1.5f64.to_le_bytes());
            t += step;
        }
        check(read_bytes(&bytes, "x", &READERS));
    }

    #[test]
    fn random_bytes(bytes in prop::collection::vec(any::<u8>(), 0..2000)) {
        check(read_bytes(&bytes, "x", &READERS));
    }

    #[test]
    fn random_text(text in "[PCBU0-9A-F;:,.\\-\\t\\n\"\\[\\] éµ=|]{0,400}") {
        let _ = read_bytes(text.as_bytes(), "x", &READERS);
    }

    #[test]
    fn spoilt_files(
        which in any::<prop::sample::Index>(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..12),
        cut in any::<prop::sample::Index>(),
        whether_cut in any::<bool>(),
    ) {
        let seeds = seeds();
        let mut bytes = which.get(&seeds).clone();
        for (at, value) in changes {
            let i = at.index(bytes.len());
            bytes[i] = value;
        }
        if whether_cut {
            bytes.truncate(cut.index(bytes.len() + 1));
        }
        check(read_bytes(&bytes, "x", &READERS));
    }
}
