//! `decline`: what a customer does not want, or no longer wants.

use super::work::record;
use crate::arguments::{How, WorkArguments};
use anyhow::Result;

/// Records a refusal or a withdrawal, and makes the report that states it.
pub fn decline(work: WorkArguments, how: How) -> Result<bool> {
    record(work, |named, statement| {
        billing::decline(named, how.into(), statement)
    })
}
