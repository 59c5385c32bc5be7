//! Photos that job.toml names, made ready for the customer's report.

use super::draft::names;
use intake::JobEntry;
use model::job_file::PhotoSection;
use report::{MAX_PHOTO_BYTES, Photo};
use std::io::Read;

/// The most photos that a report shows.
const MAX_PHOTOS: usize = 8;

/// Photos of a job, and why others are not shown.
#[derive(Debug, Default)]
pub struct Photos {
    /// Ready to be shown, in the order of job.toml.
    pub ready: Vec<Photo>,
    /// Files that are no photos, or damaged ones: path and reason.
    pub rejected: Vec<(String, String)>,
    /// Sections of job.toml that cannot be followed.
    pub wrong: Vec<String>,
}

/// Reads the photos that the sections name.
pub fn read(sections: &[PhotoSection], entries: &[JobEntry]) -> Photos {
    let mut photos = Photos::default();
    for section in sections {
        let file = section.file.as_str();
        let Some(entry) = entries.iter().find(|e| names(file, &e.path)) else {
            let there = entries.iter().map(|e| e.path.as_str());
            let there = there.collect::<Vec<_>>().join(", ");
            photos.wrong.push(format!(
                "[[photo]] names \"{file}\", and no such file lies in the job; there are {there}"
            ));
            continue;
        };
        if photos.ready.len() == MAX_PHOTOS {
            photos.wrong.push(format!(
                "[[photo]] \"{file}\": a report shows at most {MAX_PHOTOS} photos; name the ones that count"
            ));
            continue;
        }
        match photo(section, entry) {
            Ok(photo) => photos.ready.push(photo),
            Err(reason) => photos.rejected.push((entry.path.clone(), reason)),
        }
    }
    photos
}

fn photo(section: &PhotoSection, entry: &JobEntry) -> Result<Photo, String> {
    let wrong = |reason: &dyn std::fmt::Display| format!("{}: {reason}", entry.path);
    let file = entry.open().map_err(|e| wrong(&e))?;
    let mut content = Vec::new();
    let mut file = file.take(MAX_PHOTO_BYTES + 1);
    file.read_to_end(&mut content).map_err(|e| wrong(&e))?;
    if content.len() as u64 > MAX_PHOTO_BYTES {
        let most = MAX_PHOTO_BYTES >> 20;
        return Err(wrong(&format!(
            "the photo is larger than {most} MiB; save it smaller"
        )));
    }
    Photo::new(&section.caption, &content).map_err(|e| wrong(&e))
}
