//! Properties that must not change an analyzer's findings: when the recorder's clock began, what counts it recorded in, and a
//! little noise. Each returns the first difference as an error.

use super::Bench;
use crate::{ChannelView, Input, Observation, SampleView};
use signal::Time;

impl Bench {
    /// Moves the whole recording by `seconds`: the findings move along, and nothing else changes.
    ///
    /// # Errors
    /// A refused input, or the first finding that differs by more than a millionth.
    pub fn time_shift(&self, input: &Input<'_>, seconds: f64) -> Result<(), String> {
        let listed: Vec<Vec<f64>> = input
            .channels
            .iter()
            .map(|c| match c.time {
                Time::Listed(times) => times.iter().map(|t| t + seconds).collect(),
                Time::Even { .. } => Vec::new(),
            })
            .collect();
        let moved = input
            .channels
            .iter()
            .zip(&listed)
            .map(|(c, listed)| ChannelView {
                time: match c.time {
                    Time::Even { start_s, step_s } => Time::Even {
                        start_s: start_s + seconds,
                        step_s,
                    },
                    Time::Listed(_) => Time::Listed(listed),
                },
                ..c.clone()
            });
        let other = with(input, moved.collect());
        let mut expected = self.run(input)?;
        for o in &mut expected {
            o.start_s = o.start_s.map(|t| t + seconds);
            o.end_s = o.end_s.map(|t| t + seconds);
        }
        same(&expected, &self.run(&other)?, |v, _| {
            1e-6 * v.abs().max(1.0)
        })
    }

    /// Records the same in other counts: samples times `factor`, scale divided by it. Nothing changes.
    ///
    /// # Errors
    /// A refused input, or the first finding that differs by more than a thousandth.
    pub fn gain(&self, input: &Input<'_>, factor: f64) -> Result<(), String> {
        let samples = changed(input, |v, _, _| v * factor);
        let channels = input
            .channels
            .iter()
            .zip(&samples)
            .map(|(c, samples)| ChannelView {
                samples: SampleView::F64(samples),
                scale: c.scale / factor,
                ..c.clone()
            });
        let other = with(input, channels.collect());
        same(&self.run(input)?, &self.run(&other)?, |v, _| {
            1e-3 * v.abs().max(1e-3)
        })
    }

    /// Adds white noise of the standard deviation `sigma`, in each channel's calibrated unit; the same for the same
    /// `seed`. Kinds, subjects, sentences and grades stay, and values within five of the greater standard uncertainty and
    /// five of `sigma`.
    ///
    /// # Errors
    /// A refused input, or the first finding that differs.
    pub fn noise(&self, input: &Input<'_>, sigma: f64, seed: u64) -> Result<(), String> {
        let samples = changed(input, |v, c, n| {
            let scale = if c.scale == 0.0 { 1.0 } else { c.scale };
            v + sigma / scale * normal(seed ^ n)
        });
        let channels = input
            .channels
            .iter()
            .zip(&samples)
            .map(|(c, samples)| ChannelView {
                samples: SampleView::F64(samples),
                ..c.clone()
            });
        let other = with(input, channels.collect());
        let near = |_: f64, uncertainty: f64| 5.0 * uncertainty + 5.0 * sigma;
        // When something began is known no better than noise lets it be.
        let mut expected = self.run(input)?;
        let mut found = self.run(&other)?;
        for o in expected.iter_mut().chain(&mut found) {
            (o.start_s, o.end_s) = (None, None);
        }
        same(&expected, &found, near)
    }
}

/// All samples after `change`, which is given the recorded sample, its channel, and a number of its own.
fn changed(input: &Input<'_>, change: impl Fn(f64, &ChannelView<'_>, u64) -> f64) -> Vec<Vec<f64>> {
    let channels = input.channels.iter().zip(1u64..);
    channels
        .map(|(c, number)| {
            let one = |(i, v): (usize, f64)| change(v, c, (number << 40) + i as u64);
            match c.samples {
                SampleView::F32(s) => s.iter().map(|&v| v.into()).enumerate().map(one).collect(),
                SampleView::F64(s) => s.iter().copied().enumerate().map(one).collect(),
                SampleView::I16(s) => s.iter().map(|&v| v.into()).enumerate().map(one).collect(),
            }
        })
        .collect()
}

fn with<'a>(input: &Input<'a>, channels: Vec<ChannelView<'a>>) -> Input<'a> {
    Input {
        file: input.file,
        channels,
        settings: input.settings.clone(),
    }
}

/// Twelve uniform numbers add up to a nearly normal one of variance 1 (central limit theorem). Each comes from the
/// finaliser of SplitMix64 (Steele, Lea and Flood 2014, constants from memory).
fn normal(seed: u64) -> f64 {
    let uniform = |k: u64| {
        let mut z = seed
            .wrapping_mul(12)
            .wrapping_add(k)
            .wrapping_mul(0x9e37_79b9_7f4a_7c15);
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) as f64 / u64::MAX as f64
    };
    (0..12).map(uniform).sum::<f64>() - 6.0
}

/// Checks that the findings are the same, numbers within `within` (of the value and the greater uncertainty).
fn same(
    expected: &[Observation],
    found: &[Observation],
    within: impl Fn(f64, f64) -> f64,
) -> Result<(), String> {
    if expected.len() != found.len() {
        return Err(format!(
            "{} findings became {}: {expected:#?} {found:#?}",
            expected.len(),
            found.len()
        ));
    }
    for (a, b) in expected.iter().zip(found) {
        let words = |o: &Observation| {
            (
                o.kind.clone(),
                o.subject.clone(),
                o.message.clone(),
                o.unit.clone(),
            )
        };
        let uncertainty = a
            .uncertainty
            .unwrap_or(0.0)
            .max(b.uncertainty.unwrap_or(0.0));
        let near = |a: Option<f64>, b: Option<f64>| match (a, b) {
            (Some(a), Some(b)) => (a - b).abs() <= within(a, uncertainty),
            (None, None) => true,
            _ => false,
        };
        let numbers =
            near(a.value, b.value) && near(a.start_s, b.start_s) && near(a.end_s, b.end_s);
        if words(a) != words(b) || a.grade != b.grade || !numbers {
            return Err(format!("{a:#?} became {b:#?}"));
        }
    }
    Ok(())
}
