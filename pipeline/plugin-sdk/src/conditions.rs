//! Conditions of a recording as `recording` derived them: the state of the engine, segment by segment.

use crate::Series;
use crate::derived::ENGINE_STATE;

/// State of the engine over a recording.
#[derive(Debug, Default, Clone, PartialEq)]
pub struct Conditions {
    /// Segments of one state each, in the order of time.
    pub engine: Vec<EngineSegment>,
}

/// A segment of one state.
#[derive(Debug, Clone, PartialEq)]
pub struct EngineSegment {
    /// Start, s.
    pub start_s: f64,
    /// End, s.
    pub end_s: f64,
    /// The state.
    pub state: Engine,
    /// Main basis of the state: `stated`, `charged`, `starter`, ...
    pub basis: String,
}

/// The engine at one instant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Engine {
    /// It runs.
    Running,
    /// It is being cranked.
    Cranking,
    /// It is off.
    Off,
    /// Nobody says, and the recording does not tell.
    Unknown,
}

impl Engine {
    const ALL: [(Engine, &'static str); 4] = [
        (Engine::Running, "running"),
        (Engine::Cranking, "cranking"),
        (Engine::Off, "off"),
        (Engine::Unknown, "unknown"),
    ];

    /// Word in the series: `running`, `cranking`, `off`, `unknown`.
    pub fn word(self) -> &'static str {
        let known = Engine::ALL.into_iter().find(|(e, _)| *e == self);
        known.map_or("unknown", |(_, word)| word)
    }

    fn of_word(word: &str) -> Engine {
        let known = Engine::ALL.into_iter().find(|(_, w)| *w == word);
        known.map_or(Engine::Unknown, |(e, _)| e)
    }
}

impl Conditions {
    /// Reads [`ENGINE_STATE`]; empty for a series of another kind.
    pub fn of(series: &Series) -> Conditions {
        let columns = || {
            Some((
                series.numbers("start_s")?,
                series.numbers("end_s")?,
                series.words("state")?,
                series.words("basis")?,
            ))
        };
        let Some((start, end, state, basis)) = columns() else {
            return Conditions::default();
        };
        let rows = start.iter().zip(end).zip(state).zip(basis);
        Conditions {
            engine: rows
                .map(|(((&start_s, &end_s), state), basis)| EngineSegment {
                    start_s,
                    end_s,
                    state: Engine::of_word(state),
                    basis: basis.clone(),
                })
                .collect(),
        }
    }

    /// The series [`ENGINE_STATE`].
    pub fn series(&self) -> Series {
        use crate::Values::{F64, Text};
        let segments = || self.engine.iter();
        let values = vec![
            F64(segments().map(|s| s.start_s).collect()),
            F64(segments().map(|s| s.end_s).collect()),
            Text(segments().map(|s| s.state.word().into()).collect()),
            Text(segments().map(|s| s.basis.clone()).collect()),
        ];
        ENGINE_STATE.of(None, None, values)
    }

    /// State of the engine at time `t`, s.
    pub fn engine_at(&self, t: f64) -> Engine {
        let segment = self.engine.iter().find(|s| s.start_s <= t && t <= s.end_s);
        segment.map_or(Engine::Unknown, |s| s.state)
    }

    /// Share of a span, s, during which the engine runs, 0 to 1, and true where it is unknown for some of it.
    pub fn running_share(&self, start_s: f64, end_s: f64) -> (f64, bool) {
        const POINTS: usize = 20;
        let at = |k: usize| start_s + (end_s - start_s) * (k as f64 + 0.5) / POINTS as f64;
        let states: Vec<Engine> = (0..POINTS).map(|k| self.engine_at(at(k))).collect();
        let running = states.iter().filter(|s| **s == Engine::Running).count();
        (
            running as f64 / POINTS as f64,
            states.contains(&Engine::Unknown),
        )
    }

    /// First span in which the starter pulls the supply down, s.
    pub fn starter(&self) -> Option<(f64, f64)> {
        let pulls = |s: &&EngineSegment| s.state == Engine::Cranking && s.basis == "starter";
        let segment = self.engine.iter().find(pulls)?;
        Some((segment.start_s, segment.end_s))
    }
}
