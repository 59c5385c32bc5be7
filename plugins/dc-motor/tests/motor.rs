//! Motors integrated from their equations against data sheets and worked examples.

mod model;

use baybrief_plugin_dc_motor::measure::commutation::ripples_a_turn;
use baybrief_plugin_dc_motor::measure::gaps;
use baybrief_plugin_dc_motor::{MotorRun, MotorSpeed, WiringResistance};
use model::{BLOWER, MAXON, Motor, ON_S, RATE, Recorded, record};
use plugin_sdk::testing::{Bench, find, input, near, noise, observe, settings};
use plugin_sdk::{Grade, Observation};
use std::f64::consts::TAU;

fn run_of(r: &Recorded) -> Vec<Observation> {
    let channels = [
        ("motor-current", &r.current[..]),
        ("motor-voltage", &r.motor[..]),
    ];
    observe::<MotorRun>(&input(&channels, RATE, settings("off", &[])))
}

fn speed_of(r: &Recorded, facts: &[(&str, f64)]) -> Vec<Observation> {
    let channels = [
        ("motor-current", &r.current[..]),
        ("motor-voltage", &r.motor[..]),
    ];
    observe::<MotorSpeed>(&input(&channels, RATE, settings("off", facts)))
}

#[test]
fn a_motor_of_a_data_sheet() {
    let r = record(&MAXON, 1.0);
    let all = run_of(&r);
    near(find(&all, "motor-resistance"), 2_450.0, 0.08 * 2_450.0);
    // J R / k^2 of the sheet's own figures: 2.937 ms.
    near(find(&all, "motor-start"), 0.00294, 0.0005);
    near(find(&all, "running-current"), 0.0786, 0.01);
    // Its speed falls by 8.09 rpm for each mN m.
    let loaded = Motor {
        friction: MAXON.friction + 0.3,
        ..MAXON
    };
    let speed = speed_of(&record(&loaded, 1.0), &[("motor_bars", 13.0)]);
    near(find(&speed, "motor-speed"), 8_490.0 - 8.09 * 300.0, 30.0);
}

/// TI SLVAFO8A (2024), 3.3.1.1: 48 ripples in 80.3 ms, three bars and so six ripples a turn: 5977.58 rpm.
#[test]
fn ripples_of_a_makers_worked_example() {
    assert_eq!(ripples_a_turn(3), 6);
    let hz = 48.0 / 0.0803;
    assert!((60.0 * hz / f64::from(ripples_a_turn(3)) - 5_977.58).abs() < 0.01);
    // The least common multiple of two brushes and the bars.
    for (bars, ripples) in [(5, 10), (8, 8), (11, 22), (12, 12), (13, 26)] {
        assert_eq!(ripples_a_turn(bars), ripples);
    }
    let current: Vec<f32> = (0..20_000)
        .zip(noise(6))
        .map(|(i, n)| (2.0 + 0.05 * (TAU * hz * f64::from(i) / RATE).sin() + 0.05 * n) as f32)
        .collect();
    let input = input(
        &[("motor-current", &current)],
        RATE,
        settings("off", &[("motor_bars", 3.0)]),
    );
    near(
        find(&observe::<MotorSpeed>(&input), "motor-speed"),
        5_977.58,
        12.0,
    );
}

/// Laboratory recordings of others show it (a students' report, order 2 or 4 five times as high as the commutation's
/// order 36): the strongest line need not be the commutation's.
#[test]
fn a_low_order_of_the_turn_is_not_taken_for_the_ripple() {
    let turn = 56.9;
    for (low, bars) in [(2.0, 18.0), (4.0, 18.0), (1.0, 12.0)] {
        let ripples = f64::from(ripples_a_turn(bars as u32));
        let current: Vec<f32> = (0..20_000)
            .zip(noise(7))
            .map(|(i, n)| {
                let t = f64::from(i) / RATE;
                let wave =
                    0.25 * (TAU * low * turn * t).sin() + 0.05 * (TAU * ripples * turn * t).sin();
                (3.0 + wave + 0.05 * n) as f32
            })
            .collect();
        let input = input(
            &[("motor-current", &current)],
            RATE,
            settings("off", &[("motor_bars", bars)]),
        );
        near(
            find(&observe::<MotorSpeed>(&input), "motor-speed"),
            60.0 * turn,
            8.0,
        );
    }
}

/// A brush of few bars leaves a second of 0.7 and a third of 0.3 of the ripple's first (integrated coil by coil, eight
/// bars): the first counts. And with low orders of some percent no commutator is called whole.
#[test]
fn overtones_of_the_ripple_are_not_taken_for_it() {
    for (bars, low) in [(8.0, 0.0), (10.0, 0.0), (12.0, 0.0), (16.0, 0.05)] {
        let turn = 60.5;
        let current: Vec<f32> = (0..30_000)
            .zip(noise(9))
            .map(|(i, n)| {
                let order = |k: f64| (TAU * k * turn * f64::from(i) / RATE).sin();
                let wave = order(bars) + 0.7 * order(2.0 * bars) + 0.3 * order(3.0 * bars);
                let low = low * (order(2.0) + 0.7 * order(4.0));
                (2.0 * (1.0 + 0.06 * wave + low) + 0.02 * n) as f32
            })
            .collect();
        let facts = settings("off", &[("motor_bars", bars)]);
        let all = observe::<MotorSpeed>(&input(&[("motor-current", &current)], RATE, facts));
        near(find(&all, "motor-speed"), 60.0 * turn, 8.0);
        let whole = match low > 0.0 {
            true => Grade::NotTested,
            false => Grade::Normal,
        };
        assert_eq!(find(&all, "commutation-gap").grade, whole, "{bars} bars");
    }
}

/// Trapezoids have overtones at all odd orders, of 1/k^2 (Fourier series of a triangle; any textbook): a far one beside the noise
/// is not the ripple of which the first is a low order.
#[test]
fn far_overtones_are_not_taken_for_the_ripple() {
    for (bars, highest) in [(22.0, 15), (14.0, 12), (24.0, 13)] {
        let turn = 20.7;
        let current: Vec<f32> = (0..30_000)
            .zip(noise(4))
            .map(|(i, n)| {
                let order = |k: f64| (TAU * k * bars * turn * f64::from(i) / RATE).sin();
                let orders = (1..=highest).filter(|k| bars < 20.0 || k % 2 == 1);
                let wave: f64 = orders
                    .map(|k| order(f64::from(k)) / f64::from(k).powf(1.5))
                    .sum();
                (3.0 * (1.0 + 0.06 * wave) + 0.002 * n) as f32
            })
            .collect();
        let facts = settings("off", &[("motor_bars", bars)]);
        let all = observe::<MotorSpeed>(&input(&[("motor-current", &current)], RATE, facts));
        near(find(&all, "motor-speed"), 60.0 * turn, 5.0);
    }
}

/// A start as SciPy integrates it (data/start.py): 0.62 ohm, 0.35 mH, k 0.021 V s, J 3.2e-5 kg m2, a fan; 4.0683 A at the end.
/// The time constant of the start lies between J R / k^2 = 45.0 ms at standstill and 36.3 ms beside the fan at full speed, whose
/// torque grows there by 2 c w.
#[test]
fn a_start_as_scipy_integrates_it() {
    let current: Vec<f32> = include_str!("data/start.txt")
        .lines()
        .map(|l| l.parse().unwrap())
        .collect();
    let volts: Vec<f32> = (0..current.len())
        .map(|i| if i >= 500 { 13.2 } else { 0.0 })
        .collect();
    let channels = [
        ("motor-current", &current[..]),
        ("motor-voltage", &volts[..]),
    ];
    let all = observe::<MotorRun>(&input(&channels, 5_000.0, settings("off", &[])));
    near(find(&all, "motor-resistance"), 620.0, 20.0);
    near(find(&all, "running-current"), 4.0683, 0.03);
    near(find(&all, "motor-start"), 0.0407, 0.0044);
}

#[test]
fn a_jammed_motor_draws_its_stall_current() {
    let r = record(
        &Motor {
            jammed: true,
            ..BLOWER
        },
        1.0,
    );
    let all = run_of(&r);
    let stall = find(&all, "motor-stall");
    near(stall, 1.0, 0.02);
    assert_eq!(stall.grade, Grade::Abnormal);
    near(find(&all, "motor-resistance"), 800.0, 25.0);
    assert!(all.iter().all(|o| o.kind != "running-current"), "{all:?}");
    assert_eq!(speed_of(&r, &[]), []);
}

#[test]
fn a_running_motor_is_not_jammed_and_a_stiff_one_runs_hard() {
    // V/R = 16.9 A less the wiring; 4 A is a quarter of it, 10 A more than half.
    for (friction, message) in [(0.03 * 4.0, "motor-runs"), (0.03 * 10.5, "motor-runs-hard")] {
        let r = record(&Motor { friction, ..BLOWER }, 1.5);
        let all = run_of(&r);
        assert!(all.iter().all(|o| o.kind != "motor-stall"), "{all:?}");
        let o = find(&all, "running-current");
        assert_eq!(o.message, message, "{o:?}");
        near(o, friction / 0.03, 0.15);
    }
}

#[test]
fn an_open_bar_leaves_two_dips_a_turn() {
    let r = record(
        &Motor {
            open_bar: true,
            ..BLOWER
        },
        1.5,
    );
    for facts in [&[("motor_bars", 12.0)][..], &[]] {
        let all = speed_of(&r, facts);
        let gap = find(&all, "commutation-gap");
        assert_eq!(
            (gap.message.as_str(), gap.grade),
            ("commutation-gap", Grade::Abnormal)
        );
        // Twice a turn in this model; once where nothing tells.
        let expected = if facts.is_empty() {
            1.0..=2.0
        } else {
            2.0..=2.0
        };
        assert!(expected.contains(&gap.value.expect("a count")), "{gap:?}");
    }
}

#[test]
fn whole_bars_leave_none() {
    let all = speed_of(&record(&BLOWER, 1.5), &[("motor_bars", 12.0)]);
    let gap = find(&all, "commutation-gap");
    assert_eq!((gap.value, gap.grade), (Some(0.0), Grade::Normal));
    // (13.5 V - 4 A 0.82 ohm) / 0.03 V s = 340.7 rad/s.
    near(find(&all, "motor-speed"), 3_253.0, 15.0);
}

/// Under a brush that is wider than a bar an open winding interrupts nothing: it leaves lines at twice the turn that no load
/// could make. The speed stays that of the equations, since the strongest line is not the ripple.
#[test]
fn a_bar_under_a_wide_brush_is_told_by_its_orders() {
    let weak = Motor {
        weak_bar: 0.11,
        inertia: 2.0e-4,
        ..BLOWER
    };
    let r = record(&weak, 2.5);
    let all = speed_of(&r, &[("motor_bars", 12.0)]);
    let gap = find(&all, "commutation-gap");
    assert_eq!(gap.message, "commutation-uneven", "{all:?}");
    assert_eq!((gap.value, gap.grade), (Some(2.0), Grade::Abnormal));
    // Without the number of bars it could be a ripple of its own.
    let all = speed_of(&r, &[]);
    assert_ne!(
        find(&all, "commutation-gap").grade,
        Grade::Abnormal,
        "{all:?}"
    );
}

/// The load that the model varies once a turn, given back through the inertia that hides it.
#[test]
fn a_tight_spot_is_measured_through_the_inertia() {
    for (uneven, message) in [
        (0.45, "load-uneven"),
        (0.2, "load-uneven-unclear"),
        (0.03, "load-even"),
    ] {
        let r = record(&Motor { uneven, ..BLOWER }, 2.0);
        let all = speed_of(&r, &[("motor_bars", 12.0)]);
        let load = find(&all, "load-variation");
        assert_eq!(load.message, message, "{all:?}");
        near(load, 100.0 * uneven, 4.0 + 15.0 * uneven);
    }
}

#[test]
fn pulses_of_a_switched_supply_are_no_fault_of_the_motor() {
    // 100 pulses a second: the current breaks off in each of them, and so does the voltage.
    let mut r = record(&BLOWER, 1.5);
    for i in 0..r.current.len() {
        let t = i as f64 / RATE;
        if (ON_S..ON_S + 1.5).contains(&t) && (t * 100.0).fract() > 0.8 {
            r.current[i] *= 0.3;
            r.motor[i] = -0.6;
        }
    }
    let all = speed_of(&r, &[("motor_bars", 12.0)]);
    assert!(all.iter().all(|o| o.grade != Grade::Abnormal), "{all:?}");
    let all = run_of(&r);
    assert!(all.iter().all(|o| o.grade != Grade::Abnormal), "{all:?}");
}

/// Ohm's law: 0.02 ohm of wiring and 0.3 ohm.
#[test]
fn wiring_of_known_resistance() {
    for (wiring_ohm, grade) in [(0.02, Grade::Normal), (0.3, Grade::Abnormal)] {
        let r = record(
            &Motor {
                wiring_ohm,
                ..BLOWER
            },
            1.2,
        );
        let channels = [
            ("motor-current", &r.current[..]),
            ("motor-voltage", &r.motor[..]),
            ("supply-voltage", &r.supply[..]),
        ];
        let all = observe::<WiringResistance>(&input(&channels, RATE, settings("off", &[])));
        let o = find(&all, "wiring-resistance");
        near(o, 1e3 * wiring_ohm, 3.0);
        assert_eq!(o.grade, grade, "{o:?}");
    }
}

#[test]
fn voltage_without_current() {
    let volts: Vec<f32> = (0..20_000)
        .map(|i| if i > 4_000 { 13.2 } else { 0.0 })
        .collect();
    let current: Vec<f32> = noise(9).take(20_000).map(|n| 0.01 * n as f32).collect();
    let channels = [
        ("motor-current", &current[..]),
        ("motor-voltage", &volts[..]),
    ];
    let all = observe::<MotorRun>(&input(&channels, RATE, settings("off", &[])));
    assert_eq!(find(&all, "running-current").message, "motor-draws-nothing");
    // A flat channel proves nothing.
    let flat = vec![0.0f32; 20_000];
    let channels = [("motor-current", &flat[..]), ("motor-voltage", &volts[..])];
    let all = observe::<MotorRun>(&input(&channels, RATE, settings("off", &[])));
    assert_eq!(find(&all, "running-current").grade, Grade::Unusable);
}

#[test]
fn a_start_that_is_cut_short_gives_no_running_current() {
    let heavy = Motor {
        inertia: 6.0e-4,
        ..BLOWER
    };
    let r = record(&heavy, 0.05);
    let all = run_of(&r);
    assert!(
        all.iter()
            .all(|o| o.kind != "running-current" && o.kind != "motor-stall"),
        "{all:?}"
    );
}

#[test]
fn nothing_of_nothing() {
    let silence = vec![0.0f32; 8_000];
    let rough: Vec<f32> = noise(1).take(8_000).map(|n| n as f32).collect();
    for values in [&silence, &rough, &Vec::new()] {
        let input = input(&[("motor-current", values)], RATE, settings("off", &[]));
        assert_eq!(observe::<MotorRun>(&input), []);
        assert_eq!(observe::<MotorSpeed>(&input), []);
    }
}

#[test]
fn clock_and_noise_change_nothing() {
    let r = record(&BLOWER, 1.0);
    let channels = [
        ("motor-current", &r.current[..]),
        ("motor-voltage", &r.motor[..]),
    ];
    let input = input(&channels, RATE, settings("off", &[("motor_bars", 12.0)]));
    Bench::of::<MotorRun>()
        .time_shift(&input, -77.0)
        .expect("moved");
    Bench::of::<MotorSpeed>()
        .time_shift(&input, -77.0)
        .expect("moved");
    Bench::of::<MotorRun>()
        .noise(&input, 0.002, 3)
        .expect("noise");
}

/// The voltage between two brushes is the upper envelope of the coils' sines (textbook), so that with little load the ripple
/// of few bars is as deep as a gap; but it is no narrow dip of a current that else keeps its level.
#[test]
fn a_deep_ripple_is_no_gap() {
    let (step, rate) = (5e-5, 417.0);
    let at = |k: usize| (k as f64 * step * rate).rem_euclid(1.0);
    let ripple: Vec<f64> = (0..20_000)
        .map(|k| 1.0 + 0.3 * (std::f64::consts::TAU * at(k)).cos())
        .collect();
    assert_eq!(gaps::dips(&ripple, step, (0, ripple.len())), None);
    let gap: Vec<f64> = (0..20_000)
        .map(|k| if at(k) < 0.12 { 0.4 } else { 1.0 })
        .collect();
    let found = gaps::dips(&gap, step, (0, gap.len())).expect("a gap");
    assert!((found.hz / rate - 1.0).abs() < 0.01, "{found:?}");
}

/// A motor that is turned the other way, or whose clamp is reversed, is measured as one that is not.
#[test]
fn the_direction_of_turning_changes_nothing() {
    let forward = record(&BLOWER, 1.0);
    let mut backward = record(&BLOWER, 1.0);
    for x in [&mut backward.current, &mut backward.motor] {
        x.iter_mut().for_each(|v| *v = -*v);
    }
    for kind in ["running-current", "motor-resistance", "inrush-current"] {
        let (a, b) = (run_of(&forward), run_of(&backward));
        let (a, b) = (find(&a, kind), find(&b, kind));
        assert_eq!(a.message, b.message);
        near(b, a.value.unwrap(), 0.01 * a.value.unwrap());
    }
    let facts = [("motor_bars", 12.0)];
    let (a, b) = (speed_of(&forward, &facts), speed_of(&backward, &facts));
    let rpm = find(&a, "motor-speed").value.unwrap();
    near(find(&b, "motor-speed"), rpm, 0.01 * rpm);
}

/// A controller that raises the voltage gradually leaves no inrush: what the motor draws is no share of a stall current then.
#[test]
fn a_voltage_that_is_raised_gradually_makes_no_motor_tight_or_jammed() {
    for (raised_s, rippled) in [
        (0.4, 0.02),
        (0.8, 0.02),
        (1.2, 0.02),
        (0.4, 0.0),
        (1.2, 0.0),
    ] {
        // V = R i + k w with the friction of the blower: the current follows the voltage with the mechanical time constant.
        let (ohm, constant, inertia, friction) = (0.8, 0.03, 6.0e-5, 0.03 * 4.0);
        let (mut w, mut turn) = (0.0f64, 0.0f64);
        let mut noises = noise(8);
        let (mut current, mut motor) = (Vec::new(), Vec::new());
        for n in 0..(2.5 * RATE) as usize {
            let t = n as f64 / RATE - 0.1;
            let volts = if t < 0.0 {
                0.0
            } else {
                13.5 * (t / raised_s).min(1.0)
            };
            let i = ((volts - constant * w) / ohm).max(0.0);
            let torque = constant * i;
            w = (w + (torque - torque.min(friction)) / inertia / RATE).max(0.0);
            turn += w / RATE;
            let ripple = 1.0 + rippled * (12.0 * turn).cos();
            current.push((i * ripple + 0.01 * noises.next().unwrap()) as f32);
            motor.push(volts as f32);
        }
        for with_voltage in [true, false] {
            let mut channels = vec![("motor-current", &current[..])];
            if with_voltage {
                channels.push(("motor-voltage", &motor[..]));
            }
            let found = observe::<MotorRun>(&input(&channels, RATE, settings("off", &[])));
            let hard = found.iter().find(|o| o.message == "motor-runs-hard");
            assert!(hard.is_none(), "{raised_s} {with_voltage}: {found:#?}");
            // Its own current is no inrush: what stays near it is no standstill.
            let stands = |o: &Observation| o.kind == "motor-stall" && o.grade == Grade::Abnormal;
            assert!(
                !found.iter().any(stands),
                "{raised_s} {rippled} {with_voltage}: {found:#?}"
            );
        }
    }
}

/// On few bars the ripple is as deep as the gaps of an open bar; they lie lower, and at every fourth of eight bars.
#[test]
fn gaps_are_found_among_deep_ripples() {
    let hz = 220.0;
    let course = |broken: bool| -> Vec<f32> {
        let mut noises = noise(5);
        (0..30_000)
            .map(|n| {
                let t = f64::from(n) / RATE;
                let wander = t + 0.0004 * (9.0 * t).sin();
                let ripples = hz * wander;
                let part = ripples.fract();
                let gap = broken && (ripples as u64).is_multiple_of(4);
                let low = if gap { 0.4 } else { 4.0 };
                let level = if part < 0.45 { low } else { 10.0 };
                (level + 0.05 * noises.next().unwrap()) as f32
            })
            .collect()
    };
    let seen = |x: &[f32]| {
        let x: Vec<f64> = x.iter().map(|v| f64::from(*v)).collect();
        gaps::dips(&x, 1.0 / RATE, (0, x.len()))
    };
    let found = seen(&course(true)).expect("gaps");
    assert!((found.hz - hz / 4.0).abs() < 1.0, "{found:?}");
    assert!(seen(&course(false)).is_none());
}

/// A motor that turned before it stands met an obstacle, or the end of its travel: another sentence than for one that never turned.
#[test]
fn a_motor_that_ran_before_it_stands_is_told_from_one_that_never_turned() {
    let ran = record(&BLOWER, 0.8);
    let stands = record(
        &Motor {
            jammed: true,
            ..BLOWER
        },
        1.0,
    );
    let join = |of: fn(&Recorded) -> &Vec<f32>| -> Vec<f32> {
        let first = &of(&ran)[..((ON_S + 0.75) * RATE) as usize];
        let then = &of(&stands)[((ON_S + 0.01) * RATE) as usize..];
        [first, then].concat()
    };
    let both = Recorded {
        current: join(|r| &r.current),
        motor: join(|r| &r.motor),
        supply: join(|r| &r.supply),
    };
    assert_eq!(
        find(&run_of(&both), "motor-stall").message,
        "motor-stall-later"
    );
    assert_eq!(find(&run_of(&stands), "motor-stall").message, "motor-stall");
}

/// Dips at every bar, with the current back at its level between them, are the ripple of few bars with little load, however narrow
/// they are: the speed is told by them and no bar is open.
#[test]
fn narrow_dips_at_every_bar_are_the_ripple() {
    let bars = 8.0;
    let course = |ripples_a_dip: f64| -> Vec<f32> {
        let mut noises = noise(9);
        let mut turn = 0.0;
        (0..30_000)
            .map(|n| {
                let t = f64::from(n) / RATE;
                turn += 35.0 * (1.0 - (-t / 0.05).exp()) * (1.0 + 0.004 * (7.0 * t).sin()) / RATE;
                let dips = (turn * bars / ripples_a_dip).fract();
                let standing = 14.0 * (-t / 0.05).exp();
                let between =
                    1.0 + 0.12 * (TAU * bars * turn).cos() * f64::from(ripples_a_dip > 1.0);
                let running = if dips < 0.12 { 0.1 } else { between };
                (running + standing + 0.01 * noises.next().unwrap()) as f32
            })
            .collect()
    };
    let seen = |ripples_a_dip: f64| {
        let rest = vec![0.0f32; 2_000];
        let current = [rest, course(ripples_a_dip)].concat();
        let on = |n: usize| if n < 2_000 { 0.0f32 } else { 12.5 };
        let volts: Vec<f32> = (0..current.len()).map(on).collect();
        let channels = [("motor-current", &current[..]), ("motor-voltage", &volts)];
        let facts = settings("off", &[("motor_bars", bars)]);
        observe::<MotorSpeed>(&input(&channels, RATE, facts))
    };
    let sound = seen(1.0);
    let gap = find(&sound, "commutation-gap");
    assert_ne!(gap.grade, Grade::Abnormal, "{gap:?}");
    near(find(&sound, "motor-speed"), 60.0 * 35.0, 20.0);
    let open = seen(4.0);
    let gap = find(&open, "commutation-gap");
    assert_eq!(gap.value, Some(2.0), "{gap:?}");
    assert_ne!(gap.grade, Grade::Normal, "{gap:?}");
    near(find(&open, "motor-speed"), 60.0 * 35.0, 20.0);
}

/// A record that begins with the motor on and ends while it coasts: the voltage that it makes itself is no drop of the wiring.
#[test]
fn a_coasting_motor_is_no_wiring_resistance() {
    let rate = 20_000.0;
    let at = |i: usize| i as f64 / rate;
    let on = |i: usize| at(i) < 0.075;
    let mut noise = noise(3);
    let mut series = |value: &dyn Fn(usize) -> f64, scatter: f64| -> Vec<f32> {
        (0..5_000)
            .map(|i| (value(i) + scatter * noise.next().unwrap()) as f32)
            .collect()
    };
    let ripple = |i: usize| 7.8 + 1.6 * (TAU * 660.0 * at(i)).sin();
    let current = series(&|i| if on(i) { ripple(i) } else { 0.0 }, 0.005);
    let coasts = |i: usize| 9.0 * (-(at(i) - 0.075) / 0.3).exp();
    let motor = series(
        &|i| {
            if on(i) {
                13.42 - 0.02 * ripple(i)
            } else {
                coasts(i)
            }
        },
        0.005,
    );
    let supply = series(&|i| if on(i) { 13.42 } else { 13.46 }, 0.005);
    let channels = [
        ("motor-current", &current[..]),
        ("motor-voltage", &motor[..]),
        ("supply-voltage", &supply[..]),
    ];
    let all = observe::<WiringResistance>(&input(&channels, rate, settings("off", &[])));
    near(find(&all, "wiring-resistance"), 20.0, 3.0);
}

/// A line of 252 Hz on a motor of 22 bars at its whole voltage is the ripple of one that crawls at 690 rpm, or what a shorted bar leaves
/// twice a turn at 7,560: no speed is told and no commutator cleared. At a third of the voltage motors turn as slowly.
#[test]
fn a_ripple_that_may_be_one_bar_clears_no_commutator() {
    for (volts, told) in [(12.5, false), (4.0, true)] {
        let current: Vec<f32> = (0..100_000)
            .zip(noise(4))
            .map(|(i, n)| {
                let t = f64::from(i) / RATE;
                let wave = 0.034 * (TAU * 252.0 * t).sin() + 0.012 * (TAU * 504.0 * t).sin();
                (3.5 * (1.0 + wave) + 0.03 * n) as f32
            })
            .collect();
        let motor = vec![volts; current.len()];
        let channels = [("motor-current", &current[..]), ("motor-voltage", &motor)];
        let facts = settings("off", &[("motor_bars", 22.0)]);
        let all = observe::<MotorSpeed>(&input(&channels, RATE, facts));
        assert_eq!(all.iter().any(|o| o.kind == "motor-speed"), told, "{all:?}");
        let gap = find(&all, "commutation-gap");
        let unclear = gap.message == "commutation-rate-unclear" && gap.grade == Grade::Unusable;
        assert_eq!(unclear, !told, "{gap:?}");
    }
}

/// Under a voltage that rises gradually the motor draws long before it counts as switched on: what it drew then is no rest, and the
/// motor no open circuit.
#[test]
fn a_soft_start_is_no_open_circuit() {
    let rate = 10_000.0;
    let mut noise = noise(5);
    let mut series = |value: &dyn Fn(f64) -> f64| -> Vec<f32> {
        (0..29_000)
            .map(|i| (value(f64::from(i) / rate) + 0.004 * noise.next().unwrap()) as f32)
            .collect()
    };
    let current = series(&|t| match t {
        t if t < 0.15 => 0.0,
        t if t < 0.65 => 0.95 * (1.0 - (-(t - 0.15) / 0.08).exp()) + 0.7 * (t - 0.15),
        t => 0.77 + 0.53 * (-(t - 0.65) / 0.05).exp() + 0.03 * (TAU * 565.0 * t).sin(),
    });
    let motor = series(&|t| 9.7 * ((t - 0.15) / 0.5).clamp(0.0, 1.0));
    let channels = [
        ("motor-current", &current[..]),
        ("motor-voltage", &motor[..]),
    ];
    let all = observe::<MotorRun>(&input(&channels, rate, settings("off", &[])));
    assert!(
        all.iter()
            .all(|o| !o.message.starts_with("motor-draws-nothing")),
        "{all:?}"
    );
}
