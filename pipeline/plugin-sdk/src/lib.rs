//! All that an analysis plugin may import: the safe [`Analyzer`] trait, what it is given and what it gives.
//!
//! A plugin is a crate with `crate-type = ["cdylib", "rlib"]`, a type that implements [`Analyzer`], and one
//! line `plugin_sdk::export!(MyAnalyzer);`. What [`host`] offers may be called while it runs; [`testing::run`]
//! calls it the way the host does.

#[doc(hidden)]
pub mod ffi;
pub mod host;
pub mod input;
pub mod measure;
pub mod output;
pub mod settings;
pub mod testing;

pub use input::{ChannelView, Input, SampleView};
pub use output::{Grade, Limit, Observation, Output};
#[doc(hidden)]
pub use plugin_abi as abi;
pub use settings::{ChannelFacts, Settings};
pub use signal;

/// What a plugin says of itself. Static: the same at every call.
#[derive(Debug, Clone, Copy)]
pub struct Descriptor {
    /// Machine name, never changed: `shaft-motion`.
    pub id: &'static str,
    /// Name for people.
    pub name: &'static str,
    /// Version, `major.minor.patch`.
    pub version: &'static str,
    /// Who made it.
    pub vendor: &'static str,
    /// Whether it looks at one recording at a time or at the whole job once all recordings were looked at.
    pub scope: Scope,
    /// Requirements; all must be met. Each is one role or several alternatives with `|` between them:
    /// `"supply-current|actuator-current-1"`. Empty for no requirement.
    pub needs: &'static [&'static str],
    /// Further roles it can use.
    pub uses: &'static [&'static str],
}

/// How much a plugin looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scope {
    /// One recording at a time: gets its channels.
    Capture,
    /// The whole job, after all recordings: gets no channels, but all findings so far and the trouble codes.
    Job,
}

/// A measuring. Pure: the same input gives the same observations, on any thread.
pub trait Analyzer {
    /// What the plugin says of itself.
    const DESCRIPTOR: Descriptor;

    /// Looks at the input and adds observations. An `Err` means that nothing it added counts; the text says
    /// why, in English, for the record ("which check did not run and why").
    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String>;
}

/// Exports the analyzers from the library: once in a crate, as `plugin_sdk::export!(Mine);` or with several,
/// `plugin_sdk::export!(One, Other);`.
///
/// Refuses to compile with `panic = "abort"`: the interface relies on panics being caught inside the plugin.
#[macro_export]
macro_rules! export {
    ($($analyzer:ty),+ $(,)?) => {
        #[cfg(not(panic = "unwind"))]
        compile_error!(
            "an analysis plugin must be built with panic = \"unwind\": its panics are caught inside it"
        );

        #[doc = "The library's plugins by index, from 0; null when there is none."]
        #[unsafe(no_mangle)]
        pub extern "C" fn get_analysis_plugin_v1(
            _host_minor: u32,
            index: u32,
        ) -> *const $crate::abi::Descriptor {
            const ENTRIES: &[$crate::ffi::Entry] = &[$($crate::ffi::Entry::of::<$analyzer>()),+];
            static LIBRARY: $crate::ffi::Library = $crate::ffi::Library::new(ENTRIES);
            LIBRARY.get(index)
        }
    };
}
