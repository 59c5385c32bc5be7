//! Sheets ask for what analyzers give.

use crate::tree::{KNOWLEDGE, LIBRARIES};
use model::cause_sheet::Pattern;
use model::system::Bound;
use std::collections::BTreeSet;

/// Kinds and messages of one library, and those of the shared ones.
fn outputs(system: &str) -> (BTreeSet<&str>, BTreeSet<&str>) {
    let shared = |name: &str| KNOWLEDGE.shared.iter().any(|s| s.name == name);
    let libraries = LIBRARIES.iter().map(|l| &l.declaration);
    let wanted = libraries.filter(|d| d.system == system || shared(&d.system));
    let outputs = wanted.flat_map(|d| d.analyzers.iter().map(|a| &a.outputs));
    let (mut kinds, mut messages) = (BTreeSet::new(), BTreeSet::new());
    for output in outputs {
        kinds.extend(output.kinds.iter().map(|k| k.name.as_str()));
        messages.extend(output.messages.iter().map(|m| m.name.as_str()));
    }
    (kinds, messages)
}

/// Every finding that a sheet speaks of is one that an analyzer declares: a misspelt one would never be seen.
#[test]
fn sheets_speak_of_declared_findings_and_roles() {
    let mut patterns = 0;
    for system in &KNOWLEDGE.systems {
        let name = &system.sheet.name;
        let (kinds, messages) = outputs(name);
        let of_causes = system.causes.causes.iter().flat_map(|c| {
            let rows = c
                .rows
                .iter()
                .flat_map(|r| [Some(&r.when), r.unless.as_ref(), r.alive.as_ref()]);
            rows.flatten().chain(&c.tested_by)
        });
        let learnable = system.sheet.learnable.iter().map(|l| &l.when);
        let all: Vec<&Pattern> = of_causes
            .chain(&system.sheet.examined)
            .chain(learnable)
            .chain(&system.sheet.curves)
            .collect();
        patterns += all.len();
        for pattern in all {
            for kind in pattern.kinds() {
                assert!(
                    kinds.contains(kind),
                    "{name}: nothing gives the kind {kind}"
                );
            }
            for message in pattern.message.iter().flat_map(|m| m.split('|')) {
                assert!(
                    messages.contains(message),
                    "{name}: nothing gives the message {message}"
                );
            }
        }
        // What spoils a recording may be said by any library.
        for pattern in system.causes.inhibitors.iter().map(|i| &i.when) {
            let given = LIBRARIES.iter().map(|l| outputs(&l.declaration.system));
            let given: Vec<_> = given.collect();
            for kind in pattern.kinds() {
                assert!(
                    given.iter().any(|g| g.0.contains(kind)),
                    "nothing gives {kind}"
                );
            }
            for message in pattern.message.iter().flat_map(|m| m.split('|')) {
                assert!(
                    given.iter().any(|g| g.1.contains(message)),
                    "nothing gives {message}"
                );
            }
        }
        let of_causes = system.causes.causes.iter().flat_map(|c| &c.roles);
        let of_steps = system.causes.steps.iter().flat_map(|s| &s.records);
        let of_first = system.sheet.first_recordings.iter().flat_map(|f| &f.roles);
        for roles in of_causes.chain(of_steps).chain(of_first) {
            for role in roles.split('|') {
                assert!(
                    KNOWLEDGE.roles.get(role).is_some(),
                    "{name}: {role} is no role"
                );
            }
        }
    }
    assert!(patterns > 80, "{patterns}");
}

/// Health verdicts need causes of the system; steps meet hazards that exist.
#[test]
fn sheets_name_causes_and_hazards_that_there_are() {
    for system in &KNOWLEDGE.systems {
        let causes: BTreeSet<&str> = (system.causes.causes.iter())
            .map(|c| c.name.as_str())
            .collect();
        let wider = system.causes.causes.iter().flat_map(|c| &c.specializes);
        let healthy = system.sheet.healthy.iter().flat_map(|set| &set.tested);
        for name in wider.chain(healthy) {
            assert!(
                causes.contains(name.as_str()),
                "{}: {name} is no cause",
                system.sheet.name
            );
        }
        let blocks = system
            .causes
            .inhibitors
            .iter()
            .flat_map(|i| i.blocks.split('|'));
        for name in blocks.filter(|b| !["all", "role", "fallback"].contains(b)) {
            assert!(
                causes.contains(name),
                "{}: {name} is no cause",
                system.sheet.name
            );
        }
        let sheets = || KNOWLEDGE.shared.iter().chain([&system.sheet]);
        for hazard in sheets().flat_map(|s| &s.meets).flat_map(|m| &m.hazards) {
            let mut all = sheets().flat_map(|s| &s.hazards);
            assert!(all.any(|h| h.name == *hazard), "{hazard} is no hazard");
        }
    }
}

/// What a sheet says of other systems' causes speaks of causes that they have.
#[test]
fn external_causes_are_causes_of_their_systems() {
    let mut count = 0;
    for system in &KNOWLEDGE.systems {
        let own = &system.sheet.name;
        for external in &system.causes.external {
            count += 1;
            assert!(external.weight_dban < 0.0, "{own}: {}", external.name);
            for (of, names) in [
                (&external.system, &external.causes),
                (own, &external.explains),
            ] {
                let of = KNOWLEDGE
                    .system(of)
                    .unwrap_or_else(|| panic!("{own}: no {of}"));
                for name in names.split('|') {
                    let mut causes = of.causes.causes.iter();
                    assert!(causes.any(|c| c.name == name), "{own}: {name} is no cause");
                }
            }
        }
    }
    assert!(count > 3, "{count}");
}

/// Every cause says what would test it, and every negated row how it would have been seen.
#[test]
fn every_cause_names_its_tests() {
    for system in &KNOWLEDGE.systems {
        for cause in &system.causes.causes {
            assert!(
                !cause.tested_by.is_empty(),
                "{}: tested by nothing",
                cause.name
            );
            assert!(
                cause.rows.iter().any(|r| r.required),
                "{}: nothing is required",
                cause.name
            );
        }
    }
}

/// Analyzers ask for roles that there are.
#[test]
fn analyzers_need_declared_roles() {
    for analyzer in LIBRARIES.iter().flat_map(|l| &l.declaration.analyzers) {
        let needs = analyzer.needs.iter().flat_map(|n| n.split('|'));
        for role in needs.chain(analyzer.uses.iter().map(String::as_str)) {
            assert!(
                KNOWLEDGE.roles.get(role.trim()).is_some(),
                "{}: {role}",
                analyzer.id
            );
        }
    }
}

/// A limit that jobs may set is one of the sheet, has a bound, and is held against findings of its unit.
#[test]
fn learnable_limits_are_those_of_the_sheets() {
    let mut limits = 0;
    for system in &KNOWLEDGE.systems {
        let name = &system.sheet.name;
        let sheet = KNOWLEDGE.limits_sheet(name).expect("a limits sheet");
        let kinds = LIBRARIES.iter().flat_map(|l| &l.declaration.analyzers);
        let kinds: Vec<_> = kinds.flat_map(|a| &a.outputs.kinds).collect();
        for learnable in &system.sheet.learnable {
            limits += 1;
            let limit = &learnable.limit;
            let value = sheet.value.get(limit);
            let value = value.unwrap_or_else(|| panic!("{name}: no limit {limit}"));
            let has = |bound: &Bound| match bound {
                Bound::Low => value.low.is_some(),
                Bound::High => value.high.is_some(),
            };
            let asked = learnable.bounds.iter().all(has);
            let any = has(&Bound::Low) || has(&Bound::High);
            assert!(any && asked, "{name}: {limit} has no such bound");
            for kind in learnable.when.kinds() {
                let mut units = kinds
                    .iter()
                    .filter(|k| k.name == kind)
                    .flat_map(|k| &k.units);
                assert!(
                    units.any(|u| *u == value.unit),
                    "{name}: {kind} has no value in {}, the unit of {limit}",
                    value.unit
                );
            }
        }
    }
    assert!(limits > 5, "{limits}");
}
