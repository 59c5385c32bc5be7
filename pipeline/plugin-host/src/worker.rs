//! The worker's side: the same executable, started again with a hidden verb, serving one library.

use crate::call::Events;
use crate::check::inspect;
use crate::session::Session;
use crate::walls::{self, Tripwire};
use crate::wire::{Bits, Call, Described, Reply, Request, receive, send};
use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};
use std::ffi::OsStr;
use std::io;
use std::os::fd::{AsFd, OwnedFd};
use std::os::unix::net::UnixStream;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::{Mutex, PoisonError};

/// The first argument of a worker, followed by the library's path, its memory limit in bytes and, for checks, the name
/// of a tripwire.
pub(crate) const VERB: &str = "plugin-worker";

/// To be called first thing in `main`, before anything is loaded, opened or started: when this process was
/// started as a worker it serves its library until the host is done and returns its exit code, which `main`
/// returns. `None` in any other process.
pub fn worker_entry() -> Option<ExitCode> {
    let mut args = std::env::args_os().skip(1);
    if args.next()? != OsStr::new(VERB) {
        return None;
    }
    let library = PathBuf::from(args.next()?);
    let memory: u64 = args.next()?.to_str()?.parse().ok()?;
    let tripwire = args.next().and_then(|a| Tripwire::named(a.to_str()?));
    Some(match serve(&library, memory, tripwire) {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) => {
            eprintln!("plugin worker: {e}");
            ExitCode::FAILURE
        }
    })
}

fn serve(library: &Path, memory: u64, tripwire: Option<Tripwire>) -> io::Result<()> {
    let socket = take_socket()?;
    die_with_the_host(socket.try_clone()?)?;
    limit(Resource::Core, 0)?;
    limit(Resource::As, memory)?;
    // The clock is found by reading a file at its first use, which must not come behind the walls.
    processor_time_used();
    let walls = walls::before_loading(library);
    let mut session = Session::load(library);
    let walls = walls::after_loading(walls, tripwire);
    while let Some((request, fd)) = receive(&socket)? {
        let reply = match request {
            Request::Describe => Reply::Described(Described {
                plugins: session.describe(),
                walls: Some(walls),
            }),
            Request::Inspect => {
                inspect(&session, &mut |check, verdict| {
                    send(&socket, &Reply::Checked(check, verdict), None)
                })?;
                Reply::Inspected
            }
            Request::Analyze(call) => analyze(&mut session, &socket, &call, fd, memory)?,
            Request::End => break,
        };
        send(&socket, &reply, None)?;
    }
    Ok(())
}

fn analyze(
    session: &mut Session,
    socket: &UnixStream,
    call: &Call,
    fd: Option<OwnedFd>,
    memory: u64,
) -> io::Result<Reply> {
    // The samples are mapped into the address space, and are not the plugin's own use of it.
    limit(Resource::As, memory.saturating_add(call.blob_len))?;
    limit(
        Resource::Cpu,
        processor_time_used().saturating_add(call.processor_s),
    )?;
    let outcome = session.analyze(call, fd, &Line(Mutex::new(socket)));
    Ok(outcome.map_or_else(Reply::Failed, Reply::Analyzed))
}

/// Processor time that this process has used, s.
fn processor_time_used() -> u64 {
    let used = rustix::time::clock_gettime(rustix::time::ClockId::ProcessCPUTime);
    u64::try_from(used.tv_sec).unwrap_or(0)
}

/// The host hands over the socket as standard input. It moves out of the plugins' way, and standard input becomes
/// empty. Standard output was made the same as standard error, or a pipe of its own, by the host.
fn take_socket() -> io::Result<UnixStream> {
    let socket = rustix::io::fcntl_dupfd_cloexec(rustix::stdio::stdin(), 3)?;
    let nothing = std::fs::File::open("/dev/null")?;
    rustix::stdio::dup2_stdin(nothing.as_fd())?;
    Ok(UnixStream::from(socket))
}

/// Ends this process, and all that a plugin may have started in its group, once the host is gone, even while a
/// plugin is in an endless loop. (The kernel's parent-death signal would do it, too, but fires already when the
/// host's *thread* that started the worker ends.)
fn die_with_the_host(socket: UnixStream) -> io::Result<()> {
    use rustix::event::{PollFd, PollFlags, poll};
    #[cfg(target_os = "linux")]
    const GONE: PollFlags = PollFlags::RDHUP;
    #[cfg(not(target_os = "linux"))]
    const GONE: PollFlags = PollFlags::HUP;
    let watch = move || {
        let end = PollFlags::HUP | PollFlags::ERR | PollFlags::NVAL | GONE;
        let mut fds = [PollFd::new(&socket, GONE)];
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

/// Sets a soft limit, as far as the hard one lets it.
fn limit(resource: Resource, value: u64) -> io::Result<()> {
    let maximum = getrlimit(resource).maximum;
    let current = maximum.map_or(value, |m| value.min(m));
    Ok(setrlimit(
        resource,
        Rlimit {
            current: Some(current),
            maximum,
        },
    )?)
}

/// Sends log lines and progress, whole frames at a time, from whatever thread.
struct Line<'a>(Mutex<&'a UnixStream>);

impl Line<'_> {
    fn send(&self, reply: &Reply) {
        let socket = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        // A host that has gone away is noticed by the watch.
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
        self.send(&Reply::Progress(Bits::from(fraction)));
    }
}
