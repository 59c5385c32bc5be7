//! Serves requests for one library, in a worker or in the host's own process.

use crate::loader::{LibraryHandle, Loaded, load};
use crate::mapped::Mapped;
use crate::wire::{Begin, Call, ChannelPlan, Format, TimePlan};
use plugin_abi::call::{CallInput, Events, Outcome, call};
use plugin_abi::raw::Channel;
use plugin_abi::{LibraryDeclaration, Series, Str, format};
use std::ffi::c_void;
use std::io;
use std::os::fd::OwnedFd;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

/// One library, loaded, and the recording that its analyzers look at.
pub(crate) struct Session {
    loaded: Result<Loaded, String>,
    library: Option<(LibraryHandle, LibraryDeclaration)>,
    input: Option<OpenInput>,
}

/// A recording, or a job without one, as the analyzers get to see it.
struct OpenInput {
    begin: Begin,
    samples: Mapped,
}

impl Session {
    /// Loads the library; whether that worked is said by every request.
    pub(crate) fn load(path: &Path) -> Session {
        Session {
            loaded: load(path),
            library: None,
            input: None,
        }
    }

    /// The loaded library before anything of the interface was looked at, or why it could not be loaded.
    pub(crate) fn loaded(&self) -> Result<&Loaded, String> {
        self.loaded.as_ref().map_err(Clone::clone)
    }

    fn library(&mut self) -> Result<&(LibraryHandle, LibraryDeclaration), String> {
        if self.library.is_none() {
            let handle = self.loaded()?.handle()?;
            self.library = Some((handle, handle.describe()?));
        }
        self.library
            .as_ref()
            .ok_or_else(|| "it is not loaded".into())
    }

    /// Returns the library's declaration.
    pub(crate) fn describe(&mut self) -> Result<LibraryDeclaration, String> {
        self.library().map(|(_, declaration)| declaration.clone())
    }

    /// Turns to a recording or a job. An error says why it cannot be looked at.
    pub(crate) fn begin(&mut self, begin: Begin, samples: Option<OwnedFd>) -> Result<(), String> {
        let samples = Mapped::new(samples, begin.samples_len);
        let samples = samples.map_err(|e| format!("the samples cannot be mapped: {e}"))?;
        self.input = Some(OpenInput { begin, samples });
        Ok(())
    }

    /// Runs an analyzer. Series that it derives are there for the analyzers after it. An error says why it was not
    /// called.
    pub(crate) fn analyze(
        &mut self,
        request: &Call,
        events: &dyn Events,
    ) -> Result<Outcome, String> {
        let input = self.input.take();
        let mut input = input.ok_or("no recording was handed over")?;
        let outcome = self.call(&input, request, events);
        if let Ok(outcome) = &outcome
            && outcome.counts()
        {
            let derived = outcome.series.iter().cloned().map(Arc::new);
            input.begin.series.extend(derived);
        }
        self.input = Some(input);
        outcome
    }

    fn call(
        &mut self,
        input: &OpenInput,
        request: &Call,
        events: &dyn Events,
    ) -> Result<Outcome, String> {
        let (handle, declaration) = self.library()?;
        let number = request.analyzer as usize;
        let missing = "the library no longer has this analyzer";
        let declared = declaration.analyzers.get(number).ok_or(missing)?;
        let raw = handle.analyzers()?;
        let analyze = raw.get(number).and_then(|a| a.analyze).ok_or(missing)?;
        let channels = input.begin.channels.iter();
        let channels = channels.map(|plan| channel(plan, &input.samples));
        let channels = channels.collect::<io::Result<Vec<Channel>>>();
        let channels = channels.map_err(|e| e.to_string())?;
        let all = input.begin.series.iter().map(|s| &**s);
        let series: Vec<&Series> = all.filter(|s| declared.inputs.contains(&s.name)).collect();
        let call_input = CallInput {
            file: &input.begin.file,
            settings_json: &input.begin.settings_json,
            channels: &channels,
            series: &series,
            outputs: &declared.outputs,
            cancel_at: Instant::now().checked_add(Duration::from_millis(request.cancel_after_ms)),
        };
        // SAFETY: what the library does is its own affair, and why it runs in a process of its own; the channels point
        // into the mapped samples, which live as long as the call.
        Ok(unsafe { call(analyze, &call_input, events) })
    }
}

fn channel(plan: &ChannelPlan, samples: &Mapped) -> io::Result<Channel> {
    let (at, len) = (plan.at, plan.len);
    let (sample_format, address) = match plan.format {
        Format::F32 => (
            format::F32,
            samples.array::<f32>(at, len)?.as_ptr().cast::<c_void>(),
        ),
        Format::F64 => (format::F64, samples.array::<f64>(at, len)?.as_ptr().cast()),
        Format::I16 => (format::I16, samples.array::<i16>(at, len)?.as_ptr().cast()),
    };
    let (start_s, step_s, times_s) = match plan.time {
        TimePlan::Even { start_s, step_s } => (start_s, step_s, std::ptr::null()),
        TimePlan::Listed { at } => (0.0, 0.0, samples.array::<f64>(at, len)?.as_ptr()),
    };
    Ok(Channel {
        struct_size: size_of::<Channel>() as u32,
        sample_format,
        quantity: plan.quantity,
        reserved: 0,
        role: Str::new(&plan.role),
        name: Str::new(&plan.name),
        unit: Str::new(&plan.unit),
        samples: address,
        length: len,
        scale: plan.scale,
        offset: plan.offset,
        start_s,
        step_s,
        times_s,
    })
}
