//! Coils of a modelled circuit and of SciPy: resistance, inductance, movement, hold, limit, dwell.

mod solenoid_model;

use baybrief_plugin_coil::CoilCurrents;
use baybrief_plugin_coil::measure::record::{Coil as Measured, Voltages, measure};
use baybrief_plugin_coil::measure::steady::End;
use plugin_sdk::testing::{Bench, channel};
use plugin_sdk::{Grade, Input, Observation, Settings};
use solenoid_model::{Coil, Control, Motion, Recording, seeded};

const SEEDS: u64 = 10;

fn measured(recording: &Recording) -> Measured {
    let voltages = Voltages {
        driven: Some(&recording.driven),
        supply: Some(&recording.supply),
    };
    measure(&recording.current, voltages, recording.step_s)
}

/// Current of a solenoid with a moving gap, one actuation, 50 kHz, integrated with SciPy (data/solenoid.py):
/// 13.2 ohm, 13.4 V, 11.5 mH open, times 1.45 closed, leaves its seat at 0.42 A after 0.4652 ms, end of stroke after 0.9707
/// ms, switched off after 9.000 ms against 55 V.
const SCIPY: &str = include_str!("data/solenoid.txt");

#[test]
fn a_solenoid_as_scipy_integrates_it() {
    let current: Vec<f32> = SCIPY.lines().map(|l| l.parse().unwrap()).collect();
    let supply = vec![13.4f32; current.len()];
    let ground: Vec<f32> = current
        .iter()
        .map(|&i| if i > 0.0 { 0.0 } else { 13.4 })
        .collect();
    let voltages = Voltages {
        driven: Some(&ground),
        supply: Some(&supply),
    };
    let coil = measure(&current, voltages, 2e-5);
    let near = |value: f64, truth: f64, share: f64| {
        assert!((value / truth - 1.0).abs() < share, "{value} for {truth}")
    };
    near(coil.resistance.unwrap().value, 13.2, 0.005);
    near(coil.inductance.unwrap().value, 11.5, 0.02);
    near(coil.dwell.unwrap().value, 9.0, 0.003);
    let notch = coil.armature.unwrap().notch.unwrap();
    near(notch.at * 0.02, 0.9707, 0.03);
}

#[test]
fn resistance_inductance_and_dwell_are_those_of_the_circuit() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let coil = Coil::valve(&mut random);
        let noise = 0.005 * coil.supply / coil.ohm;
        let recording = coil.record(4, 50e3, noise, &mut random);
        let found = measured(&recording);
        // The driver's part of the wiring is taken off by its own voltage.
        let ohm = coil.ohm + coil.wiring - coil.wiring.min(0.3);
        let r = found.resistance.unwrap();
        assert!(
            (r.value - ohm).abs() < 3.0 * r.uncertainty,
            "{seed} {r:?} {ohm}"
        );
        assert!((r.value / ohm - 1.0).abs() < 0.03, "{seed} {r:?} {ohm}");
        let l = found.inductance.unwrap();
        assert!(
            (l.value / coil.henry / 1e3 - 1.0).abs() < 0.08,
            "{seed} {l:?}"
        );
        let dwell = found.dwell.unwrap();
        assert!(
            (dwell.value - 1e3 * coil.dwell).abs() < 0.06,
            "{seed} {dwell:?}"
        );
    }
}

#[test]
fn the_end_of_the_stroke_is_found_and_a_stuck_armature_shows_none() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let mut coil = Coil::valve(&mut random);
        let noise = 0.004 * coil.supply / coil.ohm;
        let free = coil.record(5, 50e3, noise, &mut random);
        let found = measured(&free).armature.unwrap().notch.unwrap();
        let error = found.at * free.step_s - free.moved;
        assert!(error.abs() < 8e-5, "{seed} {error}");
        for closed in [false, true] {
            coil.motion = Motion::Stuck { closed };
            let stuck = measured(&coil.record(5, 50e3, noise, &mut random));
            let armature = stuck.armature.unwrap();
            assert!(armature.notch.is_none(), "{seed} {armature:?}");
            assert!(armature.detectable < 0.3, "{seed} {armature:?}");
        }
    }
}

/// A large movement makes the current fall, and the actuation ends soon after it: no driver has lowered that current.
#[test]
fn a_fall_that_the_movement_makes_is_no_held_current() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let mut coil = Coil {
            ratio: 1.9,
            ..Coil::valve(&mut random)
        };
        coil.dwell = 1.25 * coil.record(2, 50e3, 0.0, &mut random).moved;
        let noise = 0.003 * coil.supply / coil.ohm;
        let recording = coil.record(6, 50e3, noise, &mut random);
        let found = measured(&recording);
        assert!(
            !matches!(found.end, End::Held { .. }),
            "{seed} {:?}",
            found.end
        );
        let notch = found.armature.unwrap().notch.unwrap();
        let error = notch.at * recording.step_s - recording.moved;
        assert!(error.abs() < 1e-4, "{seed} {error}");
    }
}

#[test]
fn a_held_current_is_measured_with_its_chopper() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let mut coil = Coil::peak_and_hold(&mut random);
        let Control::PeakAndHold(peak, hold, _) = coil.control else {
            unreachable!("a coil with peak and hold")
        };
        coil.motion = Motion::Stuck { closed: true };
        let recording = coil.record(3, 100e3, 0.01, &mut random);
        let found = measured(&recording);
        let End::Held {
            peak: found_peak,
            level,
            ..
        } = found.end
        else {
            panic!("{seed} {:?}", found.end)
        };
        assert!(
            (found_peak / peak - 1.0).abs() < 0.03,
            "{seed} {found_peak} {peak}"
        );
        assert!((level / hold - 1.0).abs() < 0.06, "{seed} {level} {hold}");
        // Between its thresholds the current rises by 12 V and falls by 0.7 V and the resistance's drop.
        let (l, r) = (coil.henry * coil.ratio, coil.ohm + coil.wiring);
        let ripple = 0.16 * hold;
        let cycle = ripple * l / (coil.supply - r * hold) + ripple * l / (0.7 + r * hold);
        if let Some(chopper) = found.chopper {
            let rate = chopper.frequency * 100e3;
            assert!(
                (rate * cycle - 1.0).abs() < 0.15,
                "{seed} {rate} {}",
                1.0 / cycle
            );
        }
    }
}

/// At 10 kHz a chopper of several kilohertz looks slower: no frequency is better than a wrong one.
/// A short peak before a long hold keeps its height: a valve that is held for fifty times as long as it takes to pull in.
#[test]
fn a_short_peak_before_a_long_hold_keeps_its_height() {
    let mut random = seeded(3);
    let mut coil = Coil::peak_and_hold(&mut random);
    let Control::PeakAndHold(peak, ..) = coil.control else {
        unreachable!()
    };
    coil.dwell = 60e-3;
    coil.pause = 100e-3;
    let found = measured(&coil.record(3, 50e3, 0.01, &mut random));
    let End::Held { peak: seen, .. } = found.end else {
        panic!("{:?}", found.end)
    };
    assert!((seen / peak - 1.0).abs() < 0.06, "{seen} for {peak}");
}

#[test]
fn a_chopper_beyond_the_sampling_is_not_named() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let mut coil = Coil::peak_and_hold(&mut random);
        coil.motion = Motion::Stuck { closed: true };
        let Control::PeakAndHold(_, hold, _) = coil.control else {
            unreachable!("a coil with peak and hold")
        };
        let (l, r) = (coil.henry * coil.ratio, coil.ohm + coil.wiring);
        let ripple = 0.16 * hold;
        let cycle = ripple * l / (coil.supply - r * hold) + ripple * l / (0.7 + r * hold);
        let found = measured(&coil.record(3, 10e3, 0.005, &mut random)).chopper;
        if let Some(chopper) = found {
            assert!(
                (chopper.frequency * 10e3 * cycle - 1.0).abs() < 0.6,
                "{seed} {chopper:?} {}",
                1.0 / cycle
            );
        }
    }
}

#[test]
fn a_limit_is_no_resistance() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let mut coil = Coil::ignition(&mut random);
        coil.dwell = 8e-3;
        let Control::Limit(limit) = coil.control else {
            unreachable!("a coil with a limit")
        };
        let found = measured(&coil.record(4, 50e3, 0.02, &mut random));
        assert!(found.resistance.is_none(), "{seed} {:?}", found.resistance);
        if let End::Limited { level, .. } = found.end {
            assert!((level / limit - 1.0).abs() < 0.03, "{seed} {level} {limit}");
        }
        let flyback = found.driver.unwrap().flyback.unwrap();
        assert!(flyback.volts > 300.0, "{seed} {flyback:?}");
    }
}

fn observe(channels: &[(&str, &[f32])], step_s: f64, ohm: Option<f64>) -> Vec<Observation> {
    let channels = channels
        .iter()
        .map(|&(role, samples)| channel(role, samples, 1.0 / step_s))
        .collect();
    let mut settings = Settings::default();
    settings
        .unit
        .extend(ohm.map(|ohm| ("coil_ohm".into(), ohm.into())));
    let input = Input {
        file: "test",
        channels,
        settings,
    };
    Bench::of::<CoilCurrents>().run(&input).unwrap()
}

fn abnormal(observations: &[Observation]) -> Vec<(&str, &str)> {
    observations
        .iter()
        .filter(|o| o.grade == Grade::Abnormal)
        .map(|o| (o.subject.as_deref().unwrap_or(""), o.message.as_str()))
        .collect()
}

#[test]
fn of_several_coils_the_odd_one_is_named() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let base = Coil::valve(&mut random);
        let noise = 0.005 * base.supply / base.ohm;
        let mut record = |change: &dyn Fn(&mut Coil)| {
            (0..4)
                .map(|k| {
                    let mut coil = base;
                    if k == 2 {
                        change(&mut coil);
                    }
                    coil.record(3, 50e3, noise, &mut random)
                })
                .collect::<Vec<_>>()
        };
        let see = |recordings: &[Recording]| {
            let length = recordings.iter().map(|r| r.current.len()).min().unwrap();
            let names: Vec<String> = (1..=4).map(|k| format!("coil-current-{k}")).collect();
            let mut channels: Vec<(&str, &[f32])> = names
                .iter()
                .zip(recordings)
                .map(|(name, r)| (name.as_str(), &r.current[..length]))
                .collect();
            channels.push(("supply-voltage", &recordings[0].supply[..length]));
            observe(&channels, recordings[0].step_s, None)
        };
        assert_eq!(abnormal(&see(&record(&|_| {}))), [], "{seed}");
        let stuck = see(&record(&|c| c.motion = Motion::Stuck { closed: true }));
        assert_eq!(
            abnormal(&stuck),
            [("coil-current-3", "armature-silent-beside-others")],
            "{seed}"
        );
        let shorted = see(&record(&|c| {
            c.ohm *= 0.6;
            c.henry *= 0.36;
        }));
        let named = abnormal(&shorted);
        assert!(!named.is_empty(), "{seed}");
        // Where the current does not settle, the steeper ramp alone tells.
        for (role, message) in named {
            assert_eq!(role, "coil-current-3", "{seed} {message}");
            assert!(message.ends_with("-below-others"), "{seed} {message}");
        }
    }
}

/// Four ignition coils that a driver stops before their current tells a resistance.
fn primaries(seed: u64, rate_hz: f64, change: impl Fn(&mut Coil)) -> Vec<Observation> {
    let mut random = seeded(seed);
    let base = Coil::ignition(&mut random);
    let recordings: Vec<Recording> = (0..4)
        .map(|k| {
            let mut coil = base;
            if k == 2 {
                change(&mut coil);
            }
            coil.record(3, rate_hz, 0.02, &mut random)
        })
        .collect();
    of_four(&recordings, base.ohm)
}

/// Findings of four coils that are recorded beside their supply, of the stated resistance.
fn of_four(recordings: &[Recording], ohm: f64) -> Vec<Observation> {
    let length = recordings.iter().map(|r| r.current.len()).min().unwrap();
    let names: Vec<String> = (1..=4).map(|k| format!("coil-current-{k}")).collect();
    let mut channels: Vec<(&str, &[f32])> = names
        .iter()
        .zip(recordings)
        .map(|(name, r)| (name.as_str(), &r.current[..length]))
        .collect();
    channels.push(("supply-voltage", &recordings[0].supply[..length]));
    observe(&channels, recordings[0].step_s, Some(ohm))
}

/// One primary of four with shorted turns reaches its limit within a few samples, one with resistance in its wiring rises less:
/// each is named, no resistance is made up for it, and primaries that rise alike are called alike.
#[test]
fn of_several_primaries_the_one_that_rises_otherwise_is_named() {
    for seed in 0..SEEDS {
        for rate_hz in [10e3, 50e3] {
            let sound = primaries(seed, rate_hz, |_| {});
            assert_eq!(abnormal(&sound), [], "{seed}");
            let alike = sound.iter().filter(|o| o.message == "coil-course").count();
            assert_eq!(alike, 4, "{seed} {sound:?}");
            let shorted = primaries(seed, rate_hz, |c| {
                c.ohm *= 0.6;
                c.henry *= 0.36;
            });
            let named = abnormal(&shorted);
            assert!(
                named.contains(&("coil-current-3", "coil-course-above-others")),
                "{seed} {named:?}"
            );
            let wired = primaries(seed, rate_hz, |c| c.wiring += 2.5 * c.ohm);
            let named = abnormal(&wired);
            assert!(
                named.contains(&("coil-current-3", "coil-course-below-others")),
                "{seed} {named:?}"
            );
            assert!(
                !abnormal(&shorted)
                    .iter()
                    .any(|n| n.1 == "coil-resistance-high"),
                "{seed}"
            );
            for (role, message) in abnormal(&shorted).into_iter().chain(named) {
                assert_eq!(role, "coil-current-3", "{seed} {message}");
            }
        }
    }
}

/// Of two coils that differ nobody says which is off; and one that gets less current need not move.
#[test]
fn two_coils_that_differ_condemn_neither() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let coil = Coil::valve(&mut random);
        let mut resists = coil;
        resists.wiring += coil.ohm;
        let noise = 0.003 * coil.supply / coil.ohm;
        let sound = coil.record(4, 50e3, noise, &mut random);
        let weak = resists.record(4, 50e3, noise, &mut random);
        let length = sound.current.len().min(weak.current.len());
        let channels: Vec<(&str, &[f32])> = vec![
            ("coil-current-1", &sound.current[..length]),
            ("coil-current-2", &weak.current[..length]),
            ("supply-voltage", &sound.supply[..length]),
        ];
        let seen = observe(&channels, sound.step_s, None);
        for o in &seen {
            assert_ne!(o.grade, Grade::Abnormal, "{seed} {}", o.message);
        }
        let unequal = |o: &Observation| o.message == "coil-resistance-unequal";
        assert!(seen.iter().any(unequal), "{seed} {seen:?}");
    }
}

#[test]
fn a_coil_without_current_is_told_by_its_driven_side() {
    let mut random = seeded(4);
    let coil = Coil::valve(&mut random);
    let recording = coil.record(3, 20e3, 0.002, &mut random);
    let none: Vec<f32> = recording
        .current
        .iter()
        .map(|_| (0.002 * random.normal()) as f32)
        .collect();
    let pulled: Vec<f32> = recording
        .driven
        .iter()
        .map(|&v| v.min(coil.supply as f32))
        .collect();
    let steady = vec![coil.supply as f32; none.len()];
    let dead = vec![0.02f32; none.len()];
    let see = |driven: Option<&[f32]>| {
        let mut channels: Vec<(&str, &[f32])> = vec![
            ("coil-current", &none),
            ("supply-voltage", &recording.supply),
        ];
        channels.extend(driven.map(|d| ("coil-voltage", d)));
        observe(&channels, recording.step_s, Some(coil.ohm))
            .into_iter()
            .map(|o| (o.message, o.grade))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        see(Some(&pulled)),
        [("no-current-driven".into(), Grade::Abnormal)]
    );
    assert_eq!(
        see(Some(&dead)),
        [("no-current-dead-feed".into(), Grade::Abnormal)]
    );
    // Nobody says that the coil should have worked.
    assert_eq!(
        see(Some(&steady)),
        [("no-current-unwitnessed".into(), Grade::Unusable)]
    );
    assert_eq!(
        see(None),
        [("no-current-unwitnessed".into(), Grade::Unusable)]
    );
}

#[test]
fn gaps_and_empty_channels_do_no_harm() {
    let mut random = seeded(9);
    let coil = Coil::valve(&mut random);
    let mut recording = coil.record(3, 20e3, 0.002, &mut random);
    for k in (0..recording.current.len()).step_by(211) {
        recording.current[k] = f32::NAN;
    }
    assert!(measured(&recording).dwell.is_some());
    measure(&[], Voltages::default(), 1e-4);
    measure(&[f32::NAN; 50], Voltages::default(), 1e-4);
    measure(&[1.0; 50], Voltages::default(), 1e-4);
}

/// Current, A, and driven side, V, of a coil without an armature; `conducts` says when the driver does. A diode leads the
/// current back to the supply. Between two samples the state of the driver stays, so that the solution is exact:
/// i = u/R + (i0 - u/R) exp(-t R/L).
fn switched(
    (ohm, henry, volts): (f64, f64, f64),
    samples: usize,
    step_s: f64,
    conducts: impl Fn(f64) -> bool,
) -> (Vec<f32>, Vec<f32>) {
    let mut random = seeded(1);
    let keep = (-step_s * ohm / henry).exp();
    let mut amps = 0.0;
    (0..samples)
        .map(|k| {
            let on = conducts(k as f64 * step_s);
            let across = if on { volts - 0.1 } else { -0.7 };
            let end = across / ohm;
            amps = f64::max(end + (amps - end) * keep, 0.0);
            let driven = if on {
                0.1
            } else if amps > 0.0 {
                volts + 0.7
            } else {
                volts
            };
            let noise = 0.002 * random.normal();
            ((amps + noise) as f32, driven as f32)
        })
        .unzip()
}

/// Over whole cycles the mean voltage of an inductance is zero: mean voltage across the coil by mean current is its
/// resistance, however the driver chops.
#[test]
fn a_chopped_current_is_no_row_of_actuations() {
    for (rate_hz, duty) in [(200.0, 0.4), (400.0, 0.6), (900.0, 0.7)] {
        let chopped = |t: f64| (t * rate_hz).fract() < duty;
        let (current, driven) = switched((5.0, 0.02, 13.6), 12_000, 5e-5, chopped);
        let supply = vec![13.6f32; current.len()];
        let channels: [(&str, &[f32]); 3] = [
            ("coil-current", &current[2_000..]),
            ("coil-voltage", &driven[2_000..]),
            ("supply-voltage", &supply[2_000..]),
        ];
        let found = observe(&channels, 5e-5, Some(5.0));
        assert_eq!(abnormal(&found), [], "{rate_hz}");
        let value = |kind: &str| found.iter().find(|o| o.kind == kind).and_then(|o| o.value);
        let mean = (duty * 13.5 - (1.0 - duty) * 0.7) / 5.0;
        assert!((value("hold-current").unwrap() / mean - 1.0).abs() < 0.05);
        assert!((value("coil-resistance").unwrap() / 5.0 - 1.0).abs() < 0.04);
        assert_eq!(value("dwell-time"), None);
    }
}

#[test]
fn a_current_without_a_pause_is_the_drivers() {
    let (current, driven) = switched((14.0, 0.012, 13.4), 8_000, 5e-5, |_| true);
    let supply = vec![13.4f32; current.len()];
    for from in [0, 500] {
        let channels: [(&str, &[f32]); 3] = [
            ("coil-current", &current[from..]),
            ("coil-voltage", &driven[from..]),
            ("supply-voltage", &supply[from..]),
        ];
        let found = observe(&channels, 5e-5, Some(14.0));
        assert_eq!(abnormal(&found), [("coil-current", "coil-always-on")]);
    }
}

/// An ignition primary with its series resistor settles without a notch, for it has no armature.
#[test]
fn a_primary_that_settles_has_no_armature_to_stick() {
    let on = |t: f64| t.rem_euclid(0.04) > 0.024;
    let (current, _) = switched((3.1, 0.007, 13.8), 20_000, 2e-5, on);
    let supply = vec![13.8f32; current.len()];
    let channels: [(&str, &[f32]); 2] = [("coil-current", &current), ("supply-voltage", &supply)];
    assert_eq!(abnormal(&observe(&channels, 2e-5, None)), []);
}

/// A driver that switches the supply to the coil loses its own voltage before the driven side: it is no resistance of
/// the circuit.
#[test]
fn a_driver_that_feeds_is_known_by_the_current() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let coil = Coil::valve(&mut random);
        let recording = coil.record(4, 50e3, 0.003, &mut random);
        let fed = recording.driven.iter().zip(&recording.supply);
        let fed: Vec<f32> = fed.map(|(d, s)| s - d).collect();
        let turned = Recording {
            driven: fed,
            ..recording
        };
        let ohm = coil.ohm + coil.wiring - coil.wiring.min(0.3);
        let r = measured(&turned).resistance.unwrap();
        assert!((r.value / ohm - 1.0).abs() < 0.04, "{seed} {r:?} {ohm}");
    }
}

/// A factor of a clamp that is off by tens accuses no coil: no winding has a hundredth of its resistance, or a hundred times it.
#[test]
fn an_odd_scale_accuses_no_coil() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let coil = Coil::valve(&mut random);
        let recording = coil.record(4, 50e3, 0.003, &mut random);
        for factor in [0.01f32, 0.02, 50.0, 100.0] {
            let current: Vec<f32> = recording.current.iter().map(|i| factor * i).collect();
            let channels: [(&str, &[f32]); 2] = [
                ("coil-current", &current),
                ("supply-voltage", &recording.supply),
            ];
            let found = observe(&channels, recording.step_s, Some(coil.ohm));
            assert_eq!(abnormal(&found), [], "{seed} {factor}");
            let blocks = found
                .iter()
                .any(|o| o.message == "coil-resistance-implausible");
            assert!(blocks || factor < 1.0, "{seed} {factor}: {found:#?}");
        }
    }
}

/// Noise of amperes is no ignition coil, and a channel of noise alone accuses nobody.
#[test]
fn noise_accuses_no_coil() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let noise: Vec<f32> = (0..20_000).map(|_| 2.0 * random.normal() as f32).collect();
        let supply = vec![13.5f32; noise.len()];
        let channels: [(&str, &[f32]); 2] = [("coil-current", &noise), ("supply-voltage", &supply)];
        let found = observe(&channels, 2e-5, Some(0.6));
        assert_eq!(abnormal(&found), [], "{seed}");
        assert!(found.iter().all(|o| o.message != "armature-none"), "{seed}");
    }
}

/// A driver that chops lets the driven side fly to the supply in between; what it leaves is told from the time in which it conducts.
#[test]
fn the_pauses_of_a_chopper_are_no_drop_of_the_driver() {
    for (rate_hz, duty) in [(1_000.0, 0.5), (2_000.0, 0.35)] {
        let chopped = |t: f64| t.rem_euclid(0.06) > 0.02 && (t * rate_hz).fract() < duty;
        let (current, driven) = switched((4.0, 0.01, 13.6), 30_000, 2e-5, chopped);
        let supply = vec![13.6f32; current.len()];
        let channels: [(&str, &[f32]); 3] = [
            ("coil-current", &current),
            ("coil-voltage", &driven),
            ("supply-voltage", &supply),
        ];
        let found = observe(&channels, 2e-5, Some(4.0));
        assert_eq!(abnormal(&found), [], "{rate_hz}");
    }
}

/// Where the peak comes before any movement, the fall to the held level alone tells of the armature: i = I exp(-t R/L), and a gap
/// that closes takes current away. One coil that falls otherwise is not called sound, and not accused either.
#[test]
fn a_fall_unlike_the_others_clears_no_armature() {
    let (step_s, ohm, volts) = (1e-5, 5.4, 14.0);
    let course = |tau_s: f64, seed: u64| -> Vec<f32> {
        let mut random = seeded(seed);
        let end = volts / ohm;
        let peak_s = -1.6e-3 * (1.0f64 - 1.2 / end).ln();
        let held_s = peak_s + tau_s * (1.2f64 / 0.36).ln();
        (0..30_000)
            .map(|k| {
                let t = (k as f64 * step_s + 0.005).rem_euclid(0.1) - 0.01;
                let amps = match t {
                    t if !(0.0..0.06).contains(&t) => 0.0,
                    t if t < peak_s => end * (1.0 - (-t / 1.6e-3).exp()),
                    t if t < held_s => 1.2 * (-(t - peak_s) / tau_s).exp(),
                    t => 0.36 + 0.02 * (std::f64::consts::TAU * 3_700.0 * t).sin(),
                };
                (amps + 0.002 * random.normal()) as f32
            })
            .collect()
    };
    let seen = |taus: [f64; 4]| {
        let currents = [0, 1, 2, 3].map(|k| course(taus[k], k as u64));
        let supply = vec![volts as f32; currents[0].len()];
        let names = [1, 2, 3, 4].map(|k| format!("coil-current-{k}"));
        let mut channels: Vec<(&str, &[f32])> = names
            .iter()
            .zip(&currents)
            .map(|(n, c)| (n.as_str(), &c[..]))
            .collect();
        channels.push(("supply-voltage", &supply));
        observe(&channels, step_s, None)
    };
    let otherwise = |found: &[Observation]| -> Vec<String> {
        let of = found
            .iter()
            .filter(|o| o.message == "armature-falls-otherwise");
        of.map(|o| o.subject.clone().unwrap_or_default()).collect()
    };
    let alike = seen([1.6e-3, 1.65e-3, 1.55e-3, 1.6e-3]);
    assert_eq!((otherwise(&alike), abnormal(&alike)), (vec![], vec![]));
    let odd = seen([1.6e-3, 1.65e-3, 1.1e-3, 1.6e-3]);
    assert_eq!(otherwise(&odd), ["coil-current-3"], "{odd:#?}");
    assert_eq!(abnormal(&odd), []);
}

/// At few samples a primary with shorted turns is at its driver's limit before a limit is told: it rises otherwise all the same, and
/// nobody calls it alike.
#[test]
fn a_primary_at_its_limit_within_few_samples_is_not_called_alike() {
    for seed in 0..SEEDS {
        assert_eq!(abnormal(&primaries(seed, 5e3, |_| {})), [], "{seed}");
        let shorted = primaries(seed, 5e3, |c| {
            c.ohm *= 0.6;
            c.henry *= 0.36;
        });
        for (role, message) in abnormal(&shorted) {
            assert_eq!(role, "coil-current-3", "{seed} {message}");
        }
        let of_shorted = |o: &&Observation| o.subject.as_deref() == Some("coil-current-3");
        let course = shorted
            .iter()
            .filter(of_shorted)
            .find(|o| o.kind == "coil-course");
        assert!(
            course.is_none_or(|o| o.grade != Grade::Normal),
            "{seed} {course:?}"
        );
    }
}

/// Where the stated resistance tells which of two coils is off, their difference is no riddle.
#[test]
fn of_two_coils_the_one_off_its_stated_resistance_is_named() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let sound = Coil::valve(&mut random);
        let shorted = Coil {
            ohm: 0.5 * sound.ohm,
            henry: 0.25 * sound.henry,
            ..sound
        };
        let noise = 0.005 * sound.supply / sound.ohm;
        let [a, b] = [sound, shorted].map(|c| c.record(4, 50e3, noise, &mut random));
        let length = a.current.len().min(b.current.len());
        let channels: [(&str, &[f32]); 3] = [
            ("coil-current-1", &a.current[..length]),
            ("coil-current-2", &b.current[..length]),
            ("supply-voltage", &a.supply[..length]),
        ];
        let found = observe(&channels, a.step_s, Some(sound.ohm));
        assert!(
            abnormal(&found).contains(&("coil-current-2", "coil-resistance-low")),
            "{seed} {found:#?}"
        );
        let riddle = found
            .iter()
            .find(|o| o.message == "coil-inductance-unequal");
        assert!(riddle.is_none(), "{seed} {riddle:?}");
    }
}

/// Current and driven side of a valve whose driver lets its current freewheel from a peak to a held level: V = R i + d(L i)/dt, L of the
/// open gap until the armature arrives at `arrives_s` after the peak, half as much again behind; while it moves its voltage takes
/// current away. `clamp_v` is the driven side's voltage up to then.
fn freewheels(arrives_s: Option<f64>, clamp_v: f64, seed: u64) -> (Vec<f32>, Vec<f32>) {
    let (step_s, ohm, volts, tau_s) = (1e-5, 5.4, 14.0, 1.6e-3);
    let mut random = seeded(seed);
    let (mut current, mut driven) = (Vec::new(), Vec::new());
    let (mut amps, mut peak_s, mut holds) = (0.0f64, None, false);
    for k in 0..30_000 {
        let t = (k as f64 * step_s + 0.005).rem_euclid(0.1) - 0.01;
        let on = (0.0..0.06).contains(&t);
        if on && peak_s.is_none() {
            amps += step_s / tau_s * (volts / ohm - amps);
            peak_s = (amps >= 1.2).then_some(t);
        } else if let Some(since) = peak_s.filter(|_| on) {
            let rate = match arrives_s {
                Some(arrives) if t - since < arrives => 1.7 / tau_s,
                Some(_) => 0.65 / tau_s,
                None => 1.0 / tau_s,
            };
            holds |= amps < 0.36;
            amps = match holds {
                true => 0.36 + 0.02 * (std::f64::consts::TAU * 3_700.0 * t).sin(),
                false => amps * (1.0 - rate * step_s),
            };
        } else {
            (amps, peak_s, holds) = (0.0, None, false);
        }
        let moving = peak_s.is_some_and(|p| arrives_s.is_some_and(|a| t - p < a));
        let side = match (on, peak_s) {
            (true, None) => 0.2,
            (true, Some(_)) if moving => clamp_v,
            (true, Some(_)) => volts + 0.8,
            _ => volts,
        };
        current.push((amps + 0.002 * random.normal()) as f32);
        driven.push((side + 0.05 * random.normal()) as f32);
    }
    (current, driven)
}

/// Of a peak that comes before the movement the fall tells of the armature. One that arrives there moves, and where the driver may have
/// bent the fall itself nothing is decided; one whose fall is smooth is silent.
#[test]
fn an_armature_that_arrives_after_the_peak_does_not_stick() {
    for seed in 0..SEEDS {
        let seen = |arrives_s: Option<f64>, clamp_v: f64| {
            let (current, driven) = freewheels(arrives_s, clamp_v, seed);
            let supply = vec![14.0; current.len()];
            let channels: [(&str, &[f32]); 3] = [
                ("coil-current", &current),
                ("coil-voltage", &driven),
                ("supply-voltage", &supply),
            ];
            let of_armature = observe(&channels, 1e-5, None).into_iter();
            let of_armature = of_armature.filter(|o| o.kind.starts_with("armature"));
            of_armature
                .map(|o| (o.message.clone(), o.value))
                .collect::<Vec<_>>()
        };
        let moves = seen(Some(0.6e-3), 14.8);
        assert_eq!(moves[0].0, "armature-after-peak", "{seed} {moves:?}");
        // The peak of 1.2 A of 2.59 comes after 1.6 ms ln(1 / (1 - 0.463)) = 0.995 ms.
        assert!((moves[0].1.unwrap() - 1.6).abs() < 0.1, "{seed} {moves:?}");
        assert_eq!(
            seen(Some(0.6e-3), 40.0)[0].0,
            "armature-after-peak-unclear",
            "{seed}"
        );
        assert_eq!(seen(None, 14.8)[0].0, "armature-silent", "{seed}");
    }
}

/// Two primaries at eight samples a rise: what may be the edge of what sound ones differ by is not passed over.
#[test]
fn two_primaries_that_may_differ_are_not_passed_over() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let sound = Coil {
            ohm: 0.95,
            wiring: 0.05,
            henry: 6.1e-3,
            control: Control::Saturated,
            dwell: 4.2e-3,
            pause: 36e-3,
            supply: 13.4,
            ..Coil::ignition(&mut random)
        };
        let resists = Coil {
            wiring: 0.65,
            ..sound
        };
        let [a, b] = [sound, resists].map(|c| c.record(6, 2e3, 0.01, &mut random));
        let length = a.current.len().min(b.current.len());
        let channels: [(&str, &[f32]); 3] = [
            ("coil-current-1", &a.current[..length]),
            ("coil-current-2", &b.current[..length]),
            ("supply-voltage", &a.supply[..length]),
        ];
        let found = observe(&channels, a.step_s, None);
        let unclear = |o: &&Observation| o.grade == Grade::Unusable;
        assert!(found.iter().find(unclear).is_some(), "{seed} {found:#?}");
        assert_eq!(abnormal(&found), [], "{seed}");
    }
}

/// A record that is triggered by the switch-on and ends before the switch-off tells the resistance and the notch all the same, and no
/// dwell.
#[test]
fn a_record_that_ends_while_the_coil_is_on_is_measured() {
    for seed in 0..SEEDS {
        let mut random = seeded(seed);
        let mut coil = Coil::valve(&mut random);
        coil.dwell *= 2.0;
        let mut recording = coil.record(1, 50e3, 0.002 * coil.supply / coil.ohm, &mut random);
        let on = recording
            .current
            .iter()
            .rposition(|&i| f64::from(i) > 0.7 * coil.supply / (coil.ohm + coil.wiring));
        let end = on.unwrap() - (0.3 * coil.dwell / recording.step_s) as usize;
        for samples in [
            &mut recording.current,
            &mut recording.driven,
            &mut recording.supply,
        ] {
            samples.truncate(end);
        }
        let found = measured(&recording);
        let ohm = found.resistance.map(|r| r.value).unwrap_or(0.0);
        assert!(
            (ohm / (coil.ohm + coil.wiring) - 1.0).abs() < 0.08,
            "{seed} {found:?}"
        );
        assert!(found.armature.unwrap().notch.is_some(), "{seed}");
        assert!(found.dwell.is_none(), "{seed}");
    }
}

/// The common feed of several coils that are never all off: its pulses are no steady level of one coil.
#[test]
fn pulses_of_a_common_feed_are_no_steady_level() {
    let mut random = seeded(4);
    let rate = 50e3;
    let current: Vec<f32> = (0..13_000)
        .map(|k| {
            let t = k as f64 / rate - 0.002;
            let beat = (t - 0.012).rem_euclid(0.012);
            let level = match t {
                t if t < 0.0 => 0.0,
                t if t < 0.012 => 1.0 - (-t / 1.1e-3).exp(),
                _ if beat < 0.006 => 2.0 - (-beat / 1.1e-3).exp(),
                _ => 1.0 + (-(beat - 0.006) / 3e-4).exp(),
            };
            (level + 0.002 * random.normal()) as f32
        })
        .collect();
    let supply = vec![14.2; current.len()];
    let channels: [(&str, &[f32]); 2] = [("coil-current", &current), ("supply-voltage", &supply)];
    let found = observe(&channels, 1.0 / rate, Some(14.0));
    assert_eq!(abnormal(&found), [], "{found:#?}");
}

/// A relay with a diode: its current falls slowly, and the armature that drops off holds it up for a while (v = R i + d(L i)/dt with
/// falling L). That is no level that a driver holds, and the dwell ends at the switch-off.
#[test]
fn a_slow_fall_is_no_held_current() {
    let mut random = seeded(2);
    let rate = 5e3;
    let (dwell, tau) = (0.0858, 7e-3);
    let current: Vec<f32> = (0..12_000)
        .map(|k| {
            let t = (k as f64 / rate + 0.79).rem_euclid(0.8) - 0.01;
            let off = t - dwell;
            let bend = tau * (0.13f64 / 0.04).ln();
            let amps = match t {
                t if t < 0.0 => 0.0,
                t if t < dwell => 0.13 * (1.0 - (-t / 6e-3).exp()),
                _ if off < bend => 0.13 * (-off / tau).exp(),
                _ if off < bend + 4e-3 => 0.04,
                _ => 0.04 * (-(off - bend - 4e-3) / 4e-3).exp(),
            };
            (amps + 0.0003 * random.normal()) as f32
        })
        .collect();
    let supply = vec![13.4; current.len()];
    let channels: [(&str, &[f32]); 2] = [("coil-current", &current), ("supply-voltage", &supply)];
    let found = observe(&channels, 1.0 / rate, None);
    let value = |kind: &str| found.iter().find(|o| o.kind == kind).and_then(|o| o.value);
    let told = value("dwell-time").unwrap();
    assert!((told / 85.8 - 1.0).abs() < 0.03, "{told}");
    let ohm = value("coil-resistance").unwrap();
    assert!((ohm / (13.15 / 0.13) - 1.0).abs() < 0.03, "{ohm}");
}

/// Four cold coils that agree lie near the least that the stated resistance allows: their neighbours decide, and not the sheet's edge.
#[test]
fn coils_that_agree_are_not_held_against_the_edge_of_the_sheet() {
    let mut random = seeded(6);
    let coil = Coil::valve(&mut random);
    let recordings: Vec<Recording> = (0..4)
        .map(|_| coil.record(3, 50e3, 0.002 * coil.supply / coil.ohm, &mut random))
        .collect();
    let stated = (coil.ohm + coil.wiring) / 0.86;
    let found = of_four(&recordings, stated);
    let mut told = found.iter().filter(|o| o.kind == "coil-resistance");
    assert!(told.clone().count() == 4, "{found:#?}");
    assert!(
        told.all(|o| {
            let clear = 2.0 * o.uncertainty.unwrap();
            o.grade == Grade::Normal
                && o.limit
                    .as_ref()
                    .unwrap()
                    .low
                    .is_none_or(|low| low + clear < o.value.unwrap())
        }),
        "{found:#?}"
    );
}
