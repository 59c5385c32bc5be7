//! `learn`: what the shop's own jobs teach: limits that known-good units keep, weights as counted, the own record.

mod curves;
mod jobs;
mod limits;
mod record;
mod weights;

use jobs::history;
pub use jobs::{jobs, read_case};
pub use limits::{samples, standing};

use super::report::now;
use super::store;
use crate::arguments::{LearnArguments, LearnTopic, Usage};
use crate::context::{AppContext, LearnedFolder};
use crate::words::tell;
use anyhow::Result;
use chrono::NaiveDateTime;
use intake::Store;

/// Shared state of the calls of `learn`.
struct Lesson {
    context: AppContext,
    folder: LearnedFolder,
    store: Box<dyn Store>,
    by: Option<String>,
    now: NaiveDateTime,
}

/// Shows what was learned, adopts it, or takes it back.
pub fn learn(arguments: LearnArguments) -> Result<bool> {
    let context = AppContext::open(arguments.shop.as_deref(), false)?;
    let folder = LearnedFolder::of(&context.settings).ok_or_else(|| {
        Usage(
            "name the shop's settings with --shop: what is learned lies in the folder that [learning] of shop.toml names; \
             of a shop among many keep a copy of its part of the bucket, shops/SHOP/, and name the shop.toml in it"
                .into(),
        )
    })?;
    if let Some(by) = &arguments.by
        && by.trim().is_empty()
    {
        return Err(Usage("--by: give the name of the person who adopts".into()).into());
    }
    let mut lesson = Lesson {
        store: store::open(&arguments.place)?,
        folder,
        context,
        by: arguments.by.map(|by| by.trim().to_owned()),
        now: now(),
    };
    let named = match arguments.value.is_empty() {
        true => None,
        false => Some(arguments.value.as_slice()),
    };
    let is_shared = lesson.store.folder().is_none();
    let done = match (arguments.topic, arguments.adopt, arguments.revert.clone()) {
        (LearnTopic::Record, false, None) => record::show(&mut lesson),
        (LearnTopic::Record, ..) => {
            Err(Usage("the record is shown; there is nothing to adopt or revert".into()).into())
        }
        (LearnTopic::Limits, false, None) => limits::show(&mut lesson, &arguments.include),
        (LearnTopic::Limits, true, _) => limits::adopt(
            &mut lesson,
            arguments.unit.as_deref(),
            named,
            &arguments.include,
        ),
        (LearnTopic::Limits, false, Some(unit)) => limits::revert(&lesson, &unit),
        (LearnTopic::Weights, false, None) => weights::show(&mut lesson),
        (LearnTopic::Weights, true, _) => weights::adopt(&mut lesson, named),
        (LearnTopic::Weights, false, Some(_)) => weights::revert(&lesson),
    }?;
    if done && is_shared && (arguments.adopt || arguments.revert.is_some()) {
        let folder = lesson.context.settings.shop.learning.folder.display();
        tell!(lesson.context.localizer(), "console-learn-put", "folder" => folder.to_string());
    }
    Ok(done)
}

impl Lesson {
    fn by(&self) -> Result<String> {
        let missing = || Usage("--by: who adopts or takes back is kept with it".into());
        Ok(self.by.clone().ok_or_else(missing)?)
    }
}
