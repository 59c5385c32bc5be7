//! `demo`: an invented job, from nothing to a report.

use super::run::{one, results, writable};
use crate::context::AppContext;
use crate::output::{say, say_error};
use anyhow::{Context, Result};
use intake::ResultStore;
use std::path::Path;

const JOB: &str = "demo-job";

/// Writes the demo's inbox below `out`, runs its job, and says where everything lies.
pub fn demo(out: &Path) -> Result<bool> {
    let inbox = out.join("inbox");
    let folder = inbox.join(JOB);
    writable(&folder)?;
    simulator::demo::write(&folder)
        .with_context(|| format!("{}: the demo job", folder.display()))?;
    let shop = inbox.join("shop.toml");
    intake::write_atomic(&shop, include_bytes!("../../../../examples/shop.toml"))?;
    say_error!(
        "An invented job was written to {}; measuring it.",
        folder.display()
    );
    let results_folder = out.join("out");
    writable(&results_folder)?;
    let mut context = AppContext::open(Some(&shop), false)?;
    let mut store = ResultStore::open(&results_folder, true)?;
    let done = one(JOB, &folder.canonicalize()?, None, &mut store, &mut context)?;
    say!(
        "{}\n\n{}",
        results(JOB, &results_folder)?,
        context.sentence(done.case())
    );
    Ok(done.clean)
}
