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

/// Even noise from -1 to 1 (a linear congruential generator, Knuth's constants for MMIX).
fn noise() -> impl Iterator<Item = f32> {
    let mut state = 1u64;
    std::iter::repeat_with(move || {
        state = state
            .wrapping_mul(6364136223846793005)
            .wrapping_add(1442695040888963407);
        (state >> 40) as f32 / (1u64 << 23) as f32 - 1.0
    })
}

/// 36-1 wheel before a Hall sensor, 5 V.
fn hall() -> Vec<f32> {
    let tooth = |turn: f64| (turn * 36.0).fract() < 0.5 && turn.fract() < 35.0 / 36.0;
    let level = |turn: f64| if tooth(turn) { 4.8 } else { 0.3 };
    let noisy = turns().zip(noise());
    noisy
        .map(|((turn, _), noise)| level(turn) + 0.02 * noise)
        .collect()
}

/// 60 teeth before a coil, 10 V at 750 rpm.
fn coil() -> Vec<f32> {
    let noisy = turns().zip(noise());
    let wave = |turn: f64, rpm: f64| (rpm / 150.0 * (60.0 * TAU * turn).sin()) as f32;
    noisy
        .map(|((turn, rpm), noise)| wave(turn, rpm) + 0.02 * noise)
        .collect()
}

/// A line at rest: nothing but noise.
fn rest() -> Vec<f32> {
    noise().take(SAMPLES).map(|v| 0.3 + 0.02 * v).collect()
}

/// A line that picks up a whine of 15.4 kHz: more than a million pulses.
fn whine() -> Vec<f32> {
    (0..SAMPLES)
        .map(|n| 0.3 + 0.02 * ((n * 2 % 13) as f32 / 6.0 - 1.0))
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
fn line_at_rest(bencher: Bencher<'_, '_>) {
    read(bencher, rest(), SensorKind::Hall, 24);
}

#[divan::bench(sample_count = 5)]
fn line_that_whines(bencher: Bencher<'_, '_>) {
    read(bencher, whine(), SensorKind::Hall, 24);
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
