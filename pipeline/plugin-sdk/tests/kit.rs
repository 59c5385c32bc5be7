//! The test kit for plugins: cases in folders, and properties. Each must be able to fail.

use baybrief_plugin_sdk::derived::{self, PULSES, TRAIN};
use baybrief_plugin_sdk::signal::{current, teeth};
use baybrief_plugin_sdk::testing::{Bench, channel};
use baybrief_plugin_sdk::{
    Analyzer, ColumnType, Conditions, Declaration, Form, Grade, Grid, Input, Observation, Output,
    Series, SeriesSpec, Settings, Values, conditions,
};
use std::path::Path;

const MEAN_VOLTS: SeriesSpec = SeriesSpec {
    name: "mean-volts",
    form: Form::Track,
    columns: &[("mean", "V", ColumnType::F64)],
};
const KNOWN_VOLTS: SeriesSpec = SeriesSpec {
    name: "known-volts",
    ..MEAN_VOLTS
};

/// The mean of the supply voltage, and when the recording began.
struct Mean;

impl Analyzer for Mean {
    const DECLARATION: Declaration = Declaration {
        id: "mean",
        name: "Test",
        needs: &["supply-voltage"],
        inputs: &[KNOWN_VOLTS.name],
        kinds: &[("mean", "V")],
        messages: &[("mean", &[])],
        series: &[MEAN_VOLTS],
        ..Declaration::EMPTY
    };

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
        let known = input.series(KNOWN_VOLTS.name, Some(0));
        let known = known.and_then(|s| Some(s.numbers("mean")?[0]));
        let values = Values::F64(vec![mean, known.unwrap_or(f64::NAN)]);
        out.put(MEAN_VOLTS.of(Some(0), Some(GRID), vec![values]));
        Ok(())
    }
}

const GRID: Grid = Grid {
    start_s: 0.0,
    step_s: 1.0,
};

/// Breaks every property: what it finds hangs on the clock, on the counts, and on the last digit.
struct Naive;

impl Analyzer for Naive {
    const DECLARATION: Declaration = Declaration {
        id: "naive",
        name: "Test",
        kinds: &[("late", ""), ("fine", ""), ("restless", ""), ("plain", "")],
        messages: &[("kind", &[])],
        ..Declaration::EMPTY
    };

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
        Bench::of::<Mean>()
            .time_shift(&input("a", &samples), 17.25 * step)
            .expect("moved");
        Bench::of::<Mean>()
            .gain(&input("a", &samples), 0.37 * step)
            .expect("other counts");
        Bench::of::<Mean>()
            .noise(&input("a", &samples), 0.02, seed)
            .expect("noise");
    }
    Bench::of::<Naive>()
        .time_shift(&input("clock", &samples), 5.0)
        .expect_err("late");
    Bench::of::<Naive>()
        .gain(&input("counts", &samples), 10.0)
        .expect_err("fine");
    let said = Bench::of::<Naive>()
        .noise(&input("noise", &samples), 0.02, 1)
        .expect_err("restless");
    assert!(said.contains("restless"), "{said}");
}

#[test]
fn series_come_in_and_go_out() {
    let known = |spec: SeriesSpec| spec.of(Some(0), Some(GRID), vec![Values::F64(vec![42.0])]);
    let samples = [10.0; 10];
    let input = input("a", &samples);
    let bench = Bench::of::<Mean>();
    let out = bench
        .run_with(&input, &[known(MEAN_VOLTS), known(KNOWN_VOLTS)])
        .expect("run");
    assert_eq!(out.series[0].numbers("mean"), Some(&[10.0, 42.0][..]));
    let out = bench.run_with(&input, &[known(MEAN_VOLTS)]).expect("run");
    assert!(out.series[0].numbers("mean").expect("numbers")[1].is_nan());
    let outside = input.series(KNOWN_VOLTS.name, Some(0));
    assert_eq!(outside, None, "outside of a call");
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
        Bench::of::<Mean>()
            .run_cases(root)
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
    assert_eq!(Bench::of::<Mean>().run_cases(root), Ok(2));
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
    let said = Bench::of::<Mean>().run_cases(root).expect_err("six");
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

/// Derives what `recording` derives, of a current and a tooth signal.
struct Derives;

fn pulses(input: &Input<'_>) -> current::CurrentRecord {
    let options = current::Options {
        least_peak: 2.0,
        stall_hold_s: 0.4,
        stall_share: 0.7,
        least_quiescent: 0.2,
    };
    let channel = &input.channels[0];
    current::read_current(&channel.values(), channel.time, &options).expect("a current")
}

fn train(input: &Input<'_>) -> teeth::ToothTrain {
    let options = teeth::Options {
        teeth: Some(30),
        ..teeth::Options::default()
    };
    let channel = &input.channels[1];
    teeth::read_train(&channel.values(), channel.time, &options).expect("a train")
}

impl Analyzer for Derives {
    const DECLARATION: Declaration = Declaration {
        id: "derives",
        name: "Test",
        series: &[
            derived::CURRENT_LEVELS,
            derived::CURRENT_PULSES,
            derived::TOOTH_TRAIN,
            derived::TOOTH_PATTERN,
            derived::TOOTH_EDGES,
            derived::TOOTH_TURNS,
            derived::TOOTH_SEGMENTS,
            derived::TOOTH_DROPOUTS,
            derived::ENGINE_STATE,
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let series = derived::pulses_series(0, &pulses(input)).into_iter();
        let series = series.chain(derived::train_series(1, &train(input)));
        series.for_each(|s| out.put(s));
        out.put(engine().series());
        Ok(())
    }
}

fn engine() -> Conditions {
    let segment = |start_s, state, basis: &str| conditions::EngineSegment {
        start_s,
        end_s: start_s + 1.0,
        state,
        basis: basis.into(),
    };
    Conditions {
        engine: vec![
            segment(0.0, conditions::Engine::Off, "resting"),
            segment(1.0, conditions::Engine::Cranking, "starter"),
            segment(2.0, conditions::Engine::Running, "charged"),
            segment(3.0, conditions::Engine::Unknown, "nothing"),
        ],
    }
}

/// Compares what it reads with what the series were made from.
struct Reads;

impl Analyzer for Reads {
    const DECLARATION: Declaration = Declaration {
        id: "reads",
        name: "Test",
        inputs: &[
            PULSES[0],
            PULSES[1],
            TRAIN[0],
            TRAIN[1],
            TRAIN[2],
            TRAIN[3],
            TRAIN[4],
            TRAIN[5],
            derived::ENGINE_STATE.name,
        ],
        kinds: &[("read", "count")],
        messages: &[("read", &[])],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let read = input.pulses("supply-current").ok_or("no pulses")?;
        assert_eq!(read, pulses(input));
        assert_eq!(input.pulses("input-shaft-1"), None);
        let (read, made) = (
            input.train("input-shaft-1").ok_or("no train")?,
            train(input),
        );
        // Debug shows every digit that tells two numbers apart.
        assert_eq!(format!("{read:?}"), format!("{made:?}"));
        assert_eq!(input.conditions(), engine());
        out.add(Observation::new("read", "read").value(read.edges.len() as f64, 0.0, "count"));
        Ok(())
    }
}

#[test]
fn derived_series_are_read_as_they_were_made() {
    // 30 teeth at 900 rpm are 450 Hz (by hand), with an engine's wander of 1 %: no generator's even train. Then a
    // stretch that is undersampled, and two dropouts.
    let turns = |t: f64| 450.0 * (t + 0.002 * (std::f64::consts::TAU * 0.7 * t).sin());
    let tooth: Vec<f32> = (0..40_000)
        .map(|i| {
            let high = turns(f64::from(i) / 10_000.0).fract() < 0.5;
            let dropout = (12_000..12_400).contains(&i) || (22_000..22_300).contains(&i);
            if high && !dropout { 5.0 } else { 0.0 }
        })
        .collect();
    let amps: Vec<f32> = (0..40_000)
        .map(|i| match i % 10_000 {
            3_000..4_500 => 15.0,
            _ => 1.0 + 0.01 * (i % 7) as f32,
        })
        .collect();
    let mut shaft = channel("input-shaft-1", &tooth, 10_000.0);
    shaft.facts.teeth = Some(30);
    let input = Input {
        file: "a",
        channels: vec![channel("supply-current", &amps, 10_000.0), shaft],
        settings: Settings::default(),
    };
    let read = Bench::of::<Reads>()
        .after::<Derives>()
        .run(&input)
        .expect("read");
    assert!(read[0].value > Some(1_500.0), "{read:?}");
}

#[test]
fn conditions_are_looked_up_by_time() {
    use conditions::Engine::{Cranking, Off, Running, Unknown};
    let c = engine();
    let at = [0.5, 1.5, 2.5, 3.5, 9.0].map(|t| c.engine_at(t));
    assert_eq!(at, [Off, Cranking, Running, Unknown, Unknown]);
    assert_eq!(c.running_share(0.0, 2.0), (0.0, false));
    assert_eq!(c.running_share(2.0, 4.0), (0.5, true));
    assert_eq!(c.starter(), Some((1.0, 2.0)));
    let other = Series::default();
    assert_eq!(Conditions::of(&other), Conditions::default());
}
