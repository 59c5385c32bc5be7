//! Description of a file, ready for a person and for `--json`.

use super::{plot, teeth};
use formats::Opinion;
use model::system::Roles;
use model::{Capture, Channel, LiveItem, LiveTrack, ScanRecord, TimeAxis, TroubleCode};
use plugin_sdk::signal::stats;
use serde::Serialize;

/// Samples shown from either end.
const ENDS: usize = 3;

/// One file.
#[derive(Debug, Default, Serialize)]
pub struct FileView {
    pub file: String,
    /// Format that read it.
    pub read_as: Option<String>,
    /// Candidate formats, the surest first.
    pub why: Vec<Opinion>,
    #[serde(flatten)]
    pub content: Option<Content>,
    pub problems: Vec<String>,
    /// Why it could not be read.
    pub error: Option<String>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Content {
    Recording(Recording),
    Scan(Scan),
    Settings(Settings),
}

#[derive(Debug, Serialize)]
pub struct Settings {
    pub count: usize,
    pub of: Part,
}

/// What a settings file has several of.
#[derive(Debug, Clone, Copy, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    Recordings,
    Operations,
    Channels,
}

impl Part {
    /// Key of the sentence that counts them.
    pub fn key(self) -> &'static str {
        match self {
            Part::Recordings => "console-inspect-recordings",
            Part::Operations => "console-inspect-operations",
            Part::Channels => "console-inspect-channels",
        }
    }
}

#[derive(Debug, Serialize)]
pub struct Recording {
    pub started: Option<String>,
    pub samples: usize,
    pub start_s: Option<f64>,
    pub end_s: Option<f64>,
    pub rate_hz: Option<f64>,
    pub evenly_spaced: bool,
    /// The first samples and the last: time and each channel's value, null where one is missing or over range.
    pub first: Vec<Vec<Option<f64>>>,
    pub last: Vec<Vec<Option<f64>>>,
    pub channels: Vec<ChannelView>,
}

#[derive(Debug, Serialize)]
pub struct ChannelView {
    pub name: String,
    pub unit: Option<String>,
    pub least: Option<f64>,
    pub median: Option<f64>,
    pub most: Option<f64>,
    pub missing: usize,
    pub over_range: usize,
    pub guess: Option<Guess>,
    /// Pulses, as far as they would be a speed sensor's.
    pub pulses: Option<String>,
    #[serde(skip)]
    pub plot: Vec<String>,
}

#[derive(Debug, Serialize)]
pub struct Guess {
    pub role: String,
    pub certainty: f64,
    /// True if it is certain enough to be measured by.
    pub safe: bool,
    pub reason: String,
}

#[derive(Debug, Serialize)]
pub struct Scan {
    pub vin: Option<String>,
    pub vin_line: Option<usize>,
    pub date: Option<String>,
    pub odometer_km: Option<f64>,
    pub codes: Vec<TroubleCode>,
    pub live: Vec<LiveItem>,
    pub tracks: Vec<TrackView>,
}

#[derive(Debug, Serialize)]
pub struct TrackView {
    pub name: String,
    pub unit: Option<String>,
    pub module: Option<String>,
    pub line: usize,
    pub values: usize,
    pub start_s: Option<f64>,
    pub end_s: Option<f64>,
    pub least: Option<f64>,
    pub most: Option<f64>,
    #[serde(skip)]
    pub plot: Vec<String>,
}

impl FileView {
    pub fn named(file: &str, read_as: &str) -> Self {
        FileView {
            file: file.into(),
            read_as: Some(read_as.into()),
            ..FileView::default()
        }
    }

    pub fn error(file: &str, message: &str) -> Self {
        FileView {
            file: file.into(),
            error: Some(message.into()),
            ..FileView::default()
        }
    }
}

pub fn recording(c: &Capture, roles: &Roles) -> Recording {
    let n = c.time.len();
    let at = |i: usize| (i < n).then(|| c.time.at(i));
    let row = |i: usize| {
        let values = c
            .channels
            .iter()
            .map(|ch| Some(ch.value(i)).filter(|v| v.is_finite()));
        std::iter::once(at(i)).chain(values).collect()
    };
    let guesses = channels::guess(c, roles);
    let channels = c
        .channels
        .iter()
        .zip(guesses)
        .map(|(ch, guess)| channel(ch, &c.time, guess));
    Recording {
        started: c.started.map(|t| t.to_string()),
        samples: n,
        start_s: at(0),
        end_s: n.checked_sub(1).and_then(at),
        rate_hz: c.time.rate_hz(),
        evenly_spaced: matches!(c.time, TimeAxis::Even { .. }),
        first: (0..n.min(ENDS)).map(row).collect(),
        last: (n.saturating_sub(ENDS).max(n.min(ENDS))..n)
            .map(row)
            .collect(),
        channels: channels.collect(),
    }
}

fn channel(ch: &Channel, time: &TimeAxis, guess: Option<channels::RoleGuess>) -> ChannelView {
    let x: Vec<f32> = (0..ch.samples.len().min(time.len()))
        .map(|k| ch.value(k) as f32)
        .collect();
    let finite: Vec<f64> = x
        .iter()
        .map(|v| f64::from(*v))
        .filter(|v| v.is_finite())
        .collect();
    let (least, most) = bounds(&finite);
    ChannelView {
        name: ch.name.clone(),
        unit: ch.unit.clone(),
        least,
        median: stats::median(&finite),
        most,
        missing: x.iter().filter(|v| v.is_nan()).count(),
        over_range: x.iter().filter(|v| v.is_infinite()).count(),
        guess: guess.map(|g| Guess {
            role: g.role.name().into(),
            certainty: g.certainty,
            safe: g.certainty >= channels::SAFE,
            reason: g.reason,
        }),
        pulses: teeth::line(&x, time),
        plot: plot::lines(x.len(), |i| f64::from(x[i])),
    }
}

fn bounds(finite: &[f64]) -> (Option<f64>, Option<f64>) {
    (
        finite.iter().copied().reduce(f64::min),
        finite.iter().copied().reduce(f64::max),
    )
}

pub fn scan(s: &ScanRecord) -> Scan {
    Scan {
        vin: s.vin.as_ref().map(|(v, _)| v.clone()),
        vin_line: s.vin.as_ref().map(|(_, line)| *line),
        date: s.date.map(|d| d.to_string()),
        odometer_km: s.odometer_km,
        codes: s.codes.clone(),
        live: s.live.clone(),
        tracks: s.tracks.iter().map(track).collect(),
    }
}

fn track(t: &LiveTrack) -> TrackView {
    let finite: Vec<f64> = t.values.iter().copied().filter(|v| v.is_finite()).collect();
    let (least, most) = bounds(&finite);
    TrackView {
        name: t.name.clone(),
        unit: t.unit.clone(),
        module: t.module.clone(),
        line: t.line,
        values: t.values.len(),
        start_s: t.time_s.first().copied(),
        end_s: t.time_s.last().copied(),
        least,
        most,
        plot: plot::lines(t.values.len(), |i| t.values[i]),
    }
}
