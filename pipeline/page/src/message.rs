//! Sentences that the program behind the page says in the page's language.

use std::borrow::Cow;

/// Something said to the person at the page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Message {
    /// A sentence of lang/*.ftl by its key, with its arguments.
    Known(Cow<'static, str>, Vec<(&'static str, String)>),
    /// Words of another part of the program, as they are.
    Words(String),
}

impl Message {
    /// A sentence without arguments.
    pub fn new(key: impl Into<Cow<'static, str>>) -> Message {
        Message::Known(key.into(), Vec::new())
    }

    /// A sentence with one argument.
    pub fn with(
        key: impl Into<Cow<'static, str>>,
        name: &'static str,
        value: impl ToString,
    ) -> Message {
        Message::Known(key.into(), vec![(name, value.to_string())])
    }
}

impl Default for Message {
    fn default() -> Self {
        Message::Words(String::new())
    }
}

impl From<String> for Message {
    fn from(words: String) -> Message {
        Message::Words(words)
    }
}
