//! Analyzers for tests: some that do as they should and say what they were given, some that must fail. Those that break
//! the interface's rules are C files in `c/`, since the SDK does not let one break them.
//!
//! Each that must fail runs on recordings that have a role of its own name alone.

use plugin_sdk::{
    Analyzer, ColumnType, Declaration, Form, Grade, Grid, Input, Limit, Observation, Output,
    SampleView, Scope, SeriesSpec, Values, host,
};

plugin_sdk::export! {
    system: "fixture",
    name: "Fixture",
    vendor: "baybrief tests",
    assets: [
        "causes.toml" => "# a cause",
        "lang/en.ftl" => "fixture = Übung",
    ],
    analyzers: [
        Echo,
        JobEcho,
        Refuses,
        Panics,
        Overflows,
        SendsNan,
        GivesSeries,
        TakesSeries,
    ],
}

const fn declaration(id: &'static str, needs: &'static [&'static str]) -> Declaration {
    Declaration {
        id,
        name: "Fixture",
        needs,
        kinds: &[("echo", "count")],
        messages: &[("echo", ECHO)],
        ..Declaration::EMPTY
    }
}

const ECHO: &[&str] = &[
    "name",
    "unit",
    "quantity",
    "format",
    "checksum",
    "scale",
    "offset",
    "teeth",
    "duration_s",
    "charge_as",
    "process",
    "variables",
    "findings",
    "codes",
    "depth",
];

/// Says what it was given: one observation for each channel.
pub struct Echo;

impl Analyzer for Echo {
    const DECLARATION: Declaration = Declaration {
        uses: &["supply-voltage", "input-shaft-1"],
        ..declaration("fixture-echo", &["supply-current|actuator-current-1"])
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        for (i, channel) in input.channels.iter().enumerate() {
            host::log(host::Severity::Info, &format!("channel {i}"));
            host::progress((i + 1) as f64 / input.channels.len() as f64);
            let (format, checksum) = bits(channel.samples);
            let mut observation = Observation::new("echo", "echo")
                .about(channel.role)
                .grade(Grade::Abnormal)
                .limit(Limit {
                    low: Some(-0.1),
                    high: None,
                    unit: "A".into(),
                    source: "tests".into(),
                })
                .arg("name", channel.name)
                .arg("unit", channel.unit)
                .arg("quantity", format!("{:?}", channel.quantity))
                .arg("format", format)
                .arg("checksum", checksum)
                .arg("scale", channel.scale)
                .arg("offset", format!("{:016x}", channel.offset.to_bits()))
                .arg("teeth", channel.facts.teeth.unwrap_or(0))
                .arg("duration_s", 0.1)
                .arg("charge_as", 1.0 / 3.0)
                .arg("process", std::process::id())
                .arg("variables", std::env::vars_os().count());
            if let Some(last) = channel.len().checked_sub(1) {
                observation = observation.span(channel.time.at(0), channel.time.at(last));
            }
            out.add(observation.value(channel.len() as f64, 0.0, "count"));
        }
        Ok(())
    }
}

/// A checksum that changes with every bit of every sample (FNV-1a over the samples' bits), as text.
pub fn bits(samples: SampleView<'_>) -> (&'static str, String) {
    let fold = |words: &mut dyn Iterator<Item = u64>| {
        let step = |hash: u64, word: u64| (hash ^ word).wrapping_mul(0x0000_0100_0000_01b3);
        format!("{:016x}", words.fold(0xcbf2_9ce4_8422_2325, step))
    };
    match samples {
        SampleView::F32(s) => ("f32", fold(&mut s.iter().map(|v| v.to_bits().into()))),
        SampleView::F64(s) => ("f64", fold(&mut s.iter().map(|v| v.to_bits()))),
        SampleView::I16(s) => ("i16", fold(&mut s.iter().map(|v| *v as u16 as u64))),
    }
}

/// Looks at a job and says how many findings and codes it was told of.
pub struct JobEcho;

impl Analyzer for JobEcho {
    const DECLARATION: Declaration = Declaration {
        scope: Scope::Job,
        ..declaration("fixture-job", &[])
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        if !input.channels.is_empty() || !input.file.is_empty() {
            return Err("a job was given a recording".into());
        }
        let (findings, codes) = (input.settings.findings.len(), input.settings.codes.len());
        out.add(
            Observation::new("echo", "echo")
                .arg("findings", findings)
                .arg("codes", codes),
        );
        Ok(())
    }
}

/// Cannot judge anything, though it had seen something.
pub struct Refuses;

impl Analyzer for Refuses {
    const DECLARATION: Declaration = declaration("fixture-refuses", &["fixture-refuses"]);

    fn analyze(_: &Input<'_>, out: &mut Output) -> Result<(), String> {
        out.add(Observation::new("echo", "echo"));
        Err("the recording is too short: 1 s, expected at least 5 s".into())
    }
}

/// Panics.
pub struct Panics;

impl Analyzer for Panics {
    const DECLARATION: Declaration = declaration("fixture-panics", &["fixture-panics"]);

    fn analyze(input: &Input<'_>, _: &mut Output) -> Result<(), String> {
        panic!("no channel {}", input.channels.len())
    }
}

/// Calls itself until the stack is full.
pub struct Overflows;

impl Analyzer for Overflows {
    const DECLARATION: Declaration = declaration("fixture-overflows", &["fixture-overflows"]);

    fn analyze(_: &Input<'_>, out: &mut Output) -> Result<(), String> {
        out.add(Observation::new("echo", "echo").arg("depth", deeper(1)));
        Ok(())
    }
}

fn deeper(depth: u64) -> u64 {
    let room = std::hint::black_box([depth; 512]);
    if room[0] == u64::MAX {
        0
    } else {
        deeper(depth + 1) + room[511]
    }
}

/// Measures something that is no number.
pub struct SendsNan;

impl Analyzer for SendsNan {
    const DECLARATION: Declaration = declaration("fixture-sends-nan", &["fixture-sends-nan"]);

    fn analyze(_: &Input<'_>, out: &mut Output) -> Result<(), String> {
        out.add(Observation::new("echo", "echo"));
        out.add(Observation::new("echo", "echo").value(f64::NAN, 0.0, "count"));
        Ok(())
    }
}

/// Hands on a track with a hole, and a table of the settings' phase.
pub struct GivesSeries;

/// Samples of [`GivesSeries`]: awkward numbers, which must arrive as they are.
pub const GIVEN: [f64; 5] = [0.1 + 0.2, f64::NAN, 5e-324, -0.0, 1.0 + f64::EPSILON];

const SPEED: SeriesSpec = SeriesSpec {
    name: "fixture-speed",
    form: Form::Track,
    columns: &[("rpm", "rpm", ColumnType::F64)],
};

const PHASE: SeriesSpec = SeriesSpec {
    name: "fixture-phase",
    form: Form::Table,
    columns: &[
        ("phase", "", ColumnType::Text),
        ("number", "", ColumnType::I64),
    ],
};

impl Analyzer for GivesSeries {
    const DECLARATION: Declaration = Declaration {
        series: &[SPEED, PHASE],
        ..declaration("fixture-gives", &["fixture-gives"])
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let grid = Grid {
            start_s: -0.5,
            step_s: 0.02,
        };
        out.put(SPEED.of(Some(0), Some(grid), vec![Values::F64(GIVEN.to_vec())]));
        let phase = input.settings.phase.clone().unwrap_or_default();
        let columns = vec![
            Values::Text(vec![phase.clone()]),
            Values::I64(vec![i64::MIN]),
        ];
        out.put(PHASE.of(None, None, columns));
        match phase.as_str() {
            "undeclared" => {
                let mut other = PHASE.of(Some(0), None, Vec::new());
                other.name = "fixture-undeclared".into();
                out.put(other);
                Ok(())
            }
            "fails" => Err("it was told to".into()),
            _ => Ok(()),
        }
    }
}

/// Says which series it found.
pub struct TakesSeries;

impl Analyzer for TakesSeries {
    const DECLARATION: Declaration = Declaration {
        inputs: &["fixture-speed", "nobody-derives-this"],
        kinds: &[("series", ""), ("no-series", "")],
        messages: &[("series", &["unit", "bits"]), ("no-series", &[])],
        ..declaration("fixture-takes", &["fixture-takes|fixture-gives"])
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        // The third is derived, but not asked for; the last belongs to another channel.
        for (name, channel) in [
            ("fixture-speed", Some(0)),
            ("nobody-derives-this", Some(0)),
            ("fixture-phase", None),
            ("fixture-speed", None),
        ] {
            let Some(series) = input.series(name, channel) else {
                out.add(Observation::new("no-series", "no-series").about(name));
                continue;
            };
            let (Some(grid), Some(values)) = (series.grid, series.numbers("rpm")) else {
                return Err("it is another series".into());
            };
            let bits = values.iter().map(|v| format!("{:016x}", v.to_bits()));
            out.add(
                Observation::new("series", "series")
                    .about(name)
                    .span(grid.start_s, grid.start_s + grid.step_s)
                    .arg("unit", series.columns[0].unit.as_str())
                    .arg("bits", bits.collect::<Vec<_>>().join(" ")),
            );
        }
        Ok(())
    }
}
