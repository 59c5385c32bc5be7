//! job.toml, shop.toml and channel presets: read as far as they are right, with all errors at once, each with its line, its
//! key, what was found and what to write.

mod check;
mod document;
mod explain;
mod keep;
mod parsed;
mod recover;
mod text;

pub use keep::keep_answers;
pub use parsed::{KnownNames, Parsed};
pub use recover::comment_out;
pub use text::{LARGEST_FILE, read_open, read_text};

use document::Document;
use model::job_file::PresetFile;
use model::{JobFile, Problem, ShopFile};
use serde::de::DeserializeOwned;

/// Reads job.toml. `file` is its name for messages. A unit or a system that does not exist is an error and stays in the
/// value, so that nobody takes it for one that was never named; every other wrong line is left out.
pub fn read_job_file(text: &str, file: &str, known: &KnownNames) -> Parsed<JobFile> {
    read(text, file, |document, parsed| {
        check::job_file(document, parsed, known)
    })
}

/// Reads a channel preset. See [`read_job_file`] for the errors.
pub fn read_preset(text: &str, file: &str, known: &KnownNames) -> Parsed<PresetFile> {
    read(text, file, |document, parsed| {
        check::preset(document, parsed, known)
    })
}

/// Reads shop.toml. See [`read_job_file`] for the errors.
pub fn read_shop_file(text: &str, file: &str) -> Parsed<ShopFile> {
    read(text, file, |_, _| {})
}

fn read<T: DeserializeOwned + Default>(
    text: &str,
    file: &str,
    check: impl FnOnce(&Document, &mut Parsed<T>),
) -> Parsed<T> {
    let mut parsed = Parsed::default();
    if text.len() > LARGEST_FILE {
        parsed.errors.push(text::too_large(file));
        return parsed;
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let sound = recover::syntax(text, file, &mut parsed.errors);
    let Some(mut document) = Document::parse(text, &sound, file) else {
        return parsed;
    };
    parsed.value = recover::types(&mut document, &mut parsed.errors);
    check(&document, &mut parsed);
    parsed.errors.sort_by_key(line_of);
    parsed
}

/// Line that a place begins with, for the order of errors.
fn line_of(problem: &Problem) -> usize {
    let place = problem.place.as_deref().unwrap_or_default();
    let digits = place.strip_prefix("line ").unwrap_or_default();
    let end = digits
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(digits.len());
    digits[..end].parse().unwrap_or(0)
}

#[cfg(test)]
mod tests;
