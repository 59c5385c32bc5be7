//! The recorder: probes, their faults, and the channels that come out.

use crate::noise::Noise;
use crate::sensor::SpeedSensor;
use crate::traces::{Mechanism, Traces};
use model::job_file::ChannelSection;

/// A current clamp in front of the recorder.
#[derive(Debug, Clone, PartialEq)]
pub struct Clamp {
    /// A per recorded V; with 1 and the unit `A` the recorder has converted already.
    pub amps_per_volt: f64,
    /// Reading without current, A: a clamp that was not zeroed.
    pub offset: f64,
    /// Clipped on the wrong way round.
    pub reversed: bool,
    /// The recorder's range, A either side.
    pub range: f64,
    /// Noise, A (standard deviation).
    pub noise: f64,
    /// Gain error, 1 for none.
    pub gain: f64,
    /// The factor that job.toml states, as a multiple of the true one: 10 and 0.1 for a wrong range, -1 for a
    /// sign that was put there against a clamp that sits the right way round.
    pub stated: f64,
}

impl Default for Clamp {
    fn default() -> Self {
        Clamp {
            amps_per_volt: 100.0,
            offset: 0.0,
            reversed: false,
            range: 100.0,
            noise: 0.12,
            gain: 1.0,
            stated: 1.0,
        }
    }
}

/// The point that a probe is connected to.
#[derive(Debug, Clone, PartialEq)]
// A recording has a handful of them: their size does not matter.
#[allow(clippy::large_enum_variant)]
pub enum Probe {
    /// A clamp around the feed.
    Feed(Clamp),
    /// A clamp around one mechanism's own lead.
    Own(Mechanism, Clamp),
    /// Voltage of the supply at the controller; the noise in V.
    Supply(f64),
    /// Voltage drop of the controller's ground; the noise in V.
    Ground(f64),
    /// Speed sensor of input shaft 1 or 2 (0 or 1).
    Input(usize, SpeedSensor),
    /// Speed sensor of the output shaft.
    Output(SpeedSensor),
    /// Engine speed sensor.
    Engine(SpeedSensor),
    /// An input shaft's sensor wire (0 or 1) that carries no tooth of its own but what it picks up.
    PickUp(usize, SpeedSensor, Source),
    /// An input shaft's channel (0 or 1) whose lead is not connected: the recorder's own zero, with noise in V.
    /// The sensor is what job.toml takes it for.
    NotConnected(usize, SpeedSensor, f64),
}

/// Origin of what a wire picks up.
#[derive(Debug, Clone, PartialEq)]
pub enum Source {
    /// A share of the other input shaft's sensor signal.
    OtherShaft {
        /// The other shaft's sensor.
        sensor: SpeedSensor,
        /// Share of it that arrives.
        share: f64,
    },
    /// The ignition: so many pulses of so many V in a turn of the engine.
    Ignition {
        /// Pulses per turn.
        per_turn: f64,
        /// V.
        height: f64,
    },
    /// The alternator's ripple: so many periods of so many V (amplitude) in a turn of the engine.
    Alternator {
        /// Periods per turn of the engine.
        per_turn: f64,
        /// V.
        height: f64,
    },
    /// The gearbox controller's own switching, through a ground that both share: V for each A of its quick changes.
    Load {
        /// V/A.
        volts_per_amp: f64,
    },
    /// A pulse-width modulated load at a fixed frequency.
    Pwm {
        /// Hz.
        hz: f64,
        /// V.
        height: f64,
    },
}

/// One channel of the recorder.
#[derive(Debug, Clone, PartialEq)]
pub struct ChannelPlan {
    /// Its name in the file.
    pub name: String,
    /// Place of its connection.
    pub probe: Probe,
    /// True where the file shows it in thousandths (mV).
    pub milli: bool,
}

impl ChannelPlan {
    /// A channel in whole units.
    pub fn new(name: &str, probe: Probe) -> Self {
        ChannelPlan {
            name: name.into(),
            probe,
            milli: false,
        }
    }
}

/// One recorded channel.
#[derive(Debug, Clone)]
pub struct Recorded {
    /// Its name.
    pub name: String,
    /// Unit of the values as the file shows them: `V`, `mV` or `A`.
    pub unit: &'static str,
    /// Measured quantity.
    pub role: &'static str,
    /// The samples, in `unit`. An infinity marks an over-range sample.
    pub values: Vec<f64>,
    /// Complete section of job.toml for it.
    pub section: ChannelSection,
}

/// One recording.
#[derive(Debug, Clone)]
pub struct Recording {
    /// Samples per second.
    pub rate_hz: f64,
    /// Time of the first sample, s.
    pub start_s: f64,
    /// The channels.
    pub channels: Vec<Recorded>,
}

impl Recording {
    /// Number of samples.
    pub fn len(&self) -> usize {
        self.channels.first().map_or(0, |c| c.values.len())
    }

    /// True where there is no sample.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }
}

impl Clamp {
    /// Recorded value of a current: volts, or amperes when it has converted already.
    fn read(&self, current: f64, noise: &mut Noise) -> f64 {
        let sign = if self.reversed { -1.0 } else { 1.0 };
        let seen = sign * self.gain * current + self.offset + self.noise * noise.normal();
        // Twelve bits over the range, as workshop recorders commonly have.
        let bit = self.range / 2048.0;
        let held = seen.clamp(-self.range, self.range);
        (held / bit).round() * bit / self.amps_per_volt
    }

    /// True where the recorder has converted to amperes already.
    fn in_amperes(&self) -> bool {
        self.amps_per_volt == 1.0
    }
}

impl Probe {
    /// Role that the probe measures.
    pub fn role(&self) -> &'static str {
        match self {
            Probe::Feed(_) => "supply-current",
            Probe::Own(Mechanism::Clutch1, _) => "actuator-current-1",
            Probe::Own(Mechanism::Clutch2, _) => "actuator-current-2",
            Probe::Own(Mechanism::Gear1, _) => "gear-motor-current-1",
            Probe::Own(Mechanism::Gear2, _) => "gear-motor-current-2",
            Probe::Supply(_) => "supply-voltage",
            Probe::Ground(_) => "ground-voltage",
            Probe::Input(0, _) | Probe::PickUp(0, ..) | Probe::NotConnected(0, ..) => {
                "input-shaft-1"
            }
            Probe::Input(..) | Probe::PickUp(..) | Probe::NotConnected(..) => "input-shaft-2",
            Probe::Output(_) => "output-shaft",
            Probe::Engine(_) => "engine-speed",
        }
    }

    fn values(&self, traces: &Traces, noise: &mut Noise) -> Vec<f64> {
        let (rate, start) = (traces.rate_hz, traces.start_s);
        let mut noisy = |of: &[f64], sigma: f64| -> Vec<f64> {
            of.iter().map(|v| v + sigma * noise.normal()).collect()
        };
        match self {
            Probe::Feed(c) => traces.feed.iter().map(|&i| c.read(i, noise)).collect(),
            Probe::Own(m, c) => traces.mechanism[m.index()]
                .iter()
                .map(|&i| c.read(i, noise))
                .collect(),
            Probe::Supply(sigma) => noisy(&traces.supply, *sigma),
            Probe::Ground(sigma) => noisy(&traces.ground, *sigma),
            Probe::Input(k, s) => s.signal(&traces.input[*k & 1], rate, start, noise),
            Probe::Output(s) => s.signal(&traces.output, rate, start, noise),
            Probe::Engine(s) => s.signal(&traces.engine, rate, start, noise),
            Probe::NotConnected(_, _, sigma) => noisy(&vec![0.0; traces.len()], *sigma),
            Probe::PickUp(k, own, source) => {
                let mut wire = noisy(&vec![own.quiet(); traces.len()], own.noise);
                let caught = source.caught(traces, 1 - (*k & 1));
                wire.iter_mut().zip(caught).for_each(|(v, c)| *v += c);
                wire
            }
        }
    }
}

impl Source {
    /// Voltage that the wire catches at each sample, V.
    fn caught(&self, traces: &Traces, other: usize) -> Vec<f64> {
        match self {
            Source::OtherShaft { sensor, share } => {
                let r = &traces.input[other];
                let (low, _) = sensor.levels();
                let of = r.turns.iter().zip(&r.rpm);
                of.map(|(&x, &n)| share * (sensor.ideal(x, n) - low))
                    .collect()
            }
            Source::Ignition { per_turn, height } => {
                let of = traces.engine.turns.iter().zip(&traces.engine.rpm);
                of.map(|(&x, &n)| {
                    if n > 50.0 {
                        pulse((x * per_turn).rem_euclid(1.0), 0.06, *height)
                    } else {
                        0.0
                    }
                })
                .collect()
            }
            Source::Alternator { per_turn, height } => {
                let of = traces.engine.turns.iter().zip(&traces.engine.rpm);
                of.map(|(&x, &n)| {
                    let on = if n > 400.0 { *height } else { 0.0 };
                    on * (std::f64::consts::TAU * per_turn * x).sin()
                })
                .collect()
            }
            Source::Load { volts_per_amp } => {
                // Quicker than some 20 Hz: what lies beside the mean over a twentieth of a second.
                let half = (0.025 * traces.rate_hz) as usize;
                let sums: Vec<f64> = std::iter::once(0.0)
                    .chain(traces.feed.iter().scan(0.0, |sum, v| {
                        *sum += v;
                        Some(*sum)
                    }))
                    .collect();
                (0..traces.len())
                    .map(|i| {
                        let (a, b) = (i.saturating_sub(half), (i + half + 1).min(traces.len()));
                        let mean = (sums[b] - sums[a]) / (b - a) as f64;
                        volts_per_amp * (traces.feed[i] - mean)
                    })
                    .collect()
            }
            Source::Pwm { hz, height } => (0..traces.len())
                .map(|i| pulse((traces.time(i) * hz).rem_euclid(1.0), 0.25, *height))
                .collect(),
        }
    }
}

/// A pulse over the first `width` of the phase.
fn pulse(phase: f64, width: f64, height: f64) -> f64 {
    if phase < width { height } else { 0.0 }
}

/// Records what happened.
pub fn record(traces: &Traces, plan: &[ChannelPlan], noise: &mut Noise) -> Recording {
    let channels = plan
        .iter()
        .map(|p| {
            let factor = if p.milli { 1000.0 } else { 1.0 };
            let mut values = p.probe.values(traces, noise);
            values.iter_mut().for_each(|v| *v *= factor);
            Recorded {
                name: p.name.clone(),
                unit: unit(p),
                role: p.probe.role(),
                values,
                section: section(&p.probe),
            }
        })
        .collect();
    Recording {
        rate_hz: traces.rate_hz,
        start_s: traces.start_s,
        channels,
    }
}

fn unit(p: &ChannelPlan) -> &'static str {
    match &p.probe {
        Probe::Feed(c) | Probe::Own(_, c) if c.in_amperes() => "A",
        _ if p.milli => "mV",
        _ => "V",
    }
}

/// Section that a technician who knows everything writes for the channel.
fn section(probe: &Probe) -> ChannelSection {
    let role = Some(probe.role().into());
    match probe {
        Probe::Feed(c) | Probe::Own(_, c) => ChannelSection {
            role,
            amps_per_volt: (!c.in_amperes() || c.stated != 1.0)
                .then_some(c.amps_per_volt * c.stated),
            ..Default::default()
        },
        Probe::Input(_, s)
        | Probe::Output(s)
        | Probe::Engine(s)
        | Probe::PickUp(_, s, _)
        | Probe::NotConnected(_, s, _) => {
            let wheel = &s.wheel;
            ChannelSection {
                role,
                sensor: Some(s.kind),
                teeth: Some(wheel.positions),
                // Of a damaged tooth nobody knows; that the wheel was made whole is known.
                missing_teeth: (wheel.missing > 0 || wheel.damaged).then_some(wheel.missing),
                ..Default::default()
            }
        }
        Probe::Supply(_) | Probe::Ground(_) => ChannelSection {
            role,
            ..Default::default()
        },
    }
}
