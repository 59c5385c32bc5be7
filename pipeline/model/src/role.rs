//! Roles of channels, and the working principles of speed sensors.

use crate::system::{Quantity, RoleDeclaration};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize, Serializer};
use std::sync::Arc;

/// Role of a channel, declared by a system. Cheap to clone; equal and ordered by name, since a name is
/// declared once ([`crate::system::Roles`]).
#[derive(Debug, Clone)]
pub struct Role(Arc<RoleDeclaration>);

impl Role {
    /// Role of this declaration.
    pub fn declared(declaration: RoleDeclaration) -> Self {
        Role(Arc::new(declaration))
    }

    /// Name as in job.toml, case.json and the plugin interface.
    pub fn name(&self) -> &str {
        &self.0.name
    }

    /// The whole declaration.
    pub fn declaration(&self) -> &RoleDeclaration {
        &self.0
    }

    /// Unit of the calibrated values: `A`, `V`.
    pub fn unit(&self) -> &str {
        &self.0.unit
    }

    /// Place in a plot, from the top.
    pub fn plot_order(&self) -> u32 {
        self.0.plot_order
    }

    /// True for the pulses of a speed sensor.
    pub fn is_speed_sensor(&self) -> bool {
        self.0.quantity == Quantity::ToothSignal
    }

    /// True for a current.
    pub fn is_current(&self) -> bool {
        self.0.quantity == Quantity::Current
    }
}

impl PartialEq for Role {
    fn eq(&self, other: &Role) -> bool {
        self.name() == other.name()
    }
}

impl Eq for Role {}

impl PartialOrd for Role {
    fn partial_cmp(&self, other: &Role) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Role {
    fn cmp(&self, other: &Role) -> std::cmp::Ordering {
        self.name().cmp(other.name())
    }
}

impl PartialEq<str> for Role {
    fn eq(&self, name: &str) -> bool {
        self.name() == name
    }
}

impl PartialEq<&str> for Role {
    fn eq(&self, name: &&str) -> bool {
        self.name() == *name
    }
}

impl Serialize for Role {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}

/// Working principle of a speed sensor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SensorKind {
    /// Three-wire Hall sensor: a square wave, valid down to standstill.
    Hall,
    /// Variable reluctance: amplitude proportional to speed, nothing at standstill.
    Vr,
    /// Two-wire sensor that signals by its supply current.
    CurrentLoop,
}
