//! Sensors, probes and files held against published figures.

use baybrief_simulator::csv::{CsvDialect, Encoding, Header, TimeUnit};
use baybrief_simulator::demo;
use baybrief_simulator::noise::Noise;
use baybrief_simulator::recorder::{Recorded, Recording};
use baybrief_simulator::sensor::{SensorFault, SpeedSensor};
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
fn demo_is_the_same_each_time_and_readable() {
    let folder = demo::folder();
    assert_eq!(folder.files, demo::folder().files);
    let text = String::from_utf8(folder.files["job.toml"].clone()).expect("is UTF-8");
    let job: model::JobFile = toml::from_str(&text).expect("is a job file");
    assert_eq!(job.captures.len(), 2);
    for capture in &job.captures {
        assert!(
            folder.files.contains_key(&capture.file),
            "{} is there",
            capture.file
        );
        assert!(capture.channels.len() >= 4);
    }
    let total: usize = folder.files.values().map(Vec::len).sum();
    assert!(total < 4_000_000, "{total} bytes");
}
