//! One call of `analyze`: the structs it is given, and the functions it may call back.

use crate::library::describe;
use crate::mapped::Mapped;
use crate::tracks::{Shown, TrackData};
use crate::wire::{Call, ChannelPlan, Format, Outcome, TimePlan};
use abi::{
    Channel, Descriptor, Finding, Host, Input, MAX_FINDINGS, MAX_NAME_BYTES, MAX_TEXT_BYTES,
    MAX_TRACKS, Observation, Str, Track, Tracks, emit, read,
};
use plugin_abi as abi;
use std::ffi::c_void;
use std::io;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread::ThreadId;
use std::time::{Duration, Instant};

/// Where log lines and progress go while the call runs.
pub(crate) trait Events: Sync {
    fn log(&self, severity: i32, text: &str);
    fn progress(&self, fraction: f64);
}

/// Calls a plugin's `analyze`. An error says what is wrong with the request, not with the plugin.
pub(crate) fn call(
    plugin: &Descriptor,
    call: &Call,
    samples: &Mapped,
    events: &dyn Events,
) -> io::Result<Outcome> {
    let analyze = plugin
        .analyze
        .ok_or_else(|| io::Error::other("it has no analyze"))?;
    let gives = describe(plugin).map_err(io::Error::other)?.gives;
    let channels = call.channels.iter().map(|plan| channel(plan, samples));
    let channels = channels.collect::<io::Result<Vec<Channel>>>()?;
    let pointers: Vec<*const Channel> = channels.iter().map(std::ptr::from_ref).collect();
    let input = Input {
        struct_size: size_of::<Input>() as u32,
        channel_count: u32::try_from(pointers.len()).map_err(io::Error::other)?,
        file: Str::new(&call.file),
        settings_json: Str::new(&call.settings_json),
        channels: pointers.as_ptr(),
    };
    let receiver = Receiver {
        events,
        gives: &gives,
        earlier: Shown::new(&call.tracks),
        thread: std::thread::current().id(),
        cancel_at: Instant::now().checked_add(Duration::from_millis(call.cancel_after_ms)),
        received: Mutex::default(),
    };
    let host = Host {
        struct_size: size_of::<Host>() as u32,
        minor: abi::MINOR,
        ctx: std::ptr::from_ref(&receiver).cast_mut().cast(),
        emit: Some(on_emit),
        refuse: Some(on_refuse),
        log: Some(on_log),
        progress: Some(on_progress),
        is_cancelled: Some(on_is_cancelled),
        get_extension: Some(on_get_extension),
    };
    // SAFETY: the structs and all they point at live until the call returns, as the header promises the plugin;
    // what the plugin does is its own affair, and why it runs in a process of its own.
    let status = unsafe { analyze(&input, &host) };
    let mut received = receiver
        .received
        .into_inner()
        .unwrap_or_else(PoisonError::into_inner);
    if received.broken.is_some() {
        // None of it will count.
        received.findings.clear();
        received.tracks.clear();
    }
    Ok(Outcome {
        status,
        reason: received.reason,
        broken: received.broken,
        findings: received.findings,
        tracks: received.tracks,
    })
}

fn channel(plan: &ChannelPlan, samples: &Mapped) -> io::Result<Channel> {
    let (at, len) = (plan.at, plan.len);
    let (sample_format, address) = match plan.format {
        Format::F32 => (
            abi::format::F32,
            samples.array::<f32>(at, len)?.as_ptr().cast::<c_void>(),
        ),
        Format::F64 => (
            abi::format::F64,
            samples.array::<f64>(at, len)?.as_ptr().cast(),
        ),
        Format::I16 => (
            abi::format::I16,
            samples.array::<i16>(at, len)?.as_ptr().cast(),
        ),
    };
    let (start_s, step_s, times_s) = match plan.time {
        TimePlan::Even { start_s, step_s } => (start_s.into(), step_s.into(), std::ptr::null()),
        TimePlan::Listed { at } => (0.0, 0.0, samples.array::<f64>(at, len)?.as_ptr()),
    };
    Ok(Channel {
        struct_size: size_of::<Channel>() as u32,
        sample_format,
        role: Str::new(&plan.role),
        name: Str::new(&plan.name),
        unit: Str::new(&plan.unit),
        samples: address,
        length: len,
        scale: plan.scale.into(),
        offset: plan.offset.into(),
        start_s,
        step_s,
        times_s,
    })
}

/// What `ctx` points at. Shared, because a plugin may log from any thread.
struct Receiver<'a> {
    events: &'a dyn Events,
    /// Names of the tracks that the plugin may hand on.
    gives: &'a [String],
    /// Tracks of earlier plugins.
    earlier: Shown<'a>,
    thread: ThreadId,
    /// `None` for an instant beyond the clock's end.
    cancel_at: Option<Instant>,
    received: Mutex<Received>,
}

#[derive(Default)]
struct Received {
    findings: Vec<Observation>,
    tracks: Vec<TrackData>,
    reason: Option<String>,
    broken: Option<String>,
    log_lines: u32,
    last_progress: Option<Instant>,
}

/// Log lines of one call beyond this are dropped: a loop that logs every sample must not fill the disk.
const MAX_LOG_LINES: u32 = 10_000;
/// Progress is passed on no more often than this.
const PROGRESS_PAUSE: Duration = Duration::from_millis(100);

impl Receiver<'_> {
    /// # Safety
    /// `ctx` is what [`call`] put into the host's table, and the call has not returned: the header's rule.
    unsafe fn from<'a>(ctx: *mut c_void) -> &'a Receiver<'a> {
        // SAFETY: the caller's promise. Only shared references to it are ever made.
        unsafe { &*ctx.cast::<Receiver<'a>>() }
    }

    fn received(&self) -> MutexGuard<'_, Received> {
        self.received.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn on_call_thread(&self) -> bool {
        std::thread::current().id() == self.thread
    }

    fn is_full(&self) -> bool {
        self.received().findings.len() >= MAX_FINDINGS as usize
    }

    /// Keeps the finding, or says which rule it breaks.
    fn take(
        &self,
        finding: Result<read::FindingView<'_>, read::Broken>,
    ) -> Result<(), read::Broken> {
        let broken = |rule: i32, sentence: String| read::Broken { rule, sentence };
        if !self.on_call_thread() {
            let said = "emit was called by a thread that analyze was not called on";
            return Err(broken(emit::BAD_THREAD, said.into()));
        }
        let finding = finding?;
        let observation = Observation::from_view(&finding)
            .map_err(|e| broken(emit::BAD_ARGS, format!("{}: args_json {e}", finding.kind)))?;
        self.received().findings.push(observation);
        Ok(())
    }

    /// Keeps the track, or says which rule it breaks.
    fn take_track(
        &self,
        track: Result<read::TrackView<'_>, read::Broken>,
    ) -> Result<(), read::Broken> {
        let broken = |rule: i32, sentence: String| read::Broken { rule, sentence };
        if !self.on_call_thread() {
            let said = "put was called by a thread that analyze was not called on";
            return Err(broken(emit::BAD_THREAD, said.into()));
        }
        let track = track?;
        if !self.gives.iter().any(|g| g == track.name) {
            let said = format!(
                "it hands on the track {}, which its descriptor does not list in gives",
                track.name
            );
            return Err(broken(emit::BAD_CHOICE, said));
        }
        let mut received = self.received();
        if received.tracks.len() >= MAX_TRACKS as usize {
            let said = format!("more than {MAX_TRACKS} tracks");
            return Err(broken(emit::TOO_MANY, said));
        }
        received.tracks.push(track.into());
        Ok(())
    }

    /// The number of the first rule that was broken, if any; the sentence is kept.
    fn answer(&self, taken: Result<(), read::Broken>) -> i32 {
        match taken {
            Ok(()) => emit::OK,
            Err(broken) => {
                self.received().broken.get_or_insert(broken.sentence);
                broken.rule
            }
        }
    }
}

unsafe extern "C" fn on_emit(ctx: *mut c_void, finding: *const Finding) -> i32 {
    // SAFETY: the header's promise for ctx.
    let receiver = unsafe { Receiver::from(ctx) };
    // Before anything is read: who hands over millions shall be done soon.
    let taken = if receiver.is_full() {
        Err(read::Broken {
            rule: emit::TOO_MANY,
            sentence: format!("more than {MAX_FINDINGS} findings"),
        })
    } else {
        // SAFETY: the header's promise for finding.
        receiver.take(unsafe { read::finding(finding) })
    };
    receiver.answer(taken)
}

unsafe extern "C" fn on_refuse(ctx: *mut c_void, reason: Str) {
    // SAFETY: the header's promises for ctx and reason.
    let (receiver, reason) = unsafe {
        (
            Receiver::from(ctx),
            read::text(reason, MAX_TEXT_BYTES, "its reason"),
        )
    };
    receiver.received().reason = Some(reason.map_or_else(|e| e, Into::into));
}

unsafe extern "C" fn on_log(ctx: *mut c_void, severity: i32, text: Str) {
    // SAFETY: the header's promises for ctx and text.
    let (receiver, text) = unsafe {
        (
            Receiver::from(ctx),
            read::text(text, MAX_TEXT_BYTES, "a log line"),
        )
    };
    let lines = {
        let mut received = receiver.received();
        received.log_lines = received.log_lines.saturating_add(1);
        received.log_lines
    };
    match (lines, text) {
        (..=MAX_LOG_LINES, Ok(text)) => receiver.events.log(severity, text),
        (..=MAX_LOG_LINES, Err(e)) => receiver.events.log(abi::severity::WARNING, &e),
        _ => {}
    }
}

unsafe extern "C" fn on_progress(ctx: *mut c_void, fraction: f64) {
    // SAFETY: the header's promise for ctx.
    let receiver = unsafe { Receiver::from(ctx) };
    let now = Instant::now();
    {
        let mut received = receiver.received();
        let early = received
            .last_progress
            .is_some_and(|t| now.duration_since(t) < PROGRESS_PAUSE);
        if early || !fraction.is_finite() {
            return;
        }
        received.last_progress = Some(now);
    }
    receiver.events.progress(fraction.clamp(0.0, 1.0));
}

unsafe extern "C" fn on_is_cancelled(ctx: *mut c_void) -> i32 {
    // SAFETY: the header's promise for ctx.
    let receiver = unsafe { Receiver::from(ctx) };
    i32::from(receiver.cancel_at.is_some_and(|at| Instant::now() >= at))
}

unsafe extern "C" fn on_get_extension(_: *mut c_void, name: Str) -> *const c_void {
    static TRACKS: Tracks = Tracks {
        struct_size: size_of::<Tracks>() as u32,
        reserved: 0,
        put: Some(on_put),
        find: Some(on_find),
    };
    // SAFETY: the header's promise for name.
    match unsafe { read::text(name, MAX_NAME_BYTES, "an extension's name") } {
        Ok(abi::EXTENSION_TRACKS) => std::ptr::from_ref(&TRACKS).cast(),
        _ => std::ptr::null(),
    }
}

unsafe extern "C" fn on_put(ctx: *mut c_void, track: *const Track) -> i32 {
    // SAFETY: the header's promises for ctx and track.
    let (receiver, track) = unsafe { (Receiver::from(ctx), read::track(track)) };
    receiver.answer(receiver.take_track(track))
}

unsafe extern "C" fn on_find(ctx: *mut c_void, name: Str) -> *const Track {
    // SAFETY: the header's promises for ctx and name.
    let (receiver, name) = unsafe {
        (
            Receiver::from(ctx),
            read::text(name, MAX_NAME_BYTES, "a track's name"),
        )
    };
    let found = name.ok().and_then(|name| receiver.earlier.find(name));
    found.map_or(std::ptr::null(), std::ptr::from_ref)
}
