//! Sensors, probes and files held against published figures.

use baybrief_simulator::csv::{CsvDialect, Encoding, Header, TimeUnit};
use baybrief_simulator::noise::Noise;
use baybrief_simulator::recorder::{Recorded, Recording};
use baybrief_simulator::sensor::{SensorFault, SpeedSensor};
use baybrief_simulator::systems::DEMO_JOBS;
use baybrief_simulator::traces::Rotation;
use baybrief_simulator::wav::{WavSamples, write_wav};
use baybrief_simulator::wheel::Wheel;

/// A rotation at constant speed.
fn steady(rpm: f64, seconds: f64, rate_hz: f64) -> Rotation {
    let samples = (seconds * rate_hz) as usize;
    Rotation {
        rpm: vec![rpm; samples],
        turns: (0..samples)
            .map(|i| rpm / 60.0 * i as f64 / rate_hz + 0.2)
            .collect(),
    }
}

fn rising_edges(v: &[f64], middle: f64) -> usize {
    v.windows(2)
        .filter(|w| w[0] < middle && w[1] >= middle)
        .count()
}

/// n = 60 f / N. 36-1 at 750 rpm: 437.5 edges a second on average; 60-2: 725; 23 teeth at 3500 rpm: 1341.67
/// (arithmetic by hand).
#[test]
fn tooth_rates() {
    let mut noise = Noise::new(1);
    for (teeth, missing, rpm, rate) in [
        (36, 1, 750.0, 437.5),
        (60, 2, 750.0, 725.0),
        (23, 0, 3500.0, 1341.67),
        (60, 0, 1000.0, 1000.0),
    ] {
        let sensor = SpeedSensor::hall(teeth).with_wheel(Wheel::missing(teeth, missing, 0.5));
        let v = sensor.signal(&steady(rpm, 4.0, 50_000.0), 50_000.0, 0.0, &mut noise);
        let got = rising_edges(&v, 2.5) as f64 / 4.0;
        assert!(
            (got - rate).abs() <= 0.5,
            "{teeth}-{missing}: {got} per second, want {rate}"
        );
    }
}

/// Across 115 ohm, 7 mA are 0.805 V and 14 mA 1.61 V (Ohm's law; the two levels are from memory).
#[test]
fn current_loop_levels() {
    let (low, high) = SpeedSensor::current_loop(30).levels();
    assert!((low - 0.805).abs() < 1e-9 && (high - 1.61).abs() < 1e-9);
}

/// Faraday: the voltage of a coil grows in proportion to speed, so a coil at rest gives nothing.
#[test]
fn coil_grows_with_speed() {
    let sensor = SpeedSensor {
        noise: 0.0,
        ..SpeedSensor::reluctance(30)
    };
    let peak = |rpm| {
        let v = sensor.signal(
            &steady(rpm, 1.0, 20_000.0),
            20_000.0,
            0.0,
            &mut Noise::new(1),
        );
        v.iter().fold(0.0_f64, |m, &x| m.max(x))
    };
    assert!((peak(800.0) / peak(200.0) - 4.0).abs() < 0.02);
    assert_eq!(peak(0.0), 0.0);
}

#[test]
fn trembling_edge_has_no_period() {
    let sensor = SpeedSensor {
        fault: SensorFault::Dither(30.0),
        ..SpeedSensor::hall(30)
    };
    let v = sensor.signal(&steady(0.0, 10.0, 4000.0), 4000.0, 0.0, &mut Noise::new(4));
    let edges = rising_edges(&v, 2.5);
    assert!((100..200).contains(&edges), "{edges} rising edges in 10 s");
}

/// Mean and standard deviation of 200,000 numbers: 0 and 1 within four standard errors.
#[test]
fn noise_is_normal() {
    let mut noise = Noise::new(7);
    let n = 200_000;
    let all: Vec<f64> = (0..n).map(|_| noise.normal()).collect();
    let mean = all.iter().sum::<f64>() / n as f64;
    let variance = all.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / n as f64;
    assert!(mean.abs() < 4.0 / (n as f64).sqrt(), "mean {mean}");
    assert!(
        (variance - 1.0).abs() < 4.0 * (2.0 / n as f64).sqrt(),
        "variance {variance}"
    );
    assert_eq!(Noise::new(7).normal(), all[0]);
}

fn short() -> Recording {
    let channel = |name: &str, unit, values: &[f64]| Recorded {
        name: name.into(),
        unit,
        role: "other",
        values: values.to_vec(),
        section: Default::default(),
    };
    let channels = vec![
        channel("Strom", "mV", &[1.5, f64::NAN, f64::INFINITY]),
        channel("Übersicht", "V", &[-0.25, 0.5, 1e-3]),
    ];
    Recording {
        rate_hz: 2000.0,
        start_s: -0.0005,
        channels,
    }
}

#[test]
fn delimited_text() {
    let plain = CsvDialect::default().write(&short());
    let want = "Time [s],Strom [mV],Übersicht [V]\n-0.000500,1.5000,-0.2500\n0.000000,,0.5000\n0.000500,inf,0.0010\n";
    assert_eq!(String::from_utf8(plain).expect("is UTF-8"), want);
    let other = CsvDialect {
        delimiter: ';',
        decimal_comma: true,
        encoding: Encoding::Latin1,
        crlf: true,
        header: Header::UnitLine,
        time: Some(TimeUnit::Milliseconds),
        scientific: true,
        digits: 2,
        gap: "--",
        cut: true,
        ..Default::default()
    };
    let want = b"Time;Strom;\xDCbersicht\r\nms;mV;V\r\n-5,000000000E-01;1,50E+00;-2,50E-01\r\n0,000000000E+00;--;5,00E-01\r\n5,000000000E-01;inf;1";
    let got = other.write(&short());
    assert_eq!(String::from_utf8_lossy(&got), String::from_utf8_lossy(want));
    assert!(
        Encoding::Utf16
            .encode("A")
            .starts_with(&[0xFF, 0xFE, 0x41, 0x00])
    );
}

/// The RIFF and WAVE layout as Microsoft and IBM published it in 1991 (from memory): sizes, tag, rate, block.
#[test]
fn wave_headers() {
    let mut r = short();
    r.channels[0].values = vec![1.0, -2.0, 0.5];
    let file = write_wav(&r, WavSamples::Int24, &[2.0, 1.0]);
    let word = |at: usize| u32::from_le_bytes([file[at], file[at + 1], file[at + 2], file[at + 3]]);
    assert_eq!((&file[..4], &file[8..16]), (&b"RIFF"[..], &b"WAVEfmt "[..]));
    assert_eq!(word(4) as usize, file.len() - 8);
    assert_eq!((word(24), word(28), word(32)), (2000, 12_000, 6 | 24 << 16));
    assert_eq!((&file[36..40], word(40)), (&b"data"[..], 18));
    assert_eq!(&file[44..50], &[0, 0, 0x40, 0, 0, 0xE0]);
}

#[test]
fn demo_jobs_are_the_same_each_time_and_readable() {
    for demo in DEMO_JOBS {
        let folder = (demo.folder)();
        assert_eq!(folder.files, (demo.folder)().files);
        let text = String::from_utf8(folder.files["job.toml"].clone()).expect("is UTF-8");
        let job: model::JobFile = toml::from_str(&text).expect("is a job file");
        assert!(!job.captures.is_empty(), "{}", demo.system);
        for capture in &job.captures {
            let is_there = folder.files.contains_key(&capture.file);
            assert!(is_there && !capture.channels.is_empty(), "{}", capture.file);
        }
        let total: usize = folder.files.values().map(Vec::len).sum();
        assert!(total < 6_000_000, "{total} bytes");
    }
}

/// Angles at which a wheel's teeth begin and end, degrees.
fn degrees(wheel: &Wheel) -> Vec<f64> {
    wheel.changes().map(|(x, _)| 360.0 * x).collect()
}

/// Counts of teeth: 36-1 has 35, 60-2 has 58, 36-2-1 has 33, 36-2-2-2 has 30 (arithmetic by hand); the angle of a gap of two
/// is three pitches from leading edge to leading edge.
#[test]
fn wheel_patterns() {
    let twice = Wheel::with_gaps(36, &[(12, 2), (35, 1)], 0.5);
    let thrice = Wheel::with_gaps(36, &[(10, 2), (22, 2), (34, 2)], 0.5);
    for (wheel, teeth, missing) in [
        (Wheel::missing(36, 1, 0.5), 35, 1),
        (Wheel::missing(60, 2, 0.4), 58, 2),
        (twice, 33, 3),
        (thrice.clone(), 30, 6),
        (Wheel::four_uneven(), 4, 0),
        (Wheel::plus_one(12), 13, 0),
        (Wheel::narrow_and_wide(24), 24, 0),
    ] {
        assert_eq!((wheel.count(), wheel.missing), (teeth, missing));
        let edges = degrees(&wheel);
        assert!(edges.windows(2).all(|w| w[0] < w[1]), "{edges:?}");
        assert!(edges[0] >= 0.0 && edges[edges.len() - 1] <= 360.0);
    }
    let edges = degrees(&thrice);
    assert!((edges[20] - edges[18] - 30.0).abs() < 1e-9, "{edges:?}");
    // The trailing edges of a narrow-and-wide wheel stand evenly, 15 degrees apart on 24 teeth.
    let edges = degrees(&Wheel::narrow_and_wide(24));
    let ends: Vec<f64> = edges.iter().skip(1).step_by(2).copied().collect();
    assert!(
        ends.windows(2).all(|w| (w[1] - w[0] - 15.0).abs() < 1e-9),
        "{ends:?}"
    );
}

/// The flux of a whole turn comes back to where it began: the mean of its change over a turn is zero, whatever the wheel.
#[test]
fn flux_returns_after_a_turn() {
    for wheel in [
        Wheel::even(20, 0.5),
        Wheel::missing(60, 2, 0.4),
        Wheel::plus_one(12),
        Wheel::four_uneven(),
    ] {
        let n = 200_000;
        let sum: f64 = (0..n)
            .map(|i| wheel.flux_change(f64::from(i) / f64::from(n)))
            .sum();
        assert!((sum / f64::from(n)).abs() < 1e-6, "{sum}");
    }
}

/// A coil of 4 V at 1000 rpm behind an input that lets -0.7 to 4.3 V pass, at 2000 rpm: clipped at both ends. Interchanged
/// leads turn the voltage over.
#[test]
fn coil_inputs() {
    let mut sensor = SpeedSensor {
        level: 4.0,
        noise: 0.0,
        ..SpeedSensor::reluctance(30)
    };
    let signal = |s: &SpeedSensor| {
        s.signal(
            &steady(2000.0, 0.2, 50_000.0),
            50_000.0,
            0.0,
            &mut Noise::new(1),
        )
    };
    let extremes = |v: &[f64]| {
        let low = v.iter().fold(f64::INFINITY, |m, &x| m.min(x));
        (low, v.iter().fold(f64::NEG_INFINITY, |m, &x| m.max(x)))
    };
    let free = signal(&sensor);
    sensor.coil.reversed = true;
    let turned = signal(&sensor);
    assert!(free.iter().zip(&turned).all(|(a, b)| (a + b).abs() < 1e-9));
    sensor.coil.clamp = Some((-0.7, 4.3));
    assert_eq!(extremes(&signal(&sensor)), (-0.7, 4.3));
}

/// With a corner at 750 Hz (60 pitches a turn at 750 rpm) the amplitude there is 1 / sqrt 2 of the open-circuit voltage, and from 750 to
/// 2500 rpm it grows by (2500/750) sqrt(2 / (1 + (2500/750)^2)) = 1.35 instead of 3.33: less than proportional, as a
/// workshop manual's 5 to 10 V at idle and 15 to 20 V at 2500 rpm show for another corner.
#[test]
fn loaded_coils_grow_less_than_speed() {
    let mut sensor = SpeedSensor::reluctance(60);
    sensor.noise = 0.0;
    sensor.coil.corner_hz = 750.0;
    let ratio: f64 = 2500.0 / 750.0;
    let grown = sensor.ideal(0.0012, 2500.0) / sensor.ideal(0.0012, 750.0);
    let want = ratio * (2.0 / (1.0 + ratio * ratio)).sqrt();
    assert!((grown - want).abs() < 1e-9, "{grown}, want {want}");
}

/// The conditioner's rule of TI SNOSBU8F: no pulse while the peaks stay below the arming threshold, then one for each tooth.
#[test]
fn conditioner_pulses_above_its_threshold() {
    use baybrief_simulator::sensor::Conditioner;
    let mut sensor = SpeedSensor::reluctance(30);
    sensor.noise = 0.0;
    sensor.level = 1.0;
    sensor.coil.conditioner = Some(Conditioner {
        arming: 0.2,
        ..Conditioner::default()
    });
    let pulses = |rpm: f64| {
        let v = sensor.signal(
            &steady(rpm, 2.0, 50_000.0),
            50_000.0,
            0.0,
            &mut Noise::new(1),
        );
        rising_edges(&v, 2.5)
    };
    assert_eq!(pulses(150.0), 0, "0.15 V peaks");
    // 30 teeth at 300 rpm: 150 a second.
    assert!((299..=301).contains(&pulses(300.0)), "{}", pulses(300.0));
}

/// Coefficient of fluctuation: half the ripple at 1131 rpm (800 sqrt 2) for the same energy a stroke.
#[test]
fn speed_ripple_falls_with_the_square_of_speed() {
    use baybrief_simulator::engine::Ripple;
    let ripple = Ripple {
        at_800_rpm: 0.03,
        ..Ripple::default()
    };
    // A quarter of a stroke after the zero: the peak. Two strokes a turn.
    let peak = |rpm| ripple.factor(rpm, 0.125) - 1.0;
    assert!((peak(800.0) - 0.03).abs() < 1e-12);
    assert!((peak(800.0 * 2f64.sqrt()) - 0.015).abs() < 1e-12);
    assert!((peak(200.0) - 0.15).abs() < 1e-12, "bounded while cranking");
}

/// 36-1 at 750 rpm for 2 s: 437.5 teeth a second, two edges each; without spikes the times between the rising ones are a pitch,
/// or two at the gap.
#[test]
fn edge_lists() {
    use baybrief_simulator::edges::{Spikes, changes, write};
    let rotation = steady(750.0, 2.0, 4000.0);
    let wheel = Wheel::missing(36, 1, 0.5);
    let mut noise = Noise::new(1);
    let list = changes(
        "s",
        &wheel,
        &rotation,
        4000.0,
        0.0,
        Spikes::default(),
        &mut noise,
    );
    assert!(
        (1748..=1752).contains(&list.changes.len()),
        "{}",
        list.changes.len()
    );
    let pitch = 60.0 / 750.0 / 36.0;
    let rising: Vec<f64> = list
        .changes
        .iter()
        .skip(usize::from(list.initial))
        .step_by(2)
        .copied()
        .collect();
    for w in rising.windows(2) {
        let pitches = (w[1] - w[0]) / pitch;
        assert!(
            (pitches - 1.0).abs() < 1e-6 || (pitches - 2.0).abs() < 1e-6,
            "{pitches}"
        );
    }
    let text = write(&[list], 0.0, 6);
    assert!(text.starts_with("time,s\n0.000000,"), "{}", &text[..40]);
}

/// ISO 15765-2 by hand: 59 02 FF and two codes are 11 bytes, so a first frame with 6 of them and a consecutive one with 5;
/// P0716 is 07 16, C0040 is 40 40 (SAE J2012).
#[test]
fn bus_logs() {
    use baybrief_simulator::bus::{DiagnosticCode, code_query, traffic, write};
    let code = |code, failure_type, status| DiagnosticCode {
        code,
        failure_type,
        status,
    };
    let frames = code_query(
        0,
        0x7E1,
        0x7E9,
        &[code(0x0716, 0x64, 0x2F), code(0x4040, 0, 0x08)],
    );
    let want = "(10.000000) can0 7E1#031902FFAAAAAAAA\n(10.004000) can0 7E9#100B5902FF071664\n\
                (10.005000) can0 7E1#300000AAAAAAAAAA\n(10.006000) can0 7E9#212F40400008AAAA\n";
    assert_eq!(write(&frames, 10), want);
    let ordinary = traffic(2.0, 20, &mut Noise::new(3));
    assert!(ordinary.len() > 200 && ordinary.iter().all(|f| f.id < 0x7D1 && f.data.len() <= 8));
}

#[test]
fn time_columns_without_units() {
    use baybrief_simulator::csv::TimeStyle;
    let text = |time, style| {
        let dialect = CsvDialect {
            time: Some(time),
            time_style: style,
            header: Header::Names,
            ..Default::default()
        };
        let mut r = short();
        r.start_s = 0.0;
        r.rate_hz = 500.0;
        String::from_utf8(dialect.write(&r)).expect("is UTF-8")
    };
    let whole = text(TimeUnit::Milliseconds, TimeStyle::BareWhole);
    assert!(
        whole.starts_with("Time,Strom,Übersicht\n0,1.5000,-0.2500\n2,,"),
        "{whole}"
    );
    let clock = text(TimeUnit::Seconds, TimeStyle::CounterAndClock);
    assert!(
        clock.contains("No,Clock,Strom,Übersicht\n0,10:20:15.000000,"),
        "{clock}"
    );
    assert!(clock.contains("\n1,10:20:15.002000,"), "{clock}");
}
