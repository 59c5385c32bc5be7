//! Two wires in two halves, terminators, output stages and one fault.

use plugin_sdk::testing::Random;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Line {
    High,
    Low,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fault {
    /// A wire is interrupted between the halves.
    Open(Line),
    /// A wire of the near half lies at a voltage through a resistance, ohm.
    Short(Line, f64, f64),
    /// Both wires touch through a resistance, ohm.
    Together(f64),
}

/// A transceiver's output stage.
#[derive(Debug, Clone, Copy)]
pub struct Stage {
    /// 0: in the half where the recorder is, 1: in the other.
    pub half: usize,
    /// Supply, V.
    pub supply: f64,
    /// Drop of either diode with its transistor, V.
    pub drop: f64,
    /// Resistance of the high and the low side, ohm.
    pub ohm: [f64; 2],
    /// Its ground above that of the others, V.
    pub ground: f64,
    /// Its lines are exchanged.
    pub swapped: bool,
}

impl Stage {
    pub fn new(random: &mut Random, half: usize) -> Stage {
        Stage {
            half,
            supply: random.between(4.9, 5.1),
            drop: random.between(0.58, 0.68),
            ohm: [random.between(24.0, 30.0), random.between(24.0, 30.0)],
            ground: 0.0,
            swapped: false,
        }
    }
}

pub struct Circuit {
    pub stages: Vec<Stage>,
    /// Of the near and the far half, ohm.
    pub terminators: [Option<f64>; 2],
    /// Of each wire in each half, F.
    pub capacitance: f64,
    pub fault: Option<Fault>,
}

/// High near, low near, high far, low far, V.
pub type State = [f64; 4];

const BIAS_OHM: f64 = 30_000.0;
const WIRE_SIEMENS: f64 = 10.0;

impl Circuit {
    pub fn at_rest(&self) -> State {
        let mut state = [2.5; 4];
        let idle = vec![false; self.stages.len()];
        (0..2_000).for_each(|_| self.step(&mut state, &idle, 1e-5));
        state
    }

    /// True where node `k` sees a dominant bus.
    pub fn is_dominant(&self, state: &State, k: usize) -> bool {
        let stage = &self.stages[k];
        let d = state[2 * stage.half] - state[2 * stage.half + 1];
        if stage.swapped { -d > 0.7 } else { d > 0.7 }
    }

    /// One step of backward Euler: (G + C/h) v = i + C/h v0, with the diodes' states found by iteration.
    pub fn step(&self, state: &mut State, drives: &[bool], h: f64) {
        let mut g = [[0.0f64; 4]; 4];
        let mut i = [0.0f64; 4];
        let to_voltage = |g: &mut [[f64; 4]; 4], i: &mut [f64; 4], k: usize, s: f64, v: f64| {
            g[k][k] += s;
            i[k] += s * v;
        };
        let between = |g: &mut [[f64; 4]; 4], a: usize, b: usize, s: f64| {
            g[a][a] += s;
            g[b][b] += s;
            g[a][b] -= s;
            g[b][a] -= s;
        };
        for (k, &volts) in state.iter().enumerate() {
            to_voltage(&mut g, &mut i, k, self.capacitance / h, volts);
        }
        for (half, terminator) in self.terminators.iter().enumerate() {
            if let Some(ohm) = terminator {
                between(&mut g, 2 * half, 2 * half + 1, 1.0 / ohm);
            }
        }
        let open = |line| self.fault == Some(Fault::Open(line));
        between(
            &mut g,
            0,
            2,
            if open(Line::High) { 1e-7 } else { WIRE_SIEMENS },
        );
        between(
            &mut g,
            1,
            3,
            if open(Line::Low) { 1e-7 } else { WIRE_SIEMENS },
        );
        match self.fault {
            Some(Fault::Short(line, volts, ohm)) => to_voltage(
                &mut g,
                &mut i,
                usize::from(line == Line::Low),
                1.0 / ohm,
                volts,
            ),
            Some(Fault::Together(ohm)) => between(&mut g, 0, 1, 1.0 / ohm),
            _ => {}
        }
        for stage in &self.stages {
            for k in 0..2 {
                let middle = stage.ground + stage.supply / 2.0;
                to_voltage(&mut g, &mut i, 2 * stage.half + k, 1.0 / BIAS_OHM, middle);
            }
        }
        let mut conducts: Vec<[bool; 2]> = drives.iter().map(|&d| [d, d]).collect();
        for _ in 0..12 {
            let (mut gs, mut is) = (g, i);
            for (stage, conducts) in self.stages.iter().zip(&conducts) {
                let (up, down) = self.terminals(stage);
                if conducts[0] {
                    let v = stage.ground + stage.supply - stage.drop;
                    to_voltage(&mut gs, &mut is, up, 1.0 / stage.ohm[0], v);
                }
                if conducts[1] {
                    let v = stage.ground + stage.drop;
                    to_voltage(&mut gs, &mut is, down, 1.0 / stage.ohm[1], v);
                }
            }
            let v = solve(gs, is);
            let mut same = true;
            for ((stage, conducts), &drive) in self.stages.iter().zip(&mut conducts).zip(drives) {
                let (up, down) = self.terminals(stage);
                let now = [
                    drive && v[up] < stage.ground + stage.supply - stage.drop,
                    drive && v[down] > stage.ground + stage.drop,
                ];
                same &= *conducts == now;
                *conducts = now;
            }
            if same {
                *state = v;
                return;
            }
            *state = v;
        }
    }

    fn terminals(&self, stage: &Stage) -> (usize, usize) {
        let first = 2 * stage.half;
        if stage.swapped {
            (first + 1, first)
        } else {
            (first, first + 1)
        }
    }
}

/// Gaussian elimination; the matrix is diagonally dominant.
fn solve(mut a: [[f64; 4]; 4], mut b: [f64; 4]) -> State {
    for k in 0..4 {
        for r in k + 1..4 {
            let pivot = a[k];
            let f = a[r][k] / pivot[k];
            a[r].iter_mut().zip(pivot).for_each(|(v, p)| *v -= f * p);
            b[r] -= f * b[k];
        }
    }
    for k in (0..4).rev() {
        for c in k + 1..4 {
            b[k] -= a[k][c] * b[c];
        }
        b[k] /= a[k][k];
    }
    b
}
