//! Structs and constants of `analysis_plugin.h`, member for member. Their meaning is documented there.

use std::ffi::c_void;

/// Major version of the interface: part of the exported function's name.
pub const MAJOR: u32 = 2;
/// Minor version that this mirror describes.
pub const MINOR: u32 = 0;

/// Most analyzers in one library.
pub const MAX_ANALYZERS: u32 = 64;
/// Most entries of every other list of a declaration.
pub const MAX_LIST: u32 = 256;
/// Longest name, bytes.
pub const MAX_NAME_BYTES: u64 = 256;
/// Longest text, bytes.
pub const MAX_TEXT_BYTES: u64 = 65_536;
/// Longest body of an asset, bytes.
pub const MAX_ASSET_BYTES: u64 = 1_048_576;
/// Most findings of one call.
pub const MAX_FINDINGS: u32 = 100_000;
/// Most series of one call.
pub const MAX_SERIES: u32 = 1024;
/// Most values of one series: rows times columns.
pub const MAX_SERIES_VALUES: u64 = 8_000_000;
/// Most values of all series of one call.
pub const MAX_CALL_VALUES: u64 = 32_000_000;

/// [`Series::channel`] of a series that belongs to the whole recording.
pub const NO_CHANNEL: u32 = u32::MAX;

/// Return values of `analyze`.
#[allow(missing_docs)]
pub mod status {
    pub const OK: i32 = 0;
    pub const REFUSED: i32 = 1;
    pub const PANICKED: i32 = 2;
    pub const BAD_INPUT: i32 = 3;
    pub const CANCELLED: i32 = 4;
    pub const FAILED: i32 = 5;
}

/// Scope of an analyzer's calls.
#[allow(missing_docs)]
pub mod scope {
    pub const CAPTURE: u32 = 0;
    pub const JOB: u32 = 1;
}

/// Formats of a channel's samples.
#[allow(missing_docs)]
pub mod format {
    pub const F32: u32 = 0;
    pub const F64: u32 = 1;
    pub const I16: u32 = 2;
}

/// Physical quantity of a channel.
#[allow(missing_docs)]
pub mod quantity {
    pub const OTHER: u32 = 0;
    pub const CURRENT: u32 = 1;
    pub const VOLTAGE: u32 = 2;
    pub const TOOTH_SIGNAL: u32 = 3;
    pub const STATE: u32 = 4;
}

/// Form of a series.
#[allow(missing_docs)]
pub mod form {
    pub const TRACK: u32 = 0;
    pub const TABLE: u32 = 1;
}

/// Type of a column's values.
#[allow(missing_docs)]
pub mod column {
    pub const F64: u32 = 0;
    pub const I64: u32 = 1;
    pub const TEXT: u32 = 2;
}

/// Optional numbers of a finding that are set.
#[allow(missing_docs)]
pub mod has {
    pub const START: u32 = 0x01;
    pub const END: u32 = 0x02;
    pub const VALUE: u32 = 0x04;
    pub const UNCERTAINTY: u32 = 0x08;
    pub const LIMIT: u32 = 0x10;
    pub const LIMIT_LOW: u32 = 0x20;
    pub const LIMIT_HIGH: u32 = 0x40;
}

/// A finding's grade.
#[allow(missing_docs)]
pub mod grade {
    pub const NORMAL: u32 = 0;
    pub const ABNORMAL: u32 = 1;
    pub const UNUSABLE: u32 = 2;
    pub const UNREADABLE: u32 = 3;
    pub const NOT_TESTED: u32 = 4;
}

/// Return values of `emit` and `put_series`.
#[allow(missing_docs)]
pub mod emit {
    pub const OK: i32 = 0;
    pub const BAD_STRUCT: i32 = 1;
    pub const BAD_TEXT: i32 = 2;
    pub const BAD_NUMBER: i32 = 3;
    pub const BAD_CHOICE: i32 = 4;
    pub const BAD_ARGS: i32 = 5;
    pub const TOO_MANY: i32 = 6;
    pub const BAD_THREAD: i32 = 7;
    pub const UNDECLARED: i32 = 8;
}

/// Severity of a log line.
#[allow(missing_docs)]
pub mod severity {
    pub const DEBUG: i32 = 0;
    pub const INFO: i32 = 1;
    pub const WARNING: i32 = 2;
    pub const ERROR: i32 = 3;
}

/// `analysis_str`: UTF-8 bytes, counted, not ended by NUL.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Str {
    pub ptr: *const u8,
    pub len: u64,
}

impl Str {
    /// A view of a Rust string. It does not keep the string alive.
    pub const fn new(s: &str) -> Self {
        Str {
            ptr: s.as_ptr(),
            len: s.len() as u64,
        }
    }

    /// The empty string.
    pub const EMPTY: Str = Str {
        ptr: std::ptr::null(),
        len: 0,
    };
}

/// `analysis_channel`: one channel of a recording.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Channel {
    pub struct_size: u32,
    pub sample_format: u32,
    pub quantity: u32,
    pub reserved: u32,
    pub role: Str,
    pub name: Str,
    pub unit: Str,
    pub samples: *const c_void,
    pub length: u64,
    pub scale: f64,
    pub offset: f64,
    pub start_s: f64,
    pub step_s: f64,
    pub times_s: *const f64,
}

/// `analysis_input`: what one call looks at.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Input {
    pub struct_size: u32,
    pub channel_count: u32,
    pub file: Str,
    pub settings_json: Str,
    pub channels: *const *const Channel,
}

/// `analysis_finding`: one observation.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Finding {
    pub struct_size: u32,
    pub present: u32,
    pub grade: u32,
    pub reserved: u32,
    pub kind: Str,
    pub subject: Str,
    pub unit: Str,
    pub message: Str,
    pub args_json: Str,
    pub start_s: f64,
    pub end_s: f64,
    pub value: f64,
    pub uncertainty: f64,
    pub limit_low: f64,
    pub limit_high: f64,
    pub limit_unit: Str,
    pub limit_source: Str,
}

/// `analysis_column`: one column of a series.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Column {
    pub struct_size: u32,
    pub r#type: u32,
    pub name: Str,
    pub unit: Str,
    pub values: *const c_void,
}

/// `analysis_series`: a series that one analyzer derives and others use, or its declaration.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Series {
    pub struct_size: u32,
    pub form: u32,
    pub name: Str,
    pub channel: u32,
    pub columns_count: u32,
    pub columns: *const *const Column,
    pub rows: u64,
    pub start_s: f64,
    pub step_s: f64,
}

/// `analysis_host`: what the host offers during one call.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Host {
    pub struct_size: u32,
    pub minor: u32,
    pub ctx: *mut c_void,
    pub emit: Option<unsafe extern "C" fn(ctx: *mut c_void, finding: *const Finding) -> i32>,
    pub put_series: Option<unsafe extern "C" fn(ctx: *mut c_void, series: *const Series) -> i32>,
    pub find_series:
        Option<unsafe extern "C" fn(ctx: *mut c_void, name: Str, channel: u32) -> *const Series>,
    pub refuse: Option<unsafe extern "C" fn(ctx: *mut c_void, reason: Str)>,
    pub log: Option<unsafe extern "C" fn(ctx: *mut c_void, severity: i32, text: Str)>,
    pub progress: Option<unsafe extern "C" fn(ctx: *mut c_void, fraction: f64)>,
    pub is_cancelled: Option<unsafe extern "C" fn(ctx: *mut c_void) -> i32>,
    pub get_extension: Option<unsafe extern "C" fn(ctx: *mut c_void, name: Str) -> *const c_void>,
}

/// `analysis_kind`: a kind of finding that an analyzer may hand over.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Kind {
    pub struct_size: u32,
    pub reserved: u32,
    pub name: Str,
    pub unit: Str,
}

/// `analysis_message`: a sentence that an analyzer may ask for.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Message {
    pub struct_size: u32,
    pub args_count: u32,
    pub name: Str,
    pub args: *const Str,
}

/// The type of [`Analyzer::analyze`].
pub type Analyze = unsafe extern "C" fn(input: *const Input, host: *const Host) -> i32;

/// `analysis_analyzer`: what an analyzer says of itself.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Analyzer {
    pub struct_size: u32,
    pub scope: u32,
    pub id: Str,
    pub name: Str,
    pub needs: *const Str,
    pub uses: *const Str,
    pub inputs: *const Str,
    pub kinds: *const *const Kind,
    pub messages: *const *const Message,
    pub series: *const *const Series,
    pub needs_count: u32,
    pub uses_count: u32,
    pub inputs_count: u32,
    pub kinds_count: u32,
    pub messages_count: u32,
    pub series_count: u32,
    pub analyze: Option<Analyze>,
}

/// `analysis_asset`: a file that a library brings along.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Asset {
    pub struct_size: u32,
    pub reserved: u32,
    pub name: Str,
    pub body: Str,
}

/// `analysis_library`: what a library says of itself.
#[repr(C)]
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub struct Library {
    pub struct_size: u32,
    pub reserved: u32,
    pub system: Str,
    pub name: Str,
    pub version: Str,
    pub vendor: Str,
    pub analyzers: *const *const Analyzer,
    pub assets: *const *const Asset,
    pub analyzers_count: u32,
    pub assets_count: u32,
}

/// The type of the exported function [`crate::SYMBOL`].
pub type GetPlugin = unsafe extern "C" fn(host_minor: u32) -> *const Library;
