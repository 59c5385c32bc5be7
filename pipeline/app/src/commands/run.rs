//! `run`: each job folder once.

use crate::arguments::{Common, Usage};
use crate::context::AppContext;
use crate::job::{self, Early};
use crate::memory::Memory;
use crate::progress::Progress;
use crate::publish::{Finished, Task, hand_over};
use crate::status_page;
use anyhow::{Context, Result};
use intake::{IntakeError, JobEntry, JobSource, ResultStore};
use model::case::FileStatus;
use std::path::{Path, PathBuf};

/// Does each folder. The exit is clean when every job got a report and no file was set aside.
pub fn run(folders: &[PathBuf], common: &Common) -> Result<bool> {
    let named = names(folders)?;
    let memory = Memory::of_megabytes(common.memory);
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
        progress.doing(&format!("{name}: reading and measuring"));
        match one(name, folder, begun.take(), &mut store, &mut context) {
            Ok(done) => {
                clean &= done.clean;
                progress.line(&summary(name, &done, &common.out));
            }
            Err(e) => {
                clean = false;
                progress.line(&format!("{name}: no report: {e:#}"));
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
        if done.publish(store)? {
            hand_over(store, &context.settings.shop)?;
            status_page::write(store)?;
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
pub fn summary(name: &str, done: &Finished, out: &Path) -> String {
    let case = done.case();
    let mut text = format!("{name}: {}", done.revision().sentence);
    let report = out.join(name).join("report.pdf");
    if report.exists() {
        text.push_str(&format!("\n  {}", report.display()));
    }
    for next in &case.verdict.next {
        text.push_str(&format!("\n  next: {}", next.text));
    }
    for f in case
        .files
        .iter()
        .filter(|f| f.status == FileStatus::SetAside)
    {
        // The message names its file.
        text.push_str(&format!(
            "\n  set aside: {}",
            f.message.as_deref().unwrap_or(&f.path)
        ));
    }
    for n in &case.not_run {
        let of = n
            .file
            .as_ref()
            .map(|f| format!(" on {f}"))
            .unwrap_or_default();
        text.push_str(&format!("\n  did not run: {}{of}: {}", n.plugin, n.reason));
    }
    for p in &case.problems {
        text.push_str(&format!("\n  note: {}", crate::context::line(p)));
    }
    text
}

/// Writes results into `out` for one job with a name, and says where.
pub fn results(name: &str, out: &Path) -> Result<String> {
    let folder = out.join(name);
    let full = folder
        .canonicalize()
        .with_context(|| folder.display().to_string())?;
    let path = |f: &str| full.join(f).display().to_string();
    Ok(format!(
        "report:  {}\nlabour:  {}\ncase:    {}",
        path("report.pdf"),
        path("labour.csv"),
        path("case.json")
    ))
}
