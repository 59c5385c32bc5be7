//! Which systems a job examines, and by which limits.

use super::{Knowledge, System};
use crate::job_file::VehicleSection;
use crate::limits_sheet::LimitsSheet;

/// Systems that a job examines.
#[derive(Debug, Clone, Default)]
pub struct Plan<'k> {
    /// The systems. Where job.toml says so, the leading one is the first.
    pub examined: Vec<Examined<'k>>,
    /// True where the first of them leads whatever the others come to.
    pub lead_is_named: bool,
    /// Names in job.toml that nothing has. With an unknown unit no verdict is drawn.
    pub unknown: Vec<UnknownName>,
}

/// One system that is examined.
#[derive(Debug, Clone, Copy)]
pub struct Examined<'k> {
    /// The system.
    pub system: &'k System,
    /// The limits that its measurements are held against.
    pub limits: &'k LimitsSheet,
    /// True where job.toml names the unit, false for the system's own limits.
    pub unit_named: bool,
}

/// Name in job.toml that nothing has.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownName {
    /// Key of `[vehicle]`: `unit` or `systems`.
    pub key: &'static str,
    /// The name.
    pub name: String,
    /// Names that there are.
    pub known: Vec<String>,
}

/// Roles and logs that were recorded in a job.
#[derive(Debug, Clone, Default)]
pub struct Recorded<'a> {
    /// Roles of all channels.
    pub roles: Vec<&'a str>,
    /// True where a log of bus frames was read.
    pub bus_log: bool,
}

impl Plan<'_> {
    /// True where the unit is one that nobody knows: measurements are made, causes are not judged.
    pub fn unit_is_unknown(&self) -> bool {
        self.unknown.iter().any(|u| u.key == "unit")
    }
}

impl Knowledge {
    /// Systems that a job examines: those that `systems` names; else the one whose sheet `unit` names; else each of
    /// which a role that it alone declares was recorded, or a log of its bus.
    pub fn plan(&self, vehicle: &VehicleSection, recorded: &Recorded<'_>) -> Plan<'_> {
        let mut unknown = Vec::new();
        let unit = vehicle.unit.as_deref();
        let sheet = unit.and_then(|unit| self.limits_sheet(unit));
        if let (Some(unit), None) = (unit, sheet) {
            unknown.push(UnknownName {
                key: "unit",
                name: unit.into(),
                known: self.limits.iter().map(|l| l.name.clone()).collect(),
            });
        }
        for name in vehicle.systems.iter().filter(|n| self.system(n).is_none()) {
            unknown.push(UnknownName {
                key: "systems",
                name: name.clone(),
                known: self.systems.iter().map(|s| s.sheet.name.clone()).collect(),
            });
        }
        let named: Vec<&System> = vehicle
            .systems
            .iter()
            .filter_map(|n| self.system(n))
            .collect();
        let (systems, lead_is_named) = match (named.is_empty(), sheet) {
            (false, _) => (named, true),
            (true, Some(sheet)) => (self.system(&sheet.system).into_iter().collect(), true),
            (true, None) => (self.present(recorded), false),
        };
        Plan {
            examined: systems
                .into_iter()
                .filter_map(|s| self.examined(s, sheet))
                .collect(),
            lead_is_named,
            unknown,
        }
    }

    fn examined<'k>(
        &'k self,
        system: &'k System,
        unit: Option<&'k LimitsSheet>,
    ) -> Option<Examined<'k>> {
        let unit = unit.filter(|sheet| sheet.system == system.sheet.name);
        Some(Examined {
            system,
            limits: unit.or_else(|| self.limits_sheet(&system.sheet.name))?,
            unit_named: unit.is_some(),
        })
    }

    /// Systems of which a role that they alone declare was recorded. What several share makes none present.
    fn present(&self, recorded: &Recorded<'_>) -> Vec<&System> {
        let alone = |role: &str| {
            let sheets = self.systems.iter().map(|s| &s.sheet).chain(&self.shared);
            sheets
                .filter(|s| s.roles.iter().any(|r| r.name == role))
                .count()
                == 1
        };
        let is_present = |s: &&System| {
            let own = s.sheet.roles.iter().map(|r| r.name.as_str());
            (s.sheet.bus_log && recorded.bus_log)
                || own
                    .filter(|r| alone(r))
                    .any(|r| recorded.roles.contains(&r))
        };
        self.systems.iter().filter(is_present).collect()
    }
}
