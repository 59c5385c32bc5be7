//! Two wheel sensors before their rings of teeth: the stability lamp of a ski shuttle that comes on when it rolls away from
//! the stop, although both sensors were replaced. One ring has lost a tooth.
//!
//! Model: a coil gives the change of its flux with time (Faraday), and the flux at a tooth's edge follows a hyperbolic
//! tangent: [`SpeedSensor`], [`Wheel`].

use super::invented::{Visit, channel, recording, with_job_file};
use crate::csv::CsvDialect;
use crate::folder::JobFolder;
use crate::noise::Noise;
use crate::recorder::{Recorded, Recording};
use crate::sensor::{Coil, SpeedSensor};
use crate::traces::Rotation;
use crate::wheel::Wheel;
use model::SensorKind;
use model::job_file::UnitSection;

const VISIT: Visit = Visit {
    number: "D-0112",
    customer: "Example Valley Ski Shuttle (invented)",
    vin: "EXAMPLE00K0BUS117",
    model: "Shuttle 9",
    year: 2018,
    odometer_km: 143_200.0,
    system: "speed-sensor",
    concern: "The stability lamp comes on when the shuttle rolls away from a stop. Both rear sensors were replaced; the \
              lamp comes back.",
};

/// Positions of either ring.
const TEETH: u32 = 44;

/// Samples per second and length, s, of the recording.
const RATE: f64 = 5_000.0;
const SECONDS: f64 = 9.0;

/// A wheel that rolls away, holds its speed and slows down, `faster` than the other.
fn rolls(faster: f64) -> Rotation {
    let mut of = Rotation::default();
    let mut turns = 0.2;
    for i in 0..(SECONDS * RATE) as usize {
        let t = i as f64 / RATE;
        let up = ((t - 0.8) / 2.5).clamp(0.0, 1.0);
        let down = ((SECONDS - 0.4 - t) / 2.0).clamp(0.0, 1.0);
        let smooth = |x: f64| x * x * (3.0 - 2.0 * x);
        let wander = 1.0 + 0.01 * (1.7 * t).sin();
        let rpm = 210.0 * faster * smooth(up) * smooth(down) * wander;
        turns += rpm / 60.0 / RATE;
        of.push(rpm, turns);
    }
    of
}

fn wheel(
    name: &str,
    role: &'static str,
    of: &Rotation,
    ring: Wheel,
    noise: &mut Noise,
) -> Recorded {
    let sensor = SpeedSensor {
        level: 2.2,
        noise: 0.0,
        coil: Coil {
            run_out: 0.05,
            ..Coil::default()
        },
        ..SpeedSensor::reluctance(TEETH).with_wheel(ring)
    };
    let volts = sensor.signal(of, RATE, 0.0, noise);
    let mut recorded = channel(name, role, "V", &volts, (2.0, 0.004), noise);
    recorded.section.sensor = Some(SensorKind::Vr);
    recorded
}

fn rear_wheels() -> Recording {
    let noise = &mut Noise::new(20_260_117);
    let mut damaged = Wheel::even(TEETH, 0.5);
    damaged.break_off(17);
    let (left, right) = (rolls(1.0), rolls(1.004));
    recording(
        RATE,
        vec![
            wheel(
                "Rear left",
                "wheel-speed-3",
                &left,
                Wheel::even(TEETH, 0.5),
                noise,
            ),
            wheel("Rear right", "wheel-speed-4", &right, damaged, noise),
        ],
    )
}

/// The demo job's files.
pub fn folder() -> JobFolder {
    let mut folder = JobFolder::default();
    let run = folder.add_csv("rolls away.csv", &rear_wheels(), &CsvDialect::default());
    let mut job = VISIT.job_file(UnitSection {
        teeth: Some(TEETH),
        missing_teeth: Some(0),
        ..Default::default()
    });
    job.captures = vec![run];
    with_job_file(folder, &job)
}
