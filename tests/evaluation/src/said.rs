//! The program's answer as an outsider reads it from case.json: schema `baybrief.case/1` or `/2`.
//!
//! Only published names are read, and none of the program's own types is used: a field that was renamed by mistake
//! shows here.

use serde::Deserialize;

/// The content of case.json as far as an evaluation needs it.
#[derive(Debug, Clone, Default, PartialEq, Deserialize)]
#[serde(default)]
pub struct Said {
    /// Schema name.
    pub schema: String,
    /// The leading verdict.
    pub verdict: SaidVerdict,
    /// Causes of schema 1.
    causes: Vec<SaidCause>,
    /// Systems of schema 2.
    pub systems: Vec<SaidSystem>,
    /// Findings.
    pub findings: Vec<SaidFinding>,
    /// Trouble codes.
    pub codes: Vec<SaidCode>,
    /// Files and what became of them.
    pub files: Vec<SaidFile>,
}

/// A verdict.
#[derive(Debug, Clone, Default, PartialEq, Deserialize)]
#[serde(default)]
pub struct SaidVerdict {
    /// System of the leading verdict; `None` in schema 1.
    pub system: Option<String>,
    /// `established`, `probable`, `open` or `nothing-found`.
    pub state: String,
    /// Cause; `None` when open or nothing was found.
    pub cause: Option<String>,
    /// A teardown is advised.
    pub teardown: bool,
}

/// A cause with its weight of evidence.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct SaidCause {
    /// Name.
    pub cause: String,
    /// Weight, decibans.
    #[serde(alias = "weight_db", alias = "weight_dban")]
    pub weight: f64,
    /// Rows of the cause sheet that applied; empty in schema 1, which does not name them.
    #[serde(default)]
    pub weights: Vec<SaidWeight>,
}

/// A row of the cause sheet that applied.
#[derive(Debug, Clone, Default, PartialEq, Deserialize)]
#[serde(default)]
pub struct SaidWeight {
    /// Name of the row.
    pub row: String,
    /// Weight, decibans.
    pub weight_dban: f64,
}

/// A system that was examined.
#[derive(Debug, Clone, Default, PartialEq, Deserialize)]
#[serde(default)]
pub struct SaidSystem {
    /// Name.
    pub system: String,
    /// Causes, heaviest first.
    pub causes: Vec<SaidCause>,
    /// Coverage: what was tested and what was not.
    pub coverage: Option<Coverage>,
}

/// Coverage: what was tested and what was not.
#[derive(Debug, Clone, Default, PartialEq, Deserialize)]
#[serde(default)]
pub struct Coverage {
    /// Causes that were tested.
    pub tested: Vec<String>,
}

/// A finding.
#[derive(Debug, Clone, Default, PartialEq, Deserialize)]
#[serde(default)]
#[allow(missing_docs)]
pub struct SaidFinding {
    pub kind: String,
    pub subject: Option<String>,
    pub file: Option<String>,
    pub start_s: Option<f64>,
    pub end_s: Option<f64>,
    pub duration_s: Option<f64>,
    pub value: Option<f64>,
    pub unit: Option<String>,
    /// `normal`, `abnormal`, `unusable`, `unreadable` or `not-tested`.
    pub grade: String,
}

impl SaidFinding {
    /// Returns true unless the grade says that no conclusion may rest on the finding.
    pub fn is_claim(&self) -> bool {
        !["unusable", "unreadable", "not-tested"].contains(&self.grade.as_str())
    }
}

/// A trouble code.
#[derive(Debug, Clone, Default, PartialEq, Deserialize)]
#[serde(default)]
pub struct SaidCode {
    /// Five characters.
    pub code: String,
    /// Two hexadecimal digits.
    pub failure_type: Option<String>,
    /// Words for its state.
    pub status: Vec<String>,
}

/// A file of the job.
#[derive(Debug, Clone, Default, PartialEq, Deserialize)]
#[serde(default)]
pub struct SaidFile {
    /// Path inside the job folder.
    pub path: String,
    /// `read`, or another word for a file that was not used.
    pub status: String,
    /// Message on how it was read, or why not.
    pub message: Option<String>,
}

impl Said {
    /// Reads the content of a case.json.
    ///
    /// # Errors
    /// Text that is no JSON of this shape, or an unknown schema or verdict state.
    pub fn parse(text: &[u8]) -> anyhow::Result<Said> {
        let said: Said = serde_json::from_slice(text)?;
        let schemas = ["baybrief.case/1", "baybrief.case/2"];
        anyhow::ensure!(
            schemas.contains(&said.schema.as_str()),
            "schema {:?} is none of {schemas:?}",
            said.schema
        );
        let states = ["established", "probable", "open", "nothing-found"];
        let state = said.verdict.state.as_str();
        anyhow::ensure!(
            states.contains(&state),
            "verdict.state {state:?} is none of {states:?}"
        );
        Ok(said)
    }

    /// Causes of the leading system, heaviest first.
    pub fn causes(&self) -> Vec<&SaidCause> {
        let leading = self
            .systems
            .iter()
            .find(|s| Some(&s.system) == self.verdict.system.as_ref())
            .or(self.systems.first());
        let mut causes: Vec<&SaidCause> =
            leading.map_or(&self.causes, |s| &s.causes).iter().collect();
        causes.sort_by(|a, b| b.weight.total_cmp(&a.weight));
        causes
    }

    /// Causes that were tested, of all systems; empty in schema 1, which does not say.
    pub fn tested(&self) -> impl Iterator<Item = &str> {
        let coverage = self.systems.iter().filter_map(|s| s.coverage.as_ref());
        coverage.flat_map(|c| c.tested.iter().map(String::as_str))
    }

    /// The answer in a few words: `established clutch-1-drag, teardown`.
    pub fn short(&self) -> String {
        let v = &self.verdict;
        let cause = v.cause.as_ref().map_or(String::new(), |c| format!(" {c}"));
        let teardown = if v.teardown { ", teardown" } else { "" };
        format!("{}{cause}{teardown}", v.state)
    }
}
