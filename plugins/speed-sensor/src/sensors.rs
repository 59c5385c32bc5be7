//! Sensors of a recording: what each is, and which of its pulses are rotation.

use crate::pick_up::{self, Meaning};
use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::{Segment, ToothTrain, Waveform};
use plugin_sdk::{ChannelView, Input};

/// Roles of this system.
pub const OWN: [&str; 10] = [
    "wheel-speed-1",
    "wheel-speed-2",
    "wheel-speed-3",
    "wheel-speed-4",
    "crank-sensor",
    "cam-sensor",
    "speed-sensor-1",
    "speed-sensor-2",
    "speed-sensor-3",
    "speed-sensor-4",
];

/// The same as a requirement: one of them.
pub const NEEDS: &[&str] = &[
    "wheel-speed-1|wheel-speed-2|wheel-speed-3|wheel-speed-4|crank-sensor|cam-sensor|speed-sensor-1|speed-sensor-2|speed-sensor-3|speed-sensor-4",
];

/// Role of the engine's own speed, which other systems use as well.
pub const ENGINE: &str = "engine-speed";

/// Law that a sensor's signal follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Law {
    /// Alternates; amplitude proportional to the speed.
    Coil,
    /// Switches between two voltages at every speed.
    Hall,
    /// Switches between two supply currents at every speed.
    CurrentLoop,
}

/// Place of a ring of teeth in the vehicle, which says what its gaps may mean.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// A road wheel: the ring is even.
    Wheel,
    /// Crankshaft, camshaft or engine: gaps, pairs and unequal teeth mark the position.
    Engine,
    /// Any other shaft.
    Shaft,
}

/// One sensor with its tooth train.
pub struct Sensor<'a> {
    /// Channel.
    pub channel: &'a ChannelView<'a>,
    /// Tooth train.
    pub train: ToothTrain,
    /// Law of its signal.
    pub law: Law,
    /// Place of its ring.
    pub place: Place,
    /// The signal runs against a limit of the recorder or of the input: its height is not known.
    pub clamped: bool,
    /// Meaning of each segment of turning, in the order of the train's.
    meanings: Vec<Meaning>,
}

impl<'a> Sensor<'a> {
    fn new(channel: &'a ChannelView<'a>, train: ToothTrain) -> Sensor<'a> {
        Sensor {
            law: law(channel, &train),
            clamped: is_clamped(channel, &train),
            place: place(channel.role),
            meanings: Vec::new(),
            channel,
            train,
        }
    }

    /// Role of the channel.
    pub fn role(&self) -> &'a str {
        self.channel.role
    }

    /// True for a role that this system judges.
    pub fn is_own(&self) -> bool {
        OWN.contains(&self.channel.role)
    }

    /// Segments of turning with their meaning.
    pub fn segments(&self) -> impl Iterator<Item = (&Segment, Meaning)> {
        self.train.turning().zip(self.meanings.iter().copied())
    }

    /// Segments in which the shaft turns.
    pub fn rotation(&self) -> impl Iterator<Item = &Segment> {
        self.segments()
            .filter(|(_, meaning)| *meaning == Meaning::Rotation)
            .map(|(segment, _)| segment)
    }

    /// True where all segments of turning are rotation and there is one.
    pub fn rotates(&self) -> bool {
        !self.meanings.is_empty() && self.meanings.iter().all(|m| *m == Meaning::Rotation)
    }

    /// The segment with the most teeth among those of rotation.
    pub fn longest(&self) -> Option<&Segment> {
        self.rotation().max_by_key(|s| s.last - s.first)
    }

    /// Positions without a tooth that were stated for the ring.
    pub fn stated_missing(&self) -> Option<u32> {
        self.channel.facts.missing_teeth
    }
}

/// Sensors of a recording, those of this system and the engine's.
pub fn read<'a>(input: &'a Input<'a>) -> Vec<Sensor<'a>> {
    let mut sensors: Vec<Sensor<'a>> = OWN
        .into_iter()
        .chain([ENGINE])
        .filter_map(|role| Some(Sensor::new(input.channel(role)?, input.train(role)?)))
        .collect();
    let meanings: Vec<Vec<Meaning>> = sensors
        .iter()
        .map(|s| pick_up::meanings(s, &sensors, input))
        .collect();
    for (sensor, own) in sensors.iter_mut().zip(meanings) {
        sensor.meanings = own;
    }
    sensors
}

fn law(channel: &ChannelView<'_>, train: &ToothTrain) -> Law {
    let alternates = train.signal.waveform == Waveform::Alternating;
    match channel.facts.sensor.as_deref() {
        // A logic analyser's list of edges shows nothing of the coil before it.
        Some("vr") if !train.signal.level_changes => Law::Coil,
        Some("current-loop") => Law::CurrentLoop,
        Some(_) => Law::Hall,
        None if alternates => Law::Coil,
        None if channel.unit == "A" => Law::CurrentLoop,
        None => Law::Hall,
    }
}

/// Share of the transitions that end at one value, exponent of the amplitude against the rate and share of the samples at
/// the top (a sine is within 2 % of its top for a tenth of the time) that together tell of a limit.
const ENDS: f64 = 0.3;
const LEAST_EXPONENT: f64 = 0.7;
const FLAT: f64 = 0.18;

/// True where a coil's signal is cut off. One that turns steadily ends its transitions at one value as well: only flat tops,
/// and an amplitude that does not follow its rate, tell of a limit. The gearbox's shafts are asked the same of a single segment,
/// which has no law of its own: there flat tops must do, and they only withhold an accusation.
fn is_clamped(channel: &ChannelView<'_>, train: &ToothTrain) -> bool {
    let ends = train.amplitude_law.filter(|l| l.clamped > ENDS);
    let held = ends.is_some_and(|l| l.exponent.is_none_or(|n| n < LEAST_EXPONENT));
    let Some(longest) = train
        .turning()
        .max_by_key(|s| s.last - s.first)
        .filter(|_| held)
    else {
        return false;
    };
    let index = |t: f64| channel.time.index_at(t, channel.len());
    let x = channel.part(index(longest.start_s)..index(longest.end_s));
    let quantile = |q| stats::sampled_quantile(&x, q, 100_000).unwrap_or(0.0) as f32;
    let (low, high) = (quantile(0.001), quantile(0.999));
    let near = 0.02 * (high - low);
    let share =
        |at: f32| x.iter().filter(|v| (**v - at).abs() < near).count() as f64 / x.len() as f64;
    share(low).max(share(high)) > FLAT
}

fn place(role: &str) -> Place {
    match role {
        "crank-sensor" | "cam-sensor" | ENGINE => Place::Engine,
        _ if role.starts_with("wheel-speed-") => Place::Wheel,
        _ => Place::Shaft,
    }
}
