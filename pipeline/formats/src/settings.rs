//! job.toml and shop.toml: read with errors that a person can act on.

use crate::vin::{self, VinCheck};
use model::{JobFile, Problem, ShopFile};
use serde::de::DeserializeOwned;

/// Reads job.toml. `file` is its name for messages. A wrong key or value is an error, with its line and
/// the nearest right word. A doubtful vehicle number is none: see [`job_file_doubts`].
pub fn read_job_file(text: &str, file: &str) -> Result<JobFile, Vec<Problem>> {
    let job: JobFile = parse(text, file)?;
    let mut errors = Vec::new();
    for capture in &job.captures {
        for (name, channel) in &capture.channels {
            let mut wrong = |key: &str, message: &str| {
                errors.push(Problem {
                    file: file.into(),
                    place: Some(format!(
                        "capture \"{}\", channel \"{name}\", {key}",
                        capture.file
                    )),
                    message: message.into(),
                });
            };
            let zero = |v: Option<f64>| v.is_some_and(|v| v == 0.0 || !v.is_finite());
            if zero(channel.amps_per_volt) {
                wrong(
                    "amps_per_volt",
                    "expected a number other than zero: the clamp's amperes per volt",
                );
            }
            if zero(channel.scale) {
                wrong(
                    "scale",
                    "expected a number other than zero; leave the key out to keep the values as they are",
                );
            }
            if channel.amps_per_volt.is_some() && channel.scale.is_some() {
                wrong(
                    "scale",
                    "amps_per_volt and scale say the same thing twice; keep one of them",
                );
            }
            if let (Some(teeth), missing) = (channel.teeth, channel.missing_teeth.unwrap_or(0))
                && teeth <= missing
            {
                wrong("teeth", "expected more pitch positions than missing teeth");
            }
        }
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    Ok(job)
}

/// What is odd in a job file though it could be read: a vehicle number that cannot be right. `text` is
/// the file's text, for the line.
pub fn job_file_doubts(job: &JobFile, text: &str, file: &str) -> Vec<Problem> {
    job.vehicle
        .vin
        .as_deref()
        .and_then(|v| doubt(v, text, file))
        .into_iter()
        .collect()
}

/// Reads shop.toml. See [`read_job_file`] for the errors.
pub fn read_shop_file(text: &str, file: &str) -> Result<ShopFile, Vec<Problem>> {
    parse(text, file)
}

fn doubt(vin: &str, text: &str, file: &str) -> Option<Problem> {
    let message = match vin::check(vin) {
        VinCheck::Valid | VinCheck::NotCheckable => return None,
        VinCheck::WrongCheckDigit { expected } => format!(
            "the vehicle number {vin} has a wrong check digit ({expected} was expected at position 9, 49 CFR 565.15). \
             Compare it with the vehicle"
        ),
        VinCheck::Malformed { reason } => {
            format!(
                "the vehicle number {vin:?} cannot be right: {reason}. Compare it with the vehicle"
            )
        }
    };
    let line = text
        .lines()
        .position(|l| l.trim_start().starts_with("vin"))
        .map(|i| i + 1);
    Some(Problem {
        file: file.into(),
        place: Some(line.map_or("vehicle.vin".into(), |l| format!("line {l}, key vin"))),
        message,
    })
}

fn parse<T: DeserializeOwned>(text: &str, file: &str) -> Result<T, Vec<Problem>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    toml::from_str(text).map_err(|e| vec![explain(&e, text, file)])
}

/// A TOML error as line, key and a suggestion.
fn explain(error: &toml::de::Error, text: &str, file: &str) -> Problem {
    let at = error.span().map(|s| s.start.min(text.len()));
    let line = at.map(|at| {
        text.as_bytes()[..at]
            .iter()
            .filter(|b| **b == b'\n')
            .count()
            + 1
    });
    let key = line
        .and_then(|l| text.lines().nth(l - 1))
        .and_then(|l| l.split_once('='))
        .map(|(k, _)| k.trim().trim_matches('"').to_string())
        .filter(|k| !k.is_empty() && !k.starts_with('['));
    let place = line.map(|l| match key {
        Some(key) => format!("line {l}, key {key}"),
        None => format!("line {l}"),
    });
    let message = error.message().trim().replace('\n', " ");
    let hint = suggestion(&message)
        .map(|s| format!(". Did you mean {s}?"))
        .unwrap_or_default();
    Problem {
        file: file.into(),
        place,
        message: format!("{message}{hint}"),
    }
}

/// The nearest of the words that serde would have taken: "unknown field `x`, expected one of `a`, `b`".
fn suggestion(message: &str) -> Option<String> {
    let (unknown, expected) = message.split_once("expected")?;
    let quoted =
        |s: &str| -> Vec<String> { s.split('`').skip(1).step_by(2).map(String::from).collect() };
    let given = quoted(unknown).into_iter().next_back()?;
    let near = |word: &String| {
        strsim::normalized_damerau_levenshtein(&given.to_lowercase(), &word.to_lowercase())
    };
    let best = quoted(expected)
        .into_iter()
        .max_by(|a, b| near(a).total_cmp(&near(b)))?;
    (near(&best) >= 0.5).then(|| format!("`{best}`"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::Role;

    #[test]
    fn a_whole_job_file() {
        let text = "[job]\nnumber = \"R-1\"\nopened = 2026-03-02\n[vehicle]\nvin = \"ZZZEG000000000012\"\n\
                    [[capture]]\nfile = \"a.csv\"\nselector = \"P\"\n[capture.channels.\"Channel A\"]\n\
                    role = \"supply-current\"\namps_per_volt = 100.0\n";
        let job = read_job_file(text, "job.toml").unwrap();
        assert!(job_file_doubts(&job, text, "job.toml").is_empty());
        assert_eq!(
            job.captures[0].channels["Channel A"].role,
            Some(Role::SupplyCurrent)
        );
    }

    #[test]
    fn a_misspelt_key_is_named_with_its_line_and_the_right_one() {
        let errors = read_job_file(
            "[job]\nnumber = \"1\"\n[vehicle]\nodometer_k = 5\n",
            "job.toml",
        )
        .unwrap_err();
        assert_eq!(errors[0].place.as_deref(), Some("line 4, key odometer_k"));
        assert!(
            errors[0].message.contains("`odometer_km`?"),
            "{}",
            errors[0].message
        );
    }

    #[test]
    fn a_misspelt_value_is_named_with_the_right_one() {
        let text =
            "[[capture]]\nfile = \"a.csv\"\n[capture.channels.A]\nrole = \"suply-current\"\n";
        let errors = read_job_file(text, "job.toml").unwrap_err();
        assert_eq!(errors[0].place.as_deref(), Some("line 4, key role"));
        assert!(
            errors[0].message.contains("`supply-current`?"),
            "{}",
            errors[0].message
        );
    }

    #[test]
    fn broken_toml_has_a_line() {
        let errors = read_shop_file("[shop]\nname = \"x\n", "shop.toml").unwrap_err();
        assert!(
            errors[0].place.as_deref().unwrap().starts_with("line 2"),
            "{errors:?}"
        );
    }

    #[test]
    fn a_doubtful_vehicle_number_is_no_error() {
        let doubts = |text: &str| {
            let job = read_job_file(text, "job.toml").unwrap();
            job_file_doubts(&job, text, "job.toml")
        };
        let wrong_digit = doubts("[vehicle]\nvin = \"1M8GDM9A1KP042788\"\n");
        assert_eq!(wrong_digit[0].place.as_deref(), Some("line 2, key vin"));
        assert!(
            doubts("[vehicle]\nvin = \"SHORT\"\n")[0]
                .message
                .contains("17")
        );
    }

    #[test]
    fn values_that_cannot_be() {
        let text =
            "[[capture]]\nfile = \"a\"\n[capture.channels.A]\namps_per_volt = 0.0\nteeth = 0\n";
        assert_eq!(read_job_file(text, "job.toml").unwrap_err().len(), 2);
    }
}
