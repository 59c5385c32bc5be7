//! Declarations of the systems that a job may examine: `system.toml` of each plugin library.

use crate::cause_sheet::Pattern;
use crate::exact::Exact;
use crate::labour::WorkStep;
use crate::role::Role;
use crate::shop_file::Operation;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// One system: what its channels measure, what makes it present in a job, what shows that it was examined, what to
/// record first, what its work is called.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct SystemSheet {
    /// Machine name, as in `[vehicle] systems`.
    pub name: String,
    /// True for declarations that every system needs; nothing is examined by this name.
    pub shared: bool,
    /// Roles that this system declares.
    #[serde(rename = "role")]
    pub roles: Vec<RoleDeclaration>,
    /// Roles that it uses and another system declares. They alone make no system present.
    pub uses: Vec<String>,
    /// True where a log of bus frames alone makes the system present.
    pub bus_log: bool,
    /// Findings of which one at least shows that the system was seen at work. Without, nothing is called healthy.
    pub examined: Vec<Pattern>,
    /// Sets of causes; where all of one set were tested, the system may be called healthy. Without a set, `examined`
    /// alone decides.
    pub healthy: Vec<HealthySet>,
    /// Recordings to ask for where no cause leads, most telling first.
    #[serde(rename = "first")]
    pub first_recordings: Vec<FirstRecording>,
    /// Steps of work that its repairs take.
    #[serde(rename = "labour")]
    pub labour_steps: Vec<LabourStep>,
    /// Limits that proven jobs may set.
    #[serde(rename = "learn")]
    pub learnable: Vec<LearnableLimit>,
    /// Curves of known-good units that are drawn behind a trace.
    #[serde(rename = "curve")]
    pub curves: Vec<Pattern>,
    /// Dangers of the work on the system.
    #[serde(rename = "hazard")]
    pub hazards: Vec<Hazard>,
    /// Dangers that each step of the work meets. The first that fits counts.
    #[serde(rename = "meets")]
    pub meets: Vec<Meets>,
}

/// Causes that must have been tested before the system may be called healthy.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HealthySet {
    /// Name of the operation in which they are tested: `standstill`.
    pub name: String,
    /// Causes.
    pub tested: Vec<String>,
    /// True where the set does not cover the whole system: the verdict then says what was not tested and how to.
    #[serde(default)]
    pub partial: bool,
}

/// Limit that proven jobs may set: the findings whose value is held against it.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LearnableLimit {
    /// Name of the value in the limits sheet.
    pub limit: String,
    /// Findings; their grade does not matter.
    pub when: Pattern,
    /// Bounds that may be learned: `low`, `high`. Left out, those that the limit has. A bound by which the findings are
    /// chosen in the first place cannot be learned from them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bounds: Vec<Bound>,
}

/// Bound of a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bound {
    /// Lowest good value.
    Low,
    /// Highest good value.
    High,
}

/// Recording to ask for.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FirstRecording {
    /// Key of lang/*.ftl.
    pub step: String,
    /// Roles that it would bring, alternatives with `|`; it is asked for while one of them was not recorded.
    pub roles: Vec<String>,
}

/// Step of work on the system: an operation of the example catalogue, which counts where a shop has none of its own.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LabourStep {
    /// Machine name, one for all systems.
    pub name: String,
    /// Key of lang/*.ftl that describes it.
    pub description: String,
    /// Step of the job. A shop's operations of the steps first-step, teardown, reassembly and relearn that name no cause
    /// are offered for systems whose work has that step.
    pub step: WorkStep,
    /// Invented hours; left out for what is stated by the person who did it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hours: Option<Exact>,
    /// Causes that it is offered for; empty for any.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub causes: Vec<String>,
    /// True where it is done on the opened unit.
    #[serde(default)]
    pub needs_teardown: bool,
}

impl LabourStep {
    /// Operation of the example catalogue with its description in a reader's language.
    pub fn operation(&self, description: String) -> Operation {
        Operation {
            code: format!("EXAMPLE-{}", self.name.to_uppercase()),
            description,
            step: self.step,
            hours: self.hours,
            flat_fee: None,
            minimum_charge: None,
            rate: None,
            tax: None,
            needs_teardown: self.needs_teardown,
            causes: self.causes.clone(),
            next: Vec::new(),
            parts: Vec::new(),
        }
    }
}

/// Danger of the work and the cautions that it calls for.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hazard {
    /// Name, as in `meets`.
    pub name: String,
    /// Keys of the safety cautions.
    #[serde(default)]
    pub cautions: Vec<String>,
    /// True where parts of a high-voltage system may be touched.
    #[serde(default)]
    pub high_voltage: bool,
}

/// Dangers that a step of the work meets.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Meets {
    /// Key of the step's sentence; `*` stands for any run of characters.
    pub step: String,
    /// Names of hazards; empty where nothing is touched.
    pub hazards: Vec<String>,
}

/// Declaration of what a channel may measure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoleDeclaration {
    /// Name of the role.
    pub name: String,
    /// Physical quantity of the channel.
    pub quantity: Quantity,
    /// Unit of the calibrated values: `A`, `V`.
    pub unit: String,
    /// Place in a plot, from the top: what drives stands above what is driven.
    pub plot_order: u32,
    /// Names by which channels of this role are known.
    #[serde(default, skip_serializing_if = "RoleNames::is_empty")]
    pub names: RoleNames,
    /// Signs of the role in a recording beside the channel's name.
    #[serde(default, skip_serializing_if = "RoleHints::is_empty")]
    pub hints: RoleHints,
}

/// Phrases in names of channels, by language tag. A phrase fits a name that has all of its words, in any order; in German
/// also as parts of longer words. Numbers are not part of a phrase: roles that differ by the number at their end share the
/// names of the first of them.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct RoleNames {
    /// Phrases that say the role whatever stands beside them: "input shaft".
    pub alone: PhrasesByLanguage,
    /// Phrases that say the role beside a word for its quantity, or in a channel with its unit: "fuse".
    pub with_quantity: PhrasesByLanguage,
    /// Phrases that say the role only beside a word for its quantity: "output" with "speed".
    pub with_word: PhrasesByLanguage,
    /// Phrases that leave something to guess: never used without a person's consent.
    pub unsure: PhrasesByLanguage,
    /// Phrases that count where the recording has the other roles of the same number family, or one of
    /// [`RoleHints::beside`]: "shaft".
    pub in_a_set: PhrasesByLanguage,
}

/// Phrases by language tag.
pub type PhrasesByLanguage = BTreeMap<String, Vec<String>>;

impl RoleNames {
    /// True where there is no phrase.
    pub fn is_empty(&self) -> bool {
        *self == RoleNames::default()
    }
}

/// Signs of a role in a recording beside the channel's name.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct RoleHints {
    /// Lowest and highest median of a recording of it, in its unit. A name whose values lie outside is doubted, and numbers
    /// without a unit are taken for volts only inside.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub usual: Option<(f64, f64)>,
    /// Lowest and highest value of a steady level by which a channel without a telling name is taken for it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub steady: Option<(f64, f64)>,
    /// True where the only channel of its quantity in a recording is most likely this one.
    pub only_channel: bool,
    /// True where a channel that changes between two levels is most likely one of these.
    pub two_levels: bool,
    /// True where a word for the quantity with this role's number may be meant: "N1".
    pub by_number: bool,
    /// Roles beside which a name of [`RoleNames::in_a_set`] or a bare number is safe.
    pub beside: Vec<String>,
    /// True where its names win over every other role's.
    pub excludes: bool,
    /// True where any number of channels may have it, since what it names is no part of a system.
    pub many: bool,
}

impl RoleHints {
    /// True where there is none.
    pub fn is_empty(&self) -> bool {
        *self == RoleHints::default()
    }
}

/// Physical quantity of a channel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Quantity {
    /// Current.
    Current,
    /// Voltage.
    Voltage,
    /// Pulses of a speed sensor, whatever it signals with; their shape needs no calibration.
    ToothSignal,
    /// Position or state signal.
    State,
}

/// All roles that the systems declare.
#[derive(Debug, Clone, Default)]
pub struct Roles(BTreeMap<String, Role>);

impl Roles {
    /// Roles of all systems.
    ///
    /// # Errors
    /// Two systems that declare one role differently, both named.
    pub fn declared_by<'a>(
        systems: impl IntoIterator<Item = &'a SystemSheet>,
    ) -> Result<Roles, String> {
        let mut all: BTreeMap<String, Role> = BTreeMap::new();
        let mut declared_by: BTreeMap<&str, &str> = BTreeMap::new();
        for system in systems {
            for role in &system.roles {
                match all.get(&role.name) {
                    Some(known) if known.declaration() != role => {
                        return Err(format!(
                            "the systems {} and {} declare the role {} differently",
                            declared_by[role.name.as_str()],
                            system.name,
                            role.name
                        ));
                    }
                    Some(_) => {}
                    None => {
                        all.insert(role.name.clone(), Role::declared(role.clone()));
                        declared_by.insert(&role.name, &system.name);
                    }
                }
            }
        }
        Ok(Roles(all))
    }

    /// Role of a name; `None` where no system declares it.
    pub fn get(&self, name: &str) -> Option<&Role> {
        self.0.get(name)
    }

    /// All roles, in the order of their names.
    pub fn iter(&self) -> impl Iterator<Item = &Role> {
        self.0.values()
    }
}

/// True where `text` is the pattern, `*` standing for any run of characters.
pub fn fits(pattern: &str, text: &str) -> bool {
    match pattern.split_once('*') {
        None => pattern == text,
        Some((head, rest)) => text.strip_prefix(head).is_some_and(|tail| {
            let ends = tail.char_indices().map(|(i, _)| i).chain([tail.len()]);
            ends.filter_map(|i| tail.get(i..))
                .any(|tail| fits(rest, tail))
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::fits;

    #[test]
    fn a_star_stands_for_any_run() {
        assert!(fits("repair-part-*-slip-2", "repair-part-1-slip-2"));
        assert!(fits("next-*", "next-"));
        assert!(fits("a*b*c", "a-b-b-c"));
        assert!(!fits("a*b*c", "a-c"));
    }
}
