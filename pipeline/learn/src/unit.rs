//! Kind of unit that a learned limit speaks of, and whose vehicle a value came from.

use crate::text::slug;
use model::case::CaptureRecord;
use model::job_file::{EngineState, VehicleSection};
use model::{Case, SystemRecord};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::fmt;

/// Kind of unit under one condition of the engine. Only equal ones share a limit.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UnitKey {
    /// System.
    pub system: String,
    /// Limits sheet that job.toml names; `None` for the system's own, which speaks of no unit in particular.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<String>,
    /// Maker of the vehicle, in lower case.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub make: Option<String>,
    /// Model of the vehicle, in lower case.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub model: Option<String>,
    /// State of the engine, as it was stated: `running`, `cranking`, `off`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub engine: Option<String>,
}

impl UnitKey {
    /// Key of what is examined; `None` where neither the unit nor make and model are stated: nothing tells then that
    /// two vehicles have the same.
    pub fn new(
        system: &str,
        unit: Option<&str>,
        vehicle: &VehicleSection,
        engine: Option<EngineState>,
    ) -> Option<UnitKey> {
        let unit = unit.filter(|u| *u != system);
        let make = vehicle.make.as_deref().and_then(normal);
        let model = vehicle.model.as_deref().and_then(normal);
        let is_known = unit.is_some() || (make.is_some() && model.is_some());
        is_known.then(|| UnitKey {
            system: system.into(),
            unit: unit.map(Into::into),
            make,
            model,
            engine: engine.map(|e| e.to_string()),
        })
    }

    /// Key of a system of a case in one of its recordings; `None` as in [`UnitKey::new`].
    pub fn of_capture(
        case: &Case,
        system: &SystemRecord,
        capture: Option<&CaptureRecord>,
    ) -> Option<UnitKey> {
        let unit = system.unit_named.then_some(system.limits.as_str());
        let engine = capture.and_then(|c| Some(c.engine.as_ref()?.value));
        UnitKey::new(&system.system, unit, &case.vehicle, engine)
    }

    /// Name for folders and the command line: lower-case letters, digits and hyphens, with a digest of the key, so that
    /// no two keys share one.
    pub fn name(&self) -> String {
        let parts = [&self.unit, &self.make, &self.model, &self.engine];
        let mut all = vec![self.system.as_str()];
        all.extend(parts.into_iter().flatten().map(String::as_str));
        let digest = digest(&format!("{self:?}"));
        format!("{}-{}", slug(&all.join("-")), &digest[..6])
    }
}

impl fmt::Display for UnitKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.unit.as_deref().unwrap_or(&self.system))?;
        for part in [&self.make, &self.model].into_iter().flatten() {
            write!(f, ", {part}")?;
        }
        match &self.engine {
            Some(engine) => write!(f, ", engine {engine}"),
            None => f.write_str(", state of the engine not stated"),
        }
    }
}

fn normal(text: &str) -> Option<String> {
    let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    (!words.is_empty()).then(|| words.join(" "))
}

/// Digest that tells vehicles apart: of the vehicle number, else the plate, else the job's name. It never leaves the
/// shop's folder.
pub fn vehicle_id(vehicle: &VehicleSection, job: &str) -> String {
    let sign = |text: &Option<String>| {
        let text = text.as_deref().unwrap_or_default();
        let letters: String = text.chars().filter(|c| c.is_alphanumeric()).collect();
        (!letters.is_empty()).then(|| letters.to_uppercase())
    };
    let said = match (sign(&vehicle.vin), sign(&vehicle.plate)) {
        (Some(vin), _) => format!("vin {vin}"),
        (None, Some(plate)) => format!("plate {plate}"),
        (None, None) => format!("job {job}"),
    };
    digest(&said)[..16].to_owned()
}

fn digest(text: &str) -> String {
    let bytes = Sha256::digest(text.as_bytes());
    bytes.iter().map(|b| format!("{b:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_vehicle_is_the_same_however_its_number_is_written() {
        let of = |vin: Option<&str>, plate: Option<&str>| {
            let vehicle = VehicleSection {
                vin: vin.map(Into::into),
                plate: plate.map(Into::into),
                ..VehicleSection::default()
            };
            vehicle_id(&vehicle, "J-1")
        };
        assert_eq!(of(Some("zz0 1234"), None), of(Some("ZZ01234"), Some("X")));
        assert_eq!(of(None, Some("AB-12 c")), of(Some(" "), Some("ab12C")));
        assert_ne!(of(None, Some("AB12C")), of(None, None));
    }

    #[test]
    fn a_key_needs_a_unit_or_a_model() {
        let mut vehicle = VehicleSection {
            make: Some("Sample  Works".into()),
            ..VehicleSection::default()
        };
        assert_eq!(UnitKey::new("pump", None, &vehicle, None), None);
        assert!(UnitKey::new("pump", Some("pump-9"), &vehicle, None).is_some());
        assert_eq!(UnitKey::new("pump", Some("pump"), &vehicle, None), None);
        vehicle.model = Some("One".into());
        let key = UnitKey::new("pump", None, &vehicle, Some(EngineState::Off)).expect("a key");
        assert_eq!(key.make.as_deref(), Some("sample works"));
        assert!(
            key.name().starts_with("pump-sample-works-one-off-"),
            "{}",
            key.name()
        );
        assert_eq!(key.to_string(), "pump, sample works, one, engine off");
    }
}
