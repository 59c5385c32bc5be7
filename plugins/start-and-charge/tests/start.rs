//! Starts against worked numbers of circuits.

use baybrief_plugin_start_and_charge::measure::cranking::attempts;
use baybrief_plugin_start_and_charge::{
    Charging, CrankingCompression, PathResistance, StartAttempt,
};
use plugin_sdk::testing::{Bench, find, input, near, noise, observe, settings};
use plugin_sdk::{Grade, Observation};

const RATE: f64 = 5_000.0;

/// A start of 3 s: 1 s of rest, a solenoid of 40 A for 30 ms, an inrush that falls to `steady` with 60 ms, humps of a
/// tenth at 8 Hz.
fn current(inrush: f64, steady: f64) -> Vec<f64> {
    (0..(5.0 * RATE) as usize)
        .map(|i| {
            let t = i as f64 / RATE - 1.0;
            match t {
                t if !(-0.03..3.0).contains(&t) => 5.0,
                t if t < 0.0 => 45.0,
                _ => {
                    let humps = 0.1 * steady * (std::f64::consts::TAU * 8.0 * t).sin();
                    let rise = 1.0 - (-t / 0.0015).exp();
                    5.0 + (steady + humps + (inrush - steady) * (-t / 0.06).exp()) * rise
                }
            }
        })
        .collect()
}

fn samples(values: impl Iterator<Item = f64>, step: f64, seed: u64) -> Vec<f32> {
    // A recorder of that step, with noise of as much.
    values
        .zip(noise(seed))
        .map(|(v, n)| (((v + step * n) / step).round() * step) as f32)
        .collect()
}

fn start(
    open_v: f64,
    ohm: f64,
    inrush: f64,
    steady: f64,
    facts: &[(&str, f64)],
) -> Vec<Observation> {
    let amps = current(inrush, steady);
    let volts = samples(amps.iter().map(|i| open_v - ohm * i), 0.005, 1);
    let amps = samples(amps.into_iter(), 0.5, 2);
    let channels = [
        ("battery-voltage", &volts[..]),
        ("battery-current", &amps[..]),
    ];
    observe::<StartAttempt>(&input(&channels, RATE, settings("cranking", facts)))
}

/// Textbook exercise (transtutors.com): 12 V open, 10 milliohms inside, a starter of 30 milliohms takes 300 A at 9.0 V.
#[test]
fn battery_of_the_textbook_exercise() {
    let all = start(12.0, 0.010, 600.0, 300.0, &[]);
    near(find(&all, "battery-resistance"), 10.0, 0.3);
    near(find(&all, "cranking-current"), 305.0, 4.0);
    near(find(&all, "rest-voltage"), 12.0 - 0.05, 0.02);
    // 335 A at the top of a hump.
    let low = find(&all, "cranking-voltage-low");
    near(low, 12.0 - 3.35, 0.05);
    assert_eq!(low.grade, Grade::Abnormal);
}

/// By definition of the rating (SAE J537 by public copies) a battery of 600 A has no more than (12.65 - 7.2) / 600 =
/// 9.1 milliohms at -18 degC after 30 s.
#[test]
fn a_battery_is_held_against_its_rating() {
    for (ohm, cca, grade) in [
        (0.0045, 600.0, Grade::Normal),
        (0.012, 600.0, Grade::Abnormal),
        // 5.9 V over its rating: more than a cold one may have; 5.2 V: less.
        (0.0065, 900.0, Grade::Abnormal),
        (0.0065, 800.0, Grade::Unusable),
        (0.0065, 450.0, Grade::Normal),
    ] {
        let all = start(12.6, ohm, 550.0, 170.0, &[("battery_cca_a", cca)]);
        let o = find(&all, "battery-resistance");
        near(o, 1e3 * ohm, 0.04 * 1e3 * ohm);
        assert_eq!(o.grade, grade, "{o:?}");
    }
}

/// 0.20 V per 100 A, the limit of US Army TM 10-3930-671-24, is 2 milliohms.
#[test]
fn drops_of_known_resistances() {
    let amps = current(500.0, 150.0);
    for (ohm, grade) in [
        (0.0007, Grade::Normal),
        (0.0015, Grade::Normal),
        (0.004, Grade::Abnormal),
    ] {
        // An offset of the input and a clamp that was not zeroed do not matter.
        let drop = samples(amps.iter().map(|i| 0.06 + ohm * (i - 5.0)), 0.01, 3);
        let clamped = samples(amps.iter().map(|i| i + 12.0), 0.5, 4);
        let channels = [
            ("ground-voltage", &drop[..]),
            ("battery-current", &clamped[..]),
        ];
        let all = observe::<PathResistance>(&input(&channels, RATE, settings("cranking", &[])));
        let o = find(&all, "ground-resistance");
        near(o, 1e3 * ohm, 0.04 * 1e3 * ohm);
        assert_eq!(o.grade, grade, "{o:?}");
        near_argument(o, "drop_v", ohm * 160.0);
    }
}

fn near_argument(o: &Observation, name: &str, expected: f64) {
    let value = o.args[name].as_f64().expect("a number");
    assert!(
        (value / expected - 1.0).abs() < 0.08,
        "{name} {value}, expected {expected}"
    );
}

#[test]
fn a_starter_that_does_not_turn() {
    let volts: Vec<f64> = (0..(4.0 * RATE) as usize)
        .map(|i| {
            if (5_000..15_000).contains(&i) {
                420.0
            } else {
                4.0
            }
        })
        .collect();
    let amps = samples(volts.iter().copied(), 0.5, 5);
    let volts = samples(volts.iter().map(|i| 12.6 - 0.005 * i), 0.005, 6);
    let channels = [
        ("battery-voltage", &volts[..]),
        ("battery-current", &amps[..]),
    ];
    let all = observe::<StartAttempt>(&input(&channels, RATE, settings("cranking", &[])));
    assert_eq!(
        find(&all, "cranking-current").message,
        "cranking-current-stalled"
    );
    near(find(&all, "battery-resistance"), 5.0, 0.2);
}

/// A start as SciPy integrates it (data/cranking.py): 6.2 milliohms of battery, 0.7 of ground, 142.39 A and 244.39 rpm while
/// four cylinders turn.
#[test]
fn a_start_as_scipy_integrates_it() {
    const SCIPY: &str = include_str!("data/cranking.txt");
    let column = |k: usize| -> Vec<f32> {
        SCIPY
            .lines()
            .map(|l| l.split(' ').nth(k).unwrap().parse().unwrap())
            .collect()
    };
    let (volts, amps, ground) = (column(0), column(1), column(2));
    let channels = [
        ("battery-voltage", &volts[..]),
        ("battery-current", &amps[..]),
        ("ground-voltage", &ground[..]),
    ];
    let facts = settings("cranking", &[("cylinders", 4.0)]);
    let input = input(&channels, 1_000.0, facts);
    let all = observe::<StartAttempt>(&input);
    near(find(&all, "battery-resistance"), 6.2, 0.1);
    near(find(&all, "cranking-current"), 142.39, 2.0);
    near(
        find(&observe::<PathResistance>(&input), "ground-resistance"),
        0.7,
        0.02,
    );
    let turning = observe::<CrankingCompression>(&input);
    near(find(&turning, "cranking-speed"), 244.39, 2.5);
    assert_eq!(find(&turning, "relative-compression").grade, Grade::Normal);
}

/// Voltage at rest says nothing of a battery's health: near its limit it carries no limit that would leave the start undecided.
#[test]
fn a_rest_voltage_near_its_limit_decides_nothing() {
    let all = start(12.45, 0.006, 600.0, 150.0, &[]);
    let rest = find(&all, "rest-voltage");
    assert_eq!(rest.grade, Grade::Normal, "{rest:?}");
    assert!(
        rest.limit.as_ref().is_none_or(|l| l.low.is_none()),
        "{rest:?}"
    );
}

#[test]
fn nobody_starts_here() {
    // A blower of 35 A that is switched on, in a recording of which nobody says that the engine is cranked.
    let amps: Vec<f32> = (0..20_000)
        .map(|i| if i > 9_000 { 38.0 } else { 3.0 })
        .collect();
    let volts: Vec<f32> = amps.iter().map(|i| 12.6 - 0.006 * i).collect();
    let channels = [
        ("battery-voltage", &volts[..]),
        ("battery-current", &amps[..]),
    ];
    assert_eq!(
        observe::<StartAttempt>(&input(&channels, RATE, settings("off", &[]))),
        []
    );
    assert_eq!(
        observe::<StartAttempt>(&input(&[], RATE, settings("off", &[]))),
        []
    );
}

#[test]
fn a_clipped_inrush_is_not_told() {
    let mut amps: Vec<f32> = current(900.0, 200.0).iter().map(|v| *v as f32).collect();
    for v in amps.iter_mut().filter(|v| **v > 600.0) {
        *v = f32::INFINITY;
    }
    let all = observe::<StartAttempt>(&input(
        &[("battery-current", &amps)],
        RATE,
        settings("cranking", &[]),
    ));
    assert!(all.iter().all(|o| o.kind != "inrush-current"), "{all:?}");
    near(find(&all, "cranking-current"), 205.0, 4.0);
}

#[test]
fn clock_and_noise_change_nothing() {
    let amps = current(500.0, 150.0);
    let volts: Vec<f32> = amps.iter().map(|i| (12.6 - 0.0045 * i) as f32).collect();
    let amps: Vec<f32> = amps.iter().map(|v| *v as f32).collect();
    let channels = [
        ("battery-voltage", &volts[..]),
        ("battery-current", &amps[..]),
    ];
    let input = input(&channels, RATE, settings("cranking", &[]));
    Bench::of::<StartAttempt>()
        .time_shift(&input, 1_234.5)
        .expect("moved");
    Bench::of::<StartAttempt>()
        .noise(&input, 0.002, 7)
        .expect("noise");
}

/// Current of a starter at 1,000 samples a second: an inrush of 600 A above 130 A at each instant, s, for 2 s, with
/// strokes of 1.7 a second between which it draws next to nothing.
fn strokes(starts: &[f64], seconds: f64) -> Vec<f64> {
    (0..(seconds * 1_000.0) as usize)
        .map(|i| {
            let t = i as f64 / 1_000.0;
            let since = starts
                .iter()
                .map(|s| t - s)
                .find(|d| (0.0..2.0).contains(d));
            since.map_or(3.0, |d| {
                let stroke = 130.0 + 150.0 * (std::f64::consts::TAU * 1.7 * d).sin();
                stroke.max(20.0) + 500.0 * (-d / 0.05).exp()
            })
        })
        .collect()
}

#[test]
fn strokes_of_one_start_are_one_attempt() {
    let one = attempts(&strokes(&[0.5], 3.0), 1e-3, 30.0, true);
    assert_eq!(one.len(), 1, "{one:?}");
    assert!(one[0].end > 2_200, "{one:?}");
    // A second one, as soon as the first has ended, begins with an inrush of its own.
    let two = attempts(&strokes(&[0.5, 2.8], 5.2), 1e-3, 30.0, true);
    assert_eq!(two.len(), 2, "{two:?}");
}

/// A small battery that suits its small starter is not called weak for want of a car's size: at 200 A of inrush 15 milliohms take a
/// quarter of its voltage. One that loses more than that is weak whatever its size.
#[test]
fn a_battery_of_unknown_size_is_held_against_its_starter() {
    for (ohm, inrush, grade) in [
        (0.015, 200.0, Grade::Unusable),
        (0.014, 420.0, Grade::Abnormal),
        (0.005, 600.0, Grade::Normal),
    ] {
        let all = start(12.6, ohm, inrush, 0.3 * inrush, &[]);
        assert_eq!(find(&all, "battery-resistance").grade, grade, "{all:#?}");
    }
    let all = start(12.6, 0.015, 200.0, 60.0, &[("battery_cca_a", 180.0)]);
    assert_eq!(find(&all, "battery-resistance").grade, Grade::Normal);
}

/// An engine that stopped at a light is charged before, feeds its consumers while it stands, and is started from there.
#[test]
fn consumers_before_the_start_are_no_part_of_it() {
    let (stopped_s, start_s, off_s) = (1.5, 4.0, 5.5);
    let amps: Vec<f64> = (0..(7.0 * RATE) as usize)
        .map(|i| {
            let t = i as f64 / RATE;
            let cranked = t - start_s;
            match t {
                t if t < stopped_s => -15.0,
                t if t < start_s => 25.0,
                t if t < off_s => 25.0 + 120.0 + 380.0 * (-cranked / 0.06).exp(),
                _ => -30.0,
            }
        })
        .collect();
    let volts = samples(amps.iter().map(|i| 12.5 - 0.005 * i), 0.005, 1);
    let amps = samples(amps.into_iter(), 0.5, 2);
    let channels = [
        ("battery-voltage", &volts[..]),
        ("battery-current", &amps[..]),
    ];
    let all = observe::<StartAttempt>(&input(&channels, RATE, settings("cranking", &[])));
    near(find(&all, "battery-resistance"), 5.0, 0.3);
    near(find(&all, "inrush-current"), 525.0, 10.0);
    let drawn = find(&all, "cranking-current");
    near(drawn, 145.0, 5.0);
    assert_eq!(drawn.grade, Grade::Normal, "{drawn:?}");
}

/// A probe that is put on the battery while the recorder runs shows 0 V before: no rest voltage, no start and no charging voltage.
#[test]
fn a_probe_that_is_put_on_late_measures_from_then_on() {
    let amps = current(600.0, 200.0);
    let late = |seconds: f64| -> Vec<f32> {
        let on = (seconds * RATE) as usize;
        let volts = amps.iter().map(|i| 12.6 - 0.006 * i).enumerate();
        samples(volts.map(|(k, v)| if k < on { 0.0 } else { v }), 0.005, 1)
    };
    let amps = samples(amps.iter().copied(), 0.5, 2);
    for (seconds, told) in [(0.6, true), (0.93, false), (2.2, false)] {
        let volts = late(seconds);
        for channels in [
            &[
                ("battery-voltage", &volts[..]),
                ("battery-current", &amps[..]),
            ][..],
            &[("battery-voltage", &volts[..])],
        ] {
            let all = observe::<StartAttempt>(&input(channels, RATE, settings("cranking", &[])));
            let rest: Vec<_> = all.iter().filter(|o| o.kind == "rest-voltage").collect();
            assert_eq!(rest.len(), usize::from(told), "{seconds} {rest:?}");
            for o in all.iter().filter(|o| o.unit.as_deref() == Some("V")) {
                assert!(o.value.unwrap() > 9.0, "{seconds} {o:?}");
                assert_ne!(o.grade, Grade::Abnormal, "{seconds} {o:?}");
            }
        }
    }
    let volts = samples(
        (0..25_000).map(|k| if k < 15_000 { 0.02 } else { 14.3 }),
        0.005,
        1,
    );
    let channels = [("battery-voltage", &volts[..])];
    let all = observe::<Charging>(&input(&channels, RATE, settings("running", &[])));
    near(find(&all, "charging-voltage"), 14.3, 0.02);
}

/// A record that begins with the starter engaged holds neither rest nor inrush: the crest of a hump is no stall current.
#[test]
fn a_record_that_begins_while_cranking_has_no_rest_and_no_inrush() {
    let amps: Vec<f64> = (0..(2.0 * RATE) as usize)
        .map(|i| {
            let t = i as f64 / RATE;
            let hump = (std::f64::consts::TAU * 3.9 * t).cos();
            if t < 1.67 { 385.0 + 165.0 * hump } else { 8.0 }
        })
        .collect();
    let volts = samples(amps.iter().map(|i| 11.6 - 0.0115 * i), 0.005, 1);
    let amps = samples(amps.into_iter(), 0.5, 2);
    for channels in [
        &[
            ("battery-voltage", &volts[..]),
            ("battery-current", &amps[..]),
        ][..],
        &[("battery-voltage", &volts[..])],
    ] {
        let all = observe::<StartAttempt>(&input(channels, RATE, settings("cranking", &[])));
        for o in &all {
            assert!(
                o.kind != "rest-voltage" && o.kind != "inrush-current",
                "{o:?}"
            );
            assert!(
                o.kind != "cranking-current" || o.message == "cranking-current-alone",
                "{o:?}"
            );
        }
        assert!(
            all.iter().any(|o| o.kind == "cranking-voltage-low"),
            "{all:?}"
        );
    }
}
