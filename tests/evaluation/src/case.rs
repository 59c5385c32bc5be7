//! Which case: its class, its seed, its overrides.

use crate::classes::{CLASSES, class};
use crate::params::{Overrides, Params};
use crate::render::{Case, render};
use crate::systems;
use anyhow::Context;
use serde::{Deserialize, Serialize};
use std::path::Path;

/// Everything that tells a case. As a TOML file it is a regression case.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CaseSpec {
    /// Class.
    pub class: String,
    /// Seed of its parameters.
    pub seed: u64,
    /// Description of the case for a person.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Overridden parameters.
    #[serde(default, skip_serializing_if = "Overrides::is_empty")]
    pub overrides: Overrides,
}

impl CaseSpec {
    /// Case `number` of a set: the classes take turns, all of them or those of `only`.
    pub fn numbered(seed: u64, number: usize, only: &[String]) -> Self {
        let among: Vec<&str> = CLASSES
            .iter()
            .map(|c| c.0)
            .filter(|name| only.is_empty() || only.iter().any(|o| o == name))
            .collect();
        CaseSpec {
            class: among[number % among.len()].into(),
            // TOML has signed integers: the top bit stays free.
            seed: seed.wrapping_mul(1_000_003).wrapping_add(number as u64) & i64::MAX as u64,
            note: String::new(),
            overrides: Overrides::new(),
        }
    }

    /// Case `number` of a set of the further systems: the classes take turns.
    pub fn of_systems(seed: u64, number: usize) -> Self {
        CaseSpec {
            class: systems::CLASSES[number % systems::CLASSES.len()].0.into(),
            ..CaseSpec::numbered(seed, number, &[])
        }
    }

    /// Reads a regression case.
    ///
    /// # Errors
    /// A file that cannot be read, is no TOML of this shape or names an unknown class.
    pub fn read(file: &Path) -> anyhow::Result<Self> {
        let text = std::fs::read_to_string(file)
            .with_context(|| format!("cannot read {}", file.display()))?;
        let spec: CaseSpec = toml::from_str(&text)
            .with_context(|| format!("{} is no regression case", file.display()))?;
        let known = class(&spec.class).is_some() || systems::class(&spec.class).is_some();
        known
            .then_some(())
            .with_context(|| format!("{}: no class {}", file.display(), spec.class))?;
        Ok(spec)
    }

    /// Makes the case. The same spec gives the same bytes. An unknown class counts as the first.
    pub fn make(&self, name: &str) -> Case {
        let mut p = Params::with_overrides(self.seed, self.overrides.clone());
        if let Some(make) = systems::class(&self.class) {
            return make(&mut p).finish(name, &self.class, &p);
        }
        let make = class(&self.class).unwrap_or(CLASSES[0].1);
        let draft = make(&mut p);
        render(name, &self.class, draft, &mut p)
    }
}

/// Name of a case's folder. It must not tell the class, so the number is scattered.
pub fn case_name(number: usize) -> String {
    format!("C-{:05}", (number * 7919 + 12_345) % 100_000)
}

/// Writes cases into `out/cases/NAME/` and their truths into `out/truth/NAME.json`.
///
/// # Errors
/// A folder or file that cannot be written.
pub fn generate(out: &Path, specs: &[CaseSpec]) -> anyhow::Result<()> {
    let truth_folder = out.join("truth");
    std::fs::create_dir_all(&truth_folder)
        .with_context(|| format!("cannot make {}", truth_folder.display()))?;
    for (number, spec) in specs.iter().enumerate() {
        let case = spec.make(&case_name(number));
        let folder = out.join("cases").join(&case.name);
        case.folder
            .write(&folder)
            .with_context(|| format!("cannot write {}", folder.display()))?;
        let file = truth_folder.join(format!("{}.json", case.name));
        std::fs::write(&file, serde_json::to_vec_pretty(&case.truth)?)
            .with_context(|| format!("cannot write {}", file.display()))?;
    }
    Ok(())
}
