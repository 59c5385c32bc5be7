//! `complete`: work that is done.

use super::work::record;
use crate::arguments::WorkArguments;
use anyhow::Result;
use rust_decimal::Decimal;

/// Records work as done, or takes such a record back, and makes the report that states it.
pub fn complete(work: WorkArguments, hours: Option<Decimal>, undo: bool) -> Result<bool> {
    record(work, |named, statement| match undo {
        true => billing::reopen(named, statement),
        false => billing::complete(named, hours, statement),
    })
}
