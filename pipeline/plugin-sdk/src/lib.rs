//! All that an analysis plugin may import: the safe [`Analyzer`] trait, what it is given and what it gives.
//!
//! A plugin is a crate with `crate-type = ["cdylib", "rlib"]`, a type that implements [`Analyzer`], and one
//! line `plugin_sdk::export!(MyAnalyzer);`. What [`host`] offers may be called while it runs; [`testing::run`]
//! calls it the way the host does.
//!
//! ```
//! use baybrief_plugin_sdk::{self as plugin_sdk, Analyzer, Descriptor, Input, Observation, Output, Scope};
//!
//! /// How long the supply current was recorded.
//! struct RecordedTime;
//!
//! impl Analyzer for RecordedTime {
//!     const DESCRIPTOR: Descriptor = Descriptor {
//!         id: "recorded-time",
//!         name: "Recorded time",
//!         version: "0.1.0",
//!         vendor: "an example",
//!         scope: Scope::Capture,
//!         needs: &["supply-current"],
//!         uses: &[],
//!     };
//!
//!     fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
//!         let channel = input.channel("supply-current").ok_or("no supply current")?;
//!         let last = channel.len().checked_sub(1).ok_or("the supply current has no samples")?;
//!         let (start, end) = (channel.time.at(0), channel.time.at(last));
//!         out.add(
//!             Observation::new("recorded-time", "recorded-time")
//!                 .about("supply-current")
//!                 .span(start, end)
//!                 .value(end - start, 0.0, "s"),
//!         );
//!         Ok(())
//!     }
//! }
//!
//! plugin_sdk::export!(RecordedTime);
//!
//! // In the plugin's tests:
//! use plugin_sdk::{ChannelFacts, ChannelView, SampleView, Settings, signal::Time, testing};
//!
//! let channel = ChannelView {
//!     role: "supply-current",
//!     name: "Channel A",
//!     unit: "A",
//!     samples: SampleView::F32(&[0.2, 13.5, 0.3]),
//!     scale: 1.0,
//!     offset: 0.0,
//!     time: Time::Even { start_s: 0.0, step_s: 0.5 },
//!     facts: ChannelFacts::default(),
//! };
//! let input = Input { file: "relearn.csv", channels: vec![channel], settings: Settings::default() };
//! let found = testing::run::<RecordedTime>(&input).unwrap();
//! assert_eq!(found[0].value, Some(1.0));
//! ```

#[doc(hidden)]
pub mod ffi;
pub mod host;
pub mod input;
pub mod measure;
pub mod output;
pub mod testing;
mod track;

pub use input::{ChannelView, Input, SampleView};
pub use output::Output;
#[doc(hidden)]
pub use plugin_abi as abi;
pub use plugin_abi::{ChannelFacts, Grade, Limit, Observation, Settings, settings};
pub use signal;
pub use track::Track;

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

    /// Names of the tracks that it hands on to later plugins with [`Output::give`].
    const GIVES: &'static [&'static str] = &[];

    /// Names of the tracks that it can use, found with [`host::track`]: it runs after the plugins that give them.
    const TAKES: &'static [&'static str] = &[];

    /// Texts that it brings along, each a name and the content of a file in its folder, so that a new fault touches
    /// no other room: `spec.toml` (numbers that a unit should keep), `causes.toml` (what explains what) and
    /// `lang/TAG.ftl` (the sentences of a language):
    ///
    /// ```text
    /// const TEXTS: &'static [(&'static str, &'static str)] = &[
    ///     ("causes.toml", include_str!("../causes.toml")),
    ///     ("lang/en.ftl", include_str!("../lang/en.ftl")),
    /// ];
    /// ```
    const TEXTS: &'static [(&'static str, &'static str)] = &[];

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
