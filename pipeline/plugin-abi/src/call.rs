//! One call of an analyzer from the host's side: the structs it is given and the functions that it may call back. The
//! host's workers and the SDK's test runner both make their calls here.

use crate::raw::{Analyze, Channel, Finding, Host, Input};
use crate::read::{Broken, broken};
use crate::series::{ColumnType, Form, Series, Values};
use crate::{
    MAX_CALL_VALUES, MAX_FINDINGS, MAX_NAME_BYTES, MAX_SERIES, MAX_TEXT_BYTES, MINOR, NO_CHANNEL,
    Observation, Outputs, Str, emit, raw, read, severity, status,
};
use serde::{Deserialize, Serialize};
use std::ffi::c_void;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::thread::ThreadId;
use std::time::{Duration, Instant};

/// Input of one call.
#[derive(Debug, Clone, Copy)]
pub struct CallInput<'a> {
    /// The recording's file name; empty for a job.
    pub file: &'a str,
    /// [`Settings`](crate::Settings) as JSON.
    pub settings_json: &'a str,
    /// The channels. What they point at lives as long as the call.
    pub channels: &'a [Channel],
    /// Series of earlier analyzers that this one may find.
    pub series: &'a [&'a Series],
    /// Outputs that it declares.
    pub outputs: &'a Outputs,
    /// When `is_cancelled` begins to say so; `None` for never.
    pub cancel_at: Option<Instant>,
}

/// Result of a call.
#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
pub struct Outcome {
    /// One of [`status`].
    pub status: i32,
    /// The analyzer's reason for a status other than OK.
    pub reason: Option<String>,
    /// The first rule of the interface that it broke.
    pub broken: Option<String>,
    /// Findings; they count only where [`Outcome::counts`].
    pub findings: Vec<Observation>,
    /// Series that it hands on; as the findings.
    pub series: Vec<Series>,
}

impl Outcome {
    /// True where findings and series count.
    pub fn counts(&self) -> bool {
        self.status == status::OK && self.broken.is_none()
    }
}

/// Receiver of log lines and progress while a call runs.
pub trait Events: Sync {
    /// A line for the log, `severity` as in [`crate::severity`].
    fn log(&self, severity: i32, text: &str);
    /// Reports the share done, 0 to 1.
    fn progress(&self, fraction: f64);
}

/// Events of a call that nobody listens to.
impl Events for () {
    fn log(&self, _: i32, _: &str) {}
    fn progress(&self, _: f64) {}
}

/// Calls an analyzer.
///
/// # Safety
/// `analyze` keeps the rules of `analysis_plugin.h`, and the pointers in `input.channels` point at what the header
/// says until this returns.
pub unsafe fn call(analyze: Analyze, input: &CallInput<'_>, events: &dyn Events) -> Outcome {
    let pointers: Vec<*const Channel> = input.channels.iter().map(std::ptr::from_ref).collect();
    let raw = Input {
        struct_size: size_of::<Input>() as u32,
        channel_count: u32::try_from(pointers.len()).unwrap_or(u32::MAX),
        file: Str::new(input.file),
        settings_json: Str::new(input.settings_json),
        channels: pointers.as_ptr(),
    };
    let receiver = Receiver {
        events,
        outputs: input.outputs,
        channels: input.channels.len() as u32,
        earlier: input.series.iter().map(|s| RawSeries::new(s)).collect(),
        thread: std::thread::current().id(),
        cancel_at: input.cancel_at,
        received: Mutex::default(),
    };
    let host = Host {
        struct_size: size_of::<Host>() as u32,
        minor: MINOR,
        ctx: std::ptr::from_ref(&receiver).cast_mut().cast(),
        emit: Some(on_emit),
        put_series: Some(on_put_series),
        find_series: Some(on_find_series),
        refuse: Some(on_refuse),
        log: Some(on_log),
        progress: Some(on_progress),
        is_cancelled: Some(on_is_cancelled),
        get_extension: Some(on_get_extension),
    };
    // SAFETY: the structs and all they point at live until the call returns, as the header promises the analyzer.
    let status = unsafe { analyze(&raw, &host) };
    let received = receiver
        .received
        .into_inner()
        .unwrap_or_else(PoisonError::into_inner);
    let mut outcome = Outcome {
        status,
        reason: received.reason,
        broken: received.broken,
        findings: received.findings,
        series: received.series,
    };
    if !outcome.counts() {
        outcome.findings.clear();
        outcome.series.clear();
    }
    outcome
}

/// A series as an analyzer gets to see it: what the struct points at lies beside it.
pub struct RawSeries<'a> {
    series: &'a Series,
    raw: raw::Series,
    _columns: Vec<raw::Column>,
    _pointers: Vec<*const raw::Column>,
    _words: Vec<Vec<Str>>,
}

impl<'a> RawSeries<'a> {
    /// The struct of the interface, which borrows from `series`.
    pub fn new(series: &'a Series) -> RawSeries<'a> {
        let mut words: Vec<Vec<Str>> = Vec::new();
        let columns: Vec<raw::Column> = series
            .columns
            .iter()
            .map(|column| raw::Column {
                struct_size: size_of::<raw::Column>() as u32,
                r#type: column.values.column_type().number(),
                name: Str::new(&column.name),
                unit: Str::new(&column.unit),
                values: match &column.values {
                    Values::F64(v) => v.as_ptr().cast(),
                    Values::I64(v) => v.as_ptr().cast(),
                    Values::Text(v) => {
                        words.push(v.iter().map(|w| Str::new(w)).collect());
                        words.last().map_or(std::ptr::null(), |w| w.as_ptr().cast())
                    }
                },
            })
            .collect();
        let pointers: Vec<*const raw::Column> = columns.iter().map(std::ptr::from_ref).collect();
        let grid = series.grid;
        let raw = raw::Series {
            struct_size: size_of::<raw::Series>() as u32,
            form: series.form().number(),
            name: Str::new(&series.name),
            channel: series.channel.unwrap_or(NO_CHANNEL),
            columns_count: pointers.len() as u32,
            columns: pointers.as_ptr(),
            rows: series.rows() as u64,
            start_s: grid.map_or(0.0, |g| g.start_s),
            step_s: grid.map_or(0.0, |g| g.step_s),
        };
        RawSeries {
            series,
            raw,
            _columns: columns,
            _pointers: pointers,
            _words: words,
        }
    }

    /// The struct.
    pub fn raw(&self) -> &raw::Series {
        &self.raw
    }
}

impl Form {
    /// Its number in the interface.
    pub fn number(self) -> u32 {
        match self {
            Form::Track => raw::form::TRACK,
            Form::Table => raw::form::TABLE,
        }
    }
}

impl ColumnType {
    /// Its number in the interface.
    pub fn number(self) -> u32 {
        match self {
            ColumnType::F64 => raw::column::F64,
            ColumnType::I64 => raw::column::I64,
            ColumnType::Text => raw::column::TEXT,
        }
    }
}

/// Target of `ctx`. Shared, because an analyzer may log from any thread.
struct Receiver<'a> {
    events: &'a dyn Events,
    outputs: &'a Outputs,
    channels: u32,
    /// Series of earlier analyzers.
    earlier: Vec<RawSeries<'a>>,
    thread: ThreadId,
    cancel_at: Option<Instant>,
    received: Mutex<Received>,
}

#[derive(Default)]
struct Received {
    findings: Vec<Observation>,
    series: Vec<Series>,
    values: u64,
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

    fn on_call_thread(&self, function: &str) -> Result<(), Broken> {
        if std::thread::current().id() == self.thread {
            return Ok(());
        }
        let said = format!("{function} was called by a thread that analyze was not called on");
        Err(broken(emit::BAD_THREAD, said))
    }

    /// Keeps the finding.
    ///
    /// # Safety
    /// As for [`read::finding`].
    unsafe fn finding(&self, finding: *const Finding) -> Result<(), Broken> {
        self.on_call_thread("emit")?;
        // Before anything is read: who hands over millions shall be done soon.
        if self.received().findings.len() >= MAX_FINDINGS as usize {
            let said = format!("more than {MAX_FINDINGS} findings");
            return Err(broken(emit::TOO_MANY, said));
        }
        // SAFETY: the caller's promise.
        let observation = unsafe { read::finding(finding) }?;
        self.outputs
            .check_finding(&observation)
            .map_err(|e| broken(emit::UNDECLARED, e))?;
        self.received().findings.push(observation);
        Ok(())
    }

    /// Keeps the series.
    ///
    /// # Safety
    /// As for [`read::series`].
    unsafe fn series(&self, series: *const raw::Series) -> Result<(), Broken> {
        self.on_call_thread("put_series")?;
        if self.received().series.len() >= MAX_SERIES as usize {
            let said = format!("more than {MAX_SERIES} series");
            return Err(broken(emit::TOO_MANY, said));
        }
        // SAFETY: the caller's promise.
        let series = unsafe { read::series(series) }?;
        let name = &series.name;
        if series.channel.is_some_and(|c| c >= self.channels) {
            let said = format!("{name}: there is no such channel");
            return Err(broken(emit::BAD_CHOICE, said));
        }
        self.outputs
            .check_series(&series)
            .map_err(|e| broken(emit::UNDECLARED, e))?;
        let mut received = self.received();
        let is_known = |s: &Series| s.name == series.name && s.channel == series.channel;
        if received.series.iter().any(is_known) {
            let said = format!("{name}: put twice for one channel");
            return Err(broken(emit::BAD_CHOICE, said));
        }
        received.values += (series.rows() * series.columns.len()) as u64;
        if received.values > MAX_CALL_VALUES {
            let said = format!("more than {MAX_CALL_VALUES} values in all series");
            return Err(broken(emit::TOO_MANY, said));
        }
        received.series.push(series);
        Ok(())
    }

    /// Number of the first rule that was broken, if any; the sentence is kept.
    fn answer(&self, taken: Result<(), Broken>) -> i32 {
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
    // SAFETY (both): the header's promises for ctx and finding.
    let receiver = unsafe { Receiver::from(ctx) };
    receiver.answer(unsafe { receiver.finding(finding) })
}

unsafe extern "C" fn on_put_series(ctx: *mut c_void, series: *const raw::Series) -> i32 {
    // SAFETY (both): the header's promises for ctx and series.
    let receiver = unsafe { Receiver::from(ctx) };
    receiver.answer(unsafe { receiver.series(series) })
}

unsafe extern "C" fn on_find_series(
    ctx: *mut c_void,
    name: Str,
    channel: u32,
) -> *const raw::Series {
    // SAFETY: the header's promises for ctx and name.
    let (receiver, name) = unsafe {
        (
            Receiver::from(ctx),
            read::text(name, MAX_NAME_BYTES, "a series' name"),
        )
    };
    let is_it = |s: &&RawSeries<'_>| {
        Ok(s.series.name.as_str()) == name.as_deref() && s.raw.channel == channel
    };
    let found = receiver.earlier.iter().find(is_it);
    found.map_or(std::ptr::null(), |s| std::ptr::from_ref(&s.raw))
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
        (..=MAX_LOG_LINES, Err(e)) => receiver.events.log(severity::WARNING, &e),
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

unsafe extern "C" fn on_get_extension(_: *mut c_void, _: Str) -> *const c_void {
    std::ptr::null()
}
