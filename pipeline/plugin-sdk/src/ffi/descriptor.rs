//! Descriptors in the C layout, made once from the analyzers' constants.

use crate::{Analyzer, Descriptor, Scope};
use abi::{Str, is_machine_name, is_version, scope};
use plugin_abi as abi;
use std::sync::OnceLock;

/// One analyzer of a library.
pub struct Entry {
    descriptor: Descriptor,
    gives: &'static [&'static str],
    takes: &'static [&'static str],
    texts: &'static [(&'static str, &'static str)],
    analyze: abi::Analyze,
}

impl Entry {
    /// The entry of `A`. Evaluated at compile time, where a descriptor that no host would accept is an error.
    pub const fn of<A: Analyzer>() -> Entry {
        check(&A::DESCRIPTOR);
        check_lists(A::GIVES, A::TAKES, A::TEXTS);
        Entry {
            gives: A::GIVES,
            takes: A::TAKES,
            texts: A::TEXTS,
            descriptor: A::DESCRIPTOR,
            analyze: super::analyze::<A>,
        }
    }

    fn in_c(&self) -> abi::Descriptor {
        let d = &self.descriptor;
        let (needs, uses) = (list(d.needs), list(d.uses));
        let (gives, takes) = (list(self.gives), list(self.takes));
        let texts = texts(self.texts);
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
            gives: gives.as_ptr(),
            takes: takes.as_ptr(),
            gives_count: gives.len() as u32,
            takes_count: takes.len() as u32,
            texts: texts.as_ptr(),
            texts_count: texts.len() as u32,
            reserved: 0,
        }
    }
}

/// A list that lives as long as the process, as the interface asks of everything a descriptor points at.
fn list(words: &'static [&'static str]) -> &'static [Str] {
    let words: Box<[Str]> = words.iter().map(|w| Str::new(w)).collect();
    Box::leak(words)
}

/// As [`list`], for texts.
fn texts(texts: &'static [(&'static str, &'static str)]) -> &'static [*const abi::Text] {
    let in_c = texts.iter().map(|(name, body)| abi::Text {
        struct_size: size_of::<abi::Text>() as u32,
        reserved: 0,
        name: Str::new(name),
        body: Str::new(body),
    });
    let in_c: &'static [abi::Text] = Box::leak(in_c.collect());
    Box::leak(in_c.iter().map(std::ptr::from_ref).collect())
}

const fn check_lists(gives: &[&str], takes: &[&str], texts: &[(&str, &str)]) {
    let most = abi::MAX_LIST as usize;
    assert!(
        gives.len() <= abi::MAX_TRACKS as usize,
        "Analyzer::GIVES has more than 16 entries"
    );
    assert!(
        takes.len() <= most,
        "Analyzer::TAKES has more than 64 entries"
    );
    assert!(
        texts.len() <= most,
        "Analyzer::TEXTS has more than 64 entries"
    );
    let mut i = 0;
    while i < gives.len() {
        assert!(
            is_machine_name(gives[i]),
            "Analyzer::GIVES must be a-z, 0-9 and hyphens, starting with a letter"
        );
        i += 1;
    }
    let mut i = 0;
    while i < texts.len() {
        assert!(
            texts[i].1.len() <= abi::MAX_BODY_BYTES as usize,
            "a text of Analyzer::TEXTS is longer than 1 MiB"
        );
        i += 1;
    }
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
