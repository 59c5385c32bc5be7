//! Runs one library, in a worker process or in this one.

use crate::process::{WorkerError, WorkerProcess};
use crate::session::Session;
use crate::shared_samples::SharedSamples;
use crate::wire::{Begin, Call, Described, Reply, Request};
use plugin_abi::call::{Events, Outcome};
use std::path::Path;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Runs one library.
pub(crate) enum Runner {
    Worker(WorkerProcess),
    InProcess(Box<Session>),
}

/// Needs of a library.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Need {
    /// Memory of its own, bytes.
    pub(crate) memory: u64,
    /// Samples that it maps besides, bytes.
    pub(crate) samples: u64,
    /// No process of its own.
    pub(crate) in_process: bool,
}

/// Time limit for a library to load and describe itself.
pub(crate) const SCAN_TIME: Duration = Duration::from_secs(20);
/// Time from cancellation to the kill.
const GRACE: Duration = Duration::from_millis(500);
/// Time limit for a worker to map a recording.
const HAND_OVER_TIME: Duration = Duration::from_secs(60);

impl Runner {
    pub(crate) fn start(library: &Path, need: Need) -> Result<Runner, WorkerError> {
        if need.in_process {
            return Ok(Runner::InProcess(Box::new(Session::load(library))));
        }
        let process = WorkerProcess::start(library, need.memory, need.samples, false, None);
        let process = process.map_err(|e| {
            WorkerError::Unreachable(format!("its worker process did not start: {e}"))
        })?;
        Ok(Runner::Worker(process))
    }

    /// True where it can be asked again.
    pub(crate) fn suffices(&mut self, need: Need) -> bool {
        match self {
            Runner::Worker(process) => process.suffices(need.samples),
            Runner::InProcess(_) => true,
        }
    }

    /// Begins to describe the library: several workers can do so at the same time.
    pub(crate) fn begin_describe(&mut self) -> Result<(), WorkerError> {
        match self {
            Runner::Worker(process) => process.tell(&Request::Describe, None, None),
            Runner::InProcess(_) => Ok(()),
        }
    }

    /// Returns the facts about the library, after `begin_describe`.
    pub(crate) fn end_describe(
        &mut self,
        until: Option<Instant>,
    ) -> Result<Described, WorkerError> {
        match self {
            Runner::InProcess(session) => Ok(Described {
                library: session.describe(),
                sandbox: None,
            }),
            Runner::Worker(process) => match process.hear(until)? {
                Reply::Described(described) => Ok(described),
                other => Err(confused(&other)),
            },
        }
    }

    /// Turns to a recording, or to a job.
    pub(crate) fn begin(
        &mut self,
        begin: Begin,
        samples: Option<&SharedSamples>,
    ) -> Result<(), WorkerError> {
        match self {
            Runner::Worker(process) => hand_over(process, begin, samples),
            Runner::InProcess(session) => {
                let fd = samples.map(|b| b.fd().try_clone_to_owned()).transpose();
                let fd = fd.map_err(|e| WorkerError::Unreachable(e.to_string()))?;
                session.begin(begin, fd).map_err(WorkerError::Unreachable)
            }
        }
    }

    /// Runs an analyzer on it.
    pub(crate) fn analyze(
        &mut self,
        call: Call,
        on_event: &mut (dyn FnMut(Reply) + Send),
    ) -> Result<Outcome, WorkerError> {
        match self {
            Runner::Worker(process) => {
                let timeout = Duration::from_millis(call.cancel_after_ms).saturating_add(GRACE);
                run_analyzer(process, call, timeout, on_event)
            }
            Runner::InProcess(session) => session
                .analyze(&call, &Direct(Mutex::new(on_event)))
                .map_err(WorkerError::Unreachable),
        }
    }
}

/// Has a worker turn to a recording, or to a job.
pub(crate) fn hand_over(
    process: &mut WorkerProcess,
    begin: Begin,
    samples: Option<&SharedSamples>,
) -> Result<(), WorkerError> {
    let request = Request::Begin(begin);
    let fd = samples.map(SharedSamples::fd);
    match process.ask(&request, fd, HAND_OVER_TIME, &mut |_| {})? {
        Reply::Begun => Ok(()),
        Reply::Failed(reason) => Err(WorkerError::Unreachable(reason)),
        other => Err(confused(&other)),
    }
}

/// Has a worker run an analyzer, and kills it when `timeout` is over.
pub(crate) fn run_analyzer(
    process: &mut WorkerProcess,
    call: Call,
    timeout: Duration,
    on_event: &mut dyn FnMut(Reply),
) -> Result<Outcome, WorkerError> {
    match process.ask(&Request::Analyze(call), None, timeout, on_event)? {
        Reply::Analyzed(outcome) => Ok(outcome),
        Reply::Failed(reason) => Err(WorkerError::Unreachable(reason)),
        other => Err(confused(&other)),
    }
}

fn confused(reply: &Reply) -> WorkerError {
    let what = match reply {
        Reply::Described(_) => "a description",
        Reply::Begun => "an acknowledgement",
        Reply::Analyzed(_) => "findings",
        Reply::Inspected => "an inspection",
        _ => "something else",
    };
    WorkerError::Unreachable(format!(
        "its worker process answered with {what} that was not asked for"
    ))
}

/// Log lines and progress without a process in between.
struct Direct<'a>(Mutex<&'a mut (dyn FnMut(Reply) + Send)>);

impl Direct<'_> {
    fn send(&self, reply: Reply) {
        (self.0.lock().unwrap_or_else(PoisonError::into_inner))(reply);
    }
}

impl Events for Direct<'_> {
    fn log(&self, severity: i32, text: &str) {
        self.send(Reply::Log {
            severity,
            text: text.into(),
        });
    }

    fn progress(&self, fraction: f64) {
        self.send(Reply::Progress(fraction));
    }
}
