//! Reading an eight-column CSV: this reader against the csv crate with the standard library's number
//! parse, on the same bytes in the same run.

use divan::counter::BytesCount;
use std::fmt::Write;

fn main() {
    divan::main();
}

/// An invented recording, sixty bytes a row: time and seven channels, four decimals.
fn text(rows: u32) -> String {
    let mut out = String::from("Time [s],a [A],b [V],c [V],d [V],e [V],f [V],g [V]\n");
    let mut state = 1u64;
    for row in 0..rows {
        let _ = write!(out, "{:.5}", f64::from(row) * 0.0005);
        for _ in 0..7 {
            // A linear congruential generator (Knuth's MMIX constants): noise that is always the same.
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let _ = write!(out, ",{:.4}", (state >> 40) as f64 / f64::from(1 << 20));
        }
        out.push('\n');
    }
    out
}

#[divan::bench(sample_count = 10)]
fn this_reader(bencher: divan::Bencher) {
    let text = text(200_000);
    bencher.counter(BytesCount::of_str(&text)).bench_local(|| {
        baybrief_formats::read_bytes(text.as_bytes(), "a.csv", &baybrief_formats::READERS).is_ok()
    });
}

#[divan::bench(sample_count = 10)]
fn csv_crate_with_std_parse(bencher: divan::Bencher) {
    let text = text(200_000);
    bencher.counter(BytesCount::of_str(&text)).bench_local(|| {
        let mut columns: Vec<Vec<f32>> = vec![Vec::new(); 8];
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let mut record = csv::StringRecord::new();
        while reader.read_record(&mut record).is_ok_and(|more| more) {
            for (column, cell) in columns.iter_mut().zip(&record) {
                column.push(cell.parse().unwrap_or(f32::NAN));
            }
        }
        columns
    });
}

/// Cost of finding the layout: a recording of no more rows than that takes.
#[divan::bench(sample_count = 20)]
fn three_hundred_rows(bencher: divan::Bencher) {
    let text = text(300);
    bencher.bench_local(|| {
        baybrief_formats::read_bytes(text.as_bytes(), "a.csv", &baybrief_formats::READERS).is_ok()
    });
}
