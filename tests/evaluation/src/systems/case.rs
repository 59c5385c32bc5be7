//! A job of one further system with its truth.

use crate::draft::verdict;
use crate::params::Params;
use crate::render::Case;
use crate::truth::{Measure, SCHEMA, TrueVerdict, Truth, Wanted};
use model::JobFile;
use model::job_file::{CaptureState, EngineState, VehicleSection};
use simulator::csv::CsvDialect;
use simulator::folder::JobFolder;
use simulator::recorder::Recorded;
use simulator::systems::invented::{recording, with_job_file};

/// A job of one system.
pub struct SystemCase {
    pub(super) folder: JobFolder,
    pub(super) job: JobFile,
    verdict: TrueVerdict,
    measures: Vec<Measure>,
}

impl SystemCase {
    pub(super) fn new(system: &str, cause: &str) -> SystemCase {
        let verdict = match cause {
            "" => verdict(&["nothing-found"], &[], "forbidden"),
            cause => verdict(&["established", "probable"], &[cause.into()], "forbidden"),
        };
        SystemCase::with(system, verdict)
    }

    /// A job whose recordings cannot carry a verdict.
    pub(super) fn undecided(system: &str) -> SystemCase {
        SystemCase::with(system, verdict(&["open"], &[], "forbidden"))
    }

    fn with(system: &str, verdict: TrueVerdict) -> SystemCase {
        let job = JobFile {
            vehicle: VehicleSection {
                make: Some("Invented make".into()),
                systems: vec![system.into()],
                ..Default::default()
            },
            ..Default::default()
        };
        SystemCase {
            folder: JobFolder::default(),
            job,
            verdict,
            measures: Vec::new(),
        }
    }

    pub(super) fn tolerates_open(mut self) -> SystemCase {
        self.verdict.states.push("open".into());
        self
    }

    pub(super) fn record(
        &mut self,
        file: &str,
        rate_hz: f64,
        channels: Vec<Recorded>,
        engine: Option<EngineState>,
        state: Option<CaptureState>,
    ) {
        let r = recording(rate_hz, channels);
        let mut capture = self.folder.add_csv(file, &r, &CsvDialect::default());
        capture.engine = engine;
        capture.state = state;
        self.job.captures.push(capture);
    }

    pub(super) fn measure(
        &mut self,
        kind: &str,
        file: &str,
        unit: &str,
        value: f64,
        tolerance: f64,
    ) {
        self.measures.push(Measure {
            kinds: vec![kind.into()],
            file: file.into(),
            fields: [("value".into(), Wanted::value(unit, value, tolerance))].into(),
            ..Default::default()
        });
    }

    /// The case with its job file.
    pub fn finish(self, name: &str, class: &str, p: &Params) -> Case {
        let cause = self.verdict.causes.first().cloned();
        Case {
            name: name.into(),
            folder: with_job_file(self.folder, &self.job),
            truth: Truth {
                schema: SCHEMA.into(),
                case: name.into(),
                class: class.into(),
                verdict: self.verdict,
                measures: self.measures,
                job_file: "full".into(),
                noise_level: 1,
                true_cause: cause,
                parameters: p.drawn().to_vec(),
                ..Default::default()
            },
        }
    }
}
