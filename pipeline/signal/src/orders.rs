//! Order analysis: amplitudes at multiples of a rate that wanders, by the phase of a line that turns with it.

use crate::windows::average;
use std::f64::consts::TAU;

/// Turns of a line of the record since its start, at every sample, by complex demodulation: the record is shifted
/// down by `hz`, averaged over `window_s` twice, and its phase unwrapped. A window of one over the distance to the
/// next line takes that line out.
///
/// `None` when the record is shorter than four windows.
pub fn turns_of_line(x: &[f64], step_s: f64, hz: f64, window_s: f64) -> Option<Vec<f64>> {
    let half = ((window_s / step_s / 2.0).round() as usize).max(1);
    let window = 2 * half + 1;
    if x.len() < 8 * half {
        return None;
    }
    let mean = x.iter().sum::<f64>() / x.len() as f64;
    let (re, im): (Vec<f64>, Vec<f64>) = x
        .iter()
        .enumerate()
        .map(|(i, v)| {
            let (sin, cos) = (TAU * hz * i as f64 * step_s).sin_cos();
            ((v - mean) * cos, -(v - mean) * sin)
        })
        .unzip();
    let re = average(&average(&re, window), window);
    let im = average(&average(&im, window), window);
    let mut turns = Vec::with_capacity(x.len());
    let (mut before, mut whole) = (im[0].atan2(re[0]), 0.0);
    for (i, (re, im)) in re.iter().zip(&im).enumerate() {
        let phase = im.atan2(*re);
        if phase - before > TAU / 2.0 {
            whole -= 1.0;
        } else if before - phase > TAU / 2.0 {
            whole += 1.0;
        }
        before = phase;
        turns.push(hz * i as f64 * step_s + phase / TAU + whole);
    }
    Some(turns)
}

/// A sine of the record at an order of the turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Order {
    /// Order: periods a turn.
    pub order: f64,
    /// Amplitude of the cosine part, in the record's unit.
    pub cos: f64,
    /// Amplitude of the sine part.
    pub sin: f64,
}

impl Order {
    /// Amplitude, in the record's unit.
    pub fn amplitude(&self) -> f64 {
        self.cos.hypot(self.sin)
    }
}

/// The sine at an order, by projection under a Hann window over the whole record.
pub fn order(x: &[f64], turns: &[f64], order: f64) -> Order {
    let n = x.len().min(turns.len());
    let (mut cos_sum, mut sin_sum, mut weights, mut mean) = (0.0, 0.0, 0.0, 0.0);
    let window = |i: usize| 0.5 - 0.5 * (TAU * (i as f64 + 0.5) / n as f64).cos();
    for (i, v) in x[..n].iter().enumerate() {
        let w = window(i);
        weights += w;
        mean += w * v;
    }
    mean /= weights.max(f64::MIN_POSITIVE);
    for (i, (v, turn)) in x.iter().zip(turns).enumerate() {
        let w = window(i) * (v - mean);
        let (sin, cos) = (TAU * order * turn).sin_cos();
        cos_sum += w * cos;
        sin_sum += w * sin;
    }
    let scale = 2.0 / weights.max(f64::MIN_POSITIVE);
    Order {
        order,
        cos: scale * cos_sum,
        sin: scale * sin_sum,
    }
}

/// Peak-to-peak value of a sum of orders over one turn of the slowest of them, in the record's unit.
pub fn peak_to_peak(orders: &[Order]) -> f64 {
    const POINTS: usize = 720;
    let slowest = orders.iter().map(|o| o.order).fold(f64::INFINITY, f64::min);
    if !slowest.is_finite() || slowest <= 0.0 {
        return 0.0;
    }
    let wave = |k: usize| -> f64 {
        let turn = k as f64 / POINTS as f64 / slowest;
        orders
            .iter()
            .map(|o| {
                let (sin, cos) = (TAU * o.order * turn).sin_cos();
                o.cos * cos + o.sin * sin
            })
            .sum()
    };
    let (low, high) = (0..POINTS)
        .map(wave)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
            (low.min(v), high.max(v))
        });
    high - low
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::noise;

    /// A rate that wanders by 4 %: lines that smear in a spectrum are found at their order with their amplitude.
    #[test]
    fn orders_of_a_wandering_rate() {
        let step = 1e-4;
        let mut turn = 0.0;
        let mut x = Vec::new();
        for (i, n) in (0..20_000).zip(noise(2)) {
            let t = f64::from(i) * step;
            turn += 400.0 * (1.0 + 0.04 * (TAU * 3.0 * t).sin()) * step;
            let wave = 0.4 * (TAU * turn).cos()
                + 0.1 * (2.0 * TAU * turn).sin()
                + 0.2 * (5.0 * TAU * turn).cos();
            x.push(12.0 + wave + 0.1 * n);
        }
        let turns = turns_of_line(&x, step, 400.0, 1.0 / 400.0).unwrap();
        for (k, expected) in [(1.0, 0.4), (2.0, 0.1), (3.0, 0.0), (5.0, 0.2)] {
            let got = order(&x, &turns, k).amplitude();
            assert!((got - expected).abs() < 0.012, "order {k}: {got}");
        }
    }

    #[test]
    fn peak_to_peak_of_two_orders() {
        let cosine = |order, cos| Order {
            order,
            cos,
            sin: 0.0,
        };
        // cos + cos of twice the rate: from 2 down to -9/8 (closed form, at cos = -1/4).
        let value = peak_to_peak(&[cosine(2.0, 1.0), cosine(4.0, 1.0)]);
        assert!((value - 3.125).abs() < 1e-3, "{value}");
        assert_eq!(peak_to_peak(&[]), 0.0);
    }
}
