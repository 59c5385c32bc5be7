//! A library that is in use, and its worker.

use crate::error::AnalyzeError;
use crate::process::Death;
use crate::runner::Runner;
use std::path::{Path, PathBuf};

/// A library that is in use.
pub(crate) struct Installed {
    pub(crate) path: PathBuf,
    /// BLAKE3 of the file when it was found, hexadecimal.
    pub(crate) blake3: String,
    pub(crate) runner: Option<Runner>,
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
            None => {
                self.unchanged().map_err(Death::Unreachable)?;
                Runner::start(&self.path, memory, in_process)?
            }
        };
        Ok(self.runner.insert(runner))
    }

    fn unchanged(&self) -> Result<(), String> {
        let path = self.path.display();
        let now = file_hash(&self.path)
            .map_err(|e| format!("its library {path} cannot be read any more: {e}"))?;
        if now == self.blake3 {
            return Ok(());
        }
        Err(format!(
            "its library {path} was changed since it was found (BLAKE3 then {}, now {now}); start again to use the new \
             one",
            self.blake3
        ))
    }

    /// Lets go of a worker that cannot be trusted any more.
    pub(crate) fn after(&mut self, error: &AnalyzeError) {
        match error {
            AnalyzeError::Crashed { .. }
            | AnalyzeError::TimedOut { .. }
            | AnalyzeError::Host { .. } => {
                self.runner = None;
            }
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
