//! Hook-up: which channel measures what, and what its numbers mean.

use super::acquire::Acquired;
use formats::roles::SAFE;
use model::job_file::{CaptureSection, ChannelSection, HookupFile};
use model::system::Roles;
use model::{Capture, Channel, JobFile, Problem, RoleSource};

/// Fills in what the hook-ups say that job.toml names; what job.toml itself says of a channel counts first. A hook-up
/// that does not exist is a problem, and the recording is read without it.
pub fn fill_in(files: &mut Acquired, hookups: &[HookupFile]) {
    let captures = files.job.iter_mut().flat_map(|j| &mut j.captures);
    for section in captures {
        let Some(name) = section.hookup.as_deref() else {
            continue;
        };
        match saved(section, hookups) {
            Some(hookup) => {
                for (channel, says) in &hookup.channels {
                    // Either may write the unit behind the name.
                    let bare = formats::channel_name(channel);
                    let own = section
                        .channels
                        .keys()
                        .find(|k| formats::channel_name(k) == bare);
                    let key = own.unwrap_or(channel).clone();
                    let own = section.channels.remove(&key).unwrap_or_default();
                    section.channels.insert(key, own.or(says));
                }
            }
            None => {
                let line = formats::settings::hookup_line(&files.job_text, name);
                let known: Vec<&str> = hookups.iter().map(|h| h.name.as_str()).collect();
                files.problems.push(Problem {
                    file: "job.toml".into(),
                    place: Some(line.map_or("key hookup".into(), |l| format!("line {l}, key hookup"))),
                    message: format!(
                        "There is no saved hook-up {name:?}; known are {}. Put it into the folder hookups beside the \
                         shop's sheets, or name another.",
                        known.join(", ")
                    ),
                });
            }
        }
    }
}

/// The hook-up that a section names; of two of one name the last, which is the shop's own.
fn saved<'a>(section: &CaptureSection, hookups: &'a [HookupFile]) -> Option<&'a HookupFile> {
    let name = section.hookup.as_deref()?;
    hookups.iter().rfind(|h| h.name == name)
}

/// Gives each channel its role and calibration: what job.toml and its hook-up say, else what is guessed.
pub fn apply(
    capture: &mut Capture,
    job: Option<&JobFile>,
    hookups: &[HookupFile],
    roles: &Roles,
    problems: &mut Vec<Problem>,
) {
    let guesses = formats::roles::guess(capture);
    let section = job.and_then(|j| j.captures.iter().find(|s| s.file == capture.file));
    let no_units = capture.channels.iter().all(|c| c.unit.is_none());
    let mut named = vec![false; section.map_or(0, |s| s.channels.len())];
    for (channel, guess) in capture.channels.iter_mut().zip(guesses) {
        let said = section.and_then(|s| {
            let i = s.channels.keys().position(|k| same_name(k, channel))?;
            named[i] = true;
            s.channels.values().nth(i)
        });
        match (said.and_then(|s| roles.get(s.role.as_deref()?)), guess) {
            (Some(role), _) => {
                channel.role = Some(role.clone());
                channel.role_source = RoleSource::JobFile;
            }
            (None, Some(g)) => {
                channel.role = (g.certainty >= SAFE)
                    .then(|| roles.get(g.role).cloned())
                    .flatten();
                channel.role_source = RoleSource::Guess {
                    certainty: g.certainty,
                    reason: g.reason,
                };
            }
            (None, None) => {}
        }
        calibrate(channel, said, no_units);
    }
    if let Some(s) = section {
        // A saved hook-up may have more leads than were clipped on this time, but not none of them.
        let hookup = saved(s, hookups);
        let of_hookup = |key: &str| hookup.is_some_and(|h| h.channels.contains_key(key));
        let none = !named.contains(&true);
        let missing = s.channels.keys().zip(&named).filter(|(_, found)| !**found);
        for (key, _) in missing.filter(|(key, _)| none || !of_hookup(key)) {
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
    one_channel_a_role(capture, roles, problems);
}

/// A name in job.toml may carry the unit that stands behind it in the file, in whatever brackets.
fn same_name(key: &str, channel: &Channel) -> bool {
    if key == channel.name {
        return true;
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

/// Factor from a unit as files write it to the base unit, and that base unit.
fn base_unit(unit: &str) -> Option<(f64, &'static str)> {
    Some(match unit.trim() {
        "V" | "v" | "Volt" | "volt" | "volts" | "Volts" => (1.0, "V"),
        "mV" | "mv" => (1e-3, "V"),
        "uV" | "µV" | "μV" => (1e-6, "V"),
        "kV" => (1e3, "V"),
        "A" | "a" | "Amp" | "Amps" | "amp" | "amps" | "Ampere" => (1.0, "A"),
        "mA" | "ma" => (1e-3, "A"),
        "uA" | "µA" | "μA" => (1e-6, "A"),
        _ => return None,
    })
}

/// Applies units, clamp factor, scale and offset. The channel's own scale (a WAV's full scale) stays inside.
fn calibrate(channel: &mut Channel, said: Option<&ChannelSection>, no_units: bool) {
    let wanted = channel.role.as_ref().map_or("V", |r| r.unit()).to_owned();
    let unit = said
        .and_then(|s| s.unit.clone())
        .or_else(|| channel.unit.clone());
    let base = unit.as_deref().and_then(base_unit);
    let mut scale = |k: f64| {
        channel.scale *= k;
        channel.offset *= k;
    };
    let mut known = false;
    if let Some((k, u)) = base {
        scale(k);
        known = u == wanted.as_str();
    }
    let (clamp, factor, offset) =
        said.map_or((None, None, None), |s| (s.amps_per_volt, s.scale, s.offset));
    if let Some(k) = clamp.filter(|_| base.is_none_or(|b| b.1 == "V")) {
        scale(k);
        known = true;
    }
    if let Some(k) = factor {
        scale(k);
        known = true;
    }
    channel.offset += offset.unwrap_or(0.0);
    // A file without any units is in volts and amperes; a tooth signal needs no true scale at all.
    if base.is_none() && !known {
        known = no_units && unit.is_none()
            || channel.role.as_ref().is_some_and(|r| r.is_speed_sensor());
    }
    channel.calibrated = known;
    channel.unit = Some(if known {
        wanted
    } else {
        base.map_or("", |b| b.1).into()
    });
}

/// Two channels for one role: the first keeps it, said by job.toml before guessed.
fn one_channel_a_role(capture: &mut Capture, roles: &Roles, problems: &mut Vec<Problem>) {
    for role in roles.iter().filter(|r| *r != "other") {
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

#[cfg(test)]
mod tests {
    use super::*;
    use model::system::{Quantity, RoleDeclaration};
    use model::{Role, Samples};

    fn current() -> Role {
        Role::declared(RoleDeclaration {
            name: "supply-current".into(),
            quantity: Quantity::Current,
            unit: "A".into(),
            plot_order: 0,
            names: Default::default(),
        })
    }

    fn channel(name: &str, unit: Option<&str>, role: Role) -> Channel {
        Channel {
            role: Some(role),
            role_source: RoleSource::JobFile,
            ..Channel::recorded(name, unit.map(Into::into), Samples::F32(vec![100.0].into()))
        }
    }

    fn section(f: impl FnOnce(&mut ChannelSection)) -> ChannelSection {
        let mut s = ChannelSection::default();
        f(&mut s);
        s
    }

    #[test]
    fn a_clamp_in_millivolts() {
        // 100 mV at 100 A/V are 10 A.
        let mut c = channel("A", Some("mV"), current());
        calibrate(
            &mut c,
            Some(&section(|s| s.amps_per_volt = Some(100.0))),
            false,
        );
        assert!((c.value(0) - 10.0).abs() < 1e-9 && c.calibrated);
        assert_eq!(c.unit.as_deref(), Some("A"));
    }

    #[test]
    fn amperes_are_not_scaled_again() {
        let mut c = channel("A", Some("A"), current());
        calibrate(
            &mut c,
            Some(&section(|s| s.amps_per_volt = Some(100.0))),
            false,
        );
        assert!((c.value(0) - 100.0).abs() < 1e-9 && c.calibrated);
    }

    #[test]
    fn volts_of_a_clamp_without_its_factor_are_not_amperes() {
        let mut c = channel("A", Some("V"), current());
        calibrate(&mut c, None, false);
        assert!(!c.calibrated);
    }

    #[test]
    fn a_file_without_units_is_in_volts_and_amperes() {
        let mut c = channel("A", None, current());
        calibrate(&mut c, None, true);
        assert!(c.calibrated && c.value(0) == 100.0);
    }

    fn files(job: &str) -> Acquired {
        Acquired {
            job: Some(formats::settings::read_job_file(job, "job.toml").unwrap()),
            job_text: job.into(),
            ..Acquired::default()
        }
    }

    fn hookups() -> Vec<HookupFile> {
        let text = "name = \"usual\"\n[channels.A]\nrole = \"supply-current\"\namps_per_volt = 100.0\n\
                    [channels.B]\nrole = \"input-shaft-1\"\nteeth = 30\n";
        vec![formats::settings::read_hookup(text, "usual.toml").unwrap()]
    }

    #[test]
    fn job_toml_counts_before_its_hook_up() {
        let mut files = files(
            "[[capture]]\nfile = \"a.csv\"\nhookup = \"usual\"\n[capture.channels.\"A [V]\"]\nscale = 50.0\n",
        );
        fill_in(&mut files, &hookups());
        let channels = &files.job.as_ref().unwrap().captures[0].channels;
        let a = &channels["A [V]"];
        assert_eq!(
            (a.role.as_deref(), a.scale, a.amps_per_volt),
            (Some("supply-current"), Some(50.0), None)
        );
        assert_eq!(channels["B"].teeth, Some(30));
        assert!(files.problems.is_empty());
    }

    #[test]
    fn a_hook_up_that_does_not_exist_is_said_with_its_line() {
        let mut files = files("[[capture]]\nfile = \"a.csv\"\nhookup = \"usul\"\n");
        fill_in(&mut files, &hookups());
        let p = &files.problems[0];
        assert_eq!(p.place.as_deref(), Some("line 3, key hookup"));
        assert!(p.message.contains("known are usual"), "{}", p.message);
    }

    #[test]
    fn names_with_their_unit() {
        let c = channel("Channel A", Some("mV"), current());
        for key in [
            "Channel A",
            "Channel A [mV]",
            "Channel A (mV)",
            "Channel A in mV",
            "Channel A_mV",
        ] {
            assert!(same_name(key, &c), "{key}");
        }
        assert!(!same_name("Channel A2", &c) && !same_name("Channel A [V]", &c));
    }
}
