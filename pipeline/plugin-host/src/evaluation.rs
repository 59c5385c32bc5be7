//! Evaluation of a returned or failed call.

use crate::error::AnalyzeError;
use crate::process::WorkerError;
use plugin_abi::call::Outcome;
use plugin_abi::{AnalyzerDeclaration, status};

/// The error of a call that did not come back.
pub(crate) fn failed(id: &str, seconds: u64, error: WorkerError) -> AnalyzeError {
    let analyzer = id.to_string();
    match error {
        WorkerError::Crashed { how, output } => AnalyzeError::Crashed {
            analyzer,
            how,
            output,
        },
        WorkerError::OutOfMemory { output } => AnalyzeError::OutOfMemory { analyzer, output },
        WorkerError::TimedOut { output } => AnalyzeError::TimedOut {
            analyzer,
            seconds,
            output,
        },
        WorkerError::Unreachable(reason) => AnalyzeError::Host { analyzer, reason },
    }
}

/// Decides whether a returned call's findings are accepted. What the worker checked is checked again: a library that
/// took its worker over may have answered in its place.
///
/// # Errors
/// Why they are not.
pub(crate) fn evaluate(
    declared: &AnalyzerDeclaration,
    seconds: u64,
    outcome: Outcome,
) -> Result<Outcome, AnalyzeError> {
    let analyzer = declared.id.clone();
    let reason = outcome
        .reason
        .clone()
        .unwrap_or_else(|| "it gave no reason".into());
    let outputs = &declared.outputs;
    let broken = outcome.broken.clone().or_else(|| {
        let findings = outcome.findings.iter().map(|f| outputs.check_finding(f));
        let series = outcome.series.iter().map(|s| outputs.check_series(s));
        findings.chain(series).find_map(Result::err)
    });
    if let Some(rule) = broken {
        return Err(AnalyzeError::BrokeRule { analyzer, rule });
    }
    match outcome.status {
        status::OK => Ok(outcome),
        status::REFUSED => Err(AnalyzeError::Refused { analyzer, reason }),
        status::PANICKED => Err(AnalyzeError::Crashed {
            analyzer,
            how: reason,
            output: String::new(),
        }),
        status::CANCELLED => Err(AnalyzeError::TimedOut {
            analyzer,
            seconds,
            output: String::new(),
        }),
        status::BAD_INPUT => Err(AnalyzeError::Host {
            analyzer,
            reason: format!("it does not accept what it was given: {reason}"),
        }),
        status::FAILED => Err(AnalyzeError::BrokeRule {
            analyzer,
            rule: reason,
        }),
        other => Err(AnalyzeError::BrokeRule {
            analyzer,
            rule: format!("it returned status {other} ({reason})"),
        }),
    }
}
