//! The verbs.

mod demo;
mod exchange;
#[cfg(feature = "fleet")]
mod fleet;
mod init;
mod inspect;
pub(crate) mod learn;
pub(crate) mod outcome;
mod pin;
mod plugins;
pub(crate) mod report;
mod run;
mod seal;
mod serve;
pub(crate) mod sign;
mod status;
mod store;
mod verify;
mod watch;
pub(crate) mod work;

pub use report::shop_of;

use crate::arguments::Command;
use crate::output::say;
use anyhow::Result;

/// Does what was asked. `Ok(false)` when a file or a job was set aside.
pub fn run(command: Command) -> Result<bool> {
    match command {
        Command::Run { folders, common } => run::run(&folders, &common),
        Command::Watch(arguments) => watch::watch(&arguments),
        #[cfg(feature = "fleet")]
        Command::Work(arguments) => fleet::work(arguments),
        Command::Serve(arguments) => serve::serve(&arguments),
        Command::Sign { by, note, report } => sign::sign(&by, note, report),
        Command::Authorise(arguments) => work::authorise(arguments),
        Command::Decline { work, how } => work::decline(work, how),
        Command::Complete { work, hours, undo } => work::complete(work, hours, undo),
        Command::Outcome(arguments) => outcome::outcome(arguments),
        Command::Learn(arguments) => learn::learn(arguments),
        Command::Export(arguments) => exchange::export(arguments),
        Command::Import(arguments) => exchange::import(arguments),
        Command::Seal(arguments) => seal::seal(arguments),
        Command::Verify(arguments) => verify::verify(arguments),
        Command::Status { job, fetch, place } => {
            status::status(job.as_deref(), fetch.as_deref(), &place)
        }
        Command::Inspect { files, json, shop } => inspect::inspect(&files, json, shop.as_deref()),
        Command::Plugins {
            validate: Some(library),
            seed,
            ..
        } => plugins::validate(&library, seed),
        Command::Plugins {
            unquarantine: Some(library),
            shop,
            ..
        } => plugins::unquarantine(&library, shop.as_deref()),
        Command::Plugins {
            pin: true, shop, ..
        } => plugins::pin(shop.as_deref()),
        Command::Plugins { shop, .. } => plugins::list(shop.as_deref()),
        Command::Demo {
            system,
            out,
            page: true,
        } => demo::demo_page(&system, &out),
        Command::Demo { system, out, .. } => demo::demo(&system, &out),
        Command::Pin { name, remove, shop } => pin::pin(&name, remove, &shop),
        Command::Init { file } => init::init(&file),
        Command::Schema => {
            let schema = schemars::schema_for!(model::Case);
            say!("{}", serde_json::to_string_pretty(&schema)?);
            Ok(true)
        }
    }
}
