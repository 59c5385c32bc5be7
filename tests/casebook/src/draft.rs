//! A case before it is dressed as files: what was recorded and what is true of it.

use crate::measures;
use crate::rig::Rig;
use crate::truth::{Forbidden, Measure, TrueVerdict};
use model::job_file::{EngineState, Phase, Selector};
use simulator::noise::Noise;
use simulator::recorder::{Probe, Recording, record};
use simulator::scan_text::ScanCode;
use simulator::scan_words::CodeState;
use simulator::traces::Traces;

/// One recording with its truth.
#[derive(Debug, Clone)]
pub struct Shot {
    /// What the recorder shows.
    pub recording: Recording,
    /// Before or after the repair.
    pub phase: Option<Phase>,
    /// Selector position.
    pub selector: Option<Selector>,
    /// What the engine did.
    pub engine: Option<EngineState>,
    /// What should be found.
    pub measures: Vec<Measure>,
    /// What must not be claimed.
    pub forbidden: Vec<Forbidden>,
    /// Whether the channels' names say what they measure.
    pub telling_names: bool,
}

/// A case before it is dressed.
#[derive(Debug, Clone)]
pub struct Draft {
    /// The recordings.
    pub shots: Vec<Shot>,
    /// The codes of the scan text.
    pub codes: Vec<ScanCode>,
    /// Whether a scan text tells engine speed and selector position.
    pub live: bool,
    /// Whether job.toml may lack things.
    pub may_lack: bool,
    /// The verdicts that are right.
    pub verdict: TrueVerdict,
    /// The cause that was put in.
    pub true_cause: Option<String>,
    /// Why something is tolerated.
    pub notes: Vec<String>,
}

impl Draft {
    /// A case of one recording.
    pub fn new(shot: Shot, codes: Vec<ScanCode>, verdict: TrueVerdict) -> Self {
        let true_cause = verdict
            .causes
            .first()
            .filter(|_| verdict.expected != "nothing-found")
            .cloned();
        Draft {
            shots: vec![shot],
            codes,
            live: true,
            may_lack: true,
            verdict,
            true_cause,
            notes: Vec::new(),
        }
    }

    /// Says why something is tolerated.
    pub fn noted(mut self, note: &str) -> Self {
        self.notes.push(note.into());
        self
    }

    /// job.toml is complete as far as it goes.
    pub fn complete(mut self) -> Self {
        self.may_lack = false;
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

/// Codes of a fault, as confirmed or active as chance has it, with a companion and a stranger now and then.
pub fn codes(dice: &mut Noise, of: &[(&'static str, &'static str)]) -> Vec<ScanCode> {
    let typed = dice.chance(0.5);
    let mut all: Vec<ScanCode> = of
        .iter()
        .map(|&(name, ft)| {
            let state = *dice.pick(&[
                CodeState::Active,
                CodeState::Confirmed,
                CodeState::Confirmed,
            ]);
            code(name, typed.then_some(ft), state)
        })
        .collect();
    if !of.is_empty() && dice.chance(0.5) {
        all.push(code("P0700", typed.then_some("00"), CodeState::Confirmed));
    }
    // An old entry of whatever kind: it decides nothing.
    if dice.chance(0.35) {
        let (module, code) = *dice.pick(&STRANGERS);
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
pub fn shot(
    rig: &Rig,
    dice: &mut Noise,
    t: &Traces,
    probes: Vec<Probe>,
    resting: &[usize],
) -> Shot {
    let mut found = Vec::new();
    for p in &probes {
        match p {
            Probe::Feed(c) => found.extend(measures::of_current(t, c.noise, true)),
            Probe::Input(k, _) => found.extend(measures::of_shaft(t, *k, true)),
            Probe::Supply(_) => {
                found.extend(measures::of_supply(t, rig.supply.source_resistance));
            }
            _ => {}
        }
    }
    Shot {
        recording: record(t, &rig.channels(probes), dice),
        phase: None,
        selector: Some(Selector::P),
        engine: Some(EngineState::Running),
        measures: found,
        forbidden: measures::false_claims(t, resting),
        telling_names: rig.telling_names(),
    }
}
