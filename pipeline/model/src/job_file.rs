//! job.toml: what the technician knows of the job.

use crate::SensorKind;
use chrono::NaiveDate;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::collections::BTreeMap;

/// job.toml. The file and everything in it may be left out.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct JobFile {
    /// `[job]`
    pub job: JobSection,
    /// `[client]`
    #[serde(skip_serializing_if = "ClientSection::is_empty")]
    pub client: ClientSection,
    /// `[customer]`
    pub customer: CustomerSection,
    /// `[vehicle]`
    pub vehicle: VehicleSection,
    /// `[unit]`
    #[serde(skip_serializing_if = "UnitSection::is_empty")]
    pub unit: UnitSection,
    /// `[concern]`
    pub concern: ConcernSection,
    /// `[[capture]]`
    #[serde(rename = "capture", skip_serializing_if = "Vec::is_empty")]
    pub captures: Vec<CaptureSection>,
    /// `[[photo]]`
    #[serde(rename = "photo", skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<PhotoSection>,
}

/// `[job]`
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct JobSection {
    /// The shop's number for the job; the folder's name where it is left out.
    pub number: Option<String>,
    /// The day the job was opened, a TOML date.
    #[serde(with = "toml_date", skip_serializing_if = "Option::is_none")]
    pub opened: Option<NaiveDate>,
    /// Who examined the vehicle.
    pub technician: Option<String>,
    /// Hours spent on the diagnosis, to be billed.
    pub diagnosis_hours: Option<f64>,
}

/// `[client]`: who called, such as another workshop. Left out where the owner did.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct ClientSection {
    /// Name.
    pub name: Option<String>,
    /// Postal address.
    pub address: Option<String>,
    /// Telephone.
    pub phone: Option<String>,
}

impl ClientSection {
    /// Returns whether nothing of it is stated.
    pub fn is_empty(&self) -> bool {
        *self == ClientSection::default()
    }
}

/// `[customer]`: who owns the vehicle.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct CustomerSection {
    /// Name.
    pub name: Option<String>,
    /// Postal address.
    pub address: Option<String>,
    /// Telephone.
    pub phone: Option<String>,
}

/// `[vehicle]`
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct VehicleSection {
    /// Vehicle number: 17 characters, ISO 3779; check digit where 49 CFR 565.15 applies.
    pub vin: Option<String>,
    /// Maker.
    pub make: Option<String>,
    /// Model.
    pub model: Option<String>,
    /// Model year.
    pub year: Option<u16>,
    /// Registration plate.
    pub plate: Option<String>,
    /// Odometer, km.
    pub odometer_km: Option<f64>,
    /// True where it has a high-voltage system, as hybrids do; `None` where nobody has said so.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub high_voltage: Option<bool>,
    /// Name of a limits sheet.
    pub unit: Option<String>,
    /// Systems to examine, the leading one first; empty to tell by the unit or by what was recorded.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub systems: Vec<String>,
}

/// `[unit]`: facts of the unit that no limits sheet may know.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct UnitSection {
    /// Rated capacity of the battery, Ah.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub battery_ah: Option<f64>,
    /// Rated cold cranking current of the battery, A.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub battery_cca_a: Option<f64>,
    /// Cylinders of the engine.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cylinders: Option<u32>,
    /// Poles of the alternator.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub alternator_poles: Option<u32>,
    /// Turns of the alternator per turn of the crankshaft.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pulley_ratio: Option<f64>,
    /// Commutator bars of the motor.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub motor_bars: Option<u32>,
    /// Rated resistance of the coil, ohm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub coil_ohm: Option<f64>,
    /// Pitch positions per turn of the wheel.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub teeth: Option<u32>,
    /// Positions of them without a tooth.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub missing_teeth: Option<u32>,
    /// Bit rate of the bus, kbit/s.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bit_rate: Option<f64>,
    /// Identifiers expected on the bus, 3 or 8 hexadecimal digits each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub expected_ids: Vec<String>,
}

impl UnitSection {
    fn is_empty(&self) -> bool {
        *self == UnitSection::default()
    }
}

/// `[concern]`
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ConcernSection {
    /// The complaint in the customer's words.
    pub text: Option<String>,
}

/// `[[capture]]`
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CaptureSection {
    /// The file's name inside the job folder.
    pub file: String,
    /// Recorded before or after the repair.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub phase: Option<Phase>,
    /// Selector position during the recording.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub selector: Option<Selector>,
    /// State of the engine during the recording.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub engine: Option<EngineState>,
    /// State of the vehicle or the part during the recording.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub state: Option<CaptureState>,
    /// Unit of the time column, where the file does not say: `s`, `ms`, `us`, `min`, `h`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub time_unit: Option<TimeUnit>,
    /// Names a channel preset, for channels that are always connected the same way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub preset: Option<String>,
    /// The channels by the name that the file gives them, with or without the unit behind it.
    #[serde(default)]
    pub channels: BTreeMap<String, ChannelSection>,
}

/// `[[photo]]`: a photo that the customer's report shows. One that is not named stays in the job alone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoSection {
    /// The file's name inside the job folder.
    pub file: String,
    /// Content of the photo in a sentence; also read aloud to those who cannot see it.
    pub caption: String,
}

/// A channel preset: channels that are always connected the same way. `preset` in `[[capture]]` names it.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct PresetFile {
    /// The name that job.toml calls it by.
    pub name: String,
    /// Description for a person.
    pub text: Option<String>,
    /// The channels by the name that the recorder gives them.
    pub channels: BTreeMap<String, ChannelSection>,
}

/// `[capture.channels."..."]`
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ChannelSection {
    /// Role of the channel.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub role: Option<String>,
    /// Current clamp: amperes per recorded volt.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub amps_per_volt: Option<f64>,
    /// value = recorded * scale + offset, in the role's unit (WAV: scale is the value at full scale).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scale: Option<f64>,
    /// value = recorded * scale + offset.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offset: Option<f64>,
    /// Unit of the recorded values, where the file does not say or says it wrong.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unit: Option<String>,
    /// Working principle of the speed sensor.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sensor: Option<SensorKind>,
    /// Pitch positions per turn; overrides the spec sheet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub teeth: Option<u32>,
    /// Positions of them without a tooth (1 on a 36-1 wheel).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub missing_teeth: Option<u32>,
    /// Accuracy of the probe, percent of the reading (k = 1).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub accuracy_percent: Option<f64>,
}

impl ChannelSection {
    /// This section, with keys that it lacks from `other`. A calibration is taken as a whole: a clamp's factor here is not
    /// mixed with a scale there.
    pub fn or(self, other: &ChannelSection) -> ChannelSection {
        let calibrated =
            self.amps_per_volt.is_some() || self.scale.is_some() || self.offset.is_some();
        let from = if calibrated { &self } else { other };
        ChannelSection {
            amps_per_volt: from.amps_per_volt,
            scale: from.scale,
            offset: from.offset,
            role: self.role.or_else(|| other.role.clone()),
            unit: self.unit.or_else(|| other.unit.clone()),
            sensor: self.sensor.or(other.sensor),
            teeth: self.teeth.or(other.teeth),
            missing_teeth: self.missing_teeth.or(other.missing_teeth),
            accuracy_percent: self.accuracy_percent.or(other.accuracy_percent),
        }
    }
}

/// State of the vehicle or the part during a recording.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum CaptureState {
    /// Ignition off, vehicle closed.
    KeyOff,
    /// Under load.
    Loaded,
    /// Without load.
    Free,
}

impl TimeUnit {
    /// Units per second.
    pub fn per_second(self) -> f64 {
        match self {
            TimeUnit::S => 1.0,
            TimeUnit::Ms => 1e3,
            TimeUnit::Us => 1e6,
            TimeUnit::Min => 1.0 / 60.0,
            TimeUnit::H => 1.0 / 3600.0,
        }
    }
}

/// Unit of a time column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum TimeUnit {
    /// Seconds.
    S,
    /// Milliseconds.
    Ms,
    /// Microseconds.
    Us,
    /// Minutes.
    Min,
    /// Hours.
    H,
}

/// Before or after the repair.
#[derive(Serialize, Deserialize, schemars::JsonSchema, strum::Display)]
#[serde(rename_all = "lowercase")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// Before the repair.
    Before,
    /// After the repair: proof.
    After,
}

/// Selector position.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[allow(missing_docs)]
pub enum Selector {
    P,
    R,
    N,
    D,
    S,
    M,
}

impl Selector {
    /// The letter.
    pub fn letter(self) -> &'static str {
        match self {
            Selector::P => "P",
            Selector::R => "R",
            Selector::N => "N",
            Selector::D => "D",
            Selector::S => "S",
            Selector::M => "M",
        }
    }
}

/// State of the engine during a recording.
#[derive(Serialize, Deserialize, schemars::JsonSchema, strum::Display, strum::IntoStaticStr)]
#[serde(rename_all = "lowercase")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EngineState {
    /// Running.
    Running,
    /// Off.
    Off,
    /// Turned by the starter.
    Cranking,
}

/// A TOML date on the outside, a chrono date on the inside.
pub mod toml_date {
    use super::*;

    /// Writes the day as a TOML date.
    ///
    /// # Errors
    /// When TOML cannot hold the day.
    pub fn serialize<S: Serializer>(d: &Option<NaiveDate>, s: S) -> Result<S::Ok, S::Error> {
        let day = d.map(|d| d.to_string().parse::<toml::value::Datetime>());
        match day {
            Some(Ok(d)) => d.serialize(s),
            _ => s.serialize_none(),
        }
    }

    /// Reads a TOML date (a date with a time keeps its day).
    ///
    /// # Errors
    /// When the value is no date.
    pub fn deserialize<'de, D: Deserializer<'de>>(d: D) -> Result<Option<NaiveDate>, D::Error> {
        use serde::de::Error;
        let Some(v) = Option::<toml::value::Datetime>::deserialize(d)? else {
            return Ok(None);
        };
        let day = v
            .date
            .ok_or_else(|| D::Error::custom("expected a date such as 2026-03-02"))?;
        NaiveDate::from_ymd_opt(day.year.into(), day.month.into(), day.day.into())
            .map(Some)
            .ok_or_else(|| D::Error::custom("there is no such day in the calendar"))
    }
}
