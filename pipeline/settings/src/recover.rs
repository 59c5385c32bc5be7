//! Leaves out of a settings file what is wrong, so that the rest counts.

use crate::document::{Document, Step, line};
use crate::explain;
use model::Problem;
use serde::de::DeserializeOwned;
use std::ops::Range;
use toml::de::DeTable;

/// Most errors of a file that are reported; what follows the last of them is left out.
const MOST_ERRORS: usize = 100;

/// The text with blanks in place of lines that break TOML's syntax, as many bytes as before.
pub(crate) fn syntax(text: &str, file: &str, errors: &mut Vec<Problem>) -> String {
    let mut sound = text.to_string();
    while let Err(error) = DeTable::parse(&sound) {
        let at = error.span().map_or(0, |s| s.start).min(sound.len());
        let wrong = wrong_line(&sound, at);
        errors.push(Problem {
            file: file.into(),
            place: Some(explain::place(text, wrong.start)),
            message: explain::syntax(&text[wrong.clone()], error.message()),
        });
        if errors.len() == MOST_ERRORS {
            errors.push(Problem {
                file: file.into(),
                place: Some(format!("line {}", line(text, wrong.start))),
                message: "there are more errors than are reported; what follows was left out"
                    .into(),
            });
            sound.truncate(wrong.start);
            // What comes before has been found right line by line.
            return sound;
        }
        blank(&mut sound, wrong);
    }
    sound
}

/// Puts each line that breaks TOML's syntax behind a `#`, so that the others can be edited and nothing that was written is
/// lost. As many lines as before.
pub fn comment_out(text: &str) -> String {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let sound = syntax(text, "", &mut Vec::new());
    // What follows the last error that is reported is left out.
    let sound = sound.split('\n').chain(std::iter::repeat(""));
    let line = |(written, sound): (&str, &str)| match written == sound {
        true => written.to_owned(),
        false => format!("{sound}# {}", written.trim())
            .trim_start()
            .to_owned(),
    };
    let lines: Vec<String> = text.split('\n').zip(sound).map(line).collect();
    lines.join("\n")
}

/// The line at a byte, or the last one before it that is not blank: where a text or a list was never closed.
fn wrong_line(text: &str, at: usize) -> Range<usize> {
    let start_of = |at: usize| text[..at].rfind('\n').map_or(0, |i| i + 1);
    let end_of = |at: usize| text[at..].find('\n').map_or(text.len(), |i| at + i);
    let at = text.floor_char_boundary(at);
    let mut start = start_of(at);
    while start > 0 && text[start..end_of(start)].trim().is_empty() {
        start = start_of(start - 1);
    }
    // All before is blank: what follows is wrong.
    while text[start..end_of(start)].trim().is_empty() && end_of(start) < text.len() {
        start = end_of(start) + 1;
    }
    start..end_of(start)
}

/// Puts blanks in place of a wrong line. Of a line that opens a section and goes on, the section stays; a section whose
/// own line is wrong, or that was opened before, goes with all its keys.
fn blank(text: &mut String, wrong: Range<usize>) {
    let line = &text[wrong.clone()];
    let is_header = line.trim_start().starts_with('[');
    let opening = is_header.then(|| line.rfind(']')).flatten();
    let header = opening
        .map(|i| &line[..=i])
        .filter(|header| header.len() < line.trim_end().len() && DeTable::parse(header).is_ok());
    let from = wrong.start + header.map_or(0, str::len);
    let to = match header {
        None if is_header => section_end(text, wrong.end),
        _ => wrong.end,
    };
    let blanks: String = text[from..to]
        .bytes()
        .map(|b| if b == b'\n' { '\n' } else { ' ' })
        .collect();
    text.replace_range(from..to, &blanks);
}

/// Beginning of the line that opens the next section behind a byte, or the end of the text.
fn section_end(text: &str, at: usize) -> usize {
    let next = text[at..].match_indices("\n").map(|(i, _)| at + i + 1);
    let mut next = next.filter(|i| text[*i..].trim_start_matches([' ', '\t']).starts_with('['));
    next.next().unwrap_or(text.len())
}

/// The value of a document, without the entries that are of the wrong kind.
pub(crate) fn types<T: DeserializeOwned + Default>(
    document: &mut Document,
    errors: &mut Vec<Problem>,
) -> T {
    loop {
        let error = match T::deserialize(toml::Deserializer::from(document.root.clone())) {
            Ok(value) => return value,
            Err(error) => error,
        };
        let removed = error.span().and_then(|span| document.remove(span.start));
        let Some(removed) = removed.filter(|_| errors.len() < MOST_ERRORS) else {
            errors.push(Problem {
                file: document.file.into(),
                place: None,
                message: format!("{}; nothing of the file was used", error.message()),
            });
            return T::default();
        };
        let key = removed.path.iter().rev().find_map(|step| match step {
            Step::Key(key) => Some(key.as_str()),
            Step::Index(_) => None,
        });
        let found = document.text.get(removed.value.clone()).unwrap_or_default();
        errors.push(Problem {
            file: document.file.into(),
            place: Some(explain::place(document.text, removed.key.start)),
            message: explain::kind(key.unwrap_or_default(), found, error.message()),
        });
    }
}
