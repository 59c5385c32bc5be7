//! Humps of a starter's current against SciPy. The current is made the same way on both sides: per cylinder the
//! torque of a slider-crank (crank radius to rod 0.28) that compresses 10 to 1 with the polytropic exponent 1.3
//! (textbook thermodynamics: p V^n is constant), none of it handed back (a starter has an overrunning clutch), 8 A to
//! the unit of torque above 120 A, and a first-order lag of 5 ms; 2 kHz, 200 rpm. A weak cylinder's pressure is a
//! share of the others'.
//!
//! The expected shares are `scipy.signal.peak_prominences` of what `scipy.signal.find_peaks` finds (SciPy 1.17.1,
//! NumPy 2.4.6), the mean of each cylinder's, lowest over highest.

use baybrief_plugin_start_and_charge::CrankingCompression;
use plugin_sdk::testing::{Bench, find, input, near, noise, observe, settings};
use plugin_sdk::{Grade, Observation};
use std::f64::consts::PI;

const RATE: f64 = 2_000.0;

fn torque(theta: f64) -> f64 {
    let (lambda, ratio, n) = (0.28, 10.0, 1.3);
    let root = (1.0 - (lambda * theta.sin()).powi(2)).sqrt();
    let volume = 1.0 + (ratio - 1.0) * (1.0 - theta.cos() + (1.0 - root) / lambda) / 2.0;
    let slope = (ratio - 1.0) / 2.0 * (theta.sin() + lambda * theta.sin() * theta.cos() / root);
    let pressure = (ratio / volume).powf(n) - 1.0;
    if theta.abs() < PI {
        -pressure * slope
    } else {
        0.0
    }
}

/// The starter's current; before `from_s` and after `to_s` it rests.
fn current(shares: &[f64], rpm: f64, seconds: f64, from_s: f64, to_s: f64) -> Vec<f32> {
    let keep = 1.0 - (-1.0 / RATE / 0.005f64).exp();
    let mut lagged = None;
    (0..(seconds * RATE) as usize)
        .map(|i| {
            let t = i as f64 / RATE;
            if t < from_s || t >= to_s {
                return 0.3;
            }
            let crank = 2.0 * PI * rpm / 60.0 * (t - from_s);
            let n = shares.len() as f64;
            let sum: f64 = shares
                .iter()
                .enumerate()
                .map(|(k, share)| {
                    let angle = crank - 4.0 * PI * k as f64 / n + 2.0 * PI;
                    (share * torque(angle.rem_euclid(4.0 * PI) - 2.0 * PI)).max(0.0)
                })
                .sum();
            let now = 120.0 + 8.0 * sum;
            // Inrush of the standing motor.
            let inrush = 400.0 * (-(t - from_s) / 0.05).exp();
            let y = lagged.unwrap_or(now);
            let y = y + keep * (now - y);
            lagged = Some(y);
            (y + inrush) as f32
        })
        .collect()
}

fn cranked(values: &[f32], cylinders: Option<f64>) -> Vec<Observation> {
    let facts: Vec<(&str, f64)> = cylinders.iter().map(|n| ("cylinders", *n)).collect();
    let settings = settings("cranking", &facts);
    observe::<CrankingCompression>(&input(&[("starter-current", values)], RATE, settings))
}

#[test]
fn shares_are_those_of_scipy() {
    for (shares, expected) in [
        (&[1.0, 1.0, 1.0, 1.0][..], 100.0),
        (&[1.0, 1.0, 0.6, 1.0], 59.84),
        (&[1.0, 1.0, 0.7, 1.0], 69.87),
        (&[1.0, 1.0, 0.8, 1.0], 79.91),
        (&[1.0, 1.0, 0.9, 1.0], 89.95),
        (&[1.0, 1.0, 0.6, 0.6], 59.77),
        (&[1.0, 0.8, 1.0, 1.0, 1.0, 1.0], 77.93),
    ] {
        let values = current(shares, 200.0, 6.0, 0.5, 5.0);
        let all = cranked(&values, Some(shares.len() as f64));
        let o = find(&all, "relative-compression");
        near(o, expected, 3.0);
        let grade = match expected {
            e if e < 72.0 => Grade::Abnormal,
            e if e < 78.0 => Grade::Unusable,
            _ => Grade::Normal,
        };
        assert_eq!(o.grade, grade, "{o:?}");
        // In two turns each cylinder compresses once.
        near(find(&all, "cranking-speed"), 200.0, 3.0);
    }
}

#[test]
fn the_number_of_cylinders_is_found_where_one_is_weak() {
    for n in [3, 4, 6] {
        let mut shares = vec![1.0; n];
        shares[1] = 0.4;
        let all = cranked(&current(&shares, 220.0, 7.0, 0.5, 6.0), None);
        near(find(&all, "cranking-speed"), 220.0, 4.0);
        let o = find(&all, "relative-compression");
        assert_eq!(o.args["cylinders"], n);
        assert_eq!(o.grade, Grade::Abnormal);
    }
}

/// Slight differences repeat over the six compressions of a cycle; the same over four may be those of once a turn of an
/// engine with eight.
#[test]
fn slight_differences_tell_a_number_only_within_the_speeds_of_starters() {
    let six = [1.0, 0.99, 0.97, 1.0, 0.98, 0.975];
    let all = cranked(&current(&six, 175.0, 7.0, 0.5, 6.0), None);
    near(find(&all, "cranking-speed"), 175.0, 3.0);
    assert_eq!(find(&all, "relative-compression").args["cylinders"], 6);
    let four = [1.0, 0.99, 0.97, 0.98];
    let all = cranked(&current(&four, 260.0, 7.0, 0.5, 6.0), None);
    assert!(all.iter().all(|o| o.kind != "cranking-speed"));
    near(find(&all, "compression-rate"), 260.0 / 30.0, 0.1);
}

#[test]
fn without_a_number_even_cylinders_give_a_rate_and_no_speed() {
    let all = cranked(&current(&[1.0; 4], 180.0, 6.0, 0.5, 5.0), None);
    near(find(&all, "compression-rate"), 6.0, 0.1);
    assert!(all.iter().all(|o| o.kind != "cranking-speed"));
    assert_eq!(find(&all, "relative-compression").grade, Grade::Normal);
}

#[test]
fn a_dead_cylinder_leaves_a_gap_that_is_counted() {
    let all = cranked(
        &current(&[1.0, 1.0, 0.0, 1.0], 180.0, 6.0, 0.5, 5.0),
        Some(4.0),
    );
    let o = find(&all, "relative-compression");
    assert!(o.value.expect("a share") < 10.0, "{o:?}");
    assert_eq!(o.args["weak"], 1);
}

#[test]
fn a_share_at_the_limit_is_not_decided() {
    // Humps that scatter by a fifth of their height: the mean of few is not known well enough.
    let mut values = current(&[1.0, 1.0, 0.74, 1.0], 200.0, 4.0, 0.5, 3.4);
    for (i, v) in values.iter_mut().enumerate() {
        let hump = (i as f64 / RATE / 0.15) as usize;
        *v += ((*v - 120.0).max(0.0)) * ((hump * 7919 % 11) as f32 / 10.0 - 0.5) * 0.2;
    }
    let all = cranked(&values, Some(4.0));
    assert_eq!(find(&all, "relative-compression").grade, Grade::Unusable);
}

#[test]
fn what_is_no_cranking_gives_nothing() {
    let flat = vec![2.0f32; 12_000];
    let rough: Vec<f32> = noise(1)
        .take(12_000)
        .map(|n| 100.0 + 50.0 * n as f32)
        .collect();
    let ramp: Vec<f32> = (0..12_000).map(|i| i as f32 / 100.0).collect();
    for values in [&flat, &rough, &ramp, &Vec::new()] {
        let all = cranked(values, Some(4.0));
        assert!(all.iter().all(|o| o.grade == Grade::Unusable), "{all:?}");
    }
}

#[test]
fn clock_counts_and_noise_change_nothing() {
    for shares in [[1.0, 1.0, 1.0, 1.0], [1.0, 0.5, 1.0, 1.0]] {
        let values = current(&shares, 200.0, 6.0, 0.5, 5.0);
        let settings = settings("cranking", &[("cylinders", 4.0)]);
        let input = input(&[("starter-current", &values)], RATE, settings);
        for seconds in [-30.0, 0.25, 1234.5] {
            Bench::of::<CrankingCompression>()
                .time_shift(&input, seconds)
                .expect("moved");
        }
        for factor in [0.01, 3.7, 1000.0] {
            Bench::of::<CrankingCompression>()
                .gain(&input, factor)
                .expect("other counts");
        }
        for seed in 0..5 {
            Bench::of::<CrankingCompression>()
                .noise(&input, 1.0, seed)
                .expect("noise");
        }
    }
}
