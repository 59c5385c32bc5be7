//! Traces of recordings for the page: read and derived once, kept as pyramids in a folder that may be deleted at any
//! time.

use crate::job::readers;
use formats::{Limits, Reading};
use intake::Revision;
use model::case::{CaptureRecord, ChannelRecord, FileRecord};
use model::{Capture, Case, Channel, TimeAxis};
use page::trace::{Pyramid, build};
use page::{Message, Recording, Trace};
use report::SpeedCurve;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::collections::VecDeque;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::SystemTime;

/// Recordings whose pyramids stay open.
const MAX_OPEN: usize = 8;
/// Bytes that the folder of pyramids may hold.
const MAX_BYTES: u64 = 4 << 30;

/// Recordings that were looked at.
#[derive(Debug)]
pub struct Recordings {
    /// Folder of the pyramids.
    folder: PathBuf,
    /// The newest last, by the digest of what it shows.
    open: Mutex<VecDeque<(String, Arc<Recording>)>>,
}

impl Recordings {
    /// Recordings with their pyramids in a folder.
    pub fn new(folder: PathBuf) -> Recordings {
        Recordings {
            folder,
            open: Mutex::default(),
        }
    }

    /// Traces of a recording as the case shows it; `derive` derives the speeds of its channels.
    ///
    /// # Errors
    /// When the file went away, changed, or cannot be read.
    pub fn get(
        &self,
        case: &Case,
        record: &CaptureRecord,
        revision: &Revision,
        derive: impl FnOnce() -> Result<Vec<SpeedCurve>, Message>,
    ) -> Result<Arc<Recording>, Message> {
        let file = &record.file;
        let entry = case.files.iter().find(|f| f.path == *file);
        let entry = entry.ok_or_else(|| format!("{file}: no file of this job"))?;
        let key = key(record, entry);
        // Teeth and limits that speeds rest on may change where the recording does not.
        let of_speeds = format!(
            "{key}-{}",
            short(&[&revision.fingerprint, &revision.outcome])
        );
        let known = self.lock().iter().find(|(k, _)| *k == of_speeds).cloned();
        if let Some((_, recording)) = known {
            return Ok(recording);
        }
        let location = revision.source.locate(file);
        let location = location.ok_or_else(|| format!("{file}: it is not there any more"))?;
        let mut recording = self.read(&location, record, &key)?;
        recording
            .traces
            .extend(self.speeds(record, &of_speeds, derive)?);
        drop_oldest(&self.folder, MAX_BYTES);
        let recording = Arc::new(recording);
        let mut open = self.lock();
        open.push_back((of_speeds, recording.clone()));
        while open.len() > MAX_OPEN {
            open.pop_front();
        }
        Ok(recording)
    }

    fn lock(&self) -> std::sync::MutexGuard<'_, VecDeque<(String, Arc<Recording>)>> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn read(
        &self,
        location: &Path,
        record: &CaptureRecord,
        key: &str,
    ) -> Result<Recording, String> {
        let reading = formats::read(location, &record.file, &readers(), Limits::default());
        let Reading::Capture(capture) = reading.map_err(|e| e.to_string())? else {
            return Err(format!("{}: no recording", record.file));
        };
        std::fs::create_dir_all(&self.folder).map_err(|e| e.to_string())?;
        let time = time(&capture, record);
        let traces = record.channels.iter().enumerate().map(|(i, r)| {
            let channel = capture.channels.iter().find(|c| c.name == r.name);
            let channel = channel.ok_or_else(|| format!("{}: its file changed", r.name))?;
            let path = self.folder.join(format!("{key}-{i}"));
            let pyramid = pyramid(&path, channel, (r.scale, r.offset));
            Ok(Trace {
                name: r.name.clone(),
                is_speed: false,
                unit: r.unit.clone(),
                time: time.clone(),
                pyramid: pyramid.map_err(|e| format!("{}: {e}", path.display()))?,
            })
        });
        Ok(Recording {
            traces: traces.collect::<Result<_, String>>()?,
        })
    }

    /// Speeds that were derived from the channels, from the folder or anew.
    fn speeds(
        &self,
        record: &CaptureRecord,
        key: &str,
        derive: impl FnOnce() -> Result<Vec<SpeedCurve>, Message>,
    ) -> Result<Vec<Trace>, Message> {
        let roles = record.channels.iter().map(|c| c.role.as_deref());
        if !roles.flatten().any(|r| !r.is_empty()) {
            return Ok(Vec::new());
        }
        let path = self.folder.join(format!("{key}-speeds.json"));
        let known = std::fs::read(&path).ok();
        let known = known.and_then(|bytes| serde_json::from_slice::<Vec<Speed>>(&bytes).ok());
        let speeds = match known {
            Some(known) => known,
            None => {
                let speeds = derive()?.into_iter().map(Speed::from);
                // Of a shaft of which nothing is proven there is nothing to see.
                let speeds: Vec<Speed> = speeds
                    .filter(|s| s.values.iter().any(Option::is_some))
                    .collect();
                let text = serde_json::to_vec(&speeds).map_err(|e| e.to_string())?;
                intake::write_atomic(&path, &text).map_err(|e| e.to_string())?;
                speeds
            }
        };
        let trace = |(i, speed): (usize, &Speed)| {
            let of_role = |c: &&ChannelRecord| c.role.as_deref() == Some(&speed.role);
            let channel = record.channels.iter().find(of_role)?;
            let path = self.folder.join(format!("{key}-speed-{i}"));
            Some(
                speed
                    .trace(channel, &path)
                    .map_err(|e| Message::Words(e.to_string())),
            )
        };
        speeds.iter().enumerate().filter_map(trace).collect()
    }
}

/// A speed as it is kept; what has no value is null.
#[derive(Debug, Serialize, Deserialize)]
struct Speed {
    role: String,
    unit: String,
    start_s: f64,
    step_s: f64,
    values: Vec<Option<f32>>,
}

impl From<SpeedCurve> for Speed {
    fn from(curve: SpeedCurve) -> Speed {
        let values = curve.values.iter().map(|v| *v as f32);
        Speed {
            role: curve.role,
            unit: curve.unit.into(),
            start_s: curve.start_s,
            step_s: curve.step_s,
            values: values.map(|v| v.is_finite().then_some(v)).collect(),
        }
    }
}

impl Speed {
    fn trace(&self, channel: &ChannelRecord, path: &Path) -> std::io::Result<Trace> {
        let len = self.values.len();
        let pyramid = match reopen(path, len) {
            Ok(known) => known,
            Err(_) => {
                let mut values = self.values.iter().map(|v| v.unwrap_or(f32::NAN));
                build(&mut values, path)?;
                Pyramid::open(path, len)?
            }
        };
        Ok(Trace {
            name: channel.name.clone(),
            is_speed: true,
            unit: Some(self.unit.clone()),
            time: TimeAxis::Even {
                start_s: self.start_s,
                step_s: self.step_s,
                len,
            },
            pyramid,
        })
    }
}

fn pyramid(
    path: &Path,
    channel: &Channel,
    (scale, offset): (f64, f64),
) -> std::io::Result<Pyramid> {
    let samples = &channel.samples;
    if let Ok(known) = reopen(path, samples.len()) {
        return Ok(known);
    }
    let mut values = (0..samples.len()).map(|i| (samples.raw(i) * scale + offset) as f32);
    build(&mut values, path)?;
    Pyramid::open(path, samples.len())
}

/// A pyramid that is there; it counts as used now.
fn reopen(path: &Path, len: usize) -> std::io::Result<Pyramid> {
    let pyramid = Pyramid::open(path, len)?;
    let file = std::fs::File::options().append(true).open(path)?;
    file.set_modified(SystemTime::now())?;
    Ok(pyramid)
}

/// Deletes the files of a folder that were used least recently, until the others take at most `max` bytes. One that is
/// mapped stays readable until it is closed; where the system does not delete it, the next time will.
fn drop_oldest(folder: &Path, max: u64) {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut files: Vec<(SystemTime, u64, PathBuf)> = entries
        .filter_map(|e| {
            let facts = e.metadata().ok()?;
            Some((facts.modified().ok()?, facts.len(), e.path()))
        })
        .collect();
    files.sort_by_key(|(used, ..)| std::cmp::Reverse(*used));
    let mut kept = 0;
    for (_, size, path) in files {
        kept += size;
        if kept > max {
            let _ = std::fs::remove_file(path);
        }
    }
}

/// Instants in the unit of the case: job.toml may say another one than the file.
fn time(capture: &Capture, record: &CaptureRecord) -> TimeAxis {
    let (own, shown) = (capture.time.duration_s(), record.end_s - record.start_s);
    match own > 0.0 && shown > 0.0 {
        true => capture.time.divided(own / shown),
        false => capture.time.clone(),
    }
}

/// Digest of a file and of the calibration of its channels.
fn key(record: &CaptureRecord, file: &FileRecord) -> String {
    let mut parts = vec![(record.end_s - record.start_s).to_string()];
    for channel in &record.channels {
        parts.extend([channel.scale.to_string(), channel.offset.to_string()]);
    }
    let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
    let content = file.sha256.as_deref().unwrap_or_default();
    format!("{content}-{}", short(&parts))
}

/// First half of a digest of some texts, hexadecimal.
fn short(texts: &[&str]) -> String {
    let digest = Sha256::digest(texts.join("\n"));
    digest[..16].iter().map(|b| format!("{b:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    #[test]
    fn the_folder_of_pyramids_is_bounded() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        for (age, name) in ["newest", "second", "third"].iter().enumerate() {
            build(&mut [0.0f32; 64].into_iter(), &path(name)).unwrap();
            let file = std::fs::File::options().append(true).open(path(name));
            let used = SystemTime::now() - Duration::from_secs(3600 * age as u64);
            file.unwrap().set_modified(used).unwrap();
        }
        let size = std::fs::metadata(path("third")).unwrap().len();
        let third = reopen(&path("third"), 64).unwrap();
        drop_oldest(folder.path(), size * 2);
        assert!(path("third").exists(), "used a moment ago");
        assert!(path("newest").exists() && !path("second").exists());
        drop_oldest(folder.path(), 0);
        assert_eq!(std::fs::read_dir(&folder).unwrap().count(), 0);
        assert_eq!(third.samples(), [0.0; 64], "still mapped");
    }
}
