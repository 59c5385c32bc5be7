//! NumPy files that NumPy 2.4.6 wrote (tests/make_npy_fixtures.py); the values are those of its formulas.

use baybrief_formats::{ErrorKind, READERS, Reading, read_bytes};
use model::{Capture, Samples, TimeAxis};

fn bytes(name: &str) -> Vec<u8> {
    std::fs::read(format!(
        "{}/tests/fixtures/npy/{name}",
        env!("CARGO_MANIFEST_DIR")
    ))
    .unwrap()
}

#[track_caller]
fn capture(name: &str) -> Capture {
    match read_bytes(&bytes(name), name, &READERS) {
        Ok(Reading::Capture(c)) => c,
        other => panic!("{name}: {other:?}"),
    }
}

/// 20 samples 1 ms apart from -5 ms on; a ramp of 0.25 a sample.
#[track_caller]
fn check(c: &Capture, start: f64) {
    let TimeAxis::Even {
        start_s,
        step_s,
        len,
    } = c.time
    else {
        panic!("not even: {}", c.read_as)
    };
    assert!(
        (start_s - start).abs() < 1e-9 && (step_s - 0.001).abs() < 1e-9,
        "{start_s} {step_s}"
    );
    assert_eq!(len, 20);
    assert_eq!(
        (0..20).map(|i| c.channels[0].value(i)).collect::<Vec<_>>(),
        (0..20).map(|i| 0.25 * i as f64).collect::<Vec<_>>()
    );
}

#[test]
fn arrays_of_rows_of_columns_and_of_records() {
    for name in [
        "rows.npy",
        "columns.npy",
        "fortran.npy",
        "big-endian.npy",
        "floats32.npy",
        "halves.npy",
    ] {
        let c = capture(name);
        check(&c, -0.005);
        assert_eq!(c.channels[0].name, "Column 2", "{name}");
    }
    let c = capture("records.npy");
    check(&c, -0.005);
    let names: Vec<_> = c
        .channels
        .iter()
        .map(|c| (c.name.as_str(), c.unit.as_deref()))
        .collect();
    assert_eq!(names, [("Feed current", Some("A")), ("ISS A", Some("mV"))]);
    assert!(
        matches!(c.channels[1].samples, Samples::I16(_)),
        "kept in its own type"
    );
    assert_eq!(c.channels[1].value(19), -19.0);
}

#[test]
fn archives_stored_and_packed() {
    for name in ["stored.npz", "packed.npz"] {
        let c = capture(name);
        check(&c, -0.005);
        assert_eq!(c.channels[0].name, "feed");
        assert!(c.read_as.contains("archive"), "{}", c.read_as);
    }
    for name in ["interval.npz", "rate.npz"] {
        check(&capture(name), 0.0);
    }
    let c = capture("uneven.npz");
    assert!(matches!(c.time, TimeAxis::Listed(_)));
    assert!(
        c.problems.iter().any(
            |p| p.place.as_deref() == Some("array \"short\"") && p.message.contains("left out")
        )
    );
}

#[test]
fn what_cannot_be_read_says_why() {
    let error = |b: &[u8]| {
        read_bytes(b, "a.npy", &READERS)
            .map(|r| format!("{r:?}"))
            .unwrap_err()
    };
    let e = error(&bytes("no-time.npy"));
    assert_eq!(e.kind, ErrorKind::Unsupported);
    assert!(e.to_string().contains("no array is the time"), "{e}");
    let e = error(&bytes("words.npy"));
    assert!(e.to_string().contains("integers and floats"), "{e}");
    let whole = bytes("rows.npy");
    let e = error(&whole[..whole.len() - 9]);
    assert!(e.to_string().contains("promises 20 x 2 values"), "{e}");
    let packed = bytes("packed.npz");
    for cut in [40, 200, packed.len() - 30] {
        error(&packed[..cut]);
    }
}
