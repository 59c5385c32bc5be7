//! Unit of a recording's time, where the file does not state it.

use model::job_file::{CaptureSection, TimeUnit};
use model::{Capture, Problem, TimeSource};

/// Applies `time_unit` of job.toml to a time axis whose file states no unit.
pub(crate) fn apply(capture: &mut Capture, section: &CaptureSection, problems: &mut Vec<Problem>) {
    let Some(unit) = section.time_unit else {
        return;
    };
    if matches!(capture.time_source, TimeSource::File) {
        problems.push(Problem {
            file: "job.toml".into(),
            place: Some(format!("capture {}, key time_unit", capture.file)),
            message: "the file states the unit of its time itself, which was used; leave time_unit out, or correct the \
                      file's header"
                .into(),
        });
        return;
    }
    capture.time = capture.time.divided(unit.per_second());
    capture.time_source = TimeSource::JobFile;
    // What was said of the missing unit no longer holds.
    capture
        .problems
        .retain(|p| !p.message.contains("time_unit ="));
    if let Some(at) = capture.read_as.find(" (no unit given") {
        capture.read_as.truncate(at);
    }
    capture
        .read_as
        .push_str(&format!(" in {}, as job.toml says", name(unit)));
}

fn name(unit: TimeUnit) -> &'static str {
    match unit {
        TimeUnit::S => "s",
        TimeUnit::Ms => "ms",
        TimeUnit::Us => "us",
        TimeUnit::Min => "min",
        TimeUnit::H => "h",
    }
}
