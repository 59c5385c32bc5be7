//! Rotation from a speed sensor's tooth signal: edges, spans of turning, their speed and their character.
//!
//! Whether a span is a real tooth train is told by its statistics ([`Doubt`]); what it means for a vehicle is
//! not decided here.

mod fold;
mod lock;
mod spans;
mod teeth;
mod wheel;

pub use lock::phase_lock;
pub use spans::{Ending, Plateau, Span};
pub use teeth::{ToothPattern, tooth_pattern};
pub use wheel::{Wheel, find_wheel};

use crate::{Time, edges, levels, stats};

/// How the sensor works, as far as it matters for edges.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Waveform {
    /// Two steady levels (Hall, current loop).
    TwoLevel,
    /// Alternating about a centre, amplitude grows with speed (variable reluctance).
    Alternating,
}

/// What is known of the sensor and the wheel.
#[derive(Debug, Clone, Copy)]
pub struct Options {
    /// Waveform; found from the signal when `None`.
    pub waveform: Option<Waveform>,
    /// Pitch positions per turn; when `None`, speeds stay in hertz and `least_hz` applies.
    pub teeth: Option<u32>,
    /// Slowest speed that counts as turning, rpm.
    pub least_rpm: f64,
    /// Slowest tooth rate that counts as turning when the wheel is not known, Hz.
    pub least_hz: f64,
    /// Smallest swing of a two-level signal that can be a sensor's, in the signal's unit.
    pub least_swing: f64,
    /// The quickest change of speed that a shaft of this inertia can be given, rpm/s; infinite for no bound.
    pub most_acceleration: f64,
}

impl Options {
    /// Slowest tooth rate that counts as turning, Hz.
    pub fn least_tooth_rate(&self) -> f64 {
        self.teeth
            .map_or(self.least_hz, |n| self.least_rpm * n as f64 / 60.0)
    }
}

/// Why a span of edges is not taken for a turning shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Doubt {
    /// Fewer than four samples a period: any speed may be an alias. Samples per period.
    Undersampled(f64),
    /// One edge that comes and goes: periods scatter by this much (upper quartile of |ln| of the
    /// ratio of successive periods).
    Dithering(f64),
    /// The swing is too small for the sensor. Swing in the signal's unit.
    SmallSwing(f64),
    /// Narrow pulses, no teeth: share of the period spent on the rarer level.
    Spikes(f64),
    /// Steadier than any shaft that an engine turns: spread of the period over the span (5 to 95 %).
    TooRegular(f64),
    /// Its speed would change faster than the shaft's inertia allows, rpm/s.
    TooQuick(f64),
}

impl Doubt {
    /// The reason in plain words.
    pub fn why(self) -> String {
        match self {
            Doubt::Undersampled(n) => format!("only {n:.1} samples a tooth"),
            Doubt::Dithering(j) => format!(
                "the period scatters by {:.0} % from one to the next",
                100.0 * j
            ),
            Doubt::SmallSwing(v) => format!("it swings by only {v:.2}"),
            Doubt::Spikes(d) => format!("spikes of {:.0} % of the period", 100.0 * d),
            Doubt::TooRegular(r) => {
                format!("its rate varies by only {:.2} %, like a clock's", 100.0 * r)
            }
            Doubt::TooQuick(a) => {
                format!("its speed would change by {a:.0} rpm/s, more than a shaft can")
            }
        }
    }
}

/// What a speed sensor's record shows.
#[derive(Debug, Clone)]
pub struct ShaftRecord {
    /// Standard deviation of the noise of one sample.
    pub noise: f64,
    /// Low state or lowest value (0.1 % quantile for an alternating signal).
    pub low: f64,
    /// High state or highest value.
    pub high: f64,
    /// The waveform that was assumed.
    pub waveform: Waveform,
    /// No swing beyond the noise over the whole record.
    pub flat: bool,
    /// Instants of the rising edges, s.
    pub rises: Vec<f64>,
    /// Spans of turning or of what looks like it, in order of time.
    pub spans: Vec<Span>,
    /// Holes in a steady tooth train: start and end, s.
    pub dropouts: Vec<(f64, f64)>,
    /// Pulses left out because they are far shorter than their neighbours: doubled edges.
    pub glitches: usize,
    /// Samples that lay beyond the recorder's range and came out at its other end; taken as over range.
    pub folded: usize,
}

impl ShaftRecord {
    /// Spans without a doubt.
    pub fn turning(&self) -> impl Iterator<Item = &Span> {
        self.spans.iter().filter(|s| s.doubt.is_none())
    }

    /// Tooth rate around time `t`, Hz: pitch positions over time between the rising edges within `half_s` on either
    /// side, of four teeth at least. `None` outside the spans of turning or in a hole.
    pub fn tooth_rate_at(&self, t: f64, half_s: f64) -> Option<f64> {
        let span = self.turning().find(|s| s.start_s <= t && t <= s.end_s)?;
        let near = self
            .rises
            .partition_point(|&r| r <= t)
            .clamp(span.first + 1, span.last);
        let from = self
            .rises
            .partition_point(|&r| r < t - half_s)
            .min(near.saturating_sub(2));
        let to = self
            .rises
            .partition_point(|&r| r <= t + half_s)
            .max(near + 2);
        let own = &self.rises[from.max(span.first)..to.min(span.last + 1)];
        let periods: Vec<f64> = own.windows(2).map(|w| w[1] - w[0]).collect();
        let here = self.rises[near] - self.rises[near - 1];
        if here > 4.0 * stats::median(&periods)? {
            return None;
        }
        let (mut positions, mut length) = (0.0, 0.0);
        for (k, p) in periods.iter().enumerate() {
            if let Some(n) = spans::positions_in(&periods, k) {
                positions += n;
                length += p;
            }
        }
        (length > 0.0).then(|| positions / length)
    }
}

/// Speed in rpm from a tooth rate: 60 f / N with N pitch positions per turn.
pub fn rpm(tooth_rate_hz: f64, teeth: u32) -> f64 {
    60.0 * tooth_rate_hz / teeth as f64
}

/// Analyses a speed sensor's record. `None` with fewer than 16 samples, without a finite one, or without a
/// time axis.
pub fn analyse(x: &[f32], time: Time<'_>, options: &Options) -> Option<ShaftRecord> {
    let step = time.mean_step(x.len()).filter(|&s| s > 0.0)?;
    if x.len() < 16 {
        return None;
    }
    let levels = levels::state_levels(x)?;
    // With few samples a tooth most differences are edges; the scatter about the levels is not.
    let noise = match levels.settled > 0.6 {
        true => levels::noise_sigma(x).min(levels::scatter(x, &levels)),
        false => levels::noise_sigma(x),
    };
    let waveform = options.waveform.unwrap_or({
        if levels.settled > 0.8 {
            Waveform::TwoLevel
        } else {
            Waveform::Alternating
        }
    });
    let (low, high) = match waveform {
        Waveform::TwoLevel => (levels.low, levels.high),
        Waveform::Alternating => (
            stats::sampled_quantile(x, 0.001, 100_000)?,
            stats::sampled_quantile(x, 0.999, 100_000)?,
        ),
    };
    let swing = high - low;
    let flat = is_flat(x, swing, noise, waveform);
    let (x, folded) = match waveform {
        Waveform::Alternating if !flat => fold::unfold(x),
        _ => (std::borrow::Cow::Borrowed(x), 0),
    };
    let x = x.as_ref();
    let edges = if flat {
        Vec::new()
    } else {
        match waveform {
            Waveform::TwoLevel => edges::schmitt(x, low + 0.35 * swing, low + 0.65 * swing),
            Waveform::Alternating => {
                let centre = stats::sampled_quantile(x, 0.5, 100_000)?;
                let decay = 3.0 / options.least_tooth_rate() / step;
                edges::schmitt_tracking(x, centre, 6.0 * noise, 0.3, decay)
            }
        }
    };
    let (edges, glitches) = edges::without_glitches(&edges);
    let (spans, rises, dropouts) =
        spans::build(x, time, step, &edges, low, high, waveform, options);
    Some(ShaftRecord {
        noise,
        low,
        high,
        waveform,
        flat,
        rises,
        spans,
        dropouts,
        glitches,
        folded,
    })
}

/// Whether a record is flat: a swing that noise alone reaches between the two levels taken, or that a coarse recorder
/// makes of it by flipping between neighbouring steps (white, where a tooth train is not).
fn is_flat(x: &[f32], swing: f64, noise: f64, waveform: Waveform) -> bool {
    let floor = match waveform {
        Waveform::TwoLevel => 10.0 * noise,
        Waveform::Alternating => 12.0 * noise,
    };
    swing < floor || swing < 4.0 * levels::resolution(x) && levels::is_white(x)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::TAU;

    const HALL: Options = Options {
        waveform: Some(Waveform::TwoLevel),
        teeth: Some(36),
        least_rpm: 20.0,
        least_hz: 8.0,
        least_swing: 1.0,
        most_acceleration: f64::INFINITY,
    };

    /// A Hall signal of `positions - missing` teeth at `rpm`, with a little engine-like wander.
    fn hall(n: usize, rate: f64, positions: u32, missing: u32, rpm: f64) -> Vec<f32> {
        let mut turns = 0.0f64;
        (0..n)
            .map(|i| {
                let t = i as f64 / rate;
                turns += rpm * (1.0 + 0.01 * (TAU * t).sin()) / 60.0 / rate;
                let pitch = turns.fract() * positions as f64;
                let tooth = pitch.fract() < 0.5 && (pitch as u32) < positions - missing;
                (if tooth { 4.8 } else { 0.3 }) + 0.02 * ((i * 7919 % 13) as f32 / 6.0 - 1.0)
            })
            .collect()
    }

    /// Worked example: 36-1 wheel at 750 rpm: 450 Hz in pitch, 437.5 Hz mean edge rate; taking the mean for 36
    /// even teeth would give 729.17 rpm (2.78 % low). The median period is the pitch.
    #[test]
    fn missing_tooth_does_not_bend_the_speed() {
        let rate = 20_000.0;
        let x = hall(60_000, rate, 36, 1, 750.0);
        let r = analyse(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1.0 / rate,
            },
            &HALL,
        )
        .unwrap();
        assert_eq!(r.spans.len(), 1);
        let s = r.spans[0];
        assert_eq!(s.doubt, None);
        assert!((rpm(s.hz, 36) - 750.0).abs() < 7.5, "{}", rpm(s.hz, 36));
        assert_eq!(
            find_wheel(&r.rises),
            Some(Wheel {
                positions: 36,
                missing: 1
            })
        );
        let mean_rate = (r.rises.len() - 1) as f64 / (s.end_s - s.start_s);
        assert!((mean_rate - 437.5).abs() < 4.0, "{mean_rate}");
    }

    /// 60 f / N (definition): N = 60, 1000 Hz is 1000 rpm.
    #[test]
    fn speed_formula() {
        assert_eq!(rpm(1000.0, 60), 1000.0);
        assert!((rpm(1341.67, 23) - 3500.0).abs() < 0.01);
    }

    #[test]
    fn too_few_samples_a_period_is_not_trusted() {
        // 36 teeth at 750 rpm sampled at 1.2 kS/s: 2.7 samples a period.
        let x = hall(6_000, 1_200.0, 36, 0, 750.0);
        let r = analyse(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1.0 / 1_200.0,
            },
            &HALL,
        )
        .unwrap();
        assert!(r.turning().next().is_none(), "{:?}", r.spans);
        assert!(
            r.spans
                .iter()
                .any(|s| matches!(s.doubt, Some(Doubt::Undersampled(_))))
        );
    }

    #[test]
    fn a_hole_in_a_steady_train_is_a_dropout() {
        let rate = 10_000.0;
        let mut x = hall(40_000, rate, 24, 0, 900.0);
        x[15_000..17_000].fill(0.3);
        let o = Options {
            teeth: Some(24),
            ..HALL
        };
        let r = analyse(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1.0 / rate,
            },
            &o,
        )
        .unwrap();
        assert_eq!(r.spans.len(), 1, "{:?}", r.spans);
        assert_eq!(r.dropouts.len(), 1);
        let (a, b) = r.dropouts[0];
        assert!((a - 1.5).abs() < 0.01 && (b - 1.7).abs() < 0.01);
    }

    #[test]
    fn one_edge_that_comes_and_goes_is_dithering() {
        let rate = 4_000.0;
        let mut state = false;
        let mut left = 0usize;
        let mut seed = 7u64;
        let x: Vec<f32> = (0..32_000)
            .map(|_| {
                if left == 0 {
                    seed = seed
                        .wrapping_mul(6364136223846793005)
                        .wrapping_add(1442695040888963407);
                    left = 20 + (seed >> 33) as usize % 200;
                    state = !state;
                }
                left -= 1;
                if state { 4.8 } else { 0.3 }
            })
            .collect();
        let r = analyse(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1.0 / rate,
            },
            &HALL,
        )
        .unwrap();
        assert!(r.turning().next().is_none(), "{:?}", r.spans);
        assert!(
            r.spans
                .iter()
                .any(|s| matches!(s.doubt, Some(Doubt::Dithering(_))))
        );
    }

    #[test]
    fn a_clock_is_no_shaft() {
        let x: Vec<f32> = (0..40_000)
            .map(|i| if i % 100 < 50 { 4.8 } else { 0.3 })
            .collect();
        let r = analyse(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1e-4,
            },
            &HALL,
        )
        .unwrap();
        assert!(
            matches!(r.spans[0].doubt, Some(Doubt::TooRegular(_))),
            "{:?}",
            r.spans
        );
    }

    /// An idle that hunts by 1 % once a second: even over whole seconds, as over ten parts of 10 s, and yet no clock.
    #[test]
    fn an_idle_that_hunts_once_a_second_is_no_clock() {
        let rate = 2_500.0;
        let x: Vec<f32> = (0..25_000)
            .map(|i| {
                let t = i as f64 / rate;
                let teeth = 300.0 * (t + 0.01 / TAU * (TAU * t).sin());
                if teeth.fract() < 0.5 { 4.8 } else { 0.3 }
            })
            .collect();
        let time = Time::Even {
            start_s: 0.0,
            step_s: 1.0 / rate,
        };
        let r = analyse(&x, time, &HALL).unwrap();
        assert!(r.turning().next().is_some(), "{:?}", r.spans);
    }

    /// Blocks of eight pulses at 2,000 and 2,600 Hz, as a data line gives them: 600 Hz within 4 ms are 300,000 rpm/s
    /// of a wheel with 30 teeth (arithmetic).
    #[test]
    fn a_shaft_has_inertia() {
        let mut x = Vec::new();
        for block in 0..600 {
            let half = if block % 2 == 0 { 25 } else { 19 };
            for pulse in 0..16 {
                x.extend(std::iter::repeat_n(
                    if pulse % 2 == 0 { 4.8 } else { 0.3 },
                    half,
                ));
            }
        }
        let options = |bound| Options {
            teeth: Some(30),
            most_acceleration: bound,
            ..HALL
        };
        let time = Time::Even {
            start_s: 0.0,
            step_s: 1e-5,
        };
        let free = analyse(&x, time, &options(f64::INFINITY)).unwrap();
        assert!(!matches!(free.spans[0].doubt, Some(Doubt::TooQuick(_))));
        let bound = analyse(&x, time, &options(120_000.0)).unwrap();
        assert!(
            matches!(bound.spans[0].doubt, Some(Doubt::TooQuick(a)) if a > 120_000.0),
            "{:?}",
            bound.spans
        );
    }

    #[test]
    fn noise_alone_is_flat() {
        let x: Vec<f32> = (0..10_000)
            .map(|i| 4.9 + 0.03 * ((i * 7919 % 13) as f32 / 6.0 - 1.0))
            .collect();
        let r = analyse(
            &x,
            Time::Even {
                start_s: 0.0,
                step_s: 1e-4,
            },
            &HALL,
        )
        .unwrap();
        assert!(r.flat && r.spans.is_empty());
    }
}
