//! Declaration of a library: its analyzers with their outputs, and its assets. Owned, as the host keeps it.

use crate::series::{ColumnType, Form, Series};
use crate::{Observation, is_machine_name, is_version};
use serde::{Deserialize, Serialize};

/// Declaration of a library.
#[derive(Debug, Default, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LibraryDeclaration {
    /// Machine name of the system that it examines.
    pub system: String,
    /// Name for people.
    pub name: String,
    /// Version, `major.minor.patch`.
    pub version: String,
    /// Who made it.
    pub vendor: String,
    /// Its analyzers in the order in which they run.
    pub analyzers: Vec<AnalyzerDeclaration>,
    /// Files that it brings along, unread.
    pub assets: Vec<Asset>,
}

/// Declaration of an analyzer.
#[derive(Debug, Default, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnalyzerDeclaration {
    /// Machine name, never changed.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Scope of its calls.
    pub scope: Scope,
    /// Requirements, all of which must be met; each is a role, or several with `|` between them.
    pub needs: Vec<String>,
    /// Further roles that it can use.
    pub uses: Vec<String>,
    /// Names of the series that it can use.
    pub inputs: Vec<String>,
    /// Its outputs.
    pub outputs: Outputs,
}

/// Outputs of an analyzer: the host refuses others.
#[derive(Debug, Default, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Outputs {
    /// Kinds of findings.
    pub kinds: Vec<KindDeclaration>,
    /// Sentences.
    pub messages: Vec<MessageDeclaration>,
    /// Derived series.
    pub series: Vec<SeriesDeclaration>,
}

/// A kind of finding.
#[derive(Debug, Default, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KindDeclaration {
    /// Machine name.
    pub name: String,
    /// Units of its value, one of which is used; empty where it has no value.
    pub units: Vec<String>,
}

/// A sentence.
#[derive(Debug, Default, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct MessageDeclaration {
    /// Machine name: a key of lang/*.ftl.
    pub name: String,
    /// Names of its arguments.
    pub args: Vec<String>,
}

/// A derived series.
#[derive(Debug, Default, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SeriesDeclaration {
    /// Machine name.
    pub name: String,
    /// Track or table.
    pub form: Form,
    /// Its columns.
    pub columns: Vec<ColumnDeclaration>,
}

/// A column of a derived series.
#[derive(Debug, Default, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ColumnDeclaration {
    /// Name.
    pub name: String,
    /// Unit of its values; empty for none, or for that of the channel.
    pub unit: String,
    /// Type of its values.
    pub r#type: ColumnType,
}

/// A file that a library brings along.
#[derive(Debug, Default, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Asset {
    /// `system.toml`, `limits.toml`, `causes.toml`, `lang/en.ftl`.
    pub name: String,
    /// Its content.
    pub body: String,
}

/// Scope of an analyzer's calls.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Scope {
    /// One recording at a time.
    #[default]
    Capture,
    /// The whole job, after all recordings: no channels, but all findings so far and the trouble codes.
    Job,
}

impl LibraryDeclaration {
    /// The asset of that name.
    pub fn asset(&self, name: &str) -> Option<&str> {
        let asset = self.assets.iter().find(|a| a.name == name);
        asset.map(|a| a.body.as_str())
    }

    /// Checks what the header asks of the texts of a declaration.
    ///
    /// # Errors
    /// The first rule that is broken.
    pub fn check(&self) -> Result<(), String> {
        machine_name("system", &self.system)?;
        if !is_version(&self.version) {
            return Err(format!(
                "its version {:?} is not major.minor.patch",
                self.version
            ));
        }
        for (what, text) in [("name", &self.name), ("vendor", &self.vendor)] {
            visible(what, text)?;
        }
        if self.analyzers.is_empty() {
            return Err("it has no analyzer".into());
        }
        for (i, analyzer) in self.analyzers.iter().enumerate() {
            let named = |e: String| format!("analyzer {i} ({:?}): {e}", analyzer.id);
            analyzer.check().map_err(named)?;
            if self.analyzers[..i].iter().any(|a| a.id == analyzer.id) {
                return Err(format!("two of its analyzers have the id {}", analyzer.id));
            }
        }
        for (i, asset) in self.assets.iter().enumerate() {
            if self.assets[..i].iter().any(|a| a.name == asset.name) {
                return Err(format!("it brings two assets named {:?}", asset.name));
            }
        }
        Ok(())
    }
}

impl AnalyzerDeclaration {
    fn check(&self) -> Result<(), String> {
        machine_name("id", &self.id)?;
        visible("name", &self.name)?;
        let Outputs {
            kinds,
            messages,
            series,
        } = &self.outputs;
        let names = (kinds.iter().map(|k| ("kind", &k.name)))
            .chain(messages.iter().map(|m| ("message", &m.name)))
            .chain(series.iter().map(|s| ("series", &s.name)));
        for (what, name) in names {
            machine_name(what, name)?;
        }
        let columns = series.iter().flat_map(|s| &s.columns);
        for column in columns {
            if !is_column_name(&column.name) {
                return Err(format!(
                    "the column {:?} is not made of a-z, 0-9 and _",
                    column.name
                ));
            }
        }
        Ok(())
    }
}

/// Roles of a requirement, one of which will do.
pub fn alternatives(need: &str) -> impl Iterator<Item = &str> {
    need.split('|').map(str::trim)
}

impl Outputs {
    /// Checks a finding against the declared kinds and messages.
    ///
    /// # Errors
    /// Names the first thing that is not declared.
    pub fn check_finding(&self, o: &Observation) -> Result<(), String> {
        let kind = self.kinds.iter().find(|k| k.name == o.kind);
        let kind = kind.ok_or_else(|| format!("the kind {} is not declared", o.kind))?;
        let unit = o.unit.as_deref();
        let is_declared = match unit {
            Some(unit) => kind.units.iter().any(|u| u == unit),
            None => o.value.is_none() || kind.units.is_empty(),
        };
        if !is_declared {
            return Err(format!(
                "{}: the unit {:?} is not declared, only {:?}",
                o.kind,
                unit.unwrap_or_default(),
                kind.units
            ));
        }
        let message = self.messages.iter().find(|m| m.name == o.message);
        let message = message
            .ok_or_else(|| format!("{}: the message {} is not declared", o.kind, o.message))?;
        match o.args.keys().find(|arg| !message.args.contains(arg)) {
            Some(arg) => Err(format!(
                "{}: the argument {arg} of {} is not declared",
                o.kind, o.message
            )),
            None => Ok(()),
        }
    }

    /// Checks a series against the declared ones.
    ///
    /// # Errors
    /// Names the first thing that is not declared.
    pub fn check_series(&self, series: &Series) -> Result<(), String> {
        let declared = self.series.iter().find(|d| d.name == series.name);
        let declared =
            declared.ok_or_else(|| format!("the series {} is not declared", series.name))?;
        let same = declared.form == series.form()
            && declared.columns.len() == series.columns.len()
            && declared.columns.iter().zip(&series.columns).all(|(d, c)| {
                d.name == c.name && d.unit == c.unit && d.r#type == c.values.column_type()
            });
        match same {
            true => Ok(()),
            false => Err(format!(
                "the series {} has another form or other columns than it declares",
                series.name
            )),
        }
    }
}

fn machine_name(what: &str, name: &str) -> Result<(), String> {
    match is_machine_name(name) {
        true => Ok(()),
        false => Err(format!(
            "its {what} {name:?} is not made of a-z, 0-9 and hyphens"
        )),
    }
}

fn visible(what: &str, text: &str) -> Result<(), String> {
    if text.trim().is_empty() || text.chars().any(char::is_control) {
        return Err(format!(
            "its {what} {text:?} is empty or has control characters"
        ));
    }
    Ok(())
}

/// True for a letter a-z followed by a-z, 0-9 and _.
pub(crate) fn is_column_name(name: &str) -> bool {
    let mut bytes = name.bytes();
    bytes.next().is_some_and(|b| b.is_ascii_lowercase())
        && bytes.all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_')
}
