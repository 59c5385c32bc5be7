//! A direct-current motor integrated from its equations: V = R i + L di/dt + k w and J dw/dt = k i - T (any textbook on
//! electric drives), fourth-order Runge-Kutta. The ripple comes from a resistance that each bar's passing of a brush
//! changes; an open bar raises it while it stands under one.

#![allow(dead_code)]

use baybrief_plugin_dc_motor::measure::commutation::ripples_a_turn;
use plugin_sdk::testing::noise;
use std::f64::consts::TAU;

/// Samples a second.
pub const RATE: f64 = 20_000.0;
/// Switching on, s.
pub const ON_S: f64 = 0.1;

/// A motor and its state.
#[derive(Clone, Copy, Debug)]
pub struct Motor {
    pub volts: f64,
    pub ohm: f64,
    pub wiring_ohm: f64,
    pub henry: f64,
    /// V s, or N m/A.
    pub constant: f64,
    pub inertia: f64,
    /// N m, whatever the speed.
    pub friction: f64,
    pub bars: u32,
    pub open_bar: bool,
    /// Share by which an open winding under a brush that is wider than a bar raises the resistance over one and a half bars.
    pub weak_bar: f64,
    /// Share of the friction by which the load rises and falls once a turn.
    pub uneven: f64,
    pub jammed: bool,
}

/// maxon 48 V motor, as quoted in a public parser: R 2.45 ohm, L 0.513 mH, 53.8 mN m/A, 34.7 g cm2, no load 8490 rpm at
/// 78.6 mA, stall 19.6 A, mechanical time constant 2.94 ms, 8.09 rpm/mN m, 13 segments.
pub const MAXON: Motor = Motor {
    volts: 48.0,
    ohm: 2.45,
    wiring_ohm: 0.0,
    henry: 0.513e-3,
    constant: 53.8e-3,
    inertia: 34.7e-7,
    friction: 53.8e-3 * 78.6e-3,
    bars: 13,
    open_bar: false,
    weak_bar: 0.0,
    uneven: 0.0,
    jammed: false,
};

/// A blower's motor, invented.
pub const BLOWER: Motor = Motor {
    volts: 13.5,
    ohm: 0.8,
    wiring_ohm: 0.02,
    henry: 0.4e-3,
    constant: 0.03,
    inertia: 6.0e-5,
    friction: 0.03 * 4.0,
    bars: 12,
    open_bar: false,
    weak_bar: 0.0,
    uneven: 0.0,
    jammed: false,
};

/// Channels of a recording.
pub struct Recorded {
    pub current: Vec<f32>,
    pub motor: Vec<f32>,
    pub supply: Vec<f32>,
}

/// Switched on at 0.1 s for `on_s`, then off for 0.3 s.
pub fn record(m: &Motor, on_s: f64) -> Recorded {
    let ripples = f64::from(ripples_a_turn(m.bars));
    let (mut i, mut w, mut angle) = (0.0, 0.0, 0.3);
    let inside = 10;
    let h = 1.0 / RATE / f64::from(inside);
    let mut out = Recorded {
        current: Vec::new(),
        motor: Vec::new(),
        supply: Vec::new(),
    };
    let mut noises = noise(4);
    let mut rough = |scale: f64| scale * noises.next().unwrap_or(0.0);
    for n in 0..((ON_S + on_s + 0.3) * RATE) as usize {
        let t = n as f64 / RATE;
        let on = (ON_S..ON_S + on_s).contains(&t);
        let ohm = |angle: f64| {
            let turn = (angle / TAU).rem_euclid(1.0);
            let under = m.open_bar
                && (turn * f64::from(m.bars) < 0.9
                    || ((turn + 0.5).fract()) * f64::from(m.bars) < 0.9);
            let beside =
                turn * f64::from(m.bars) < 1.5 || ((turn + 0.5).fract()) * f64::from(m.bars) < 1.5;
            let open = match under {
                true => 4.0,
                false if beside => 1.0 + m.weak_bar,
                false => 1.0,
            };
            m.ohm * (1.0 + 0.03 * (ripples * angle).cos()) * open
        };
        for _ in 0..inside {
            let rates = |i: f64, w: f64, angle: f64| {
                let loop_ohm = ohm(angle) + m.wiring_ohm;
                let volts = if on {
                    m.volts - loop_ohm * i - m.constant * w
                } else {
                    -i * 50.0
                };
                let friction = m.friction * (1.0 + m.uneven * angle.cos());
                let drag = if w > 0.0 {
                    friction
                } else {
                    (m.constant * i).min(friction)
                };
                let spin = if m.jammed {
                    0.0
                } else {
                    (m.constant * i - drag) / m.inertia
                };
                (volts / m.henry, spin, w)
            };
            let a = rates(i, w, angle);
            let b = rates(i + h / 2.0 * a.0, w + h / 2.0 * a.1, angle + h / 2.0 * a.2);
            let c = rates(i + h / 2.0 * b.0, w + h / 2.0 * b.1, angle + h / 2.0 * b.2);
            let d = rates(i + h * c.0, w + h * c.1, angle + h * c.2);
            i = (i + h / 6.0 * (a.0 + 2.0 * b.0 + 2.0 * c.0 + d.0)).max(0.0);
            w = (w + h / 6.0 * (a.1 + 2.0 * b.1 + 2.0 * c.1 + d.1)).max(0.0);
            angle += h / 6.0 * (a.2 + 2.0 * b.2 + 2.0 * c.2 + d.2);
        }
        let motor = if on {
            m.volts - m.wiring_ohm * i
        } else {
            m.constant * w
        };
        out.current.push((i + rough(0.02)) as f32);
        out.motor.push((motor + rough(0.02)) as f32);
        out.supply.push((m.volts + rough(0.02)) as f32);
    }
    out
}
