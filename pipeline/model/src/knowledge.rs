//! Everything that is known of the systems: what the libraries bring along and the shop adds, put together once.

mod plan;
mod read;

pub use plan::{Examined, Plan, Recorded, UnknownName};
pub use read::{ShopSheets, Source};

use crate::cause_sheet::{AskedFor, CauseSheet};
use crate::limits_sheet::LimitsSheet;
use crate::shop_file::Operation;
use crate::system::{Hazard, Roles, SystemSheet, fits};
use crate::{Case, RankedCause, VerdictState};
use std::collections::BTreeMap;

/// Everything that is known of the systems.
#[derive(Debug, Clone, Default)]
pub struct Knowledge {
    /// Systems that a job may examine, in the order of their names.
    pub systems: Vec<System>,
    /// Declarations that all systems share.
    pub shared: Vec<SystemSheet>,
    /// Limits sheets: those of the systems first. Each has the values that it does not name itself from its system's
    /// sheet, and that from the shared ones.
    pub limits: Vec<LimitsSheet>,
    /// All roles.
    pub roles: Roles,
}

/// One system with what explains what in it.
#[derive(Debug, Clone, Default)]
pub struct System {
    /// Its declarations.
    pub sheet: SystemSheet,
    /// Its causes, with the inhibitors and steps that all systems share.
    pub causes: CauseSheet,
    /// True where its library is not built in.
    pub foreign: bool,
}

impl Knowledge {
    /// System of a name.
    pub fn system(&self, name: &str) -> Option<&System> {
        self.systems.iter().find(|s| s.sheet.name == name)
    }

    /// Operations of the work on each system, with those that all systems share. `describe` gives the sentence of a key.
    pub fn work(&self, describe: impl Fn(&str) -> String) -> BTreeMap<String, Vec<Operation>> {
        let operations = |system: &System| -> Vec<Operation> {
            let shared = self.shared.iter().flat_map(|s| &s.labour_steps);
            let steps = system.sheet.labour_steps.iter().chain(shared);
            steps
                .map(|step| step.operation(describe(&step.description)))
                .collect()
        };
        let systems = self.systems.iter();
        systems
            .map(|s| (s.sheet.name.clone(), operations(s)))
            .collect()
    }

    /// Limits sheet of a name.
    pub fn limits_sheet(&self, name: &str) -> Option<&LimitsSheet> {
        self.limits.iter().find(|l| l.name == name)
    }

    /// True for the name of a cause.
    pub fn is_cause(&self, name: &str) -> bool {
        self.systems
            .iter()
            .any(|s| s.causes.causes.iter().any(|c| c.name == name))
    }

    /// Answer in job.toml that a step asks for.
    pub fn asked_for(&self, step: &str) -> Option<AskedFor> {
        let mut steps = self.systems.iter().flat_map(|s| &s.causes.steps);
        steps.find(|s| s.name == step)?.asks
    }

    /// True for a step that is named somewhere as the next to take.
    pub fn is_next(&self, name: &str) -> bool {
        self.systems.iter().any(|s| {
            let of_causes = s.causes.causes.iter().flat_map(|c| &c.next);
            let of_inhibitors = s.causes.inhibitors.iter().flat_map(|i| &i.next);
            let first = s.sheet.first_recordings.iter().map(|f| &f.step);
            of_causes
                .chain(of_inhibitors)
                .chain(first)
                .any(|n| n == name)
        })
    }

    /// Cautions for the driver: those of the causes that the verdicts name, and of those that an open one still suspects.
    pub fn driver_cautions(&self, case: &Case) -> Vec<String> {
        let mut keys: Vec<String> = Vec::new();
        for record in &case.systems {
            let is_meant = |cause: &&RankedCause| match record.verdict.state {
                VerdictState::Established | VerdictState::Probable => {
                    record.verdict.cause.as_ref() == Some(&cause.cause)
                }
                VerdictState::Open => !cause.ruled_out && cause.weight_dban > 0.0,
                VerdictState::NothingFound => false,
            };
            let entries = self.system(&record.system).map(|s| &s.causes.causes);
            for cause in record.causes.iter().filter(is_meant) {
                let entry = entries.and_then(|all| all.iter().find(|e| e.name == cause.cause));
                for key in entry.iter().flat_map(|e| &e.driver) {
                    if !keys.contains(key) {
                        keys.push(key.clone());
                    }
                }
            }
        }
        match &case.verdict.repair {
            Some(repair) if repair.proven => Vec::new(),
            _ => keys,
        }
    }

    /// Cautions of these steps of the work on a system, each once. A step that nobody has placed is taken for work on
    /// the running vehicle, never for none. `high_voltage` is `None` where nobody has said whether the vehicle has such a
    /// system.
    pub fn cautions<'k>(
        &'k self,
        system: Option<&'k System>,
        steps: &[String],
        high_voltage: Option<bool>,
    ) -> Vec<&'k str> {
        let sheets: Vec<&SystemSheet> = system
            .map(|s| &s.sheet)
            .into_iter()
            .chain(&self.shared)
            .collect();
        let hazard = |name: &str| {
            sheets
                .iter()
                .find_map(|s| s.hazards.iter().find(|h| h.name == name))
        };
        let met = |step: &String| -> Vec<&'k Hazard> {
            let meets = sheets
                .iter()
                .find_map(|s| s.meets.iter().find(|m| fits(&m.step, step)));
            match meets {
                Some(meets) => meets.hazards.iter().filter_map(|h| hazard(h)).collect(),
                None => hazard(DEFAULT_HAZARD).into_iter().collect(),
            }
        };
        let mut hazards: Vec<&Hazard> = steps.iter().flat_map(met).collect();
        if hazards.iter().any(|h| h.high_voltage) {
            hazards.extend(match high_voltage {
                Some(true) => hazard("high-voltage"),
                None => hazard("high-voltage-unknown"),
                Some(false) => None,
            });
        }
        let mut keys: Vec<&str> = Vec::new();
        for key in hazards.iter().flat_map(|h| &h.cautions) {
            if !keys.contains(&key.as_str()) {
                keys.push(key);
            }
        }
        keys
    }
}

/// Hazard of a step that no sheet places.
const DEFAULT_HAZARD: &str = "running-vehicle";
