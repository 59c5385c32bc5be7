//! All that an analysis plugin may import: the safe [`Analyzer`] trait, what it is given and what it gives.
//!
//! A plugin is a crate with `crate-type = ["cdylib", "rlib"]`, a type that implements [`Analyzer`], and one
//! line `plugin_sdk::export!(MyAnalyzer);`.

pub mod input;
pub mod output;
pub mod settings;

pub use input::{ChannelView, Input, SampleView};
pub use output::{Grade, Limit, Observation, Output};
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
