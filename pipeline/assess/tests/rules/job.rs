//! Invented jobs: a sheet as text, recordings with roles, findings in one line each.

use baybrief_assess::{Assessment, Evidence, OtherVerdict, assess};
use model::case::{CaptureRecord, ChannelRecord, NotRun};
use model::job_file::Phase;
use model::knowledge::System;
use model::{Finding, Grade, Observation, RankedCause, RoleSource, Verdict, VerdictState};

/// One job on an invented system.
pub struct Job {
    system: System,
    findings: Vec<Finding>,
    captures: Vec<CaptureRecord>,
    not_run: Vec<NotRun>,
    repair_unread: bool,
    others: Vec<(String, Verdict)>,
}

impl Job {
    /// A job with a recording `a.csv` of the roles `pump` and `feed`.
    #[track_caller]
    pub fn new(causes: &str) -> Job {
        Job {
            system: System {
                sheet: toml::from_str("examined = [{ kind = \"work\" }]").expect("a system"),
                causes: toml::from_str(causes).expect("a cause sheet"),
                foreign: false,
            },
            findings: Vec::new(),
            captures: vec![capture("a.csv", &["pump", "feed"])],
            not_run: Vec::new(),
            repair_unread: false,
            others: Vec::new(),
        }
    }

    /// job.toml names a recording of after the repair that could not be read.
    pub fn without_the_repair(mut self) -> Job {
        self.repair_unread = true;
        self
    }

    /// A verdict on another system of the job.
    pub fn other(mut self, system: &str, state: VerdictState, cause: &str) -> Job {
        let verdict = Verdict {
            state,
            cause: Some(cause.into()),
            ..Verdict::open(Vec::new(), Vec::new())
        };
        self.others.push((system.into(), verdict));
        self
    }

    /// Declarations of the system besides its causes.
    #[track_caller]
    pub fn system(mut self, sheet: &str) -> Job {
        self.system.sheet = toml::from_str(sheet).expect("a system");
        self
    }

    /// Causes as a library brings them that is not built in.
    pub fn foreign(mut self) -> Job {
        for cause in &mut self.system.causes.causes {
            cause.foreign = true;
        }
        self
    }

    /// Recordings instead of the usual one.
    pub fn recorded(mut self, captures: Vec<CaptureRecord>) -> Job {
        self.captures = captures;
        self
    }

    /// An abnormal finding of `a.csv`: `kind`, or `kind subject`.
    pub fn saw(self, what: &str) -> Job {
        self.graded(what, Grade::Abnormal)
    }

    /// A normal finding of `a.csv`.
    pub fn saw_normal(self, what: &str) -> Job {
        self.graded(what, Grade::Normal)
    }

    /// A finding of `a.csv` with this grade.
    pub fn graded(self, what: &str, grade: Grade) -> Job {
        self.with(what, |f| f.grade = grade)
    }

    /// A finding of `a.csv`, changed.
    pub fn with(mut self, what: &str, change: impl FnOnce(&mut Finding)) -> Job {
        let mut words = what.split(' ');
        let kind = words.next().unwrap_or_default();
        let mut observation = Observation::new(kind, kind);
        if let Some(subject) = words.next() {
            observation = observation.about(subject);
        }
        let mut finding = Finding {
            id: format!("f{}", self.findings.len() + 1),
            file: Some("a.csv".into()),
            observation,
            ..Finding::default()
        };
        change(&mut finding);
        self.findings.push(finding);
        self
    }

    /// A check that did not run and would have given this kind.
    pub fn did_not_run(mut self, kind: &str) -> Job {
        self.not_run.push(NotRun {
            plugin: "check".into(),
            file: Some("a.csv".into()),
            reason: "it crashed".into(),
            kinds: vec![kind.into()],
        });
        self
    }

    /// Numbers of all channels without a known scale.
    pub fn uncalibrated(mut self) -> Job {
        let channels = self.captures.iter_mut().flat_map(|c| &mut c.channels);
        channels.for_each(|ch| ch.calibrated = false);
        self
    }

    pub fn assess(&self) -> Assessment {
        assess(&Evidence {
            findings: &self.findings,
            captures: &self.captures,
            not_run: &self.not_run,
            system: &self.system,
            repair_unread: self.repair_unread,
            others: &self
                .others
                .iter()
                .map(|(system, verdict)| OtherVerdict { system, verdict })
                .collect::<Vec<_>>(),
        })
    }

    /// State and cause: `established fault`.
    pub fn verdict(&self) -> String {
        let v = self.assess().verdict;
        let state = match v.state {
            VerdictState::Established => "established",
            VerdictState::Probable => "probable",
            VerdictState::Open => "open",
            VerdictState::NothingFound => "nothing-found",
        };
        match (v.cause, v.teardown) {
            (Some(cause), true) => format!("{state} {cause} teardown"),
            (Some(cause), false) => format!("{state} {cause}"),
            (None, _) => state.into(),
        }
    }

    /// One cause among the ranked ones.
    #[track_caller]
    pub fn cause(&self, name: &str) -> RankedCause {
        let causes = self.assess().causes;
        let found = causes.into_iter().find(|c| c.cause == name);
        found.unwrap_or_else(|| panic!("{name} is not ranked"))
    }

    /// Weight of the cause `fault`, decibans, to two decimals.
    pub fn weight(&self) -> f64 {
        (self.cause("fault").weight_dban * 100.0).round() / 100.0
    }

    pub fn reasons(&self) -> Vec<String> {
        self.assess().verdict.reasons
    }

    pub fn next(&self) -> Vec<String> {
        let next = self.assess().verdict.next;
        next.into_iter().map(|n| n.step).collect()
    }
}

/// A recording of one second with these roles, calibrated.
pub fn capture(file: &str, roles: &[&str]) -> CaptureRecord {
    let channel = |role: &&str| ChannelRecord {
        name: (*role).into(),
        role: Some((*role).into()),
        role_source: RoleSource::JobFile,
        unit: Some("A".into()),
        scale: 1.0,
        offset: 0.0,
        calibrated: true,
    };
    CaptureRecord {
        file: file.into(),
        channels: roles.iter().map(channel).collect(),
        phase: None,
        selector: None,
        engine: None,
        rate_hz: None,
        samples: 100,
        start_s: 0.0,
        end_s: 1.0,
    }
}

/// A recording before or after the repair.
pub fn phased(file: &str, phase: Phase) -> CaptureRecord {
    CaptureRecord {
        phase: Some(phase),
        ..capture(file, &["pump", "feed"])
    }
}

/// A sheet with the cause `fault` and rows, each `name kind weight`, and further keys of the row behind a `;`.
pub fn fault(rows: &[&str]) -> String {
    cause("fault", "", rows)
}

/// A cause with keys of its own, and rows as in [`fault`].
pub fn cause(name: &str, keys: &str, rows: &[&str]) -> String {
    let mut text = format!("[[cause]]\nname = \"{name}\"\nteardown = false\n{keys}\n");
    for row in rows {
        let (head, keys) = row.split_once(';').unwrap_or((row, ""));
        let words: Vec<&str> = head.split_whitespace().collect();
        let [name, kind, weight] = words.as_slice() else {
            panic!("expected name, kind and weight: {row}");
        };
        text += &format!(
            "[[cause.row]]\nname = \"{name}\"\nwhen = {{ kind = \"{kind}\" }}\nweight_dban = {weight}\n\
             reason = \"{name} speaks\"\nsource = \"counted\"\n{}\n",
            keys.replace(", ", "\n")
        );
    }
    text
}
