//! `demo`: an invented job of one system, from nothing to a report.

use super::run::{one, results, writable};
use super::serve::serve;
use crate::arguments::ServeArguments;
use crate::context::AppContext;
use crate::output::{say, say_error};
use crate::words::phrase;
use anyhow::{Context, Result};
use intake::ResultStore;
use simulator::systems::DEMO_JOBS;
use std::path::{Path, PathBuf};

/// Writes the inbox of a system's demo below `out`, runs its job, and says where everything lies.
pub fn demo(system: &str, out: &Path) -> Result<bool> {
    let Demo { name, folder, shop } = Demo::write(system, out)?;
    let results_folder = out.join("out");
    writable(&results_folder)?;
    let mut context = AppContext::open(Some(&shop), false)?;
    let path = folder.display().to_string();
    say_error!(
        "{}",
        phrase!(context.localizer(), "console-demo", "folder" => path)
    );
    let mut store = ResultStore::open(&results_folder, true)?;
    let done = one(
        &name,
        &folder.canonicalize()?,
        None,
        &mut store,
        &mut context,
    )?;
    say!(
        "{}\n\n{}",
        results(&name, &results_folder, context.localizer())?,
        context.sentence(done.case())
    );
    Ok(done.clean)
}

/// Writes the inbox of a system's demo below `out`, and opens the page on it.
pub fn demo_page(system: &str, out: &Path) -> Result<bool> {
    let Demo { shop, .. } = Demo::write(system, out)?;
    serve(&ServeArguments {
        inbox: Some(out.join("inbox")),
        out: Some(out.join("out")),
        shop: Some(shop),
        memory: None,
        port: 0,
        no_browser: false,
        #[cfg(feature = "fleet")]
        shared: Default::default(),
    })
}

/// A demo's job in an inbox of its own.
struct Demo {
    name: String,
    folder: PathBuf,
    shop: PathBuf,
}

impl Demo {
    fn write(system: &str, out: &Path) -> Result<Demo> {
        let mut demos = DEMO_JOBS.iter();
        let demo = demos.find(|d| d.system == system);
        let demo = demo.with_context(|| format!("there is no demo of {system}"))?;
        let name = format!("demo-{system}");
        let inbox = out.join("inbox");
        let folder = inbox.join(&name);
        writable(&folder)?;
        (demo.folder)()
            .write(&folder)
            .with_context(|| format!("{}: the demo job", folder.display()))?;
        // Beside the inbox, in which it would be taken for a job.
        let shop = out.join("shop.toml");
        intake::write_atomic(&shop, include_bytes!("../../../../examples/shop.toml"))?;
        Ok(Demo { name, folder, shop })
    }
}
