//! Content of one scan-tool text export.

use crate::{Capture, Channel, Problem, Samples, TimeAxis, TimeSource};
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

/// Frames of a CAN bus in the order of the log.
#[derive(Debug, Clone, PartialEq)]
pub struct BusLog {
    /// The frames.
    pub frames: Vec<BusFrame>,
    /// Names of the interfaces, as the log gives them; empty where it names none.
    pub interfaces: Vec<String>,
    /// Source of the unit of the frames' time.
    pub time_source: TimeSource,
    /// Units per second that were assumed of the time's numbers; 1 where nothing was.
    pub assumed_per_second: f64,
    bytes: Vec<u8>,
}

/// One frame of a [`BusLog`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BusFrame {
    /// When it was seen, s; NaN where the log has no time. In an unknown unit where the log's `time_source` says so.
    pub time_s: f64,
    /// Identifier: 11 bits, or 29 where `extended`.
    pub id: u32,
    /// True for an identifier of 29 bits.
    pub extended: bool,
    /// Index in the log's `interfaces`.
    pub interface: u8,
    /// Line of the log, from 1.
    pub line: u32,
    at: u32,
    length: u8,
}

impl Default for BusLog {
    fn default() -> Self {
        BusLog {
            frames: Vec::new(),
            interfaces: Vec::new(),
            time_source: TimeSource::File,
            assumed_per_second: 1.0,
            bytes: Vec::new(),
        }
    }
}

impl BusLog {
    /// Adds a frame of at most 64 bytes of data (CAN FD); what is beyond is left out.
    pub fn push(&mut self, frame: NewBusFrame<'_>) {
        let data = &frame.data[..frame.data.len().min(64)];
        let interface = match self.interfaces.iter().position(|i| i == frame.interface) {
            _ if frame.interface.is_empty() => 0,
            Some(i) => i,
            None if self.interfaces.len() < 255 => {
                self.interfaces.push(frame.interface.into());
                self.interfaces.len() - 1
            }
            None => 255,
        };
        self.frames.push(BusFrame {
            time_s: frame.time_s,
            id: frame.id,
            extended: frame.extended,
            interface: interface as u8,
            line: frame.line,
            at: self.bytes.len() as u32,
            length: data.len() as u8,
        });
        self.bytes.extend_from_slice(data);
    }

    /// Changes the unit of the frames' time: every instant divided by `divisor`, which is greater than zero.
    pub fn divide_time(&mut self, divisor: f64, source: TimeSource) {
        self.frames.iter_mut().for_each(|f| f.time_s /= divisor);
        self.time_source = source;
    }

    /// The log as a recording with one sample a frame: channels "Frame identifier" (bit 31 set for one of 29 bits),
    /// "Frame length" in bytes, "Frame data 1" and "Frame data 2", the first and the second four bytes as one number,
    /// most significant byte first. `None` where the unit of the frames' time is not known. Frames without a time are
    /// left out.
    pub fn to_capture(&self, file: &str) -> Option<Capture> {
        let timed: Vec<&BusFrame> = self
            .frames
            .iter()
            .filter(|f| f.time_s.is_finite())
            .collect();
        if self.time_source == TimeSource::Unknown || timed.is_empty() {
            return None;
        }
        let word = |frame: &BusFrame, from: usize| {
            let bytes = (from..from + 4).map(|i| self.data(frame).get(i).copied().unwrap_or(0));
            f64::from(bytes.fold(0u32, |word, byte| word << 8 | u32::from(byte)))
        };
        let channel = |name: &str, value: &dyn Fn(&BusFrame) -> f64| {
            let values: Vec<f64> = timed.iter().map(|f| value(f)).collect();
            Channel::recorded(name, None, Samples::F64(values.into()))
        };
        let mut latest = f64::NEG_INFINITY;
        let times: Vec<f64> = timed
            .iter()
            .map(|f| {
                latest = latest.max(f.time_s);
                latest
            })
            .collect();
        Some(Capture {
            file: file.into(),
            started: None,
            time: TimeAxis::Listed(times.into()),
            time_source: self.time_source,
            channels: vec![
                channel("Frame identifier", &|f| {
                    f64::from(f.id | u32::from(f.extended) << 31)
                }),
                channel("Frame length", &|f| f64::from(f.length)),
                channel("Frame data 1", &|f| word(f, 0)),
                channel("Frame data 2", &|f| word(f, 4)),
            ],
            problems: Vec::new(),
            read_as: String::new(),
        })
    }

    /// Data of a frame of this log.
    pub fn data(&self, frame: &BusFrame) -> &[u8] {
        let at = frame.at as usize;
        self.bytes
            .get(at..at + usize::from(frame.length))
            .unwrap_or_default()
    }
}

/// A frame to be added to a [`BusLog`].
#[derive(Debug, Clone, Copy)]
pub struct NewBusFrame<'a> {
    /// When it was seen, s; NaN where the log has no time.
    pub time_s: f64,
    /// Identifier.
    pub id: u32,
    /// True for an identifier of 29 bits.
    pub extended: bool,
    /// Name of the interface; empty where the log names none.
    pub interface: &'a str,
    /// Data bytes.
    pub data: &'a [u8],
    /// Line of the log, from 1.
    pub line: u32,
}
