//! The worker's side: the same executable, started again with a hidden verb, serving one library.

use crate::sandbox::{self, KillRule};
use crate::session::Session;
use crate::validate::inspect;
use crate::wire::{Described, MAX_FRAME, Reply, Request, receive, send};
use plugin_abi::call::Events;
use rustix::process::{Resource, Rlimit, setrlimit};
use std::ffi::OsStr;
use std::io;
use std::os::fd::{AsFd, OwnedFd};
use std::os::unix::net::UnixStream;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::{Mutex, PoisonError};
use std::time::Duration;

/// The first argument of a worker, followed by the library's path, the memory of its own and the samples that it may
/// have in bytes and, for checks, the name of a kill rule.
pub(crate) const VERB: &str = "plugin-worker";

/// Serves a library, where this process was started as a worker, until the host is done, and returns its exit code,
/// which `main` returns. `None` in any other process. To be called first thing in `main`, before anything is loaded,
/// opened or started.
pub fn worker_entry() -> Option<ExitCode> {
    let mut args = std::env::args_os().skip(1);
    if args.next()? != OsStr::new(VERB) {
        return None;
    }
    let library = PathBuf::from(args.next()?);
    let mut bytes = || args.next()?.to_str()?.parse::<u64>().ok();
    let memory = Memory {
        own: bytes()?,
        samples: bytes()?,
    };
    let kill_rule = args.next().and_then(|a| KillRule::named(a.to_str()?));
    Some(match serve(&library, memory, kill_rule) {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) => {
            eprintln!("plugin worker: {e}");
            ExitCode::FAILURE
        }
    })
}

/// Memory that this process may have besides its executable, bytes.
#[derive(Clone, Copy)]
struct Memory {
    own: u64,
    samples: u64,
}

/// Address space that allocators and threads reserve and do not use, bytes.
const RESERVED: u64 = 256 << 20;

fn serve(library: &Path, memory: Memory, kill_rule: Option<KillRule>) -> io::Result<()> {
    let socket = take_socket()?;
    let Some(lifeline) = lifeline(&socket)? else {
        return Ok(());
    };
    limit(Resource::Core, 0)?;
    limit(Resource::Fsize, 0)?;
    // What is written to, and everything that is mapped.
    limit(Resource::Data, memory.own)?;
    let mapped = [memory.own, memory.samples, RESERVED].into_iter();
    limit(Resource::As, mapped.fold(mapped_now(), u64::saturating_add))?;
    // No thread but this one may exist before the sandbox stands: what it starts later is confined as it is.
    if !sandbox::is_alone() {
        return Err(io::Error::other(
            "another thread runs already, which nothing would confine: call worker_entry first in main",
        ));
    }
    let confined = sandbox::before_loading(library, lifeline.as_fd(), kill_rule);
    #[cfg(not(target_os = "linux"))]
    die_with_the_host(socket.try_clone()?)?;
    let mut session = Session::load(library);
    let confined = sandbox::after_loading(confined, lifeline.as_fd(), kill_rule);
    while let Some((request, fd)) = receive(&socket, MAX_FRAME, &mut forever)? {
        let reply = match request {
            Request::Lifeline => continue,
            Request::Describe => Reply::Described(Described {
                library: session.describe(),
                sandbox: Some(confined),
            }),
            Request::Inspect => {
                inspect(&session, &mut |check, verdict| {
                    send(&socket, &Reply::Checked(check, verdict), None)
                })?;
                Reply::Inspected
            }
            Request::Begin(begin) => session
                .begin(begin, fd)
                .map_or_else(Reply::Failed, |()| Reply::Begun),
            Request::Analyze(call) => session
                .analyze(&call, &Line(Mutex::new(&socket)))
                .map_or_else(Reply::Failed, Reply::Analyzed),
            Request::End => break,
        };
        send(&socket, &reply, None)?;
    }
    Ok(())
}

/// The host ends a worker that takes too long.
fn forever(_: bool) -> io::Result<Duration> {
    Ok(Duration::MAX)
}

/// The host hands over the socket as standard input. It moves out of the library's way, standard input becomes empty,
/// and whatever else this process may have inherited is closed. Standard output was made the same as standard error,
/// or a pipe of its own, by the host.
fn take_socket() -> io::Result<UnixStream> {
    sandbox::close_from(3)?;
    let socket = rustix::io::fcntl_dupfd_cloexec(rustix::stdio::stdin(), 3)?;
    let nothing = std::fs::File::open("/dev/null")?;
    rustix::stdio::dup2_stdin(nothing.as_fd())?;
    Ok(UnixStream::from(socket))
}

/// The pipe whose other end the host holds; `None` when the host is gone already.
fn lifeline(socket: &UnixStream) -> io::Result<Option<OwnedFd>> {
    match receive(socket, MAX_FRAME, &mut forever)? {
        Some((Request::Lifeline, Some(lifeline))) => {
            sandbox::die_with(lifeline.as_fd())?;
            Ok(Some(lifeline))
        }
        Some(_) => Err(io::Error::other("the host did not introduce itself")),
        None => Ok(None),
    }
}

/// Ends this process, and all that a library may have started in its group, once the host is gone, even while an
/// analyzer is in an endless loop.
#[cfg(not(target_os = "linux"))]
fn die_with_the_host(socket: UnixStream) -> io::Result<()> {
    use rustix::event::{PollFd, PollFlags, poll};
    let watch = move || {
        let end = PollFlags::HUP | PollFlags::ERR | PollFlags::NVAL;
        let mut fds = [PollFd::new(&socket, PollFlags::HUP)];
        while !fds[0].revents().intersects(end) {
            let _interrupted = poll(&mut fds, None);
        }
        let _ = rustix::process::kill_current_process_group(rustix::process::Signal::KILL);
    };
    std::thread::Builder::new()
        .stack_size(64 * 1024)
        .name("host watch".into())
        .spawn(watch)?;
    Ok(())
}

/// Address space of this process at its start, bytes: mostly the executable.
fn mapped_now() -> u64 {
    let pages = std::fs::read_to_string("/proc/self/statm").unwrap_or_default();
    let pages = pages.split_whitespace().next().and_then(|p| p.parse().ok());
    // Where the system does not tell, as much as any executable.
    pages.map_or(4 << 30, |pages: u64| {
        pages.saturating_mul(rustix::param::page_size() as u64)
    })
}

/// Sets a limit, soft and hard, as far as the hard one in force lets it.
fn limit(resource: Resource, value: u64) -> io::Result<()> {
    let maximum = rustix::process::getrlimit(resource).maximum;
    let value = maximum.map_or(value, |m| value.min(m));
    Ok(setrlimit(
        resource,
        Rlimit {
            current: Some(value),
            maximum: Some(value),
        },
    )?)
}

/// Sends log lines and progress, whole frames at a time, from whatever thread.
struct Line<'a>(Mutex<&'a UnixStream>);

impl Line<'_> {
    fn send(&self, reply: &Reply) {
        let socket = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        // A host that has gone away ends this process.
        let _ = send(&socket, reply, None);
    }
}

impl Events for Line<'_> {
    fn log(&self, severity: i32, text: &str) {
        self.send(&Reply::Log {
            severity,
            text: text.into(),
        });
    }

    fn progress(&self, fraction: f64) {
        self.send(&Reply::Progress(fraction));
    }
}
