//! `run`: each job folder once.

use crate::arguments::{Common, Usage};
use crate::context::AppContext;
use crate::job::{self, Early};
use crate::memory::Memory;
use crate::progress::Progress;
use crate::publish::{Finished, Task};
use crate::words::{fluent_args, phrase};
use anyhow::{Context, Result};
use intake::{IntakeError, JobEntry, JobSource, ResultStore};
use model::Problem;
use model::case::FileStatus;
use report::localizer::Localizer;
use std::path::{Path, PathBuf};

/// Does each folder. The exit is clean when every job got a report and no file was set aside.
pub fn run(folders: &[PathBuf], common: &Common) -> Result<bool> {
    let named = names(folders)?;
    let memory = Memory::of_megabytes(common.memory);
    memory.take_effect();
    writable(&common.out)?;
    // While the context opens, which is mostly waiting for plugins to load, the first job is read.
    let (context, mut begun) = std::thread::scope(|scope| {
        let reading = named
            .first()
            .map(|(_, f)| scope.spawn(move || begin(&source(f), memory)));
        let context = AppContext::open_within(common.shop.as_deref(), common.in_process, memory);
        (context, reading.and_then(|r| r.join().ok()))
    });
    let mut context = context?;
    let mut store = ResultStore::open(&common.out, true)?;
    let progress = Progress::new(named.len() as u64);
    let mut clean = true;
    for (name, folder) in &named {
        progress.doing(&phrase!(context.localizer(), "console-reading", "job" => name.as_str()));
        match one(name, folder, begun.take(), &mut store, &mut context) {
            Ok(done) => {
                clean &= done.clean;
                progress.line(&summary(name, &done, &common.out, context.localizer()));
            }
            Err(e) => {
                clean = false;
                let localizer = context.localizer();
                let reason = localizer.translate(&format!("{e:#}"));
                let job = name.as_str();
                progress.line(
                    &phrase!(localizer, "console-no-report", "job" => job, "reason" => reason),
                );
            }
        }
        progress.step();
    }
    Ok(clean)
}

/// A job's files with their digests, and what was read of them.
type Begun = Result<(Vec<JobEntry>, Early), IntakeError>;

fn source(folder: &Path) -> JobSource {
    JobSource::Folder(folder.to_path_buf())
}

fn begin(source: &JobSource, memory: Memory) -> Begun {
    source.gather_while(|files| job::early(files, memory.limits()))
}

/// Does one folder and publishes its results; `begun` is what was read of it already.
pub fn one(
    name: &str,
    folder: &Path,
    mut begun: Option<Begun>,
    store: &mut ResultStore,
    context: &mut AppContext,
) -> Result<Finished> {
    let source = source(folder);
    // Published by somebody else meanwhile: once more, on top of that.
    for _ in 0..3 {
        let (entries, early) = begun
            .take()
            .unwrap_or_else(|| begin(&source, context.memory))?;
        let done = Task::new(name, source.clone(), entries, store)?.make_of(early, context)?;
        if done.publish_and_show(store, context)? {
            return Ok(done);
        }
    }
    anyhow::bail!("somebody else does the same job over and over; stop the other one first")
}

/// Each folder with the name of its job. Two folders of one name would write over each other's results.
fn names(folders: &[PathBuf]) -> Result<Vec<(String, PathBuf)>> {
    let mut named: Vec<(String, PathBuf)> = Vec::new();
    for folder in folders {
        let full = folder.canonicalize().map_err(|e| {
            Usage(format!(
                "{}: {e}; name a folder with a job's files",
                folder.display()
            ))
        })?;
        if !full.is_dir() {
            let message = format!(
                "{} is a file; `run` takes the folder that it lies in, `inspect` takes files",
                folder.display()
            );
            return Err(Usage(message).into());
        }
        let name = full
            .file_name()
            .map_or("job".into(), |n| n.to_string_lossy().into_owned());
        if let Some((_, other)) = named.iter().find(|(n, _)| *n == name) {
            let message = format!(
                "{} and {} are both named {name}: run them apart",
                other.display(),
                folder.display()
            );
            return Err(Usage(message).into());
        }
        named.push((name, full));
    }
    Ok(named)
}

/// Makes the results' folder, so that a wrong one is said before any work.
pub fn writable(out: &Path) -> Result<()> {
    std::fs::create_dir_all(out)
        .map_err(|e| Usage(format!("--out {}: cannot be made: {e}", out.display())))?;
    Ok(())
}

/// Summary of a job for the terminal.
pub fn summary(name: &str, done: &Finished, out: &Path, localizer: &Localizer) -> String {
    let case = done.case();
    let mut lines = vec![format!("{name}: {}", done.revision().sentence)];
    let report = out.join(name).join("report.pdf");
    lines.extend(report.exists().then(|| report.display().to_string()));
    let next = case.verdict.next.iter();
    lines.extend(next.map(|next| phrase!(localizer, "console-next", "step" => next.text.as_str())));
    let aside = case.files.iter();
    let aside = aside.filter(|f| f.status == FileStatus::SetAside);
    lines.extend(aside.map(|f| {
        // The message names its file.
        let message = localizer.translate(f.message.as_deref().unwrap_or(&f.path));
        phrase!(localizer, "console-set-aside", "message" => message)
    }));
    lines.extend(case.not_run.iter().map(|n| {
        let mut arguments =
            fluent_args!["check" => n.plugin.as_str(), "reason" => localizer.translate(&n.reason)];
        let Some(file) = &n.file else {
            return localizer.message_with("console-not-run", &arguments);
        };
        arguments.set("file", file.as_str());
        localizer.message_with("console-not-run-file", &arguments)
    }));
    lines.extend(case.problems.iter().map(|p| note(p, localizer)));
    lines.join("\n  ")
}

/// A problem as a note of the terminal.
pub fn note(problem: &Problem, localizer: &Localizer) -> String {
    phrase!(localizer, "console-note", "message" => localizer.problem(problem))
}

/// Says where the results of a job with a name lie in `out`.
///
/// # Errors
/// When there is no such folder.
pub fn results(name: &str, out: &Path, localizer: &Localizer) -> Result<String> {
    let folder = out.join(name);
    let full = folder
        .canonicalize()
        .with_context(|| folder.display().to_string())?;
    let path = |f: &str| full.join(f).display().to_string();
    Ok(phrase!(localizer, "console-results",
        "report" => path("report.pdf"),
        "labour" => path("labour.csv"),
        "case" => path("case.json"),
    ))
}
