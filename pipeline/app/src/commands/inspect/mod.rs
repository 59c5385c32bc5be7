//! `inspect`: how a file is read, and why so. Changes nothing.

mod plot;
mod teeth;
mod text;
mod view;

use crate::context::line;
use anyhow::Result;
use formats::{Reading, settings};
use std::path::{Path, PathBuf};
use view::{Content, FileView, Settings};

/// Says of each file how it is read, as text or as one JSON array. Clean when every file could be read.
pub fn inspect(files: &[PathBuf], json: bool) -> Result<bool> {
    let mut clean = true;
    let mut views = Vec::new();
    for (i, path) in files.iter().enumerate() {
        let view = one(path);
        clean &= view.error.is_none();
        if json {
            views.push(view);
        } else {
            if i > 0 {
                println!();
            }
            print!("{}", text::page(&view));
        }
    }
    if json {
        println!("{}", serde_json::to_string_pretty(&views)?);
    }
    Ok(clean)
}

fn one(path: &Path) -> FileView {
    let name = path.display().to_string();
    if path.is_dir() {
        return FileView::error(
            &name,
            "a folder; `inspect` takes files, `run` takes folders",
        );
    }
    if path.extension().is_some_and(|e| e == "toml") {
        return settings_file(path, &name);
    }
    let looked = match formats::look(path, &name) {
        Ok(looked) => looked,
        Err(e) => return FileView::error(&name, &e.to_string()),
    };
    let mut view = match looked.reading {
        Ok(Reading::Capture(c)) => FileView {
            problems: c.problems.iter().map(line).collect(),
            content: Some(Content::Recording(view::recording(&c))),
            ..FileView::named(&name, &c.read_as)
        },
        Ok(Reading::Scan(s)) => FileView {
            problems: s.problems.iter().map(line).collect(),
            content: Some(Content::Scan(view::scan(&s))),
            ..FileView::named(&name, &s.read_as)
        },
        Err(e) => FileView::error(&name, &e.to_string()),
    };
    view.why = looked.opinions;
    view
}

/// job.toml, shop.toml, or else a saved hook-up.
fn settings_file(path: &Path, name: &str) -> FileView {
    let text = match std::fs::read_to_string(path) {
        Ok(t) => t,
        Err(e) => {
            return FileView::error(name, &format!("{name}: cannot be read as UTF-8 text: {e}"));
        }
    };
    let read = |what: &str, count: usize, of: &str, problems: Vec<model::Problem>| FileView {
        problems: problems.iter().map(line).collect(),
        content: Some(Content::Settings(Settings {
            count,
            of: of.into(),
        })),
        ..FileView::named(name, what)
    };
    let outcome = match path.file_name().and_then(|n| n.to_str()) {
        Some("job.toml") => settings::read_job_file(&text, name).map(|job| {
            let doubts = settings::job_file_doubts(&job, &text, name);
            read(
                "job file",
                job.captures.len(),
                "recording(s) described",
                doubts,
            )
        }),
        Some("shop.toml") => settings::read_shop_file(&text, name).map(|shop| {
            read(
                "shop file",
                shop.billing.operations.len(),
                "operation(s) priced",
                Vec::new(),
            )
        }),
        _ => settings::read_hookup(&text, name).map(|h| {
            read(
                &format!("saved hook-up {:?}", h.name),
                h.channels.len(),
                "channel(s)",
                Vec::new(),
            )
        }),
    };
    outcome.unwrap_or_else(|problems| {
        FileView::error(
            name,
            &problems.iter().map(line).collect::<Vec<_>>().join("\n"),
        )
    })
}
