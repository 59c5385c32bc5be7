//! The checks that run the analyzers on made-up recordings.

use super::synthetic::{Kind, capture, most_alternatives, settings};
use super::{Check, MEMORY, Outcome, Verdict};
use crate::host::{Host, HostOptions};
use crate::process::{WorkerError, WorkerProcess};
use crate::runner::{SCAN_TIME, hand_over, run_analyzer};
use crate::sandbox::{KillRule, Sandbox};
use crate::shared_samples::SharedSamples;
use crate::wire::{Begin, Call, Described, Reply, Request};
use model::Capture;
use plugin_abi::call::Outcome as Ran;
use plugin_abi::{AnalyzerDeclaration, Scope, Series, Settings, status};
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

/// Time limit of one run on a made-up recording.
const TIME: Duration = Duration::from_secs(10);
/// Number of random recordings per analyzer.
const RANDOM: u64 = 8;
/// Time after cancellation beyond which an analyzer gets a warning.
const PROMPT: Duration = Duration::from_secs(1);

/// Makes the checks from [`Check::EmptyCapture`] on. `process` is the one that passed the inspection.
pub(super) fn checks(
    path: &Path,
    process: WorkerProcess,
    seed: u64,
    made: &mut Vec<(Check, Verdict)>,
) {
    let mut bench = Bench {
        path,
        process: Some(process),
        built_in: Host::discover(&HostOptions::default()),
        own: Vec::new(),
        output: Vec::new(),
        kill_rule: None,
        hung: false,
    };
    let analyzers = match bench.describe() {
        Ok(analyzers) => analyzers,
        Err(verdict) => return made.push((Check::EmptyCapture, verdict)),
    };
    bench.own.clone_from(&analyzers);
    each(
        &analyzers,
        made,
        Check::EmptyCapture,
        "A recording without samples is handled.",
        &mut |i, p| bench.run(i, p, Kind::Empty).map(drop),
    );
    each(
        &analyzers,
        made,
        Check::SyntheticCapture,
        "A made-up recording is handled, and gives the same findings a second time.",
        &mut |i, p| {
            // In words, since a missing value (NaN) is not equal to itself.
            let mut said = || Ok(format!("{:?}", bench.run(i, p, Kind::Plain)?));
            if said()? == said()? {
                return Ok(());
            }
            Err(fail(
                p,
                "gives other findings for the same recording a second time",
            ))
        },
    );
    each(
        &analyzers,
        made,
        Check::OddSamples,
        "Missing values and over-range marks among the samples are handled.",
        &mut |i, p| bench.run(i, p, Kind::Odd).map(drop),
    );
    each(
        &analyzers,
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
        &analyzers,
        made,
        Check::NeedsSuffice,
        "A recording with just what is needed is judged as far as a fuller one is.",
        &mut |i, p| bench.needs_suffice(i, p),
    );
    for (check, kill_rule, good, bad) in [
        (
            Check::OpensNoFile,
            KillRule::Files,
            "It opens, makes and removes no file, and writes none while it is loaded.",
            "opens, makes or removes a file",
        ),
        (
            Check::OpensNoConnection,
            KillRule::Network,
            "It opens no connection.",
            "opens a connection",
        ),
        (
            Check::StartsNoProcess,
            KillRule::Processes,
            "It starts no process.",
            "starts another process or program",
        ),
        (
            Check::SignalsNobody,
            KillRule::Signals,
            "It signals no other process and looks into none.",
            "signals another process or looks into it",
        ),
        (
            Check::KeepsItsLimits,
            KillRule::Limits,
            "It sets no limit of its own.",
            "sets a limit of its own",
        ),
    ] {
        bench.retire();
        bench.kill_rule = Some(kill_rule);
        made.push((check, bench.tripped(&analyzers, good, bad)));
        bench.retire();
        bench.kill_rule = None;
    }
    each(
        &analyzers,
        made,
        Check::CancelsInTime,
        "It comes back within 1 s of being cancelled.",
        &mut |i, p| bench.cancelled(i, p),
    );
    made.push((Check::StdoutSilent, bench.silence()));
}

/// Makes one check of every analyzer of the library: the first that fails it is what is said.
fn each(
    analyzers: &[AnalyzerDeclaration],
    made: &mut Vec<(Check, Verdict)>,
    check: Check,
    good: &str,
    one: &mut dyn FnMut(u32, &AnalyzerDeclaration) -> Result<(), Verdict>,
) {
    let bad = (0u32..).zip(analyzers).find_map(|(i, p)| one(i, p).err());
    let verdict = bad.unwrap_or_else(|| Verdict::new(Outcome::Pass, good));
    made.push((check, verdict));
}

struct Bench<'a> {
    path: &'a Path,
    process: Option<WorkerProcess>,
    /// Derives the series that the library's analyzers may read.
    built_in: Host,
    /// The library's analyzers.
    own: Vec<AnalyzerDeclaration>,
    /// Standard output of the workers.
    output: Vec<u8>,
    /// Kill rule of the workers that are started from now on.
    kill_rule: Option<KillRule>,
    /// A run did not come back: no use in waiting for the others.
    hung: bool,
}

impl Bench<'_> {
    fn process(&mut self) -> Result<&mut WorkerProcess, Verdict> {
        if self.hung {
            let said = "Not made, because an earlier run did not come back.";
            return Err(Verdict::new(Outcome::Skipped, said));
        }
        let process = match self.process.take() {
            Some(process) => process,
            None => {
                WorkerProcess::start(self.path, MEMORY, 0, true, self.kill_rule).map_err(|e| {
                    Verdict::new(
                        Outcome::Skipped,
                        format!("No worker process could be started: {e}."),
                    )
                })?
            }
        };
        Ok(self.process.insert(process))
    }

    /// Starts a worker and returns its confinement, or how it ended where it does not get as far.
    fn sandbox(&mut self) -> Result<Option<Sandbox>, String> {
        let Ok(process) = self.process() else {
            return Ok(None);
        };
        match process.ask(&Request::Describe, None, SCAN_TIME, &mut |_| {}) {
            Ok(Reply::Described(described)) => Ok(described.sandbox),
            Err(WorkerError::Crashed { how, .. }) => Err(how),
            _ => Ok(None),
        }
    }

    /// Runs all analyzers in workers that the kill rule ends, also while they load the library.
    fn tripped(&mut self, analyzers: &[AnalyzerDeclaration], good: &str, bad: &str) -> Verdict {
        match self.sandbox() {
            Ok(Some(sandbox)) if sandbox.calls => {}
            Err(how) if how.contains("SIGSYS") => {
                self.retire();
                let said = format!("While it is loaded, the library {bad}, which it may not.");
                return Verdict::new(Outcome::Fail, said);
            }
            _ => {
                let said =
                    "Not made: this system cannot watch which of its calls an analyzer makes.";
                return Verdict::new(Outcome::Skipped, said);
            }
        }
        let bad = format!("{bad}, which an analyzer may not");
        for (i, analyzer) in (0u32..).zip(analyzers) {
            // Whatever else goes wrong is said by another check.
            if let Err(verdict) = self.analyze(i, analyzer, Kind::Plain, TIME)
                && verdict.sentence.contains("SIGSYS")
            {
                return fail(analyzer, &bad);
            }
        }
        Verdict::new(Outcome::Pass, good)
    }

    /// An analyzer that judges a recording with all that it needs and uses may not refuse one with just its needs.
    fn needs_suffice(&mut self, index: u32, analyzer: &AnalyzerDeclaration) -> Result<(), Verdict> {
        if analyzer.scope == Scope::Job || analyzer.needs.is_empty() && analyzer.uses.is_empty() {
            return Ok(());
        }
        if self.run(index, analyzer, Kind::Plain)?.status != status::OK {
            return Ok(());
        }
        for turn in 0..most_alternatives(analyzer) {
            let outcome = self.run(index, analyzer, Kind::Bare(turn))?;
            if outcome.status == status::REFUSED {
                let needs = analyzer.needs.join(" and ");
                let needs = if needs.is_empty() { "nothing" } else { &needs };
                let reason = outcome.reason.unwrap_or_default();
                let said = format!(
                    "says that it needs {needs}, and refuses a recording with just that: {reason}"
                );
                return Err(fail(analyzer, &said));
            }
        }
        Ok(())
    }

    fn describe(&mut self) -> Result<Vec<AnalyzerDeclaration>, Verdict> {
        match self
            .process()?
            .ask(&Request::Describe, None, SCAN_TIME, &mut |_| {})
        {
            Ok(Reply::Described(Described {
                library: Ok(library),
                ..
            })) => Ok(library.analyzers),
            Ok(_) => Err(Verdict::new(
                Outcome::Fail,
                "It no longer describes itself.",
            )),
            Err(_) => Err(Verdict::new(
                Outcome::Crashed,
                "It crashed when asked again for its declaration.",
            )),
        }
    }

    /// Runs an analyzer as the host would.
    fn analyze(
        &mut self,
        index: u32,
        analyzer: &AnalyzerDeclaration,
        kind: Kind,
        cancel_after: Duration,
    ) -> Result<Ran, Verdict> {
        let capture = (analyzer.scope == Scope::Capture).then(|| capture(analyzer, kind));
        let cannot = |e: String| Verdict::new(Outcome::Skipped, format!("Not made: {e}."));
        let settings = settings(capture.as_ref());
        let shared = capture
            .as_ref()
            .map(|c| SharedSamples::write(c, None))
            .transpose();
        let (samples, channels) = shared.map_err(|e| cannot(e.to_string()))?.unzip();
        let begin = Begin {
            file: capture.as_ref().map(|c| c.file.clone()).unwrap_or_default(),
            settings_json: serde_json::to_string(&settings).map_err(|e| cannot(e.to_string()))?,
            channels: channels.unwrap_or_default(),
            series: self.derived(analyzer, capture.as_ref(), &settings),
            samples_len: samples.as_ref().map_or(0, SharedSamples::len),
        };
        let call = |analyzer: u32, cancel_after: Duration| Call {
            analyzer,
            cancel_after_ms: cancel_after.as_millis() as u64,
        };
        let before = self.feeding(index, analyzer);
        let process = self.process()?;
        let ran = hand_over(process, begin, samples.as_ref()).and_then(|()| {
            for analyzer in before {
                run_analyzer(process, call(analyzer, TIME), TIME, &mut |_| {})?;
            }
            run_analyzer(process, call(index, cancel_after), TIME, &mut |_| {})
        });
        ran.map_err(|error| {
            self.retire();
            match error {
                WorkerError::Crashed { how, output } => Verdict::new(
                    Outcome::Crashed,
                    format!("{} ended the process: {how}{output}.", analyzer.id),
                ),
                WorkerError::OutOfMemory { output } => Verdict::new(
                    Outcome::Crashed,
                    format!(
                        "{} needs more memory than it may have{output}.",
                        analyzer.id
                    ),
                ),
                WorkerError::TimedOut { .. } => {
                    self.hung = true;
                    fail(analyzer, "did not come back and was killed")
                }
                WorkerError::Unreachable(reason) => cannot(reason),
            }
        })
    }

    /// Series that the built-in libraries derive from a recording, where the analyzer reads any.
    fn derived(
        &mut self,
        analyzer: &AnalyzerDeclaration,
        capture: Option<&Capture>,
        settings: &Settings,
    ) -> Vec<Arc<Series>> {
        let Some(capture) = capture.filter(|_| !analyzer.inputs.is_empty()) else {
            return Vec::new();
        };
        let analysis = self
            .built_in
            .analyze_capture(capture, &|_| Some(settings.clone()));
        let own = |s: &Series| {
            (self.own.iter()).any(|a| a.outputs.series.iter().any(|o| o.name == s.name))
        };
        let others = analysis.series.into_iter().filter(|s| !own(s));
        others.map(Arc::new).collect()
    }

    /// Places of the library's own analyzers that derive what this one reads.
    fn feeding(&self, index: u32, analyzer: &AnalyzerDeclaration) -> Vec<u32> {
        let feeds = |a: &AnalyzerDeclaration| {
            a.outputs
                .series
                .iter()
                .any(|s| analyzer.inputs.contains(&s.name))
        };
        let earlier = (0..index).zip(&self.own);
        earlier.filter(|(_, a)| feeds(a)).map(|(i, _)| i).collect()
    }

    /// Runs an analyzer; it may give findings or say that it cannot judge, and nothing else.
    fn run(
        &mut self,
        index: u32,
        analyzer: &AnalyzerDeclaration,
        kind: Kind,
    ) -> Result<Ran, Verdict> {
        let outcome = self.analyze(index, analyzer, kind, TIME)?;
        if let Some(rule) = &outcome.broken {
            return Err(fail(
                analyzer,
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
                    format!("{}: {reason}.", analyzer.id),
                ))
            }
            other => {
                let reason = outcome
                    .reason
                    .map(|r| format!(" ({r})"))
                    .unwrap_or_default();
                Err(fail(analyzer, &format!("returns status {other}{reason}")))
            }
        }
    }

    fn cancelled(&mut self, index: u32, analyzer: &AnalyzerDeclaration) -> Result<(), Verdict> {
        let start = Instant::now();
        self.analyze(index, analyzer, Kind::Plain, Duration::ZERO)?;
        if start.elapsed() < PROMPT {
            return Ok(());
        }
        let said = format!(
            "{} takes more than 1 s to come back once it is cancelled.",
            analyzer.id
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

fn fail(analyzer: &AnalyzerDeclaration, what: &str) -> Verdict {
    Verdict::new(Outcome::Fail, format!("{} {what}.", analyzer.id))
}
