//! Declarations in the C layout, made once from the analyzers' constants.

use crate::{Analyzer, Declaration, Scope, SeriesSpec};
use abi::raw;
use abi::{LibraryDeclaration, NO_CHANNEL, Str, is_machine_name, is_version, read};
use plugin_abi as abi;
use std::sync::OnceLock;

/// One analyzer of a library.
#[derive(Clone, Copy)]
pub struct Entry {
    declaration: Declaration,
    analyze: raw::Analyze,
}

impl Entry {
    /// The entry of `A`. Evaluated at compile time, where a declaration that no host would accept is an error.
    pub const fn of<A: Analyzer>() -> Entry {
        check(&A::DECLARATION);
        Entry {
            declaration: A::DECLARATION,
            analyze: super::analyze::<A>,
        }
    }

    /// The C function, and a copy of the declaration as a host would make it.
    pub(crate) fn analyzer(&self) -> raw::Analyzer {
        let d = &self.declaration;
        let (needs, uses, inputs) = (names(d.needs), names(d.uses), names(d.inputs));
        let kinds = pointers(d.kinds.iter().map(|(name, unit)| raw::Kind {
            struct_size: size_of::<raw::Kind>() as u32,
            reserved: 0,
            name: Str::new(name),
            unit: Str::new(unit),
        }));
        let messages = pointers(d.messages.iter().map(|(name, args)| {
            let args = names(args);
            raw::Message {
                struct_size: size_of::<raw::Message>() as u32,
                args_count: args.len() as u32,
                name: Str::new(name),
                args: args.as_ptr(),
            }
        }));
        let series = pointers(d.series.iter().map(series));
        raw::Analyzer {
            struct_size: size_of::<raw::Analyzer>() as u32,
            scope: match d.scope {
                Scope::Capture => raw::scope::CAPTURE,
                Scope::Job => raw::scope::JOB,
            },
            id: Str::new(d.id),
            name: Str::new(d.name),
            needs: needs.as_ptr(),
            uses: uses.as_ptr(),
            inputs: inputs.as_ptr(),
            kinds: kinds.as_ptr(),
            messages: messages.as_ptr(),
            series: series.as_ptr(),
            needs_count: needs.len() as u32,
            uses_count: uses.len() as u32,
            inputs_count: inputs.len() as u32,
            kinds_count: kinds.len() as u32,
            messages_count: messages.len() as u32,
            series_count: series.len() as u32,
            analyze: Some(self.analyze),
        }
    }
}

fn series(spec: &SeriesSpec) -> raw::Series {
    let columns = pointers(spec.columns.iter().map(|(name, unit, ty)| raw::Column {
        struct_size: size_of::<raw::Column>() as u32,
        r#type: ty.number(),
        name: Str::new(name),
        unit: Str::new(unit),
        values: std::ptr::null(),
    }));
    raw::Series {
        struct_size: size_of::<raw::Series>() as u32,
        form: spec.form.number(),
        name: Str::new(spec.name),
        channel: NO_CHANNEL,
        columns_count: columns.len() as u32,
        columns: columns.as_ptr(),
        rows: 0,
        start_s: 0.0,
        step_s: 0.0,
    }
}

/// A list that lives as long as the process, as the interface asks of everything that a declaration points at.
fn names(words: &'static [&'static str]) -> &'static [Str] {
    Box::leak(words.iter().map(|w| Str::new(w)).collect())
}

/// As [`names`], for structs: an array of pointers.
fn pointers<T: 'static>(structs: impl Iterator<Item = T>) -> &'static [*const T] {
    let structs: &'static [T] = Box::leak(structs.collect());
    Box::leak(structs.iter().map(std::ptr::from_ref).collect())
}

const fn check(d: &Declaration) {
    assert!(
        is_machine_name(d.id),
        "Declaration.id must be a-z, 0-9 and hyphens, starting with a letter"
    );
    assert!(!d.name.is_empty(), "Declaration.name must not be empty");
    let longest = abi::MAX_NAME_BYTES as usize;
    let fits = d.id.len() <= longest && d.name.len() <= longest;
    assert!(fits, "a string of the Declaration is longer than 256 bytes");
    let most = abi::MAX_LIST as usize;
    let few = d.needs.len() <= most && d.uses.len() <= most && d.inputs.len() <= most;
    let few = few && d.kinds.len() <= most && d.messages.len() <= most && d.series.len() <= most;
    assert!(few, "a list of the Declaration has more than 256 entries");
    let mut i = 0;
    while i < d.kinds.len() {
        assert!(
            is_machine_name(d.kinds[i].0),
            "a kind of the Declaration must be a-z, 0-9 and hyphens, starting with a letter"
        );
        i += 1;
    }
    let mut i = 0;
    while i < d.messages.len() {
        assert!(
            is_machine_name(d.messages[i].0),
            "a message of the Declaration must be a-z, 0-9 and hyphens, starting with a letter"
        );
        i += 1;
    }
    let mut i = 0;
    while i < d.series.len() {
        assert!(
            is_machine_name(d.series[i].name),
            "a series of the Declaration must be a-z, 0-9 and hyphens, starting with a letter"
        );
        i += 1;
    }
}

/// Arguments of [`export!`](crate::export).
#[derive(Clone, Copy)]
#[allow(missing_docs)]
pub struct Parts {
    pub system: &'static str,
    pub name: &'static str,
    pub version: &'static str,
    pub vendor: &'static str,
    pub assets: &'static [(&'static str, &'static str)],
    pub analyzers: &'static [Entry],
}

/// A library and, once asked for, its declaration in C.
pub struct Library {
    parts: Parts,
    raw: OnceLock<Raw>,
}

struct Raw(raw::Library);
// SAFETY: the declaration is never written to after it was made, and all it points at is 'static.
unsafe impl Send for Raw {}
// SAFETY: as above.
unsafe impl Sync for Raw {}

impl Library {
    /// A library of these parts.
    pub const fn new(parts: Parts) -> Library {
        assert!(
            is_machine_name(parts.system),
            "system must be a-z, 0-9 and hyphens, starting with a letter"
        );
        assert!(
            is_version(parts.version),
            "the version must be major.minor.patch"
        );
        assert!(
            !parts.name.is_empty() && !parts.vendor.is_empty(),
            "name and vendor must not be empty"
        );
        assert!(
            parts.analyzers.len() <= abi::MAX_ANALYZERS as usize,
            "a library has at most 64 analyzers"
        );
        Library {
            parts,
            raw: OnceLock::new(),
        }
    }

    /// Return value of `get_analysis_plugin_v2`.
    pub fn get(&'static self) -> *const raw::Library {
        &self.raw.get_or_init(|| Raw(self.parts.raw())).0
    }

    /// The declaration as a host reads it, for a plugin's own tests.
    ///
    /// # Errors
    /// The first rule of the interface that it breaks.
    pub fn declaration(&'static self) -> Result<LibraryDeclaration, String> {
        // SAFETY: made by this crate, 'static, and never written to.
        let declaration = unsafe { read::library(&*self.get()) }?;
        declaration.check().map(|()| declaration)
    }
}

impl Parts {
    fn raw(&self) -> raw::Library {
        let analyzers = pointers(self.analyzers.iter().map(Entry::analyzer));
        let assets = pointers(self.assets.iter().map(|(name, body)| raw::Asset {
            struct_size: size_of::<raw::Asset>() as u32,
            reserved: 0,
            name: Str::new(name),
            body: Str::new(body),
        }));
        raw::Library {
            struct_size: size_of::<raw::Library>() as u32,
            reserved: 0,
            system: Str::new(self.system),
            name: Str::new(self.name),
            version: Str::new(self.version),
            vendor: Str::new(self.vendor),
            analyzers: analyzers.as_ptr(),
            assets: assets.as_ptr(),
            analyzers_count: analyzers.len() as u32,
            assets_count: assets.len() as u32,
        }
    }
}
