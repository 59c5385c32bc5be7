//! Tooth trains of eight million samples, against the least that reads the same samples: one pass that counts crossings
//! of a fixed level.

use baybrief_signal::Time;
use baybrief_signal::teeth::{Options, SensorKind, read_train};
use divan::{Bencher, black_box};
use std::f64::consts::TAU;

fn main() {
    divan::main();
}

const SAMPLES: usize = 8_000_000;
const RATE: f64 = 100_000.0;
const TIME: Time<'static> = Time::Even {
    start_s: 0.0,
    step_s: 1.0 / RATE,
};

/// Turns of a shaft that starts from rest and runs at 750 rpm with a wander of 1 %, sample by sample.
fn turns() -> impl Iterator<Item = (f64, f64)> {
    let mut turns = 0.0f64;
    (0..SAMPLES).map(move |n| {
        let t = n as f64 / RATE;
        let rpm = 750.0 * (1.0 + 0.01 * t.sin()) * (t / 5.0).min(1.0);
        turns += rpm / 60.0 / RATE;
        (turns, rpm)
    })
}

fn noise(n: usize) -> f32 {
    (n * 7919 % 13) as f32 / 6.0 - 1.0
}

/// 36-1 wheel before a Hall sensor, 5 V.
fn hall() -> Vec<f32> {
    let tooth = |turn: f64| (turn * 36.0).fract() < 0.5 && turn.fract() < 35.0 / 36.0;
    let level = |turn: f64| if tooth(turn) { 4.8 } else { 0.3 };
    turns()
        .enumerate()
        .map(|(n, (turn, _))| level(turn) + 0.02 * noise(n))
        .collect()
}

/// 60 teeth before a coil, 10 V at 750 rpm.
fn coil() -> Vec<f32> {
    turns()
        .enumerate()
        .map(|(n, (turn, rpm))| (rpm / 150.0 * (60.0 * TAU * turn).sin()) as f32 + 0.02 * noise(n))
        .collect()
}

fn read(bencher: Bencher<'_, '_>, x: Vec<f32>, sensor: SensorKind, teeth: u32) {
    let options = Options {
        sensor: Some(sensor),
        teeth: Some(teeth),
        ..Options::default()
    };
    bencher.bench(|| read_train(black_box(&x), TIME, &options));
}

#[divan::bench(sample_count = 5)]
fn hall_train(bencher: Bencher<'_, '_>) {
    read(bencher, hall(), SensorKind::Hall, 36);
}

#[divan::bench(sample_count = 5)]
fn coil_train(bencher: Bencher<'_, '_>) {
    read(bencher, coil(), SensorKind::Coil, 60);
}

#[divan::bench(sample_count = 5)]
fn peer_crossings(bencher: Bencher<'_, '_>) {
    let x = hall();
    bencher.bench(|| {
        black_box(&x)
            .windows(2)
            .filter(|w| w[0] < 2.5 && w[1] >= 2.5)
            .count()
    });
}
