//! Battery, starter and alternator: a camper van whose battery was replaced twice although its engine ground resists.
//!
//! Models: a permanent-magnet starter, U = k w + R i and J dw/dt = k i - T (Fitzgerald, Kingsley & Umans, "Electric
//! Machinery", direct-current machines); the torque of a slider-crank that compresses polytropically, p V^n = const
//! (Heywood, "Internal Combustion Engine Fundamentals", geometry and compression); a six-pulse bridge fed by three
//! sines into a battery (Mohan, Undeland & Robbins, "Power Electronics", line-frequency rectifiers). The books are
//! named from memory.

use super::invented::{Visit, channel, recording, with_job_file};
use crate::csv::CsvDialect;
use crate::folder::JobFolder;
use crate::noise::Noise;
use crate::ode::rk4;
use crate::recorder::{Recorded, Recording};
use crate::wav::WavSamples;
use model::job_file::{CaptureState, EngineState, UnitSection};
use std::f64::consts::{PI, TAU};

const VISIT: Visit = Visit {
    number: "D-0108",
    customer: "Example Outdoor Rental (invented)",
    vin: "EXAMPLE00K0CAM117",
    model: "Camper van 200",
    year: 2018,
    odometer_km: 88_140.0,
    system: "start-and-charge",
    concern: "Turns over slowly when it is warm, twice it did not start on the ferry. The battery was replaced twice; \
              the fault remains.",
};

/// Starter, engine and the path of the current.
#[derive(Debug, Clone)]
pub struct Start {
    /// Voltage of the battery without load, V.
    pub emf: f64,
    /// Resistance of the battery, ohm.
    pub battery: f64,
    /// Resistance of the feed from the battery to the starter, ohm.
    pub feed: f64,
    /// Resistance of the ground from the engine to the battery, ohm.
    pub ground: f64,
    /// Resistance of the starter, ohm.
    pub starter: f64,
    /// Voltage constant of the starter with its gear, seen at the crankshaft, V s/rad; also N m/A.
    pub constant: f64,
    /// Inertia of engine and starter at the crankshaft, kg m2.
    pub inertia: f64,
    /// Friction of the engine, N m.
    pub friction: f64,
    /// Compression of each cylinder in firing order, as a share of a sound one's.
    pub cylinders: Vec<f64>,
}

impl Default for Start {
    fn default() -> Self {
        Start {
            emf: 12.62,
            battery: 0.0058,
            feed: 0.0011,
            ground: 0.0008,
            starter: 0.0075,
            constant: 0.42,
            inertia: 0.32,
            friction: 44.0,
            cylinders: vec![1.0, 0.97, 1.0, 0.98],
        }
    }
}

/// Voltages and currents of a start at the probes, at one sample rate.
#[derive(Debug, Clone, Default)]
pub struct StartTraces {
    /// Voltage of the battery, V.
    pub battery_v: Vec<f64>,
    /// Current out of the battery, A.
    pub battery_a: Vec<f64>,
    /// Engine block against battery minus, V.
    pub ground_v: Vec<f64>,
    /// Battery plus against the starter, V.
    pub feed_v: Vec<f64>,
    /// Speed of the crankshaft, rad/s.
    pub speed: Vec<f64>,
}

impl StartTraces {
    /// The recorded channels, with `noise` times what usual probes have.
    pub fn channels(&self, noise: f64, random: &mut Noise) -> Vec<Recorded> {
        let mut probe = |name, role, unit, values: &[f64], range, usual: f64| {
            channel(name, role, unit, values, (range, usual * noise), random)
        };
        vec![
            probe(
                "Battery voltage",
                "battery-voltage",
                "V",
                &self.battery_v,
                20.0,
                0.008,
            ),
            probe(
                "Battery current",
                "battery-current",
                "A",
                &self.battery_a,
                1_500.0,
                0.7,
            ),
            probe(
                "Engine ground",
                "ground-voltage",
                "V",
                &self.ground_v,
                10.0,
                0.003,
            ),
            probe(
                "Starter feed drop",
                "feed-voltage-drop",
                "V",
                &self.feed_v,
                10.0,
                0.003,
            ),
        ]
    }
}

/// Displacement of one cylinder, m3, compression ratio, polytropic exponent with its losses, crank radius over rod.
const CYLINDER: (f64, f64, f64, f64) = (3.9e-4, 9.5, 1.28, 0.29);
/// Share of the work of compression that the expansion gives back.
const GIVEN_BACK: f64 = 0.7;
/// Pressure of the air, Pa.
const AIR: f64 = 1.0e5;
/// Current of the vehicle with its ignition on, A.
const IGNITION_A: f64 = 6.0;

/// Torque of one cylinder on the crankshaft, N m, at `angle` rad from the top dead centre after its compression.
fn gas_torque(angle: f64) -> f64 {
    let (displacement, ratio, exponent, lambda) = CYLINDER;
    let (sin, cos) = angle.sin_cos();
    let root = (1.0 - (lambda * sin).powi(2)).sqrt();
    let stroke = (1.0 - cos + (1.0 - root) / lambda) / 2.0;
    let slope = (sin + lambda * sin * cos / root) / 2.0;
    let clearance = displacement / (ratio - 1.0);
    let volume = clearance + displacement * stroke;
    let pressure = AIR * (((clearance + displacement) / volume).powf(exponent) - 1.0);
    let given = if angle > 0.0 { GIVEN_BACK } else { 1.0 };
    given * pressure * displacement * slope
}

impl Start {
    /// Torque of the gas in all cylinders, N m, at a crank angle.
    fn gas(&self, crank: f64) -> f64 {
        let n = self.cylinders.len() as f64;
        let of = self.cylinders.iter().enumerate();
        of.map(|(k, share)| {
            let angle = (crank + 2.0 * TAU * k as f64 / n).rem_euclid(2.0 * TAU) - TAU;
            // Compression and expansion are one turn of the two.
            if angle.abs() < PI {
                share * gas_torque(angle)
            } else {
                0.0
            }
        })
        .sum()
    }

    /// A start attempt: the contacts close at `from_s` and open at `to_s`.
    pub fn attempt(&self, rate_hz: f64, seconds: f64, (from_s, to_s): (f64, f64)) -> StartTraces {
        let path = self.battery + self.feed + self.ground + self.starter;
        let drawn = |speed: f64| ((self.emf - self.constant * speed) / path).max(0.0);
        let substeps = 4;
        let step = 1.0 / rate_hz / f64::from(substeps);
        // Crank angle, speed.
        let mut state = [1.1, 0.0];
        let mut traces = StartTraces::default();
        for i in 0..(seconds * rate_hz) as usize {
            let t = i as f64 / rate_hz;
            let on = (from_s..to_s).contains(&t);
            let starter_a = if on { drawn(state[1]) } else { 0.0 };
            // The solenoid draws as well.
            let solenoid_a = if on { 18.0 } else { 0.0 };
            let total = starter_a + solenoid_a + IGNITION_A;
            traces.battery_v.push(self.emf - self.battery * total);
            traces.battery_a.push(total);
            traces.ground_v.push(self.ground * (starter_a + solenoid_a));
            traces.feed_v.push(self.feed * (starter_a + solenoid_a));
            traces.speed.push(state[1]);
            for _ in 0..substeps {
                state = rk4(state, step, |&[crank, speed]| {
                    let motor = if on {
                        self.constant * drawn(speed)
                    } else {
                        0.0
                    };
                    let held = self.friction * (speed / 0.5).tanh() + 0.35 * speed;
                    [speed, (motor + self.gas(crank) - held) / self.inertia]
                });
                // The starter's clutch and the compression let nothing turn backwards for long.
                state[1] = state[1].max(0.0);
            }
        }
        traces
    }
}

/// A charging alternator behind its bridge.
#[derive(Debug, Clone)]
pub struct Alternator {
    /// Voltage that it holds, V.
    pub held_v: f64,
    /// Electrical rate, Hz.
    pub electrical_hz: f64,
    /// Share of the ripple of an ideal bridge that reaches the battery.
    pub ripple_share: f64,
    /// True for an open diode.
    pub open_diode: bool,
}

impl Alternator {
    /// Voltage at the battery, V. The engine's speed wanders by some tenths of a percent.
    pub fn voltage(&self, rate_hz: f64, seconds: f64) -> Vec<f64> {
        // Peak of a phase-to-phase sine whose six-pulse mean is the voltage held: mean = 3/pi peak.
        let peak = self.held_v * PI / 3.0;
        let mut turns = 0.0;
        (0..(seconds * rate_hz) as usize)
            .map(|i| {
                let t = i as f64 / rate_hz;
                let wander = 1.0 + 0.004 * (TAU * 0.9 * t).sin() + 0.003 * (TAU * 26.0 * t).sin();
                turns += self.electrical_hz * wander / rate_hz;
                let phase = |k: f64| peak / 3f64.sqrt() * (TAU * (turns - k / 3.0)).sin();
                let phases = [phase(0.0), phase(1.0), phase(2.0)];
                let upper = &phases[usize::from(self.open_diode)..];
                let high = upper.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                let low = phases.iter().copied().fold(f64::INFINITY, f64::min);
                self.held_v + self.ripple_share * (high - low - self.held_v)
            })
            .collect()
    }
}

/// Current after key-off, A: stages of a current that lasts until a time, s, and then what remains.
pub fn key_off(rate_hz: f64, seconds: f64, stages: &[(f64, f64)], remains: f64) -> Vec<f64> {
    (0..(seconds * rate_hz) as usize)
        .map(|i| {
            let t = i as f64 / rate_hz;
            let stage = stages.iter().find(|(until, _)| t < *until);
            stage.map_or(remains, |(_, amps)| *amps)
        })
        .collect()
}

fn cranking() -> Recording {
    let start = Start {
        ground: 0.0078,
        ..Default::default()
    };
    let rate = 2_000.0;
    let traces = start.attempt(rate, 5.5, (1.0, 5.2));
    let random = &mut Noise::new(20_260_201);
    recording(rate, traces.channels(1.2, random))
}

fn charging() -> Recording {
    let alternator = Alternator {
        held_v: 14.32,
        electrical_hz: 224.0,
        ripple_share: 0.045,
        open_diode: false,
    };
    let rate = 20_000.0;
    let volts = alternator.voltage(rate, 3.0);
    let amps: Vec<f64> = volts.iter().map(|v| -9.0 - 12.0 * (v - 14.32)).collect();
    let random = &mut Noise::new(20_260_202);
    recording(
        rate,
        vec![
            channel(
                "Battery voltage",
                "battery-voltage",
                "V",
                &volts,
                (20.0, 0.004),
                random,
            ),
            channel(
                "Battery current",
                "battery-current",
                "A",
                &amps,
                (100.0, 0.05),
                random,
            ),
        ],
    )
}

fn parked() -> Recording {
    let stages = [(20.0, 14.5), (95.0, 4.3), (420.0, 1.9), (930.0, 0.62)];
    let amps = key_off(2.0, 2_700.0, &stages, 0.019);
    let random = &mut Noise::new(20_260_203);
    recording(
        2.0,
        vec![channel(
            "Battery current",
            "battery-current",
            "A",
            &amps,
            (20.0, 0.004),
            random,
        )],
    )
}

/// The demo job's files.
pub fn folder() -> JobFolder {
    let mut folder = JobFolder::default();
    let csv = CsvDialect::default();
    let mut start = folder.add_csv("start.csv", &cranking(), &csv);
    start.engine = Some(EngineState::Cranking);
    let mut running = folder.add_wav("charging at idle.wav", &charging(), WavSamples::Int24);
    running.engine = Some(EngineState::Running);
    let mut off = folder.add_csv("parked.csv", &parked(), &csv);
    off.engine = Some(EngineState::Off);
    off.state = Some(CaptureState::KeyOff);
    let mut job = VISIT.job_file(UnitSection {
        battery_ah: Some(80.0),
        battery_cca_a: Some(720.0),
        cylinders: Some(4),
        alternator_poles: Some(12),
        pulley_ratio: Some(2.7),
        ..Default::default()
    });
    job.captures = vec![start, running, off];
    with_job_file(folder, &job)
}
