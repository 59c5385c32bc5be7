//! Everything that a recording of the two lines shows.

use super::bit_rate::{self, BitTime, LEAST_SAMPLES_A_BIT, Search};
use super::decay::{Decay, decay};
use super::decode::{Timing, Traffic, decode};
use super::edges::{Logic, RECEIVER, Thresholds};
use super::frame::INTERMISSION;
use super::levels::{Levels, levels};
use super::lines::{Condition, Wires, wires};
use super::other_bus::OtherBus;
use super::ringing::{Ringing, ringing};
use super::senders::{Sender, senders};
use super::termination::{Termination, UNTERMINATED_S, estimate, unterminated};
use plugin_sdk::signal::levels::{noise_sigma, state_levels};
use plugin_sdk::signal::smooth::moving_average;

/// Bit rates in use, kbit/s (CiA 301 and SAE J2284, J1939, J2411; from memory).
const USUAL_RATES: [f64; 12] = [
    10.0, 20.0, 33.333, 50.0, 62.5, 83.333, 95.238, 100.0, 125.0, 250.0, 500.0, 1000.0,
];
/// Ratios of the data phase's rate to the nominal one that are tried.
const RATIOS: [f64; 8] = [2.0, 4.0, 5.0, 8.0, 10.0, 16.0, 1.6, 3.0];
/// Samples a bit below which a broken frame may be the recording's own fault.
pub const SURE_SAMPLES_A_BIT: f64 = 5.0;

/// The voltage that was read as logic.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// CAN high less CAN low.
    Differential,
    /// The same with lines exchanged.
    Reversed,
    /// CAN high alone.
    High,
    /// CAN low alone.
    Low,
}

/// Why no bit rate or no frame was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unread {
    /// Fewer samples a bit than can be read.
    TooSlow,
    /// Fewer edges than a bit time can be found from.
    TooFewEdges,
    /// Edges on no common grid.
    NoGrid,
}

/// Frames read from the lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The voltage that was read.
    pub source: Source,
    /// Its edges.
    pub logic: Logic,
    /// Nominal bit time.
    pub bit: BitTime,
    /// Bit time of the data phase, in samples, where CAN FD frames were read with it.
    pub data_phase: Option<f64>,
    /// Frames and errors.
    pub traffic: Traffic,
    /// The noise of the lines alone may spoil a bit.
    pub noisy: bool,
}

impl Reading {
    /// True where a broken frame is the bus's fault: the recording has samples enough for it, and little noise.
    pub fn errors_count(&self) -> bool {
        self.bit.samples >= SURE_SAMPLES_A_BIT && !self.noisy
    }

    /// Share of the recorded time for which the bus was taken, %. Each recessive stretch counts up to the eleven bits
    /// that end a frame (acknowledge delimiter, end of frame, intermission), so that spoiled and cut frames count too.
    pub fn load(&self) -> f64 {
        let all = self.logic.samples as f64;
        let most = (1 + 7 + INTERMISSION) as f64 * self.bit.samples;
        let Some((first, last)) = self.logic.edges.first().zip(self.logic.edges.last()) else {
            return if self.logic.starts_dominant {
                100.0
            } else {
                0.0
            };
        };
        let between: f64 = self
            .logic
            .edges
            .windows(2)
            .map(|w| (w[1].at - w[0].at).min(if w[0].dominant { f64::INFINITY } else { most }))
            .sum();
        let before = if self.logic.starts_dominant {
            first.at
        } else {
            0.0
        };
        let after = (all - last.at).min(if last.dominant { f64::INFINITY } else { most });
        100.0 * (before + between + after) / all
    }
}

/// A recording of two lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Waveform {
    /// Frames, or why there are none.
    pub reading: Result<Reading, Unread>,
    /// Levels; empty where only one line was recorded.
    pub levels: Levels,
    /// Condition of the wires; `None` where only one line was recorded.
    pub wires: Option<Wires>,
    /// Levels by identifier.
    pub senders: Vec<Sender>,
    /// Termination, where the wires are sound.
    pub termination: Option<Termination>,
    /// Fall of the differential, where the bus was driven.
    pub decay: Option<Decay>,
    /// Ringing, where the recording is fine enough.
    pub ringing: Option<Ringing>,
}

impl Waveform {
    fn is_read_whole(&self) -> bool {
        let whole = |r: &Reading| !r.traffic.frames.is_empty() && r.traffic.errors.is_empty();
        self.reading.as_ref().is_ok_and(whole)
    }

    fn frames(&self) -> usize {
        self.reading.as_ref().map_or(0, |r| r.traffic.frames.len())
    }
}

/// Noise of the differential from which on it makes edges of its own, V: the receiver's thresholds lie 0.4 V apart.
const NOISY: f64 = 0.08;
/// Samples over which such lines are averaged where no frame is read otherwise.
const SMOOTHED: [usize; 3] = [3, 5, 9];

/// Measures a recording of both lines, V; lines too noisy to be read are averaged over as many samples as let
/// most frames be read. `rate_hz` is the sampling rate, `stated` the bit rate that the job states,
/// kbit/s.
pub fn measure(high: &[f32], low: &[f32], rate_hz: f64, stated: Option<f64>) -> Waveform {
    let waveform = measure_at(high, low, rate_hz, stated);
    let noisy = noise_sigma(high).hypot(noise_sigma(low)) > NOISY;
    if !noisy || waveform.is_read_whole() {
        return waveform;
    }
    let smoothed = SMOOTHED.iter().map(|&n| {
        let [high, low] = [high, low].map(|x| moving_average(x, n));
        measure_at(&high, &low, rate_hz, stated)
    });
    smoothed.fold(waveform, |best, next| match next.frames() > best.frames() {
        true => next,
        false => best,
    })
}

fn measure_at(high: &[f32], low: &[f32], rate_hz: f64, stated: Option<f64>) -> Waveform {
    let n = high.len().min(low.len());
    let differential = |i: usize| f64::from(high[i]) - f64::from(low[i]);
    let slice = |sign: f64| Logic::slice((0..n).map(|i| sign * differential(i)), RECEIVER);
    let forward = slice(1.0);
    // One after the other, and only as far as needed.
    let candidates = [
        Source::Differential,
        Source::Reversed,
        Source::High,
        Source::Low,
    ]
    .into_iter()
    .filter_map(|source| {
        let logic = match source {
            Source::Differential => Some(forward.clone()),
            Source::Reversed => Some(slice(-1.0)),
            Source::High => slice_adaptive(high, 1.0),
            Source::Low => slice_adaptive(low, -1.0),
        };
        logic.map(|logic| (source, logic))
    });
    let noise = noise_sigma(high).hypot(noise_sigma(low));
    let reading = read_best(candidates, rate_hz, stated).map(|reading| Reading {
        noisy: noise > NOISY,
        ..reading
    });
    let bit = reading.as_ref().ok().map(|r| r.bit.samples);
    let two_wire = |r: &&Reading| matches!(r.source, Source::Differential | Source::Reversed);
    let driven = reading.as_ref().ok().filter(two_wire);
    let logic = driven.map_or(&forward, |r| &r.logic);
    let levels = levels(high, low, logic, bit);
    let frames = reading.as_ref().map_or(0, |r| r.traffic.frames.len());
    let wires = wires(high, low, &forward, &levels, bit, frames);
    // Nothing of another bus is held against the levels and frames of this one.
    match wires.map(|w| w.condition) {
        Some(Condition::OtherBus(OtherBus::LowSpeed)) => return unjudged(reading, wires),
        Some(Condition::OtherBus(OtherBus::SingleWire)) => {
            return unjudged(Err(Unread::NoGrid), wires);
        }
        _ => {}
    }
    let senders = driven.map_or_else(Vec::new, |r| {
        senders(high, low, &r.logic, r.bit.samples, &r.traffic.frames)
    });
    let sound = wires.is_some_and(|w| w.condition == Condition::Sound);
    let ringing = driven
        .filter(|r| sound && r.source == Source::Differential)
        .and_then(|r| {
            let (recessive, dominant) = (levels.recessive?, levels.dominant?);
            ringing(
                differential,
                &r.logic,
                r.bit.samples,
                recessive.differential.volts,
                dominant.differential.volts,
                noise,
            )
        });
    let decay = levels
        .dominant
        .filter(|_| sound)
        .and_then(|d| decay(differential, logic, d.differential.volts));
    let slow = decay.is_some_and(|d| {
        d.samples > 4.0 * d.detectable && d.time_constant > UNTERMINATED_S * rate_hz
    });
    let termination = match slow {
        true => levels.dominant.map(|d| unterminated(d.differential.volts)),
        false => estimate(&senders),
    };
    Waveform {
        termination: termination.filter(|_| sound && is_symmetric(&levels)),
        decay,
        reading,
        levels,
        wires,
        senders,
        ringing,
    }
}

/// Shift of the common mode from recessive to dominant beyond which levels tell nothing of the load, V: sound drivers keep within
/// 0.25 V (TCAN1042-Q1: 0.9 to 1.1 of the supply), and a line that is cut at the end of a range does not.
const LOPSIDED: f64 = 0.3;

fn is_symmetric(levels: &Levels) -> bool {
    let both = levels.recessive.zip(levels.dominant);
    both.is_none_or(|(r, d)| (d.common_mode() - r.common_mode()).abs() < LOPSIDED)
}

/// Measures a recording of one line, V: bits and frames only. `dominant_up` is true for CAN high.
pub fn measure_line(
    line: &[f32],
    dominant_up: bool,
    rate_hz: f64,
    stated: Option<f64>,
) -> Waveform {
    let (source, sign) = if dominant_up {
        (Source::High, 1.0)
    } else {
        (Source::Low, -1.0)
    };
    let candidates = slice_adaptive(line, sign).map(|l| (source, l));
    unjudged(read_best(candidates.into_iter(), rate_hz, stated), None)
}

/// Frames alone, without anything of the lines' levels.
fn unjudged(reading: Result<Reading, Unread>, wires: Option<Wires>) -> Waveform {
    Waveform {
        reading,
        levels: Levels::default(),
        wires,
        senders: Vec::new(),
        termination: None,
        decay: None,
        ringing: None,
    }
}

/// Slices one line in the middle between its own two levels. `None` where it does not move.
fn slice_adaptive(x: &[f32], sign: f64) -> Option<Logic> {
    let levels = state_levels(x)?;
    if levels.amplitude() < 0.1f64.max(8.0 * noise_sigma(x)) {
        return None;
    }
    let middle = sign * levels.mid();
    let half = 0.12 * levels.amplitude();
    let thresholds = Thresholds {
        recessive: middle - half,
        dominant: middle + half,
    };
    Some(Logic::slice(
        x.iter().map(|&v| sign * f64::from(v)),
        thresholds,
    ))
}

/// Reads each candidate and keeps the one with the most frames; of equals the first.
fn read_best(
    candidates: impl Iterator<Item = (Source, Logic)>,
    rate_hz: f64,
    stated: Option<f64>,
) -> Result<Reading, Unread> {
    let mut best: Result<Reading, Unread> = Err(Unread::TooFewEdges);
    for (source, logic) in candidates {
        let read = read(source, logic, rate_hz, stated);
        let better = match (&best, &read) {
            (Ok(b), Ok(r)) => r.traffic.frames.len() > b.traffic.frames.len(),
            (Err(_), Ok(_)) => true,
            (Err(Unread::TooFewEdges), Err(why)) => *why != Unread::TooFewEdges,
            _ => false,
        };
        // A single line is read only where the pair shows no frame: noise that both lines share spoils it.
        if better {
            best = read;
        }
        if best
            .as_ref()
            .is_ok_and(|b| !b.traffic.frames.is_empty() && b.source == Source::Differential)
        {
            break;
        }
    }
    best
}

/// Frames read, and frames of CAN FD whose data phase alone could not be read.
type Score = (usize, usize);

/// Fewest frames of CAN FD with an unread data phase that tell a bit rate on their own.
const LEAST_UNREAD: usize = 5;

fn read(
    source: Source,
    logic: Logic,
    rate_hz: f64,
    stated: Option<f64>,
) -> Result<Reading, Unread> {
    let found = bit_rate::find(&logic);
    let samples = |kbit: f64| rate_hz / (1_000.0 * kbit);
    if stated.is_some_and(|kbit| samples(kbit) < LEAST_SAMPLES_A_BIT) {
        return Err(Unread::TooSlow);
    }
    let mut bits: Vec<BitTime> = Vec::new();
    if let Search::Found(bit) = found {
        // CAN FD: the shortest bit is that of the data phase.
        bits.push(bit);
        bits.extend(RATIOS[..6].iter().map(|&m| scaled(bit, m)));
    }
    let usual = stated.into_iter().chain(USUAL_RATES.into_iter().rev());
    if !matches!(found, Search::TooFewEdges) {
        bits.extend(
            usual
                .map(samples)
                .filter(|&s| s >= LEAST_SAMPLES_A_BIT)
                .map(|s| BitTime {
                    samples: s,
                    uncertainty: 0.002 * s,
                    coherence: 0.0,
                    distances: 0,
                }),
        );
    }
    let mut best: Option<(Score, BitTime, Option<f64>, Traffic)> = None;
    for bit in bits {
        if best
            .as_ref()
            .is_some_and(|b| b.0.0 > 0 && bit.coherence == 0.0)
        {
            break;
        }
        let (data_phase, traffic) = decode_fd(&logic, bit.samples);
        // Beside no frame, those count whose data phase alone could not be read.
        let unread = traffic
            .unread_fd
            .len()
            .saturating_sub(2 * traffic.errors.len());
        let score = (traffic.frames.len(), unread);
        if best.as_ref().is_none_or(|b| score > b.0) {
            best = Some((score, bit, data_phase, traffic));
        }
    }
    match (best, found) {
        (Some((score, bit, data_phase, traffic)), _) if score.0 > 0 || score.1 >= LEAST_UNREAD => {
            Ok(Reading {
                source,
                logic,
                bit,
                data_phase,
                traffic,
                noisy: false,
            })
        }
        // A grid without a frame: the rate is known all the same.
        (_, Search::Found(bit)) => Ok(Reading {
            source,
            traffic: decode(
                &logic,
                Timing {
                    nominal: bit.samples,
                    data_phase: None,
                },
            ),
            logic,
            bit,
            data_phase: None,
            noisy: false,
        }),
        (_, Search::TooSlow) => Err(Unread::TooSlow),
        (_, Search::TooFewEdges) => Err(Unread::TooFewEdges),
        (_, Search::NoGrid) => Err(Unread::NoGrid),
    }
}

fn scaled(bit: BitTime, by: f64) -> BitTime {
    BitTime {
        samples: bit.samples * by,
        uncertainty: bit.uncertainty * by,
        ..bit
    }
}

/// Decodes, and where CAN FD frames switch their rate finds the data phase's.
fn decode_fd(logic: &Logic, nominal: f64) -> (Option<f64>, Traffic) {
    let plain = decode(
        logic,
        Timing {
            nominal,
            data_phase: None,
        },
    );
    if plain.unread_fd.is_empty() {
        return (None, plain);
    }
    // Both phases may have the same rate.
    let tried = std::iter::once(1.0)
        .chain(RATIOS)
        .map(|m| nominal / m)
        .filter(|&b| b >= LEAST_SAMPLES_A_BIT);
    let best = tried
        .map(|bit| {
            (
                bit,
                decode(
                    logic,
                    Timing {
                        nominal,
                        data_phase: Some(bit),
                    },
                ),
            )
        })
        .max_by_key(|(_, t)| t.frames.len());
    match best {
        Some((bit, traffic)) if traffic.frames.len() > plain.frames.len() => (Some(bit), traffic),
        _ => (None, plain),
    }
}
