//! Channel groups: where their records are and how long.

use super::block::File;

/// A channel group with its data group.
pub(super) struct Group<'a> {
    pub data: u64,
    pub record_id_size: usize,
    pub id: u64,
    pub cycles: u64,
    pub data_bytes: usize,
    pub invalidation_bytes: usize,
    pub first_channel: u64,
    pub name: Option<String>,
    /// Identifiers and lengths of every group in the same data; `None` for variable length.
    pub siblings: Vec<(u64, Option<usize>)>,
    pub file: &'a File<'a>,
}
