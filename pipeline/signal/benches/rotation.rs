//! Rotation of a million samples of a Hall signal, against the least that reads the same samples: one pass that
//! counts crossings of a fixed level.

use baybrief_signal::Time;
use baybrief_signal::rotation::{Options, Waveform, analyse};
use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

const SAMPLES: usize = 1_000_000;
const RATE: f64 = 100_000.0;

/// Ten seconds of 24 teeth at 750 rpm with a wander of 1 %, 5 V.
fn hall() -> Vec<f32> {
    let mut turns = 0.0f64;
    (0..SAMPLES)
        .map(|n| {
            let t = n as f64 / RATE;
            turns += 750.0 * (1.0 + 0.01 * t.sin()) / 60.0 / RATE;
            let tooth = (turns * 24.0).fract() < 0.5;
            (if tooth { 4.8 } else { 0.3 }) + 0.02 * ((n * 7919 % 13) as f32 / 6.0 - 1.0)
        })
        .collect()
}

#[divan::bench]
fn rotation(bencher: Bencher) {
    let x = hall();
    let options = Options {
        waveform: Some(Waveform::TwoLevel),
        teeth: Some(24),
        least_rpm: 20.0,
        least_hz: 8.0,
        least_swing: 2.5,
        most_acceleration: f64::INFINITY,
    };
    let time = Time::Even {
        start_s: 0.0,
        step_s: 1.0 / RATE,
    };
    bencher.bench(|| analyse(black_box(&x), time, &options));
}

#[divan::bench]
fn peer_crossings(bencher: Bencher) {
    let x = hall();
    bencher.bench(|| {
        black_box(&x)
            .windows(2)
            .filter(|w| w[0] < 2.5 && w[1] >= 2.5)
            .count()
    });
}
