//! Everything that the jobs of a run share: the shop's settings, the knowledge of the systems, the plugins, the
//! sentences.

mod assets;
mod learned;
mod shop;

pub use assets::SHEET_FOLDERS;
pub use learned::{Imported, LearnedFolder, folder_name, read_signed};
pub use shop::{Settings, crash_log, language};

use crate::arguments::Usage;
use crate::job::{AtHand, Step};
use crate::memory::{self, Memory};
use crate::words;
use crate::words::fluent_args;
use ::settings::KnownNames;
use anyhow::Result;
use learn::{InForce, UnitKey};
use model::Case;
use model::job_file::PresetFile;
use model::knowledge::Knowledge;
use model::limits_sheet::LimitValue;
use plugin_host::{Host, HostOptions};
use report::ReportTheme;
use report::localizer::Localizer;
use std::collections::HashMap;
use std::path::Path;
use std::sync::Arc;

/// Everything that the jobs of a run share.
pub struct AppContext {
    /// Settings of the shop.
    pub settings: Settings,
    /// Systems, limits and causes; with the weights that the shop counted.
    pub knowledge: Knowledge,
    /// Limits that the shop learned from its own jobs.
    pub learned: InForce,
    /// Channel presets; of two of one name the last counts.
    pub presets: Vec<PresetFile>,
    /// The plugins.
    pub host: Host,
    /// Sentences, templates, logo and terms of the reports.
    pub theme: Arc<ReportTheme>,
    /// Memory for all of it.
    pub memory: Memory,
    /// The job that is done with it.
    pub at_hand: Arc<AtHand>,
}

impl AppContext {
    /// Reads the settings and finds the plugins. Paths in shop.toml count from its folder.
    ///
    /// # Errors
    /// A shop.toml or a sheet that cannot be used is wrong usage: nothing may be billed by half-read settings. So are
    /// two systems that contradict each other.
    pub fn open(shop: Option<&Path>, in_process: bool) -> Result<AppContext> {
        AppContext::open_within(shop, in_process, Memory::default())
    }

    /// The same with so much memory for this process and its workers.
    ///
    /// # Errors
    /// As [`AppContext::open`].
    pub fn open_within(
        shop: Option<&Path>,
        in_process: bool,
        memory: Memory,
    ) -> Result<AppContext> {
        AppContext::with_settings(Settings::read(shop)?, in_process, memory)
    }

    /// The same with settings that were read already.
    ///
    /// # Errors
    /// As [`AppContext::open`].
    pub fn with_settings(
        mut settings: Settings,
        in_process: bool,
        memory: Memory,
    ) -> Result<AppContext> {
        memory.take_effect();
        settings.check_billing()?;
        let mut theme =
            ReportTheme::open(&settings.shop, &settings.base).map_err(|e| Usage(e.to_string()))?;
        let host = Host::discover(&HostOptions {
            in_process,
            memory_limit_bytes: memory.of_worker(),
            parallel: memory.workers(),
            samples_in_memory_bytes: memory.for_samples(),
            scratch: memory::folder(),
            ..settings.host_options()
        });
        words::add_to(&mut theme).map_err(|e| Usage(e.to_string()))?;
        let own = assets::ShopFolders::read(&settings)?;
        let (mut knowledge, refused) =
            Knowledge::read(&assets::sources(host.libraries()), &own.sheets).map_err(Usage)?;
        let unworded = assets::add_sentences(host.libraries(), &own.sentences, &mut theme)?;
        let (learned, stale) = learned_of(&settings, &mut knowledge)?;
        for message in refused.iter().chain(&unworded).chain(&stale) {
            tracing::warn!("{message}");
        }
        let describe = |key: &str| theme.localizer().message(key);
        settings.shop.billing.system_work = knowledge.work(describe);
        let is_next = |name: &str| theme.localizer().has(name) || knowledge.is_next(name);
        let named = settings.check_names(&|name| knowledge.is_cause(name), &is_next);
        match named {
            // Where a library is missing, so are its causes: no reason to do no job at all.
            Err(wrong) if host.refused().is_empty() && !knowledge.systems.is_empty() => {
                return Err(wrong.into());
            }
            Err(wrong) => tracing::warn!("{wrong}"),
            Ok(()) => {}
        }
        let roles = KnownNames {
            roles: knowledge.roles.iter().map(|r| r.name().into()).collect(),
            ..KnownNames::default()
        };
        Ok(AppContext {
            presets: assets::presets(host.libraries(), &own.presets, &roles)?,
            settings,
            knowledge,
            learned,
            host,
            theme: Arc::new(theme),
            memory,
            at_hand: Arc::default(),
        })
    }

    /// Notes the steps of jobs to come in `at_hand`.
    pub fn note_steps_in(&mut self, at_hand: &Arc<AtHand>) {
        self.at_hand = Arc::clone(at_hand);
        let libraries = self.host.libraries().iter();
        let system_of: HashMap<String, String> = libraries
            .flat_map(|l| {
                let system = &l.declaration.system;
                let analyzers = l.declaration.analyzers.iter();
                analyzers.map(|a| (a.id.clone(), system.clone()))
            })
            .collect();
        let at_hand = Arc::clone(at_hand);
        self.host.on_progress(move |analyzer, _| {
            if let Some(system) = system_of.get(analyzer) {
                let system = system.clone();
                at_hand.note(Step::Measuring { system });
            }
        });
    }

    /// Names that job.toml may use.
    pub fn known_names(&self) -> KnownNames {
        KnownNames {
            units: self
                .knowledge
                .limits
                .iter()
                .map(|l| l.name.clone())
                .collect(),
            systems: self
                .knowledge
                .systems
                .iter()
                .map(|s| s.sheet.name.clone())
                .collect(),
            roles: self
                .knowledge
                .roles
                .iter()
                .map(|r| r.name().into())
                .collect(),
            presets: self.presets.iter().map(|p| p.name.clone()).collect(),
        }
    }

    /// The sentences of the reports.
    pub fn localizer(&self) -> &Localizer {
        self.theme.localizer()
    }

    /// The verdict on the leading system in one sentence.
    pub fn sentence(&self, case: &Case) -> String {
        let (v, localizer) = (&case.verdict, self.localizer());
        let title = v.cause.as_deref().map(|c| localizer.cause_title(c));
        let weight = case.verdict_cause().map_or(0.0, |c| c.weight_dban);
        let arguments = fluent_args![
            "cause" => title.unwrap_or_default(),
            "weight" => localizer.weight(weight),
        ];
        localizer.message_with(&format!("console-verdict-{}", v.summary()), &arguments)
    }
}

/// Puts in force what the shop learned: weights into the knowledge, limits apart. Also returns what is left out.
fn learned_of(settings: &Settings, knowledge: &mut Knowledge) -> Result<(InForce, Vec<String>)> {
    let Some(folder) = LearnedFolder::of(settings) else {
        return Ok((InForce::default(), Vec::new()));
    };
    let mut stale = match folder.weights()?.last() {
        Some(weights) => learn::weights::apply(weights, knowledge),
        None => Vec::new(),
    };
    let (in_force, changed) = InForce::new(folder.sheets()?, &|key, limit| {
        standing_limit(knowledge, key, limit)
    });
    stale.extend(changed);
    Ok((in_force, stale))
}

/// Limit of a kind of unit that stands where nothing was learned of it.
pub fn standing_limit(knowledge: &Knowledge, key: &UnitKey, limit: &str) -> Option<LimitValue> {
    let unit = key.unit.as_deref().unwrap_or(&key.system);
    let sheet = knowledge.limits_sheet(unit)?;
    (sheet.system == key.system).then(|| sheet.value.get(limit).cloned())?
}

/// Problems, one a line.
pub fn lines(problems: &[model::Problem]) -> String {
    problems.iter().map(line).collect::<Vec<_>>().join("\n")
}

/// One problem as a line: file, place, message.
pub fn line(p: &model::Problem) -> String {
    match &p.place {
        Some(place) => format!("{}, {place}: {}", p.file, p.message),
        None => format!("{}: {}", p.file, p.message),
    }
}
