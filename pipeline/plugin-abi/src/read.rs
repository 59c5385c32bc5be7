//! Checked reading of structs and strings that the other side of the interface sent.
//!
//! What can be checked is checked: null, alignment, `struct_size`, UTF-8, lengths, numbers. That a pointer which
//! is none of these points at memory that may be read is the sender's promise, and why these functions are
//! `unsafe`.

use crate::declaration::is_column_name;
use crate::raw::{self, Channel, Finding, Str};
use crate::series::{Column, Grid, Series, Values};
use crate::{
    AnalyzerDeclaration, Args, Asset, ColumnDeclaration, ColumnType, Form, Grade, KindDeclaration,
    LibraryDeclaration, Limit, MAX_ANALYZERS, MAX_ASSET_BYTES, MAX_LIST, MAX_NAME_BYTES,
    MAX_SERIES_VALUES, MAX_TEXT_BYTES, MessageDeclaration, NO_CHANNEL, Observation, Outputs, Scope,
    SeriesDeclaration, emit, format, has, is_machine_name, is_scalar,
};
use std::mem::MaybeUninit;

/// A struct of the interface: begins with `struct_size`, plain data in all its members.
///
/// # Safety
/// The implementing type is `repr(C)`, begins with a `u32` that says its size, and every bit pattern of its
/// members is valid.
pub unsafe trait Sized32: Copy {
    /// The struct's name in the header.
    const NAME: &'static str;
    /// Its size in version 2.0, bytes. A later version's struct is larger, and this stays.
    const LEAST: usize;
}

macro_rules! sized {
    ($($type:ty => $name:literal;)+) => {
        // SAFETY: all are repr(C), begin with struct_size, and hold integers, floats, raw pointers and optional
        // function pointers only.
        $(unsafe impl Sized32 for $type {
            const NAME: &'static str = $name;
            const LEAST: usize = size_of::<$type>();
        })+
    };
}
sized! {
    raw::Channel => "analysis_channel";
    raw::Input => "analysis_input";
    raw::Finding => "analysis_finding";
    raw::Host => "analysis_host";
    raw::Column => "analysis_column";
    raw::Series => "analysis_series";
    raw::Kind => "analysis_kind";
    raw::Message => "analysis_message";
    raw::Analyzer => "analysis_analyzer";
    raw::Asset => "analysis_asset";
    raw::Library => "analysis_library";
}

/// Reads a struct as this version knows it. A larger one, of a later version, is cut down to that; in a smaller one,
/// of an earlier version, the members that it lacks are zero.
///
/// # Errors
/// A null or misaligned pointer, or a `struct_size` smaller than that of version 2.0.
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
            "{} has struct_size {size}, version 2.0 needs at least {}",
            T::NAME,
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

/// The samples of a channel as recorded. NaN is a missing value, an infinity an over-range mark.
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

/// Which rule a finding breaks: one of [`emit`]'s numbers, and a sentence.
#[derive(Debug, Clone, PartialEq)]
pub struct Broken {
    /// Return value of `emit`.
    pub rule: i32,
    /// Error in a sentence.
    pub sentence: String,
}

pub(crate) fn broken(rule: i32, sentence: impl Into<String>) -> Broken {
    Broken {
        rule,
        sentence: sentence.into(),
    }
}

/// Copies a finding, every member of which is checked.
///
/// # Errors
/// The first rule of the header that the finding breaks.
///
/// # Safety
/// As for [`sized`] and [`slice()`].
pub unsafe fn finding(pointer: *const Finding) -> Result<Observation, Broken> {
    // SAFETY: the caller's promise.
    let raw = unsafe { sized(pointer) }.map_err(|e| broken(emit::BAD_STRUCT, e))?;
    if raw.reserved != 0 {
        return Err(broken(emit::BAD_STRUCT, "reserved is not 0"));
    }
    let name = |s: Str, what: &str| {
        // SAFETY: the caller's promise.
        unsafe { text(s, MAX_NAME_BYTES, what) }.map_err(|e| broken(emit::BAD_TEXT, e))
    };
    let given = |text: &str| (!text.is_empty()).then(|| text.to_owned());
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
        true => Some(Limit {
            low: number(has::LIMIT_LOW, raw.limit_low, "limit_low")?,
            high: number(has::LIMIT_HIGH, raw.limit_high, "limit_high")?,
            unit: name(raw.limit_unit, "limit_unit")?.into(),
            source: long(raw.limit_source, "limit_source")?.into(),
        }),
    };
    let observation = Observation {
        kind: kind.into(),
        subject: given(name(raw.subject, "subject")?),
        start_s: number(has::START, raw.start_s, "start_s")?,
        end_s: number(has::END, raw.end_s, "end_s")?,
        value: number(has::VALUE, raw.value, "value")?,
        uncertainty: number(has::UNCERTAINTY, raw.uncertainty, "uncertainty")?,
        unit: given(name(raw.unit, "unit")?),
        limit,
        grade,
        message: message.into(),
        ..Observation::default()
    };
    let args_json = long(raw.args_json, "args_json")?;
    check_ranges(&observation).map_err(|e| broken(emit::BAD_NUMBER, format!("{kind}: {e}")))?;
    let args = parse_args(args_json)
        .map_err(|e| broken(emit::BAD_ARGS, format!("{kind}: args_json {e}")))?;
    Ok(observation.with_args(args))
}

fn parse_args(json: &str) -> Result<Args, String> {
    if json.is_empty() {
        return Ok(Args::new());
    }
    let args: Args = serde_json::from_str(json).map_err(|e| format!("is no JSON object: {e}"))?;
    match args.iter().find(|(_, v)| !is_scalar(v)) {
        Some((name, v)) => Err(format!(
            "has {v} for {name}, expected a number, a word, true or false"
        )),
        None => Ok(args),
    }
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

fn check_ranges(o: &Observation) -> Result<(), String> {
    if let (Some(start), Some(end)) = (o.start_s, o.end_s)
        && end < start
    {
        return Err(format!("end_s {end} lies before start_s {start}"));
    }
    if let Some(u) = o.uncertainty
        && u < 0.0
    {
        return Err(format!("uncertainty {u} is below 0"));
    }
    if let Some(Limit {
        low: Some(low),
        high: Some(high),
        ..
    }) = &o.limit
        && high < low
    {
        return Err(format!("limit_high {high} lies below limit_low {low}"));
    }
    Ok(())
}

/// Copies a series, every member of which is checked.
///
/// # Errors
/// The first rule of the header that the series breaks.
///
/// # Safety
/// As for [`sized`] and [`slice()`].
pub unsafe fn series(pointer: *const raw::Series) -> Result<Series, Broken> {
    let malformed = |e: String| broken(emit::BAD_STRUCT, e);
    // SAFETY (all below): the caller's promise.
    let raw = unsafe { sized(pointer) }.map_err(malformed)?;
    let name = unsafe { series_name(&raw) }?;
    let choice = |e: String| broken(emit::BAD_CHOICE, format!("{name}: {e}"));
    let form = form(raw.form).map_err(choice)?;
    let pointers =
        unsafe { list(raw.columns, raw.columns_count, MAX_LIST, "columns") }.map_err(malformed)?;
    if raw.rows.saturating_mul(pointers.len() as u64) > MAX_SERIES_VALUES {
        let said = format!("{name}: more than {MAX_SERIES_VALUES} values");
        return Err(broken(emit::TOO_MANY, said));
    }
    let grid = Grid {
        start_s: raw.start_s,
        step_s: raw.step_s,
    };
    let even = grid.start_s.is_finite() && grid.step_s.is_finite() && grid.step_s > 0.0;
    if form == Form::Track && !even {
        let said = format!("{name}: start_s or step_s is no number that it may be");
        return Err(broken(emit::BAD_NUMBER, said));
    }
    let columns = pointers
        .iter()
        .map(|&c| unsafe { column(c, raw.rows, name) });
    Ok(Series {
        name: name.into(),
        channel: (raw.channel != NO_CHANNEL).then_some(raw.channel),
        grid: (form == Form::Track).then_some(grid),
        columns: columns.collect::<Result<_, _>>()?,
    })
}

/// # Safety
/// As for [`series`].
unsafe fn series_name<'a>(raw: &raw::Series) -> Result<&'a str, Broken> {
    // SAFETY: the caller's promise.
    let name = unsafe { text(raw.name, MAX_NAME_BYTES, "a series' name") };
    let name = name.map_err(|e| broken(emit::BAD_TEXT, e))?;
    match is_machine_name(name) {
        true => Ok(name),
        false => {
            let said = format!("a series' name {name:?} is not made of a-z, 0-9 and hyphens");
            Err(broken(emit::BAD_TEXT, said))
        }
    }
}

fn form(number: u32) -> Result<Form, String> {
    match number {
        raw::form::TRACK => Ok(Form::Track),
        raw::form::TABLE => Ok(Form::Table),
        other => Err(format!("form {other} is unknown")),
    }
}

/// # Safety
/// As for [`series`].
unsafe fn column(pointer: *const raw::Column, rows: u64, series: &str) -> Result<Column, Broken> {
    let malformed = |e: String| broken(emit::BAD_STRUCT, format!("{series}: {e}"));
    // SAFETY (all below): the caller's promise.
    let raw = unsafe { sized(pointer) }.map_err(malformed)?;
    let (name, unit) = unsafe { column_texts(&raw) }
        .map_err(|e| broken(emit::BAD_TEXT, format!("{series}: {e}")))?;
    let values = match raw.r#type {
        raw::column::F64 => {
            let values = unsafe { slice::<f64>(raw.values.cast(), rows, name) };
            let values = values.map_err(malformed)?;
            if values.iter().any(|v| v.is_infinite()) {
                let said = format!("{series}: an infinity in the column {name}");
                return Err(broken(emit::BAD_NUMBER, said));
            }
            Values::F64(values.into())
        }
        raw::column::I64 => {
            let values = unsafe { slice::<i64>(raw.values.cast(), rows, name) };
            Values::I64(values.map_err(malformed)?.into())
        }
        raw::column::TEXT => {
            let words =
                unsafe { slice::<Str>(raw.values.cast(), rows, name) }.map_err(malformed)?;
            let words = words
                .iter()
                .map(|&w| unsafe { text(w, MAX_NAME_BYTES, name) }.map(Into::into));
            let words: Result<Vec<String>, String> = words.collect();
            Values::Text(words.map_err(|e| broken(emit::BAD_TEXT, format!("{series}: {e}")))?)
        }
        other => {
            let said = format!("{series}: the type {other} of the column {name} is unknown");
            return Err(broken(emit::BAD_CHOICE, said));
        }
    };
    Ok(Column {
        name: name.into(),
        unit: unit.into(),
        values,
    })
}

/// # Safety
/// As for [`series`].
unsafe fn column_texts<'a>(raw: &raw::Column) -> Result<(&'a str, &'a str), String> {
    // SAFETY (both): the caller's promise.
    let name = unsafe { text(raw.name, MAX_NAME_BYTES, "a column's name") }?;
    let unit = unsafe { text(raw.unit, MAX_NAME_BYTES, "a column's unit") }?;
    match is_column_name(name) {
        true => Ok((name, unit)),
        false => Err(format!("the column {name:?} is not made of a-z, 0-9 and _")),
    }
}

/// Pointers or strings of a declaration's list.
///
/// # Errors
/// More than `most`, or what [`slice()`] refuses.
///
/// # Safety
/// As for [`slice()`].
unsafe fn list<'a, T: Copy>(
    items: *const T,
    count: u32,
    most: u32,
    what: &str,
) -> Result<&'a [T], String> {
    if count > most {
        return Err(format!(
            "{what} has {count} entries, at most {most} are allowed"
        ));
    }
    // SAFETY: the caller's promise.
    unsafe { slice(items, count.into(), what) }
}

/// # Safety
/// As for [`slice()`].
unsafe fn names(items: *const Str, count: u32, what: &str) -> Result<Vec<String>, String> {
    // SAFETY (both): the caller's promise.
    let all = unsafe { list(items, count, MAX_LIST, what) }?;
    all.iter()
        .map(|&s| unsafe { text(s, MAX_NAME_BYTES, what) }.map(Into::into))
        .collect()
}

/// Raw analyzers of a library, each with its function.
///
/// # Errors
/// A struct that is too small, a list that is too long, a null pointer.
///
/// # Safety
/// As for [`sized`] and [`slice()`].
pub unsafe fn analyzers(library: &raw::Library) -> Result<Vec<raw::Analyzer>, String> {
    let count = library.analyzers_count;
    // SAFETY (both): the caller's promise.
    let pointers = unsafe { list(library.analyzers, count, MAX_ANALYZERS, "analyzers") }?;
    let read = pointers.iter().enumerate().map(|(i, &pointer)| {
        let raw = unsafe { sized(pointer) }.map_err(|e| format!("analyzer {i}: {e}"))?;
        match raw.analyze {
            Some(_) => Ok(raw),
            None => Err(format!("analyzer {i}: analyze is a null pointer")),
        }
    });
    read.collect()
}

/// Copies what a library declares. Texts are read, not judged: see [`LibraryDeclaration::check`].
///
/// # Errors
/// A struct that is too small, a list that is too long, a text that is not UTF-8 or too long.
///
/// # Safety
/// As for [`sized`] and [`slice()`].
pub unsafe fn library(raw: &raw::Library) -> Result<LibraryDeclaration, String> {
    // SAFETY (all below): the caller's promise.
    let name = |s: Str, what: &str| unsafe { text(s, MAX_NAME_BYTES, what) }.map(String::from);
    let analyzers = unsafe { analyzers(raw) }?;
    let analyzers = analyzers
        .iter()
        .enumerate()
        .map(|(i, a)| unsafe { analyzer(a) }.map_err(|e| format!("analyzer {i}: {e}")));
    let assets = unsafe { list(raw.assets, raw.assets_count, MAX_LIST, "assets") }?;
    let assets = assets.iter().map(|&pointer| {
        let asset = unsafe { sized(pointer) }?;
        let body = unsafe { text(asset.body, MAX_ASSET_BYTES, "an asset's body") };
        let name = name(asset.name, "an asset's name")?;
        let body = body.map_err(|e| format!("{name}: {e}"))?.into();
        Ok::<_, String>(Asset { name, body })
    });
    Ok(LibraryDeclaration {
        system: name(raw.system, "system")?,
        name: name(raw.name, "name")?,
        version: name(raw.version, "version")?,
        vendor: name(raw.vendor, "vendor")?,
        analyzers: analyzers.collect::<Result<_, _>>()?,
        assets: assets.collect::<Result<_, _>>()?,
    })
}

/// Copies what an analyzer declares.
///
/// # Errors
/// As for [`library`].
///
/// # Safety
/// As for [`library`].
pub unsafe fn analyzer(raw: &raw::Analyzer) -> Result<AnalyzerDeclaration, String> {
    // SAFETY (all below): the caller's promise.
    let name = |s: Str, what: &str| unsafe { text(s, MAX_NAME_BYTES, what) }.map(String::from);
    let kinds = unsafe { list(raw.kinds, raw.kinds_count, MAX_LIST, "kinds") }?;
    let kinds = kinds.iter().map(|&pointer| {
        let kind = unsafe { sized(pointer) }?;
        let units = name(kind.unit, "a kind's unit")?;
        let units = units.split('|').map(str::trim).filter(|u| !u.is_empty());
        Ok::<_, String>(KindDeclaration {
            name: name(kind.name, "a kind")?,
            units: units.map(Into::into).collect(),
        })
    });
    let messages = unsafe { list(raw.messages, raw.messages_count, MAX_LIST, "messages") }?;
    let messages = messages.iter().map(|&pointer| {
        let message = unsafe { sized(pointer) }?;
        Ok::<_, String>(MessageDeclaration {
            name: name(message.name, "a message")?,
            args: unsafe { names(message.args, message.args_count, "args") }?,
        })
    });
    let series = unsafe { list(raw.series, raw.series_count, MAX_LIST, "series") }?;
    let series = series
        .iter()
        .map(|&pointer| unsafe { series_declaration(pointer) });
    Ok(AnalyzerDeclaration {
        id: name(raw.id, "id")?,
        name: name(raw.name, "name")?,
        scope: match raw.scope {
            raw::scope::CAPTURE => Scope::Capture,
            raw::scope::JOB => Scope::Job,
            other => return Err(format!("its scope {other} is unknown")),
        },
        needs: unsafe { names(raw.needs, raw.needs_count, "needs") }?,
        uses: unsafe { names(raw.uses, raw.uses_count, "uses") }?,
        inputs: unsafe { names(raw.inputs, raw.inputs_count, "inputs") }?,
        outputs: Outputs {
            kinds: kinds.collect::<Result<_, _>>()?,
            messages: messages.collect::<Result<_, _>>()?,
            series: series.collect::<Result<_, _>>()?,
        },
    })
}

/// # Safety
/// As for [`library`].
unsafe fn series_declaration(pointer: *const raw::Series) -> Result<SeriesDeclaration, String> {
    // SAFETY (all below): the caller's promise.
    let raw = unsafe { sized(pointer) }?;
    let columns = unsafe { list(raw.columns, raw.columns_count, MAX_LIST, "columns") }?;
    let columns = columns.iter().map(|&pointer| {
        let column = unsafe { sized(pointer) }?;
        let (name, unit) = unsafe { column_texts(&column) }?;
        Ok::<_, String>(ColumnDeclaration {
            name: name.into(),
            unit: unit.into(),
            r#type: match column.r#type {
                raw::column::F64 => ColumnType::F64,
                raw::column::I64 => ColumnType::I64,
                raw::column::TEXT => ColumnType::Text,
                other => return Err(format!("the type {other} of the column {name} is unknown")),
            },
        })
    });
    Ok(SeriesDeclaration {
        name: unsafe { series_name(&raw) }.map_err(|b| b.sentence)?.into(),
        form: form(raw.form)?,
        columns: columns.collect::<Result<_, _>>()?,
    })
}
