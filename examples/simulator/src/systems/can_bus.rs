//! A CAN bus of four nodes: the display of an airport baggage tractor freezes since a towing camera was fitted, and the
//! display was replaced. The plug of the bus at the camera's end is off, and with it the terminator behind it.
//!
//! Model: a dominant driver is two switches with a diode and a resistance each between the supply and the lines, loaded by
//! the terminators; a recessive bus discharges its capacitance through them (Corrigan, "Introduction to the Controller
//! Area Network", application report SLOA101, and ISO 11898-2; named from memory). Frames are built after ISO 11898-1:
//! bit stuffing, CRC-15, acknowledgement.

use super::invented::{Visit, channel, recording, with_job_file};
use crate::csv::CsvDialect;
use crate::folder::JobFolder;
use crate::noise::Noise;
use crate::recorder::Recording;
use model::job_file::{EngineState, UnitSection};
use std::fmt::Write;

const VISIT: Visit = Visit {
    number: "D-0111",
    customer: "Example Airport Ground Services (invented)",
    vin: "EXAMPLE00K0TUG027",
    model: "Baggage tractor 27",
    year: 2020,
    odometer_km: 14_300.0,
    system: "can-bus",
    concern: "The display freezes and comes back by itself, mostly in rain, since a towing camera was fitted. The display \
              was replaced; no change.",
};

const BIT_RATE: f64 = 250_000.0;

/// A node and what it sends.
#[derive(Debug, Clone, Copy)]
pub struct Node {
    /// Identifier of 11 bits.
    pub id: u32,
    /// Time from one frame to the next, s.
    pub period: f64,
    /// First frame, s.
    pub first: f64,
    /// Resistance of each of its two switches, ohm.
    pub switch: f64,
}

const NODES: [Node; 4] = [
    Node {
        id: 0x0C4,
        period: 0.005,
        first: 0.0011,
        switch: 21.0,
    },
    Node {
        id: 0x1A8,
        period: 0.010,
        first: 0.0014,
        switch: 24.0,
    },
    Node {
        id: 0x2D0,
        period: 0.020,
        first: 0.0052,
        switch: 22.5,
    },
    Node {
        id: 0x3B1,
        period: 0.010,
        first: 0.0023,
        switch: 25.0,
    },
];
/// Supply of the nodes and forward voltage of the diode of a switch, V.
const SUPPLY: f64 = 5.0;
const DIODE: f64 = 0.72;
/// Terminator, ohm.
const TERMINATOR: f64 = 120.0;
/// Capacitance between the lines, F.
const CAPACITANCE: f64 = 0.9e-9;
/// Time constant of a rising dominant edge, s.
const RISE: f64 = 40e-9;

/// Data of the n-th frame of a node: a counter and values that change slowly.
fn data(node: &Node, n: u32) -> [u8; 8] {
    let slow = (f64::from(n) * node.period).sin();
    let level = (128.0 + 100.0 * slow) as u8;
    [
        (n % 256) as u8,
        level,
        0xFF,
        0x00,
        0x7D,
        level / 2,
        0x00,
        (node.id & 0xFF) as u8,
    ]
}

/// Bits of a frame from its start to its end, 0 dominant, and the number of the acknowledge slot's bit.
fn bits(id: u32, data: &[u8]) -> (Vec<u8>, usize) {
    let field = |value: u32, length: u32| (0..length).rev().map(move |k| (value >> k & 1) as u8);
    // Start, identifier, data frame with 11 bits.
    let mut plain: Vec<u8> = vec![0];
    plain.extend(field(id, 11));
    plain.extend([0, 0, 0]);
    plain.extend(field(data.len() as u32, 4));
    plain.extend(data.iter().flat_map(|byte| field(u32::from(*byte), 8)));
    let crc = plain.iter().fold(0u32, |crc, bit| {
        let odd = u32::from(*bit) ^ (crc >> 14 & 1);
        (crc << 1 & 0x7FFF) ^ (odd * 0x4599)
    });
    plain.extend(field(crc, 15));
    let (mut sent, mut run): (Vec<u8>, usize) = (Vec::new(), 0);
    for bit in plain {
        run = if sent.last() == Some(&bit) {
            run + 1
        } else {
            1
        };
        sent.push(bit);
        if run == 5 {
            sent.push(1 - bit);
            run = 1;
        }
    }
    // Delimiter, acknowledgement by the others, delimiter, end of frame.
    let acknowledge = sent.len() + 1;
    sent.extend([1, 0, 1]);
    sent.extend([1; 7]);
    (sent, acknowledge)
}

/// A frame as it goes over the bus.
struct Sent {
    node: usize,
    at: f64,
    data: [u8; 8],
}

/// Frames of all nodes up to a time, s: the lowest identifier of those that wait goes first.
fn traffic(seconds: f64) -> Vec<Sent> {
    let mut counts = [0u32; NODES.len()];
    let (mut free, mut sent) = (0.0f64, Vec::new());
    loop {
        let due = |k: usize| NODES[k].first + f64::from(counts[k]) * NODES[k].period;
        let earliest = (0..NODES.len()).map(due).fold(f64::INFINITY, f64::min);
        let at = free.max(earliest);
        if at >= seconds {
            return sent;
        }
        // Nodes stand in the order of their identifiers.
        let Some(node) = (0..NODES.len()).find(|&k| due(k) <= at) else {
            return sent;
        };
        let data = data(&NODES[node], counts[node]);
        counts[node] += 1;
        let length = bits(NODES[node].id, &data).0.len() + 3;
        free = at + length as f64 / BIT_RATE;
        sent.push(Sent { node, at, data });
    }
}

/// Condition of the two lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lines {
    /// Both terminators are connected.
    Whole,
    /// One terminator is not.
    OneTerminator,
    /// CAN high touches ground.
    HighAtGround,
    /// The probes, or the lines at the recorder's place, are exchanged.
    Exchanged,
}

impl Lines {
    /// Load between the lines, ohm.
    fn load(self) -> f64 {
        match self {
            Lines::OneTerminator => TERMINATOR,
            _ => TERMINATOR / 2.0,
        }
    }

    /// Voltages of the lines, V, that a sound pair `apart` V apart would have.
    fn levels(self, apart: f64) -> (f64, f64) {
        let (high, low) = (SUPPLY / 2.0 + apart / 2.0, SUPPLY / 2.0 - apart / 2.0);
        match self {
            Lines::Whole | Lines::OneTerminator => (high, low),
            Lines::HighAtGround => (0.1 * apart, 0.0),
            Lines::Exchanged => (low, high),
        }
    }
}

/// Differential of one driver or of several alike, V: switches, diodes and load in series.
fn dominant(switch: f64, load: f64) -> f64 {
    (SUPPLY - 2.0 * DIODE) * load / (load + 2.0 * switch)
}

/// The lines during `seconds` of traffic; `noise` V on either channel.
pub fn lines(
    condition: Lines,
    rate: f64,
    seconds: f64,
    noise: f64,
    random: &mut Noise,
) -> Recording {
    let load = condition.load();
    // Differential that is driven, bit by bit.
    let mut driven = vec![0.0; (seconds * BIT_RATE) as usize];
    for frame in traffic(seconds) {
        let node = &NODES[frame.node];
        let (bits, acknowledge) = bits(node.id, &frame.data);
        let first = (frame.at * BIT_RATE).round() as usize;
        for (k, bit) in bits.iter().enumerate().filter(|(_, bit)| **bit == 0) {
            let switch = if k == acknowledge {
                23.0 / 3.0
            } else {
                node.switch
            };
            if let Some(volts) = driven.get_mut(first + k) {
                *volts += f64::from(1 - bit) * dominant(switch, load);
            }
        }
    }
    let step = 1.0 / rate;
    let mut apart = 0.0;
    let (mut high, mut low) = (Vec::new(), Vec::new());
    for sample in 0..(seconds * rate) as usize {
        let bit = (sample as f64 * step * BIT_RATE) as usize;
        let target = driven.get(bit).copied().unwrap_or(0.0);
        let time = if target > apart {
            RISE
        } else {
            load * CAPACITANCE
        };
        apart += (target - apart) * (1.0 - (-step / time).exp());
        let (of_high, of_low) = condition.levels(apart);
        high.push(of_high);
        low.push(of_low);
    }
    recording(
        rate,
        vec![
            channel("CAN high", "can-high", "V", &high, (10.0, noise), random),
            channel("CAN low", "can-low", "V", &low, (10.0, noise), random),
        ],
    )
}

/// The traffic of some seconds as a log: time, interface, identifier and data of each frame. A node of `silent` sends
/// nothing from one time to another, s.
pub fn log(seconds: f64, silent: Option<(usize, f64, f64)>) -> String {
    let mut text = String::new();
    let heard = |frame: &Sent| {
        silent.is_none_or(|(node, from, to)| frame.node != node || !(from..to).contains(&frame.at))
    };
    for frame in traffic(seconds).into_iter().filter(heard) {
        let id = NODES[frame.node].id;
        let data: String = frame.data.iter().fold(String::new(), |mut text, byte| {
            let _ = write!(text, "{byte:02X}");
            text
        });
        let _ = writeln!(
            text,
            "({:.6}) can0 {id:03X}#{data}",
            1_773_100_000.0 + frame.at
        );
    }
    text
}

/// The demo job's files.
pub fn folder() -> JobFolder {
    let mut folder = JobFolder::default();
    let random = &mut Noise::new(20_260_311);
    let recording = lines(Lines::OneTerminator, 5_000_000.0, 0.03, 0.015, random);
    let mut lines = folder.add_csv("bus-lines.csv", &recording, &CsvDialect::default());
    lines.engine = Some(EngineState::Running);
    folder
        .files
        .insert("bus.log".into(), log(12.0, None).into_bytes());
    let mut job = VISIT.job_file(UnitSection {
        bit_rate: Some(BIT_RATE / 1_000.0),
        ..Default::default()
    });
    job.captures = vec![lines];
    with_job_file(folder, &job)
}
