//! Files that are made to be too much: refused, or read in part, quickly and within a stated amount of memory.
//!
//! One test for all, because the memory of the whole process is counted.

use baybrief_formats::{ErrorKind, FormatError, Limits, READERS, Reading, read};
use std::alloc::{GlobalAlloc, Layout, System};
use std::io::{BufWriter, Write};
use std::os::unix::fs::FileExt;
use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

/// Counts what is allocated and the most that ever was.
struct Counting;

static NOW: AtomicUsize = AtomicUsize::new(0);
static MOST: AtomicUsize = AtomicUsize::new(0);

// SAFETY: everything is passed on to the system's allocator.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        let now = NOW.fetch_add(layout.size(), Ordering::Relaxed) + layout.size();
        MOST.fetch_max(now, Ordering::Relaxed);
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, pointer: *mut u8, layout: Layout) {
        NOW.fetch_sub(layout.size(), Ordering::Relaxed);
        unsafe { System.dealloc(pointer, layout) }
    }
}

#[global_allocator]
static ALLOCATOR: Counting = Counting;

/// The most memory that looking at a file of any size may take before its samples are kept.
const LIMIT: usize = 64 << 20;
/// Far more than it takes, for a busy machine in debug.
const LONG: Duration = Duration::from_secs(60);

fn refused(what: &str, path: &Path) -> Result<Reading, FormatError> {
    let before = NOW.load(Ordering::Relaxed);
    MOST.store(before, Ordering::Relaxed);
    let start = Instant::now();
    let outcome = read(path, what, &READERS, Limits::default());
    let took = MOST.load(Ordering::Relaxed) - before;
    assert!(took < LIMIT, "{what}: {} MiB", took >> 20);
    assert!(start.elapsed() < LONG, "{what}: {:?}", start.elapsed());
    outcome
}

/// Writes a file and tells how it was read.
fn file(
    what: &str,
    write: impl FnOnce(&mut BufWriter<std::fs::File>),
) -> Result<Reading, FormatError> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bomb");
    let mut out = BufWriter::with_capacity(1 << 20, std::fs::File::create(&path).unwrap());
    write(&mut out);
    out.flush().unwrap();
    drop(out);
    refused(what, &path)
}

fn bytes(what: &str, bytes: &[u8]) -> Result<Reading, FormatError> {
    file(what, |out| out.write_all(bytes).unwrap())
}

const ROWS: &str = "time [s];a [V]\n0.0;1\n0.1;2\n0.2;3\n0.3;4\n0.4;5\n0.5;6\n";

#[test]
fn bombs() {
    // A line of 200 MB, alone and behind rows of numbers.
    let line = |out: &mut BufWriter<std::fs::File>| {
        let piece = vec![b'7'; 1 << 20];
        (0..200).for_each(|_| out.write_all(&piece).unwrap());
    };
    assert!(file("one line of 200 MB", line).is_err());
    let read = file("a line of 200 MB behind rows", |out| {
        out.write_all(ROWS.as_bytes()).unwrap();
        line(out);
    });
    let Ok(Reading::Capture(c)) = read else {
        panic!("{read:?}")
    };
    assert_eq!(c.time.len(), 6);
    assert!(
        c.problems[0].message.contains("longer than 1 MiB"),
        "{:?}",
        c.problems
    );

    // A million columns, with and without line breaks that would make them rows.
    let wide = "1;".repeat(1_000_000);
    assert!(
        bytes(
            "a million columns",
            format!("{wide}\n{wide}\n{wide}\n").as_bytes()
        )
        .is_err()
    );
    let wide = "1;".repeat(20_000);
    assert!(
        bytes(
            "twenty thousand columns",
            format!("{wide}\n").repeat(20).as_bytes()
        )
        .is_err()
    );

    // Nothing but the beginning of a text: a hole of 1 TB.
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("hole");
    let hole = std::fs::File::create(&path).unwrap();
    hole.set_len(1 << 40).unwrap();
    assert!(refused("a hole", &path).is_err());
    hole.write_all_at(ROWS.as_bytes(), 0).unwrap();
    let _ = refused("rows and a hole", &path);

    // Four billion samples that are declared and not there.
    let mut wav = b"RIFF\xFF\xFF\xFF\xFFWAVEfmt \x10\0\0\0\x01\0\x01\0\x40\x1f\0\0\x80\x3e\0\0\x02\0\x10\0data\xFE\xFF\xFF\xFF".to_vec();
    wav.extend([1, 0, 2, 0]);
    let Ok(Reading::Capture(c)) = bytes("a WAV of four billion", &wav) else {
        panic!()
    };
    assert_eq!(c.time.len(), 2);
    let mut mdf = std::fs::read(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/fixtures/plain.mf4"
    ))
    .unwrap();
    let at = mdf.windows(4).position(|w| w == b"##CG").unwrap();
    // A channel group has six links; the cycles follow eight bytes behind them.
    mdf[at + 24 + 48 + 8..][..8].copy_from_slice(&4_000_000_000u64.to_le_bytes());
    let Ok(Reading::Capture(c)) = bytes("an MDF of four billion", &mdf) else {
        panic!()
    };
    assert!(
        c.time.len() <= 1000 && c.problems.iter().any(|p| p.message.contains("4000000000")),
        "{:?}",
        c.problems
    );
    let header = "{'descr': '<f8', 'fortran_order': False, 'shape': (4000000000, 2), }\n";
    let mut npy = b"\x93NUMPY\x01\x00".to_vec();
    npy.extend((header.len() as u16).to_le_bytes());
    npy.extend(header.bytes());
    npy.extend([0; 64]);
    assert!(bytes("an array of four billion", &npy).is_err());

    // Deep nesting: of brackets in an array's header and in a text.
    let deep = "(".repeat(60_000);
    let mut npy = b"\x93NUMPY\x01\x00".to_vec();
    npy.extend((deep.len() as u16).to_le_bytes());
    npy.extend(deep.bytes());
    assert!(bytes("brackets in a header", &npy).is_err());
    let _ = bytes(
        "brackets in a text",
        "[{(\"P0902\":".repeat(200_000).as_bytes(),
    );

    // An archive that unfolds a thousandfold: half a megabyte of zeros a hundred times, and 160 megabytes of them.
    let _ = bytes("an archive", &zip_of_zeros(100, 1 << 19));
    let packed = zip_of_zeros(1, 160 << 20);
    assert!(packed.len() < 2 << 20);
    let e = bytes("an archive of 160 megabytes", &packed).unwrap_err();
    assert!(e.to_string().contains("unfolds to more"), "{e}");

    // More channels than any recorder has, each with a few samples.
    let mut wav = b"RIFF\xFF\xFF\xFF\xFFWAVEfmt \x10\0\0\0\x01\0\xFF\xFF\x40\x1f\0\0\0\0\0\0\xFE\xFF\x10\0data\xFE\xFF\xFF\xFF".to_vec();
    wav.resize(400_000, 1);
    let e = bytes("a WAV of 65,535 channels", &wav).unwrap_err();
    assert!(e.to_string().contains("at most 1024"), "{e}");

    // Three gigabytes of samples that are there.
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("long.wav");
    let long = std::fs::File::create(&path).unwrap();
    long.write_all_at(b"RIFF\xFF\xFF\xFF\xFFWAVEfmt \x10\0\0\0\x01\0\x01\0\x40\x1f\0\0\x80\x3e\0\0\x02\0\x10\0data\xFE\xFF\xFF\xFF", 0)
        .unwrap();
    long.set_len(3 << 30).unwrap();
    let e = refused("a WAV of 3 GB", &path).unwrap_err();
    assert_eq!(e.kind, ErrorKind::TooLarge);
    assert!(e.to_string().contains("at most 1024 MiB"), "{e}");

    // A table of more rows than may be kept is refused without keeping them all.
    let little = Limits { samples: 1 << 20 };
    let path = folder.path().join("rows.csv");
    let rows: String = (0..500_000).map(|i| format!("{i};1\n")).collect();
    std::fs::write(&path, format!("time [ms];a [V]\n{rows}")).unwrap();
    let e = baybrief_formats::read(&path, "rows.csv", &READERS, little).unwrap_err();
    assert_eq!(e.kind, ErrorKind::TooLarge);

    // A named pipe is no file, and nobody waits for its writer.
    let path = folder.path().join("pipe");
    let made = std::process::Command::new("mkfifo").arg(&path).status();
    if made.is_ok_and(|s| s.success()) {
        assert!(refused("a pipe", &path).is_err());
    }
}

/// An archive of arrays that nothing is told about but their names.
fn zip_of_zeros(files: usize, size: usize) -> Vec<u8> {
    let mut zip = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    let options = zip::write::SimpleFileOptions::default()
        .compression_method(zip::CompressionMethod::Deflated);
    for i in 0..files {
        zip.start_file(format!("a{i}.npy"), options).unwrap();
        let piece = vec![0; size.min(1 << 20)];
        for _ in 0..size / piece.len() {
            zip.write_all(&piece).unwrap();
        }
    }
    zip.finish().unwrap().into_inner()
}
