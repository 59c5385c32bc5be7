//! Unit of the time of a recording or a bus log, where the file does not state it.

use model::job_file::{CaptureSection, TimeUnit};
use model::{Capture, JobFile, Problem, ScanRecord, TimeSource};

/// Applies `time_unit` of job.toml to a time axis whose file states no unit.
pub(crate) fn apply(capture: &mut Capture, section: &CaptureSection, problems: &mut Vec<Problem>) {
    let Some(unit) = section.time_unit else {
        return;
    };
    if capture.time_source == TimeSource::File {
        problems.push(not_used(&capture.file));
        return;
    }
    capture.time = capture.time.divided(unit.per_second());
    capture.time_source = TimeSource::JobFile;
    answered(&mut capture.problems);
    if let Some(at) = capture.read_as.find(" (no unit given") {
        let rest = capture.read_as.split_off(at);
        let behind = rest.split_once(')').map_or("", |(_, behind)| behind);
        capture.read_as.push_str(&in_unit(unit));
        capture.read_as.push_str(behind);
    }
}

/// Applies `time_unit` of job.toml to a bus log whose file states no unit.
pub fn apply_to_bus_log(
    record: &mut ScanRecord,
    job: Option<&JobFile>,
    problems: &mut Vec<Problem>,
) {
    let section = job.and_then(|j| j.captures.iter().find(|s| s.file == record.file));
    let (Some(unit), Some(log)) = (section.and_then(|s| s.time_unit), &mut record.bus_log) else {
        return;
    };
    match log.time_source {
        TimeSource::File => problems.push(not_used(&record.file)),
        // What was assumed of the numbers is taken back with it.
        _ => {
            log.divide_time(
                unit.per_second() / log.assumed_per_second,
                TimeSource::JobFile,
            );
            problems.extend(log.join_clock(&record.file));
            record.read_as.push_str(&format!(", time{}", in_unit(unit)));
            answered(&mut record.problems);
        }
    }
}

/// Takes back what was said of the missing unit.
fn answered(problems: &mut Vec<Problem>) {
    problems.retain(|p| !p.message.contains("time_unit ="));
}

fn not_used(file: &str) -> Problem {
    Problem {
        file: "job.toml".into(),
        place: Some(format!("capture {file}, key time_unit")),
        message: "the file states the unit of its time itself, which was used; leave time_unit out, or correct the file's \
                  header"
            .into(),
    }
}

fn in_unit(unit: TimeUnit) -> String {
    let name = match unit {
        TimeUnit::S => "s",
        TimeUnit::Ms => "ms",
        TimeUnit::Us => "us",
        TimeUnit::Min => "min",
        TimeUnit::H => "h",
    };
    format!(" in {name}, as job.toml says")
}
