//! Injectors with a moving armature: the engine of an ice-cream van runs unevenly although plugs and ignition coils were
//! replaced. The armature of the third injector sticks on its seat.
//!
//! Model: flux linkage L(x) i of a magnetic circuit whose gap closes with the stroke x, u = R i + d(L i)/dt, force
//! i^2/2 dL/dx against a spring (Fitzgerald, Kingsley & Umans, "Electric Machinery", electromechanical energy conversion;
//! named from memory). At switch-off a clamp lets the driven side rise until the current is gone.

use super::invented::{Visit, channel, recording, with_job_file};
use crate::csv::CsvDialect;
use crate::folder::JobFolder;
use crate::noise::Noise;
use crate::ode::rk4;
use crate::recorder::{Recorded, Recording};
use model::job_file::{EngineState, UnitSection};

const VISIT: Visit = Visit {
    number: "D-0110",
    customer: "Example Ices (invented)",
    vin: "EXAMPLE00K0VAN048",
    model: "Ice-cream van 3",
    year: 2014,
    odometer_km: 88_400.0,
    system: "coil",
    concern: "The engine shakes at idle and pulls badly uphill. Spark plugs and ignition coils were replaced; no change.",
};

/// A solenoid valve with its driver.
#[derive(Debug, Clone, Copy)]
pub struct Injector {
    /// Resistance of winding and wiring, ohm.
    pub resistance: f64,
    /// Inductance on its seat, H.
    pub inductance: f64,
    /// Inductance at the end of the stroke over that on the seat; 1 for a coil without an armature.
    pub ratio: f64,
    /// Current at which the armature leaves its seat, A.
    pub pull_in: f64,
    /// Time that the stroke takes at about that force, s.
    pub stroke_time: f64,
    /// True where the armature never leaves its seat.
    pub sticks: bool,
    /// Voltage that the clamp lets the driven side rise to, V.
    pub clamp: f64,
    /// Current that the driver lets flow at most, A; infinite for a driver that only switches.
    pub limit: f64,
}

/// Stroke, m; drops out of what the current shows.
const STROKE: f64 = 1e-4;
/// Stiffness of the spring, as a share of its preload over the stroke.
const STIFFNESS: f64 = 0.15;

impl Injector {
    /// Gap that the magnetic path keeps at the end of the stroke, m: L(x) = L(end) / (1 + (STROKE - x) / gap).
    fn gap(&self) -> f64 {
        STROKE / (self.ratio - 1.0)
    }

    fn inductance_at(&self, x: f64) -> f64 {
        if self.ratio <= 1.0 {
            return self.inductance;
        }
        self.inductance * self.ratio / (1.0 + (STROKE - x) / self.gap())
    }

    fn slope_at(&self, x: f64) -> f64 {
        if self.ratio <= 1.0 {
            return 0.0;
        }
        let closing = 1.0 + (STROKE - x) / self.gap();
        self.inductance * self.ratio / self.gap() / (closing * closing)
    }

    /// Current, A, at the sample rate, of a valve that is on where `on` says so, at a supply of `volts`.
    pub fn run(
        &self,
        rate_hz: f64,
        samples: usize,
        volts: f64,
        on: impl Fn(f64) -> bool,
    ) -> Vec<f64> {
        let substeps = 20;
        let step = 1.0 / rate_hz / f64::from(substeps);
        let preload = 0.5 * self.pull_in * self.pull_in * self.slope_at(0.0);
        let mass = preload * self.stroke_time * self.stroke_time / (4.0 * STROKE);
        // Current, place, speed.
        let mut state = [0.0, 0.0, 0.0];
        let mut amps = Vec::with_capacity(samples);
        for sample in 0..samples {
            amps.push(state[0]);
            for k in 0..substeps {
                let t = sample as f64 / rate_hz + f64::from(k) * step;
                let across = match on(t) {
                    true if state[0] >= self.limit => self.resistance * self.limit,
                    true => volts,
                    false if state[0] > 0.0 => volts - self.clamp,
                    false => 0.0,
                };
                state = rk4(state, step, |&[current, x, speed]| {
                    let back = self.slope_at(x) * speed * current;
                    let di = (across - self.resistance * current - back) / self.inductance_at(x);
                    let pull = 0.5 * current * current * self.slope_at(x);
                    let force = pull - preload * (1.0 + STIFFNESS * x / STROKE);
                    match self.sticks {
                        true => [di, 0.0, 0.0],
                        false => [di, speed, force / mass],
                    }
                });
                state[0] = state[0].max(0.0);
                // Seat and stop.
                if !(0.0..=STROKE).contains(&state[1]) {
                    state[1] = state[1].clamp(0.0, STROKE);
                    state[2] = 0.0;
                }
            }
        }
        amps
    }
}

/// The supply voltage beside coils, as it is recorded.
pub fn supply(volts: f64, samples: usize, random: &mut Noise) -> Recorded {
    let values = vec![volts; samples];
    channel(
        "Supply",
        "supply-voltage",
        "V",
        &values,
        (20.0, 0.02),
        random,
    )
}

fn idle() -> Recording {
    let (rate, seconds, volts) = (50_000.0, 0.6, 13.9);
    let (cycle, duration) = (0.15, 4.2e-3);
    let random = &mut Noise::new(20_260_310);
    let injector = |n: u32| Injector {
        resistance: 13.6 + 0.1 * f64::from(n),
        inductance: 12.1e-3 + 0.1e-3 * f64::from(n),
        ratio: 1.5,
        pull_in: 0.46,
        stroke_time: 0.4e-3,
        sticks: n == 3,
        clamp: 62.0,
        limit: f64::INFINITY,
    };
    let samples = (seconds * rate) as usize;
    let mut channels = Vec::new();
    for n in 1..=4 {
        // Firing order 1 3 4 2.
        let place = [0.0, 3.0, 1.0, 2.0][n as usize - 1];
        let from = 0.02 + place * cycle / 4.0;
        let on = |t: f64| t >= from && (t - from).rem_euclid(cycle) < duration;
        let amps = injector(n).run(rate, samples, volts - 0.2, on);
        let role = [
            "coil-current-1",
            "coil-current-2",
            "coil-current-3",
            "coil-current-4",
        ];
        let name = format!("Injector {n}");
        channels.push(channel(
            &name,
            role[n as usize - 1],
            "A",
            &amps,
            (4.0, 0.004),
            random,
        ));
    }
    channels.push(supply(volts, samples, random));
    recording(rate, channels)
}

/// The demo job's files.
pub fn folder() -> JobFolder {
    let mut folder = JobFolder::default();
    let mut idling = folder.add_csv("idle.csv", &idle(), &CsvDialect::default());
    idling.engine = Some(EngineState::Running);
    let mut job = VISIT.job_file(UnitSection {
        coil_ohm: Some(13.8),
        ..Default::default()
    });
    job.captures = vec![idling];
    with_job_file(folder, &job)
}
