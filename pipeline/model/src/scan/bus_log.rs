//! Frames of a bus log.

use crate::{Capture, Channel, Problem, Samples, TimeAxis, TimeSource};
use std::collections::BTreeMap;

/// Time by which neighbouring frames may be out of order, s: a logger that gathers those of several controllers. More is a clock
/// that was set back.
const OUT_OF_ORDER_S: f64 = 0.1;
/// Longest pause of a log, s; more is a clock that was set, as from its first day to today's date.
const LONGEST_PAUSE_S: f64 = 86_400.0;

/// Clock of an interface.
struct Clock {
    /// Latest time, s.
    latest_s: f64,
    /// What is added to its times, s.
    ahead_s: f64,
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

    /// Joins what a log's clock tells apart: where it is set back, as at the restart of a logger, or forward by more than a day, the
    /// frames of that interface go on from the last time before. Returns what to tell a person of it; `None` where the clock
    /// never jumps. The unit of the time is known.
    pub fn join_clock(&mut self, file: &str) -> Option<Problem> {
        let mut clocks: BTreeMap<u8, Clock> = BTreeMap::new();
        let mut jumps = Vec::new();
        for frame in self.frames.iter_mut().filter(|f| f.time_s.is_finite()) {
            let clock = clocks.entry(frame.interface).or_insert(Clock {
                latest_s: frame.time_s,
                ahead_s: 0.0,
            });
            let step_s = frame.time_s + clock.ahead_s - clock.latest_s;
            if !(-OUT_OF_ORDER_S..LONGEST_PAUSE_S).contains(&step_s) {
                jumps.push((frame.line, step_s));
                clock.ahead_s -= step_s;
            }
            frame.time_s += clock.ahead_s;
            clock.latest_s = clock.latest_s.max(frame.time_s);
        }
        let (line, seconds) = jumps.first()?;
        Some(Problem {
            file: file.into(),
            place: Some(format!("line {line}")),
            message: format!(
                "the clock of the log jumps at {} place(s), first here, by {seconds:.1} s; the frames behind a jump are taken to \
                 follow at once, so that their times differ from those of the file",
                jumps.len()
            ),
        })
    }

    /// The log as a recording with one sample a frame, in order of time: channels "Frame identifier" (bit 31 set for one of 29 bits),
    /// "Frame length" in bytes, "Frame data 1" and "Frame data 2", the first and the second four bytes as one number,
    /// most significant byte first. `None` where the unit of the frames' time is not known. Frames without a time are
    /// left out.
    pub fn to_capture(&self, file: &str) -> Option<Capture> {
        let timed = self.frames.iter().filter(|f| f.time_s.is_finite());
        let mut timed: Vec<&BusFrame> = timed.collect();
        timed.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
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
        let times: Vec<f64> = timed.iter().map(|f| f.time_s).collect();
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
