//! Why an analyzer gave no findings.

/// Why an analyzer gave no findings for a recording. Each prints as a sentence or two for the list of checks that
/// did not run.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AnalyzeError {
    /// The analyzer says that it cannot judge this input.
    #[error("{analyzer} gave no judgement: {reason}")]
    Refused {
        /// Its id.
        analyzer: String,
        /// Its own words.
        reason: String,
    },
    /// The analyzer broke a rule of the interface; none of its findings count.
    #[error(
        "{analyzer} broke a rule of the plugin interface, so none of its findings count: {rule}"
    )]
    BrokeRule {
        /// Its id.
        analyzer: String,
        /// The rule.
        rule: String,
    },
    /// The analyzer panicked, ended its process or was ended by the system.
    #[error("{analyzer} crashed, so none of its findings count: {how}{output}")]
    Crashed {
        /// Its id.
        analyzer: String,
        /// Message of the system or the analyzer.
        how: String,
        /// The end of what it wrote to its error output: empty, or ` (it wrote: ...)`.
        output: String,
    },
    /// The analyzer used more memory than it may.
    #[error(
        "{analyzer} needed more memory than it may have, so none of its findings count; allow more (--memory), or \
         export the part of the recording that matters{output}"
    )]
    OutOfMemory {
        /// Its id.
        analyzer: String,
        /// As in [`AnalyzeError::Crashed`].
        output: String,
    },
    /// The analyzer took longer than it may.
    #[error(
        "{analyzer} was stopped after {seconds} s without a result, so none of its findings count{output}"
    )]
    TimedOut {
        /// Its id.
        analyzer: String,
        /// Time limit, s.
        seconds: u64,
        /// As in [`AnalyzeError::Crashed`].
        output: String,
    },
    /// An analyzer that derives what this one reads did not run.
    #[error("{analyzer} was not run: it reads {series}, and {from} did not derive it")]
    InputMissing {
        /// Its id.
        analyzer: String,
        /// The series.
        series: String,
        /// Id of the analyzer that derives it.
        from: String,
    },
    /// The library crashed or ran out of time too often in a row.
    #[error(
        "{analyzer} was not run: its library {library} (SHA-256 {sha256}) crashed or ran out of time on {inputs} \
         recordings in a row and is quarantined. `baybrief plugins --validate {library}` shows what is wrong with it; \
         another build of it runs again, and so does this one after `baybrief plugins --unquarantine {library}`"
    )]
    Quarantined {
        /// Its id.
        analyzer: String,
        /// Path of the library.
        library: String,
        /// Its hash, by which it is quarantined.
        sha256: String,
        /// On how many recordings.
        inputs: usize,
    },
    /// The library crashed on this very recording too often, or several libraries did.
    #[error(
        "{analyzer} was not run: it crashed on this very recording before ({times} times), and other recordings are \
         not affected. `baybrief plugins --unquarantine {library}` has it tried again"
    )]
    InputQuarantined {
        /// Its id.
        analyzer: String,
        /// Path of the library.
        library: String,
        /// Number of times.
        times: u32,
    },
    /// The recording cannot be handed to any analyzer.
    #[error("{analyzer} was not run: {reason}")]
    UnusableInput {
        /// Its id.
        analyzer: String,
        /// Error of the recording.
        reason: String,
    },
    /// The host itself could not do its part.
    #[error("{analyzer} could not be run: {reason}")]
    Host {
        /// Its id.
        analyzer: String,
        /// The error.
        reason: String,
    },
}

impl AnalyzeError {
    /// True where the same run may succeed another time.
    pub fn is_transient(&self) -> bool {
        match self {
            AnalyzeError::OutOfMemory { .. }
            | AnalyzeError::TimedOut { .. }
            | AnalyzeError::Host { .. } => true,
            AnalyzeError::Refused { .. }
            | AnalyzeError::BrokeRule { .. }
            | AnalyzeError::Crashed { .. }
            | AnalyzeError::InputMissing { .. }
            | AnalyzeError::Quarantined { .. }
            | AnalyzeError::InputQuarantined { .. }
            | AnalyzeError::UnusableInput { .. } => false,
        }
    }
}
