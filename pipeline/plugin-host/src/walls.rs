//! What keeps a worker's plugins from the rest of the system: no file, no network, no other process. On Linux by
//! Landlock (which paths may be opened) and seccomp (which calls of the system may be made); elsewhere nothing does.

#[cfg(target_os = "linux")]
mod calls;
#[cfg(target_os = "linux")]
mod paths;

use serde::{Deserialize, Serialize};

/// Which walls stand around a worker's plugins on this system.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Walls {
    /// Landlock: while a library loads it sees only its own folder and the system's libraries, afterwards no path.
    pub paths: bool,
    /// Seccomp: no file is opened, no connection and no process made, whatever the call is named.
    pub calls: bool,
}

impl Walls {
    /// None at all.
    pub(crate) const NONE: Walls = Walls {
        paths: false,
        calls: false,
    };
}

impl std::fmt::Display for Walls {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match (self.paths, self.calls) {
            (true, true) => {
                "plugins reach no file, no network and no other process (Landlock and seccomp)"
            }
            (false, true) => {
                "plugins reach no network and no other process, and no file once they are loaded (seccomp; this \
                 kernel has no Landlock)"
            }
            (true, false) => {
                "plugins reach no file; this system does not keep them from the network or from starting \
                 processes (Landlock; no seccomp)"
            }
            (false, false) => {
                "nothing on this system keeps a plugin from files, the network or other processes: install only \
                 those whose makers you trust"
            }
        })
    }
}

/// A wall that ends the process of a plugin which runs against it, for the checks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Tripwire {
    Files,
    Network,
    Processes,
}

impl Tripwire {
    const ALL: [(Tripwire, &'static str); 3] = [
        (Tripwire::Files, "files"),
        (Tripwire::Network, "network"),
        (Tripwire::Processes, "processes"),
    ];

    pub(crate) fn name(self) -> &'static str {
        Tripwire::ALL
            .into_iter()
            .find(|(t, _)| *t == self)
            .map_or("", |(_, name)| name)
    }

    pub(crate) fn named(name: &str) -> Option<Tripwire> {
        let found = Tripwire::ALL.into_iter().find(|(_, n)| *n == name);
        found.map(|(t, _)| t)
    }
}

/// Raises the walls behind which a library at this path is loaded.
#[cfg(target_os = "linux")]
pub(crate) fn before_loading(library: &std::path::Path) -> Walls {
    Walls {
        paths: paths::only_libraries(library),
        calls: calls::allow(calls::Phase::Loading),
    }
}

/// Raises the walls behind which its plugins run, and the tripwire where one is asked for.
#[cfg(target_os = "linux")]
pub(crate) fn after_loading(stand: Walls, tripwire: Option<Tripwire>) -> Walls {
    Walls {
        paths: stand.paths && paths::none(),
        calls: stand.calls
            && tripwire.is_none_or(calls::set)
            && calls::allow(calls::Phase::Running),
    }
}

#[cfg(not(target_os = "linux"))]
pub(crate) fn before_loading(_: &std::path::Path) -> Walls {
    Walls::NONE
}

#[cfg(not(target_os = "linux"))]
pub(crate) fn after_loading(stand: Walls, _: Option<Tripwire>) -> Walls {
    stand
}
