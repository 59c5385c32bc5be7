//! Captured outputs of a worker.

use std::io::{self, PipeReader, Read};
use std::sync::{Arc, Mutex, PoisonError, mpsc};
use std::time::Duration;

/// The end of what a worker writes, read by a thread of its own so that the worker never waits.
pub(crate) struct CapturedOutput {
    kept: Arc<Mutex<Vec<u8>>>,
    ended: mpsc::Receiver<()>,
}

/// Bytes that are kept.
const KEPT_BYTES: usize = 8 * 1024;

impl CapturedOutput {
    /// Begins to read.
    pub(crate) fn read(mut pipe: PipeReader) -> io::Result<CapturedOutput> {
        let kept = Arc::new(Mutex::new(Vec::new()));
        let (end, ended) = mpsc::channel();
        let into = Arc::clone(&kept);
        std::thread::Builder::new()
            .name("worker output".into())
            .spawn(move || {
                let mut buffer = [0; 4096];
                while let Ok(n @ 1..) = pipe.read(&mut buffer) {
                    let mut kept = into.lock().unwrap_or_else(PoisonError::into_inner);
                    kept.extend_from_slice(&buffer[..n]);
                    let excess = kept.len().saturating_sub(KEPT_BYTES);
                    kept.drain(..excess);
                }
                // Nobody may be waiting any more.
                let _ = end.send(());
            })?;
        Ok(CapturedOutput { kept, ended })
    }

    /// All that is kept, once the worker has ended.
    pub(crate) fn all(&self) -> Vec<u8> {
        // Something that the worker started may still hold the pipe: do not wait for that.
        let _ = self.ended.recv_timeout(Duration::from_millis(500));
        self.kept
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    /// The last lines for a person: empty, or ` (it wrote: ...)`.
    pub(crate) fn quoted(&self) -> String {
        const LINES: usize = 3;
        const CHARACTERS: usize = 400;
        let text = String::from_utf8_lossy(&self.all()).into_owned();
        let lines: Vec<&str> = text
            .lines()
            .map(str::trim)
            .filter(|l| !l.is_empty())
            .collect();
        let last = lines[lines.len().saturating_sub(LINES)..].join(" | ");
        if last.is_empty() {
            return String::new();
        }
        let last: String = last
            .chars()
            .map(|c| if c.is_control() { ' ' } else { c })
            .take(CHARACTERS)
            .collect();
        format!(" (it wrote: {last})")
    }
}
