//! Series that every analyzer reads: computed once from each channel of a recording, by what its role measures.

use crate::LIMITS;
use plugin_sdk::derived::{
    self, CURRENT_LEVELS, CURRENT_PULSES, LEVELS, StateLevels, TOOTH_DROPOUTS, TOOTH_EDGES,
    TOOTH_PATTERN, TOOTH_RATE, TOOTH_SEGMENTS, TOOTH_TRAIN, TOOTH_TURNS,
};
use plugin_sdk::signal::teeth::{self, SensorKind, ToothTrain};
use plugin_sdk::signal::{current, levels};
use plugin_sdk::{
    Analyzer, ChannelView, Declaration, Grid, Input, Limits, Output, Quantity, Series, Values,
};
use std::sync::atomic::{AtomicUsize, Ordering};

/// The analyzer.
pub struct DerivedSeries;

/// Grid interval of the tooth rate, s: a few teeth at road speed, a tenth of a quick shift.
pub const STEP_S: f64 = 0.02;

/// Half of the time over which a rate is averaged at least, s: at 5 kS/s one sample is then a quarter of a percent of it.
const HALF_S: f64 = 0.04;

/// Most points of the tooth rate: a recording of a day.
const MOST_POINTS: f64 = 5e6;

impl Analyzer for DerivedSeries {
    const DECLARATION: Declaration = Declaration {
        id: "derived-series",
        name: "Pulses, tooth trains and levels",
        series: &[
            LEVELS,
            CURRENT_LEVELS,
            CURRENT_PULSES,
            TOOTH_TRAIN,
            TOOTH_PATTERN,
            TOOTH_EDGES,
            TOOTH_TURNS,
            TOOTH_SEGMENTS,
            TOOTH_DROPOUTS,
            TOOTH_RATE,
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        let derive = |i: usize| channel_series(input, i as u32, &input.channels[i], &limits);
        // One channel has nothing to do with the next.
        let next = AtomicUsize::new(0);
        let work = || {
            let mut done = Vec::new();
            loop {
                let i = next.fetch_add(1, Ordering::Relaxed);
                if i >= input.channels.len() {
                    return done;
                }
                done.push((i, derive(i)));
            }
        };
        // How many processors there are would be read from files, which a library must not open.
        const MOST_THREADS: usize = 4;
        let mut all: Vec<(usize, Vec<Series>)> = std::thread::scope(|scope| {
            let others: Vec<_> = (1..MOST_THREADS.min(input.channels.len()))
                .map(|_| scope.spawn(work))
                .collect();
            let mut all = work();
            for other in others {
                match other.join() {
                    Ok(done) => all.extend(done),
                    Err(panic) => std::panic::resume_unwind(panic),
                }
            }
            all
        });
        all.sort_by_key(|(i, _)| *i);
        let series = all.into_iter().flat_map(|(_, series)| series);
        series.for_each(|s| out.put(s));
        Ok(())
    }
}

fn channel_series(
    input: &Input<'_>,
    number: u32,
    channel: &ChannelView<'_>,
    limits: &Limits<'_>,
) -> Vec<Series> {
    COMPUTED.fetch_add(1, Ordering::Relaxed);
    match channel.quantity {
        Quantity::Current => {
            // Only where a system says which pulses no unit can show.
            let name = format!("plausible-pulse-{}", channel.role);
            let judged = input.settings.limits.contains_key(&name);
            let record = pulses(channel, limits, judged);
            record.map_or_else(Vec::new, |r| derived::pulses_series(number, &r).into())
        }
        Quantity::ToothSignal => train(channel, limits)
            .map(|record| {
                let mut series: Vec<Series> = derived::train_series(number, &record).into();
                series.extend(tooth_rate(input, number, &record));
                series
            })
            .unwrap_or_default(),
        Quantity::Voltage | Quantity::State | Quantity::Other => {
            let values = channel.values();
            let found = levels::state_levels(&values).map(|levels| StateLevels {
                low: levels.low,
                high: levels.high,
                noise: levels::noise_sigma(&values),
            });
            found
                .map(|levels| vec![derived::levels_series(number, &levels)])
                .unwrap_or_default()
        }
    }
}

static COMPUTED: AtomicUsize = AtomicUsize::new(0);

/// Number of channels that series were computed from in this process so far.
pub fn computed() -> usize {
    COMPUTED.load(Ordering::Relaxed)
}

/// Events of a current. Where a stated scale leaves none and no sign of life, those that the scale makes too small to count
/// are given if they stand out as a motor's do: then the scale is to be doubted, not the unit.
fn pulses(
    channel: &ChannelView<'_>,
    limits: &Limits<'_>,
    judged: bool,
) -> Option<current::CurrentRecord> {
    /// Rise over the quiescent current and over the noise.
    const OVER_QUIESCENT: f64 = 5.0;
    const OVER_NOISE: f64 = 20.0;
    let record = read_pulses(channel, limits, channel.facts.calibrated)?;
    if !(channel.facts.calibrated && judged && record.pulses.is_empty()) {
        return Some(record);
    }
    // An event that is too small to count can look like a unit that wakes, or like its quiescent current.
    let is_alive = |r: &current::CurrentRecord| {
        r.wake.is_some() || r.quiescent.abs() >= limits.number("least-quiescent-current")
    };
    let shape = read_pulses(channel, limits, false).filter(|r| !is_alive(r));
    let Some(mut shape) = shape else {
        return Some(record);
    };
    let least = (OVER_QUIESCENT * shape.quiescent.abs()).max(OVER_NOISE * shape.noise);
    shape.pulses.retain(|p| p.rise() > least);
    Some(match shape.pulses.is_empty() {
        true => record,
        false => shape,
    })
}

// The one place that may: see plugins/.clippy.toml.
#[allow(clippy::disallowed_methods)]
fn read_pulses(
    channel: &ChannelView<'_>,
    limits: &Limits<'_>,
    scaled: bool,
) -> Option<current::CurrentRecord> {
    let options = current::Options {
        least_peak: match scaled {
            true => limits.number("least-pulse-peak"),
            false => 0.0,
        },
        stall_hold_s: limits.number("stall-hold"),
        stall_share: limits.number("stall-share"),
        least_quiescent: match scaled {
            true => limits.number("least-quiescent-current"),
            false => f64::INFINITY,
        },
    };
    current::read_current(&channel.values(), channel.time, &options)
}

#[allow(clippy::disallowed_methods)]
fn train(channel: &ChannelView<'_>, limits: &Limits<'_>) -> Option<ToothTrain> {
    let sensor = channel.facts.sensor.as_deref().and_then(sensor_kind);
    let range = |name: &str| (limits.low(name), limits.high(name));
    let options = teeth::Options {
        sensor,
        teeth: channel.facts.teeth.filter(|&n| n > 0),
        missing_teeth: channel.facts.missing_teeth,
        least_rpm: limits.number("least-turning-speed"),
        least_hz: limits.number("least-tooth-rate"),
        highest_rpm: (channel.role == "engine-speed").then(|| limits.high("idle-speed")),
        // A current loop may be recorded across a small resistor: its amplitude is no measure of its health.
        least_amplitude: match sensor {
            Some(SensorKind::Hall) => limits.number("hall-swing"),
            _ => 0.0,
        },
        max_acceleration: limits.number("most-acceleration"),
        quiescent_levels: match (sensor, channel.unit) {
            (Some(SensorKind::CurrentLoop), "A") => {
                vec![range("loop-current-low"), range("loop-current-high")]
            }
            _ => Vec::new(),
        },
        ..teeth::Options::default()
    };
    teeth::read_train(&channel.values(), channel.time, &options)
}

fn sensor_kind(word: &str) -> Option<SensorKind> {
    match word {
        "hall" => Some(SensorKind::Hall),
        "vr" => Some(SensorKind::Coil),
        "current-loop" => Some(SensorKind::CurrentLoop),
        _ => None,
    }
}

fn tooth_rate(input: &Input<'_>, number: u32, record: &ToothTrain) -> Option<Series> {
    let (start_s, end_s) = input.span()?;
    let last = (end_s - start_s) / STEP_S;
    if !(0.0..MOST_POINTS).contains(&last) {
        return None;
    }
    let at = |k: usize| start_s + k as f64 * STEP_S;
    let rates = (0..=last as usize)
        .map(|k| record.rate_at(at(k), HALF_S))
        .map(|rate| rate.filter(|r| r.is_finite()).unwrap_or(f64::NAN));
    let grid = Grid {
        start_s,
        step_s: STEP_S,
    };
    Some(TOOTH_RATE.of(Some(number), Some(grid), vec![Values::F64(rates.collect())]))
}
