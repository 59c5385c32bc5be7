//! The library's side of the C interface: what [`export!`](crate::export) expands to.

mod caller;
mod library;
mod receive;
mod send;

pub use library::{Entry, Library, Parts};

use crate::{Analyzer, Output, host};
use abi::raw;
use abi::status;
pub(crate) use caller::Caller;
use plugin_abi as abi;
use std::panic::{AssertUnwindSafe, catch_unwind};

/// Why a call ends without findings.
struct Stop {
    status: i32,
    reason: String,
}

/// The C function of one analyzer. Never unwinds: a panic is caught here, inside the library, because one that
/// leaves an `extern "C"` function ends the process.
///
/// # Safety
/// The rules of `analysis_plugin.h` for `analysis_analyzer.analyze`.
pub(crate) unsafe extern "C" fn analyze<A: Analyzer>(
    input: *const raw::Input,
    host: *const raw::Host,
) -> i32 {
    // SAFETY: the caller keeps the header's rules.
    let Ok(caller) = (unsafe { Caller::new(host) }) else {
        return status::BAD_INPUT;
    };
    // A panic leaves nothing half done that is used again: input and output die with the call.
    // SAFETY: the caller keeps the header's rules.
    let outcome = catch_unwind(AssertUnwindSafe(|| unsafe { call::<A>(input, &caller) }));
    match outcome {
        Ok(Ok(())) => status::OK,
        Ok(Err(stop)) => {
            caller.refuse(&stop.reason);
            stop.status
        }
        Err(payload) => {
            let text = payload.downcast_ref::<String>().map(String::as_str);
            let text = text.or_else(|| payload.downcast_ref::<&str>().copied());
            caller.refuse(&format!(
                "panicked: {}",
                text.unwrap_or("without a message")
            ));
            // The payload's own drop may panic, too.
            if let Err(second) = catch_unwind(AssertUnwindSafe(|| drop(payload))) {
                std::mem::forget(second);
            }
            status::PANICKED
        }
    }
}

/// # Safety
/// As for [`analyze`].
unsafe fn call<A: Analyzer>(input: *const raw::Input, caller: &Caller) -> Result<(), Stop> {
    // SAFETY: passed on.
    let input = unsafe { receive::input(input) }.map_err(|reason| Stop {
        status: status::BAD_INPUT,
        reason,
    })?;
    let mut out = Output::default();
    host::during(caller, || A::analyze(&input, &mut out)).map_err(|reason| Stop {
        status: if caller.is_cancelled() {
            status::CANCELLED
        } else {
            status::REFUSED
        },
        reason,
    })?;
    let failed = |reason| Stop {
        status: status::FAILED,
        reason,
    };
    for observation in &out.observations {
        send::observation(caller, observation).map_err(failed)?;
    }
    for series in &out.series {
        send::series(caller, series).map_err(failed)?;
    }
    Ok(())
}
