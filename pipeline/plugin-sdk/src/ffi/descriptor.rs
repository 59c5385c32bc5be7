//! Descriptors in the C layout, made once from the analyzers' constants.

use crate::{Analyzer, Descriptor, Scope};
use abi::{Str, is_machine_name, is_version, scope};
use plugin_abi as abi;
use std::sync::OnceLock;

/// One analyzer of a library.
pub struct Entry {
    descriptor: Descriptor,
    analyze: abi::Analyze,
}

impl Entry {
    /// The entry of `A`. Evaluated at compile time, where a descriptor that no host would accept is an error.
    pub const fn of<A: Analyzer>() -> Entry {
        check(&A::DESCRIPTOR);
        Entry {
            descriptor: A::DESCRIPTOR,
            analyze: super::analyze::<A>,
        }
    }

    fn in_c(&self) -> abi::Descriptor {
        let d = &self.descriptor;
        let (needs, uses) = (list(d.needs), list(d.uses));
        abi::Descriptor {
            struct_size: size_of::<abi::Descriptor>() as u32,
            scope: match d.scope {
                Scope::Capture => scope::CAPTURE,
                Scope::Job => scope::JOB,
            },
            id: Str::new(d.id),
            name: Str::new(d.name),
            version: Str::new(d.version),
            vendor: Str::new(d.vendor),
            needs: needs.as_ptr(),
            uses: uses.as_ptr(),
            needs_count: needs.len() as u32,
            uses_count: uses.len() as u32,
            analyze: Some(self.analyze),
        }
    }
}

/// A list that lives as long as the process, as the interface asks of everything a descriptor points at.
fn list(words: &'static [&'static str]) -> &'static [Str] {
    let words: Box<[Str]> = words.iter().map(|w| Str::new(w)).collect();
    Box::leak(words)
}

const fn check(d: &Descriptor) {
    assert!(
        is_machine_name(d.id),
        "Descriptor.id must be a-z, 0-9 and hyphens, starting with a letter"
    );
    assert!(
        is_version(d.version),
        "Descriptor.version must be major.minor.patch"
    );
    assert!(!d.name.is_empty(), "Descriptor.name must not be empty");
    assert!(!d.vendor.is_empty(), "Descriptor.vendor must not be empty");
    let longest = abi::MAX_NAME_BYTES as usize;
    let fits = d.id.len() <= longest && d.name.len() <= longest;
    let fits = fits && d.version.len() <= longest && d.vendor.len() <= longest;
    assert!(fits, "a string of the Descriptor is longer than 256 bytes");
    let most = abi::MAX_LIST as usize;
    assert!(
        d.needs.len() <= most,
        "Descriptor.needs has more than 64 entries"
    );
    assert!(
        d.uses.len() <= most,
        "Descriptor.uses has more than 64 entries"
    );
}

/// The analyzers of one library and, once asked for, their descriptors in C.
pub struct Library {
    entries: &'static [Entry],
    in_c: OnceLock<InC>,
}

struct InC(Vec<abi::Descriptor>);
// SAFETY: the descriptors are never written to after they were made, and all they point at is 'static.
unsafe impl Send for InC {}
// SAFETY: as above.
unsafe impl Sync for InC {}

impl Library {
    /// A library of these analyzers.
    pub const fn new(entries: &'static [Entry]) -> Library {
        Library {
            entries,
            in_c: OnceLock::new(),
        }
    }

    /// What `get_analysis_plugin_v1` returns for `index`: null when there is no such plugin.
    pub fn get(&'static self, index: u32) -> *const abi::Descriptor {
        let made = self
            .in_c
            .get_or_init(|| InC(self.entries.iter().map(Entry::in_c).collect()));
        made.0.get(index as usize).map_or(std::ptr::null(), |d| d)
    }
}
