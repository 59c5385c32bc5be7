//! Observations of an analyzer, as the case keeps them.

pub use plugin_abi::{Grade, Limit, Observation};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::ops::{Deref, DerefMut};

/// An observation with its place in the case. Reads as the [`Observation`] that it holds.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Finding {
    /// `f1`, `f2`, ... unique in the case; what causes refer to.
    pub id: String,
    /// The analyzer that found it.
    pub plugin: String,
    /// System of its library.
    #[serde(default)]
    pub system: String,
    /// The file it was seen in.
    pub file: Option<String>,
    /// The observation in words, in the report's language.
    #[serde(default)]
    pub text: String,
    /// Subject of the observation.
    #[serde(flatten)]
    pub observation: Observation,
}

impl Deref for Finding {
    type Target = Observation;

    fn deref(&self) -> &Observation {
        &self.observation
    }
}

impl DerefMut for Finding {
    fn deref_mut(&mut self) -> &mut Observation {
        &mut self.observation
    }
}
