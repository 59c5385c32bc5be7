//! One loaded library: its declaration, checked and copied. The only user of libloading.

use libloading::os::unix::{Library as Handle, RTLD_LOCAL, RTLD_NOW};
use plugin_abi::raw::{Analyzer, GetPlugin, Library};
use plugin_abi::{LibraryDeclaration, MAJOR, MINOR, SYMBOL, read};
use std::path::Path;

/// A library that was loaded and exports the interface's function. Never unloaded: a library's thread-locals and
/// exit handlers may be called until the process ends.
#[derive(Clone, Copy)]
pub(crate) struct LibraryHandle {
    get: GetPlugin,
}

/// A file that the system loaded, before anything of the interface was looked at.
pub(crate) struct Loaded(&'static Handle);

/// Loads the file at an absolute path.
pub(crate) fn load(path: &Path) -> Result<Loaded, String> {
    if !path.is_absolute() {
        return Err("its path is not absolute".into());
    }
    // SAFETY: runs the library's initialisers, whatever they do. That is what plugins are allowed, and why a
    // library is loaded in a process of its own.
    let handle = unsafe { Handle::open(Some(path), RTLD_NOW | RTLD_LOCAL) };
    let handle = handle.map_err(|e| format!("the system cannot load it: {}", cause(&e)))?;
    Ok(Loaded(Box::leak(Box::new(handle))))
}

impl Loaded {
    /// Finds the interface's function.
    pub(crate) fn handle(&self) -> Result<LibraryHandle, String> {
        // SAFETY: a library that exports the function under this name promises its type, by the header.
        if let Ok(get) = unsafe { self.0.get::<GetPlugin>(SYMBOL.as_bytes()) } {
            return Ok(LibraryHandle { get: *get });
        }
        let other = (0..100u32).filter(|&major| major != MAJOR).find(|major| {
            let name = format!("get_analysis_plugin_v{major}");
            // SAFETY: only looked up, never called.
            unsafe { self.0.get::<*const ()>(name.as_bytes()) }.is_ok()
        });
        Err(match other {
            Some(major) => format!(
                "it was made for version {major} of the plugin interface, this release speaks version {MAJOR}; \
                 ask its maker for a newer build"
            ),
            None => format!("it is no analysis plugin: it does not export {SYMBOL}"),
        })
    }
}

impl LibraryHandle {
    /// The declaration's address.
    pub(crate) fn address(&self) -> *const Library {
        // SAFETY: the header's promise: any time.
        unsafe { (self.get)(MINOR) }
    }

    /// The declaration as it lies in the library, as far as its size can be trusted.
    pub(crate) fn raw(&self) -> Result<Library, String> {
        // SAFETY: the header's promise for what the function returns.
        unsafe { read::sized(self.address()) }
    }

    /// The analyzers, each with its function.
    pub(crate) fn analyzers(&self) -> Result<Vec<Analyzer>, String> {
        // SAFETY: as above.
        unsafe { read::analyzers(&self.raw()?) }
    }

    /// A copy of the declaration, its texts read but not judged.
    pub(crate) fn read(&self) -> Result<LibraryDeclaration, String> {
        // SAFETY: as above.
        unsafe { read::library(&self.raw()?) }
    }

    /// Reads the declaration.
    pub(crate) fn describe(&self) -> Result<LibraryDeclaration, String> {
        let declaration = self.read()?;
        declaration.check().map(|()| declaration)
    }
}

/// The loader's own message: libloading keeps it as the error's source.
fn cause(error: &libloading::Error) -> String {
    let source = std::error::Error::source(error);
    source.map_or_else(|| error.to_string(), |s| s.to_string())
}
