//! Checked reading of structs and strings that the other side of the interface sent.
//!
//! What can be checked is checked: null, alignment, `struct_size`, UTF-8, lengths, numbers. That a pointer which
//! is none of these points at memory that may be read is the sender's promise, and why these functions are
//! `unsafe`.

use crate::{
    Channel, Descriptor, Finding, Grade, Host, Input, MAX_NAME_BYTES, MAX_TEXT_BYTES,
    MAX_TRACK_VALUES, Str, Text, Track, Tracks, emit, format, has, is_machine_name,
};
use std::mem::{MaybeUninit, offset_of};

/// A struct of the interface: begins with `struct_size`, plain data in all its members.
///
/// # Safety
/// The implementing type is `repr(C)`, begins with a `u32` that says its size, and every bit pattern of its
/// members is valid.
pub unsafe trait Sized32: Copy {
    /// The struct's name in the header.
    const NAME: &'static str;
    /// The version that it came with.
    const SINCE: &'static str;
    /// Its size in that version, bytes.
    const LEAST: usize;
}

macro_rules! sized {
    ($($type:ty => $name:literal, $since:literal, $least:expr;)+) => {
        // SAFETY: all are repr(C), begin with struct_size, and hold integers, floats, raw pointers and optional
        // function pointers only.
        $(unsafe impl Sized32 for $type {
            const NAME: &'static str = $name;
            const SINCE: &'static str = $since;
            const LEAST: usize = $least;
        })+
    };
}
sized! {
    Channel => "analysis_channel", "1.0", size_of::<Channel>();
    Input => "analysis_input", "1.0", size_of::<Input>();
    Finding => "analysis_finding", "1.0", size_of::<Finding>();
    Host => "analysis_host", "1.0", size_of::<Host>();
    Descriptor => "analysis_descriptor", "1.0", offset_of!(Descriptor, gives);
    Track => "analysis_track", "1.1", size_of::<Track>();
    Tracks => "analysis_tracks", "1.1", size_of::<Tracks>();
    Text => "analysis_text", "1.1", size_of::<Text>();
}

/// Reads a struct as this version knows it. A larger one, of a later version, is cut down to that; in a smaller one,
/// of an earlier version, the members that it lacks are zero.
///
/// # Errors
/// A null or misaligned pointer, or a `struct_size` smaller than that of the version that the struct came with.
///
/// # Safety
/// A pointer that is neither null nor misaligned points at a struct that is as large as its `struct_size` says
/// and that nobody writes to meanwhile.
pub unsafe fn sized<T: Sized32>(pointer: *const T) -> Result<T, String> {
    if pointer.is_null() {
        return Err(format!("{} is a null pointer", T::NAME));
    }
    if !pointer.is_aligned() {
        return Err(format!("{} is misaligned", T::NAME));
    }
    // SAFETY: not null, aligned, and by the caller's promise a struct that begins with its size.
    let size = unsafe { *pointer.cast::<u32>() } as usize;
    if size < T::LEAST {
        return Err(format!(
            "{} has struct_size {size}, version {} needs at least {}",
            T::NAME,
            T::SINCE,
            T::LEAST
        ));
    }
    // Every struct is a multiple of 8 bytes in every version: an odd size must not leave half of a pointer.
    let known = size.min(size_of::<T>()) & !7;
    let mut read = MaybeUninit::<T>::zeroed();
    // SAFETY: the source is at least `known` bytes by the caller's promise, the target at least as many; every bit
    // pattern is valid for T, all zeros among them.
    Ok(unsafe {
        std::ptr::copy_nonoverlapping(pointer.cast::<u8>(), read.as_mut_ptr().cast(), known);
        read.assume_init()
    })
}

/// Reads `count` items at `items`. `'a` is chosen by the caller.
///
/// # Errors
/// A null or misaligned pointer with a `count` that is not 0, or a `count` beyond what memory can hold.
///
/// # Safety
/// A pointer that is neither null nor misaligned points at `count` items that stay unchanged for `'a`.
pub unsafe fn slice<'a, T: Copy>(
    items: *const T,
    count: u64,
    what: &str,
) -> Result<&'a [T], String> {
    if count == 0 {
        return Ok(&[]);
    }
    if items.is_null() {
        return Err(format!(
            "{what} is a null pointer, though {count} items are announced"
        ));
    }
    if !items.is_aligned() {
        return Err(format!("{what} is misaligned"));
    }
    let bytes = count
        .checked_mul(size_of::<T>() as u64)
        .filter(|&b| b <= isize::MAX as u64);
    let (Some(_), Ok(count)) = (bytes, usize::try_from(count)) else {
        return Err(format!("{what} cannot have {count} items"));
    };
    // SAFETY: not null, aligned, no larger than isize::MAX, and as the caller promises.
    Ok(unsafe { std::slice::from_raw_parts(items, count) })
}

/// Reads a string. `'a` is chosen by the caller.
///
/// # Errors
/// A null pointer with a length, more than `max_bytes`, or bytes that are not UTF-8.
///
/// # Safety
/// As for [`slice()`].
pub unsafe fn text<'a>(text: Str, max_bytes: u64, what: &str) -> Result<&'a str, String> {
    if text.len > max_bytes {
        return Err(format!(
            "{what} has {} bytes, at most {max_bytes} are allowed",
            text.len
        ));
    }
    // SAFETY: the caller's promise.
    let bytes = unsafe { slice(text.ptr, text.len, what)? };
    std::str::from_utf8(bytes).map_err(|e| {
        format!(
            "{what} is not UTF-8 (first wrong byte at {})",
            e.valid_up_to()
        )
    })
}

/// The samples of a channel.
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub enum Samples<'a> {
    F32(&'a [f32]),
    F64(&'a [f64]),
    I16(&'a [i16]),
}

/// Reads a channel's samples. `'a` is chosen by the caller.
///
/// # Errors
/// An unknown format, or what [`slice()`] refuses.
///
/// # Safety
/// As for [`slice()`].
pub unsafe fn samples<'a>(channel: &Channel) -> Result<Samples<'a>, String> {
    let (at, n) = (channel.samples, channel.length);
    // SAFETY: the caller's promise, for all three.
    unsafe {
        match channel.sample_format {
            format::F32 => slice(at.cast(), n, "samples").map(Samples::F32),
            format::F64 => slice(at.cast(), n, "samples").map(Samples::F64),
            format::I16 => slice(at.cast(), n, "samples").map(Samples::I16),
            other => Err(format!("sample_format {other} is unknown")),
        }
    }
}

/// A finding whose every member has been checked, but for the inside of `args_json`.
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(missing_docs)]
pub struct FindingView<'a> {
    pub kind: &'a str,
    pub subject: Option<&'a str>,
    pub start_s: Option<f64>,
    pub end_s: Option<f64>,
    pub value: Option<f64>,
    pub uncertainty: Option<f64>,
    pub unit: Option<&'a str>,
    pub limit: Option<LimitView<'a>>,
    pub grade: Grade,
    pub message: &'a str,
    /// Empty for none.
    pub args_json: &'a str,
}

/// The limit of a [`FindingView`].
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(missing_docs)]
pub struct LimitView<'a> {
    pub low: Option<f64>,
    pub high: Option<f64>,
    pub unit: &'a str,
    pub source: &'a str,
}

/// Which rule a finding breaks: one of [`emit`]'s numbers, and a sentence.
#[derive(Debug, Clone, PartialEq)]
pub struct Broken {
    /// What `emit` returns.
    pub rule: i32,
    /// What is wrong.
    pub sentence: String,
}

fn broken(rule: i32, sentence: String) -> Broken {
    Broken { rule, sentence }
}

/// Reads and checks a finding. `'a` is chosen by the caller.
///
/// # Errors
/// The first rule of the header that the finding breaks.
///
/// # Safety
/// As for [`sized`] and [`slice()`].
pub unsafe fn finding<'a>(pointer: *const Finding) -> Result<FindingView<'a>, Broken> {
    // SAFETY: the caller's promise.
    let raw = unsafe { sized(pointer) }.map_err(|e| broken(emit::BAD_STRUCT, e))?;
    if raw.reserved != 0 {
        return Err(broken(emit::BAD_STRUCT, "reserved is not 0".into()));
    }
    let name = |s: Str, what: &str| {
        // SAFETY: the caller's promise.
        unsafe { text(s, MAX_NAME_BYTES, what) }.map_err(|e| broken(emit::BAD_TEXT, e))
    };
    let kind = name(raw.kind, "kind")?;
    let message = name(raw.message, "message")?;
    for (what, word) in [("kind", kind), ("message", message)] {
        if !is_machine_name(word) {
            let said = format!("{what} {word:?} is not a machine name (a-z, 0-9, hyphen)");
            return Err(broken(emit::BAD_TEXT, said));
        }
    }
    let long = |s: Str, what: &str| {
        // SAFETY: the caller's promise.
        unsafe { text(s, MAX_TEXT_BYTES, what) }.map_err(|e| broken(emit::BAD_TEXT, e))
    };
    let grade = check_choices(&raw).map_err(|e| broken(emit::BAD_CHOICE, e))?;
    let number = |bit: u32, value: f64, what: &str| match raw.present & bit != 0 {
        false => Ok(None),
        true if value.is_finite() => Ok(Some(value)),
        true => Err(broken(
            emit::BAD_NUMBER,
            format!("{kind}: {what} is {value}, no finite number"),
        )),
    };
    let limit = match raw.present & has::LIMIT != 0 {
        false => None,
        true => Some(LimitView {
            low: number(has::LIMIT_LOW, raw.limit_low, "limit_low")?,
            high: number(has::LIMIT_HIGH, raw.limit_high, "limit_high")?,
            unit: name(raw.limit_unit, "limit_unit")?,
            source: long(raw.limit_source, "limit_source")?,
        }),
    };
    let view = FindingView {
        kind,
        subject: Some(name(raw.subject, "subject")?).filter(|s| !s.is_empty()),
        start_s: number(has::START, raw.start_s, "start_s")?,
        end_s: number(has::END, raw.end_s, "end_s")?,
        value: number(has::VALUE, raw.value, "value")?,
        uncertainty: number(has::UNCERTAINTY, raw.uncertainty, "uncertainty")?,
        unit: Some(name(raw.unit, "unit")?).filter(|s| !s.is_empty()),
        limit,
        grade,
        message,
        args_json: long(raw.args_json, "args_json")?,
    };
    check_ranges(&view).map_err(|e| broken(emit::BAD_NUMBER, format!("{kind}: {e}")))?;
    Ok(view)
}

fn check_choices(raw: &Finding) -> Result<Grade, String> {
    let known = has::START
        | has::END
        | has::VALUE
        | has::UNCERTAINTY
        | has::LIMIT
        | has::LIMIT_LOW
        | has::LIMIT_HIGH;
    let grade =
        Grade::of_number(raw.grade).ok_or_else(|| format!("grade {} is unknown", raw.grade))?;
    if raw.present & !known != 0 {
        return Err(format!(
            "present has unknown bits {:#x}",
            raw.present & !known
        ));
    }
    if raw.present & has::LIMIT == 0 && raw.present & (has::LIMIT_LOW | has::LIMIT_HIGH) != 0 {
        return Err("present has a limit's number but not ANALYSIS_HAS_LIMIT".into());
    }
    Ok(grade)
}

fn check_ranges(view: &FindingView<'_>) -> Result<(), String> {
    if let (Some(start), Some(end)) = (view.start_s, view.end_s)
        && end < start
    {
        return Err(format!("end_s {end} lies before start_s {start}"));
    }
    if let Some(u) = view.uncertainty
        && u < 0.0
    {
        return Err(format!("uncertainty {u} is below 0"));
    }
    if let Some(LimitView {
        low: Some(low),
        high: Some(high),
        ..
    }) = view.limit
        && high < low
    {
        return Err(format!("limit_high {high} lies below limit_low {low}"));
    }
    Ok(())
}

/// A track whose every member has been checked.
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(missing_docs)]
pub struct TrackView<'a> {
    pub name: &'a str,
    pub unit: &'a str,
    pub start_s: f64,
    /// Greater than 0.
    pub step_s: f64,
    /// Numbers and NaN, no infinities.
    pub values: &'a [f64],
}

/// Reads and checks a track. `'a` is chosen by the caller.
///
/// # Errors
/// The first rule of the header that the track breaks.
///
/// # Safety
/// As for [`sized`] and [`slice()`].
pub unsafe fn track<'a>(pointer: *const Track) -> Result<TrackView<'a>, Broken> {
    let malformed = |e: String| broken(emit::BAD_STRUCT, e);
    // SAFETY (all below): the caller's promise.
    let raw = unsafe { sized(pointer) }.map_err(malformed)?;
    if raw.reserved != 0 {
        return Err(malformed("reserved is not 0".into()));
    }
    let name = |s: Str, what: &str| {
        unsafe { text(s, MAX_NAME_BYTES, what) }.map_err(|e| broken(emit::BAD_TEXT, e))
    };
    let (track, unit) = (name(raw.name, "name")?, name(raw.unit, "unit")?);
    if !is_machine_name(track) {
        let said = format!("a track's name {track:?} is not a machine name (a-z, 0-9, hyphen)");
        return Err(broken(emit::BAD_TEXT, said));
    }
    if raw.length > MAX_TRACK_VALUES {
        let said = format!(
            "{track}: {} values, at most {MAX_TRACK_VALUES} are allowed",
            raw.length
        );
        return Err(broken(emit::TOO_MANY, said));
    }
    let values = unsafe { slice(raw.values, raw.length, "values") }.map_err(malformed)?;
    let grid = raw.start_s.is_finite() && raw.step_s.is_finite() && raw.step_s > 0.0;
    if !grid || values.iter().any(|v| v.is_infinite()) {
        let said = format!("{track}: start_s, step_s or a value is no number that it may be");
        return Err(broken(emit::BAD_NUMBER, said));
    }
    Ok(TrackView {
        name: track,
        unit,
        start_s: raw.start_s,
        step_s: raw.step_s,
        values,
    })
}
