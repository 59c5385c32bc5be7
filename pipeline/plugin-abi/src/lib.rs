//! The interface between the host and its analysis plugins, version 1.1: the `#[repr(C)]` mirror of
//! `include/analysis_plugin.h`, and checked reading of what the other side sent.
//!
//! The header is the specification: the threads on which a function may be called, owners and lifetimes are
//! said there and hold here. A test compiles the header as C11 and as C++17 and compares every size, offset and
//! constant with this mirror.

mod layout;
mod machine_name;
pub mod read;

pub use layout::*;
pub use machine_name::{is_machine_name, is_version};

/// Name of the one function that a library exports. Its type is [`GetPlugin`].
pub const SYMBOL: &str = "get_analysis_plugin_v1";
