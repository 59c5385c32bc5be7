//! Time of one report, and of the pictures of a long recording.

#[path = "../tests/samples/mod.rs"]
mod samples;

use baybrief_report as report;
use divan::Bencher;

fn main() {
    divan::main();
}

/// Data to PDF, warm.
#[divan::bench]
fn report_with_teardown(bencher: Bencher) {
    let sample = samples::established();
    bencher.bench(|| sample.render().unwrap());
}

/// Four channels of 400 000 samples to one picture.
#[divan::bench]
fn choose_pictures(bencher: Bencher) {
    let sample = samples::established();
    let captures = [samples::capture_of("relearn.csv", true, 400_000)];
    bencher.bench(|| report::evidence::choose(&sample.case, &captures, sample.stationery.words()));
}
