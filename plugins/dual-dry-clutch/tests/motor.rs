//! The plugin against an independent motor model: V = R i + Ke w + L di/dt, J dw/dt = Ke i - load, integrated here
//! by the classical Runge-Kutta method with steps of 20 us. R = 0.35 ohm, L = 0.7 mH, Ke = 0.02 Vs/rad at 12.6 V is
//! the worked example whose closed forms are V/R = 36.0 A stalled, L/R = 2 ms, and (V - I0 R)/Ke = 609 rad/s free.

use baybrief_plugin_dual_dry_clutch::ActuatorCurrent;
use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries};
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Input, Observation, Settings};

/// The analyzer behind those that derive what it reads.
fn bench() -> Bench {
    Bench::of::<ActuatorCurrent>()
        .after::<DerivedSeries>()
        .after::<ConditionsKnown>()
}

const RATE: f64 = 5_000.0;

struct Motor {
    current: f64,
    speed: f64,
}

impl Motor {
    fn step(&mut self, volts: f64, blocked: bool, dt: f64) {
        let (r, l, ke, j, load) = (0.35, 0.7e-3, 0.02, 2.0e-5, 0.024);
        let slope = |i: f64, w: f64| {
            let di = (volts - r * i - ke * w) / l;
            let dw = if blocked {
                0.0
            } else {
                (ke * i - load).max(if w > 0.0 { -1e9 } else { 0.0 }) / j
            };
            (di, dw)
        };
        let (i, w) = (self.current, self.speed);
        let a = slope(i, w);
        let b = slope(i + a.0 * dt / 2.0, w + a.1 * dt / 2.0);
        let c = slope(i + b.0 * dt / 2.0, w + b.1 * dt / 2.0);
        let d = slope(i + c.0 * dt, w + c.1 * dt);
        self.current += dt / 6.0 * (a.0 + 2.0 * b.0 + 2.0 * c.0 + d.0);
        self.speed = (w + dt / 6.0 * (a.1 + 2.0 * b.1 + 2.0 * c.1 + d.1)).max(0.0);
    }
}

/// Feed current with a quiescent 1 A and actuations (start, duration, blocked); after each the driver opens.
fn feed(duration_s: f64, actuations: &[(f64, f64, bool)]) -> Vec<f32> {
    let fine = 10;
    let mut motor = Motor {
        current: 0.0,
        speed: 0.0,
    };
    (0..(duration_s * RATE) as usize)
        .map(|n| {
            let t = n as f64 / RATE;
            let on = actuations.iter().find(|a| (a.0..a.0 + a.1).contains(&t));
            for _ in 0..fine {
                match on {
                    Some(a) => motor.step(12.6, a.2, 1.0 / RATE / fine as f64),
                    None => {
                        motor = Motor {
                            current: 0.0,
                            speed: 0.0,
                        }
                    }
                }
            }
            (1.0 + motor.current + 0.02 * ((n * 7919 % 13) as f64 / 6.0 - 1.0)) as f32
        })
        .collect()
}

fn observe(x: &[f32]) -> Vec<Observation> {
    let input = Input {
        file: "test",
        channels: vec![channel("supply-current", x, RATE)],
        settings: Settings::default(),
    };
    bench().run(&input).unwrap()
}

fn of<'a>(o: &'a [Observation], kind: &str) -> Vec<&'a Observation> {
    o.iter().filter(|o| o.kind == kind).collect()
}

#[test]
fn a_blocked_rotor_stalls_at_36_amperes() {
    let o = observe(&feed(6.0, &[(1.0, 1.0, true), (3.0, 1.0, true)]));
    let stalls = of(&o, "actuation-stall");
    assert_eq!(stalls.len(), 2, "{o:?}");
    // 36.0 A over 1 A quiescent; the clamp's own accuracy is 1.5 %, the model's none.
    assert!((stalls[0].value.unwrap() - 37.0).abs() < 0.1);
    // 15 % of the peak is passed 0.33 ms after the onset; the smoothing window is 3 ms.
    assert!((stalls[0].start_s.unwrap() - 1.0).abs() < 0.003);
    assert!((stalls[0].end_s.unwrap() - 2.0).abs() < 0.003);
    // Charge 36 A (1 s - 2 ms), closed form.
    assert!((stalls[0].args["charge_as"].as_f64().unwrap() - 35.93).abs() < 0.2);
    assert_eq!(of(&o, "attempts")[0].value, Some(2.0));
    assert!((of(&o, "gave-up")[0].start_s.unwrap() - 4.0).abs() < 0.003);
}

#[test]
fn a_free_rotor_takes_its_inrush_and_goes_on() {
    let o = observe(&feed(4.0, &[(1.0, 0.2, false)]));
    assert!(of(&o, "actuation-stall").is_empty() && of(&o, "attempts").is_empty());
    let actuations = of(&o, "actuation");
    assert_eq!(actuations.len(), 1);
    // The back-EMF keeps the inrush below the stall current.
    let peak = actuations[0].value.unwrap();
    assert!(peak > 15.0 && peak < 36.0, "{peak}");
}

#[test]
fn a_quiet_feed_says_nothing() {
    assert!(observe(&feed(3.0, &[])).is_empty());
}

/// No current is an absence only on a channel that lives: with a quiescent current, and a pulse would have been seen.
#[test]
fn absence_needs_a_living_channel() {
    let o = observe(&feed(12.0, &[]));
    assert_eq!(o.len(), 1, "{o:?}");
    assert_eq!(o[0].message, "actuation-absent-unwatched");
    assert!(o[0].args["detectable"].as_f64().unwrap() <= 2.0);
    let dead: Vec<f32> = feed(12.0, &[]).iter().map(|v| v - 1.0).collect();
    assert!(observe(&dead).is_empty());
}
