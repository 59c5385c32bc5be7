//! Traces of 8 million samples: the pyramid of a channel, and every kind of view of it.
//!
//! Goals: the pyramid in 0.15 s beside the reading; a view in 50 ms at the median and in at most 64 KB.

use baybrief_page::trace::{Pyramid, build, view};
use divan::Bencher;
use std::path::PathBuf;
use std::sync::LazyLock;

const SAMPLES: usize = 8_000_000;
/// Width of a wide window, pixels.
const PIXELS: usize = 2_560;

fn main() {
    divan::main();
    // Of each bucket eight bytes are sent.
    let largest = VIEWS
        .iter()
        .map(|&(from, to)| view(&PYRAMID.2, from, to, PIXELS).buckets.len() * 8)
        .max();
    println!("largest view: {} KB", largest.unwrap_or(0).div_ceil(1000));
}

/// A trace of pulses in noise, by a linear congruential generator.
static VALUES: LazyLock<Vec<f32>> = LazyLock::new(|| {
    let mut state = 1u32;
    (0..SAMPLES)
        .map(|i| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let noise = (state >> 8) as f32 / (1 << 24) as f32;
            if i / 500 % 2 == 0 { noise } else { 5.0 + noise }
        })
        .collect()
});

static PYRAMID: LazyLock<(tempfile::TempDir, PathBuf, Pyramid)> = LazyLock::new(|| {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("channel");
    build(&mut VALUES.iter().copied(), &path).expect("a pyramid");
    let pyramid = Pyramid::open(&path, SAMPLES).expect("the pyramid");
    (folder, path, pyramid)
});

/// From the whole to a few samples, the last ones where no level fits best.
const VIEWS: [(usize, usize); 7] = [
    (0, SAMPLES),
    (1_234_567, 5_234_567),
    (3_000_001, 3_900_001),
    (3_000_001, 3_163_841),
    (3_000_001, 3_081_919),
    (3_000_001, 3_010_001),
    (3_000_001, 3_000_101),
];

#[divan::bench]
fn pyramid_of_a_channel(bencher: Bencher<'_, '_>) {
    let values = &*VALUES;
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("channel");
    bencher.bench_local(|| build(&mut values.iter().copied(), &path));
}

#[divan::bench(args = VIEWS)]
fn part_of_a_channel(bencher: Bencher<'_, '_>, (from, to): (usize, usize)) {
    let pyramid = &PYRAMID.2;
    bencher.bench_local(|| view(pyramid, from, to, PIXELS));
}
