//! Files that are added to a job: written to a temporary name, synced, renamed. Bytes, files and time are limited
//! while they stream.

use crate::Message;
use crate::lock::Session;
use crate::routes::{Failure, answer, ask, check_token, job_name};
use crate::server::Shared;
use axum::Extension;
use axum::body::{Body, BodyDataStream};
use axum::extract::{Path, Query, State};
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use futures_util::StreamExt;
use serde::Deserialize;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;
use tempfile::NamedTempFile;
use tokio::io::AsyncWriteExt;

/// Size of the largest file, bytes: the largest that is read.
const MAX_BYTES: u64 = 4_000_000_000;
/// Files of one job.
const MAX_FILES: usize = 500;
/// Name of the file of answers.
const ANSWERS: &str = "job.toml";
/// Longest silence of a sender.
const SILENCE: Duration = Duration::from_secs(30);

/// Name of the file that is added.
#[derive(Debug, Deserialize)]
pub(crate) struct Target {
    name: String,
}

/// Header that carries the token of the session's forms.
const TOKEN: &str = "x-form-token";

pub(crate) async fn add(
    State(shared): State<Arc<Shared>>,
    Extension(session): Extension<Session>,
    Path(id): Path<String>,
    Query(target): Query<Target>,
    headers: HeaderMap,
    body: Body,
) -> Response {
    let added = async {
        let token = headers.get(TOKEN).and_then(|t| t.to_str().ok());
        check_token(&session, token.unwrap_or_default())?;
        let name = job_name(&shared, id).await?;
        let file = plain_name(&target.name)
            .ok_or_else(|| Failure::Said(Message::with("wrong-file-name", "name", &target.name)))?;
        let job = name.clone();
        let folder = ask(&shared, move |w| {
            let folder = w.drop_folder(&job)?;
            match std::fs::read_dir(&folder).map_or(0, Iterator::count) {
                n if n >= MAX_FILES => Err(Message::with("too-many-files", "most", MAX_FILES)),
                _ => Ok(folder),
            }
        })
        .await?;
        receive(body.into_data_stream(), folder, &file).await?;
        ask(&shared, move |w| {
            w.added(&name);
            Ok("")
        })
        .await
    };
    answer(&shared, added.await.map(IntoResponse::into_response))
}

/// A name that is a single component of a path, and reads as it is: what turns the direction of writing round hides the
/// ending of a name.
pub(crate) fn plain_name(name: &str) -> Option<String> {
    let name = name.trim();
    let is_plain = !name.is_empty()
        && name.len() <= 200
        && !name.starts_with('.')
        && !name.contains(['/', '\\', '\0'])
        && !name.chars().any(|c| c.is_control() || turns(c));
    is_plain.then(|| name.to_owned())
}

/// True for the characters that turn the direction of writing (Unicode Standard Annex 9, explicit formatting characters).
fn turns(c: char) -> bool {
    matches!(c, '\u{200e}' | '\u{200f}' | '\u{061c}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

async fn receive(mut body: BodyDataStream, folder: PathBuf, name: &str) -> Result<(), Failure> {
    let failure = |e: std::io::Error| match e.kind() {
        std::io::ErrorKind::StorageFull => Failure::Said(Message::with("disk-full", "name", name)),
        _ => Failure::Said(format!("{name}: {e}").into()),
    };
    // Begins with a point, so that nobody takes it for a recording.
    let part = tempfile::Builder::new()
        .prefix(".adding-")
        .tempfile_in(&folder)
        .map_err(failure)?;
    let mut file = tokio::fs::File::from_std(part.reopen().map_err(failure)?);
    let mut size = 0;
    loop {
        let piece = tokio::time::timeout(SILENCE, body.next()).await;
        let Some(piece) = piece.map_err(|_| cut(name))? else {
            break;
        };
        let piece = piece.map_err(|_| cut(name))?;
        size += piece.len() as u64;
        if size > MAX_BYTES {
            return Err(Failure::Said(Message::with("too-large", "name", name)));
        }
        file.write_all(&piece).await.map_err(failure)?;
    }
    file.sync_all().await.map_err(failure)?;
    if name == ANSWERS {
        // Answers that were given are changed in the form, where each is checked.
        let kept = part.persist_noclobber(folder.join(name));
        return match kept {
            Err(e) if e.error.kind() == std::io::ErrorKind::AlreadyExists => {
                Err(Failure::Said(Message::new("answers-there")))
            }
            kept => kept.map(drop).map_err(|e| failure(e.error)),
        };
    }
    place(part, &folder, name).map_err(failure)
}

/// Gives the file its name, or the next free one like it: nothing that was added is replaced.
fn place(mut part: NamedTempFile, folder: &std::path::Path, name: &str) -> std::io::Result<()> {
    let (stem, ending) = match name.rsplit_once('.') {
        Some((stem, ending)) if !stem.is_empty() => (stem, format!(".{ending}")),
        _ => (name, String::new()),
    };
    for number in 1..=MAX_FILES {
        let free = match number {
            1 => name.to_owned(),
            n => format!("{stem} ({n}){ending}"),
        };
        match part.persist_noclobber(folder.join(free)) {
            Ok(_) => return std::fs::File::open(folder)?.sync_all(),
            Err(e) if e.error.kind() == std::io::ErrorKind::AlreadyExists => part = e.file,
            Err(e) => return Err(e.error),
        }
    }
    Err(std::io::ErrorKind::AlreadyExists.into())
}

fn cut(name: &str) -> Failure {
    Failure::Said(Message::with("upload-cut", "name", name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_never_paths() {
        for name in ["relearn.csv", "Spannung Fahrt 2.wav", "a..b", "è.csv"] {
            assert_eq!(plain_name(name).as_deref(), Some(name));
        }
        for name in [
            "",
            " ",
            ".",
            "..",
            "../a",
            "a/b",
            "a\\b",
            ".hidden",
            "a\nb",
            "a\0",
            "a\u{202e}vsc.exe",
        ] {
            assert_eq!(plain_name(name), None, "{name:?}");
        }
        assert_eq!(plain_name(&"x".repeat(300)), None);
    }

    #[test]
    fn nothing_that_was_added_is_replaced() {
        let folder = tempfile::tempdir().unwrap();
        for text in ["1", "2"] {
            let part = NamedTempFile::new_in(&folder).unwrap();
            std::fs::write(part.path(), text).unwrap();
            place(part, folder.path(), "a.csv").unwrap();
        }
        let read = |name: &str| std::fs::read_to_string(folder.path().join(name)).unwrap();
        assert_eq!((read("a.csv"), read("a (2).csv")), ("1".into(), "2".into()));
    }
}
