//! Serves requests for one library, in a worker or in the host's own process.

use crate::call::{Events, call};
use crate::info::Description;
use crate::library::{Library, Loaded, load};
use crate::mapped::Mapped;
use crate::wire::{Call, Outcome};
use std::os::fd::OwnedFd;
use std::path::Path;

/// One library, loaded.
pub(crate) struct Session {
    loaded: Result<Loaded, String>,
    library: Option<Library>,
}

impl Session {
    /// Loads the library; whether that worked is said by every request.
    pub(crate) fn load(path: &Path) -> Session {
        Session {
            loaded: load(path),
            library: None,
        }
    }

    /// The loaded library before anything of the interface was looked at, or why it could not be loaded.
    pub(crate) fn loaded(&self) -> Result<&Loaded, String> {
        self.loaded.as_ref().map_err(Clone::clone)
    }

    fn library(&mut self) -> Result<Library, String> {
        if let Some(library) = self.library {
            return Ok(library);
        }
        let library = self.loaded()?.getter()?;
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
        let plugin = plugins.get(request.plugin as usize);
        let plugin = plugin.ok_or("the library no longer has this plugin")?;
        let samples = Mapped::new(samples, request.blob_len);
        let samples = samples.map_err(|e| format!("the samples cannot be mapped: {e}"))?;
        call(plugin, request, &samples, events).map_err(|e| e.to_string())
    }
}
