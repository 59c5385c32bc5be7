//! Time of one report, and of the pictures of a long recording.

#[path = "../tests/samples/mod.rs"]
mod samples;

use baybrief_report as report;
use divan::Bencher;
use std::sync::atomic::{AtomicU32, Ordering};

fn main() {
    divan::main();
}

/// Data to PDF, warm: each time another job, as a service meets them.
#[divan::bench]
fn report_with_teardown(bencher: Bencher) {
    let number = AtomicU32::new(0);
    bencher
        .with_inputs(|| samples::another(number.fetch_add(1, Ordering::Relaxed)))
        .bench_values(|sample| sample.render().unwrap());
}

/// Four channels of 400 000 samples to one picture.
#[divan::bench]
fn choose_pictures(bencher: Bencher) {
    let sample = samples::established();
    let captures = [samples::capture_of("relearn.csv", true, 400_000)];
    bencher
        .bench(|| report::evidence::choose(&sample.case, &captures, &[], sample.theme.localizer()));
}
