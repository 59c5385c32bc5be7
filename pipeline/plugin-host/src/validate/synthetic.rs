//! Recordings made up for the checks: plausible shapes, nothing measured.

use model::system::{Quantity, RoleDeclaration};
use model::{Calibration, Capture, Channel, Role, RoleSource, Samples, TimeAxis, TimeSource};
use plugin_abi::settings::{Code, PriorFinding, Stated};
use plugin_abi::{AnalyzerDeclaration, ChannelFacts, Observation, Settings, alternatives};
use std::f64::consts::TAU;

/// Kind of made-up recording.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Channels without samples.
    Empty,
    /// Two seconds at 10 kHz.
    Plain,
    /// The same with missing values and over-range marks strewn in.
    Odd,
    /// The same with only the channels that the analyzer needs; of alternatives the one of this number.
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

/// A recording with every role that the analyzer needs or uses.
pub(super) fn capture(analyzer: &AnalyzerDeclaration, kind: Kind) -> Capture {
    let mut roles: Vec<Role> = match kind {
        Kind::Bare(turn) => analyzer
            .needs
            .iter()
            .filter_map(|need| {
                let all: Vec<Role> = alternatives(need).map(role).collect();
                all.get(turn % all.len().max(1)).cloned()
            })
            .collect(),
        _ => analyzer
            .needs
            .iter()
            .chain(&analyzer.uses)
            .flat_map(|need| alternatives(need))
            .map(role)
            .collect(),
    };
    if analyzer.needs.is_empty() && analyzer.uses.is_empty() {
        // It may look at anything.
        roles = ["a-current", "a-speed", "a-voltage"].map(role).into();
    }
    roles.sort();
    roles.dedup();
    let mut rng = Rng(match kind {
        Kind::Random(seed) => seed,
        _ => 0,
    });
    let (time, len) = match kind {
        Kind::Empty => (even(0.0, STEP_S, 0), 0),
        Kind::Random(_) => random_time(&mut rng),
        _ => (even(0.0, STEP_S, SAMPLES), SAMPLES),
    };
    let channels = roles.iter().enumerate().map(|(i, role)| match kind {
        Kind::Random(_) => random_channel(i, role.clone(), len, &mut rng),
        _ => channel(i, role.clone(), kind, len),
    });
    Capture {
        file: "synthetic.csv".into(),
        started: None,
        time_source: TimeSource::File,
        channels: channels.collect(),
        time,
        problems: Vec::new(),
        read_as: "made up".into(),
    }
}

/// Alternatives in the longest of an analyzer's needs; 1 where it needs nothing.
pub(super) fn most_alternatives(analyzer: &AnalyzerDeclaration) -> usize {
    let counts = analyzer.needs.iter().map(|need| alternatives(need).count());
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
struct Rng(u64);

impl Rng {
    /// From 0 to 1.
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) as f64 / u64::MAX as f64
    }

    /// From `low` to `high`, both greater than 0, every factor as likely as another.
    fn scale(&mut self, low: f64, high: f64) -> f64 {
        low * (high / low).powf(self.uniform())
    }
}

fn random_time(rng: &mut Rng) -> (TimeAxis, usize) {
    let len = rng.scale(1.0, 50_000.0) as usize;
    let (start, step) = (100.0 * (rng.uniform() - 0.5), rng.scale(1e-6, 0.1));
    if rng.uniform() < 0.7 {
        return (even(start, step, len), len);
    }
    // Listed, with gaps and instants that repeat.
    let mut t = start;
    let times = (0..len).map(|_| {
        t += match rng.uniform() {
            r if r < 0.01 => 0.0,
            r if r < 0.02 => 100.0 * step,
            r => step * (0.5 + r),
        };
        t
    });
    (TimeAxis::Listed(times.collect()), len)
}

fn random_channel(number: usize, role: Role, len: usize, rng: &mut Rng) -> Channel {
    let (gain, level, noise) = (
        rng.scale(1e-3, 1e3),
        100.0 * (rng.uniform() - 0.5),
        rng.scale(1e-3, 10.0),
    );
    let (speed, holes) = (rng.scale(0.01, 100.0), 0.1 * (rng.uniform() - 0.5));
    let values: Vec<f64> = (0..len)
        .map(|i| {
            if rng.uniform() < holes {
                return [f64::NAN, f64::INFINITY, f64::NEG_INFINITY][i % 3];
            }
            let t = i as f64 * STEP_S * speed;
            gain * shape(&role, t) + level + noise * (rng.uniform() - 0.5)
        })
        .collect();
    let samples = match number % 2 {
        0 => Samples::F32(values.iter().map(|&v| v as f32).collect::<Vec<_>>().into()),
        _ => Samples::F64(values.into()),
    };
    made_up(number, role, samples, rng.scale(1e-3, 1e3))
}

/// Sample formats take turns, so that an analyzer with several channels meets them all.
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
        calibration: Calibration::Stated,
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
pub(super) fn settings(capture: Option<&Capture>) -> Settings {
    let stated = |value: &str| Stated {
        value: value.into(),
        source: "made up".into(),
    };
    let channels = capture.map(|c| c.channels.as_slice()).unwrap_or_default();
    let facts = channels.iter().map(|c| {
        let speed = c.role.as_ref().is_some_and(Role::is_speed_sensor);
        ChannelFacts {
            sensor: speed.then(|| "hall".into()),
            teeth: speed.then_some(30),
            accuracy_percent: Some(1.0),
            calibrated: true,
            ..ChannelFacts::default()
        }
    });
    let mut settings = Settings {
        selector: Some(stated("P")),
        engine: Some(stated("running")),
        channels: facts.collect(),
        ..Settings::default()
    };
    if capture.is_none() {
        settings.findings = vec![PriorFinding {
            id: "f1".into(),
            plugin: "made-up".into(),
            file: Some("synthetic.csv".into()),
            observation: Observation::new("made-up", "made-up").value(0.0, 0.0, "1"),
        }];
        settings.codes = vec![Code {
            code: "P0100".into(),
            status: vec!["confirmed".into()],
            file: "made-up.txt".into(),
            ..Code::default()
        }];
    }
    settings
}
