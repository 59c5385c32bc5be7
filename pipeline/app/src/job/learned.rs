//! Limits and curves that the shop's own jobs gave, for the unit and the vehicle of one job.

use super::derive::Derived;
use learn::InForce;
use learn::unit::{UnitKey, vehicle_id};
use model::KnownGoodCurve;
use model::job_file::EngineState;
use model::knowledge::Examined;
use model::limits_sheet::LimitsSheet;
use std::collections::BTreeMap;

/// Learned limits by the system that they belong to.
pub type Sheets = BTreeMap<String, LimitsSheet>;

/// Learned limits of one job.
#[derive(Debug, Clone)]
pub struct LearnedLimits<'l> {
    in_force: &'l InForce,
    vehicle: String,
}

impl<'l> LearnedLimits<'l> {
    /// Learned limits for the job of that name.
    pub fn new(in_force: &'l InForce, derived: &Derived<'_>, name: &str) -> LearnedLimits<'l> {
        LearnedLimits {
            in_force,
            vehicle: vehicle_id(&derived.vehicle, name),
        }
    }

    /// Learned limits under a state of the engine.
    pub fn sheets(&self, derived: &Derived<'_>, engine: Option<EngineState>) -> Sheets {
        let examined = derived.plan.examined.iter();
        let sheets = examined.filter_map(|e| {
            let key = key(e, derived, engine)?;
            let sheet = self.in_force.limits(&key, &self.vehicle, e.limits)?;
            Some((e.system.sheet.name.clone(), sheet))
        });
        sheets.collect()
    }

    /// Learned limits for what is measured over all recordings: those of the state that they share.
    pub fn sheets_of_job(&self, derived: &Derived<'_>) -> Sheets {
        let states = engine_states(derived);
        match states.as_slice() {
            [state] => self.sheets(derived, *state),
            _ => Sheets::new(),
        }
    }

    /// Curves of known-good units of a system that is examined.
    pub fn curves(&self, examined: &Examined<'_>, derived: &Derived<'_>) -> Vec<KnownGoodCurve> {
        let states = engine_states(derived).into_iter();
        let keys = states.filter_map(|state| key(examined, derived, state));
        keys.flat_map(|key| self.in_force.curves(&key)).collect()
    }
}

fn key(
    examined: &Examined<'_>,
    derived: &Derived<'_>,
    engine: Option<EngineState>,
) -> Option<UnitKey> {
    let unit = examined.unit_named.then_some(examined.limits.name.as_str());
    UnitKey::new(&examined.system.sheet.name, unit, &derived.vehicle, engine)
}

/// Stated states of the engine, each once, in the order of the recordings.
fn engine_states(derived: &Derived<'_>) -> Vec<Option<EngineState>> {
    let mut states = Vec::new();
    for stated in &derived.stated {
        let state = stated.conditions.engine.as_ref().map(|e| e.value);
        if !states.contains(&state) {
            states.push(state);
        }
    }
    states
}
