//! The host's side of a worker process: starting, asking, and ending it.

use crate::noise::Noise;
use crate::walls::Tripwire;
use crate::wire::{Reply, Request, receive, send};
use crate::worker::VERB;
use rustix::process::{Pid, Signal, kill_process_group};
use std::io;
use std::os::fd::{BorrowedFd, OwnedFd};
use std::os::unix::net::UnixStream;
use std::os::unix::process::{CommandExt, ExitStatusExt};
use std::path::Path;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::time::{Duration, Instant};

/// Why a worker gave no answer.
#[derive(Debug)]
pub(crate) enum Death {
    /// It ended: how, and what it wrote.
    Crashed { how: String, noise: String },
    /// It took too long and was ended: what it wrote.
    TimedOut { noise: String },
    /// It could not be started or talked to.
    Unreachable(String),
}

/// A running worker. Dropping it kills its process group and waits for it.
pub(crate) struct Process {
    child: Child,
    socket: UnixStream,
    errors: Noise,
    /// What it writes to standard output, where that is not joined with standard error.
    output: Option<Noise>,
}

/// Variables a worker keeps: what the dynamic loader needs. A plugin's result must not hang on any other.
const KEPT_VARIABLES: [&str; 2] = ["LD_LIBRARY_PATH", "DYLD_LIBRARY_PATH"];
/// How long a worker that closed its socket may take to end.
const ENDING: Duration = Duration::from_secs(2);

impl Process {
    /// Starts a worker for the library. With `split`, its standard output is kept apart; a `tripwire` ends it when a
    /// plugin runs against it.
    pub(crate) fn start(
        library: &Path,
        memory: u64,
        split: bool,
        tripwire: Option<Tripwire>,
    ) -> io::Result<Process> {
        let (socket, theirs) = UnixStream::pair()?;
        let (errors, stderr) = io::pipe()?;
        let (output, stdout) = if split {
            let (reader, writer) = io::pipe()?;
            (Some(Noise::read(reader)?), writer)
        } else {
            (None, stderr.try_clone()?)
        };
        let mut command = Command::new(own_executable()?);
        command
            .arg(VERB)
            .arg(library)
            .arg(memory.to_string())
            .args(tripwire.map(Tripwire::name))
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
        Ok(Process {
            child,
            socket,
            errors: Noise::read(errors)?,
            output,
        })
    }

    /// Whether it still runs. Only meaningful between two requests.
    pub(crate) fn is_running(&mut self) -> bool {
        matches!(self.child.try_wait(), Ok(None))
    }

    /// Sends a request and returns the answer proper; what comes before it goes to `on_event`. After a [`Death`]
    /// nothing more can be asked.
    pub(crate) fn ask(
        &mut self,
        request: &Request,
        with: Option<BorrowedFd<'_>>,
        patience: Duration,
        on_event: &mut dyn FnMut(Reply),
    ) -> Result<Reply, Death> {
        let until = Instant::now().checked_add(patience);
        self.tell(request, with, until)?;
        loop {
            match self.hear(until)? {
                event @ (Reply::Log { .. } | Reply::Progress(_) | Reply::Checked(..)) => {
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
    ) -> Result<(), Death> {
        let sent = self
            .socket
            .set_write_timeout(left(until))
            .and_then(|()| send(&self.socket, request, with));
        sent.map_err(|e| self.died(&e))
    }

    /// Waits for the next message.
    pub(crate) fn hear(&mut self, until: Option<Instant>) -> Result<Reply, Death> {
        let received = self
            .socket
            .set_read_timeout(left(until))
            .and_then(|()| receive(&self.socket));
        match received {
            Ok(Some((reply, _))) => Ok(reply),
            Ok(None) => Err(self.died(&io::ErrorKind::UnexpectedEof.into())),
            Err(e) => Err(self.died(&e)),
        }
    }

    fn died(&mut self, error: &io::Error) -> Death {
        use io::ErrorKind as Kind;
        match error.kind() {
            Kind::WouldBlock | Kind::TimedOut => {
                self.kill();
                Death::TimedOut {
                    noise: self.errors.quoted(),
                }
            }
            Kind::UnexpectedEof | Kind::BrokenPipe | Kind::ConnectionReset => {
                let how = self
                    .wait(ENDING)
                    .map_or_else(|| "it closed the line to the host".into(), how_it_ended);
                self.kill();
                Death::Crashed {
                    how,
                    noise: self.errors.quoted(),
                }
            }
            _ => {
                self.kill();
                Death::Unreachable(format!("its worker process cannot be talked to: {error}"))
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
        self.output.as_ref().map(Noise::all).unwrap_or_default()
    }

    fn wait(&mut self, longest: Duration) -> Option<ExitStatus> {
        let start = Instant::now();
        loop {
            match self.child.try_wait() {
                Ok(Some(status)) => return Some(status),
                Ok(None) if start.elapsed() < longest => {
                    std::thread::sleep(Duration::from_millis(2));
                }
                _ => return None,
            }
        }
    }

    /// Kills the group, which may outlive its leader.
    pub(crate) fn kill_group(&self) {
        if let Some(group) = i32::try_from(self.child.id()).ok().and_then(Pid::from_raw) {
            let _ = kill_process_group(group, Signal::KILL);
        }
    }

    fn kill(&mut self) {
        self.kill_group();
        let _ = self.child.wait();
    }
}

impl Drop for Process {
    fn drop(&mut self) {
        self.kill();
    }
}

/// Time left, for a socket's timeout: never zero, which would mean for ever, so that an answer which has arrived is
/// heard even when it is late to listen. `None` for no end.
fn left(until: Option<Instant>) -> Option<Duration> {
    let shortest = Duration::from_millis(1);
    until.map(|until| {
        until
            .saturating_duration_since(Instant::now())
            .max(shortest)
    })
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
