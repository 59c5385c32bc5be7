//! Answers of an earlier job.toml in place of those that a later one has lost to wrong lines.

use model::JobFile;
use toml::{Table, Value};

/// Keys of a channel's calibration, which counts as a whole.
const CALIBRATION: [&str; 3] = ["amps_per_volt", "scale", "offset"];

/// Returns the answers of `now`, and those of `before` where it has none. Recordings are matched by their files.
pub fn keep_answers(now: JobFile, before: &JobFile) -> JobFile {
    let tables = (Table::try_from(&now), Table::try_from(before));
    let (Ok(mut answers), Ok(before)) = tables else {
        return now;
    };
    fill(&mut answers, before);
    answers.try_into().unwrap_or(now)
}

fn fill(now: &mut Table, before: Table) {
    let is_calibrated = CALIBRATION.iter().any(|key| now.contains_key(*key));
    for (key, value) in before {
        if is_calibrated && CALIBRATION.contains(&key.as_str()) {
            continue;
        }
        match (now.get_mut(&key), value) {
            (Some(Value::Table(now)), Value::Table(before)) => fill(now, before),
            (Some(Value::Array(now)), Value::Array(before))
                if key == "capture" || key == "photo" =>
            {
                fill_of_files(now, before);
            }
            (Some(_), _) => {}
            (None, value) => _ = now.insert(key, value),
        }
    }
}

fn fill_of_files(now: &mut Vec<Value>, before: Vec<Value>) {
    for section in before {
        let same = now
            .iter_mut()
            .find(|s| s.get("file") == section.get("file"));
        match (same, section) {
            (Some(Value::Table(now)), Value::Table(before)) => fill(now, before),
            (_, section) => now.push(section),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn job(text: &str) -> JobFile {
        toml::from_str(text).unwrap()
    }

    #[test]
    fn what_is_lost_is_kept_and_what_is_said_anew_counts() {
        let before = job(r#"
            [job]
            number = "R-1"
            opened = 2026-03-02
            diagnosis_hours = 1.5
            [vehicle]
            unit = "dual-dry-clutch"
            [[capture]]
            file = "a.csv"
            selector = "P"
            [capture.channels.A]
            role = "supply-current"
            amps_per_volt = 100.0
            [[capture]]
            file = "b.csv"
            engine = "off"
        "#);
        let now = job(r#"
            [job]
            diagnosis_hours = 2.0
            [[capture]]
            file = "b.csv"
            engine = "running"
            [[capture]]
            file = "a.csv"
            engine = "running"
            [capture.channels.A]
            scale = 10.0
        "#);
        let kept = keep_answers(now, &before);
        let wanted = job(r#"
            [job]
            number = "R-1"
            opened = 2026-03-02
            diagnosis_hours = 2.0
            [vehicle]
            unit = "dual-dry-clutch"
            [[capture]]
            file = "b.csv"
            engine = "running"
            [[capture]]
            file = "a.csv"
            selector = "P"
            engine = "running"
            [capture.channels.A]
            role = "supply-current"
            scale = 10.0
        "#);
        assert_eq!(kept, wanted);
        assert_eq!(keep_answers(JobFile::default(), &before), before);
        assert_eq!(keep_answers(before.clone(), &JobFile::default()), before);
    }
}
