//! Recordings made up for the checks: plausible shapes, nothing measured.

use crate::info::{Description, alternatives};
use model::system::{Quantity, RoleDeclaration};
use model::{Capture, Channel, Role, RoleSource, Samples, TimeAxis};
use std::f64::consts::TAU;

/// What a made-up recording is like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Channels without samples.
    Empty,
    /// Two seconds at 10 kHz.
    Plain,
    /// The same with missing values and over-range marks strewn in.
    Odd,
    /// The same with only the channels that the plugin needs; of alternatives the one of this number.
    Bare(usize),
    /// Of random length, rate, levels, noise and holes; the same for the same seed.
    Random(u64),
}

const SAMPLES: usize = 20_000;
const STEP_S: f64 = 1e-4;

/// A role by its name alone: a library under test may bring any.
fn role(name: &str) -> Role {
    let (quantity, unit) = if name.contains("current") {
        (Quantity::Current, "A")
    } else if name.contains("shaft") || name.contains("speed") {
        (Quantity::ToothSignal, "V")
    } else {
        (Quantity::Voltage, "V")
    };
    Role::declared(RoleDeclaration {
        name: name.into(),
        quantity,
        unit: unit.into(),
        plot_order: 0,
        names: Default::default(),
        hints: Default::default(),
    })
}

/// A recording with every role that the plugin needs or uses.
pub(super) fn capture(plugin: &Description, kind: Kind) -> Capture {
    let mut roles: Vec<Role> = match kind {
        Kind::Bare(turn) => plugin
            .needs
            .iter()
            .filter_map(|need| {
                let all: Vec<Role> = alternatives(need).map(role).collect();
                all.get(turn % all.len().max(1)).cloned()
            })
            .collect(),
        _ => plugin
            .needs
            .iter()
            .chain(&plugin.uses)
            .flat_map(|need| alternatives(need))
            .map(role)
            .collect(),
    };
    roles.sort();
    roles.dedup();
    let mut dice = Dice(match kind {
        Kind::Random(seed) => seed,
        _ => 0,
    });
    let (time, len) = match kind {
        Kind::Empty => (even(0.0, STEP_S, 0), 0),
        Kind::Random(_) => random_time(&mut dice),
        _ => (even(0.0, STEP_S, SAMPLES), SAMPLES),
    };
    let channels = roles.iter().enumerate().map(|(i, role)| match kind {
        Kind::Random(_) => random_channel(i, role.clone(), len, &mut dice),
        _ => channel(i, role.clone(), kind, len),
    });
    Capture {
        file: "synthetic.csv".into(),
        started: None,
        channels: channels.collect(),
        time,
        problems: Vec::new(),
        read_as: "made up".into(),
    }
}

/// How many alternatives the longest of a plugin's needs has; 1 where it needs nothing.
pub(super) fn most_alternatives(plugin: &Description) -> usize {
    let counts = plugin.needs.iter().map(|need| alternatives(need).count());
    counts.max().unwrap_or(1)
}

fn even(start_s: f64, step_s: f64, len: usize) -> TimeAxis {
    TimeAxis::Even {
        start_s,
        step_s,
        len,
    }
}

/// Reproducible numbers: the generator SplitMix64 (Steele, Lea and Flood 2014, constants from memory).
struct Dice(u64);

impl Dice {
    /// From 0 to 1.
    fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) as f64 / u64::MAX as f64
    }

    /// From `low` to `high`, both greater than 0, every factor as likely as another.
    fn scale(&mut self, low: f64, high: f64) -> f64 {
        low * (high / low).powf(self.roll())
    }
}

fn random_time(dice: &mut Dice) -> (TimeAxis, usize) {
    let len = dice.scale(1.0, 50_000.0) as usize;
    let (start, step) = (100.0 * (dice.roll() - 0.5), dice.scale(1e-6, 0.1));
    if dice.roll() < 0.7 {
        return (even(start, step, len), len);
    }
    // Listed, with gaps and instants that repeat.
    let mut t = start;
    let times = (0..len).map(|_| {
        t += match dice.roll() {
            r if r < 0.01 => 0.0,
            r if r < 0.02 => 100.0 * step,
            r => step * (0.5 + r),
        };
        t
    });
    (TimeAxis::Listed(times.collect()), len)
}

fn random_channel(number: usize, role: Role, len: usize, dice: &mut Dice) -> Channel {
    let (gain, level, noise) = (
        dice.scale(1e-3, 1e3),
        100.0 * (dice.roll() - 0.5),
        dice.scale(1e-3, 10.0),
    );
    let (speed, holes) = (dice.scale(0.01, 100.0), 0.1 * (dice.roll() - 0.5));
    let values: Vec<f64> = (0..len)
        .map(|i| {
            if dice.roll() < holes {
                return [f64::NAN, f64::INFINITY, f64::NEG_INFINITY][i % 3];
            }
            let t = i as f64 * STEP_S * speed;
            gain * shape(&role, t) + level + noise * (dice.roll() - 0.5)
        })
        .collect();
    let samples = match number % 2 {
        0 => Samples::F32(values.iter().map(|&v| v as f32).collect::<Vec<_>>().into()),
        _ => Samples::F64(values.into()),
    };
    made_up(number, role, samples, dice.scale(1e-3, 1e3))
}

/// Sample formats take turns, so that a plugin with several channels meets them all.
fn channel(number: usize, role: Role, kind: Kind, len: usize) -> Channel {
    let value = |i: usize| match kind {
        Kind::Odd if i % 97 == 5 => f64::NAN,
        Kind::Odd if i % 101 == 7 => f64::INFINITY,
        Kind::Odd if i % 103 == 9 => f64::NEG_INFINITY,
        _ => shape(&role, i as f64 * STEP_S),
    };
    // An integer has no missing values: only the plain recording may hold integers.
    let (samples, scale) = match number % 3 {
        1 if kind != Kind::Odd => {
            let counts = (0..len)
                .map(|i| (value(i) * 100.0).round() as i16)
                .collect();
            (Samples::I16(counts), 0.01)
        }
        2 => (Samples::F64((0..len).map(value).collect()), 1.0),
        _ => (
            Samples::F32((0..len).map(|i| value(i) as f32).collect::<Vec<_>>().into()),
            1.0,
        ),
    };
    made_up(number, role, samples, scale)
}

fn made_up(number: usize, role: Role, samples: Samples, scale: f64) -> Channel {
    Channel {
        role_source: RoleSource::JobFile,
        scale,
        calibrated: true,
        ..Channel::recorded(
            format!("channel {number}"),
            Some(role.unit().into()),
            samples,
        )
        .with_role(role)
    }
}

fn shape(role: &Role, t: f64) -> f64 {
    let ripple = 0.05 * (TAU * 137.0 * t).sin();
    if role.is_speed_sensor() {
        // A square wave that speeds up.
        let turns = 150.0 * t + 40.0 * t * t;
        if turns.fract() < 0.5 {
            5.0 + ripple
        } else {
            ripple
        }
    } else if role.is_current() {
        // A burst twice a second that decays.
        let since = t % 0.5;
        let burst = if since < 0.2 {
            15.0 * (-since / 0.08).exp()
        } else {
            0.0
        };
        2.0 + burst + ripple
    } else {
        12.6 + ripple
    }
}

/// Settings that say something about each channel, and for a job about the findings and codes.
pub(super) fn settings(capture: Option<&Capture>) -> String {
    let channels: Vec<_> = capture
        .map(|c| c.channels.as_slice())
        .unwrap_or_default()
        .iter()
        .map(|c| {
            let speed = c.role.as_ref().is_some_and(Role::is_speed_sensor);
            serde_json::json!({
                "sensor": speed.then_some("hall"),
                "teeth": speed.then_some(30),
                "accuracy_percent": 1.0,
                "calibrated": true,
            })
        })
        .collect();
    let mut all = serde_json::json!({
        "selector": {"value": "P", "source": "made up"},
        "engine": {"value": "running", "source": "made up"},
        "channels": channels,
    });
    if capture.is_none() {
        all["findings"] = serde_json::json!([{
            "id": "f1", "plugin": "made-up", "file": "synthetic.csv", "kind": "shaft-at-rest",
            "subject": "input-shaft-1", "value": 0.0, "uncertainty": 0.0, "unit": "rpm",
            "grade": "normal", "message": "made-up",
        }]);
        all["codes"] = serde_json::json!([{
            "code": "P0894", "status": ["confirmed"], "file": "made-up.txt",
        }]);
    }
    all.to_string()
}
