//! Recordings of a modelled bus: frames bit by bit, levels, termination, faults.

mod bus_model;

use baybrief_plugin_can_bus::CanLines;
use baybrief_plugin_can_bus::measure::decode::ErrorKind;
use baybrief_plugin_can_bus::measure::frame::{Fd, Frame, Identifier};
use baybrief_plugin_can_bus::measure::lines::{Condition, Line as Wire};
use baybrief_plugin_can_bus::measure::other_bus::OtherBus;
use baybrief_plugin_can_bus::measure::senders::offset;
use baybrief_plugin_can_bus::measure::waveform::{Unread, Waveform, measure, measure_line};
use bus_model::{Bus, Fault, Line, Recorder, Recording, seeded};
use plugin_sdk::Grade;
use plugin_sdk::testing::{find, input, near, observe, settings};

const SEEDS: u64 = 3;

fn measured(recording: &Recording) -> Waveform {
    measure(&recording.high, &recording.low, recording.rate_hz, None)
}

/// Records a bus of a seed after a change, at 500 kbit/s and 12 samples a bit.
fn record(seed: u64, change: impl Fn(&mut Bus, &mut Recorder)) -> Recording {
    let mut random = seeded(seed);
    let mut bus = Bus::sound(4 + seed as usize % 3, 500e3, &mut random);
    let mut recorder = Recorder {
        rate_hz: 6e6,
        ..Recorder::default()
    };
    change(&mut bus, &mut recorder);
    bus.record(4_000, &recorder, &mut random)
}

fn condition(seed: u64, change: impl Fn(&mut Bus, &mut Recorder)) -> Condition {
    measured(&record(seed, change)).wires.unwrap().condition
}

#[test]
fn every_frame_of_a_sound_bus_is_read() {
    for seed in 0..12 {
        let mut random = seeded(seed);
        let rate = [125e3, 250e3, 500e3, 1e6][seed as usize % 4];
        let mut bus = Bus::sound(3 + seed as usize % 5, rate, &mut random);
        let recorder = Recorder {
            rate_hz: rate * [8.0, 20.0, 5.3, 12.5][seed as usize / 3],
            ..Recorder::default()
        };
        let recording = bus.record(4_000, &recorder, &mut random);
        let waveform = measured(&recording);
        let reading = waveform.reading.as_ref().unwrap();
        let found = recorder.rate_hz / reading.bit.samples;
        assert!((found / rate - 1.0).abs() < 0.002, "seed {seed}: {found}");
        let sent: Vec<_> = recording.sent.iter().map(|s| &s.0).collect();
        let read: Vec<_> = reading.traffic.frames.iter().map(|f| &f.frame).collect();
        // The record may end within the last frame's end.
        assert!(
            read.len() <= sent.len() + 1 && sent.len() > 15,
            "seed {seed}"
        );
        assert_eq!(read[..sent.len()], sent[..], "seed {seed}");
        assert_eq!(reading.traffic.errors, [], "seed {seed}");
        assert_eq!(waveform.wires.unwrap().condition, Condition::Sound);
        let termination = waveform.termination.unwrap();
        assert!((termination.ohm - 60.0).abs() < 3.0 * termination.uncertainty);
    }
}

#[test]
fn one_line_alone_carries_the_frames() {
    for seed in 0..SEEDS {
        let recording = record(seed, |_, _| {});
        for (line, up) in [(&recording.high, true), (&recording.low, false)] {
            let waveform = measure_line(line, up, recording.rate_hz, None);
            let read = waveform.reading.unwrap().traffic.frames.len();
            assert!(read.abs_diff(recording.sent.len()) <= 1, "seed {seed}");
        }
    }
}

/// Levels of the data sheet's output stage with 60 ohm: CAN high 3.5 V, CAN low 1.5 V, recessive 2.5 V.
#[test]
fn levels_are_those_of_the_circuit() {
    for seed in 0..SEEDS {
        let levels = measured(&record(seed, |_, _| {})).levels;
        let (recessive, dominant) = (levels.recessive.unwrap(), levels.dominant.unwrap());
        for (level, volts) in [
            (recessive.high, 2.5),
            (recessive.low, 2.5),
            (dominant.high, 3.5),
            (dominant.low, 1.5),
        ] {
            assert!((level.volts - volts).abs() < 0.15, "seed {seed}: {level:?}");
        }
    }
}

#[test]
fn wires_are_told_apart_by_what_they_do() {
    let short = |line, volts| {
        move |b: &mut Bus, _: &mut Recorder| b.circuit.fault = Some(Fault::Short(line, volts, 1.0))
    };
    for seed in 0..SEEDS {
        let open =
            |line| move |b: &mut Bus, _: &mut Recorder| b.circuit.fault = Some(Fault::Open(line));
        for (fault, wire) in [(open(Line::High), Wire::High), (open(Line::Low), Wire::Low)] {
            let found = condition(seed, fault);
            assert!(
                matches!(found, Condition::Open { line, .. } if line == wire),
                "{seed} {found:?}"
            );
        }
        for (line, wire) in [(Line::High, Wire::High), (Line::Low, Wire::Low)] {
            let ground = condition(seed, short(line, 0.0));
            assert!(
                matches!(ground, Condition::ShortToGround(_)),
                "{seed} {wire:?} {ground:?}"
            );
            let supply = condition(seed, short(line, 13.0));
            assert_eq!(supply, Condition::ShortToSupply(wire), "{seed}");
        }
        let together = condition(seed, |b, _| b.circuit.fault = Some(Fault::Together(2.0)));
        assert_eq!(together, Condition::ShortTogether, "{seed}");
        let swapped = condition(seed, |_, r| r.swapped = true);
        assert!(
            matches!(swapped, Condition::Reversed { share } if share > 0.99),
            "{swapped:?}"
        );
        let one = condition(seed, |b, _| b.circuit.stages[0].swapped = true);
        assert!(
            matches!(one, Condition::Reversed { share } if share < 0.8),
            "{seed} {one:?}"
        );
        let quiet = condition(seed, |b, _| {
            b.controllers.iter_mut().for_each(|c| c.mute = true)
        });
        assert_eq!(quiet, Condition::Quiet, "{seed}");
    }
}

#[test]
fn termination_is_estimated_within_its_uncertainty() {
    for (terminators, ohm) in [
        ([Some(120.0), Some(120.0)], 60.0),
        ([Some(120.0), None], 120.0),
        ([Some(60.0), Some(120.0)], 40.0),
    ] {
        for seed in 0..SEEDS {
            let recording = record(seed, |b, _| b.circuit.terminators = terminators);
            let found = measured(&recording).termination.unwrap();
            assert!(
                (found.ohm - ohm).abs() < 2.5 * found.uncertainty,
                "{seed} {found:?}"
            );
        }
    }
    // Without any terminator the bus discharges through the nodes alone.
    let open = measured(&record(1, |b, _| b.circuit.terminators = [None, None]));
    assert!(open.termination.unwrap().ohm > 200.0);
}

/// A line of 10 m as a ladder, solved with SciPy's matrix exponential (data/line.py): one frame from one end, acknowledged from the
/// other, with both terminators and with one. 3.6 V behind 40 ohm leave 2.16 V on 60 ohm and 2.70 V on 120.
#[test]
fn a_transmission_line_as_scipy_solves_it() {
    const SCIPY: &str = include_str!("data/line.txt");
    for (column, volts, ohm) in [(0, 2.16f64, 60.0f64), (1, 2.70, 120.0)] {
        let differential: Vec<f32> = SCIPY
            .lines()
            .map(|l| l.split(' ').nth(column).unwrap().parse::<f32>().unwrap() / 1e3)
            .collect();
        let high: Vec<f32> = differential.iter().map(|d| 2.5 + d / 2.0).collect();
        let low: Vec<f32> = differential.iter().map(|d| 2.5 - d / 2.0).collect();
        let found = measure(&high, &low, 5e6, None);
        let reading = found.reading.as_ref().unwrap();
        assert!(
            (5e3 / reading.bit.samples - 250.0).abs() < 0.5,
            "{}",
            reading.bit.samples
        );
        let frame = &reading.traffic.frames[0];
        assert_eq!(
            (frame.frame.id.number, frame.crc, frame.acknowledged),
            (0x0C1, 0x5B40, true)
        );
        let dominant = found.levels.dominant.unwrap().differential.volts;
        assert!((dominant / volts - 1.0).abs() < 0.02, "{dominant}");
        let termination = found.termination.unwrap();
        assert!(
            (termination.ohm - ohm).abs() < 2.5 * termination.uncertainty,
            "{termination:?}"
        );
    }
}

#[test]
fn a_shifted_ground_is_found_and_is_no_open_line() {
    for seed in 0..SEEDS {
        let volts = [1.2, -1.2][seed as usize % 2];
        let recording = record(seed, |b, _| {
            b.circuit.stages[0].ground = volts;
            b.eagerness = 0.02;
        });
        let waveform = measured(&recording);
        assert_eq!(
            waveform.wires.unwrap().condition,
            Condition::Sound,
            "{seed}"
        );
        let first = waveform.senders.iter().any(|s| {
            let off = s.dominant.common_mode() - 2.5;
            (off - volts).abs() < 0.35
        });
        let found = offset(&waveform.senders).unwrap();
        assert!(
            !first || (found.volts - volts).abs() < 0.35,
            "{seed} {found:?}"
        );
    }
}

#[test]
fn frames_that_nobody_acknowledges_are_told_from_spoiled_ones() {
    let alone = record(2, |b, _| {
        b.controllers.iter_mut().for_each(|c| c.deaf = true)
    });
    let waveform = measured(&alone);
    let errors = &waveform.reading.as_ref().unwrap().traffic.errors;
    assert!(errors.len() > 3 && errors.iter().all(|e| e.kind == ErrorKind::Acknowledge));
    let disturbed = record(2, |b, _| {
        b.disturber = Some((1, 0, 0.02));
        b.eagerness = 0.02;
    });
    let waveform = measured(&disturbed);
    let errors = &waveform.reading.as_ref().unwrap().traffic.errors;
    let spoiled = errors
        .iter()
        .filter(|e| e.kind != ErrorKind::Acknowledge)
        .count();
    assert!(spoiled > 3, "{errors:?}");
}

#[test]
fn a_slow_recording_is_not_read() {
    for (seed, samples) in [(1, 0.4), (2, 1.0), (3, 2.3)] {
        let recording = record(seed, |_, r| r.rate_hz = 500e3 * samples);
        let stated = measure(
            &recording.high,
            &recording.low,
            recording.rate_hz,
            Some(500.0),
        );
        assert_eq!(stated.reading.unwrap_err(), Unread::TooSlow);
        let found = measured(&recording);
        let frames = found.reading.map_or(0, |r| r.traffic.frames.len());
        assert_eq!(frames, 0, "{samples}");
    }
}

/// Random noise carries no frame.
/// A node that takes the bus and never lets go, after traffic and in a record that begins with it.
/// Bit rates from 5 kbit/s to 1 Mbit/s, at 3.2 and at 20 samples a bit.
#[test]
fn extremes_of_rate_and_sampling_are_read() {
    for kbit in [5.0, 33.333, 83.333, 1_000.0] {
        for samples in [3.2, 20.0] {
            let mut random = seeded(7);
            let mut bus = Bus::sound(4, 1e3 * kbit, &mut random);
            let recorder = Recorder {
                rate_hz: 1e3 * kbit * samples,
                ..Recorder::default()
            };
            let recording = bus.record(500, &recorder, &mut random);
            let found = measured(&recording);
            let reading = found.reading.as_ref().unwrap();
            let rate = recording.rate_hz / reading.bit.samples / 1e3;
            assert!((rate / kbit - 1.0).abs() < 0.005, "{rate} for {kbit}");
            assert!(!reading.traffic.frames.is_empty(), "{kbit} at {samples}");
            assert!(reading.traffic.errors.is_empty(), "{kbit} at {samples}");
        }
    }
}

/// Frames of CAN FD whose data phase has two and a half samples a bit: told apart and counted, none of them called spoiled and
/// none of them called right.
#[test]
fn a_data_phase_that_the_sampling_does_not_carry_is_said() {
    let fd = Fd {
        switches_rate: true,
        error_passive: false,
    };
    let (nominal, data) = (10.0, 2.5);
    let mut level = Vec::new();
    let mut at = 0.0;
    let mut hold = |dominant: bool, length: f64| {
        at += length;
        while (level.len() as f64) < at {
            level.push(if dominant { 1.0f32 } else { 0.0 });
        }
    };
    for number in 0..20u32 {
        hold(false, 15.3 * nominal);
        let frame = Frame {
            id: Identifier {
                number: 0x100 + 7 * number,
                extended: false,
            },
            remote: false,
            dlc: 8,
            data: (0..8).map(|k| (31 * number + 57 * k) as u8).collect(),
            fd: Some(fd),
        };
        let bits = frame.bits();
        let head = bits.len() - frame.bit_count().data_phase;
        for (k, recessive) in bits.iter().enumerate() {
            hold(!recessive, if k < head { nominal } else { data });
        }
        // Delimiter, acknowledge, delimiter, end of frame.
        hold(false, nominal);
        hold(true, nominal);
        hold(false, 8.0 * nominal);
    }
    hold(false, 15.0 * nominal);
    let high: Vec<f32> = level.iter().map(|l| 2.5 + l).collect();
    let low: Vec<f32> = level.iter().map(|l| 2.5 - l).collect();
    let channels = [("can-high", &high[..]), ("can-low", &low[..])];
    let all = observe::<CanLines>(&input(&channels, 5e6, settings("running", &[])));
    near(find(&all, "frames"), 0.0, 0.1);
    let errors = find(&all, "frame-errors");
    assert_eq!(
        (errors.message.as_str(), errors.grade),
        ("frame-errors-data-phase", Grade::NotTested)
    );
    assert_eq!(errors.arg_f64("unread"), Some(20.0));
}

#[test]
fn a_bus_that_is_held_dominant_is_named() {
    let recording = record(2, |_, _| {});
    let n = recording.high.len();
    for from in [n / 50, n / 2] {
        let hold = |x: &[f32], level: f32| {
            let held = x[from..].iter().map(|_| level);
            x[..from].iter().copied().chain(held).collect::<Vec<f32>>()
        };
        let (high, low) = (hold(&recording.high, 3.5), hold(&recording.low, 1.5));
        let found = measure(&high, &low, recording.rate_hz, None);
        assert_eq!(found.wires.unwrap().condition, Condition::StuckDominant);
    }
}

#[test]
fn noise_is_no_traffic() {
    let mut random = seeded(5);
    let mut noise = |level: f64, spread: f64| -> Vec<f32> {
        (0..100_000)
            .map(|_| (level + spread * random.normal()) as f32)
            .collect()
    };
    for spread in [0.01, 0.3, 2.0] {
        let (high, low) = (noise(2.5, spread), noise(2.5, spread));
        let found = measure(&high, &low, 10e6, None);
        assert_eq!(found.reading.map_or(0, |r| r.traffic.frames.len()), 0);
    }
}

/// Lines with so much noise that it crosses the receiver's thresholds by itself are averaged until frames are read; their errors
/// accuse no node, and nothing looks exchanged.
#[test]
fn noisy_lines_are_read_and_accuse_nobody() {
    for seed in 0..SEEDS {
        let recording = record(seed, |_, r| {
            r.rate_hz = 10e6;
            r.noise = 0.25;
        });
        let found = measured(&recording);
        assert_eq!(found.wires.unwrap().condition, Condition::Sound, "{seed}");
        let reading = found.reading.unwrap();
        assert!(
            2 * reading.traffic.frames.len() > recording.sent.len(),
            "{seed}"
        );
        assert!(!reading.errors_count());
    }
}

/// Strong drivers (22 ohm each side) put as much on three terminators as usual ones on two: the levels alone call nobody sound.
#[test]
fn strong_drivers_do_not_hide_a_third_terminator() {
    for seed in 0..2 * SEEDS {
        let recording = record(seed, |b, _| {
            b.circuit.terminators = [Some(60.0), Some(120.0)];
            b.circuit
                .stages
                .iter_mut()
                .for_each(|s| s.ohm = [22.0, 22.0]);
        });
        let channels = [
            ("can-high", &recording.high[..]),
            ("can-low", &recording.low[..]),
        ];
        let lines = input(&channels, recording.rate_hz, settings("off", &[]));
        let all = observe::<CanLines>(&lines);
        assert_ne!(find(&all, "termination").grade, Grade::Normal, "{seed}");
    }
}

#[test]
fn gaps_and_infinities_do_no_harm() {
    let mut recording = record(3, |_, _| {});
    for k in (0..recording.high.len()).step_by(997) {
        recording.high[k] = f32::NAN;
        recording.low[k / 2] = f32::INFINITY;
    }
    let found = measured(&recording);
    assert!(found.reading.unwrap().traffic.frames.len() + 3 > recording.sent.len());
    measure(&[], &[], 1e6, None);
    measure(&[f32::NAN; 100], &[2.5; 100], 1e6, Some(500.0));
}

/// Wires of another bus accuse nobody: the fault-tolerant bus rests with CAN low above CAN high (ISO 11898-3; levels from
/// memory), and a LIN bus swings between ground and battery (ISO 17987; from memory).
#[test]
fn another_bus_is_named_and_not_judged() {
    for seed in 0..SEEDS {
        let mut recording = record(seed, |_, _| {});
        let driven: Vec<f32> = recording
            .high
            .iter()
            .zip(&recording.low)
            .map(|(h, l)| ((h - l) / 2.0).clamp(0.0, 1.0))
            .collect();
        let lines = |high: fn(f32) -> f32, low: fn(f32) -> f32| {
            let of = |f: fn(f32) -> f32| driven.iter().map(|d| f(*d)).collect::<Vec<f32>>();
            (of(high), of(low))
        };
        (recording.high, recording.low) = lines(|d| 0.15 + 3.5 * d, |d| 4.85 - 3.5 * d);
        let found = measured(&recording).wires.unwrap().condition;
        assert_eq!(
            found,
            Condition::OtherBus(OtherBus::LowSpeed),
            "seed {seed}"
        );
        for low in [(|_| 0.0) as fn(f32) -> f32, |d| 12.6 - 11.9 * d] {
            (recording.high, recording.low) = lines(|d| 12.6 - 11.9 * d, low);
            let waveform = measured(&recording);
            let found = waveform.wires.unwrap().condition;
            assert_eq!(
                found,
                Condition::OtherBus(OtherBus::SingleWire),
                "seed {seed}"
            );
            assert!(waveform.reading.is_err() && waveform.levels.dominant.is_none());
        }
    }
}
