//! Sandbox of a worker's library: no file, no network, no other process. On Linux by
//! Landlock (which paths may be opened) and seccomp (which calls of the system may be made); elsewhere nothing does.

#[cfg(target_os = "linux")]
mod landlock;
#[cfg(target_os = "linux")]
mod seccomp;

use serde::{Deserialize, Serialize};
use std::io;
use std::os::fd::{AsRawFd, BorrowedFd};

/// Confinement of the workers' libraries on this system.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sandbox {
    /// Landlock: while a library loads it sees only its own folder and the system's libraries, afterwards no path.
    pub paths: Landlock,
    /// Seccomp: no file is opened, no connection and no process made, whatever the call is named.
    pub calls: bool,
}

/// Extent of Landlock in the running kernel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Landlock {
    /// Everything that is asked for: paths, network addresses, signals and sockets of other processes.
    Full,
    /// Paths, but not all of the rest.
    Partial,
    /// Nothing.
    Absent,
}

impl Sandbox {
    /// Nothing confines them.
    pub(crate) const NONE: Sandbox = Sandbox {
        paths: Landlock::Absent,
        calls: false,
    };
}

impl std::fmt::Display for Sandbox {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let calls = match self.calls {
            true => {
                "seccomp: plugins open no file once they are loaded, no connection and no other process"
            }
            false => {
                "no seccomp on this system: nothing keeps plugins from connections or from starting processes"
            }
        };
        let paths = match self.paths {
            Landlock::Full => {
                "Landlock: while they load they read their own folder and the system's libraries, afterwards nothing"
            }
            Landlock::Partial => {
                "Landlock in part: while they load they read their own folder and the system's libraries, afterwards \
                 nothing; this kernel's version does not keep them from network addresses or other processes' signals"
            }
            Landlock::Absent => {
                "this kernel has no Landlock: while a plugin loads it may read every file that you may"
            }
        };
        if *self == Sandbox::NONE {
            return f.write_str(
                "nothing on this system keeps a plugin from files, the network or other processes: install only \
                 those whose makers you trust",
            );
        }
        write!(f, "{calls}; {paths}")
    }
}

/// A rule that kills the process of a library which breaks it, for the checks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum KillRule {
    Files,
    Network,
    Processes,
    Signals,
    Limits,
}

impl KillRule {
    const ALL: [(KillRule, &'static str); 5] = [
        (KillRule::Files, "files"),
        (KillRule::Network, "network"),
        (KillRule::Processes, "processes"),
        (KillRule::Signals, "signals"),
        (KillRule::Limits, "limits"),
    ];

    pub(crate) fn name(self) -> &'static str {
        KillRule::ALL
            .into_iter()
            .find(|(t, _)| *t == self)
            .map_or("", |(_, name)| name)
    }

    pub(crate) fn named(name: &str) -> Option<KillRule> {
        let found = KillRule::ALL.into_iter().find(|(_, n)| *n == name);
        found.map(|(t, _)| t)
    }
}

/// Confines this process, which has no other thread, before it loads a library at this path; with a rule that kills it
/// where one is asked for.
#[cfg(target_os = "linux")]
pub(crate) fn before_loading(
    library: &std::path::Path,
    lifeline: BorrowedFd<'_>,
    kill_rule: Option<KillRule>,
) -> Sandbox {
    Sandbox {
        paths: landlock::only_libraries(library),
        calls: seccomp::confine(seccomp::Phase::Loading, lifeline, kill_rule),
    }
}

/// Confines this process, and every thread that the library started, before its analyzers run; with a rule that kills
/// it where one is asked for.
#[cfg(target_os = "linux")]
pub(crate) fn after_loading(
    confined: Sandbox,
    lifeline: BorrowedFd<'_>,
    kill_rule: Option<KillRule>,
) -> Sandbox {
    Sandbox {
        paths: match confined.paths {
            Landlock::Absent => Landlock::Absent,
            _ => landlock::none(),
        },
        calls: confined.calls && seccomp::confine(seccomp::Phase::Running, lifeline, kill_rule),
    }
}

/// Has the system kill this process group once the other end of the pipe is closed. No thread is needed for it. (The
/// kernel's parent-death signal would fire already when the host's *thread* that started the worker ends.)
#[cfg(target_os = "linux")]
pub(crate) fn die_with(lifeline: BorrowedFd<'_>) -> io::Result<()> {
    use rustix::event::{PollFd, PollFlags, Timespec, poll};
    /// <linux/fcntl.h>, `asm-generic`: which signal is sent instead of SIGIO.
    const F_SETSIG: i32 = 10;
    let fd = lifeline.as_raw_fd();
    let group = -rustix::process::getpgrp().as_raw_nonzero().get();
    for (command, value) in [
        (libc::F_SETOWN, group),
        (F_SETSIG, libc::SIGKILL),
        (libc::F_SETFL, libc::O_ASYNC),
    ] {
        // SAFETY: changes flags of an open descriptor, with an integer as its argument.
        if unsafe { libc::fcntl(fd, command, value) } == -1 {
            return Err(io::Error::last_os_error());
        }
    }
    // It may have been closed before.
    let mut fds = [PollFd::new(&lifeline, PollFlags::IN)];
    let ready = poll(
        &mut fds,
        Some(&Timespec {
            tv_sec: 0,
            tv_nsec: 0,
        }),
    )?;
    match ready {
        0 => Ok(()),
        _ => Err(io::Error::other("the host is gone")),
    }
}

/// True where this process has one thread, as far as the system tells.
#[cfg(target_os = "linux")]
pub(crate) fn is_alone() -> bool {
    std::fs::read_dir("/proc/self/task").map_or(true, |tasks| tasks.count() == 1)
}

#[cfg(not(target_os = "linux"))]
pub(crate) fn is_alone() -> bool {
    true
}

/// Closes every descriptor from this number on.
///
/// # Errors
/// When the system does not list them.
#[cfg(target_os = "linux")]
pub(crate) fn close_from(first: i32) -> io::Result<()> {
    // SAFETY: nothing of this process is open there yet.
    if unsafe { libc::syscall(libc::SYS_close_range, first, u32::MAX, 0) } == 0 {
        return Ok(());
    }
    // Kernels before 5.9 have no such call.
    let listed = std::fs::read_dir("/proc/self/fd")?;
    let numbers = listed.filter_map(|entry| entry.ok()?.file_name().to_str()?.parse().ok());
    let open: Vec<i32> = numbers.filter(|&fd| fd >= first).collect();
    for fd in open {
        // SAFETY: nothing of this process is open there yet; the one that listed them is closed already.
        unsafe { libc::close(fd) };
    }
    Ok(())
}

#[cfg(not(target_os = "linux"))]
pub(crate) fn before_loading(
    _: &std::path::Path,
    _: BorrowedFd<'_>,
    _: Option<KillRule>,
) -> Sandbox {
    Sandbox::NONE
}

#[cfg(not(target_os = "linux"))]
pub(crate) fn after_loading(confined: Sandbox, _: BorrowedFd<'_>, _: Option<KillRule>) -> Sandbox {
    confined
}

#[cfg(not(target_os = "linux"))]
pub(crate) fn die_with(_: BorrowedFd<'_>) -> io::Result<()> {
    Ok(())
}

#[cfg(not(target_os = "linux"))]
pub(crate) fn close_from(_: i32) -> io::Result<()> {
    Ok(())
}
