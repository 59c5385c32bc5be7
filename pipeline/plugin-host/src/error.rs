//! Why a plugin gave no findings.

/// Why a plugin gave no findings for a recording. Each prints as a sentence or two for the record of checks that
/// did not run.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AnalyzeError {
    /// There is no plugin of this number.
    #[error("there is no plugin number {0}")]
    UnknownPlugin(usize),
    /// The recording lacks a channel that the plugin needs, or the plugin looks at something else.
    #[error("{plugin} was not run: it {missing}")]
    Unmet {
        /// Its id.
        plugin: String,
        /// What is missing: "needs a channel with ...".
        missing: String,
    },
    /// The plugin says that it cannot judge this input.
    #[error("{plugin} gave no judgement: {reason}")]
    Refused {
        /// Its id.
        plugin: String,
        /// The plugin's own words.
        reason: String,
    },
    /// The plugin broke a rule of the interface; none of its findings count.
    #[error("{plugin} broke a rule of the plugin interface, so none of its findings count: {rule}")]
    BrokeRule {
        /// Its id.
        plugin: String,
        /// Which rule.
        rule: String,
    },
    /// The plugin panicked, ended its process or was ended by the system.
    #[error("{plugin} crashed, so none of its findings count: {how}{noise}")]
    Crashed {
        /// Its id.
        plugin: String,
        /// What the system or the plugin says.
        how: String,
        /// The end of what it wrote to its error output: empty, or ` (it wrote: ...)`.
        noise: String,
    },
    /// The plugin took longer than it may.
    #[error(
        "{plugin} was stopped after {seconds} s without a result, so none of its findings count{noise}"
    )]
    TimedOut {
        /// Its id.
        plugin: String,
        /// How long it was given, s.
        seconds: u64,
        /// As in [`AnalyzeError::Crashed`].
        noise: String,
    },
    /// The plugin's library crashed or ran out of time too often in a row.
    #[error(
        "{plugin} was not run: its library {library} (BLAKE3 {blake3}) crashed or ran out of time {crashes} times in a \
         row and is set aside. `baybrief plugins --check {library}` shows what is wrong with it; another build of it \
         runs again, and so does this one after `baybrief plugins --bring-back {library}`"
    )]
    SetAside {
        /// Its id.
        plugin: String,
        /// Where the library lies.
        library: String,
        /// Its hash, by which it is set aside.
        blake3: String,
        /// How often.
        crashes: u32,
    },
    /// The host itself could not do its part.
    #[error("{plugin} could not be run: {reason}")]
    Host {
        /// Its id.
        plugin: String,
        /// What went wrong.
        reason: String,
    },
}
