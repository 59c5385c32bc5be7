//! Spectrum of the current while a motor runs steadily, taken once for all that is looked for in it.

use plugin_sdk::signal::spectrum::{Line, Spectrum, spectrum};
use plugin_sdk::signal::windows::mean;

/// Longest stretch of which one spectrum is taken, s: a motor's speed wanders over longer ones.
const STRETCH_S: f64 = 0.6;

/// Lines of a steady current.
#[derive(Debug, Clone, PartialEq)]
pub struct SteadyLines {
    /// Amplitudes over the frequency, A.
    pub seen: Spectrum,
    /// Mean current without its sign, A; never zero.
    pub level: f64,
    /// Time from sample to sample, s.
    pub step_s: f64,
}

impl SteadyLines {
    /// Takes the spectrum of a span of samples. `None` for too short a span.
    pub fn of(current: &[f64], step_s: f64, span: (usize, usize)) -> Option<Self> {
        let x = current.get(span.0..span.1)?;
        Some(Self {
            seen: spectrum(x, step_s, (STRETCH_S / step_s) as usize)?,
            level: mean(x).abs().max(f64::MIN_POSITIVE),
            step_s,
        })
    }

    /// Lines between two frequencies, Hz, that stand so many times above the noise around them, strongest first.
    pub fn between(&self, (from_hz, to_hz): (f64, f64), over_noise: f64) -> Vec<Line> {
        let around = 60.0 * self.seen.step_hz;
        self.seen.lines(from_hz, to_hz, around, over_noise)
    }
}
