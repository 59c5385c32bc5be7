//! What a run of a plugin comes to.

use crate::error::AnalyzeError;
use crate::process::Death;
use crate::wire::Outcome;
use plugin_abi::status;

/// A run that did not come back.
pub(crate) fn after(id: &str, seconds: u64, death: Death) -> AnalyzeError {
    let plugin = id.to_string();
    match death {
        Death::Crashed { how, noise } => AnalyzeError::Crashed { plugin, how, noise },
        Death::TimedOut { noise } => AnalyzeError::TimedOut {
            plugin,
            seconds,
            noise,
        },
        Death::Unreachable(reason) => AnalyzeError::Host { plugin, reason },
    }
}

/// Whether what a call that came back brought counts.
pub(crate) fn judge(id: &str, seconds: u64, outcome: Outcome) -> Result<Outcome, AnalyzeError> {
    let plugin = id.to_string();
    let reason = outcome
        .reason
        .clone()
        .unwrap_or_else(|| "it gave no reason".into());
    if let Some(rule) = &outcome.broken {
        let rule = rule.clone();
        return Err(AnalyzeError::BrokeRule { plugin, rule });
    }
    match outcome.status {
        status::OK => Ok(outcome),
        status::REFUSED => Err(AnalyzeError::Refused { plugin, reason }),
        status::PANICKED => Err(AnalyzeError::Crashed {
            plugin,
            how: reason,
            noise: String::new(),
        }),
        status::CANCELLED => Err(AnalyzeError::TimedOut {
            plugin,
            seconds,
            noise: String::new(),
        }),
        status::BAD_INPUT => Err(AnalyzeError::Host {
            plugin,
            reason: format!("it does not accept what it was given: {reason}"),
        }),
        status::FAILED => Err(AnalyzeError::BrokeRule {
            plugin,
            rule: reason,
        }),
        other => Err(AnalyzeError::BrokeRule {
            plugin,
            rule: format!("it returned status {other} ({reason})"),
        }),
    }
}
