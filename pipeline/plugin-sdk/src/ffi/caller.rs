//! The host's functions for one call, checked once.

use crate::Series;
use abi::call::RawSeries;
use abi::raw::{self, Finding, Host};
use abi::{NO_CHANNEL, Str, read};
use plugin_abi as abi;
use std::ffi::c_void;

/// The host's functions for one call.
pub(crate) struct Caller {
    ctx: *mut c_void,
    emit: unsafe extern "C" fn(*mut c_void, *const Finding) -> i32,
    put_series: unsafe extern "C" fn(*mut c_void, *const raw::Series) -> i32,
    find_series: unsafe extern "C" fn(*mut c_void, Str, u32) -> *const raw::Series,
    refuse: unsafe extern "C" fn(*mut c_void, Str),
    log: unsafe extern "C" fn(*mut c_void, i32, Str),
    progress: unsafe extern "C" fn(*mut c_void, f64),
    is_cancelled: unsafe extern "C" fn(*mut c_void) -> i32,
}

impl Caller {
    /// Takes over the host's table. The result must not outlive the call it was made for.
    ///
    /// # Safety
    /// `host` keeps the rules of `analysis_plugin.h` until the call returns.
    pub(crate) unsafe fn new(host: *const Host) -> Result<Caller, String> {
        // SAFETY: the caller's promise.
        let host = unsafe { read::sized(host)? };
        let missing = || "analysis_host lacks a function".to_string();
        Ok(Caller {
            ctx: host.ctx,
            emit: host.emit.ok_or_else(missing)?,
            put_series: host.put_series.ok_or_else(missing)?,
            find_series: host.find_series.ok_or_else(missing)?,
            refuse: host.refuse.ok_or_else(missing)?,
            log: host.log.ok_or_else(missing)?,
            progress: host.progress.ok_or_else(missing)?,
            is_cancelled: host.is_cancelled.ok_or_else(missing)?,
        })
    }

    pub(crate) fn emit(&self, finding: &Finding) -> i32 {
        // SAFETY: `new`'s promise; the finding is borrowed for the call.
        unsafe { (self.emit)(self.ctx, finding) }
    }

    pub(crate) fn put(&self, series: &Series) -> i32 {
        let series = RawSeries::new(series);
        // SAFETY: as above.
        unsafe { (self.put_series)(self.ctx, series.raw()) }
    }

    /// A copy of an earlier analyzer's series.
    pub(crate) fn series(&self, name: &str, channel: Option<usize>) -> Option<Series> {
        let channel = channel.map_or(NO_CHANNEL, |c| c as u32);
        // SAFETY: as above; what is found stays until the call returns, and is copied here.
        unsafe { read::series((self.find_series)(self.ctx, Str::new(name), channel)) }.ok()
    }

    pub(crate) fn refuse(&self, reason: &str) {
        // SAFETY: as above.
        unsafe { (self.refuse)(self.ctx, short(reason)) }
    }

    pub(crate) fn log(&self, severity: i32, text: &str) {
        // SAFETY: as above.
        unsafe { (self.log)(self.ctx, severity, short(text)) }
    }

    pub(crate) fn progress(&self, fraction: f64) {
        // SAFETY: as above.
        unsafe { (self.progress)(self.ctx, fraction) }
    }

    pub(crate) fn is_cancelled(&self) -> bool {
        // SAFETY: as above.
        unsafe { (self.is_cancelled)(self.ctx) != 0 }
    }
}

/// The text, cut at the longest that the interface lets through.
fn short(text: &str) -> Str {
    let end = text.floor_char_boundary(abi::MAX_TEXT_BYTES as usize);
    Str::new(&text[..end])
}
