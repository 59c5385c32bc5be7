//! Status of all jobs: OUT/index.html and `baybrief status`.

mod html;
mod view;

pub use view::{View, count, title};

use intake::{IntakeError, JobGroup, Store, write_atomic};
use report::localizer::Localizer;
use std::path::Path;
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

/// Writes OUT/index.html, where results are shown in a folder.
///
/// # Errors
/// When the ledger cannot be read or the page cannot be written.
pub fn write(store: &mut dyn Store, localizer: &Localizer) -> Result<(), IntakeError> {
    let Some(folder) = store.folder().map(Path::to_path_buf) else {
        return Ok(());
    };
    let _lock = store.lock()?;
    let refusals = store.ledger().refusals()?;
    let page = html::page(
        &read(store, LISTED, localizer)?,
        &refusals,
        SystemTime::now(),
        localizer,
    );
    write_atomic(&folder.join("index.html"), page.as_bytes())
}

/// Reads the groups that have jobs, the ones that need a person first, with at most so many jobs each.
///
/// # Errors
/// When the ledger cannot be read.
pub fn read(
    store: &mut dyn Store,
    limit: u32,
    localizer: &Localizer,
) -> Result<Vec<Section>, IntakeError> {
    let mut sections = Vec::new();
    for (group, size) in store.ledger().group_sizes()? {
        let jobs = store.ledger().jobs_in(group, limit)?;
        let jobs = jobs.into_iter().map(|job| {
            let shown = store.shown(&job.name)?;
            Ok(View::of(job, &shown, localizer))
        });
        sections.push(Section {
            group,
            size,
            jobs: jobs.collect::<Result<_, IntakeError>>()?,
        });
    }
    Ok(sections)
}
