//! Polarity of a coil before a ring with a gap: the way in which its signal crosses the gap tells it.
//!
//! Control units take the steep crossing at a tooth's middle, downwards by common practice. With the leads interchanged they
//! take the slow crossing in the gap, which moves with speed and load.

use crate::sensors::{self, Law, Place};
use plugin_sdk::signal::teeth::gap_crossings;
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Observation, Output};

/// The analyzer.
pub struct Polarity;

/// Gaps that must be seen.
const LEAST: u32 = 5;

/// Share of them that must agree.
const AGREEING: f64 = 0.9;

impl Analyzer for Polarity {
    const DECLARATION: Declaration = Declaration {
        id: "sensor-polarity",
        name: "Polarity of coil sensors",
        needs: sensors::NEEDS,
        uses: &[sensors::ENGINE],
        inputs: crate::TRAINS,
        kinds: &[("sensor-polarity", "%")],
        messages: &[
            ("sensor-polarity-usual", &["gaps"]),
            ("sensor-polarity-reversed", &["gaps"]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        for sensor in sensors::read(input) {
            let judged = sensor.law == Law::Coil && sensor.place == Place::Engine;
            let Some(segment) = sensor.longest().filter(|_| judged && sensor.is_own()) else {
                continue;
            };
            let c = gap_crossings(&sensor.channel.values(), sensor.channel.time, &sensor.train);
            let gaps = c.rising + c.falling;
            let (message, count, grade) = match c.rising >= c.falling {
                true => ("sensor-polarity-usual", c.rising, Grade::Normal),
                false => ("sensor-polarity-reversed", c.falling, Grade::Abnormal),
            };
            let share = f64::from(count) / f64::from(gaps.max(1));
            if gaps < LEAST || share < AGREEING {
                continue;
            }
            // Counted; the standard uncertainty of a share of n is the root of p (1 - p) / n.
            let uncertainty = (share * (1.0 - share) / f64::from(gaps)).sqrt();
            out.add(
                Observation::new("sensor-polarity", message)
                    .about(sensor.role())
                    .span(segment.start_s, segment.end_s)
                    .value(100.0 * share, 100.0 * uncertainty, "%")
                    .arg("gaps", gaps)
                    .grade(grade),
            );
        }
        Ok(())
    }
}
