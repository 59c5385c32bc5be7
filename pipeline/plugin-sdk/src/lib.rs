//! All that an analysis plugin may import: the safe [`Analyzer`] trait, its input and its output.
//!
//! A plugin is a crate with `crate-type = ["cdylib", "rlib"]`, types that implement [`Analyzer`], and one
//! [`export!`](crate::export). What [`host`] offers may be called while an analyzer runs; [`testing`] calls it the way
//! the host does.
//!
//! ```
//! use baybrief_plugin_sdk::{self as plugin_sdk, Analyzer, Declaration, Input, Observation, Output};
//!
//! /// Length of a recording of the pump current.
//! pub struct RecordedTime;
//!
//! impl Analyzer for RecordedTime {
//!     const DECLARATION: Declaration = Declaration {
//!         id: "recorded-time",
//!         name: "Recorded time",
//!         needs: &["pump-current"],
//!         kinds: &[("recorded-time", "s")],
//!         messages: &[("recorded-time", &[])],
//!         ..Declaration::EMPTY
//!     };
//!
//!     fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
//!         let channel = input.channel("pump-current").ok_or("no pump current")?;
//!         let last = channel.len().checked_sub(1).ok_or("the pump current has no samples")?;
//!         let (start, end) = (channel.time.at(0), channel.time.at(last));
//!         out.add(
//!             Observation::new("recorded-time", "recorded-time")
//!                 .about("pump-current")
//!                 .span(start, end)
//!                 .value(end - start, 0.0, "s"),
//!         );
//!         Ok(())
//!     }
//! }
//!
//! plugin_sdk::export! {
//!     system: "recorded-time",
//!     name: "An example",
//!     vendor: "somebody",
//!     assets: [],
//!     analyzers: [RecordedTime],
//! }
//!
//! // In the plugin's tests:
//! use plugin_sdk::{Settings, testing};
//!
//! let samples = [0.2, 13.5, 0.3];
//! let input = Input {
//!     file: "relearn.csv",
//!     channels: vec![testing::channel("pump-current", &samples, 2.0)],
//!     settings: Settings::default(),
//! };
//! let found = testing::Bench::of::<RecordedTime>().run(&input).unwrap();
//! assert_eq!(found[0].value, Some(1.0));
//! ```

pub mod conditions;
pub mod derived;
#[doc(hidden)]
pub mod ffi;
pub mod host;
pub mod input;
pub mod limits;
pub mod log_odds;
pub mod output;
pub mod record;
pub mod testing;

pub use conditions::Conditions;
pub use input::{ChannelView, Input, Quantity, SampleView};
pub use limits::{Limits, LimitsSheet, Side};
pub use log_odds::{Evidence, LogOdds};
pub use output::Output;
#[doc(hidden)]
pub use plugin_abi as abi;
pub use plugin_abi::{
    ChannelFacts, ColumnType, Form, Grade, Grid, Limit, Observation, Scope, Series, Settings,
    Values, settings,
};
pub use record::{Record, unit_fact};
pub use signal;

/// Declaration of an analyzer. Static: the same at every call. Begin with [`Declaration::EMPTY`].
#[derive(Debug, Clone, Copy)]
pub struct Declaration {
    /// Machine name, never changed: `pump-motion`.
    pub id: &'static str,
    /// Name for people.
    pub name: &'static str,
    /// One recording at a time, or the whole job once all recordings were looked at.
    pub scope: Scope,
    /// Requirements; all must be met. Each is one role or several alternatives with `|` between them:
    /// `"pump-current|fan-current"`. Empty for no requirement.
    pub needs: &'static [&'static str],
    /// Further roles that it can use.
    pub uses: &'static [&'static str],
    /// Names of the derived series that it can use: it runs after the analyzers that derive them. The lists of
    /// [`derived`] name those of every recording.
    pub inputs: &'static [&'static str],
    /// Kinds of its findings, each with the unit of its value: `("pump-speed", "rpm|Hz")`; an empty unit for kinds
    /// without a value.
    pub kinds: &'static [(&'static str, &'static str)],
    /// Messages of its findings, each with the names of its arguments.
    pub messages: &'static [(&'static str, &'static [&'static str])],
    /// Series that it derives for the analyzers after it.
    pub series: &'static [SeriesSpec],
}

impl Declaration {
    /// An analyzer of recordings that needs nothing and has no outputs.
    pub const EMPTY: Declaration = Declaration {
        id: "",
        name: "",
        scope: Scope::Capture,
        needs: &[],
        uses: &[],
        inputs: &[],
        kinds: &[],
        messages: &[],
        series: &[],
    };
}

/// Declaration of a derived series.
#[derive(Debug, Clone, Copy)]
pub struct SeriesSpec {
    /// Machine name.
    pub name: &'static str,
    /// Track or table.
    pub form: Form,
    /// Columns: name, unit (empty for none, or for that of the channel), type.
    pub columns: &'static [(&'static str, &'static str, ColumnType)],
}

impl SeriesSpec {
    /// A series of this declaration. `values` holds its columns in their order.
    pub fn of(&self, channel: Option<u32>, grid: Option<Grid>, values: Vec<Values>) -> Series {
        let columns = self.columns.iter().zip(values);
        Series {
            name: self.name.into(),
            channel,
            grid,
            columns: columns
                .map(|(&(name, unit, _), values)| abi::Column {
                    name: name.into(),
                    unit: unit.into(),
                    values,
                })
                .collect(),
        }
    }
}

/// A measurement. Pure: the same input gives the same observations, on any thread.
pub trait Analyzer {
    /// The analyzer's declaration.
    const DECLARATION: Declaration;

    /// Looks at the input and adds observations and series.
    ///
    /// # Errors
    /// Why the input cannot be judged, in English, for the list of checks that did not run. Nothing that was added
    /// counts.
    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String>;
}

/// Exports a library: once in a crate. Analyzers run in the order in which they are listed; assets are files of the
/// system's folder (`system.toml`, `limits.toml`, `causes.toml`, `lang/TAG.ftl`).
///
/// ```text
/// plugin_sdk::export! {
///     system: "washer",
///     name: "Dual dry clutch",
///     vendor: "baybrief",
///     assets: ["system.toml" => include_str!("../system.toml")],
///     analyzers: [ShaftMotion, Supply],
/// }
/// ```
///
/// Refuses to compile with `panic = "abort"`: the interface relies on panics being caught inside the library.
#[macro_export]
macro_rules! export {
    (
        system: $system:literal,
        name: $name:literal,
        vendor: $vendor:literal,
        assets: [$($asset:literal => $body:expr),* $(,)?],
        analyzers: [$($analyzer:ty),+ $(,)?] $(,)?
    ) => {
        #[cfg(not(panic = "unwind"))]
        compile_error!(
            "an analysis plugin must be built with panic = \"unwind\": its panics are caught inside it"
        );

        /// Declaration of this library.
        pub static LIBRARY: $crate::ffi::Library = $crate::ffi::Library::new($crate::ffi::Parts {
            system: $system,
            name: $name,
            version: env!("CARGO_PKG_VERSION"),
            vendor: $vendor,
            assets: &[$(($asset, $body)),*],
            analyzers: &[$($crate::ffi::Entry::of::<$analyzer>()),+],
        });

        /// The library of the plugin interface.
        #[unsafe(no_mangle)]
        pub extern "C" fn get_analysis_plugin_v2(_host_minor: u32) -> *const $crate::abi::raw::Library {
            LIBRARY.get()
        }
    };
}
