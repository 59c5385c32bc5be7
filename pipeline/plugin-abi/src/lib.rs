//! The interface between the host and its analysis plugins, version 2.0: the `#[repr(C)]` mirror of
//! `include/analysis_plugin.h`, and checked reading of what the other side sent.
//!
//! The header is the specification: the threads on which a function may be called, owners and lifetimes are
//! said there and hold here. A test compiles the header as C11 and as C++17 and compares every size, offset and
//! constant with this mirror.
//!
//! What both sides and the report say in the same types lives here, too: [`Observation`] with [`Limit`] and [`Grade`],
//! and [`Settings`], whose JSON schema is published beside the header (`include/settings.schema.json`).

pub mod axis;
pub mod call;
mod declaration;
mod machine_name;
mod observation;
pub mod raw;
pub mod read;
mod series;
pub mod settings;

pub use declaration::{
    AnalyzerDeclaration, Asset, ColumnDeclaration, KindDeclaration, LibraryDeclaration,
    MessageDeclaration, Outputs, Scope, SeriesDeclaration, alternatives,
};
pub use raw::{
    MAJOR, MAX_ANALYZERS, MAX_ASSET_BYTES, MAX_CALL_VALUES, MAX_FINDINGS, MAX_LIST, MAX_NAME_BYTES,
    MAX_SERIES, MAX_SERIES_VALUES, MAX_TEXT_BYTES, MINOR, NO_CHANNEL, Str, emit, format, grade,
    has, quantity, severity, status,
};

pub use machine_name::{is_machine_name, is_version};
pub use observation::{Args, Grade, Limit, Observation, is_scalar};
pub use series::{Column, ColumnType, Form, Grid, Series, Values};
pub use settings::{ChannelFacts, Settings};

/// Name of the one function that a library exports. Its type is [`raw::GetPlugin`].
pub const SYMBOL: &str = "get_analysis_plugin_v2";
