//! The engine's state over the recording, segment by segment.

use super::Witnesses;
use plugin_sdk::LogOdds;
use plugin_sdk::conditions::Engine;

/// Even steps that a recording is divided into, beside the instants at which a witness changes.
const STEPS: usize = 200;

/// Segments told at most: an engine that starts and stops more often is a recording of something else.
const MOST: usize = 8;

/// One segment of one state.
pub struct Segment {
    pub start_s: f64,
    pub end_s: f64,
    pub state: Engine,
    /// The weakest odds of the segment.
    pub odds: LogOdds,
}

impl Segment {
    pub fn message(&self) -> &'static str {
        match self.state {
            Engine::Running => "condition-engine-running",
            Engine::Cranking => "condition-engine-cranking",
            Engine::Off => "condition-engine-not-running",
            Engine::Unknown => "condition-engine-unknown",
        }
    }
}

/// Segments from `from` to `to`, s, without a gap.
pub fn find(witnesses: &Witnesses, from: f64, to: f64) -> Vec<Segment> {
    let step = (to - from) / STEPS as f64;
    let mut bounds: Vec<f64> = (0..=STEPS).map(|k| from + k as f64 * step).collect();
    let voltage = witnesses.voltage.as_ref().and_then(|v| v.cranking);
    bounds.extend(voltage.into_iter().flat_map(|(a, b)| [a, b]));
    let sensor = witnesses.sensor.iter().flat_map(|s| &s.segments);
    bounds.extend(sensor.flat_map(|s| [s.start_s, s.end_s]));
    bounds.retain(|t| (from..=to).contains(t));
    bounds.sort_by(f64::total_cmp);
    bounds.dedup();
    let mut segments: Vec<Segment> = Vec::new();
    for bound in bounds.windows(2) {
        let odds = witnesses.running((bound[0] + bound[1]) / 2.0);
        let state = match (odds.holds(), odds.basis()) {
            (Some(true), _) => Engine::Running,
            (Some(false), "starter" | "engine-speed-cranks") => Engine::Cranking,
            (Some(false), _) => Engine::Off,
            (None, _) => Engine::Unknown,
        };
        match segments.last_mut() {
            Some(last) if last.state == state => {
                last.end_s = bound[1];
                if odds.weight_dban().abs() < last.odds.weight_dban().abs() {
                    last.odds = odds;
                }
            }
            _ => segments.push(Segment {
                start_s: bound[0],
                end_s: bound[1],
                state,
                odds,
            }),
        }
    }
    segments
}

/// The longest segments, in the order of time; one shorter than an even step is not told.
pub fn worth_telling(all: &[Segment], from: f64, to: f64) -> Vec<&Segment> {
    let length = |s: &Segment| s.end_s - s.start_s;
    let least = 0.99 * (to - from) / STEPS as f64;
    let mut told: Vec<&Segment> = all.iter().filter(|s| length(s) >= least).collect();
    told.sort_by(|a, b| length(b).total_cmp(&length(a)));
    told.truncate(MOST);
    told.sort_by(|a, b| a.start_s.total_cmp(&b.start_s));
    told
}
