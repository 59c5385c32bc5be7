//! Content of one scan-tool text export.

mod bus_log;

pub use bus_log::{BusFrame, BusLog, NewBusFrame};

use crate::Problem;
use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Content of one scan-tool text export. Reading never fails: what could not be understood is left out
/// or named in `problems`.
#[derive(Debug, Clone, Default)]
pub struct ScanRecord {
    /// The file's name inside its job folder.
    pub file: String,
    /// The vehicle number, with its line (from 1).
    pub vin: Option<(String, usize)>,
    /// The day of the readout, where it is said.
    pub date: Option<NaiveDate>,
    /// Odometer reading, km.
    pub odometer_km: Option<f64>,
    /// Trouble codes in the order of the text, each once per module.
    pub codes: Vec<TroubleCode>,
    /// Live data: name, value, unit.
    pub live: Vec<LiveItem>,
    /// Live data over time.
    pub tracks: Vec<LiveTrack>,
    /// Frames of a bus, where the text is a log of them.
    pub bus_log: Option<BusLog>,
    /// Oddities.
    pub problems: Vec<Problem>,
    /// Words on the reading for a person.
    pub read_as: String,
}

/// One trouble code as a module reported it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TroubleCode {
    /// Five characters, as SAE J2012 writes them: `P0894`.
    pub code: String,
    /// Failure type byte, two hexadecimal digits: `1C`. `None` where the text gives none.
    pub failure_type: Option<String>,
    /// State of the code as the module reports it; empty where the text says nothing.
    pub status: Vec<CodeStatus>,
    /// The module that reported it, as the text names it: `TCM`.
    pub module: Option<String>,
    /// The scan tool's own wording, where there is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
    /// The file that says so.
    pub file: String,
    /// The line of the file, from 1.
    pub line: usize,
}

/// A code's state. ISO 14229-1 names the bits; words of scan texts are put into the same few.
#[derive(Serialize, Deserialize, JsonSchema, strum::Display)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CodeStatus {
    /// Failing now (testFailed).
    Active,
    /// Failed this or the last completed cycle (pendingDTC).
    Pending,
    /// Failed often enough to be stored (confirmedDTC).
    Confirmed,
    /// Permanent code.
    Permanent,
    /// Failed at some time, not now.
    History,
    /// The test has not run since the codes were cleared: neither pass nor fail.
    NotTested,
}

/// One item of live data.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LiveItem {
    /// The name as the text gives it.
    pub name: String,
    /// Quantity, where the name is understood.
    pub quantity: Option<LiveQuantity>,
    /// The value as the text gives it.
    pub text: String,
    /// The value as a number, with the decimal sign understood.
    pub value: Option<f64>,
    /// The unit as the text gives it.
    pub unit: Option<String>,
    /// The file that says so.
    pub file: String,
    /// The line of the file, from 1.
    pub line: usize,
}

/// One item of live data over time. As many values as instants.
#[derive(Debug, Clone, PartialEq)]
pub struct LiveTrack {
    /// The name as the text gives it.
    pub name: String,
    /// Quantity, where the name is understood.
    pub quantity: Option<LiveQuantity>,
    /// The unit as the text gives it.
    pub unit: Option<String>,
    /// The module that gave it, where that is known.
    pub module: Option<String>,
    /// The instants in seconds of the text's own time, never decreasing.
    pub time_s: Vec<f64>,
    /// The values; NaN where one is missing.
    pub values: Vec<f64>,
    /// The file that says so.
    pub file: String,
    /// The line of the first value, from 1.
    pub line: usize,
}

/// Live data that is understood, whatever the language of the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LiveQuantity {
    /// Engine speed, rpm.
    EngineSpeed,
    /// Selector position: P R N D S M.
    SelectorPosition,
    /// The module's supply voltage, V.
    ModuleVoltage,
    /// Vehicle speed, km/h.
    VehicleSpeed,
    /// Coolant temperature, degrees Celsius.
    CoolantTemperature,
}
