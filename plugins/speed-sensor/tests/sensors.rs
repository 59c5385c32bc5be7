//! Speed sensors of a model whose truth is known, through the interface of the plugin.

mod model;

use baybrief_plugin_speed_sensor::{
    CamPhase, Interruptions, Polarity, Rotation, SensorAmplitude, SensorPair, ToothRing,
};
use baybrief_recording_analyzers::{ConditionsKnown, DerivedSeries};
use model::{Noise, Ring, angles, coil, switch};
use plugin_sdk::settings::Stated;
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Analyzer, ChannelView, Grade, Input, Observation, Settings};

const RATE: f64 = 10_000.0;
const SECONDS: f64 = 4.0;

fn sensor<'a>(
    role: &'a str,
    samples: &'a [f32],
    kind: &str,
    teeth: Option<u32>,
) -> ChannelView<'a> {
    let mut channel = channel(role, samples, RATE);
    channel.facts.sensor = Some(kind.into());
    channel.facts.teeth = teeth;
    channel
}

fn input(channels: Vec<ChannelView<'_>>) -> Input<'_> {
    Input {
        file: "test.csv",
        channels,
        settings: Settings {
            engine: Some(Stated {
                value: "running".into(),
                source: "job.toml".into(),
            }),
            ..Settings::default()
        },
    }
}

fn run<A: Analyzer>(input: &Input<'_>) -> Vec<Observation> {
    let bench = Bench::of::<A>()
        .after::<DerivedSeries>()
        .after::<ConditionsKnown>();
    bench.run(input).expect("findings")
}

#[track_caller]
fn one<'o>(found: &'o [Observation], kind: &str, role: &str) -> &'o Observation {
    let mut of_kind = found
        .iter()
        .filter(|o| o.kind == kind && o.subject.as_deref() == Some(role));
    let first = of_kind
        .next()
        .unwrap_or_else(|| panic!("no {kind}: {found:#?}"));
    assert!(of_kind.next().is_none(), "{found:#?}");
    first
}

/// About one speed, rpm: no shaft keeps time like a clock.
fn steady(rpm: f64) -> impl Fn(f64) -> f64 {
    move |t| rpm * (1.0 + 0.01 * (4.0 * t).sin())
}

/// Speed that rises from `a` to `b` rpm in the middle second.
fn ramp(a: f64, b: f64) -> impl Fn(f64) -> f64 {
    move |t| a + (b - a) * (t - 1.5).clamp(0.0, 1.0)
}

/// rpm = 60 f / N: 48 teeth at 300 rpm are 240 Hz (arithmetic).
#[test]
fn speed_of_each_kind_of_sensor() {
    let turns = angles(steady(300.0), SECONDS, RATE);
    let ring = Ring::even(48);
    let hall = switch(&ring, &turns, (0.4, 4.8), 0.02);
    let induced = coil(&ring, &turns, RATE, 0.1, 0.002);
    let looped = switch(&ring, &turns, (0.007, 0.014), 1e-4);
    for (samples, kind) in [(&hall, "hall"), (&induced, "vr"), (&looped, "current-loop")] {
        let found = run::<Rotation>(&input(vec![sensor(
            "wheel-speed-1",
            samples,
            kind,
            Some(48),
        )]));
        let speed = one(&found, "sensor-speed", "wheel-speed-1");
        assert!(
            (speed.value.unwrap() - 300.0).abs() < 3.0,
            "{kind}: {speed:?}"
        );
    }
}

/// What the control unit is not told it finds: 60-2, 36-1, 36-2-1. A sound ring is not condemned for it.
#[test]
fn patterns_are_found_and_are_no_fault() {
    for (positions, missing) in [(60, vec![58, 59]), (36, vec![35]), (36, vec![10, 11, 35])] {
        let turns = angles(ramp(800.0, 1600.0), SECONDS, RATE);
        let ring = Ring::without(positions, &missing);
        let samples = coil(&ring, &turns, RATE, 0.1, 0.002);
        let input = input(vec![sensor("crank-sensor", &samples, "vr", None)]);
        let found = run::<Rotation>(&input);
        let pattern = one(&found, "tooth-pattern", "crank-sensor");
        assert_eq!(pattern.value, Some(f64::from(positions)), "{pattern:?}");
        assert_eq!(pattern.arg_f64("missing"), Some(missing.len() as f64));
        let teeth = run::<ToothRing>(&input);
        assert_eq!(
            one(&teeth, "tooth-fault", "crank-sensor").grade,
            Grade::Normal
        );
    }
}

fn tooth_fault(role: &str, ring: &Ring, kind: &str, missing: Option<u32>) -> Observation {
    let turns = angles(ramp(200.0, 300.0), SECONDS, RATE);
    let samples = match kind {
        "vr" => coil(ring, &turns, RATE, 0.1, 0.002),
        _ => switch(ring, &turns, (0.4, 4.8), 0.02),
    };
    let mut own = sensor(role, &samples, kind, Some(ring.positions));
    own.facts.missing_teeth = missing;
    let found = run::<ToothRing>(&input(vec![own]));
    one(&found, "tooth-fault", role).clone()
}

#[test]
fn teeth_that_are_missing_broken_or_doubled() {
    let broken = Ring {
        heights: vec![(7, 0.2)],
        ..Ring::even(47)
    };
    let notched = Ring {
        notched: vec![7],
        ..Ring::even(47)
    };
    let cases = [
        ("a tooth less", Ring::without(48, &[7]), "hall", 1.0),
        ("two teeth less", Ring::without(48, &[7, 20]), "vr", 2.0),
        ("a stump", broken, "vr", 1.0),
        ("a notch", notched, "hall", 1.0),
    ];
    for (name, ring, kind, count) in cases {
        let found = tooth_fault("wheel-speed-1", &ring, kind, None);
        assert_eq!(found.grade, Grade::Abnormal, "{name}: {found:?}");
        assert_eq!(found.value, Some(count), "{name}: {found:?}");
    }
    for kind in ["vr", "hall"] {
        let found = tooth_fault("wheel-speed-1", &Ring::even(48), kind, None);
        assert_eq!(
            (found.grade, found.value),
            (Grade::Normal, Some(0.0)),
            "{found:?}"
        );
    }
}

/// A tooth that was bent by a fifth of a pitch, read at the middle of the teeth and between them (a coil that is the other way
/// round). The other teeth are not blamed for it.
#[test]
fn a_bent_tooth_is_one_fault_whichever_crossing_is_read() {
    let bent = Ring {
        bent: vec![(7, 0.2)],
        ..Ring::even(47)
    };
    let turns = angles(ramp(200.0, 300.0), SECONDS, RATE);
    let usual = coil(&bent, &turns, RATE, 0.1, 0.002);
    let reversed: Vec<f32> = usual.iter().map(|v| -v).collect();
    for samples in [&usual, &reversed] {
        let input = input(vec![sensor("wheel-speed-1", samples, "vr", Some(47))]);
        let found = run::<ToothRing>(&input);
        let teeth = one(&found, "tooth-fault", "wheel-speed-1");
        assert_eq!(
            (teeth.grade, teeth.value),
            (Grade::Abnormal, Some(1.0)),
            "{teeth:?}"
        );
        assert_eq!(teeth.arg_f64("displaced"), Some(1.0), "{teeth:?}");
    }
}

/// A cam of four teeth, one of them off its place, at half of the crankshaft's speed. The rings of the model are the same, so
/// that the angle is that by which the cam was turned, but for what the sensors' own crossings add: both are read on their own
/// zero crossing and switching point, and only the difference of two recordings is the truth.
#[test]
fn a_cam_that_was_turned_by_ten_degrees_is_seen_to_be() {
    let ring = Ring::without(60, &[58, 59]);
    let cam = Ring {
        missing: vec![3],
        ..Ring::even(4)
    };
    let turns = angles(steady(800.0), SECONDS, RATE);
    let crank = coil(&ring, &turns, RATE, 0.1, 0.002);
    let phase = |degrees: f64| {
        // Degrees of the crankshaft are twice those of the cam.
        let half: Vec<f64> = turns.iter().map(|t| t / 2.0 - degrees / 720.0).collect();
        let cam = switch(&cam, &half, (0.4, 4.8), 0.02);
        let input = input(vec![
            sensor("crank-sensor", &crank, "vr", None),
            sensor("cam-sensor", &cam, "hall", None),
        ]);
        let found = run::<CamPhase>(&input);
        let o = one(&found, "cam-phase", "cam-sensor").clone();
        assert!(o.arg_f64("scatter").unwrap() < 1.0, "{o:?}");
        (o.value.unwrap(), o.uncertainty.unwrap())
    };
    let ((before, u), (after, _)) = (phase(0.0), phase(10.0));
    assert!(
        (after - before - 10.0).abs() < 0.3_f64.max(3.0 * u),
        "{before} {after} {u}"
    );
}

/// A shaft's ring of 36 without one tooth may be made so: asked for, not condemned. With the count stated it is damage.
#[test]
fn a_gap_that_may_be_a_mark_is_asked_for() {
    let ring = Ring::without(36, &[7]);
    let unstated = tooth_fault("speed-sensor-1", &ring, "hall", None);
    assert_eq!(unstated.grade, Grade::Unusable, "{unstated:?}");
    let stated = tooth_fault("speed-sensor-1", &ring, "hall", Some(0));
    assert_eq!(stated.grade, Grade::Abnormal, "{stated:?}");
    let made_so = tooth_fault("speed-sensor-1", &ring, "hall", Some(1));
    assert_eq!(made_so.grade, Grade::Normal, "{made_so:?}");
}

/// A coil on its load as SciPy integrates it (data/coil.py): 0.9 H, 1.1 and 4.7 kiloohms, 48 teeth, 120 and 360 rpm; 0.3241 V at
/// 100 rpm but for the inductance, which takes 1 % at 120 rpm (96 Hz) and 4.5 % at 360 rpm.
#[test]
fn a_loaded_coil_as_scipy_integrates_it() {
    let samples: Vec<f32> = include_str!("data/coil.txt")
        .lines()
        .map(|l| l.parse().unwrap())
        .collect();
    let mut channel = channel("wheel-speed-1", &samples, 4_000.0);
    channel.facts.sensor = Some("vr".into());
    channel.facts.teeth = Some(48);
    let input = input(vec![channel]);
    let speeds: Vec<f64> = run::<Rotation>(&input)
        .iter()
        .filter(|o| o.kind == "sensor-speed")
        .filter_map(|o| o.value)
        .collect();
    for rpm in [120.0, 360.0] {
        assert!(
            speeds.iter().any(|s| (s / rpm - 1.0).abs() < 0.01),
            "{speeds:?}"
        );
    }
    let found = run::<SensorAmplitude>(&input);
    let volts = one(&found, "sensor-amplitude", "wheel-speed-1")
        .value
        .unwrap();
    assert!((0.305..0.326).contains(&volts), "{volts}");
}

/// Faraday: the voltage is N dPhi/dt, so at 100 rpm it is a third of that at 300 rpm, whatever the noise. The model's own
/// voltage at 100 rpm, without noise, is the reference.
#[test]
fn amplitude_of_a_coil_is_given_at_100_rpm() {
    let ring = Ring::even(48);
    let reference = coil(&ring, &angles(|_| 100.0, 2.0, 40_000.0), 40_000.0, 0.1, 0.0);
    let peak = reference[..70_000].iter().copied().fold(0.0, f32::max);
    let samples = coil(
        &ring,
        &angles(ramp(200.0, 400.0), SECONDS, RATE),
        RATE,
        0.1,
        0.002,
    );
    let found = run::<SensorAmplitude>(&input(vec![sensor(
        "wheel-speed-1",
        &samples,
        "vr",
        Some(48),
    )]));
    let value = one(&found, "sensor-amplitude", "wheel-speed-1")
        .value
        .unwrap();
    assert!(
        (value / f64::from(peak) - 1.0).abs() < 0.06,
        "{value} {peak}"
    );
}

/// A wheel whose twin was not recorded is held against the other axle, where the rings have as many teeth.
#[test]
fn a_wide_gap_without_a_twin_is_told_by_the_other_axle() {
    let near = Ring::even(48);
    let far = Ring {
        gap: 4.0,
        ..Ring::even(48)
    };
    let turns = angles(ramp(200.0, 400.0), SECONDS, RATE);
    let (a, b) = (
        coil(&near, &turns, RATE, 1.0, 0.002),
        coil(&far, &turns, RATE, 1.0, 0.002),
    );
    let grade = |teeth: u32| {
        let input = input(vec![
            sensor("wheel-speed-1", &a, "vr", Some(teeth)),
            sensor("wheel-speed-2", &a, "vr", Some(teeth)),
            sensor("wheel-speed-3", &b, "vr", Some(48)),
        ]);
        let found = run::<SensorAmplitude>(&input);
        let weak = one(&found, "sensor-amplitude", "wheel-speed-3");
        (weak.message.clone(), weak.grade)
    };
    assert_eq!(
        grade(48),
        ("sensor-amplitude-among".into(), Grade::Abnormal)
    );
    assert_eq!(grade(60), ("sensor-amplitude".into(), Grade::Normal));
}

#[test]
fn a_wide_gap_is_told_by_the_twin() {
    let near = Ring::even(48);
    let far = Ring {
        gap: 3.5,
        ..Ring::even(48)
    };
    let turns = angles(ramp(200.0, 400.0), SECONDS, RATE);
    let (a, b) = (
        coil(&near, &turns, RATE, 0.1, 0.002),
        coil(&far, &turns, RATE, 0.1, 0.002),
    );
    let input = input(vec![
        sensor("wheel-speed-1", &a, "vr", Some(48)),
        sensor("wheel-speed-2", &b, "vr", Some(48)),
    ]);
    let found = run::<SensorAmplitude>(&input);
    assert_eq!(
        one(&found, "sensor-amplitude", "wheel-speed-1").grade,
        Grade::Normal
    );
    assert_eq!(
        one(&found, "sensor-amplitude", "wheel-speed-2").grade,
        Grade::Abnormal
    );
    let pair = run::<SensorPair>(&input);
    assert!(
        one(&pair, "speed-difference", "wheel-speed-1")
            .value
            .unwrap()
            < 0.1
    );
}

#[test]
fn levels_of_a_current_loop_are_milliamperes() {
    let samples = switch(
        &Ring::even(48),
        &angles(steady(300.0), SECONDS, RATE),
        (0.007, 0.014),
        1e-4,
    );
    let mut own = sensor("wheel-speed-1", &samples, "current-loop", Some(48));
    own.unit = "A";
    let found = run::<SensorAmplitude>(&input(vec![own]));
    let values: Vec<f64> = found.iter().filter_map(|o| o.value).collect();
    assert!(
        (values[0] - 7.0).abs() < 0.1 && (values[1] - 14.0).abs() < 0.1,
        "{found:?}"
    );
}

#[test]
fn polarity_by_the_gap() {
    let ring = Ring::without(60, &[58, 59]);
    let usual = coil(
        &ring,
        &angles(ramp(700.0, 900.0), SECONDS, RATE),
        RATE,
        0.1,
        0.002,
    );
    let reversed: Vec<f32> = usual.iter().map(|v| -v).collect();
    for (samples, grade) in [(&usual, Grade::Normal), (&reversed, Grade::Abnormal)] {
        let found = run::<Polarity>(&input(vec![sensor("crank-sensor", samples, "vr", None)]));
        assert_eq!(one(&found, "sensor-polarity", "crank-sensor").grade, grade);
    }
}

/// Interruptions in a train that goes on; silence counts beside a witness and only there.
#[test]
fn silence_needs_a_witness() {
    let turns = angles(steady(300.0), SECONDS, RATE);
    let sound = switch(&Ring::even(48), &turns, (0.4, 4.8), 0.02);
    let mut broken = sound.clone();
    for from in [5_000, 12_000, 21_000, 30_000] {
        broken[from..from + 1_000].fill(0.4);
    }
    let dead = vec![0.4; sound.len()];
    let wheel = |role, samples| sensor(role, samples, "hall", Some(48));
    let found = run::<Interruptions>(&input(vec![wheel("wheel-speed-1", &broken)]));
    let dropout = one(&found, "sensor-dropout", "wheel-speed-1");
    assert_eq!((dropout.value, dropout.grade), (Some(4.0), Grade::Abnormal));
    // Two short ones with a tooth between: too short to call it broken, and not whole.
    let mut close = sound.clone();
    close[15_000..15_170].fill(0.4);
    close[15_215..15_400].fill(0.4);
    let found = run::<Interruptions>(&input(vec![wheel("wheel-speed-1", &close)]));
    assert!(
        found.iter().all(|o| o.message != "sensor-dropout-none"),
        "{found:?}"
    );
    let alone = run::<Interruptions>(&input(vec![wheel("wheel-speed-1", &dead)]));
    assert_eq!(
        one(&alone, "sensor-silent", "wheel-speed-1").grade,
        Grade::NotTested
    );
    let beside = run::<Interruptions>(&input(vec![
        wheel("wheel-speed-1", &dead),
        wheel("wheel-speed-2", &sound),
    ]));
    assert_eq!(
        one(&beside, "sensor-silent", "wheel-speed-1").grade,
        Grade::Abnormal
    );
    assert_eq!(
        one(&beside, "sensor-dropout", "wheel-speed-2").grade,
        Grade::Normal
    );
}

/// Ringing that the ignition leaves on the line of a wheel that rests, two bursts a turn: far too few a second for a rate that keeps
/// up with the engine's, each at the same angle of the crankshaft.
#[test]
fn bursts_of_the_ignition_are_told_by_their_angle() {
    let rpm = |t: f64| 850.0 + 1_300.0 * (-((t - 2.0) / 0.6).powi(2)).exp();
    let engine = angles(rpm, SECONDS, RATE);
    let mut noise = Noise::new(8);
    let line: Vec<f32> = engine
        .iter()
        .map(|t| {
            let phase = (2.0 * t).fract();
            let burst = (-phase / 0.03).exp() * (std::f64::consts::TAU * 9.0 * phase).cos();
            (0.2 * burst + 0.002 * noise.normal()) as f32
        })
        .collect();
    let crank = switch(&Ring::even(6), &engine, (0.2, 5.0), 0.02);
    let channels = vec![
        sensor("wheel-speed-1", &line, "vr", Some(47)),
        sensor("engine-speed", &crank, "hall", Some(6)),
    ];
    let found = run::<Rotation>(&input(channels));
    let seen = one(&found, "no-rotation", "wheel-speed-1");
    assert_eq!(seen.grade, Grade::Abnormal, "{seen:?}");
    assert!(
        (seen.arg_f64("order").unwrap() - 2.0).abs() < 0.02,
        "{seen:?}"
    );
}

/// An alternator's ripple on the line of a wheel that rests: 33.6 pulses per turn of the engine, of one height at every speed.
#[test]
fn pick_up_follows_the_engine_and_not_its_own_rate() {
    let engine = angles(ramp(800.0, 1600.0), SECONDS, RATE);
    let mut noise = Noise::new(3);
    let line: Vec<f32> = engine
        .iter()
        .map(|t| (0.1 * (std::f64::consts::TAU * 33.6 * t).sin() + 0.005 * noise.normal()) as f32)
        .collect();
    let crank = switch(&Ring::even(6), &engine, (0.2, 5.0), 0.02);
    let channels = |samples| {
        vec![
            sensor("wheel-speed-1", samples, "vr", Some(47)),
            sensor("engine-speed", &crank, "hall", Some(6)),
        ]
    };
    let found = run::<Rotation>(&input(channels(&line)));
    let seen = one(&found, "no-rotation", "wheel-speed-1");
    assert_eq!(seen.grade, Grade::Abnormal);
    assert!(
        (seen.arg_f64("order").unwrap() - 33.6).abs() < 0.1,
        "{seen:?}"
    );
    // A wheel that the engine drives in one gear keeps its ratio as well, but its voltage grows.
    let driven: Vec<f64> = engine.iter().map(|t| t / 4.0).collect();
    let turning = coil(&Ring::even(47), &driven, RATE, 0.02, 0.002);
    let found = run::<Rotation>(&input(channels(&turning)));
    assert!(found.iter().all(|o| o.kind != "no-rotation"), "{found:?}");
}

/// On a lift the driven wheels turn and the others stand; behind a differential one driven wheel may stand, too. With the vehicle
/// on the road all turn: then one that gives nothing is dead.
#[test]
fn wheels_that_stand_on_a_lift_are_not_called_dead() {
    let turns = angles(steady(120.0), SECONDS, RATE);
    let turning = coil(&Ring::even(48), &turns, RATE, 0.1, 0.002);
    let mut noise = Noise::new(3);
    let standing: Vec<f32> = turning
        .iter()
        .map(|_| 0.002 * noise.normal() as f32)
        .collect();
    let judged = |silent: &[usize]| {
        let roles = [
            "wheel-speed-1",
            "wheel-speed-2",
            "wheel-speed-3",
            "wheel-speed-4",
        ];
        let wheels = roles.iter().enumerate().map(|(k, role)| {
            let samples = if silent.contains(&k) {
                &standing
            } else {
                &turning
            };
            sensor(role, samples, "vr", Some(48))
        });
        let found = run::<Interruptions>(&input(wheels.collect()));
        one(&found, "sensor-silent", roles[silent[0]]).clone()
    };
    for silent in [&[2, 3][..], &[0, 1], &[1, 2, 3], &[0, 2]] {
        assert_eq!(judged(silent).message, "sensor-silent-standing");
        assert_eq!(judged(silent).grade, Grade::Unusable);
    }
    assert_eq!(judged(&[3]).message, "sensor-silent-several");
    assert_eq!(judged(&[3]).grade, Grade::Abnormal);
}

/// A brake that locks a wheel stops it within some teeth and lets it gather speed again; the sensor is sound.
#[test]
fn a_wheel_that_locks_under_the_brake_is_no_interruption() {
    let locks = |t: f64| {
        let held = |from: f64| {
            let down = (t - from) / 0.12;
            let up = (from + 0.5 - t) / 0.12;
            down.min(up).clamp(0.0, 1.0)
        };
        240.0 * (1.0 - held(1.2)) * (1.0 - held(2.2))
    };
    for kind in ["vr", "hall"] {
        let turns = angles(locks, SECONDS, RATE);
        let ring = Ring::even(48);
        let samples = match kind {
            "vr" => coil(&ring, &turns, RATE, 0.1, 0.002),
            _ => switch(&ring, &turns, (0.4, 4.8), 0.02),
        };
        let found = run::<Interruptions>(&input(vec![sensor(
            "wheel-speed-1",
            &samples,
            kind,
            Some(48),
        )]));
        let abnormal = found.iter().find(|o| o.grade == Grade::Abnormal);
        assert!(abnormal.is_none(), "{kind}: {found:?}");
    }
}

/// A wheel that is turned slowly by hand pauses gradually and starts again from rest; a contact that opens takes teeth away at full
/// speed.
#[test]
fn breaks_at_full_speed_are_interruptions_however_slowly_a_wheel_turns() {
    let slow = |t: f64| 42.0 + 4.0 * (1.3 * t).sin();
    let turns = angles(slow, 8.0, RATE);
    let mut broken = switch(&Ring::even(44), &turns, (0.4, 4.8), 0.02);
    for from in [21_000, 38_000, 55_000] {
        broken[from..from + 3_200].fill(0.4);
    }
    let pauses = |t: f64| {
        let held = |from: f64| {
            ((t - from) / 0.25)
                .min((from + 0.8 - t) / 0.25)
                .clamp(0.0, 1.0)
        };
        42.0 * (1.0 - held(1.8)) * (1.0 - held(3.6)) * (1.0 - held(5.4))
    };
    let paused = switch(
        &Ring::even(44),
        &angles(pauses, 8.0, RATE),
        (0.4, 4.8),
        0.02,
    );
    let judged = |samples: &[f32]| {
        let found = run::<Interruptions>(&input(vec![sensor(
            "wheel-speed-1",
            samples,
            "hall",
            Some(44),
        )]));
        found.into_iter().find(|o| o.grade == Grade::Abnormal)
    };
    let found = judged(&broken).expect("interruptions");
    assert_eq!(found.message, "sensor-breaks-off", "{found:?}");
    assert!(judged(&paused).is_none(), "{:?}", judged(&paused));
}

/// Under the starter the cylinders hurry and slow the shaft by a third, and the first turn begins at rest: the teeth beside the mark are
/// not called broken.
#[test]
fn a_crankshaft_under_the_starter_is_sound() {
    for (positions, missing) in [(36u32, vec![35u32]), (60, vec![58, 59]), (24, vec![23])] {
        for cylinders in [2.0, 4.0, 6.0] {
            let mut turn = 0.0;
            let rpm = |t: f64| {
                let base = 200.0 * (t / 0.25).min(1.0);
                turn += base / 60.0 / RATE;
                base * (1.0 + 0.25 * (std::f64::consts::PI * cylinders * turn).cos())
            };
            let rpm = std::cell::RefCell::new(rpm);
            let turns = angles(|t| rpm.borrow_mut()(t), 2.5, RATE);
            let ring = Ring::without(positions, &missing);
            let samples = coil(&ring, &turns, RATE, 0.1, 0.002);
            let mut own = sensor("crank-sensor", &samples, "vr", Some(positions));
            own.facts.missing_teeth = Some(missing.len() as u32);
            let found = run::<ToothRing>(&input(vec![own]));
            let abnormal = found.iter().find(|o| o.grade == Grade::Abnormal);
            assert!(abnormal.is_none(), "{positions} {cylinders}: {abnormal:?}");
        }
    }
}

/// Two wheels whose stated teeth make them turn at speeds that no axle has side by side: their rings may not be alike, and the weaker
/// signal accuses no air gap.
#[test]
fn rings_that_may_not_be_alike_tell_no_air_gap() {
    let turns = angles(ramp(200.0, 400.0), SECONDS, RATE);
    let near = coil(&Ring::even(29), &turns, RATE, 0.1, 0.002);
    let far = Ring {
        gap: 3.5,
        ..Ring::even(44)
    };
    let far = coil(&far, &turns, RATE, 0.1, 0.002);
    for (stated, message, grade) in [
        (29, "sensor-amplitude-apart", Grade::Unusable),
        (44, "sensor-amplitude-beside", Grade::Abnormal),
    ] {
        let found = run::<SensorAmplitude>(&input(vec![
            sensor("wheel-speed-1", &near, "vr", Some(29)),
            sensor("wheel-speed-2", &far, "vr", Some(stated)),
        ]));
        let weak = one(&found, "sensor-amplitude", "wheel-speed-2");
        assert_eq!((weak.message.as_str(), weak.grade), (message, grade));
    }
}

/// A camshaft's few uneven marks under the starter are no train of teeth, and no silence either.
#[test]
fn a_cam_sensor_that_switches_seldom_is_not_silent() {
    let crank = Ring {
        missing: vec![23],
        ..Ring::even(24)
    };
    let turns = angles(steady(190.0), 3.0, RATE);
    let crank = switch(&crank, &turns, (0.2, 12.0), 0.01);
    let mut noise = Noise::new(3);
    let cam: Vec<f32> = (0..crank.len())
        .map(|k| {
            // Three marks of a camshaft's turn of 0.63 s, and none for the rest of it.
            let phase = (k as f64 / RATE / 0.63).fract();
            let high = [0.6, 0.78, 0.95]
                .iter()
                .any(|m| (0.0..0.09).contains(&(phase - m)));
            (if high { 5.0 } else { 0.2 }) + 0.01 * noise.normal() as f32
        })
        .collect();
    let found = run::<Interruptions>(&input(vec![
        sensor("crank-sensor", &crank, "hall", None),
        sensor("cam-sensor", &cam, "hall", None),
    ]));
    assert!(
        found.iter().all(|o| o.kind != "sensor-silent"),
        "{found:#?}"
    );
}

/// A gap that was not stated is told of, whatever else of the ring can be judged.
#[test]
fn a_gap_that_was_not_stated_is_never_passed_over() {
    for (n, rpm, rate) in [
        (71, 265.0, 10_000.0),
        (29, 190.0, 5_000.0),
        (29, 190.0, 1_000.0),
        (44, 120.0, 2_000.0),
    ] {
        let ring = Ring {
            missing: vec![5],
            ..Ring::even(n)
        };
        let samples = coil(
            &ring,
            &angles(ramp(rpm, 0.8 * rpm), SECONDS, rate),
            rate,
            0.1,
            0.002,
        );
        let mut own = sensor("speed-sensor-1", &samples, "vr", None);
        own.time = channel("speed-sensor-1", &samples, rate).time;
        let found = run::<ToothRing>(&input(vec![own]));
        let shows = run::<Rotation>(&input(vec![{
            let mut own = sensor("speed-sensor-1", &samples, "vr", None);
            own.time = channel("speed-sensor-1", &samples, rate).time;
            own
        }]));
        if shows.iter().any(|o| o.kind == "tooth-pattern") {
            let fault = one(&found, "tooth-fault", "speed-sensor-1");
            assert!(
                matches!(fault.grade, Grade::Abnormal | Grade::Unusable),
                "{n} {fault:?}"
            );
        }
    }
}
