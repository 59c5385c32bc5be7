//! Declarations of the systems that a job may examine: `system.toml` of each plugin library.

use crate::role::Role;
use crate::sheets::Pattern;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// One system: what its channels measure, what makes it present in a job, what shows that it was examined, what to
/// record first, what its work is called.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct SystemSheet {
    /// Machine name, as in `[vehicle] systems`: `start-and-charge`.
    pub name: String,
    /// Roles that this system declares.
    #[serde(rename = "role")]
    pub roles: Vec<RoleDeclaration>,
    /// Roles that it uses and another system declares. They alone make no system present.
    pub uses: Vec<String>,
    /// Whether a log of bus frames alone makes the system present.
    pub bus_log: bool,
    /// Findings of which one at least shows that the system was seen at work. Without, nothing is called healthy.
    pub examined: Vec<Pattern>,
    /// Recordings to ask for where no cause leads, most telling first.
    #[serde(rename = "first")]
    pub first_recordings: Vec<FirstRecording>,
    /// Steps of work that labour lines may be made of.
    #[serde(rename = "labour")]
    pub labour_steps: Vec<LabourStep>,
}

/// A recording to ask for.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FirstRecording {
    /// Key of lang/*.ftl: `next-record-both-shafts`.
    pub step: String,
    /// Roles that it would bring, alternatives with `|`; it is asked for while one of them was not recorded.
    pub roles: Vec<String>,
}

/// A step of work.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LabourStep {
    /// Machine name, as in the price book of shop.toml.
    pub name: String,
    /// Key of lang/*.ftl that describes it.
    pub description: String,
    /// Whether the step opens the unit.
    #[serde(default)]
    pub teardown: bool,
}

/// What a channel may measure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoleDeclaration {
    /// The role's name.
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
    pub fn of<'a>(systems: impl IntoIterator<Item = &'a SystemSheet>) -> Result<Roles, String> {
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
