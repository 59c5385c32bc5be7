//! A stall and a dragged shaft that do not belong together: the actuator of one clutch stalls, and the other clutch's shaft
//! turns. Leads may be swapped, or there are two faults; neither part is condemned before that is known.

use plugin_sdk::settings::PriorFinding;
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Observation, Output, Scope};

/// The analyzer.
pub struct Attribution;

impl Analyzer for Attribution {
    const DECLARATION: Declaration = Declaration {
        id: "attribution",
        name: "Stalls and shafts",
        scope: Scope::Job,
        kinds: &[("attribution-contradicted", "")],
        messages: &[("attribution-contradicted", &["shaft", "actuator"])],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let abnormal = |kind: &'static str, subject: String| {
            let findings = input.settings.findings.iter();
            findings.filter(move |f| {
                let o = &f.observation;
                o.kind == kind && o.grade == Grade::Abnormal && o.subject.as_ref() == Some(&subject)
            })
        };
        for (shaft, actuator) in [(1, 2), (2, 1)] {
            let turns = || abnormal("shaft-turning-at-rest", format!("input-shaft-{shaft}"));
            let stalls = |of: u8| abnormal("actuation-stall", format!("actuator-current-{of}"));
            let with = |f: &PriorFinding| turns().any(|t| t.file == f.file);
            let own = |f: &PriorFinding| stalls(shaft).any(|s| s.file == f.file);
            if stalls(actuator).any(|f| with(f) && !own(f)) {
                out.add(
                    Observation::new("attribution-contradicted", "attribution-contradicted")
                        .about(&format!("input-shaft-{shaft}"))
                        .arg("shaft", i64::from(shaft))
                        .arg("actuator", i64::from(actuator))
                        .grade(Grade::Unusable),
                );
            }
        }
        Ok(())
    }
}
