//! A job folder: recordings, scan texts and job.toml.

use crate::csv::CsvDialect;
use crate::edges::{self, EdgeChannel};
use crate::recorder::Recording;
use crate::wav::{WavSamples, write_wav};
use model::JobFile;
use model::job_file::{CaptureSection, ChannelSection};
use std::collections::BTreeMap;
use std::{fs, io, path::Path};

/// A job folder that is being filled.
#[derive(Debug, Clone, Default)]
pub struct JobFolder {
    /// The files by name.
    pub files: BTreeMap<String, Vec<u8>>,
}

impl JobFolder {
    /// Adds a recording as delimited text; returns the complete section that job.toml has for it.
    pub fn add_csv(&mut self, file: &str, r: &Recording, dialect: &CsvDialect) -> CaptureSection {
        self.files.insert(file.into(), dialect.write(r));
        let channels = r
            .channels
            .iter()
            .map(|c| (c.name.clone(), c.section.clone()));
        section(file, channels.collect())
    }

    /// Adds a recording as WAVE, whose channels have no names but numbers from 1; returns the complete section
    /// that job.toml has for it.
    pub fn add_wav(&mut self, file: &str, r: &Recording, samples: WavSamples) -> CaptureSection {
        let peak = |values: &[f64]| {
            values
                .iter()
                .filter(|v| v.is_finite())
                .fold(0.0_f64, |m, v| m.max(v.abs()))
        };
        let full: Vec<f64> = r
            .channels
            .iter()
            .map(|c| (peak(&c.values) * 1.15).max(0.1))
            .map(round_up)
            .collect();
        self.files.insert(file.into(), write_wav(r, samples, &full));
        let channels = r
            .channels
            .iter()
            .zip(&full)
            .enumerate()
            .map(|(i, (c, full))| {
                let unit = if c.unit == "mV" { 1e-3 } else { 1.0 };
                let stated = c.section.amps_per_volt.or(c.section.scale);
                let scale = Some(full * unit * stated.unwrap_or(1.0));
                let section = ChannelSection {
                    amps_per_volt: None,
                    scale,
                    ..c.section.clone()
                };
                ((i + 1).to_string(), section)
            });
        section(file, channels.collect())
    }

    /// Adds an edge list of a recording's logic channels; returns the complete section that job.toml has for it.
    pub fn add_edges(
        &mut self,
        file: &str,
        r: &Recording,
        channels: &[EdgeChannel],
    ) -> CaptureSection {
        let text = edges::write(channels, r.start_s, 9);
        self.files.insert(file.into(), text.into_bytes());
        let named = |name: &str| channels.iter().any(|c| c.name == name);
        let of = r.channels.iter().filter(|c| named(&c.name));
        let sections = of.map(|c| (c.name.clone(), c.section.clone()));
        section(file, sections.collect())
    }

    /// Adds job.toml.
    ///
    /// # Errors
    /// When a value has no place in TOML.
    pub fn add_job_file(&mut self, job: &JobFile) -> Result<(), toml::ser::Error> {
        self.files
            .insert("job.toml".into(), toml::to_string(job)?.into_bytes());
        Ok(())
    }

    /// Writes all files into a folder, which is made if it is not there.
    ///
    /// # Errors
    /// When the folder or a file cannot be written.
    pub fn write(&self, folder: &Path) -> io::Result<()> {
        fs::create_dir_all(folder)?;
        self.files
            .iter()
            .try_for_each(|(name, bytes)| fs::write(folder.join(name), bytes))
    }
}

fn section(file: &str, channels: BTreeMap<String, ChannelSection>) -> CaptureSection {
    CaptureSection {
        file: file.into(),
        channels,
        ..CaptureSection::default()
    }
}

/// The next number with two digits that is not smaller. `v` is positive.
fn round_up(v: f64) -> f64 {
    let exponent = v.log10().floor() as i32 - 1;
    let digits = (v / 10f64.powi(exponent)).ceil();
    if exponent < 0 {
        digits / 10f64.powi(-exponent)
    } else {
        digits * 10f64.powi(exponent)
    }
}
