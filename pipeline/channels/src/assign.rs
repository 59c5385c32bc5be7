//! Roles and calibrations of a recording's channels.

use crate::guess::{SAFE, guess};
use crate::{calibrate, preset, time};
use model::job_file::{CaptureSection, ChannelSection, PresetFile};
use model::system::{Quantity, Roles};
use model::{Calibration, Capture, Channel, JobFile, Problem, RoleSource};

/// Gives each channel of a recording its role and calibration, and the recording its unit of time: as job.toml says with
/// the presets that it names ([`crate::apply_presets`]), else as guessed. The recording's `read_as` then says what was
/// assumed. Returns what job.toml says of each channel, in their order: probes, wheels, sensors.
pub fn assign(
    capture: &mut Capture,
    job: Option<&JobFile>,
    presets: &[PresetFile],
    roles: &Roles,
    problems: &mut Vec<Problem>,
) -> Vec<ChannelSection> {
    let section = job.and_then(|j| j.captures.iter().find(|s| s.file == capture.file));
    if let Some(section) = section {
        time::apply(capture, section, problems);
        name_missing(capture, section, presets, problems);
    }
    let guesses = guess(capture, roles);
    let said = said(capture, section);
    let bare = capture.channels.iter().all(|c| c.unit.is_none());
    for ((channel, guess), said) in capture.channels.iter_mut().zip(guesses).zip(&said) {
        match (said.and_then(|s| roles.get(s.role.as_deref()?)), guess) {
            (Some(role), _) => {
                channel.role = Some(role.clone());
                channel.role_source = RoleSource::JobFile;
            }
            (None, Some(guess)) => {
                channel.role = (guess.certainty >= SAFE).then(|| guess.role.clone());
                channel.role_source = RoleSource::Guess {
                    certainty: guess.certainty,
                    reason: guess.reason,
                };
            }
            (None, None) => {}
        }
        calibrate::calibrate(channel, *said, bare);
    }
    let facts = said.into_iter().map(|s| s.cloned().unwrap_or_default());
    let facts = facts.collect();
    one_channel_a_role(capture, roles, problems);
    say_calibrations(capture, problems);
    facts
}

/// The part of job.toml that speaks of each channel.
fn said<'s>(
    capture: &Capture,
    section: Option<&'s CaptureSection>,
) -> Vec<Option<&'s ChannelSection>> {
    let of = |channel: &Channel| {
        let channels = &section?.channels;
        let key = channels
            .keys()
            .find(|key| is_key_of(key, channel, capture))?;
        channels.get(key)
    };
    capture.channels.iter().map(of).collect()
}

/// True where a key of job.toml names the channel: by its name with or without the unit behind it, in whatever brackets,
/// or by its column.
fn is_key_of(key: &str, channel: &Channel, capture: &Capture) -> bool {
    if key == channel.name {
        return true;
    }
    let column = key.strip_prefix("Column ").and_then(|n| n.parse().ok());
    if column.is_some() && capture.channels.iter().all(|c| c.name != key) {
        return column == channel.column;
    }
    let Some(rest) = key.strip_prefix(channel.name.as_str()) else {
        return false;
    };
    let unit: String = rest
        .chars()
        .filter(|c| c.is_alphanumeric() || *c == 'µ' || *c == 'Ω')
        .collect();
    let unit = unit
        .strip_prefix("in")
        .filter(|u| !u.is_empty())
        .unwrap_or(&unit);
    channel
        .unit
        .as_deref()
        .is_some_and(|u| u.eq_ignore_ascii_case(unit))
}

/// Says which channels of job.toml the recording does not have. A preset may have more leads than were connected this time,
/// but not none of them.
fn name_missing(
    capture: &Capture,
    section: &CaptureSection,
    presets: &[PresetFile],
    problems: &mut Vec<Problem>,
) {
    let preset = preset::section_preset(section, presets);
    let found = |key: &str| capture.channels.iter().any(|c| is_key_of(key, c, capture));
    let none = !section.channels.keys().any(|k| found(k));
    let of_preset = |key: &str| preset.is_some_and(|p| p.channels.contains_key(key));
    for key in section.channels.keys().filter(|k| !found(k)) {
        if !none && of_preset(key) {
            continue;
        }
        let names: Vec<&str> = capture.channels.iter().map(|c| c.name.as_str()).collect();
        problems.push(Problem {
            file: "job.toml".into(),
            place: Some(format!("capture {}, channel {key:?}", capture.file)),
            message: format!(
                "The recording has no such channel; it has {}.",
                names.join(", ")
            ),
        });
    }
}

/// Two channels for one role: the first keeps it, said by job.toml before guessed.
fn one_channel_a_role(capture: &mut Capture, roles: &Roles, problems: &mut Vec<Problem>) {
    for role in roles.iter().filter(|r| !r.declaration().hints.many) {
        let holders: Vec<usize> = (0..capture.channels.len())
            .filter(|&i| capture.channels[i].role.as_ref() == Some(role))
            .collect();
        if holders.len() < 2 {
            continue;
        }
        let keep = holders
            .iter()
            .copied()
            .find(|&i| capture.channels[i].role_source == RoleSource::JobFile)
            .unwrap_or(holders[0]);
        for i in holders.into_iter().filter(|&i| i != keep) {
            capture.channels[i].role = None;
            problems.push(Problem {
                file: capture.file.clone(),
                place: Some(format!("channel {:?}", capture.channels[i].name)),
                message: format!(
                    "Channel {:?} is already taken for {}: say in job.toml which of the two it is.",
                    capture.channels[keep].name,
                    role.name()
                ),
            });
        }
    }
}

/// Says on the file's line which numbers were taken as volts, and asks for the factor of a current that has none.
fn say_calibrations(capture: &mut Capture, problems: &mut Vec<Problem>) {
    let names = |wanted: Calibration, current: bool| -> Vec<String> {
        let fits = |c: &&Channel| {
            let role = c.role.as_ref().map(|r| r.declaration());
            let role = role.filter(|r| !r.hints.many);
            c.calibration == wanted
                && role.is_some_and(|r| (r.quantity == Quantity::Current) == current)
        };
        let channels = capture.channels.iter().filter(fits);
        channels.map(|c| format!("\"{}\"", c.name)).collect()
    };
    let volts = names(Calibration::TakenAsVolts, false);
    let currents = names(Calibration::None, true);
    if !volts.is_empty() {
        capture.read_as.push_str(&format!(
            "; {} without unit, taken as volts",
            volts.join(", ")
        ));
    }
    if !currents.is_empty() {
        problems.push(Problem {
            file: capture.file.clone(),
            place: Some(format!("channel {}", currents.join(", "))),
            message: "a current without its factor: its times and its shape count, its amperes do not. Write into \
                      job.toml what one recorded volt is (amps_per_volt = 100.0, as printed on the clamp), or the factor \
                      to amperes (scale = 1.0 where the numbers are amperes; of a WAV the value at full scale)"
                .into(),
        });
    }
}
