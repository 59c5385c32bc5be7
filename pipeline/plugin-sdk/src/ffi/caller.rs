//! The host's functions for one call, checked once.

use crate::Track;
use abi::{Finding, Host, Str, Tracks, emit, read};
use plugin_abi as abi;
use std::ffi::c_void;

/// The host's functions for one call.
pub(crate) struct Caller {
    ctx: *mut c_void,
    emit: unsafe extern "C" fn(*mut c_void, *const Finding) -> i32,
    refuse: unsafe extern "C" fn(*mut c_void, Str),
    log: unsafe extern "C" fn(*mut c_void, i32, Str),
    progress: unsafe extern "C" fn(*mut c_void, f64),
    is_cancelled: unsafe extern "C" fn(*mut c_void) -> i32,
    /// The extension that hands tracks on, where the host has it.
    tracks: Option<Tracks>,
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
        let extension = host.get_extension.ok_or_else(missing)?;
        // SAFETY: the caller's promise; a table of this name and revision is an analysis_tracks.
        let tracks = unsafe {
            let table = extension(host.ctx, Str::new(abi::EXTENSION_TRACKS));
            read::sized(table.cast::<Tracks>()).ok()
        };
        Ok(Caller {
            tracks,
            ctx: host.ctx,
            emit: host.emit.ok_or_else(missing)?,
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

    /// Hands a track on; `emit::OK` also when the host knows no tracks.
    pub(crate) fn put(&self, track: &Track) -> i32 {
        let Some(put) = self.tracks.and_then(|t| t.put) else {
            return emit::OK;
        };
        let raw = in_c(track);
        // SAFETY: as above.
        unsafe { put(self.ctx, &raw) }
    }

    /// A copy of an earlier plugin's track.
    pub(crate) fn track(&self, name: &str) -> Option<Track> {
        let find = self.tracks.and_then(|t| t.find)?;
        // SAFETY: as above; what is found stays until the call returns, and is copied here.
        let view = unsafe { read::track(find(self.ctx, Str::new(name))) }.ok()?;
        Some(Track {
            name: view.name.into(),
            unit: view.unit.into(),
            start_s: view.start_s,
            step_s: view.step_s,
            values: view.values.into(),
        })
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

/// The track as the interface has it; it borrows from `track`.
pub(crate) fn in_c(track: &Track) -> abi::Track {
    abi::Track {
        struct_size: size_of::<abi::Track>() as u32,
        reserved: 0,
        name: Str::new(&track.name),
        unit: Str::new(&track.unit),
        start_s: track.start_s,
        step_s: track.step_s,
        values: track.values.as_ptr(),
        length: track.values.len() as u64,
    }
}

/// The text, cut at the longest that the interface lets through.
fn short(text: &str) -> Str {
    let end = text.floor_char_boundary(abi::MAX_TEXT_BYTES as usize);
    Str::new(&text[..end])
}
