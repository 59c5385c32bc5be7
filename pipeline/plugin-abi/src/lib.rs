//! The interface between the host and its analysis plugins, version 1.1: the `#[repr(C)]` mirror of
//! `include/analysis_plugin.h`, and checked reading of what the other side sent.
//!
//! The header is the specification: the threads on which a function may be called, owners and lifetimes are
//! said there and hold here. A test compiles the header as C11 and as C++17 and compares every size, offset and
//! constant with this mirror.
//!
//! What both sides and the report say in the same types lives here, too: [`Observation`] with [`Limit`] and [`Grade`],
//! and [`Settings`], whose JSON schema is published beside the header (`include/settings.schema.json`).

mod layout;
mod machine_name;
mod observation;
pub mod read;
pub mod settings;

pub use layout::*;
pub use machine_name::{is_machine_name, is_version};
pub use observation::{Args, Grade, Limit, Observation, is_scalar};
pub use settings::{ChannelFacts, Settings};

/// Name of the one function that a library exports. Its type is [`GetPlugin`].
pub const SYMBOL: &str = "get_analysis_plugin_v1";
