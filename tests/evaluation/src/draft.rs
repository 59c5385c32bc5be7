//! A case before it is rendered as files: what was recorded and what is true of it.

use crate::measures;
use crate::params::Params;
use crate::scenario::Scenario;
use crate::truth::{Forbidden, Measure, TrueVerdict};
use model::SensorKind;
use model::job_file::{EngineState, Phase, Selector, TimeUnit};
use simulator::csv::TimeStyle;
use simulator::recorder::{Probe, Recording, record};
use simulator::scan_text::ScanCode;
use simulator::scan_words::CodeState;
use simulator::traces::Traces;

/// One recording with its truth.
#[derive(Debug, Clone)]
pub struct Capture {
    /// The recorder's channels.
    pub recording: Recording,
    /// Before or after the repair.
    pub phase: Option<Phase>,
    /// Selector position.
    pub selector: Option<Selector>,
    /// Engine state.
    pub engine: Option<EngineState>,
    /// Findings that should be made.
    pub measures: Vec<Measure>,
    /// Claims that would be false.
    pub forbidden: Vec<Forbidden>,
    /// The channels' names tell what they measure.
    pub telling_names: bool,
    /// Format of the file.
    pub file: FileKind,
}

/// Format of a recording's file.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum FileKind {
    /// Any dialect of delimited text, or WAVE.
    #[default]
    Any,
    /// Delimited text without any unit, with seconds.
    Unitless,
    /// Delimited text whose time column is written in a way of its own.
    Time(TimeStyle, TimeUnitIs),
    /// An edge list of the logic channels, instead of samples.
    Edges(Vec<simulator::edges::EdgeChannel>),
}

/// Unit of a time column that does not show it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TimeUnitIs {
    /// The unit.
    pub unit: simulator::csv::TimeUnit,
    /// The unit as job.toml states it, if it does.
    pub stated: Option<TimeUnit>,
}

/// A case before it is rendered.
#[derive(Debug, Clone)]
pub struct Draft {
    /// The recordings.
    pub captures: Vec<Capture>,
    /// The codes of the scan text.
    pub codes: Vec<ScanCode>,
    /// A scan text is there.
    pub scan: bool,
    /// A scan text tells engine speed and selector position.
    pub live: bool,
    /// job.toml may lack things.
    pub may_lack: bool,
    /// The verdicts that are right.
    pub verdict: TrueVerdict,
    /// The cause that was put in.
    pub true_cause: Option<String>,
    /// Causes that nothing in the job tests.
    pub untested: Vec<String>,
    /// Reasons for what is tolerated.
    pub notes: Vec<String>,
    /// `unit` of job.toml.
    pub unit: &'static str,
    /// The customer's complaint.
    pub concern: &'static str,
    /// Files beside the recordings: name and content.
    pub beside: Vec<(String, Vec<u8>)>,
    /// Codes that those files tell.
    pub beside_codes: Vec<crate::truth::TrueCode>,
}

impl Draft {
    /// A case of one recording.
    pub fn new(capture: Capture, codes: Vec<ScanCode>, verdict: TrueVerdict) -> Self {
        let true_cause = verdict
            .causes
            .first()
            .filter(|_| verdict.expected != "nothing-found")
            .cloned();
        Draft {
            captures: vec![capture],
            codes,
            scan: true,
            live: true,
            may_lack: true,
            verdict,
            true_cause,
            untested: Vec::new(),
            notes: Vec::new(),
            unit: "dual-dry-clutch",
            concern: "Invented complaint.",
            beside: Vec::new(),
            beside_codes: Vec::new(),
        }
    }

    /// Adds a reason for what is tolerated.
    pub fn noted(mut self, note: &str) -> Self {
        self.notes.push(note.into());
        self
    }

    /// job.toml is complete as far as it goes.
    pub fn complete(mut self) -> Self {
        self.may_lack = false;
        self
    }

    /// No fault was put in, whatever verdicts are tolerated.
    pub fn without_fault(mut self) -> Self {
        self.true_cause = None;
        self
    }
}

/// A verdict: `expected` first among the allowed `states`.
pub fn verdict(states: &[&str], causes: &[String], teardown: &str) -> TrueVerdict {
    TrueVerdict {
        states: states.iter().map(|s| s.to_string()).collect(),
        causes: causes.to_vec(),
        teardown: teardown.into(),
        expected: states.first().unwrap_or(&"open").to_string(),
    }
}

/// A code of the gearbox's module.
pub fn code(code: &'static str, failure_type: Option<&'static str>, state: CodeState) -> ScanCode {
    let module = if code == "P0700" || code == "P0562" {
        "ECM"
    } else {
        "TCM"
    };
    ScanCode {
        module,
        code,
        failure_type,
        state,
    }
}

/// Old entries that may stand in any vehicle's memory.
const STRANGERS: [(&str, &str); 8] = [
    ("BCM", "U0101"),
    ("ABS", "C0040"),
    ("TCM", "P0716"),
    ("TCM", "P2766"),
    ("TCM", "P0811"),
    ("TCM", "P0900"),
    ("TCM", "P0884"),
    ("ECM", "P0562"),
];

/// Codes of a fault, confirmed or active, with a companion and a stranger now and then.
pub fn codes(p: &mut Params, of: &[(&'static str, &'static str)]) -> Vec<ScanCode> {
    let typed = p.chance("failure types", 0.5);
    let states = [
        CodeState::Active,
        CodeState::Confirmed,
        CodeState::Confirmed,
    ];
    let mut all: Vec<ScanCode> = of
        .iter()
        .map(|&(name, ft)| code(name, typed.then_some(ft), p.pick("code state", &states)))
        .collect();
    if !of.is_empty() && p.chance("lamp code", 0.5) {
        all.push(code("P0700", typed.then_some("00"), CodeState::Confirmed));
    }
    // An old entry of whatever kind: it decides nothing.
    if p.chance("old entry", 0.35) {
        let (module, code) = p.pick("which old entry", &STRANGERS);
        if all.iter().all(|c| c.code != code) {
            all.push(ScanCode {
                module,
                code,
                failure_type: None,
                state: CodeState::History,
            });
        }
    }
    all
}

/// Records a test at standstill in P with the engine running, and works out what should be found in it.
/// `resting` are the input shafts (0, 1) that must not be said to turn where they must not.
pub fn capture(
    scenario: &Scenario,
    p: &mut Params,
    t: &Traces,
    probes: Vec<Probe>,
    resting: &[usize],
) -> Capture {
    let mut found = Vec::new();
    for probe in &probes {
        match probe {
            Probe::Feed(c) => found.extend(measures::of_current(t, c.noise)),
            Probe::Input(k, s) => {
                found.extend(measures::of_shaft(t, *k, s.kind != SensorKind::Vr));
            }
            Probe::Supply(_) => {
                found.extend(measures::of_supply(t, scenario.supply.source_resistance));
            }
            _ => {}
        }
    }
    Capture {
        recording: record(t, &scenario.channels(probes), &mut p.noise("recording")),
        phase: None,
        selector: Some(Selector::P),
        engine: Some(EngineState::Running),
        measures: found,
        forbidden: measures::false_claims(t, resting),
        telling_names: scenario.telling_names(),
        file: FileKind::Any,
    }
}
