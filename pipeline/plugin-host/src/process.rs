//! The host's side of a worker process: starting, asking, and ending it.

use crate::captured_output::CapturedOutput;
use crate::sandbox::KillRule;
use crate::wire::{MAX_FRAME, Reply, Request, receive, send};
use crate::worker::VERB;
use rustix::process::{Pid, Signal, WaitId, WaitIdOptions, kill_process_group, waitid};
use std::io::{self, PipeWriter};
use std::os::fd::{AsFd, BorrowedFd, OwnedFd};
use std::os::unix::net::UnixStream;
use std::os::unix::process::{CommandExt, ExitStatusExt};
use std::path::Path;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::time::{Duration, Instant};

/// Why a worker gave no answer.
#[derive(Debug)]
pub(crate) enum WorkerError {
    /// It ended: how, and what it wrote.
    Crashed { how: String, output: String },
    /// It used more memory than it may: what it wrote.
    OutOfMemory { output: String },
    /// It took too long and was ended: what it wrote.
    TimedOut { output: String },
    /// It could not be started or talked to.
    Unreachable(String),
}

/// A running worker. Dropping it kills its process group and waits for it.
pub(crate) struct WorkerProcess {
    child: Child,
    /// Its exit status, once collected; `None` within where the system does not tell.
    status: Option<Option<ExitStatus>>,
    /// Memory of its own that it may use, bytes.
    memory: u64,
    /// Samples that it may map besides, bytes.
    samples: u64,
    /// The worker is killed by the system once this end of the pipe is closed, with the host if need be.
    _lifeline: PipeWriter,
    socket: UnixStream,
    errors: CapturedOutput,
    /// Its standard output, where that is not joined with standard error.
    output: Option<CapturedOutput>,
}

/// Variables a worker keeps: what the dynamic loader needs. A plugin's result must not hang on any other.
const KEPT_VARIABLES: [&str; 2] = ["LD_LIBRARY_PATH", "DYLD_LIBRARY_PATH"];
/// Interval at which a waiting host looks at the clock and at the worker's memory.
const TICK: Duration = Duration::from_millis(200);
/// Extra time for an answer that has begun to arrive.
const LATEST: Duration = Duration::from_secs(5);
/// Samples that every worker may map, bytes.
const LEAST_SAMPLES: u64 = 64 << 20;
/// Log lines and notes of progress in answer to one request: the interface passes on 10,000 lines of a call. Who sends
/// more has taken the line to the host over.
const MOST_EVENTS: u32 = 20_000;
/// Time limit for the end of a worker that closed its socket.
const ENDING: Duration = Duration::from_secs(2);

impl WorkerProcess {
    /// Starts a worker for the library, with `memory` bytes of its own and room for `samples` bytes of a recording. With
    /// `split`, its standard output is kept apart; a `kill_rule` ends it when the library runs against it.
    pub(crate) fn start(
        library: &Path,
        memory: u64,
        samples: u64,
        split: bool,
        kill_rule: Option<KillRule>,
    ) -> io::Result<WorkerProcess> {
        // A little more than asked for: the next recording may be a little larger.
        let samples = samples.max(LEAST_SAMPLES).next_power_of_two();
        let (socket, theirs) = UnixStream::pair()?;
        let (errors, stderr) = io::pipe()?;
        let (output, stdout) = if split {
            let (reader, writer) = io::pipe()?;
            (Some(CapturedOutput::read(reader)?), writer)
        } else {
            (None, stderr.try_clone()?)
        };
        let mut command = Command::new(own_executable()?);
        command
            .arg(VERB)
            .arg(library)
            .arg(memory.to_string())
            .arg(samples.to_string())
            .args(kill_rule.map(KillRule::name))
            .env_clear()
            .envs(
                KEPT_VARIABLES
                    .iter()
                    .filter_map(|&v| Some((v, std::env::var_os(v)?))),
            )
            .current_dir("/")
            .stdin(Stdio::from(OwnedFd::from(theirs)))
            .stdout(stdout)
            .stderr(stderr)
            .process_group(0);
        let child = command.spawn()?;
        let (theirs, lifeline) = io::pipe()?;
        let process = WorkerProcess {
            child,
            status: None,
            memory,
            samples,
            _lifeline: lifeline,
            socket,
            errors: CapturedOutput::read(errors)?,
            output,
        };
        send(&process.socket, &Request::Lifeline, Some(theirs.as_fd()))?;
        Ok(process)
    }

    /// True while it runs and may map a recording of so many bytes. Only meaningful between two requests.
    pub(crate) fn suffices(&mut self, samples: u64) -> bool {
        samples <= self.samples && !self.has_ended()
    }

    /// True once it uses more memory than it may. The limits in force in the worker itself end what asks for too much at
    /// once; this sees what it maps and shares with itself.
    fn is_too_large(&self) -> bool {
        let most = self.memory.saturating_add(self.samples);
        memory_in_use(self.child.id()).is_some_and(|bytes| bytes > most)
    }

    /// Sends a request and returns the answer proper; what comes before it goes to `on_event`. After a [`WorkerError`]
    /// nothing more can be asked.
    pub(crate) fn ask(
        &mut self,
        request: &Request,
        with: Option<BorrowedFd<'_>>,
        timeout: Duration,
        on_event: &mut dyn FnMut(Reply),
    ) -> Result<Reply, WorkerError> {
        let until = Instant::now().checked_add(timeout);
        self.tell(request, with, until)?;
        let mut events = 0;
        loop {
            match self.hear(until)? {
                event @ (Reply::Log { .. } | Reply::Progress(_) | Reply::Checked(..)) => {
                    events += 1;
                    if events > MOST_EVENTS {
                        return Err(self.died(&io::Error::other("it sends without an end")));
                    }
                    on_event(event);
                    if until.is_some_and(|until| Instant::now() >= until) {
                        return Err(self.died(&io::ErrorKind::TimedOut.into()));
                    }
                }
                answer => return Ok(answer),
            }
        }
    }

    /// Sends a request without waiting for the answer.
    pub(crate) fn tell(
        &mut self,
        request: &Request,
        with: Option<BorrowedFd<'_>>,
        until: Option<Instant>,
    ) -> Result<(), WorkerError> {
        let sent = self
            .socket
            .set_write_timeout(until.map(left))
            .and_then(|()| send(&self.socket, request, with));
        sent.map_err(|e| self.died(&e))
    }

    /// Waits for the next message.
    pub(crate) fn hear(&mut self, until: Option<Instant>) -> Result<Reply, WorkerError> {
        let mut too_large = false;
        // No worker can hold a longer answer than its memory.
        let longest = u32::try_from(self.memory).map_or(MAX_FRAME, |m| m.min(MAX_FRAME));
        let received = receive(&self.socket, longest, &mut |in_vain| {
            too_large = in_vain && self.is_too_large();
            if too_large {
                return Err(io::ErrorKind::OutOfMemory.into());
            }
            let Some(until) = until else { return Ok(TICK) };
            // What has arrived is heard even when the host is late to listen, but not for ever.
            let late = Instant::now().checked_duration_since(until);
            match late {
                Some(late) if in_vain || late > LATEST => Err(io::ErrorKind::TimedOut.into()),
                _ => Ok(left(until).min(TICK)),
            }
        });
        match received {
            Ok(Some((reply, _))) => Ok(reply),
            Ok(None) => Err(self.died(&io::ErrorKind::UnexpectedEof.into())),
            Err(e) => Err(self.died(&e)),
        }
    }

    fn died(&mut self, error: &io::Error) -> WorkerError {
        use io::ErrorKind as Kind;
        match error.kind() {
            Kind::OutOfMemory => {
                self.kill();
                WorkerError::OutOfMemory {
                    output: self.errors.quoted(),
                }
            }
            Kind::WouldBlock | Kind::TimedOut => {
                self.kill();
                WorkerError::TimedOut {
                    output: self.errors.quoted(),
                }
            }
            Kind::UnexpectedEof | Kind::BrokenPipe | Kind::ConnectionReset => {
                let ended = self.wait(ENDING);
                let status = self.kill().filter(|_| ended);
                let output = self.errors.quoted();
                // What the allocator of a Rust library says before it aborts; and the system's own killer.
                let killed = status.and_then(|s| s.signal()) == Some(Signal::KILL.as_raw());
                if killed || output.contains("memory allocation of") {
                    return WorkerError::OutOfMemory { output };
                }
                let how = "it closed the line to the host";
                WorkerError::Crashed {
                    how: status.map_or_else(|| how.into(), how_it_ended),
                    output,
                }
            }
            _ => {
                self.kill();
                WorkerError::Unreachable(format!("its worker process cannot be talked to: {error}"))
            }
        }
    }

    /// Ends it in good order and returns what it wrote to a standard output of its own.
    pub(crate) fn end(mut self) -> Vec<u8> {
        let asked = self.tell(&Request::End, None, Instant::now().checked_add(ENDING));
        if asked.is_ok() {
            self.wait(ENDING);
        }
        self.kill();
        self.output
            .as_ref()
            .map(CapturedOutput::all)
            .unwrap_or_default()
    }

    /// Waits until it has ended of its own accord. True where it has.
    fn wait(&self, longest: Duration) -> bool {
        let start = Instant::now();
        while !self.has_ended() {
            if start.elapsed() >= longest {
                return false;
            }
            std::thread::sleep(Duration::from_millis(2));
        }
        true
    }

    fn id(&self) -> Option<Pid> {
        let id = i32::try_from(self.child.id()).ok();
        id.filter(|_| self.status.is_none()).and_then(Pid::from_raw)
    }

    /// True once it has ended. Its number stays its own until [`WorkerProcess::kill`] collects it: until then no other
    /// process or group can have that number and be killed in its stead.
    fn has_ended(&self) -> bool {
        let look = WaitIdOptions::EXITED | WaitIdOptions::NOHANG | WaitIdOptions::NOWAIT;
        self.id()
            .is_none_or(|id| !matches!(waitid(WaitId::Pid(id), look), Ok(None)))
    }

    /// Kills the group, which may outlive its leader.
    pub(crate) fn kill_group(&self) {
        if let Some(group) = self.id() {
            let _ = kill_process_group(group, Signal::KILL);
        }
    }

    /// Kills the group and collects its leader: how that ended, where the system tells.
    fn kill(&mut self) -> Option<ExitStatus> {
        self.kill_group();
        if self.status.is_none() {
            self.status = Some(self.child.wait().ok());
        }
        self.status.flatten()
    }
}

impl Drop for WorkerProcess {
    fn drop(&mut self) {
        self.kill();
    }
}

/// Time left, for a socket's timeout: never zero, which would mean for ever, so that an answer which has arrived is
/// heard even when it is late to listen.
fn left(until: Instant) -> Duration {
    let shortest = Duration::from_millis(1);
    until
        .saturating_duration_since(Instant::now())
        .max(shortest)
}

/// Memory of a process that no file on a disk stands behind, with the samples that it has mapped, bytes; `None` where
/// the system does not tell.
fn memory_in_use(pid: u32) -> Option<u64> {
    let status = std::fs::read_to_string(format!("/proc/{pid}/status")).ok()?;
    let kib = |name: &str| -> Option<u64> {
        let line = status.lines().find_map(|l| l.strip_prefix(name))?;
        line.trim().strip_suffix("kB")?.trim().parse().ok()
    };
    Some((kib("RssAnon:")? + kib("RssShmem:")?) * 1024)
}

/// On Linux the running image itself, even if its file was replaced meanwhile.
fn own_executable() -> io::Result<std::path::PathBuf> {
    if cfg!(target_os = "linux") {
        Ok("/proc/self/exe".into())
    } else {
        std::env::current_exe()
    }
}

fn how_it_ended(status: ExitStatus) -> String {
    let Some(number) = status.signal() else {
        return match status.code() {
            Some(code) => format!("it ended its process with exit code {code}"),
            None => "it ended its process".into(),
        };
    };
    let known = [
        (Signal::SEGV, "it used memory that is not its own (SIGSEGV)"),
        (Signal::BUS, "it used memory that is not its own (SIGBUS)"),
        (Signal::ABORT, "it aborted (SIGABRT)"),
        (Signal::ILL, "it ran an illegal instruction (SIGILL)"),
        (
            Signal::SYS,
            "it asked the system for what a plugin may not have (SIGSYS)",
        ),
        (Signal::FPE, "it made an arithmetic fault (SIGFPE)"),
        (
            Signal::XCPU,
            "it used more processor time than it may (SIGXCPU)",
        ),
        (
            Signal::KILL,
            "it was killed, perhaps because memory ran out (SIGKILL)",
        ),
    ];
    let name = known
        .iter()
        .find(|(s, _)| s.as_raw() == number)
        .map(|(_, text)| *text);
    name.map_or_else(|| format!("it was ended by signal {number}"), Into::into)
}
