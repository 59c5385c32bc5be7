//! What can be seen of all jobs: OUT/index.html and `baybrief status`.

mod html;
mod view;

pub use view::{Shelf, View, count};

use intake::{IntakeError, Outbox, write_atomic};
use std::time::SystemTime;

/// Writes OUT/index.html.
///
/// # Errors
/// When the ledger cannot be read or the page cannot be written.
pub fn write(outbox: &mut Outbox) -> Result<(), IntakeError> {
    let _lock = outbox.lock()?;
    let page = html::page(&read(outbox)?, SystemTime::now());
    write_atomic(&outbox.folder().join("index.html"), page.as_bytes())
}

/// Every job as it can be seen, the ones that need a person first.
///
/// # Errors
/// When the ledger cannot be read.
pub fn read(outbox: &mut Outbox) -> Result<Vec<View>, IntakeError> {
    let jobs = outbox.ledger().overview()?;
    let out = outbox.folder();
    let has = |job: &str, file: &str| out.join(job).join(file).is_file();
    let mut views: Vec<View> = jobs.into_iter().map(|job| View::of(job, &has)).collect();
    views.sort_by(|a, b| {
        let newest_first = b.arrived.cmp(&a.arrived);
        a.shelf
            .cmp(&b.shelf)
            .then(newest_first)
            .then_with(|| a.name.cmp(&b.name))
    });
    Ok(views)
}
