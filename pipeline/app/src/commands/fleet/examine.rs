//! A job of the fleet, done as every other one.

use super::shops::Shops;
use crate::context::AppContext;
use crate::job::{self, Early, LedgerFacts, Review};
use crate::publish::Summary;
use anyhow::Result;
use chrono::Local;
use fleet::{Failure, Made, Task, Work};
use intake::JobSource;
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
    fn run(&self, task: &Task) -> Result<Made, Failure> {
        let shop = &task.claim.shop;
        let mut opened = self
            .shops
            .open(shop)
            .map_err(|e| Failure::Permanent(format!("the settings of the shop {shop}: {e:#}")))?;
        let made = make(task, &mut opened.context);
        self.shops.keep(opened);
        made.map_err(|e| Failure::Transient(format!("{e:#}")))
    }
}

fn make(task: &Task, context: &mut AppContext) -> Result<Made> {
    let source = JobSource::Folder(task.folder.clone());
    let entries = source.gather()?;
    let examined = job::examine(
        &task.claim.job,
        &source,
        &entries,
        Early::new(),
        None,
        context,
    )?;
    let others = task.number_conflicts(&examined.case.job.number)?;
    let ledger = LedgerFacts {
        handed: &task.handed,
        events: &task.events,
        number_taken_by: &others,
        now: Local::now().naive_local(),
    };
    let review = Review {
        signature: None,
        earlier: None,
    };
    let outcome = examined.outcome.clone();
    let results = examined.results(task.number, review, ledger, context)?;
    let mut facts = serde_json::to_value(Summary::of(&results, context)?)?;
    facts["outcome"] = outcome.into();
    Ok(Made {
        job_number: results.case.job.number,
        facts,
        rows: results.bill.rows,
        events: results.bill.offer.into_iter().collect(),
        outputs: results
            .outputs
            .into_iter()
            .map(|o| (o.name, o.bytes))
            .collect(),
    })
}
