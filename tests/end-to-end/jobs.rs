//! Jobs for the tests: classes of the evaluation set with a complete job.toml, and recordings to be rendered otherwise.

use baybrief_evaluation::draft::{Capture, Draft};
use baybrief_evaluation::params::{Overrides, Params};
use baybrief_evaluation::render::render;
use baybrief_evaluation::scenario::Scenario;
use baybrief_evaluation::standstill::drag_capture;
use simulator::csv::CsvDialect;
use simulator::folder::JobFolder;
use std::collections::BTreeMap;

/// A job's files by name.
pub type Files = BTreeMap<String, Vec<u8>>;

/// Parameters of a quiet case.
fn quiet(seed: u64) -> Params {
    Params::with_overrides(seed, Overrides::from([("noise level".to_string(), 0.0)]))
}

/// A case of the evaluation set: quiet, and with a job.toml that lacks nothing. Also the causes that are true of it.
pub fn evaluation_case(make: fn(&mut Params) -> Draft, seed: u64) -> (Files, Vec<String>) {
    let mut p = quiet(seed);
    let draft = make(&mut p).complete();
    let case = render("case", "end to end", draft, &mut p);
    assert_eq!(case.truth.job_file, "full");
    (case.folder.files, case.truth.verdict.causes)
}

/// A recording of clutch `k` (0 or 1) that drags while its actuator stalls, in P with the engine running.
pub fn drag(k: usize, seed: u64) -> Capture {
    let mut p = quiet(seed);
    let scenario = Scenario::standstill(&mut p);
    drag_capture(&scenario, &mut p, k, |_| {})
}

/// One recording as `relearn.csv` with the job.toml that says everything about it.
pub fn with_job_file(capture: &Capture) -> Files {
    let mut folder = JobFolder::default();
    let mut section = folder.add_csv("relearn.csv", &capture.recording, &CsvDialect::default());
    section.selector = capture.selector;
    section.engine = capture.engine;
    let job = model::JobFile {
        captures: vec![section],
        ..Default::default()
    };
    folder.add_job_file(&job).expect("a job file");
    folder.files
}
