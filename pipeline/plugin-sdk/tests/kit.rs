//! The test kit for plugins: cases in folders, and properties. Each must be able to fail.

use baybrief_plugin_sdk::measure::tracks::{SPEEDS, SpeedTracks, speed_track};
use baybrief_plugin_sdk::measure::{Spec, shaft_record};
use baybrief_plugin_sdk::testing::cases::run_cases;
use baybrief_plugin_sdk::testing::{channel, properties, run_with};
use baybrief_plugin_sdk::{
    Analyzer, Descriptor, Grade, Input, Observation, Output, Scope, Settings, Track, host,
};
use std::path::Path;

const fn descriptor(id: &'static str) -> Descriptor {
    Descriptor {
        id,
        name: "Test",
        version: "0.1.0",
        vendor: "tests",
        scope: Scope::Capture,
        needs: &["supply-voltage"],
        uses: &[],
    }
}

/// The mean of the supply voltage, and when the recording began.
struct Mean;

impl Analyzer for Mean {
    const DESCRIPTOR: Descriptor = descriptor("mean");
    const GIVES: &'static [&'static str] = &["mean-volts"];
    const TAKES: &'static [&'static str] = &["known-volts"];

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let channel = input.channel("supply-voltage").ok_or("no supply voltage")?;
        let values: Vec<f64> = channel
            .values()
            .iter()
            .filter(|v| v.is_finite())
            .map(|&v| f64::from(v))
            .collect();
        if values.is_empty() {
            return Err("the supply voltage has no value".into());
        }
        let mean = values.iter().sum::<f64>() / values.len() as f64;
        let grade = if mean < 9.0 {
            Grade::Abnormal
        } else {
            Grade::Normal
        };
        out.add(
            Observation::new("mean", "mean")
                .about("supply-voltage")
                .span(channel.time.at(0), channel.time.at(channel.len() - 1))
                .value(mean, 0.01, "V")
                .grade(grade),
        );
        out.give(Track {
            name: "mean-volts".into(),
            unit: "V".into(),
            step_s: 1.0,
            values: vec![
                mean,
                host::track("known-volts").map_or(f64::NAN, |t| t.values[0]),
            ],
            ..Track::default()
        });
        Ok(())
    }
}

/// Breaks every property: what it finds hangs on the clock, on the counts, and on the last digit.
struct Naive;

impl Analyzer for Naive {
    const DESCRIPTOR: Descriptor = descriptor("naive");

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let c = input.channel("supply-voltage").ok_or("no supply voltage")?;
        let kind = match input.file {
            "clock" if c.time.at(0) > 1.0 => "late",
            "counts" if c.scale < 0.5 => "fine",
            "noise" if c.values().windows(2).any(|w| w[0] != w[1]) => "restless",
            _ => "plain",
        };
        out.add(Observation::new(kind, "kind"));
        Ok(())
    }
}

fn input<'a>(file: &'a str, samples: &'a [f32]) -> Input<'a> {
    Input {
        file,
        channels: vec![channel("supply-voltage", samples, 100.0)],
        settings: Settings::default(),
    }
}

#[test]
fn properties_hold_where_they_hold_and_fail_where_they_do_not() {
    let samples = [12.5; 2_000];
    for seed in 0..20 {
        let step = f64::from(seed as u32 + 1);
        properties::time_shift::<Mean>(&input("a", &samples), 17.25 * step).expect("moved");
        properties::gain::<Mean>(&input("a", &samples), 0.37 * step).expect("other counts");
        properties::noise::<Mean>(&input("a", &samples), 0.02, seed).expect("noise");
    }
    properties::time_shift::<Naive>(&input("clock", &samples), 5.0).expect_err("late");
    properties::gain::<Naive>(&input("counts", &samples), 10.0).expect_err("fine");
    let said =
        properties::noise::<Naive>(&input("noise", &samples), 0.02, 1).expect_err("restless");
    assert!(said.contains("restless"), "{said}");
}

#[test]
fn tracks_come_in_and_go_out() {
    let known = |name: &str| Track {
        name: name.into(),
        step_s: 1.0,
        values: vec![42.0],
        ..Track::default()
    };
    let samples = [10.0; 10];
    let out = run_with::<Mean>(
        &input("a", &samples),
        &[known("other"), known("known-volts")],
    )
    .expect("run");
    assert_eq!(out.tracks[0].values, [10.0, 42.0]);
    let out = run_with::<Mean>(&input("a", &samples), &[known("other")]).expect("run");
    assert!(out.tracks[0].values[1].is_nan());
    assert_eq!(host::track("known-volts"), None, "outside of a call");
}

fn case(root: &Path, name: &str, files: &[(&str, &str)]) {
    let folder = root.join(name);
    std::fs::create_dir_all(&folder).expect("a folder");
    for (file, text) in files {
        std::fs::write(folder.join(file), text).expect("a file");
    }
}

const CSV: &str = "time_s,supply-voltage V\n0.0,12.0\n0.5,\n1.0,13.0\n";

#[test]
fn cases_are_run_and_each_difference_is_named() {
    let root = tempfile::tempdir().expect("a folder");
    let root = root.path();
    assert!(
        run_cases::<Mean>(root)
            .expect_err("none")
            .contains("there is no case in it")
    );
    let good = r#"{"observations":[{"kind":"mean","subject":"supply-voltage","value":12.5,"within":0.001,"grade":"normal"}],"none":["slip"]}"#;
    case(
        root,
        "a-good",
        &[("capture.csv", CSV), ("expected.json", good)],
    );
    let refused = r#"{"refused":"no supply voltage"}"#;
    let other = "time_s,supply-current A\n0,1\n";
    case(
        root,
        "b-refused",
        &[("capture.csv", other), ("expected.json", refused)],
    );
    assert_eq!(run_cases::<Mean>(root), Ok(2));
    let value = good.replace("12.5", "12.6");
    case(
        root,
        "c-value",
        &[("capture.csv", CSV), ("expected.json", &value)],
    );
    case(
        root,
        "d-none",
        &[
            ("capture.csv", CSV),
            ("expected.json", r#"{"none":["mean"]}"#),
        ],
    );
    case(
        root,
        "e-refuses-not",
        &[("capture.csv", CSV), ("expected.json", refused)],
    );
    case(
        root,
        "f-cells",
        &[
            ("capture.csv", "time_s,a V\n0,1,2\n"),
            ("expected.json", good),
        ],
    );
    case(
        root,
        "g-word",
        &[
            ("capture.csv", "time_s,a V\n0,x\n"),
            ("expected.json", good),
        ],
    );
    case(root, "h-missing", &[("capture.csv", CSV)]);
    let said = run_cases::<Mean>(root).expect_err("six");
    for part in [
        "c-value: Wanted",
        "d-none: there was to be no mean",
        "e-refuses-not: it was to refuse",
        "f-cells: capture.csv: line 2: expected 2 cells, found 3",
        "g-word: capture.csv: line 2: \"x\" is no number",
        "h-missing: expected.json is missing",
    ] {
        assert!(said.contains(part), "{part} is not in {said}");
    }
    assert!(
        !said.contains("a-good") && !said.contains("b-refused"),
        "{said}"
    );
}

/// Measures with shared speed tracks, as several plugins do.
struct Speeds;

impl Analyzer for Speeds {
    const DESCRIPTOR: Descriptor = Descriptor {
        needs: &["input-shaft-1"],
        ..descriptor("speeds")
    };
    const GIVES: &'static [&'static str] = SPEEDS;
    const TAKES: &'static [&'static str] = SPEEDS;

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let tracks = SpeedTracks::of(input).ok_or("empty")?;
        let rpm = tracks.input[0].as_ref().ok_or("no speed")?;
        let bits = |x: &[f64]| {
            x.iter()
                .fold(0u64, |h, v| h.rotate_left(7) ^ v.to_bits())
                .to_string()
        };
        out.add(
            Observation::new("speed", "speed")
                .value(rpm[rpm.len() / 2], 0.0, "rpm")
                .arg("bits", bits(rpm)),
        );
        let channel = input.channel("input-shaft-1").ok_or("no shaft")?;
        let record = shaft_record(channel, &Spec(&input.settings.spec)).ok_or("too short")?;
        let track = speed_track(input, channel, &record).ok_or("no teeth")?;
        out.add(Observation::new("handed-on", "handed-on").arg("bits", bits(&track.values)));
        out.give(track);
        Ok(())
    }
}

#[test]
fn a_speed_that_was_handed_on_is_used_and_is_the_same_bit_for_bit() {
    // 30 teeth at 900 rpm are 450 Hz (by hand), with an engine's wander of 1 %: no generator's even train.
    let turns = |t: f64| 450.0 * (t + 0.002 * (std::f64::consts::TAU * 0.7 * t).sin());
    let samples: Vec<f32> = (0..40_000)
        .map(|i| {
            let high = turns(f64::from(i) / 10_000.0).fract() < 0.5;
            if high { 5.0 } else { 0.0 }
        })
        .collect();
    let mut shaft = channel("input-shaft-1", &samples, 10_000.0);
    shaft.facts.teeth = Some(30);
    let input = Input {
        file: "a",
        channels: vec![shaft],
        settings: Settings::default(),
    };
    let alone = run_with::<Speeds>(&input, &[]).expect("run");
    assert!(
        (alone.observations[0].value.expect("a speed") - 900.0).abs() < 15.0,
        "{alone:?}"
    );
    let bits = |out: &Output, i: usize| out.observations[i].args["bits"].clone();
    assert_eq!(bits(&alone, 0), bits(&alone, 1), "computed and handed on");
    let track = alone.tracks[0].clone();
    assert_eq!(track.name, "input-shaft-1-rpm");
    let handed = run_with::<Speeds>(&input, std::slice::from_ref(&track)).expect("run");
    assert_eq!(bits(&handed, 0), bits(&alone, 0));
    // It is that track that is used, not one computed once more; but never one of another grid.
    let mut marked = track;
    marked.values.fill(777.0);
    let out = run_with::<Speeds>(&input, &[marked.clone()]).expect("run");
    assert_eq!(out.observations[0].value, Some(777.0));
    marked.start_s += 0.01;
    let out = run_with::<Speeds>(&input, &[marked]).expect("run");
    assert_eq!(bits(&out, 0), bits(&alone, 0));
}
