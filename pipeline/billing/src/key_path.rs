//! Key paths in shop.toml.

use std::fmt;
use toml::de::{DeTable, DeValue};

/// Path to a setting: `billing.operation[2].hours`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct KeyPath(Vec<Step>);

#[derive(Debug, Clone, PartialEq, Eq)]
enum Step {
    Key(String),
    /// From 0.
    Item(usize),
}

impl KeyPath {
    /// Returns the path of these keys.
    pub(crate) fn new<const N: usize>(keys: [&str; N]) -> KeyPath {
        KeyPath(keys.map(|k| Step::Key(k.into())).into())
    }

    /// Returns the path of a setting inside this one.
    pub(crate) fn key(&self, key: &str) -> KeyPath {
        self.then(Step::Key(key.into()))
    }

    /// Returns the path of an item of this list, from 0.
    pub(crate) fn item(&self, index: usize) -> KeyPath {
        self.then(Step::Item(index))
    }

    fn then(&self, step: Step) -> KeyPath {
        KeyPath(self.0.iter().cloned().chain([step]).collect())
    }

    /// Line of the setting in the text, from 1; for a setting that the text lacks, the line of the section that it
    /// belongs into. `None` where the text has neither.
    pub(crate) fn line(&self, text: &str) -> Option<usize> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let table = DeTable::parse(text).ok()?;
        let mut value: Option<&DeValue<'_>> = None;
        let mut at = None;
        for step in &self.0 {
            let found = match step {
                Step::Key(key) => {
                    let inside = match value {
                        None => Some(table.get_ref()),
                        Some(value) => value.as_table(),
                    };
                    inside
                        .and_then(|t| t.get_key_value(key.as_str()))
                        .map(|(name, value)| (name.span(), value))
                }
                Step::Item(index) => value
                    .and_then(DeValue::as_array)
                    .and_then(|items| items.get(*index))
                    .map(|item| (item.span(), item)),
            };
            let Some((span, next)) = found else { break };
            at = Some(span.start);
            value = Some(next.get_ref());
        }
        let before = text.as_bytes().get(..at?)?;
        Some(before.iter().filter(|b| **b == b'\n').count() + 1)
    }

    /// Last key of the path.
    pub(crate) fn last_key(&self) -> Option<&str> {
        self.0.iter().rev().find_map(|step| match step {
            Step::Key(key) => Some(key.as_str()),
            Step::Item(_) => None,
        })
    }
}

impl fmt::Display for KeyPath {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, step) in self.0.iter().enumerate() {
            match step {
                Step::Key(key) if i == 0 => f.write_str(key)?,
                Step::Key(key) => write!(f, ".{key}")?,
                // People count from one.
                Step::Item(index) => write!(f, "[{}]", index + 1)?,
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "\
[shop]
name = \"x\"
[billing]
currency = \"EUR\"
rates = { a = 1, \"b.c\" = 2 }
[[billing.operation]]
code = \"A\"
[[billing.operation]]
code = \"B\"
hours = 3
[[billing.operation.part]]
price = 1
";

    #[test]
    fn the_line_is_that_of_the_key_or_of_the_section_it_is_missing_from() {
        let billing = KeyPath::new(["billing"]);
        let second = billing.key("operation").item(1);
        for (path, line) in [
            (billing.key("currency"), Some(4)),
            (billing.key("rates").key("b.c"), Some(5)),
            (second.key("hours"), Some(10)),
            (second.key("part").item(0).key("price"), Some(12)),
            (second.key("rate"), Some(8)),
            (billing.key("default_tax"), Some(3)),
            (KeyPath::new(["labour_csv"]), None),
        ] {
            assert_eq!(path.line(TEXT), line, "{path}");
        }
        assert_eq!(
            second.key("hours").to_string(),
            "billing.operation[2].hours"
        );
        assert_eq!(second.last_key(), Some("operation"));
        assert_eq!(billing.line("not toml ="), None);
    }
}
