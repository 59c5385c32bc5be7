//! Jobs for the tests: the casebook's classes with a complete job.toml, and recordings to be dressed otherwise.

use baybrief_casebook::draft::{Draft, Shot};
use baybrief_casebook::dress;
use baybrief_casebook::rig::Rig;
use baybrief_casebook::standstill::drag_shot;
use simulator::csv::CsvDialect;
use simulator::folder::JobFolder;
use simulator::noise::Noise;
use std::collections::BTreeMap;

/// A job's files by name.
pub type Files = BTreeMap<String, Vec<u8>>;

/// A case of the casebook: quiet, and with a job.toml that lacks nothing. Also the causes that are true of it.
pub fn casebook(make: fn(&mut Noise, usize) -> Draft, seed: u64) -> (Files, Vec<String>) {
    let mut dice = Noise::new(seed);
    let draft = make(&mut dice, 0).complete();
    let case = dress::dress("case", "end to end", 0, draft, &mut dice);
    assert_eq!(case.truth.job_file, "full");
    (case.folder.files, case.truth.verdict.causes)
}

/// A recording of clutch `k` (0 or 1) that drags while its actuator stalls, in P with the engine running.
pub fn drag(k: usize, seed: u64) -> Shot {
    let mut dice = Noise::new(seed);
    let rig = Rig::standstill(&mut dice, 0);
    drag_shot(&rig, &mut dice, k, |_| {})
}

/// One recording as `relearn.csv` with the job.toml that says everything about it.
pub fn with_job_file(shot: &Shot) -> Files {
    let mut folder = JobFolder::default();
    let mut section = folder.add_csv("relearn.csv", &shot.recording, &CsvDialect::default());
    section.selector = shot.selector;
    section.engine = shot.engine;
    let job = model::JobFile {
        captures: vec![section],
        ..Default::default()
    };
    folder.add_job_file(&job).expect("a job file");
    folder.files
}
