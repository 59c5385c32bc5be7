//! A CAN bus made of circuits and controllers, for tests: nothing of it is taken from the code under test but the bits
//! of a frame, which tests/bit_strings.rs holds against strings that others made.
//!
//! Circuit: nodal analysis with backward Euler integration (J. Vlach and K. Singhal, "Computer Methods for Circuit
//! Analysis and Design", chapters 4 and 9). Output stages: a source of 5 V behind a diode and a resistance pulls CAN high
//! up, its mirror image pulls CAN low down; 30 kilohm to half the supply in either line otherwise (structure and values of
//! TCAN1042-Q1, SLLSES9C). Controllers: arbitration, acknowledge, error flags, error counters and bus-off as in ISO
//! 11898-1, one bit at a time.
#![allow(dead_code, unused_imports)]

mod circuit;
mod controller;

pub use circuit::{Circuit, Fault, Line, Stage};
pub use controller::Controller;

use baybrief_plugin_can_bus::measure::frame::{Frame, Identifier};
use plugin_sdk::testing::Random;

/// Random numbers of this model.
pub fn seeded(seed: u64) -> Random {
    Random::new(seed, 0x1234_5678)
}

/// Parameters of a bus.
pub struct Bus {
    pub circuit: Circuit,
    pub controllers: Vec<Controller>,
    pub bit_rate: f64,
    /// Share of idle bits in which a node wants to send.
    pub eagerness: f64,
    /// A node that spoils frames of another one now and then: both, and the chance in each bit.
    pub disturber: Option<(usize, usize, f64)>,
}

/// Recording of a bus.
pub struct Recording {
    pub high: Vec<f32>,
    pub low: Vec<f32>,
    pub rate_hz: f64,
    /// Frames that were sent whole and acknowledged, with the sample of their start of frame.
    pub sent: Vec<(Frame, f64)>,
    /// Frames that were broken off by anybody.
    pub broken: usize,
}

/// Parameters of the recorder.
pub struct Recorder {
    pub rate_hz: f64,
    /// Standard deviation of the noise, V.
    pub noise: f64,
    /// Step of the converter, V.
    pub step: f64,
    /// Offset of the recorder's ground above that of the bus, V.
    pub ground: f64,
    pub swapped: bool,
}

impl Default for Recorder {
    fn default() -> Self {
        Recorder {
            rate_hz: 10e6,
            noise: 0.02,
            step: 0.02,
            ground: 0.0,
            swapped: false,
        }
    }
}

const STEPS_A_BIT: usize = 40;

impl Bus {
    /// A sound bus of `nodes` nodes that send three identifiers each.
    pub fn sound(nodes: usize, bit_rate: f64, random: &mut Random) -> Bus {
        let mut stages = Vec::new();
        let mut controllers = Vec::new();
        for k in 0..nodes {
            stages.push(Stage::new(random, usize::from(k >= nodes.div_ceil(2))));
            let extended = random.next_u32().is_multiple_of(4);
            let ids = (0..3)
                .map(|_| {
                    let number = random.next_u32() & if extended { 0x1FFF_FFFF } else { 0x7EF };
                    Identifier { number, extended }
                })
                .collect();
            controllers.push(Controller::new(ids));
        }
        Bus {
            circuit: Circuit {
                stages,
                terminators: [Some(120.0), Some(120.0)],
                capacitance: random.between(0.2e-9, 0.5e-9),
                fault: None,
            },
            controllers,
            bit_rate,
            eagerness: 0.004,
            disturber: None,
        }
    }

    /// Runs for `bits` bits and records.
    pub fn record(&mut self, bits: usize, recorder: &Recorder, random: &mut Random) -> Recording {
        let bit_s = 1.0 / self.bit_rate;
        let step_s = bit_s / STEPS_A_BIT as f64;
        let mut state = self.circuit.at_rest();
        let (mut high, mut low) = (Vec::new(), Vec::new());
        let mut recording = Recording {
            high: Vec::new(),
            low: Vec::new(),
            rate_hz: recorder.rate_hz,
            sent: Vec::new(),
            broken: 0,
        };
        for k in 0..bits {
            let frames: Vec<Option<Frame>> = self.controllers.iter().map(|c| c.current()).collect();
            let drives: Vec<bool> = self.controllers.iter().map(Controller::drives).collect();
            for step in 0..STEPS_A_BIT {
                self.circuit.step(&mut state, &drives, step_s);
                high.push(state[0]);
                low.push(state[1]);
                if step == STEPS_A_BIT * 4 / 5 {
                    for (node, controller) in self.controllers.iter_mut().enumerate() {
                        controller.seen = !self.circuit.is_dominant(&state, node);
                    }
                }
            }
            let start = |bit: usize| bit as f64 * bit_s * recorder.rate_hz;
            for node in 0..self.controllers.len() {
                let wants = random.between(0.0, 1.0) < self.eagerness;
                let number = random.next_u32();
                let data = [random.next_u32(), random.next_u32()];
                let spoil = self.disturber.is_some_and(|(who, whose, chance)| {
                    who == node && frames[whose].is_some() && random.between(0.0, 1.0) < chance
                });
                let event = self.controllers[node].advance(&frames, wants, number, data, spoil);
                match event {
                    controller::Event::Sent(frame, length) => {
                        recording.sent.push((frame, start(k + 1 - length)));
                    }
                    controller::Event::Broken => recording.broken += 1,
                    controller::Event::None => {}
                }
            }
        }
        let samples = (bits as f64 * bit_s * recorder.rate_hz) as usize;
        let take = |trace: &[f64], random: &mut Random| -> Vec<f32> {
            (0..samples)
                .map(|i| {
                    let x = (i as f64 / recorder.rate_hz / step_s).min((trace.len() - 2) as f64);
                    let k = x as usize;
                    let v = trace[k] + (x - k as f64) * (trace[k + 1] - trace[k]);
                    let v = v - recorder.ground + recorder.noise * random.normal();
                    ((v / recorder.step).round() * recorder.step) as f32
                })
                .collect()
        };
        recording.high = take(&high, random);
        recording.low = take(&low, random);
        if recorder.swapped {
            std::mem::swap(&mut recording.high, &mut recording.low);
        }
        recording
    }
}
