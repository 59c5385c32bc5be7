//! A settings file whose syntax is right: its tables, and the lines of their keys.

use std::borrow::Cow;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A settings file whose syntax is right.
pub(crate) struct Document<'a> {
    /// Text as it was written, for what was found and for lines.
    pub text: &'a str,
    /// Name for messages.
    pub file: &'a str,
    pub root: Spanned<DeTable<'a>>,
}

/// A step from a table to what is in it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Step {
    Key(String),
    Index(usize),
}

/// An entry that was taken out.
pub(crate) struct Removed {
    /// Steps that lead to it.
    pub path: Vec<Step>,
    /// Its key or, of a list, itself, in bytes of the text.
    pub key: Range<usize>,
    pub value: Range<usize>,
}

impl<'a> Document<'a> {
    /// The document of `sound`, which is `text` with blanks in place of what is wrong.
    pub fn parse(text: &'a str, sound: &'a str, file: &'a str) -> Option<Self> {
        let root = DeTable::parse(sound).ok()?;
        Some(Document { text, file, root })
    }

    /// Line of a byte, from 1.
    pub fn line(&self, at: usize) -> usize {
        line(self.text, at)
    }

    /// Line of the key that the steps lead to; `None` where it does not exist.
    pub fn line_of(&self, path: &[Step]) -> Option<usize> {
        let (last, before) = path.split_last()?;
        let mut table = self.root.get_ref();
        let mut value: Option<&Spanned<DeValue>> = None;
        for step in before {
            let next = match (step, value.map(Spanned::get_ref)) {
                (Step::Key(key), _) => table.get(key.as_str())?,
                (Step::Index(i), Some(DeValue::Array(list))) => list.get(*i)?,
                _ => return None,
            };
            if let DeValue::Table(inner) = next.get_ref() {
                table = inner;
            }
            value = Some(next);
        }
        match last {
            Step::Key(key) => {
                let (key, _) = table.iter().find(|(k, _)| k.get_ref() == key.as_str())?;
                Some(self.line(key.span().start))
            }
            Step::Index(i) => match value?.get_ref() {
                DeValue::Array(list) => Some(self.line(list.get(*i)?.span().start)),
                _ => None,
            },
        }
    }

    /// Takes the innermost entry out that a byte of the text belongs to.
    pub fn remove(&mut self, at: usize) -> Option<Removed> {
        let mut path = Vec::new();
        let (key, value) = remove(self.root.get_mut(), at, &mut path)?;
        Some(Removed { path, key, value })
    }
}

/// Line of a byte, from 1.
pub(crate) fn line(text: &str, at: usize) -> usize {
    let before = &text.as_bytes()[..at.min(text.len())];
    before.iter().filter(|b| **b == b'\n').count() + 1
}

type Entry = (Range<usize>, Range<usize>);

fn remove(table: &mut DeTable<'_>, at: usize, path: &mut Vec<Step>) -> Option<Entry> {
    for (key, value) in table.iter_mut() {
        path.push(Step::Key(key.get_ref().to_string()));
        if let Some(found) = remove_inside(value, at, path) {
            return Some(found);
        }
        path.pop();
    }
    let holds = |span: Range<usize>| span.contains(&at) || span.start == at;
    let (key, entry) = table.iter().find_map(|(key, value)| {
        let own = holds(key.span()) || holds(value.span());
        own.then(|| (key.get_ref().to_string(), (key.span(), value.span())))
    })?;
    table.remove(Cow::Borrowed(key.as_str()).as_ref());
    path.push(Step::Key(key));
    Some(entry)
}

fn remove_inside(
    value: &mut Spanned<DeValue<'_>>,
    at: usize,
    path: &mut Vec<Step>,
) -> Option<Entry> {
    let index = match value.get_mut() {
        DeValue::Table(inner) => return remove(inner, at, path),
        DeValue::Array(list) => {
            for (i, element) in list.iter_mut().enumerate() {
                path.push(Step::Index(i));
                if let Some(found) = remove_inside(element, at, path) {
                    return Some(found);
                }
                path.pop();
            }
            list.iter()
                .position(|element| element.span().contains(&at))?
        }
        _ => return None,
    };
    let DeValue::Array(list) = std::mem::replace(value.get_mut(), DeValue::Boolean(false)) else {
        return None;
    };
    let span = list.get(index)?.span();
    let kept = list.into_iter().enumerate().filter(|(i, _)| *i != index);
    *value.get_mut() = DeValue::Array(kept.map(|(_, element)| element).collect());
    path.push(Step::Index(index));
    Some((span.clone(), span))
}
