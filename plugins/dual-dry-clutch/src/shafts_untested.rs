//! Input shafts whose channels were silent while the engine could have turned them, and proved alive in no recording of
//! the job: a fault may hide there.

use plugin_sdk::settings::PriorFinding;
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Observation, Output, Scope};

/// The analyzer.
pub struct ShaftsUntested;

impl Analyzer for ShaftsUntested {
    const DECLARATION: Declaration = Declaration {
        id: "shafts-untested",
        name: "Shafts without proof",
        scope: Scope::Job,
        kinds: &[("shaft-untested", "")],
        messages: &[("shaft-untested", &[])],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        for role in ["input-shaft-1", "input-shaft-2"] {
            let of_role = |f: &&PriorFinding| f.observation.subject.as_deref() == Some(role);
            let findings = || input.settings.findings.iter().filter(of_role);
            let silent = |f: &PriorFinding| f.observation.message == "shaft-silent";
            let told = |f: &PriorFinding| {
                let kinds = ["shaft-at-rest", "shaft-turning", "shaft-turning-at-rest"];
                let graded = f.observation.grade.is_result();
                kinds.contains(&f.observation.kind.as_str()) && graded
            };
            if findings().any(silent) && !findings().any(told) {
                out.add(
                    Observation::new("shaft-untested", "shaft-untested")
                        .about(role)
                        .grade(Grade::NotTested),
                );
            }
        }
        Ok(())
    }
}
