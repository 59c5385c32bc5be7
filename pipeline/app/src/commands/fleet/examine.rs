//! A job of the fleet, done as every other one.

use super::shops::Shops;
use crate::context::AppContext;
use crate::publish;
use anyhow::Result;
use fleet::{Failure, Task, Work};
use intake::{IntakeError, JobSource};
use std::sync::Arc;

/// The work of a worker.
pub struct Examine {
    shops: Arc<Shops>,
}

impl Examine {
    /// Work by the settings of the shops.
    pub fn new(shops: Arc<Shops>) -> Examine {
        Examine { shops }
    }
}

impl Work for Examine {
    fn run(&self, task: Task) -> Result<bool, Failure> {
        let shop = task.claim.shop.clone();
        let opened = self.shops.open(&shop);
        let mut opened = opened
            .map_err(|e| failure(&e.context(format!("the settings of the shop {shop}")), true))?;
        let done = make(task, &mut opened.context);
        // A context in which a check did not run is not trusted: a library that could not be loaded is looked for again.
        if matches!(done, Ok((_, false))) {
            self.shops.keep(opened);
        }
        done.map(|(is_published, _)| is_published)
            .map_err(|e| failure(&e, false))
    }
}

/// Returns whether the results were published, and whether a check did not run.
fn make(mut task: Task, context: &mut AppContext) -> Result<(bool, bool)> {
    let source = JobSource::Folder(task.folder);
    let entries = source.gather()?;
    let job = publish::Task::new(&task.claim.job, source, entries, &mut task.store)?;
    let finished = job.make(context)?;
    Ok((finished.publish(&mut task.store)?, finished.is_due_again))
}

fn failure(e: &anyhow::Error, is_permanent: bool) -> Failure {
    let why = format!("{e:#}");
    let is_away = e.chain().any(|cause| {
        let shared = cause.downcast_ref::<IntakeError>();
        let server = cause.downcast_ref::<fleet::FleetError>();
        matches!(
            shared,
            Some(IntakeError::Shared {
                is_transient: true,
                ..
            })
        ) || server.is_some_and(fleet::FleetError::is_transient)
    });
    match (is_away, is_permanent) {
        (true, _) => Failure::Away(why),
        (false, true) => Failure::Permanent(why),
        (false, false) => Failure::Transient(why),
    }
}
