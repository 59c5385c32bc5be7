//! Runs one library, in a worker process or in this one.

use crate::blob::Blob;
use crate::call::Events;
use crate::process::{Death, Process};
use crate::session::Session;
use crate::wire::{Bits, Call, Described, Outcome, Reply, Request};
use std::path::Path;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Runs one library.
pub(crate) enum Runner {
    Worker(Process),
    InProcess(Session),
}

/// How long a library may take to load and describe itself.
pub(crate) const SCAN_TIME: Duration = Duration::from_secs(20);
/// How long after its cancellation a plugin may take to come back before it is killed.
const GRACE: Duration = Duration::from_millis(500);

impl Runner {
    pub(crate) fn start(library: &Path, memory: u64, in_process: bool) -> Result<Runner, Death> {
        if in_process {
            return Ok(Runner::InProcess(Session::load(library)));
        }
        let process = Process::start(library, memory, false, None);
        let process = process
            .map_err(|e| Death::Unreachable(format!("its worker process did not start: {e}")))?;
        Ok(Runner::Worker(process))
    }

    /// Whether it can be asked again.
    pub(crate) fn is_running(&mut self) -> bool {
        match self {
            Runner::Worker(process) => process.is_running(),
            Runner::InProcess(_) => true,
        }
    }

    /// Begins to describe the library: several workers can do so at the same time.
    pub(crate) fn begin_describe(&mut self) -> Result<(), Death> {
        match self {
            Runner::Worker(process) => process.tell(&Request::Describe, None, None),
            Runner::InProcess(_) => Ok(()),
        }
    }

    /// What is known of the library, after `begin_describe`.
    pub(crate) fn end_describe(&mut self, until: Option<Instant>) -> Result<Described, Death> {
        match self {
            Runner::InProcess(session) => Ok(Described {
                plugins: session.describe(),
                walls: None,
            }),
            Runner::Worker(process) => match process.hear(until)? {
                Reply::Described(described) => Ok(described),
                other => Err(confused(&other)),
            },
        }
    }

    /// Runs a plugin.
    pub(crate) fn analyze(
        &mut self,
        call: Call,
        blob: Option<&Blob>,
        on_event: &mut (dyn FnMut(Reply) + Send),
    ) -> Result<Outcome, Death> {
        match self {
            Runner::Worker(process) => {
                let patience = Duration::from_millis(call.cancel_after_ms).saturating_add(GRACE);
                ask_to_analyze(process, call, blob, patience, on_event)
            }
            Runner::InProcess(session) => {
                let fd = blob.map(|b| b.fd().try_clone_to_owned()).transpose();
                let fd = fd.map_err(|e| Death::Unreachable(e.to_string()))?;
                session
                    .analyze(&call, fd, &Direct(Mutex::new(on_event)))
                    .map_err(Death::Unreachable)
            }
        }
    }
}

/// Has a worker run a plugin, and kills it when `patience` is over.
pub(crate) fn ask_to_analyze(
    process: &mut Process,
    call: Call,
    blob: Option<&Blob>,
    patience: Duration,
    on_event: &mut dyn FnMut(Reply),
) -> Result<Outcome, Death> {
    match process.ask(
        &Request::Analyze(call),
        blob.map(Blob::fd),
        patience,
        on_event,
    )? {
        Reply::Analyzed(outcome) => Ok(outcome),
        Reply::Failed(reason) => Err(Death::Unreachable(reason)),
        other => Err(confused(&other)),
    }
}

fn confused(reply: &Reply) -> Death {
    let what = match reply {
        Reply::Described(_) => "a description",
        Reply::Analyzed(_) => "findings",
        Reply::Inspected => "an inspection",
        _ => "something else",
    };
    Death::Unreachable(format!(
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
        self.send(Reply::Progress(Bits::from(fraction)));
    }
}
