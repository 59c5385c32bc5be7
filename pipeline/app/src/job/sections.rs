//! The recording that each `[[capture]]` of job.toml speaks of.

use super::acquire::Acquired;
use model::Problem;

/// Settles the file that each section names: among loose files, what all of the job's names begin with may be left
/// out. A section that speaks of no file of the job is a problem, because its words would go unheard.
pub fn settle(acquired: &mut Acquired) {
    let Some(job) = &mut acquired.job else { return };
    let paths = |kind| {
        let of_kind = acquired.files.iter().filter(move |r| r.kind == kind);
        of_kind.map(|r| r.path.as_str())
    };
    let job_path = paths("job").next().unwrap_or("job.toml");
    let shared = job_path.strip_suffix("job.toml").unwrap_or_default();
    let recordings: Vec<&str> = paths("capture").collect();
    for section in &mut job.captures {
        let full = format!("{shared}{}", section.file);
        if acquired.files.iter().any(|r| r.path == section.file) {
            continue;
        }
        if acquired.files.iter().any(|r| r.path == full) {
            section.file = full;
            continue;
        }
        let known = match recordings.as_slice() {
            [] => "it has no recording yet".into(),
            known => format!("its recordings are {}", known.join(", ")),
        };
        acquired.problems.push(Problem {
            file: job_path.into(),
            place: Some(format!("capture {:?}", section.file)),
            message: format!(
                "The job has no such file; {known}. Name one of them, or drop the file."
            ),
        });
    }
}
