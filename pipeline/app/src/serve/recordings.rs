//! Traces of recordings for the page: read once, kept as pyramids in a folder that may be deleted at any time.

use crate::job::readers;
use formats::{Limits, Reading};
use intake::JobSource;
use model::case::{CaptureRecord, FileRecord};
use model::{Capture, Case, Channel, TimeAxis};
use page::trace::{Pyramid, build};
use page::{Recording, Trace};
use std::collections::VecDeque;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// Recordings whose pyramids stay open.
const MAX_OPEN: usize = 8;

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

    /// Traces of a recording as the case shows it.
    ///
    /// # Errors
    /// When the file went away, changed, or cannot be read.
    pub fn get(
        &self,
        case: &Case,
        record: &CaptureRecord,
        source: &JobSource,
    ) -> Result<Arc<Recording>, String> {
        let file = &record.file;
        let entry = case.files.iter().find(|f| f.path == *file);
        let entry = entry.ok_or_else(|| format!("{file}: no file of this job"))?;
        let key = key(record, entry);
        let known = self.lock().iter().find(|(k, _)| *k == key).cloned();
        if let Some((_, recording)) = known {
            return Ok(recording);
        }
        let location = source.locate(file);
        let location = location.ok_or_else(|| format!("{file}: it is not there any more"))?;
        let recording = Arc::new(self.read(&location, record, &key)?);
        let mut open = self.lock();
        open.push_back((key, recording.clone()));
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
        let traces = record.channels.iter().enumerate().map(|(i, r)| {
            let channel = capture.channels.iter().find(|c| c.name == r.name);
            let channel = channel.ok_or_else(|| format!("{}: its file changed", r.name))?;
            let path = self.folder.join(format!("{key}-{i}"));
            let pyramid = pyramid(&path, channel, (r.scale, r.offset));
            Ok(Trace {
                name: r.name.clone(),
                unit: r.unit.clone(),
                pyramid: pyramid.map_err(|e| format!("{}: {e}", path.display()))?,
            })
        });
        Ok(Recording {
            channels: traces.collect::<Result<_, String>>()?,
            time: time(&capture, record),
        })
    }
}

fn pyramid(
    path: &Path,
    channel: &Channel,
    (scale, offset): (f64, f64),
) -> std::io::Result<Pyramid> {
    let samples = &channel.samples;
    if let Ok(known) = Pyramid::open(path, samples.len()) {
        return Ok(known);
    }
    let mut values = (0..samples.len()).map(|i| (samples.raw(i) * scale + offset) as f32);
    build(&mut values, path)?;
    Pyramid::open(path, samples.len())
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
    let mut key = file.sha256.clone().unwrap_or_default();
    let span = (record.end_s - record.start_s).to_bits();
    let calibrations = record
        .channels
        .iter()
        .flat_map(|c| [c.scale.to_bits(), c.offset.to_bits()]);
    let mixed = calibrations.fold(span, |m, bits| m.rotate_left(7) ^ bits);
    key.push_str(&format!("-{mixed:016x}"));
    key
}
