//! What every job of a run shares: the shop's settings, the sheets, the plugins, the words.

mod brought;

use crate::arguments::Usage;
use anyhow::{Context, Result};
use billing::BillingError;
use model::job_file::HookupFile;
use model::sheets::{CauseSheet, SpecSheet};
use model::system::Roles;
use model::{Case, ShopFile, VerdictState};
use plugin_host::{Host, HostOptions};
use report::Stationery;
use report::words::Words;
use std::path::{Path, PathBuf};

const SPEC_SHEETS: &[(&str, &str)] = &[(
    "dual-dry-clutch.toml",
    include_str!("../../../examples/spec-sheets/dual-dry-clutch.toml"),
)];

const CAUSE_SHEETS: &[(&str, &str)] = &[(
    "dual-dry-clutch.toml",
    include_str!("../../../examples/cause-sheets/dual-dry-clutch.toml"),
)];

const HOOKUPS: &[(&str, &str)] = &[
    (
        "fuse-and-shafts.toml",
        include_str!("../../../examples/hookups/fuse-and-shafts.toml"),
    ),
    (
        "both-clutch-motors.toml",
        include_str!("../../../examples/hookups/both-clutch-motors.toml"),
    ),
    (
        "wav-fuse-and-shafts.toml",
        include_str!("../../../examples/hookups/wav-fuse-and-shafts.toml"),
    ),
];

/// What every job of a run shares.
pub struct House {
    pub shop: ShopFile,
    /// Words, templates, logo and terms of the reports.
    pub stationery: Stationery,
    /// The file that the settings come from.
    pub settings_file: Option<PathBuf>,
    pub specs: Vec<SpecSheet>,
    pub causes: CauseSheet,
    /// Saved hook-ups; of two of one name the last counts.
    pub hookups: Vec<HookupFile>,
    pub host: Host,
    /// Roles that the systems declare.
    pub roles: Roles,
}

impl House {
    /// The report's sentences.
    pub fn words(&self) -> &Words {
        self.stationery.words()
    }

    /// Reads the settings and finds the plugins. Paths in shop.toml count from its folder.
    ///
    /// # Errors
    /// A shop.toml or a sheet that cannot be used is wrong usage: nothing may be billed by half-read settings.
    pub fn open(shop_path: Option<&Path>, in_process: bool) -> Result<House> {
        let settings = Settings::read(shop_path)?;
        let (shop, base) = (&settings.shop, &settings.base);
        billing::check(shop).map_err(|e| settings.wrong(&e))?;
        let at = |p: &PathBuf| base.join(p);
        let mut specs = sheets::<SpecSheet>(SPEC_SHEETS)?;
        let mut causes = sheets::<CauseSheet>(CAUSE_SHEETS)?;
        for folder in shop.sheets.folders.iter().map(at) {
            own_sheets(&folder.join("spec-sheets"), &mut specs)?;
            own_sheets(&folder.join("cause-sheets"), &mut causes)?;
        }
        let hookups = hookups(shop.sheets.folders.iter().map(at))?;
        let mut stationery = Stationery::open(shop, base).map_err(|e| Usage(e.to_string()))?;
        let host = Host::discover(&HostOptions {
            in_process,
            ..settings.plugins()
        });
        // A sheet of the same name stands later in the list and counts.
        specs.reverse();
        let mut causes = merged(causes);
        for wrong in brought::add(host.libraries(), &mut specs, &mut causes, &mut stationery) {
            tracing::warn!("{wrong}");
        }
        let is_cause = |name: &str| causes.causes.iter().any(|c| c.name == name);
        let is_next = |name: &str| {
            let of_causes = causes.causes.iter().flat_map(|c| &c.next);
            let of_blockers = causes.blockers.iter().flat_map(|b| &b.next);
            stationery.words().has(name) || of_causes.chain(of_blockers).any(|n| n == name)
        };
        billing::check_names(shop, &is_cause, &is_next).map_err(|e| settings.wrong(&e))?;
        Ok(House {
            settings_file: shop_path.map(|p| p.canonicalize().unwrap_or_else(|_| p.into())),
            shop: settings.shop,
            stationery,
            specs,
            causes,
            hookups,
            roles: brought::roles(host.libraries())?,
            host,
        })
    }

    /// The verdict in one sentence.
    pub fn sentence(&self, case: &Case) -> String {
        let v = &case.verdict;
        let cause = v
            .cause
            .as_deref()
            .map(|c| self.words().cause_title(c))
            .unwrap_or_default();
        let weight = case.causes.first().map_or(0.0, |c| c.weight_db);
        match v.state {
            VerdictState::Established if v.repair.as_ref().is_some_and(|r| r.proven) => {
                format!("was {cause}; the recording after the repair proves it mended")
            }
            VerdictState::Established if v.teardown => {
                format!("established: {cause} ({weight:.0} dB); the repair needs a teardown")
            }
            VerdictState::Established => format!("established: {cause} ({weight:.0} dB)"),
            VerdictState::Probable => {
                format!("probable: {cause} ({weight:.0} dB); not certain enough to act on alone")
            }
            VerdictState::Open => "open: the recordings do not carry a decision".into(),
            VerdictState::NothingFound => {
                "nothing found: what was recorded is as it should be".into()
            }
        }
    }

    /// The spec sheet that job.toml's `unit` names, the first built-in one where it names none.
    pub fn spec(&self, unit: Option<&str>) -> Option<&SpecSheet> {
        match unit {
            Some(name) => self.specs.iter().find(|s| s.name == name),
            None => self.specs.last(),
        }
    }
}

/// Where the plugins of a shop are looked for, without looking.
///
/// # Errors
/// A shop.toml that cannot be used.
pub fn plugin_options(shop: Option<&Path>) -> Result<HostOptions> {
    Ok(Settings::read(shop)?.plugins())
}

/// The file that keeps which plugin libraries crashed, in the folder for state of the XDG Base Directory
/// Specification; `None` where the system names no home.
pub fn crash_log() -> Option<PathBuf> {
    let absolute = |name: &str| {
        std::env::var_os(name)
            .map(PathBuf::from)
            .filter(|p| p.is_absolute())
    };
    let state =
        absolute("XDG_STATE_HOME").or_else(|| Some(absolute("HOME")?.join(".local/state")))?;
    Some(state.join("baybrief").join("plugin-crashes.json"))
}

/// shop.toml, and where it lies.
#[derive(Default)]
struct Settings {
    shop: ShopFile,
    base: PathBuf,
    name: String,
    text: String,
}

impl Settings {
    fn read(path: Option<&Path>) -> Result<Settings> {
        let Some(path) = path else {
            return Ok(Settings::default());
        };
        let text = read_text(path, "--shop")?;
        let name = path.display().to_string();
        Ok(Settings {
            shop: formats::settings::read_shop_file(&text, &name).map_err(|p| Usage(lines(&p)))?,
            base: path.parent().unwrap_or(Path::new("")).to_path_buf(),
            name,
            text,
        })
    }

    fn plugins(&self) -> HostOptions {
        let folders = self.shop.plugins.folders.iter();
        HostOptions {
            folders: folders.map(|p| self.base.join(p)).collect(),
            crash_log: crash_log(),
            ..HostOptions::default()
        }
    }

    /// The error with the line that it is about.
    fn wrong(&self, e: &BillingError) -> Usage {
        Usage(line(&e.in_file(&self.name, &self.text)))
    }
}

fn read_text(path: &Path, why: &str) -> Result<String> {
    std::fs::read_to_string(path)
        .map_err(|e| Usage(format!("{}: cannot be read for {why}: {e}", path.display())).into())
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

fn sheets<T: serde::de::DeserializeOwned>(built_in: &[(&str, &str)]) -> Result<Vec<T>> {
    built_in
        .iter()
        .map(|(name, text)| toml::from_str(text).with_context(|| format!("built-in sheet {name}")))
        .collect()
}

fn own_sheets<T: serde::de::DeserializeOwned>(folder: &Path, into: &mut Vec<T>) -> Result<()> {
    for path in &toml_files(folder) {
        let text = read_text(path, "a sheet ([sheets] folders)")?;
        let sheet = toml::from_str(&text).map_err(|e| Usage(format!("{}: {e}", path.display())))?;
        into.push(sheet);
    }
    Ok(())
}

/// The built-in hook-ups, then the shop's own from the folder `hookups` beside its sheets.
fn hookups(folders: impl Iterator<Item = PathBuf>) -> Result<Vec<HookupFile>> {
    let read = |text: &str, name: &str| {
        formats::settings::read_hookup(text, name).map_err(|p| Usage(lines(&p)))
    };
    let mut all = Vec::new();
    for (name, text) in HOOKUPS {
        all.push(read(text, name)?);
    }
    for path in folders.flat_map(|f| toml_files(&f.join("hookups"))) {
        let text = read_text(&path, "a hook-up ([sheets] folders)")?;
        all.push(read(&text, &path.display().to_string())?);
    }
    Ok(all)
}

/// The TOML files of a folder in the order of their names; none where there is no folder.
fn toml_files(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut paths: Vec<PathBuf> = entries
        .map(|e| e.path())
        .filter(|p| p.extension().is_some_and(|e| e == "toml"))
        .collect();
    paths.sort();
    paths
}

/// All cause sheets as one; a cause or blocker of a later sheet replaces one of the same name.
fn merged(sheets: Vec<CauseSheet>) -> CauseSheet {
    let mut all = CauseSheet::default();
    for sheet in sheets {
        for cause in sheet.causes {
            all.causes.retain(|c| c.name != cause.name);
            all.causes.push(cause);
        }
        for blocker in sheet.blockers {
            all.blockers.retain(|b| b.name != blocker.name);
            all.blockers.push(blocker);
        }
    }
    all
}
