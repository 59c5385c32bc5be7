//! Serves requests for one library, in a worker or in the host's own process.

use crate::call::{Events, call};
use crate::info::Description;
use crate::library::{Library, load};
use crate::mapped::Mapped;
use crate::wire::{Call, Outcome};
use std::os::fd::OwnedFd;
use std::path::PathBuf;

/// One library, loaded when it is first needed.
pub(crate) struct Session {
    path: PathBuf,
    library: Option<Library>,
}

impl Session {
    pub(crate) fn new(path: PathBuf) -> Session {
        Session {
            path,
            library: None,
        }
    }

    fn library(&mut self) -> Result<Library, String> {
        if let Some(library) = self.library {
            return Ok(library);
        }
        let library = load(&self.path)?.getter()?;
        self.library = Some(library);
        Ok(library)
    }

    /// What the library says of its plugins, or why it is refused.
    pub(crate) fn describe(&mut self) -> Result<Vec<Description>, String> {
        self.library()?.describe()
    }

    /// Runs a plugin. An error says why it was not called.
    pub(crate) fn analyze(
        &mut self,
        request: &Call,
        samples: Option<OwnedFd>,
        events: &dyn Events,
    ) -> Result<Outcome, String> {
        let plugins = self.library()?.raw()?;
        let analyze = plugins.get(request.plugin as usize).and_then(|d| d.analyze);
        let analyze = analyze.ok_or("the library no longer has this plugin")?;
        let samples = Mapped::new(samples, request.blob_len);
        let samples = samples.map_err(|e| format!("the samples cannot be mapped: {e}"))?;
        call(analyze, request, &samples, events).map_err(|e| e.to_string())
    }
}
