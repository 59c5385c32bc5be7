//! Codes: each trouble code held against the measured findings: supported, contradicted, or not tested.
//!
//! Supported means that a measurement shows what the code claims. Contradicted needs more: a measurement that
//! excludes the claim, and a status that says the test failed in this or the last cycle (ISO 14229-1, bits 0 to 2);
//! a history code and a good measurement do not contradict each other. Everything else is not tested.

mod table;

use plugin_sdk::settings::{Code, PriorFinding};
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Observation, Output, Scope};
use table::{Claim, Evidence};

/// Arguments of every message.
const CODE: &[&str] = &[
    "code",
    "failure_type",
    "module",
    "status",
    "claims",
    "source",
    "by",
];

/// The analyzer.
pub struct Codes;

impl Analyzer for Codes {
    const DECLARATION: Declaration = Declaration {
        id: "codes",
        name: "Codes against measurements",
        scope: Scope::Job,
        kinds: &[
            ("code-supported", ""),
            ("code-contradicted", ""),
            ("code-not-tested", ""),
        ],
        messages: &[
            ("code-supported", CODE),
            ("code-contradicted", CODE),
            ("code-not-tested", CODE),
            ("code-not-known", CODE),
            ("code-history", CODE),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let claims = table::claims()?;
        for code in &input.settings.codes {
            let claim = claims.iter().find(|c| c.codes.contains(&code.code));
            out.add(judge(code, claim, &input.settings.findings));
        }
        Ok(())
    }
}

fn judge(code: &Code, claim: Option<&Claim>, findings: &[PriorFinding]) -> Observation {
    let find = |wanted: &Evidence| {
        let found = findings.iter().find(|f| wanted.matches(f));
        found.map(|f| f.id.clone())
    };
    let any = |wanted: &[Evidence]| wanted.iter().find_map(find);
    // The whole subject is excluded only by all of what may be meant.
    let all = |wanted: &[Evidence]| -> Option<String> {
        let found: Option<Vec<String>> = wanted.iter().map(find).collect();
        found?.into_iter().next()
    };
    let (kind, message, by, grade) = match claim {
        None => ("code-not-tested", "code-not-known", None, Grade::Normal),
        // An old entry says nothing of today, for or against.
        Some(_) if past(code) => ("code-not-tested", "code-history", None, Grade::Normal),
        Some(c) => match (any(&c.supported_by), all(&c.contradicted_by)) {
            (Some(id), _) => (
                "code-supported",
                "code-supported",
                Some(id),
                Grade::Abnormal,
            ),
            (None, Some(id)) if failing(code) && any(&c.unless).is_none() => (
                "code-contradicted",
                "code-contradicted",
                Some(id),
                Grade::Unusable,
            ),
            _ => ("code-not-tested", "code-not-tested", None, Grade::Normal),
        },
    };
    let mut o = Observation::new(kind, message)
        .about(&code.code)
        .arg("code", code.code.as_str())
        .arg("failure_type", code.failure_type.as_deref().unwrap_or(""))
        .arg("module", code.module.as_deref().unwrap_or(""))
        .arg("status", code.status.join(" "))
        .grade(grade);
    if let Some(c) = claim {
        o = o
            .arg("claims", c.claims.as_str())
            .arg("source", c.source.as_str());
    }
    if let Some(id) = by {
        o = o.arg("by", id);
    }
    o
}

/// The test failed in this or the last cycle.
fn failing(code: &Code) -> bool {
    code.status.iter().any(|s| s == "active" || s == "pending")
}

/// The module holds it as an old entry: what is stored and does not fail says nothing of today.
fn past(code: &Code) -> bool {
    let is = |word: &str| code.status.iter().any(|s| s == word);
    is("history") && !failing(code) && !is("permanent")
}
