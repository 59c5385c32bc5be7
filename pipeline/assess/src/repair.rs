//! Before and after a repair: the same findings on both recordings, and whether the repair is proven.

use crate::{Assessment, Evidence, assess_part};
use model::case::CaptureRecord;
use model::job_file::Phase;
use model::verdict::{ComparedFinding, ComparedOutcome, RepairProof};
use model::{Finding, Grade, VerdictState};
use std::collections::BTreeMap;

/// Assesses a job with recordings of both phases. The cause found before stands, without a teardown: it has been
/// repaired. A fault in the after-recording makes the after-recording's verdict the one that counts, and so does a
/// proof where no cause was found before.
pub fn assess(evidence: &Evidence<'_>) -> Assessment {
    let before = assess_part(evidence, true, |c| c.phase != Some(Phase::After));
    // A scan text does not say whether it was read before or after the repair: the codes are held against the
    // recording before it.
    let after = assess_part(evidence, false, |c| c.phase == Some(Phase::After));
    let compared = compare(evidence);
    let healthy = after.verdict.state == VerdictState::NothingFound
        && !compared.iter().any(|c| {
            matches!(
                c.outcome,
                ComparedOutcome::Worse | ComparedOutcome::Unchanged
            )
        });
    let mended = compared
        .iter()
        .any(|c| c.outcome == ComparedOutcome::Mended);
    let proof = RepairProof {
        proven: healthy && mended,
        compared,
    };
    // What was never named and is proven to be gone leaves the health that was seen last.
    let gone = proof.proven && before.verdict.cause.is_none();
    let mut result = match after.verdict.cause.is_some() || gone {
        true => after,
        false => before,
    };
    let v = &mut result.verdict;
    v.teardown = false;
    v.reasons.push(
        if proof.proven {
            "reason-repair-proven"
        } else {
            "reason-repair-not-proven"
        }
        .into(),
    );
    if proof.proven {
        v.next.clear();
    }
    v.repair = Some(proof);
    result
}

/// The worst finding of each kind and subject, before and after.
fn compare(evidence: &Evidence<'_>) -> Vec<ComparedFinding> {
    let side = |after| measured(evidence, |c| (c.phase == Some(Phase::After)) == after);
    let (before, after) = (side(false), side(true));
    let (old, new) = (worst(&before), worst(&after));
    let mut keys: Vec<&(String, Option<String>)> = old.keys().chain(new.keys()).collect();
    keys.sort();
    keys.dedup();
    keys.into_iter()
        .filter_map(|key| {
            let (b, a) = (old.get(key), new.get(key));
            let bad = |f: Option<&&Finding>| f.is_some_and(|f| f.grade == Grade::Abnormal);
            let outcome = match (bad(b), bad(a)) {
                (false, false) => return None,
                (true, true) => ComparedOutcome::Unchanged,
                (false, true) => ComparedOutcome::Worse,
                (true, false) if is_seen_well(a.copied(), key.1.as_deref(), &after, evidence) => {
                    ComparedOutcome::Mended
                }
                (true, false) => ComparedOutcome::NotComparable,
            };
            Some(ComparedFinding {
                kind: key.0.clone(),
                subject: key.1.clone(),
                before: b.map(|f| f.id.clone()),
                after: a.map(|f| f.id.clone()),
                outcome,
            })
        })
        .collect()
}

/// True where what was wrong before was looked at afterwards and is right. Where there is no finding of its kind any more, its
/// channel must have been recorded, and must not have come to nothing: a channel that is dead afterwards proves nothing.
fn is_seen_well(
    same: Option<&Finding>,
    subject: Option<&str>,
    after: &[&Finding],
    evidence: &Evidence<'_>,
) -> bool {
    if let Some(finding) = same {
        return finding.grade.is_result();
    }
    let Some(subject) = subject else { return true };
    let about = after
        .iter()
        .filter(|f| f.subject.as_deref() == Some(subject));
    let results: Vec<bool> = about.map(|f| f.grade.is_result()).collect();
    is_recorded(evidence, subject) && (results.is_empty() || results.contains(&true))
}

/// True where a channel of this role was recorded after the repair.
fn is_recorded(evidence: &Evidence<'_>, role: &str) -> bool {
    let captures = evidence.captures.iter();
    let mut channels = captures
        .filter(|c| c.phase == Some(Phase::After))
        .flat_map(|c| &c.channels);
    channels.any(|ch| ch.role.as_deref() == Some(role))
}

/// Findings on the recordings that are wanted. Codes are not measurements and stay out.
fn measured<'a>(
    evidence: &Evidence<'a>,
    wanted: impl Fn(&CaptureRecord) -> bool,
) -> Vec<&'a Finding> {
    let is_wanted = |file: &String| {
        let mut captures = evidence.captures.iter();
        captures.any(|c| c.file == *file && wanted(c))
    };
    let findings = evidence.findings.iter();
    findings
        .filter(|f| !f.kind.starts_with("code-") && f.file.as_ref().is_some_and(is_wanted))
        .collect()
}

fn worst<'a>(findings: &[&'a Finding]) -> BTreeMap<(String, Option<String>), &'a Finding> {
    let mut out: BTreeMap<(String, Option<String>), &Finding> = BTreeMap::new();
    for &f in findings {
        let slot = out.entry((f.kind.clone(), f.subject.clone())).or_insert(f);
        if f.grade == Grade::Abnormal && slot.grade != Grade::Abnormal {
            *slot = f;
        }
    }
    out
}
