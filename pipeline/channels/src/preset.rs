//! Channel presets: what is said once of channels that are always connected the same way.

use formats::units;
use model::JobFile;
use model::job_file::{CaptureSection, PresetFile};

/// Fills the `[[capture]]` sections with the presets that they name; what job.toml itself says of a channel counts first.
/// A name that no preset has is left to the job file's own check.
pub fn apply_presets(job: &mut JobFile, presets: &[PresetFile]) {
    for section in &mut job.captures {
        let Some(preset) = section_preset(section, presets) else {
            continue;
        };
        for (channel, says) in &preset.channels {
            // Either may write the unit behind the name.
            let bare = units::split(channel).0;
            let own = section.channels.keys().find(|k| units::split(k).0 == bare);
            let key = own.unwrap_or(channel).clone();
            let own = section.channels.remove(&key).unwrap_or_default();
            section.channels.insert(key, own.or(says));
        }
    }
}

/// The preset that a section names; of two of one name the last, which is the shop's own.
pub(crate) fn section_preset<'a>(
    section: &CaptureSection,
    presets: &'a [PresetFile],
) -> Option<&'a PresetFile> {
    let name = section.preset.as_deref()?;
    presets.iter().rfind(|p| p.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use settings::KnownNames;

    #[test]
    fn job_toml_counts_before_its_preset() {
        let known = KnownNames::default();
        let text = "name = \"usual\"\n[channels.\"Input 1\"]\nrole = \"feed-current\"\namps_per_volt = 100.0\n\
                    [channels.\"Input 2\"]\nrole = \"pulses\"\nteeth = 30\n";
        let preset = settings::read_preset(text, "usual.toml", &known).value;
        let job = "[[capture]]\nfile = \"a.csv\"\npreset = \"usual\"\n[capture.channels.\"Input 1 [V]\"]\nscale = 50.0\n";
        let mut job = settings::read_job_file(job, "job.toml", &known).value;
        apply_presets(&mut job, &[preset]);
        let channels = &job.captures[0].channels;
        let first = &channels["Input 1 [V]"];
        assert_eq!(
            (first.role.as_deref(), first.scale, first.amps_per_volt),
            (Some("feed-current"), Some(50.0), None)
        );
        assert_eq!(channels["Input 2"].teeth, Some(30));
    }
}
