//! Tracks that one plugin derives and later ones use: on their way between processes, and kept for one recording.

use crate::wire::Bits;
use plugin_abi::read::TrackView;
use plugin_abi::{Str, Track};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// A track on its way.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct TrackData {
    pub name: String,
    unit: String,
    start_s: Bits,
    step_s: Bits,
    values: Vec<Bits>,
}

impl From<TrackView<'_>> for TrackData {
    fn from(view: TrackView<'_>) -> Self {
        TrackData {
            name: view.name.into(),
            unit: view.unit.into(),
            start_s: view.start_s.into(),
            step_s: view.step_s.into(),
            values: view.values.iter().map(|&v| v.into()).collect(),
        }
    }
}

/// Tracks as a plugin gets to see them: what the structs point at lies beside them.
pub(crate) struct Shown<'a> {
    names: Vec<&'a str>,
    tracks: Vec<Track>,
    _values: Vec<Vec<f64>>,
}

impl<'a> Shown<'a> {
    pub(crate) fn new(data: &'a [TrackData]) -> Shown<'a> {
        let numbers = |t: &TrackData| t.values.iter().map(|&v| v.into()).collect();
        let values: Vec<Vec<f64>> = data.iter().map(numbers).collect();
        let tracks = data.iter().zip(&values).map(|(t, values)| Track {
            struct_size: size_of::<Track>() as u32,
            reserved: 0,
            name: Str::new(&t.name),
            unit: Str::new(&t.unit),
            start_s: t.start_s.into(),
            step_s: t.step_s.into(),
            values: values.as_ptr(),
            length: values.len() as u64,
        });
        Shown {
            names: data.iter().map(|t| &*t.name).collect(),
            tracks: tracks.collect(),
            _values: values,
        }
    }

    /// The track of that name.
    pub(crate) fn find(&self, name: &str) -> Option<&Track> {
        let at = self.names.iter().position(|n| *n == name)?;
        self.tracks.get(at)
    }
}

/// The tracks of one recording under one set of settings.
#[derive(Default)]
pub(crate) struct Shelf {
    file: String,
    settings_json: String,
    tracks: BTreeMap<String, TrackData>,
}

impl Shelf {
    /// Empties the shelf when another recording, or the same with other settings, is looked at.
    pub(crate) fn turn_to(&mut self, file: &str, settings_json: &str, new_samples: bool) {
        if new_samples || self.file != file || self.settings_json != settings_json {
            *self = Shelf {
                file: file.into(),
                settings_json: settings_json.into(),
                tracks: BTreeMap::new(),
            };
        }
    }

    /// The track of that name.
    pub(crate) fn get(&self, name: &str) -> Option<&TrackData> {
        self.tracks.get(name)
    }

    /// Keeps tracks. Of two plugins that give a track of one name the later one counts.
    pub(crate) fn keep(&mut self, tracks: Vec<TrackData>) {
        for track in tracks {
            self.tracks.insert(track.name.clone(), track);
        }
    }
}
