//! The checks that run the plugins on made-up recordings.

use super::synthetic::{Kind, capture, most_alternatives, settings};
use super::{Check, MEMORY, Outcome, Verdict};
use crate::blob::Blob;
use crate::info::{Description, Scope};
use crate::process::{Death, Process};
use crate::runner::{SCAN_TIME, ask_to_analyze};
use crate::walls::{Tripwire, Walls};
use crate::wire::{self, Call, Described, Reply, Request};
use plugin_abi::status;
use std::path::Path;
use std::time::{Duration, Instant};

/// How long one run on a made-up recording may take.
const TIME: Duration = Duration::from_secs(10);
/// How many random recordings a plugin is run on.
const RANDOM: u64 = 8;
/// How soon a plugin comes back once it was cancelled, or it gets a warning.
const PROMPT: Duration = Duration::from_secs(1);

/// Makes the checks from [`Check::EmptyCapture`] on. `process` is the one that passed the inspection.
pub(super) fn checks(path: &Path, process: Process, seed: u64, made: &mut Vec<(Check, Verdict)>) {
    let mut bench = Bench {
        path,
        process: Some(process),
        output: Vec::new(),
        tripwire: None,
        hung: false,
    };
    let plugins = match bench.describe() {
        Ok(plugins) => plugins,
        Err(verdict) => return made.push((Check::EmptyCapture, verdict)),
    };
    each(
        &plugins,
        made,
        Check::EmptyCapture,
        "A recording without samples is handled.",
        &mut |i, p| bench.run(i, p, Kind::Empty).map(drop),
    );
    each(
        &plugins,
        made,
        Check::SyntheticCapture,
        "A made-up recording is handled, and gives the same findings a second time.",
        &mut |i, p| {
            if bench.run(i, p, Kind::Plain)? == bench.run(i, p, Kind::Plain)? {
                return Ok(());
            }
            Err(fail(
                p,
                "gives other findings for the same recording a second time",
            ))
        },
    );
    each(
        &plugins,
        made,
        Check::OddSamples,
        "Missing values and over-range marks among the samples are handled.",
        &mut |i, p| bench.run(i, p, Kind::Odd).map(drop),
    );
    each(
        &plugins,
        made,
        Check::RandomCaptures,
        &format!(
            "{RANDOM} random recordings are handled (seeds {seed} to {}).",
            seed.saturating_add(RANDOM - 1)
        ),
        &mut |i, p| {
            (seed..=seed.saturating_add(RANDOM - 1)).try_for_each(|seed| {
                let ran = bench.run(i, p, Kind::Random(seed));
                ran.map(drop)
                    .map_err(|v| v.with_hint(&format!(" Repeat it with --seed {seed}.")))
            })
        },
    );
    each(
        &plugins,
        made,
        Check::NeedsSuffice,
        "A recording with just what is needed is judged as far as a fuller one is.",
        &mut |i, p| bench.needs_suffice(i, p),
    );
    for (check, tripwire, good, bad) in [
        (
            Check::OpensNoFile,
            Tripwire::Files,
            "It opens, makes and removes no file.",
            "opens, makes or removes a file, which a plugin may not",
        ),
        (
            Check::OpensNoConnection,
            Tripwire::Network,
            "It opens no connection.",
            "opens a connection, which a plugin may not",
        ),
        (
            Check::StartsNoProcess,
            Tripwire::Processes,
            "It starts no process.",
            "starts another process or program, which a plugin may not",
        ),
    ] {
        bench.retire();
        bench.tripwire = Some(tripwire);
        made.push((check, bench.tripped(&plugins, good, bad)));
        bench.retire();
        bench.tripwire = None;
    }
    each(
        &plugins,
        made,
        Check::CancelsInTime,
        "It comes back within 1 s of being cancelled.",
        &mut |i, p| bench.cancelled(i, p),
    );
    made.push((Check::StdoutSilent, bench.silence()));
}

/// Makes one check of every plugin of the library: the first that fails it is what is said.
fn each(
    plugins: &[Description],
    made: &mut Vec<(Check, Verdict)>,
    check: Check,
    good: &str,
    one: &mut dyn FnMut(u32, &Description) -> Result<(), Verdict>,
) {
    let bad = (0u32..).zip(plugins).find_map(|(i, p)| one(i, p).err());
    let verdict = bad.unwrap_or_else(|| Verdict::new(Outcome::Pass, good));
    made.push((check, verdict));
}

struct Bench<'a> {
    path: &'a Path,
    process: Option<Process>,
    /// What the workers wrote to standard output.
    output: Vec<u8>,
    /// What ends the workers that are started from now on.
    tripwire: Option<Tripwire>,
    /// A run did not come back: no use in waiting for the others.
    hung: bool,
}

impl Bench<'_> {
    fn process(&mut self) -> Result<&mut Process, Verdict> {
        if self.hung {
            let said = "Not made, because an earlier run did not come back.";
            return Err(Verdict::new(Outcome::Skipped, said));
        }
        let process = match self.process.take() {
            Some(process) => process,
            None => Process::start(self.path, MEMORY, true, self.tripwire).map_err(|e| {
                Verdict::new(
                    Outcome::Skipped,
                    format!("No worker process could be started: {e}."),
                )
            })?,
        };
        Ok(self.process.insert(process))
    }

    /// What stands around a worker that is started now.
    fn walls(&mut self) -> Option<Walls> {
        let process = self.process().ok()?;
        match process.ask(&Request::Describe, None, SCAN_TIME, &mut |_| {}) {
            Ok(Reply::Described(described)) => described.walls,
            _ => None,
        }
    }

    /// Runs all plugins in workers that the tripwire ends.
    fn tripped(&mut self, plugins: &[Description], good: &str, bad: &str) -> Verdict {
        if !self.walls().is_some_and(|w| w.calls) {
            let said = "Not made: this system cannot watch which of its calls a plugin makes.";
            return Verdict::new(Outcome::Skipped, said);
        }
        for (i, plugin) in (0u32..).zip(plugins) {
            // Whatever else goes wrong is said by another check.
            if let Err(verdict) = self.analyze(i, plugin, Kind::Plain, TIME)
                && verdict.sentence.contains("SIGSYS")
            {
                return fail(plugin, bad);
            }
        }
        Verdict::new(Outcome::Pass, good)
    }

    /// A plugin that judges a recording with all that it needs and uses may not refuse one with just its needs.
    fn needs_suffice(&mut self, index: u32, plugin: &Description) -> Result<(), Verdict> {
        if plugin.scope == Scope::Job || plugin.needs.is_empty() && plugin.uses.is_empty() {
            return Ok(());
        }
        if self.run(index, plugin, Kind::Plain)?.status != status::OK {
            return Ok(());
        }
        for turn in 0..most_alternatives(plugin) {
            let outcome = self.run(index, plugin, Kind::Bare(turn))?;
            if outcome.status == status::REFUSED {
                let needs = plugin.needs.join(" and ");
                let needs = if needs.is_empty() { "nothing" } else { &needs };
                let reason = outcome.reason.unwrap_or_default();
                let said = format!(
                    "says that it needs {needs}, and refuses a recording with just that: {reason}"
                );
                return Err(fail(plugin, &said));
            }
        }
        Ok(())
    }

    fn describe(&mut self) -> Result<Vec<Description>, Verdict> {
        match self
            .process()?
            .ask(&Request::Describe, None, SCAN_TIME, &mut |_| {})
        {
            Ok(Reply::Described(Described {
                plugins: Ok(plugins),
                ..
            })) => Ok(plugins),
            Ok(_) => Err(Verdict::new(
                Outcome::Fail,
                "It no longer describes its plugins.",
            )),
            Err(_) => Err(Verdict::new(
                Outcome::Crashed,
                "It crashed when asked again for its plugins.",
            )),
        }
    }

    /// Runs a plugin as the host would.
    fn analyze(
        &mut self,
        index: u32,
        plugin: &Description,
        kind: Kind,
        cancel_after: Duration,
    ) -> Result<wire::Outcome, Verdict> {
        let capture = (plugin.scope == Scope::Capture).then(|| capture(plugin, kind));
        let cannot = |e: String| Verdict::new(Outcome::Skipped, format!("Not made: {e}."));
        let blob = capture
            .as_ref()
            .map(Blob::write)
            .transpose()
            .map_err(|e| cannot(e.to_string()))?;
        let channels = capture
            .as_ref()
            .zip(blob.as_ref())
            .and_then(|(c, b)| b.plan(c));
        let call = Call {
            plugin: index,
            file: capture.as_ref().map(|c| c.file.clone()).unwrap_or_default(),
            settings_json: settings(capture.as_ref()),
            channels: channels.unwrap_or_default(),
            tracks: Vec::new(),
            blob_len: blob.as_ref().map_or(0, Blob::len),
            cancel_after_ms: cancel_after.as_millis() as u64,
            processor_s: 10 * TIME.as_secs(),
        };
        let ran = ask_to_analyze(self.process()?, call, blob.as_ref(), TIME, &mut |_| {});
        ran.map_err(|death| {
            self.retire();
            match death {
                Death::Crashed { how, noise } => Verdict::new(
                    Outcome::Crashed,
                    format!("{} ended the process: {how}{noise}.", plugin.id),
                ),
                Death::TimedOut { .. } => {
                    self.hung = true;
                    fail(plugin, "did not come back and was killed")
                }
                Death::Unreachable(reason) => cannot(reason),
            }
        })
    }

    /// Runs a plugin; it may give findings or say that it cannot judge, and nothing else.
    fn run(
        &mut self,
        index: u32,
        plugin: &Description,
        kind: Kind,
    ) -> Result<wire::Outcome, Verdict> {
        let outcome = self.analyze(index, plugin, kind, TIME)?;
        if let Some(rule) = &outcome.broken {
            return Err(fail(
                plugin,
                &format!("hands over a finding that breaks a rule: {rule}"),
            ));
        }
        match outcome.status {
            status::OK | status::REFUSED => Ok(outcome),
            status::PANICKED => {
                // As the host does: no second call after a panic.
                self.retire();
                let reason = outcome.reason.unwrap_or_default();
                Err(Verdict::new(
                    Outcome::Crashed,
                    format!("{}: {reason}.", plugin.id),
                ))
            }
            other => {
                let reason = outcome
                    .reason
                    .map(|r| format!(" ({r})"))
                    .unwrap_or_default();
                Err(fail(plugin, &format!("returns status {other}{reason}")))
            }
        }
    }

    fn cancelled(&mut self, index: u32, plugin: &Description) -> Result<(), Verdict> {
        let start = Instant::now();
        self.analyze(index, plugin, Kind::Plain, Duration::ZERO)?;
        if start.elapsed() < PROMPT {
            return Ok(());
        }
        let said = format!(
            "{} takes more than 1 s to come back once it is cancelled.",
            plugin.id
        );
        Err(Verdict::new(Outcome::Warn, said))
    }

    /// Ends the worker, in good order where it still runs, which writes out what was buffered.
    fn retire(&mut self) {
        if let Some(process) = self.process.take() {
            self.output.extend(process.end());
        }
    }

    fn silence(mut self) -> Verdict {
        self.retire();
        if self.output.is_empty() {
            return Verdict::new(Outcome::Pass, "Nothing is written to standard output.");
        }
        let said = String::from_utf8_lossy(&self.output);
        let said: String = said.trim().chars().take(80).collect();
        Verdict::new(
            Outcome::Fail,
            format!("Standard output is written to: {said:?}."),
        )
    }
}

fn fail(plugin: &Description, what: &str) -> Verdict {
    Verdict::new(Outcome::Fail, format!("{} {what}.", plugin.id))
}
