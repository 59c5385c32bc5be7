//! Cause sheets: what explains what.

use crate::{Finding, Grade, VerdictState};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Candidate causes with their weights of evidence, and what holds a verdict open.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct CauseSheet {
    /// System that the sheet belongs to. In the folder of a system it may be left out.
    pub system: String,
    /// Candidate causes.
    #[serde(rename = "cause")]
    pub causes: Vec<CauseEntry>,
    /// Observations that hold a verdict open.
    #[serde(rename = "inhibitor")]
    pub inhibitors: Vec<Inhibitor>,
    /// Causes of other systems that explain findings of this one.
    pub external: Vec<ExternalCause>,
    /// Recordings that the steps to take next would bring.
    #[serde(rename = "step")]
    pub steps: Vec<Step>,
}

/// Step to take next: what it would bring.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Key of lang/*.ftl, as in `next`.
    pub name: String,
    /// Roles that it would record, alternatives with `|`. Where all of them were recorded already, the step tells nothing
    /// new and is not named.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub records: Vec<String>,
    /// Findings that it would give. Where one came to a result, the step tells nothing new either.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shows: Option<Pattern>,
    /// Answer in job.toml that it asks for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asks: Option<AskedFor>,
}

/// Answer in job.toml.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum AskedFor {
    /// Position of the selector.
    Selector,
    /// State of the engine.
    Engine,
    /// Teeth of a wheel.
    Teeth,
    /// Scale of a current channel.
    Scale,
}

/// Observation that holds a verdict open, whatever the weights say.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Inhibitor {
    /// Name of the inhibitor.
    pub name: String,
    /// Findings that it speaks of.
    pub when: Pattern,
    /// Target: `all`; `role` (the finding's subject is not fit for use, and every cause that needs it is held back);
    /// `fallback` (only what is left when nothing else is found); or causes by name with `|` between them. Except for
    /// `fallback`, nothing is called healthy either.
    pub blocks: String,
    /// Key of lang/*.ftl: the reason.
    pub reason: String,
    /// Keys of what to record or to state next.
    #[serde(default)]
    pub next: Vec<String>,
}

/// Cause of another system that explains findings of this one as well: a weak battery before a slow motor. Where the
/// verdict on that system names it, it is cleared first.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ExternalCause {
    /// Name of the row.
    pub name: String,
    /// The other system.
    pub system: String,
    /// Its causes; alternatives with `|`.
    pub causes: String,
    /// Causes of this system that it explains; alternatives with `|`.
    pub explains: String,
    /// Decibans, negative: what the evidence for those is worth less.
    pub weight_dban: f64,
    /// Why, in one sentence.
    pub reason: String,
    /// Origin of the weight; "judgement" is capped.
    pub source: String,
    /// Key of lang/*.ftl: what is done first.
    pub next: String,
}

/// One candidate cause.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CauseEntry {
    /// Name: `belt-worn`.
    pub name: String,
    /// True where the repair opens the unit. Only then may an established verdict advise a teardown.
    pub teardown: bool,
    /// Keys of the safety cautions of its tests and its repair.
    #[serde(default)]
    pub cautions: Vec<String>,
    /// Keys of the safety cautions for the driver while the cause is established, probable or suspected.
    #[serde(default)]
    pub driver: Vec<String>,
    /// Keys of what to record next while this cause is open, most telling first.
    #[serde(default)]
    pub next: Vec<String>,
    /// Wider names for the same thing: once all required rows of this cause apply, their evidence is not held against
    /// it.
    #[serde(default)]
    pub specializes: Vec<String>,
    /// Roles whose recording must be fit for use before the cause may be established; alternatives with `|`.
    #[serde(default)]
    pub roles: Vec<String>,
    /// Roles by which another kind of unit is known: where one of them was recorded and none of `roles`, the cause is none of
    /// the unit's and is not examined. Alternatives with `|`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub other_kind: Option<String>,
    /// Highest state that the cause may reach, whatever its weight: `probable`, where the evidence for it is of a kind
    /// that never proves it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub max_state: Option<VerdictState>,
    /// Marks what is left when nothing else is found: any inhibitor holds it back, and it yields to every other cause
    /// that is at least as likely to be called.
    #[serde(default)]
    pub fallback: bool,
    /// Tests of the cause: findings, normal or abnormal, that would have shown it. One of them suffices. Without such
    /// a finding the cause is not ruled out and counts as not tested.
    #[serde(default)]
    pub tested_by: Vec<Pattern>,
    /// Why it was not tested although its roles were recorded: a key of lang/*.ftl without `why-`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub untested: Option<String>,
    /// Weights of evidence.
    #[serde(default, rename = "row")]
    pub rows: Vec<WeightRow>,
    /// Set on loading where the cause comes from a library that is not built in.
    #[serde(skip)]
    pub foreign: bool,
}

/// One weight of evidence.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WeightRow {
    /// Name, unique in its cause.
    pub name: String,
    /// Findings that it speaks of.
    pub when: Pattern,
    /// Findings beside which the row does not apply.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unless: Option<Pattern>,
    /// Turns the row around: it applies where no such finding was made although the channel was fit for use
    /// (`observable_on`) and alive (`alive`). Unprobed is not zero, and a flat channel proves nothing.
    #[serde(default)]
    pub negated: bool,
    /// Of a negated row: the role (alternatives with `|`) on which it would have been seen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub observable_on: Option<String>,
    /// Of a negated row: findings that prove the channel alive in this session.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub alive: Option<Pattern>,
    /// Decibans, positive for the cause, negative against it.
    pub weight_dban: f64,
    /// Rows of one group rest on the same observation: only the strongest counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub group: Option<String>,
    /// True where the cause cannot be established without this row. Of several required rows of one group one is
    /// enough.
    #[serde(default)]
    pub required: bool,
    /// Why, in one sentence.
    pub reason: String,
    /// Origin of the weight; "judgement" is capped.
    pub source: String,
}

/// Findings that a row speaks of. What is left out matches everything, except that a pattern without a grade does not
/// match what was not tested or could not be read: that is no claim.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Pattern {
    /// Kind; alternatives with `|`.
    pub kind: String,
    /// Subject; alternatives with `|`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub subject: Option<String>,
    /// Grade.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grade: Option<Grade>,
    /// Message key; alternatives with `|`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub message: Option<String>,
    /// Arguments of the message that are words: one of the argument's words must be among the alternatives.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub args: BTreeMap<String, String>,
    /// Fewest such findings.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_least: Option<usize>,
}

/// True for the grade of a finding that claims something: not for what was not tested or could not be read.
pub fn is_claim(grade: Grade) -> bool {
    matches!(grade, Grade::Normal | Grade::Abnormal | Grade::Unusable)
}

/// True where `given` is one of the alternatives.
pub fn one_of(alternatives: &str, given: &str) -> bool {
    alternatives.split('|').any(|a| a == given)
}

impl Pattern {
    /// True for a finding that the pattern speaks of, its number apart.
    pub fn matches(&self, f: &Finding) -> bool {
        let grade = match self.grade {
            Some(grade) => grade == f.grade,
            None => is_claim(f.grade),
        };
        let subject = self.subject.as_ref().is_none_or(|wanted| {
            let given = f.subject.as_ref();
            given.is_some_and(|given| one_of(wanted, given))
        });
        let args = self.args.iter().all(|(name, wanted)| {
            let given = f.arg_str(name).unwrap_or_default();
            given.split_whitespace().any(|word| one_of(wanted, word))
        });
        one_of(&self.kind, &f.kind)
            && grade
            && subject
            && args
            && self.message.as_ref().is_none_or(|m| one_of(m, &f.message))
    }

    /// Kinds that it speaks of.
    pub fn kinds(&self) -> impl Iterator<Item = &str> {
        self.kind.split('|')
    }
}

/// Writes out the entries that stand for several: a table with `for`, a list of tables of words, becomes one table for
/// each of them, with `{word}` replaced in all of its texts.
pub(crate) fn expand(sheet: &mut toml::Table) -> Result<(), String> {
    for (list, value) in sheet.iter_mut() {
        let Some(entries) = value.as_array_mut() else {
            continue;
        };
        let mut all = Vec::new();
        for mut entry in std::mem::take(entries) {
            let variants = entry.as_table_mut().and_then(|t| t.remove("for"));
            let Some(variants) = variants else {
                all.push(entry);
                continue;
            };
            let variants: Vec<BTreeMap<String, String>> = variants
                .try_into()
                .map_err(|e| format!("[[{list}]] for: expected a list of tables of words: {e}"))?;
            all.extend(variants.iter().map(|words| substitute(&entry, words)));
        }
        *entries = all;
    }
    Ok(())
}

fn substitute(value: &toml::Value, words: &BTreeMap<String, String>) -> toml::Value {
    use toml::Value;
    match value {
        Value::String(text) => {
            let replace = |text: String, (word, by): (&String, &String)| {
                text.replace(&format!("{{{word}}}"), by)
            };
            Value::String(words.iter().fold(text.clone(), replace))
        }
        Value::Array(values) => Value::Array(values.iter().map(|v| substitute(v, words)).collect()),
        Value::Table(table) => Value::Table(
            table
                .iter()
                .map(|(key, v)| (key.clone(), substitute(v, words)))
                .collect(),
        ),
        other => other.clone(),
    }
}
