//! Runs an analyzer in process through the C interface, the way a host does: for a plugin's own tests. On one input
//! with [`run`], on a folder of cases with [`cases::run_cases`], and against what must not change its findings with
//! [`properties`].

pub mod cases;
pub mod properties;

use crate::{Analyzer, ChannelView, Input, Observation, Output, SampleView, Track, ffi};
use abi::{Channel, Finding, Host, Str, Tracks, emit, format, read, status};
use plugin_abi as abi;
use signal::Time;
use std::ffi::c_void;

/// Calls `A` with the input and returns what a host would receive, after every check that a host makes.
///
/// # Errors
/// Why the findings would not count: what `A` returned as its error, its panic, or the rule that one of its
/// observations breaks.
pub fn run<A: Analyzer>(input: &Input<'_>) -> Result<Vec<Observation>, String> {
    run_with::<A>(input, &[]).map(|out| out.observations)
}

/// As [`run`], with tracks that earlier plugins handed on, of which `A` finds those that it takes; returns the tracks
/// that it gives, too.
///
/// # Errors
/// As for [`run`].
pub fn run_with<A: Analyzer>(input: &Input<'_>, earlier: &[Track]) -> Result<Output, String> {
    let mut settings = input.settings.clone();
    settings.channels = input.channels.iter().map(|c| c.facts.clone()).collect();
    let settings = serde_json::to_string(&settings).map_err(|e| e.to_string())?;
    let channels: Vec<Channel> = input.channels.iter().map(channel_in_c).collect();
    let pointers: Vec<*const Channel> = channels.iter().map(std::ptr::from_ref).collect();
    let raw = abi::Input {
        struct_size: size_of::<abi::Input>() as u32,
        channel_count: pointers.len() as u32,
        file: Str::new(input.file),
        settings_json: Str::new(&settings),
        channels: pointers.as_ptr(),
    };
    let taken = earlier.iter().filter(|t| A::TAKES.contains(&&*t.name));
    let mut received = Received {
        gives: A::GIVES,
        earlier: taken.map(ffi::track_in_c).collect(),
        out: Output::default(),
        reason: None,
        broken: None,
    };
    let host = Host {
        struct_size: size_of::<Host>() as u32,
        minor: abi::MINOR,
        ctx: std::ptr::from_mut(&mut received).cast(),
        emit: Some(on_emit),
        refuse: Some(on_refuse),
        log: Some(on_log),
        progress: Some(on_progress),
        is_cancelled: Some(on_is_cancelled),
        get_extension: Some(on_get_extension),
    };
    // SAFETY: both structs and all they point at live until the call returns; ctx is what the functions expect.
    let returned = unsafe { ffi::analyze::<A>(&raw, &host) };
    if let Some(sentence) = received.broken {
        return Err(sentence);
    }
    match (returned, received.reason) {
        (status::OK, _) => Ok(received.out),
        (_, Some(reason)) => Err(reason),
        (other, None) => Err(format!(
            "analyze returned status {other} and gave no reason"
        )),
    }
}

/// An evenly sampled, calibrated channel that begins at 0 s, for a test's input.
pub fn channel<'a>(role: &'a str, samples: &'a [f32], rate_hz: f64) -> ChannelView<'a> {
    ChannelView {
        role,
        name: role,
        unit: if role.contains("current") { "A" } else { "V" },
        samples: SampleView::F32(samples),
        scale: 1.0,
        offset: 0.0,
        time: Time::Even {
            start_s: 0.0,
            step_s: 1.0 / rate_hz,
        },
        facts: crate::ChannelFacts {
            calibrated: true,
            ..Default::default()
        },
    }
}

struct Received {
    gives: &'static [&'static str],
    earlier: Vec<abi::Track>,
    out: Output,
    reason: Option<String>,
    broken: Option<String>,
}

fn channel_in_c(c: &ChannelView<'_>) -> Channel {
    let (sample_format, samples) = match c.samples {
        SampleView::F32(s) => (format::F32, s.as_ptr().cast::<c_void>()),
        SampleView::F64(s) => (format::F64, s.as_ptr().cast()),
        SampleView::I16(s) => (format::I16, s.as_ptr().cast()),
    };
    let (start_s, step_s, times_s) = match c.time {
        Time::Even { start_s, step_s } => (start_s, step_s, std::ptr::null()),
        Time::Listed(t) => (0.0, 0.0, t.as_ptr()),
    };
    Channel {
        struct_size: size_of::<Channel>() as u32,
        sample_format,
        role: Str::new(c.role),
        name: Str::new(c.name),
        unit: Str::new(c.unit),
        samples,
        length: c.len() as u64,
        scale: c.scale,
        offset: c.offset,
        start_s,
        step_s,
        times_s,
    }
}

/// # Safety
/// `ctx` is the [`Received`] of a running [`run`], on its thread.
unsafe fn received<'a>(ctx: *mut c_void) -> &'a mut Received {
    // SAFETY: the caller's promise; the callbacks hold it one at a time.
    unsafe { &mut *ctx.cast::<Received>() }
}

unsafe extern "C" fn on_emit(ctx: *mut c_void, finding: *const Finding) -> i32 {
    // SAFETY: called by this crate's own sending side, which keeps the header's rules.
    let (received, view) = unsafe { (received(ctx), read::finding(finding)) };
    let read = view.and_then(|view| {
        Observation::from_view(&view).map_err(|sentence| read::Broken {
            rule: emit::BAD_ARGS,
            sentence,
        })
    });
    match read {
        Ok(observation) => {
            received.out.add(observation);
            emit::OK
        }
        Err(broken) => {
            received.broken.get_or_insert(broken.sentence);
            broken.rule
        }
    }
}

unsafe extern "C" fn on_refuse(ctx: *mut c_void, reason: Str) {
    // SAFETY: as in `on_emit`.
    let (received, reason) = unsafe {
        (
            received(ctx),
            read::text(reason, abi::MAX_TEXT_BYTES, "reason"),
        )
    };
    received.reason = Some(reason.map_or_else(|e| e, Into::into));
}

unsafe extern "C" fn on_log(_: *mut c_void, severity: i32, text: Str) {
    // SAFETY: as in `on_emit`.
    if let Ok(text) = unsafe { read::text(text, abi::MAX_TEXT_BYTES, "log line") } {
        eprintln!("log {severity}: {text}");
    }
}

unsafe extern "C" fn on_progress(_: *mut c_void, _: f64) {}

unsafe extern "C" fn on_is_cancelled(_: *mut c_void) -> i32 {
    0
}

unsafe extern "C" fn on_get_extension(_: *mut c_void, name: Str) -> *const c_void {
    static TRACKS: Tracks = Tracks {
        struct_size: size_of::<Tracks>() as u32,
        reserved: 0,
        put: Some(on_put),
        find: Some(on_find),
    };
    // SAFETY: as in `on_emit`.
    match unsafe { read::text(name, abi::MAX_NAME_BYTES, "name") } {
        Ok(abi::EXTENSION_TRACKS) => std::ptr::from_ref(&TRACKS).cast(),
        _ => std::ptr::null(),
    }
}

unsafe extern "C" fn on_put(ctx: *mut c_void, track: *const abi::Track) -> i32 {
    // SAFETY: as in `on_emit`.
    let (received, view) = unsafe { (received(ctx), read::track(track)) };
    let rule = match view {
        Ok(view) if received.gives.contains(&view.name) => {
            received.out.give(Track {
                name: view.name.into(),
                unit: view.unit.into(),
                start_s: view.start_s,
                step_s: view.step_s,
                values: view.values.into(),
            });
            return emit::OK;
        }
        Ok(_) => emit::BAD_CHOICE,
        Err(broken) => broken.rule,
    };
    let said = || format!("a track broke rule {rule}");
    received.broken.get_or_insert_with(said);
    rule
}

unsafe extern "C" fn on_find(ctx: *mut c_void, name: Str) -> *const abi::Track {
    // SAFETY: as in `on_emit`; the tracks' names live as long as the run.
    let (received, name) =
        unsafe { (received(ctx), read::text(name, abi::MAX_NAME_BYTES, "name")) };
    let is_it = |t: &&abi::Track| {
        // SAFETY: as above.
        let its = unsafe { read::text(t.name, abi::MAX_NAME_BYTES, "name") };
        its == name
    };
    received
        .earlier
        .iter()
        .find(is_it)
        .map_or(std::ptr::null(), std::ptr::from_ref)
}
