//! Declarations of the systems that a job may examine: `system.toml` of each plugin library.

use crate::cause_sheet::Pattern;
use crate::role::Role;
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
    /// Steps of work that labour lines may be made of.
    #[serde(rename = "labour")]
    pub labour_steps: Vec<LabourStep>,
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

/// Recording to ask for.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FirstRecording {
    /// Key of lang/*.ftl: `next-record-both-shafts`.
    pub step: String,
    /// Roles that it would bring, alternatives with `|`; it is asked for while one of them was not recorded.
    pub roles: Vec<String>,
}

/// Step of work.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LabourStep {
    /// Machine name, as in the price book of shop.toml.
    pub name: String,
    /// Key of lang/*.ftl that describes it.
    pub description: String,
    /// True where the step opens the unit.
    #[serde(default)]
    pub teardown: bool,
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
    /// Names by which channels of this role are known, by language tag.
    #[serde(default)]
    pub names: BTreeMap<String, Vec<String>>,
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
