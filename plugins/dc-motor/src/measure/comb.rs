//! Lines below the commutation ripple that repeat with the turn: a bar, coil or brush that carries otherwise than the others
//! at each pass, or a load that is heavier at one place.
//!
//! With V = R i + k w and J dw/dt = k i - T a load that varies by a share of its mean at a frequency f leaves that share on the
//! current, divided by sqrt(1 + (2 pi f tau)^2), where tau = J R / k^2 is the time constant of the start: the inertia carries
//! the rotor over a heavy place. A current that varies by more than the whole load could make it vary has an electrical cause.

use super::commutation::CLEAR;
use super::lines::SteadyLines;
use plugin_sdk::signal::spectrum::Line;
use std::f64::consts::TAU;

/// Slowest repetition that is looked for, Hz.
const SLOWEST_HZ: f64 = 8.0;
/// Orders that are looked at.
const ORDERS: usize = 60;
/// Strongest lines that a repetition rate is found from, and orders of it that they may be.
const STRONGEST: usize = 6;
const LOW_ORDERS: usize = 4;
/// First orders that a commutation that is uneven at one place shows, and the least share of the mean current of each: what
/// happens at one place of the turn is short, and what is short has many orders.
const FIRST: usize = 3;
const LEAST_SHARE: f64 = 0.004;

/// Lines at a repetition rate and its multiples.
#[derive(Debug, Clone, PartialEq)]
pub struct Comb {
    /// Repetition rate, Hz.
    pub hz: f64,
    /// Amplitudes of its orders from the first on, as shares of the mean current; 0 where no line stands clear.
    pub orders: Vec<f64>,
}

impl Comb {
    /// Root of the sum of the squares of the orders below `ripple`, as a share of the mean current.
    pub fn swing(&self, ripple: usize) -> f64 {
        let below = self.orders.iter().take(ripple.saturating_sub(1));
        below.map(|a| a * a).sum::<f64>().sqrt()
    }

    /// Height of an order over the higher of its neighbours, as the ripple of the commutation stands out of what a single bar
    /// leaves; 0 where it is none.
    pub fn stands_out(&self, order: usize) -> f64 {
        let at = |k: usize| self.orders.get(k.wrapping_sub(1)).copied().unwrap_or(0.0);
        if order < LOW_ORDERS || order >= self.orders.len() {
            return 0.0;
        }
        at(order) / at(order - 1).max(at(order + 1)).max(LEAST_SHARE / 4.0)
    }

    /// True where the first orders are all there.
    pub fn is_rich(&self) -> bool {
        self.orders.len() >= FIRST && self.orders[..FIRST].iter().all(|a| *a > LEAST_SHARE)
    }

    /// Share of its mean by which a load would have to vary to leave the first order on the current, for a start of the time
    /// constant `tau_s`.
    pub fn load(&self, tau_s: f64) -> f64 {
        load_variation(self.orders.first().copied().unwrap_or(0.0), self.hz, tau_s)
    }
}

/// Share of its mean by which a load varies that leaves a line of the share `of_current` of the mean current at `hz`.
pub fn load_variation(of_current: f64, hz: f64, tau_s: f64) -> f64 {
    of_current * (1.0f64).hypot(TAU * hz * tau_s)
}

/// Finds the repetition rate whose multiples hold most of the lines of a steady current. `others` are frequencies of pick-up
/// and of a switched supply, Hz. `None` without lines.
pub fn comb(steady: &SteadyLines, others: &[f64]) -> Option<Comb> {
    let (step_hz, level) = (steady.seen.step_hz, steady.level);
    let highest = 0.48 / steady.step_s;
    let width = 1.5 * step_hz;
    let lines: Vec<Line> = steady
        .between((4.0 * step_hz, highest), CLEAR)
        .into_iter()
        .filter(|l| !others.iter().any(|p| (p - l.hz).abs() < width))
        .collect();
    let near = |hz: f64| {
        let within = lines.iter().filter(|l| (l.hz - hz).abs() < width);
        within.map(|l| l.amplitude / level).fold(0.0, f64::max)
    };
    let orders = |hz: f64| -> Vec<f64> {
        let count = ((highest / hz) as usize).min(ORDERS);
        (1..=count).map(|k| near(k as f64 * hz)).collect()
    };
    let strongest = lines.iter().take(STRONGEST);
    let rates = strongest.flat_map(|l| (1..=LOW_ORDERS).map(move |k| l.hz / k as f64));
    let all: Vec<Comb> = rates
        .filter(|hz| *hz >= SLOWEST_HZ.max(4.0 * width))
        .map(|hz| Comb {
            hz,
            orders: orders(hz),
        })
        .collect();
    let held = |c: &Comb| c.orders.iter().map(|a| a * a).sum::<f64>();
    let most = all.iter().map(held).fold(0.0, f64::max);
    // A part of the rate holds the same lines: the highest that holds nearly all of them is the rate.
    let fits = all.into_iter().filter(|c| held(c) > 0.95 * most);
    fits.max_by(|a, b| a.hz.total_cmp(&b.hz))
}

/// Amplitude of a line once a turn, as a share of the mean current, and the least that would have been seen. `None` where so
/// slow a turn is no line of its own.
pub fn once_a_turn(steady: &SteadyLines, turn_hz: f64) -> Option<(f64, f64)> {
    let (seen, level) = (&steady.seen, steady.level);
    if turn_hz < 6.0 * seen.step_hz {
        return None;
    }
    let least = CLEAR * seen.noise(turn_hz, 30.0 * seen.step_hz) / level;
    let near = 1.5 * seen.step_hz;
    let lines = steady.between((turn_hz - near, turn_hz + near), CLEAR);
    let line = lines.first().map_or(0.0, |l| l.amplitude / level);
    Some((line, least))
}
