//! Plugins for tests: some that do as they should and say what they were given, some that must fail. Those that break
//! the interface's rules are C files in `c/`, since the SDK does not let one break them.

use plugin_sdk::{
    Analyzer, Descriptor, Grade, Input, Limit, Observation, Output, SampleView, Scope, Track, host,
};

plugin_sdk::export!(
    Echo,
    JobEcho,
    Refuses,
    Panics,
    Overflows,
    SendsNan,
    GivesTracks,
    TakesTracks
);

const fn descriptor(id: &'static str, scope: Scope, needs: &'static [&'static str]) -> Descriptor {
    Descriptor {
        id,
        name: "Fixture",
        version: "1.2.3",
        vendor: "baybrief tests",
        scope,
        needs,
        uses: &[],
    }
}

/// Says what it was given: one observation for each channel.
pub struct Echo;

impl Analyzer for Echo {
    const DESCRIPTOR: Descriptor = Descriptor {
        uses: &["supply-voltage", "input-shaft-1"],
        ..descriptor(
            "fixture-echo",
            Scope::Capture,
            &["supply-current|actuator-current-1"],
        )
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
    const DESCRIPTOR: Descriptor = descriptor("fixture-job", Scope::Job, &[]);

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
    const DESCRIPTOR: Descriptor = descriptor("fixture-refuses", Scope::Capture, &[]);

    fn analyze(_: &Input<'_>, out: &mut Output) -> Result<(), String> {
        out.add(Observation::new("echo", "echo"));
        Err("the recording is too short: 1 s, expected at least 5 s".into())
    }
}

/// Panics.
pub struct Panics;

impl Analyzer for Panics {
    const DESCRIPTOR: Descriptor = descriptor("fixture-panics", Scope::Capture, &[]);

    fn analyze(input: &Input<'_>, _: &mut Output) -> Result<(), String> {
        panic!("no channel {}", input.channels.len())
    }
}

/// Calls itself until the stack is full.
pub struct Overflows;

impl Analyzer for Overflows {
    const DESCRIPTOR: Descriptor = descriptor("fixture-overflows", Scope::Capture, &[]);

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
    const DESCRIPTOR: Descriptor = descriptor("fixture-sends-nan", Scope::Capture, &[]);

    fn analyze(_: &Input<'_>, out: &mut Output) -> Result<(), String> {
        out.add(Observation::new("fine", "fine"));
        out.add(Observation::new("broken", "broken").value(f64::NAN, 0.0, "A"));
        Ok(())
    }
}

/// Hands on two tracks, one of them with a hole, and the settings' phase as a number, so that a track of other
/// settings is known again. By its id it would run last.
pub struct GivesTracks;

/// What [`GivesTracks`] gives: awkward numbers, which must arrive as they are.
pub const GIVEN: [f64; 5] = [0.1 + 0.2, f64::NAN, 5e-324, -0.0, 1.0 + f64::EPSILON];

impl Analyzer for GivesTracks {
    const DESCRIPTOR: Descriptor = descriptor("fixture-z-gives-tracks", Scope::Capture, &[]);
    const GIVES: &'static [&'static str] = &["fixture-rpm", "fixture-phase"];
    const TEXTS: &'static [(&'static str, &'static str)] = &[
        ("causes.toml", "# a cause"),
        ("lang/en.ftl", "fixture = Übung"),
    ];

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let track = |name: &str, values: Vec<f64>| Track {
            name: name.into(),
            unit: "rpm".into(),
            start_s: -0.5,
            step_s: 0.02,
            values,
        };
        out.give(track("fixture-rpm", GIVEN.to_vec()));
        let after = input.settings.phase.as_deref() == Some("after");
        out.give(track("fixture-phase", vec![f64::from(u8::from(after))]));
        if input.settings.phase.as_deref() == Some("unlisted") {
            out.give(track("fixture-unlisted", Vec::new()));
        }
        if input.settings.phase.as_deref() == Some("fails") {
            return Err("it was told to".into());
        }
        Ok(())
    }
}

/// Says which tracks it found.
pub struct TakesTracks;

impl Analyzer for TakesTracks {
    const DESCRIPTOR: Descriptor = descriptor("fixture-takes-tracks", Scope::Capture, &[]);
    const TAKES: &'static [&'static str] = &["fixture-rpm", "nobody-gives-this"];

    fn analyze(_: &Input<'_>, out: &mut Output) -> Result<(), String> {
        // The last is given, but not asked for in TAKES.
        for name in ["fixture-rpm", "nobody-gives-this", "fixture-phase"] {
            let Some(track) = host::track(name) else {
                out.add(Observation::new("no-track", "no-track").about(name));
                continue;
            };
            let bits: Vec<String> = track
                .values
                .iter()
                .map(|v| format!("{:016x}", v.to_bits()))
                .collect();
            out.add(
                Observation::new("track", "track")
                    .about(name)
                    .span(track.start_s, track.start_s + track.step_s)
                    .arg("unit", track.unit)
                    .arg("bits", bits.join(" ")),
            );
        }
        Ok(())
    }
}
