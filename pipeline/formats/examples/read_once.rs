//! Reads one file and prints how long that took and the most memory it needed, for benches/peers.py; with
//! `--make ROWS FILE` it writes an invented recording of so many rows: time and three channels.

use std::fmt::Write as _;
use std::io::{self, BufWriter, Write};
use std::path::Path;
use std::time::Instant;

fn main() -> io::Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["--make", rows, file] => make(rows.parse().map_err(io::Error::other)?, Path::new(file)),
        [file] => read(file),
        _ => Err(io::Error::other(
            "usage: read_once FILE | read_once --make ROWS FILE",
        )),
    }
}

fn read(file: &str) -> io::Result<()> {
    let start = Instant::now();
    let reading = baybrief_formats::read(
        Path::new(file),
        file,
        &baybrief_formats::READERS,
        Default::default(),
    )
    .map_err(io::Error::other)?;
    let seconds = start.elapsed().as_secs_f64();
    let baybrief_formats::Reading::Capture(c) = reading else {
        return Err(io::Error::other("no recording"));
    };
    println!(
        "{seconds:.4} s, {} samples x {}, {:?}",
        c.time.len(),
        c.channels.len(),
        c.read_as
    );
    for p in &c.problems {
        println!("  {p:?}");
    }
    Ok(())
}

/// An invented relearn at 8 kS/s: a feed current with actuations and the two input shafts' sensors.
fn make(rows: u64, file: &Path) -> io::Result<()> {
    let mut out = BufWriter::with_capacity(1 << 20, std::fs::File::create(file)?);
    out.write_all(b"Time [s],Feed current [A],Input shaft 1 [V],Input shaft 2 [V]\n")?;
    let (mut line, mut state) = (String::new(), 1u64);
    for row in 0..rows {
        // A linear congruential generator (Knuth's MMIX constants): noise that is always the same.
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let noise = |shift: u32| f64::from((state >> shift) as u8) / 2550.0;
        let actuated = row % 40_000 < 1_200;
        let amps = if actuated { 14.0 } else { 1.2 } + noise(56);
        let teeth = |period: u64| {
            if row % period < period / 2 {
                4.85
            } else {
                0.25
            }
        };
        line.clear();
        let t = row as f64 * 0.000_125;
        let _ = writeln!(
            line,
            "{t:.6},{amps:.4},{:.3},{:.3}",
            teeth(50) + noise(48),
            0.3 + noise(40)
        );
        out.write_all(line.as_bytes())?;
    }
    out.flush()
}
