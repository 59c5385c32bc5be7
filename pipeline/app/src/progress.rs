//! Progress: a bar on a terminal, plain lines under a pipe.

use crate::output::{say, say_error};
use indicatif::{ProgressBar, ProgressStyle};
use std::io::IsTerminal;

/// Progress over a number of steps.
pub struct Progress {
    bar: Option<ProgressBar>,
}

impl Progress {
    /// Starts with so many steps.
    pub fn new(steps: u64) -> Progress {
        if !std::io::stderr().is_terminal() {
            return Progress { bar: None };
        }
        let bar = ProgressBar::new(steps);
        if let Ok(style) = ProgressStyle::with_template("{bar:30} {pos}/{len} {msg}") {
            bar.set_style(style);
        }
        Progress { bar: Some(bar) }
    }

    /// Says what is being done now.
    pub fn doing(&self, what: &str) {
        match &self.bar {
            Some(bar) => bar.set_message(what.to_string()),
            None => say_error!("{what}"),
        }
    }

    /// One step is done.
    pub fn step(&self) {
        if let Some(bar) = &self.bar {
            bar.inc(1);
        }
    }

    /// Prints a line that stays.
    pub fn line(&self, text: &str) {
        match &self.bar {
            Some(bar) => bar.suspend(|| say!("{text}")),
            None => say!("{text}"),
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}
