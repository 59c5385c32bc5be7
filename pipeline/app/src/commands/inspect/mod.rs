//! `inspect`: how a file is read, and why so. Changes nothing.

mod plot;
mod teeth;
mod text;
mod view;

use crate::context::{AppContext, line};
use crate::job::readers;
use crate::output::say;
use anyhow::Result;
use formats::Reading;
use model::Problem;
use settings::KnownNames;
use std::path::{Path, PathBuf};
use view::{Content, FileView, Part, Settings};

/// Says of each file how it is read, as text or as one JSON array. Clean when every file could be read.
pub fn inspect(files: &[PathBuf], json: bool, shop: Option<&Path>) -> Result<bool> {
    let context = AppContext::open(shop, false)?;
    let mut clean = true;
    let mut views = Vec::new();
    for (i, path) in files.iter().enumerate() {
        let view = inspect_file(path, &context);
        clean &= view.error.is_none();
        if json {
            views.push(view);
        } else {
            if i > 0 {
                say!("");
            }
            say!("{}", text::page(&view, context.localizer()));
        }
    }
    if json {
        say!("{}", serde_json::to_string_pretty(&views)?);
    }
    Ok(clean)
}

fn inspect_file(path: &Path, context: &AppContext) -> FileView {
    let name = path.display().to_string();
    if path.is_dir() {
        return FileView::error(
            &name,
            "a folder; `inspect` takes files, `run` takes folders",
        );
    }
    if path.extension().is_some_and(|e| e == "toml") {
        return settings_file(path, &name, &context.known_names());
    }
    let looked = match formats::inspect(path, &name, &readers(), context.memory.limits()) {
        Ok(looked) => looked,
        Err(e) => return FileView::error(&name, &e.to_string()),
    };
    let mut view = match looked.reading {
        Ok(Reading::Capture(c)) => FileView {
            problems: c.problems.iter().map(line).collect(),
            content: Some(Content::Recording(view::recording(
                &c,
                &context.knowledge.roles,
            ))),
            ..FileView::named(&name, &c.read_as)
        },
        Ok(Reading::Scan(s)) => FileView {
            problems: s.problems.iter().map(line).collect(),
            content: Some(Content::Scan(view::scan(&s))),
            ..FileView::named(&name, &s.read_as)
        },
        Ok(Reading::Photo { read_as }) => FileView::named(&name, &read_as),
        Err(e) => FileView::error(&name, &e.to_string()),
    };
    view.why = looked.opinions;
    view
}

/// job.toml, shop.toml, or else a channel preset.
fn settings_file(path: &Path, name: &str, known: &KnownNames) -> FileView {
    let text = match settings::read_text(path, name) {
        Ok(text) => text,
        Err(problem) => return FileView::error(name, &line(&problem)),
    };
    let view = |what: &str, count: usize, of: Part, errors: Vec<Problem>, doubts: Vec<Problem>| {
        let problems: Vec<String> = errors.iter().chain(&doubts).map(line).collect();
        FileView {
            error: (!errors.is_empty()).then(|| problems[..errors.len()].join("\n")),
            problems: problems[errors.len()..].to_vec(),
            content: Some(Content::Settings(Settings { count, of })),
            ..FileView::named(name, what)
        }
    };
    match path.file_name().and_then(|n| n.to_str()) {
        Some("job.toml") => {
            let p = settings::read_job_file(&text, name, known);
            let count = p.value.captures.len();
            view("job file", count, Part::Recordings, p.errors, p.doubts)
        }
        Some("shop.toml") => {
            let p = settings::read_shop_file(&text, name);
            let count = p.value.billing.operations.len();
            view("shop file", count, Part::Operations, p.errors, p.doubts)
        }
        _ => {
            let p = settings::read_preset(&text, name, known);
            let what = format!("channel preset {:?}", p.value.name);
            view(
                &what,
                p.value.channels.len(),
                Part::Channels,
                p.errors,
                p.doubts,
            )
        }
    }
}
