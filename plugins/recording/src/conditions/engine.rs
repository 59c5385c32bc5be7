//! The engine's state over the recording, stretch by stretch.

use super::believed;
use plugin_sdk::Output;
use plugin_sdk::measure::{Belief, Conditions, EngineAt};

/// Instants looked at; a stretch shorter than one step is not told.
const STEPS: usize = 200;

/// Stretches said at most: an engine that starts and stops more often is a recording of something else.
const MOST: usize = 8;

/// One stretch of one state.
struct Stretch {
    from: f64,
    to: f64,
    message: &'static str,
    belief: Belief,
}

pub fn observe(conditions: &Conditions, from: f64, to: f64, out: &mut Output) {
    let step = (to - from) / STEPS as f64;
    let mut stretches: Vec<Stretch> = Vec::new();
    for k in 0..STEPS {
        let t = from + (k as f64 + 0.5) * step;
        let belief = conditions.engine_belief(t);
        let message = message(conditions.engine_at(t), &belief);
        let end = from + (k + 1) as f64 * step;
        match stretches.last_mut() {
            // The weakest belief of a stretch is the stretch's.
            Some(last) if last.message == message => {
                last.to = end;
                if belief.weight_db().abs() < last.belief.weight_db().abs() {
                    last.belief = belief;
                }
            }
            _ => stretches.push(Stretch {
                from: end - step,
                to: end,
                message,
                belief,
            }),
        }
    }
    stretches.sort_by(|a, b| (b.to - b.from).total_cmp(&(a.to - a.from)));
    stretches.truncate(MOST);
    stretches.sort_by(|a, b| a.from.total_cmp(&b.from));
    for s in &stretches {
        out.add(believed("condition-engine", s.message, &s.belief).span(s.from, s.to));
    }
}

fn message(state: EngineAt, belief: &Belief) -> &'static str {
    match (state, belief.basis()) {
        (EngineAt::Running, _) => "condition-engine-running",
        (EngineAt::NotRunning, "starter" | "engine-speed-cranks") => "condition-engine-cranking",
        (EngineAt::NotRunning, _) => "condition-engine-not-running",
        (EngineAt::Unknown, _) => "condition-engine-unknown",
    }
}
