//! Runs an analyzer in process through the C interface, the way a host does: for a plugin's own tests. The call itself
//! is the host's own ([`plugin_abi::call`]).

pub mod cases;
pub mod properties;
mod random;
mod records;

pub use random::{Random, noise};
pub use records::{find, input, near, observe, settings};

use crate::ffi::Entry;
use crate::{
    Analyzer, ChannelView, Input, Observation, Output, Quantity, SampleView, Scope, Series,
};
use abi::call::{CallInput, call};
use abi::raw::Channel;
use abi::{Str, format, read};
use plugin_abi as abi;
use signal::Time;
use std::ffi::c_void;

/// An analyzer under test, with those that run before it and derive what it reads.
#[derive(Clone)]
pub struct Bench {
    earlier: Vec<Entry>,
    own: Entry,
}

impl Bench {
    /// A bench for `A`.
    pub fn of<A: Analyzer>() -> Bench {
        Bench {
            earlier: Vec::new(),
            own: Entry::of::<A>(),
        }
    }

    /// The same, with `E` run before it (and after those added before), where its needs are met.
    pub fn after<E: Analyzer>(mut self) -> Bench {
        self.earlier.push(Entry::of::<E>());
        self
    }

    /// Observations of a run, after every check that a host makes.
    ///
    /// # Errors
    /// Why the findings would not count: what the analyzer returned as its error, its panic, or the rule that it
    /// breaks; the same of those before it.
    pub fn run(&self, input: &Input<'_>) -> Result<Vec<Observation>, String> {
        self.run_with(input, &[]).map(|out| out.observations)
    }

    /// As [`Bench::run`], with series at hand beside those that earlier analyzers derive; returns its series, too.
    ///
    /// # Errors
    /// As for [`Bench::run`].
    pub fn run_with(&self, input: &Input<'_>, series: &[Series]) -> Result<Output, String> {
        let mut series = series.to_vec();
        for entry in &self.earlier {
            series.extend(run_entry(entry, input, &series)?.series);
        }
        run_entry(&self.own, input, &series)
    }
}

fn run_entry(entry: &Entry, input: &Input<'_>, earlier: &[Series]) -> Result<Output, String> {
    let raw = entry.analyzer();
    // SAFETY: made by this crate and never freed.
    let declaration = unsafe { read::analyzer(&raw) }?;
    let mut settings = input.settings.clone();
    settings.channels = input.channels.iter().map(|c| c.facts.clone()).collect();
    let settings = serde_json::to_string(&settings).map_err(|e| e.to_string())?;
    let channels: Vec<Channel> = input.channels.iter().map(channel_in_c).collect();
    let is_input = |s: &&Series| declaration.inputs.contains(&s.name);
    let series: Vec<&Series> = earlier.iter().filter(is_input).collect();
    let job = declaration.scope == Scope::Job;
    let analyze = raw.analyze.ok_or("it has no analyze")?;
    let call_input = CallInput {
        file: input.file,
        settings_json: &settings,
        channels: if job { &[] } else { &channels },
        series: &series,
        outputs: &declaration.outputs,
        cancel_at: None,
    };
    // SAFETY: the SDK's own function; the channels borrow from the input.
    let outcome = unsafe { call(analyze, &call_input, &()) };
    if outcome.counts() {
        return Ok(Output {
            observations: outcome.findings,
            series: outcome.series,
        });
    }
    let status = outcome.status;
    let said = || {
        format!(
            "{} returned status {status} and gave no reason",
            declaration.id
        )
    };
    Err(outcome.broken.or(outcome.reason).unwrap_or_else(said))
}

/// An evenly sampled, calibrated channel that begins at 0 s, for a test's input. Its quantity is told by the role's
/// name: a current, a voltage, else a tooth signal.
pub fn channel<'a>(role: &'a str, samples: &'a [f32], rate_hz: f64) -> ChannelView<'a> {
    let quantity = quantity(role);
    ChannelView {
        role,
        quantity,
        name: role,
        unit: if quantity == Quantity::Current {
            "A"
        } else {
            "V"
        },
        samples: SampleView::F32(samples),
        scale: 1.0,
        offset: 0.0,
        time: Time::Even {
            start_s: 0.0,
            step_s: 1.0 / rate_hz,
        },
        facts: crate::ChannelFacts {
            calibrated: true,
            ..Default::default()
        },
    }
}

fn quantity(role: &str) -> Quantity {
    match role {
        r if r.contains("current") => Quantity::Current,
        r if r.contains("voltage") => Quantity::Voltage,
        "other" | "selector" => Quantity::State,
        _ => Quantity::ToothSignal,
    }
}

fn channel_in_c(c: &ChannelView<'_>) -> Channel {
    let (sample_format, samples) = match c.samples {
        SampleView::F32(s) => (format::F32, s.as_ptr().cast::<c_void>()),
        SampleView::F64(s) => (format::F64, s.as_ptr().cast()),
        SampleView::I16(s) => (format::I16, s.as_ptr().cast()),
    };
    let (start_s, step_s, times_s) = match c.time {
        Time::Even { start_s, step_s } => (start_s, step_s, std::ptr::null()),
        Time::Listed(t) => (0.0, 0.0, t.as_ptr()),
    };
    Channel {
        struct_size: size_of::<Channel>() as u32,
        sample_format,
        quantity: c.quantity.number(),
        reserved: 0,
        role: Str::new(c.role),
        name: Str::new(c.name),
        unit: Str::new(c.unit),
        samples,
        length: c.len() as u64,
        scale: c.scale,
        offset: c.offset,
        start_s,
        step_s,
        times_s,
    }
}
