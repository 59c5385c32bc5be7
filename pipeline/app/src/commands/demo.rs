//! `demo`: an invented job, from nothing to a report.

use super::run::{results, sentence, writable};
use crate::house::House;
use crate::job;
use anyhow::{Context, Result};
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
    eprintln!(
        "An invented job was written to {}; measuring it.",
        folder.display()
    );
    let results_folder = out.join("out");
    writable(&results_folder)?;
    let mut house = House::open(Some(&shop), false)?;
    let entries = intake::gather(&folder)?;
    let done = job::run(JOB, &entries, &results_folder, &mut house)?;
    println!(
        "{}\n\n{}",
        results(JOB, &results_folder)?,
        sentence(&done.case, &house)
    );
    Ok(done.clean)
}
