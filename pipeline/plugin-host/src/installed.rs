//! A library that is in use: its worker, and how often it crashed.

use crate::error::AnalyzeError;
use crate::process::Death;
use crate::runner::Runner;
use std::path::{Path, PathBuf};

/// A library that crashed or ran out of time this often is set aside for the rest of the run.
pub(crate) const MAX_CRASHES: u32 = 3;

/// A library that is in use.
pub(crate) struct Installed {
    pub(crate) path: PathBuf,
    /// BLAKE3 of the file when it was found, hexadecimal.
    pub(crate) blake3: String,
    pub(crate) runner: Option<Runner>,
    pub(crate) crashes: u32,
}

impl Installed {
    /// The runner, started anew when there is none or when it ended between two calls. A file that was replaced
    /// meanwhile is not loaded: the record would name another one.
    pub(crate) fn running(&mut self, memory: u64, in_process: bool) -> Result<&mut Runner, Death> {
        let warm = self
            .runner
            .take()
            .and_then(|mut runner| runner.is_running().then_some(runner));
        let runner = match warm {
            Some(runner) => runner,
            None if file_hash(&self.path).is_ok_and(|now| now == self.blake3) => {
                Runner::start(&self.path, memory, in_process)?
            }
            None => {
                let path = self.path.display();
                return Err(Death::Unreachable(format!(
                    "its library {path} was changed or removed since it was found; start again to use the new one"
                )));
            }
        };
        Ok(self.runner.insert(runner))
    }

    /// Lets go of a worker that cannot be trusted any more.
    pub(crate) fn after(&mut self, error: &AnalyzeError) {
        match error {
            AnalyzeError::Crashed { .. } | AnalyzeError::TimedOut { .. } => {
                self.crashes += 1;
                self.runner = None;
            }
            AnalyzeError::Host { .. } => self.runner = None,
            _ => {}
        }
    }
}

/// BLAKE3 of a file, hexadecimal.
pub(crate) fn file_hash(path: &Path) -> std::io::Result<String> {
    let mut hasher = blake3::Hasher::new();
    hasher.update_reader(std::fs::File::open(path)?)?;
    Ok(hasher.finalize().to_hex().to_string())
}
