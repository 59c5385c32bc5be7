//! Status of all jobs: OUT/index.html and `baybrief status`.

mod html;
mod view;

pub use view::{View, count, title};

use intake::{IntakeError, JobGroup, ResultStore, write_atomic};
use report::localizer::Localizer;
use std::time::SystemTime;

/// Jobs of one group that the page lists; of a year's signed jobs the newest.
const LISTED: u32 = 300;

/// Jobs of one group.
pub struct Section {
    /// Group.
    pub group: JobGroup,
    /// Number of its jobs.
    pub size: u64,
    /// Jobs, the newest files first.
    pub jobs: Vec<View>,
}

/// Writes OUT/index.html.
///
/// # Errors
/// When the ledger cannot be read or the page cannot be written.
pub fn write(store: &mut ResultStore, localizer: &Localizer) -> Result<(), IntakeError> {
    let _lock = store.lock()?;
    let refusals = store.ledger().refusals()?;
    let page = html::page(
        &read(store, LISTED, localizer)?,
        &refusals,
        SystemTime::now(),
        localizer,
    );
    write_atomic(&store.folder().join("index.html"), page.as_bytes())
}

/// Reads the groups that have jobs, the ones that need a person first, with at most so many jobs each.
///
/// # Errors
/// When the ledger cannot be read.
pub fn read(
    store: &mut ResultStore,
    limit: u32,
    localizer: &Localizer,
) -> Result<Vec<Section>, IntakeError> {
    let mut sections = Vec::new();
    for (group, size) in store.ledger().group_sizes()? {
        let jobs = store.ledger().jobs_in(group, limit)?;
        let out = store.folder();
        let has = |job: &str, file: &str| out.join(job).join(file).is_file();
        sections.push(Section {
            group,
            size,
            jobs: (jobs.into_iter())
                .map(|job| View::of(job, &has, localizer))
                .collect(),
        });
    }
    Ok(sections)
}
