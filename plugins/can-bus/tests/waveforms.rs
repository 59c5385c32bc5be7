//! Recordings of a modelled bus: frames bit by bit, levels, termination, faults.

mod bus_model;

use baybrief_plugin_can_bus::measure::lines::{Condition, Line as Wire};
use baybrief_plugin_can_bus::measure::waveform::{Waveform, measure};
use bus_model::{Bus, Fault, Line, Random, Recorder, Recording};

fn measured(recording: &Recording) -> Waveform {
    measure(&recording.high, &recording.low, recording.rate_hz, None)
}

#[test]
fn every_frame_of_a_sound_bus_is_read() {
    for seed in 0..12 {
        let mut random = Random::new(seed);
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
            "seed {seed}: {}",
            sent.len()
        );
        assert_eq!(read[..sent.len()], sent[..], "seed {seed}");
        assert_eq!(reading.traffic.errors, [], "seed {seed}");
        assert_eq!(
            waveform.wires.unwrap().condition,
            Condition::Sound,
            "seed {seed}"
        );
        let termination = waveform.termination.unwrap();
        assert!((termination.ohm - 60.0).abs() < 3.0 * termination.uncertainty);
    }
}
