//! Sheets from texts, checked and merged.

use super::{Knowledge, System};
use crate::VerdictState;
use crate::cause_sheet::{CauseEntry, CauseSheet, expand};
use crate::limits_sheet::{LimitValue, LimitsSheet};
use crate::system::{Roles, SystemSheet};
use serde::de::DeserializeOwned;
use std::collections::BTreeMap;

/// One library and the texts that it brings along.
#[derive(Debug, Clone, Default)]
pub struct Source {
    /// The library, as messages name it.
    pub name: String,
    /// True for a library of this program.
    pub built_in: bool,
    /// Names and contents: `system.toml`, `limits.toml`, `causes.toml`; others are left alone.
    pub texts: Vec<(String, String)>,
}

/// Sheets of the shop's own, by their file names.
#[derive(Debug, Clone, Default)]
pub struct ShopSheets {
    /// Limits sheets.
    pub limits: Vec<(String, String)>,
    /// Cause sheets.
    pub causes: Vec<(String, String)>,
}

/// `limits.toml` of a library that declares no system: numbers for the sheets of somebody else's.
#[derive(Debug, Default, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Numbers {
    system: String,
    #[serde(default)]
    value: BTreeMap<String, LimitValue>,
}

/// The sheets of one library.
struct Library<'a> {
    source: &'a Source,
    sheet: Option<SystemSheet>,
}

impl Source {
    fn text(&self, name: &str) -> Option<&str> {
        let found = self.texts.iter().find(|(n, _)| n == name);
        found.map(|(_, body)| body.as_str())
    }

    fn wrong(&self, text: &str, what: impl std::fmt::Display) -> String {
        format!("library {}: its {text}: {what}", self.name)
    }
}

impl Knowledge {
    /// Puts together what the libraries and the shop bring. Also returns what could not be used of libraries that are
    /// not built in, a sentence each.
    ///
    /// # Errors
    /// A sheet of a built-in library or of the shop that cannot be used; two systems that declare one role
    /// differently, or of one name, both named.
    pub fn read(sources: &[Source], shop: &ShopSheets) -> Result<(Knowledge, Vec<String>), String> {
        let mut refused = Vec::new();
        let mut libraries = Vec::new();
        for source in sources {
            match source
                .text("system.toml")
                .map(toml::from_str::<SystemSheet>)
            {
                Some(Err(e)) if source.built_in => return Err(source.wrong("system.toml", e)),
                Some(Err(e)) => refused.push(source.wrong("system.toml", e)),
                Some(Ok(sheet)) => libraries.push(Library {
                    source,
                    sheet: Some(sheet),
                }),
                None => libraries.push(Library {
                    source,
                    sheet: None,
                }),
            }
        }
        libraries.sort_by(|a, b| {
            // What all share comes first, what is not built in last.
            let key = |l: &Library<'_>| {
                let sheet = l.sheet.as_ref();
                let shared = sheet.is_some_and(|s| s.shared);
                (!l.source.built_in, !shared, sheet.map(|s| s.name.clone()))
            };
            key(a).cmp(&key(b))
        });
        let mut knowledge = Knowledge::default();
        knowledge.declare(&libraries)?;
        for library in &libraries {
            for result in [knowledge.add_limits(library), knowledge.add_causes(library)] {
                match result {
                    Err(e) if library.source.built_in => return Err(e),
                    Err(e) => refused.push(e),
                    Ok(()) => {}
                }
            }
        }
        for (file, text) in &shop.limits {
            knowledge.add_shop_limits(file, text)?;
        }
        for (file, text) in &shop.causes {
            knowledge.add_shop_causes(file, text)?;
        }
        knowledge.complete();
        Ok((knowledge, refused))
    }

    fn declare(&mut self, libraries: &[Library<'_>]) -> Result<(), String> {
        let sheets = || libraries.iter().filter_map(|l| l.sheet.as_ref());
        self.roles = Roles::declared_by(sheets())?;
        let mut names: BTreeMap<&str, &str> = BTreeMap::new();
        for library in libraries {
            let Some(sheet) = &library.sheet else {
                continue;
            };
            if let Some(other) = names.insert(&sheet.name, &library.source.name) {
                return Err(format!(
                    "the libraries {other} and {} both declare the system {}; take one of them away",
                    library.source.name, sheet.name
                ));
            }
            let declared = |name: &&String| self.roles.get(name).is_none();
            if let Some(role) = sheet.uses.iter().find(declared) {
                return Err(library
                    .source
                    .wrong("system.toml", format!("no system declares the role {role}")));
            }
            if sheet.shared {
                self.shared.push(sheet.clone());
            } else {
                self.systems.push(System {
                    sheet: sheet.clone(),
                    causes: CauseSheet::default(),
                    foreign: !library.source.built_in,
                });
            }
        }
        Ok(())
    }

    fn add_limits(&mut self, library: &Library<'_>) -> Result<(), String> {
        let source = library.source;
        let text = source.text("limits.toml");
        let Some(sheet) = &library.sheet else {
            let Some(text) = text else { return Ok(()) };
            let numbers: Numbers =
                toml::from_str(text).map_err(|e| source.wrong("limits.toml", e))?;
            let own = self.limits.iter_mut().find(|l| l.name == numbers.system);
            let own = own.ok_or_else(|| {
                source.wrong(
                    "limits.toml",
                    format!("there is no system {:?}", numbers.system),
                )
            })?;
            fill(own, &numbers.value);
            return Ok(());
        };
        let mut limits = match text {
            Some(text) => toml::from_str(text).map_err(|e| source.wrong("limits.toml", e))?,
            None => LimitsSheet::default(),
        };
        limits.system.clone_from(&sheet.name);
        limits.name.clone_from(&sheet.name);
        self.limits.push(limits);
        Ok(())
    }

    fn add_causes(&mut self, library: &Library<'_>) -> Result<(), String> {
        let source = library.source;
        let Some(text) = source.text("causes.toml") else {
            return Ok(());
        };
        let wrong = |what: String| source.wrong("causes.toml", what);
        let mut sheet: CauseSheet = parse(text).map_err(wrong)?;
        if let Some(own) = &library.sheet {
            sheet.system.clone_from(&own.name);
        }
        check(&sheet).map_err(wrong)?;
        if !source.built_in {
            self.check_foreign(&sheet).map_err(wrong)?;
            // Of a system that somebody else declares it may say what is probable, and establish nothing.
            let is_guest = library.sheet.is_none();
            for cause in &mut sheet.causes {
                cause.foreign = true;
                if is_guest {
                    cause.max_state = Some(VerdictState::Probable);
                }
            }
        }
        if library.sheet.as_ref().is_some_and(|s| s.shared) {
            // Every system has them; the shared libraries come before the others.
            for system in &mut self.systems {
                add(&mut system.causes, sheet.clone());
            }
            return Ok(());
        }
        let known = self.systems.iter().map(|s| s.sheet.name.as_str());
        let known = known.collect::<Vec<_>>().join(", ");
        let system = self
            .systems
            .iter_mut()
            .find(|s| s.sheet.name == sheet.system);
        let system = system.ok_or_else(|| {
            wrong(format!(
                "system: there is no {:?}; there are {known}",
                sheet.system
            ))
        })?;
        add(&mut system.causes, sheet);
        Ok(())
    }

    /// A cause of a foreign library stands for itself: it replaces none, explains none away and holds nothing open.
    fn check_foreign(&self, sheet: &CauseSheet) -> Result<(), String> {
        if let Some(known) = sheet.causes.iter().find(|new| self.is_cause(&new.name)) {
            return Err(format!(
                "the cause {} is known already, and a library adds causes but replaces none",
                known.name
            ));
        }
        if !sheet.inhibitors.is_empty() || !sheet.external.is_empty() {
            return Err(
                "it has an inhibitor or an external cause; only built-in libraries and the shop hold a verdict open"
                    .into(),
            );
        }
        let greedy = |c: &&CauseEntry| !c.specializes.is_empty() || c.fallback;
        match sheet.causes.iter().find(greedy) {
            Some(greedy) => Err(format!(
                "the cause {} specializes others or is a fallback; a library's cause stands for itself",
                greedy.name
            )),
            None => Ok(()),
        }
    }

    fn add_shop_limits(&mut self, file: &str, text: &str) -> Result<(), String> {
        let sheet: LimitsSheet = toml::from_str(text).map_err(|e| format!("{file}: {e}"))?;
        self.must_be_system(file, &sheet.system)?;
        match self.limits.iter_mut().find(|l| l.name == sheet.name) {
            Some(known) => {
                let replaced = std::mem::replace(known, sheet);
                fill(known, &replaced.value);
            }
            None => self.limits.push(sheet),
        }
        Ok(())
    }

    fn add_shop_causes(&mut self, file: &str, text: &str) -> Result<(), String> {
        let sheet: CauseSheet = parse(text)
            .and_then(|s| check(&s).map(|()| s))
            .map_err(|e| format!("{file}: {e}"))?;
        self.must_be_system(file, &sheet.system)?;
        let system = self
            .systems
            .iter_mut()
            .find(|s| s.sheet.name == sheet.system);
        if let Some(system) = system {
            add(&mut system.causes, sheet);
        }
        Ok(())
    }

    fn must_be_system(&self, file: &str, name: &str) -> Result<(), String> {
        if self.system(name).is_some() {
            return Ok(());
        }
        let known: Vec<&str> = self.systems.iter().map(|s| s.sheet.name.as_str()).collect();
        Err(format!(
            "{file}, key system: expected the system that the sheet is for, one of {}; found {name:?}",
            known.join(", ")
        ))
    }

    /// Fills in what sheets leave to their system's, and those to the shared ones.
    fn complete(&mut self) {
        let is_shared = |l: &LimitsSheet| self.shared.iter().any(|s| s.name == l.name);
        let (shared, mut limits): (Vec<_>, Vec<_>) = std::mem::take(&mut self.limits)
            .into_iter()
            .partition(is_shared);
        let own: Vec<LimitsSheet> = limits
            .iter()
            .filter(|l| l.name == l.system)
            .cloned()
            .collect();
        for sheet in &mut limits {
            let system = sheet.system.clone();
            let of_system = own.iter().filter(|o| o.name == system);
            for from in of_system.chain(&shared) {
                fill(sheet, &from.value);
            }
        }
        self.limits = limits;
    }
}

/// Adds the values that a sheet does not name itself.
fn fill(sheet: &mut LimitsSheet, values: &BTreeMap<String, LimitValue>) {
    for (name, value) in values {
        sheet
            .value
            .entry(name.clone())
            .or_insert_with(|| value.clone());
    }
}

fn parse<T: DeserializeOwned>(text: &str) -> Result<T, String> {
    // Read as it stands first: the message names the line.
    let mut table: toml::Table = toml::from_str(text).map_err(|e| e.to_string())?;
    expand(&mut table)?;
    match table.try_into() {
        Ok(sheet) => Ok(sheet),
        Err(e) => match toml::from_str::<T>(text) {
            Ok(_) => Err(e.to_string()),
            Err(with_line) if !text.contains("\nfor = ") => Err(with_line.to_string()),
            Err(_) => Err(e.to_string()),
        },
    }
}

fn check(sheet: &CauseSheet) -> Result<(), String> {
    for cause in &sheet.causes {
        for row in cause.rows.iter().filter(|r| r.negated) {
            if row.observable_on.is_none() || row.alive.is_none() {
                return Err(format!(
                    "the negated row {} of the cause {} needs observable_on (roles) and alive (findings): what was not \
                     seen counts only where it would have been",
                    row.name, cause.name
                ));
            }
        }
    }
    Ok(())
}

/// Adds a sheet; what has the name of a known entry replaces it.
fn add(to: &mut CauseSheet, sheet: CauseSheet) {
    for cause in sheet.causes {
        to.causes.retain(|c| c.name != cause.name);
        to.causes.push(cause);
    }
    for inhibitor in sheet.inhibitors {
        to.inhibitors.retain(|i| i.name != inhibitor.name);
        to.inhibitors.push(inhibitor);
    }
    for external in sheet.external {
        to.external.retain(|e| e.name != external.name);
        to.external.push(external);
    }
    for step in sheet.steps {
        to.steps.retain(|s| s.name != step.name);
        to.steps.push(step);
    }
}
