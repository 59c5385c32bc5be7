//! Analyzers called through the C interface: as a plugin's own tests do, and as a careless host would.

use abi::raw;
use baybrief_plugin_sdk::{
    self as plugin_sdk, Analyzer, ChannelFacts, ChannelView, Declaration, Grade, Input, Limit,
    Observation, Output, Quantity, SampleView, Scope, Settings, abi, host, settings, testing,
};
use signal::Time;
use std::ffi::c_void;
use std::ptr;

plugin_sdk::export! {
    system: "mirrors",
    name: "Mirrors",
    vendor: "tests",
    assets: ["lang/en.ftl" => "mirror = Mirror"],
    analyzers: [Mirror, Misbehaves],
}

/// Gives back what it gets.
struct Mirror;

impl Analyzer for Mirror {
    const DECLARATION: Declaration = Declaration {
        id: "mirror",
        name: "Mirror",
        needs: &["supply-current|actuator-current-1", "input-shaft-1"],
        uses: &["selector"],
        kinds: &[("mirror", "A"), ("selector", "")],
        messages: &[("mirror", &["name", "known", "teeth"]), ("selector", &[])],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        for c in &input.channels {
            let last = c.len().saturating_sub(1);
            let mut o = Observation::new("mirror", "mirror")
                .about(c.role)
                .grade(Grade::Abnormal);
            if !c.is_empty() {
                o = o.span(c.time.at(0), c.time.at(last));
            }
            let sum: f64 = c.values().iter().map(|&v| f64::from(v)).sum();
            o = o
                .value(sum, 0.5, c.unit)
                .arg("name", c.name)
                .arg("known", c.facts.calibrated);
            out.add(o.arg("teeth", c.facts.teeth.unwrap_or(0)));
        }
        if let Some(selector) = &input.settings.selector {
            let limit = Limit {
                low: Some(1.0),
                high: None,
                unit: "V".into(),
                source: "source".into(),
            };
            out.add(
                Observation::new("selector", "selector")
                    .about(&selector.value)
                    .limit(limit),
            );
        }
        host::log(host::Severity::Warning, input.file);
        host::progress(1.0);
        assert!(!host::is_cancelled());
        Ok(())
    }
}

/// Does what the file's name says.
struct Misbehaves;

impl Analyzer for Misbehaves {
    const DECLARATION: Declaration = Declaration {
        id: "misbehaves",
        name: "Misbehaves",
        scope: Scope::Job,
        kinds: &[("kind", "A")],
        messages: &[("message", &["peak"])],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let o = Observation::new("kind", "message");
        match input.file {
            "panics" => panic!("on purpose"),
            "panics-oddly" => std::panic::panic_any(PanicsAgain),
            "refuses" => return Err("too short".into()),
            "waits" if host::is_cancelled() => return Err("stopped".into()),
            "nan" => out.add(o.value(f64::NAN, 0.0, "A")),
            "nan-argument" => out.add(o.arg("peak", f64::NAN)),
            "prose" => out.add(Observation::new("kind", "The shaft turns.")),
            "undeclared" => out.add(Observation::new("other", "message")),
            "backwards" => out.add(o.span(2.0, 1.0)),
            _ => out.add(o),
        }
        Ok(())
    }
}

/// A panic's payload whose own drop panics.
struct PanicsAgain;

impl Drop for PanicsAgain {
    fn drop(&mut self) {
        panic!("while dropped");
    }
}

fn input<'a>(file: &'a str, channels: Vec<ChannelView<'a>>) -> Input<'a> {
    Input {
        file,
        channels,
        settings: Settings::default(),
    }
}

fn channel<'a>(role: &'a str, samples: SampleView<'a>, time: Time<'a>) -> ChannelView<'a> {
    let facts = ChannelFacts {
        teeth: Some(30),
        calibrated: true,
        ..Default::default()
    };
    ChannelView {
        role,
        quantity: Quantity::Current,
        name: "Kanal Ä",
        unit: "A",
        samples,
        scale: 2.0,
        offset: -1.0,
        time,
        facts,
    }
}

#[test]
fn what_goes_in_comes_out() {
    let even = Time::Even {
        start_s: 0.5,
        step_s: 0.25,
    };
    let mut input = input(
        "relearn.csv",
        vec![
            channel("supply-current", SampleView::F32(&[1.0, 2.0, 3.0]), even),
            channel(
                "input-shaft-1",
                SampleView::I16(&[-1, 1]),
                Time::Listed(&[0.0, 9.5]),
            ),
            channel("selector", SampleView::F64(&[]), even),
        ],
    );
    input.settings.selector = Some(settings::Stated {
        value: "P".into(),
        source: "job.toml".into(),
    });
    let mut direct = Output::default();
    Mirror::analyze(&input, &mut direct).expect("analysed directly");
    let through = testing::Bench::of::<Mirror>()
        .run(&input)
        .expect("analysed through the interface");
    assert_eq!(through, direct.observations);
    assert_eq!(through.len(), 4);
    // 2 * (1 + 2 + 3) - 3 * 1
    assert_eq!((through[0].value, through[0].end_s), (Some(9.0), Some(1.0)));
    assert_eq!(
        (through[1].value, through[1].end_s),
        (Some(-2.0), Some(9.5))
    );
    assert_eq!((through[2].value, through[2].start_s), (Some(0.0), None));
    assert_eq!(through[0].args["teeth"], 30);
}

#[test]
fn what_must_not_count_is_an_error() {
    let run = |file: &str| testing::Bench::of::<Misbehaves>().run(&input(file, vec![]));
    assert_eq!(run("").map(|o| o.len()), Ok(1));
    assert_eq!(run("panics"), Err("panicked: on purpose".into()));
    assert_eq!(
        run("panics-oddly"),
        Err("panicked: without a message".into())
    );
    assert_eq!(run("refuses"), Err("too short".into()));
    assert_eq!(
        run("nan"),
        Err("kind: value is NaN, no finite number".into())
    );
    assert_eq!(
        run("backwards"),
        Err("kind: end_s 1 lies before start_s 2".into())
    );
    for (file, said) in [
        ("nan-argument", "argument peak is null"),
        ("prose", "not a machine name"),
        ("undeclared", "the kind other is not declared"),
    ] {
        let error = run(file).expect_err(file);
        assert!(error.contains(said), "{error}");
    }
}

#[test]
fn nothing_is_cancelled_outside_of_a_call() {
    assert!(!host::is_cancelled());
    host::progress(0.5);
    host::log(host::Severity::Info, "nobody hears this");
}

#[test]
fn the_declaration_is_exported_and_stays_where_it_is() {
    let first = get_analysis_plugin_v2(abi::MINOR);
    assert_eq!(first, get_analysis_plugin_v2(abi::MINOR + 1));
    let library = LIBRARY.declaration().expect("a declaration");
    assert_eq!(
        (library.system.as_str(), library.version.as_str()),
        ("mirrors", env!("CARGO_PKG_VERSION"))
    );
    assert_eq!(library.asset("lang/en.ftl"), Some("mirror = Mirror"));
    let [mirror, misbehaves] = library.analyzers.as_slice() else {
        panic!("{library:?}")
    };
    assert_eq!(
        mirror.needs,
        ["supply-current|actuator-current-1", "input-shaft-1"]
    );
    assert_eq!(
        (misbehaves.id.as_str(), misbehaves.scope),
        ("misbehaves", Scope::Job)
    );
    assert_eq!(mirror.outputs.messages[0].args, ["name", "known", "teeth"]);
}

/// A host that keeps what it receives.
#[derive(Default)]
struct Received {
    findings: u32,
    reason: String,
    cancelled: i32,
}

unsafe extern "C" fn on_emit(ctx: *mut c_void, _: *const raw::Finding) -> i32 {
    // SAFETY: `call` passes a `Received`.
    unsafe { &mut *ctx.cast::<Received>() }.findings += 1;
    abi::emit::OK
}

unsafe extern "C" fn on_refuse(ctx: *mut c_void, reason: abi::Str) {
    // SAFETY: `call` passes a `Received`; the SDK sends valid text.
    let (received, reason) = unsafe {
        (
            &mut *ctx.cast::<Received>(),
            abi::read::text(reason, u64::MAX, "reason"),
        )
    };
    received.reason = reason.expect("text").into();
}

unsafe extern "C" fn on_log(_: *mut c_void, _: i32, _: abi::Str) {}
unsafe extern "C" fn on_progress(_: *mut c_void, _: f64) {}
unsafe extern "C" fn on_is_cancelled(ctx: *mut c_void) -> i32 {
    // SAFETY: `call` passes a `Received`.
    unsafe { &*ctx.cast::<Received>() }.cancelled
}
unsafe extern "C" fn on_put_series(_: *mut c_void, _: *const raw::Series) -> i32 {
    abi::emit::OK
}
unsafe extern "C" fn on_find_series(_: *mut c_void, _: abi::Str, _: u32) -> *const raw::Series {
    ptr::null()
}
unsafe extern "C" fn on_get_extension(_: *mut c_void, _: abi::Str) -> *const c_void {
    ptr::null()
}

/// Calls an exported analyzer and returns its status.
fn call(
    plugin: usize,
    input: *const raw::Input,
    received: &mut Received,
    spoil: fn(&mut raw::Host),
) -> i32 {
    let mut host = raw::Host {
        struct_size: size_of::<raw::Host>() as u32,
        minor: abi::MINOR,
        ctx: ptr::from_mut(received).cast(),
        emit: Some(on_emit),
        put_series: Some(on_put_series),
        find_series: Some(on_find_series),
        refuse: Some(on_refuse),
        log: Some(on_log),
        progress: Some(on_progress),
        is_cancelled: Some(on_is_cancelled),
        get_extension: Some(on_get_extension),
    };
    spoil(&mut host);
    // SAFETY: the exported function keeps the header's rules.
    let all = unsafe { abi::read::analyzers(&*get_analysis_plugin_v2(0)) }.expect("analyzers");
    let analyze = all[plugin].analyze.expect("its function");
    // SAFETY: what is wrong with the structs is among what the SDK checks.
    unsafe { analyze(input, &host) }
}

fn raw(file: &'static str, settings: &'static str) -> raw::Input {
    raw::Input {
        struct_size: size_of::<raw::Input>() as u32,
        channel_count: 0,
        file: abi::Str::new(file),
        settings_json: abi::Str::new(settings),
        channels: ptr::null(),
    }
}

#[test]
fn a_host_that_breaks_rules_is_told_so() {
    let no_channel: [*const raw::Channel; 1] = [ptr::null()];
    let cases = [
        (
            raw::Input {
                struct_size: 8,
                ..raw("", "{}")
            },
            "analysis_input has struct_size 8",
        ),
        (raw("", "{"), "settings_json cannot be read"),
        (
            raw::Input {
                channel_count: 2,
                ..raw("", "{}")
            },
            "channels is a null pointer",
        ),
        (
            raw::Input {
                channel_count: 1,
                channels: no_channel.as_ptr(),
                ..raw("", "{}")
            },
            "channel 0: analysis_channel is a null pointer",
        ),
    ];
    for (input, said) in cases {
        let mut received = Received::default();
        assert_eq!(
            call(0, &input, &mut received, |_| {}),
            abi::status::BAD_INPUT
        );
        assert!(received.reason.starts_with(said), "{}", received.reason);
    }
    let mut received = Received::default();
    assert_eq!(
        call(0, ptr::null(), &mut received, |_| {}),
        abi::status::BAD_INPUT
    );
    let good = raw("", "{}");
    assert_eq!(
        call(0, &good, &mut received, |h| h.emit = None),
        abi::status::BAD_INPUT
    );
    assert_eq!(
        call(0, &good, &mut received, |h| h.struct_size = 16),
        abi::status::BAD_INPUT
    );
    assert_eq!(
        call(0, &good, &mut received, |h| h.struct_size += 64),
        abi::status::OK
    );
}

#[test]
fn statuses_are_those_of_the_header() {
    let status = |file: &'static str, cancelled: i32| {
        let mut received = Received {
            cancelled,
            ..Received::default()
        };
        let status = call(1, &raw(file, "{}"), &mut received, |_| {});
        (status, received.findings)
    };
    assert_eq!(status("fine", 0), (abi::status::OK, 1));
    assert_eq!(status("refuses", 0), (abi::status::REFUSED, 0));
    assert_eq!(status("panics", 0), (abi::status::PANICKED, 0));
    assert_eq!(status("waits", 1), (abi::status::CANCELLED, 0));
    assert_eq!(status("nan-argument", 0), (abi::status::FAILED, 0));
}
