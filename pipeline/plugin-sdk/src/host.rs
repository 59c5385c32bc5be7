//! Requests of an analyzer to the host that runs it, from the thread on which it was called. Outside of a
//! call, and on other threads, these do nothing and nobody has cancelled.

use crate::Series;
use crate::ffi::Caller;
use plugin_abi::severity;
use std::cell::Cell;
use std::ptr::NonNull;

/// Severity of a log line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Severity {
    /// For developers.
    Debug,
    /// Worth knowing.
    Info,
    /// The result may be poorer for it.
    Warning,
    /// Something went wrong.
    Error,
}

/// Writes a line to the host's log.
pub fn log(how: Severity, text: &str) {
    let number = match how {
        Severity::Debug => severity::DEBUG,
        Severity::Info => severity::INFO,
        Severity::Warning => severity::WARNING,
        Severity::Error => severity::ERROR,
    };
    with_caller(|c| c.log(number, text));
}

/// Says how much of the call is done, 0 to 1.
pub fn progress(fraction: f64) {
    with_caller(|c| c.progress(fraction));
}

/// True once the result is no longer wanted. A loop over many samples asks at least every 50 ms and then returns an
/// error; an analyzer that does not is ended together with its process.
pub fn is_cancelled() -> bool {
    with_caller(Caller::is_cancelled).unwrap_or(false)
}

/// A copy of the series that an earlier analyzer handed on; see [`Input::series`](crate::Input::series).
pub(crate) fn series(name: &str, channel: Option<usize>) -> Option<Series> {
    with_caller(|c| c.series(name, channel)).flatten()
}

thread_local! {
    static CURRENT: Cell<Option<NonNull<Caller>>> = const { Cell::new(None) };
}

fn with_caller<T>(f: impl FnOnce(&Caller) -> T) -> Option<T> {
    // SAFETY: `during` sets the pointer to a reference that it holds, and takes it away before it lets go.
    CURRENT.get().map(|caller| f(unsafe { caller.as_ref() }))
}

/// Runs `f` with `caller` as what the functions above talk to.
pub(crate) fn during<T>(caller: &Caller, f: impl FnOnce() -> T) -> T {
    struct Restore(Option<NonNull<Caller>>);
    impl Drop for Restore {
        fn drop(&mut self) {
            CURRENT.set(self.0);
        }
    }
    let _restore = Restore(CURRENT.replace(Some(NonNull::from(caller))));
    f()
}
