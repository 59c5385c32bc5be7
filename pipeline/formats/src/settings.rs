//! job.toml and shop.toml: read with errors that a person can act on.

use crate::vin::{self, VinCheck};
use model::job_file::{ChannelSection, HookupFile};
use model::{JobFile, Problem, ShopFile};
use serde::de::DeserializeOwned;

/// Reads job.toml. `file` is its name for messages. A wrong key or value is an error, with its line and
/// the nearest right word. A doubtful vehicle number is none: see [`job_file_doubts`].
pub fn read_job_file(text: &str, file: &str) -> Result<JobFile, Vec<Problem>> {
    let job: JobFile = parse(text, file)?;
    let channels = job.captures.iter().flat_map(|c| &c.channels);
    let errors: Vec<Problem> = channels
        .flat_map(|(name, c)| wrong_values(name, c, text, file))
        .collect();
    if errors.is_empty() {
        Ok(job)
    } else {
        Err(errors)
    }
}

/// Reads a saved hook-up. See [`read_job_file`] for the errors.
pub fn read_hookup(text: &str, file: &str) -> Result<HookupFile, Vec<Problem>> {
    let hookup: HookupFile = parse(text, file)?;
    let channels = hookup.channels.iter();
    let errors: Vec<Problem> = channels
        .flat_map(|(name, c)| wrong_values(name, c, text, file))
        .collect();
    if errors.is_empty() {
        Ok(hookup)
    } else {
        Err(errors)
    }
}

/// The line, from 1, of the key that names a hook-up in a job file's text, for messages.
pub fn hookup_line(text: &str, name: &str) -> Option<usize> {
    let names = |l: &str| l.trim_start().starts_with("hookup") && l.contains(name);
    text.lines().position(names).map(|i| i + 1)
}

/// Values of a channel that cannot be.
fn wrong_values(name: &str, channel: &ChannelSection, text: &str, file: &str) -> Vec<Problem> {
    let mut errors = Vec::new();
    let mut wrong = |key: &str, message: &str| {
        let place = match key_line(text, name, key) {
            Some(line) => format!("line {line}, channel \"{name}\", key {key}"),
            None => format!("channel \"{name}\", key {key}"),
        };
        errors.push(Problem {
            file: file.into(),
            place: Some(place),
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
    if channel
        .teeth
        .is_some_and(|teeth| teeth <= channel.missing_teeth.unwrap_or(0))
    {
        wrong("teeth", "expected more pitch positions than missing teeth");
    }
    errors
}

/// The line, from 1, where a channel's key stands: behind the table that names the channel.
fn key_line(text: &str, channel: &str, key: &str) -> Option<usize> {
    let table = text.lines().position(|l| {
        let l = l.trim();
        l.starts_with('[') && l.contains("channels") && l.contains(channel)
    })?;
    let own = text
        .lines()
        .enumerate()
        .skip(table + 1)
        .take_while(|(_, l)| !l.trim_start().starts_with('['));
    own.into_iter()
        .find(|(_, l)| l.trim_start().starts_with(key))
        .map(|(i, _)| i + 1)
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

    #[test]
    fn a_whole_job_file() {
        let text = "[job]\nnumber = \"R-1\"\nopened = 2026-03-02\n[vehicle]\nvin = \"ZZZEG000000000012\"\n\
                    [[capture]]\nfile = \"a.csv\"\nselector = \"P\"\n[capture.channels.\"Channel A\"]\n\
                    role = \"supply-current\"\namps_per_volt = 100.0\n";
        let job = read_job_file(text, "job.toml").unwrap();
        assert!(job_file_doubts(&job, text, "job.toml").is_empty());
        assert_eq!(
            job.captures[0].channels["Channel A"].role.as_deref(),
            Some("supply-current")
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

    /// Every hook-up that is shipped can be read, and is named like its file.
    #[test]
    fn the_examples_can_be_read() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples/hookups");
        let mut count = 0;
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let hookup = read_hookup(&std::fs::read_to_string(&path).unwrap(), &name).unwrap();
            assert_eq!(format!("{}.toml", hookup.name), name);
            assert!(hookup.channels.values().all(|c| c.role.is_some()));
            count += 1;
        }
        assert!(count >= 3);
    }

    #[test]
    fn a_hook_up_with_a_wrong_key_names_file_line_and_key() {
        let e = read_hookup(
            "name = \"x\"\n[channels.A]\nrole = \"supply-current\"\namps_pr_volt = 1.0\n",
            "x.toml",
        )
        .unwrap_err();
        assert_eq!(
            (e[0].file.as_str(), e[0].place.as_deref()),
            ("x.toml", Some("line 4, key amps_pr_volt"))
        );
        assert!(e[0].message.contains("`amps_per_volt`?"), "{e:?}");
        let e = read_hookup("name = \"x\"\n[channels.\"A b\"]\nteeth = 0\n", "x.toml").unwrap_err();
        assert_eq!(
            e[0].place.as_deref(),
            Some("line 3, channel \"A b\", key teeth")
        );
    }

    #[test]
    fn values_that_cannot_be() {
        let text =
            "[[capture]]\nfile = \"a\"\n[capture.channels.A]\namps_per_volt = 0.0\nteeth = 0\n";
        let errors = read_job_file(text, "job.toml").unwrap_err();
        assert_eq!(errors.len(), 2);
        assert_eq!(
            errors[0].place.as_deref(),
            Some("line 4, channel \"A\", key amps_per_volt")
        );
    }
}
