//! MDF 4 files that asammdf 8.8.28 wrote (tests/make_mdf_fixtures.py) and the values it read from them:
//! name, unit, the samples 0, 12 and the last, and the sum.

use baybrief_formats::{ErrorKind, READERS, Reading, read_bytes};
use model::{Capture, TimeAxis};

type Row = (&'static str, &'static str, f64, f64, f64, f64);

fn bytes(name: &str) -> Vec<u8> {
    std::fs::read(format!(
        "{}/tests/fixtures/{name}",
        env!("CARGO_MANIFEST_DIR")
    ))
    .unwrap()
}

fn capture(bytes: &[u8]) -> Capture {
    match read_bytes(bytes, "a.mf4", &READERS) {
        Ok(Reading::Capture(c)) => c,
        other => panic!("{other:?}"),
    }
}

#[track_caller]
fn check(c: &Capture, rows: &[Row]) {
    assert_eq!(c.channels.len(), rows.len(), "{:?}", c.problems);
    for (channel, (name, unit, first, twelfth, last, sum)) in c.channels.iter().zip(rows) {
        assert_eq!(
            (channel.name.as_str(), channel.unit.as_deref()),
            (*name, Some(*unit))
        );
        let n = c.time.len();
        let close = |got: f64, want: f64| {
            (got - want).abs() <= 1e-6 * want.abs().max(1.0) || got.is_nan() && want.is_nan()
        };
        for (i, want) in [(0, first), (12, twelfth), (n - 1, last)] {
            assert!(
                close(channel.value(i), *want),
                "{name}[{i}]: {} {want}",
                channel.value(i)
            );
        }
        let total: f64 = (0..n)
            .map(|i| channel.value(i))
            .filter(|v| v.is_finite())
            .sum();
        assert!(close(total, *sum), "{name}: sum {total} {sum}");
    }
}

#[track_caller]
fn even(c: &Capture) {
    let TimeAxis::Even {
        start_s,
        step_s,
        len,
    } = c.time
    else {
        panic!("{:?}", c.time)
    };
    assert!((start_s + 0.01).abs() < 1e-12 && (step_s - 0.0005).abs() < 1e-12);
    assert_eq!(len, 1000);
}

#[test]
fn plain_deflated_and_transposed_data() {
    for name in ["plain.mf4", "deflated.mf4", "transposed.mf4"] {
        let c = capture(&bytes(name));
        even(&c);
        assert!(c.problems.is_empty(), "{:?}", c.problems);
        assert_eq!(c.started.unwrap().to_string(), "2026-03-02 10:30:09");
        check(
            &c,
            &[
                (
                    "ISS A",
                    "V",
                    0.0,
                    0.5646424889564514,
                    -0.3102751672267914,
                    0.8317208352673333,
                ),
                ("Feed current", "A", 0.0, 0.5, 0.5, 299.7),
            ],
        );
    }
}

#[test]
fn every_type_and_conversion() {
    let c = capture(&bytes("kinds.mf4"));
    even(&c);
    check(
        &c,
        &[
            ("u1", "V", 0.0, 12.0, 99.0, 49500.0),
            ("u2", "V", 0.0, 12.0, 99.0, 49500.0),
            ("u2be", "V", 0.0, 12.0, 99.0, 49500.0),
            ("u4", "V", 0.0, 12.0, 99.0, 49500.0),
            ("u4be", "V", 0.0, 12.0, 99.0, 49500.0),
            ("u8", "V", 0.0, 12.0, 99.0, 49500.0),
            ("u8be", "V", 0.0, 12.0, 99.0, 49500.0),
            ("i1", "V", -50.0, -38.0, 49.0, -500.0),
            ("i2", "V", -50.0, -38.0, 49.0, -500.0),
            ("i2be", "V", -50.0, -38.0, 49.0, -500.0),
            ("i4", "V", -50.0, -38.0, 49.0, -500.0),
            ("i4be", "V", -50.0, -38.0, 49.0, -500.0),
            ("i8", "V", -50.0, -38.0, 49.0, -500.0),
            ("i8be", "V", -50.0, -38.0, 49.0, -500.0),
            ("f4", "A", 0.0, 3.0, 249.75, 124875.0),
            ("f4be", "A", 0.0, 3.0, 249.75, 124875.0),
            ("f8", "A", 0.0, 3.0, 249.75, 124875.0),
            ("f8be", "A", 0.0, 3.0, 249.75, 124875.0),
            ("linear", "mV", -3.0, 3.0, 21.5, 9250.0),
            ("rational", "V", 0.25, 6.25, 24.75, 12500.0),
            ("table", "V", 0.0, 1.6, 24.1, 8250.0),
            ("steps", "V", 0.0, 1.0, 25.0, 8000.0),
            ("holes", "V", 0.0, f64::NAN, 499.5, 249677.5),
        ],
    );
}

#[test]
fn groups_are_joined_and_other_instants_are_said() {
    let c = capture(&bytes("groups.mf4"));
    even(&c);
    let names: Vec<&str> = c.channels.iter().map(|h| h.name.as_str()).collect();
    assert_eq!(names, ["fast 1", "fast 2", "slow"]);
    assert_eq!(c.channels[1].value(12), 24.0);
    // The slow group has every tenth instant: its latest value holds in between.
    assert_eq!(
        (c.channels[2].value(19), c.channels[2].value(20)),
        (1.0, 2.0)
    );
    assert_eq!(c.problems.len(), 1);
    assert!(
        c.problems[0].message.contains("100 samples of 1000"),
        "{:?}",
        c.problems
    );
}

#[test]
fn an_older_version_is_named() {
    let mut b = bytes("plain.mf4");
    b[28..30].copy_from_slice(&330u16.to_le_bytes());
    let e = read_bytes(&b, "a.mf4", &READERS).unwrap_err();
    assert_eq!(e.kind, ErrorKind::Unsupported);
    assert!(e.to_string().contains("3.30"), "{e}");
}

/// Positions of a block's identifier.
fn find(b: &[u8], id: &[u8; 4]) -> Vec<usize> {
    (0..b.len() - 4).filter(|i| &b[*i..i + 4] == id).collect()
}

#[test]
fn sizes_that_lie() {
    // A cycle count beyond anything: the data that are there, and a word about it.
    let mut b = bytes("plain.mf4");
    let cg = find(&b, b"##CG")[0];
    let links = u64::from_le_bytes(b[cg + 16..cg + 24].try_into().unwrap()) as usize;
    let cycles = cg + 24 + links * 8 + 8;
    b[cycles..cycles + 8].copy_from_slice(&u64::MAX.to_le_bytes());
    let c = capture(&b);
    assert_eq!(c.time.len(), 1000);
    assert!(
        c.problems[0].message.contains("1000 are there"),
        "{:?}",
        c.problems
    );
    // A deflated block that claims to unfold to an exabyte.
    let mut b = bytes("deflated.mf4");
    let dz = find(&b, b"##DZ")[0];
    b[dz + 32..dz + 40].copy_from_slice(&(1u64 << 60).to_le_bytes());
    assert_eq!(
        read_bytes(&b, "a.mf4", &READERS).unwrap_err().kind,
        ErrorKind::Damaged
    );
    // Cut short at every tenth of its length.
    for tenth in 0..10 {
        let b = bytes("plain.mf4");
        let _ = read_bytes(&b[..b.len() * tenth / 10], "a.mf4", &READERS);
    }
    // A chain of channels that bites its own tail.
    let mut b = bytes("plain.mf4");
    let cn = find(&b, b"##CN")[0];
    b[cn + 24..cn + 32].copy_from_slice(&(cn as u64).to_le_bytes());
    assert!(read_bytes(&b, "a.mf4", &READERS).is_err());
}

#[test]
fn an_unfinished_file_is_read_to_its_end() {
    let mut b = bytes("plain.mf4");
    b[..8].copy_from_slice(b"UnFinMF ");
    let cg = find(&b, b"##CG")[0];
    let links = u64::from_le_bytes(b[cg + 16..cg + 24].try_into().unwrap()) as usize;
    b[cg + 24 + links * 8 + 8..][..8].copy_from_slice(&0u64.to_le_bytes());
    let c = capture(&b);
    assert_eq!(c.time.len(), 1000);
    assert!(c.read_as.contains("not finalised"));
}

/// Found by fuzzing: a channel whose bits begin further on than in the byte that it names.
#[test]
fn bits_that_begin_beyond_their_byte_leave_the_channel_out() {
    let mut bytes = bytes("plain.mf4");
    let blocks: Vec<usize> = (0..bytes.len() - 88)
        .filter(|i| bytes[*i..].starts_with(b"##CN"))
        .collect();
    // Behind the head of 24 bytes stand eight links; the bit offset is the fourth byte behind them.
    for at in &blocks {
        bytes[at + 24 + 64 + 3] = 200;
    }
    assert!(blocks.len() >= 2);
    let e = read_bytes(&bytes, "a.mf4", &READERS).unwrap_err();
    assert!(e.to_string().contains("no time channel"), "{e}");
}
