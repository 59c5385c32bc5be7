//! One loaded library: its descriptors, checked and copied. The only user of libloading.

use crate::info::{Description, PluginText, Scope};
use abi::{
    Descriptor, GetPlugin, MAX_BODY_BYTES, MAX_LIST, MAX_NAME_BYTES, MAX_PLUGINS, Str, read, scope,
};
use libloading::os::unix::{Library as Handle, RTLD_LOCAL, RTLD_NOW};
use plugin_abi as abi;
use std::path::Path;

/// A library that was loaded and exports the interface's function. Never unloaded: a library's thread-locals and
/// exit handlers may be called until the process ends.
#[derive(Clone, Copy)]
pub(crate) struct Library {
    get: GetPlugin,
}

/// What [`Library::load`] gives before anything of the interface was looked at.
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
    pub(crate) fn getter(&self) -> Result<Library, String> {
        // SAFETY: a library that exports the function under this name promises its type, by the header.
        if let Ok(get) = unsafe { self.0.get::<GetPlugin>(abi::SYMBOL.as_bytes()) } {
            return Ok(Library { get: *get });
        }
        let other = (0..100u32)
            .filter(|&major| major != abi::MAJOR)
            .find(|major| {
                let name = format!("get_analysis_plugin_v{major}");
                // SAFETY: only looked up, never called.
                unsafe { self.0.get::<*const ()>(name.as_bytes()) }.is_ok()
            });
        Err(match other {
            Some(major) => format!(
                "it was made for version {major} of the plugin interface, this release speaks version {}; \
                 ask its maker for a newer build",
                abi::MAJOR
            ),
            None => format!(
                "it is no analysis plugin: it does not export {}",
                abi::SYMBOL
            ),
        })
    }
}

impl Library {
    /// The descriptor's address, null when there is no plugin of this index.
    pub(crate) fn address(&self, index: u32) -> *const Descriptor {
        // SAFETY: the header's promise: any index, any time.
        unsafe { (self.get)(abi::MINOR, index) }
    }

    /// The descriptors, as far as their sizes can be trusted.
    pub(crate) fn raw(&self) -> Result<Vec<Descriptor>, String> {
        let mut all = Vec::new();
        for index in 0..=MAX_PLUGINS {
            let address = self.address(index);
            if address.is_null() {
                break;
            }
            if index == MAX_PLUGINS {
                return Err(format!(
                    "it has more than {MAX_PLUGINS} plugins, or no end to its list"
                ));
            }
            // SAFETY: the header's promise for what the function returns.
            let raw =
                unsafe { read::sized(address) }.map_err(|e| format!("plugin {index}: {e}"))?;
            if raw.analyze.is_none() {
                return Err(format!("plugin {index}: analyze is a null pointer"));
            }
            all.push(raw);
        }
        if all.is_empty() {
            return Err("it has no plugin".into());
        }
        Ok(all)
    }

    /// What the library says of its plugins.
    pub(crate) fn describe(&self) -> Result<Vec<Description>, String> {
        let mut all: Vec<Description> = Vec::new();
        for (index, raw) in self.raw()?.iter().enumerate() {
            let one = describe(raw).and_then(|d| sane(&d).map(|()| d));
            let one = one.map_err(|e| format!("plugin {index}: {e}"))?;
            if all.iter().any(|d| d.id == one.id) {
                return Err(format!("two of its plugins have the id {}", one.id));
            }
            all.push(one);
        }
        Ok(all)
    }
}

/// Reads the texts of a descriptor.
pub(crate) fn describe(raw: &Descriptor) -> Result<Description, String> {
    // SAFETY (both): the header's promise for what a descriptor points at.
    let text =
        |s: Str, what: &str| unsafe { read::text(s, MAX_NAME_BYTES, what) }.map(String::from);
    let list = |items: *const Str, count: u32, what: &str| {
        if count > MAX_LIST {
            return Err(format!(
                "{what} has {count} entries, at most {MAX_LIST} are allowed"
            ));
        }
        let items = unsafe { read::slice(items, count.into(), what) }?;
        items
            .iter()
            .map(|&s| text(s, what))
            .collect::<Result<Vec<_>, _>>()
    };
    Ok(Description {
        id: text(raw.id, "id")?,
        name: text(raw.name, "name")?,
        version: text(raw.version, "version")?,
        vendor: text(raw.vendor, "vendor")?,
        scope: match raw.scope {
            scope::CAPTURE => Scope::Capture,
            scope::JOB => Scope::Job,
            other => return Err(format!("scope {other} is unknown")),
        },
        needs: list(raw.needs, raw.needs_count, "needs")?,
        uses: list(raw.uses, raw.uses_count, "uses")?,
        gives: list(raw.gives, raw.gives_count, "gives")?,
        takes: list(raw.takes, raw.takes_count, "takes")?,
        texts: texts(raw)?,
    })
}

/// Reads the texts that a plugin brings along.
fn texts(raw: &Descriptor) -> Result<Vec<PluginText>, String> {
    let count = raw.texts_count;
    if count > MAX_LIST {
        return Err(format!(
            "texts has {count} entries, at most {MAX_LIST} are allowed"
        ));
    }
    // SAFETY (all below): the header's promise for what a descriptor points at.
    let pointers = unsafe { read::slice(raw.texts, count.into(), "texts") }?;
    let mut texts: Vec<PluginText> = Vec::new();
    for &pointer in pointers {
        let one = unsafe { read::sized(pointer) }?;
        let name = unsafe { read::text(one.name, MAX_NAME_BYTES, "a text's name") }?;
        let body = unsafe { read::text(one.body, MAX_BODY_BYTES, "a text's body") };
        let body = body.map_err(|e| format!("{name}: {e}"))?;
        if texts.iter().any(|t| t.name == name) {
            return Err(format!("it brings two texts named {name:?}"));
        }
        texts.push(PluginText {
            name: name.into(),
            body: body.into(),
        });
    }
    Ok(texts)
}

/// Whether the texts are what the header asks for.
pub(crate) fn sane(d: &Description) -> Result<(), String> {
    if !abi::is_machine_name(&d.id) {
        return Err(format!(
            "its id {:?} is not made of a-z, 0-9 and hyphens",
            d.id
        ));
    }
    if !abi::is_version(&d.version) {
        return Err(format!(
            "its version {:?} is not major.minor.patch",
            d.version
        ));
    }
    if let Some(odd) = d.gives.iter().find(|g| !abi::is_machine_name(g)) {
        return Err(format!(
            "the track {odd:?} that it gives is not made of a-z, 0-9 and hyphens"
        ));
    }
    for (what, text) in [("name", &d.name), ("vendor", &d.vendor)] {
        if text.trim().is_empty() || text.chars().any(char::is_control) {
            return Err(format!(
                "its {what} {text:?} is empty or has control characters"
            ));
        }
    }
    Ok(())
}

/// The loader's own message: libloading keeps it as the error's source.
fn cause(error: &libloading::Error) -> String {
    let source = std::error::Error::source(error);
    source.map_or_else(|| error.to_string(), |s| s.to_string())
}
