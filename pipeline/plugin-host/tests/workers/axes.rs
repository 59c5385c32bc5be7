//! Time axes as no recorder writes them, but files may: no analyzer of a built-in library panics or hangs on any.

use crate::fixtures::{capture, channel, role};
use baybrief_plugin_host::{AnalyzeError, Host, HostOptions};
use model::{Capture, Samples, TimeAxis};
use plugin_abi::{Scope, Settings, alternatives};
use std::collections::BTreeSet;

crate::tests![no_axis_makes_a_built_in_library_crash];

const LEN: usize = 2000;

/// Every role that an analyzer needs or uses, each with pulses and with flat stretches.
fn recording(host: &Host, time: TimeAxis) -> Capture {
    let analyzers = host
        .libraries()
        .iter()
        .flat_map(|l| &l.declaration.analyzers);
    let on_captures = analyzers.filter(|a| a.scope == Scope::Capture);
    let named = on_captures.flat_map(|a| a.needs.iter().chain(&a.uses));
    let roles: BTreeSet<&str> = named.flat_map(|n| alternatives(n)).collect();
    let channels = roles.iter().enumerate().map(|(k, name)| {
        let value = |i: usize| match (i / (5 + k)) % 2 {
            _ if i % 500 > 400 => 0.0,
            0 => 5.0 + (i % 7) as f32,
            _ => 0.1,
        };
        let samples = Samples::F32((0..time.len()).map(value).collect::<Vec<f32>>().into());
        channel(name, Some(role(name)), samples)
    });
    Capture {
        time: time.clone(),
        ..capture(channels.collect())
    }
}

fn even(start_s: f64, step_s: f64) -> TimeAxis {
    TimeAxis::Even {
        start_s,
        step_s,
        len: LEN,
    }
}

fn listed(at: impl Fn(usize) -> f64) -> TimeAxis {
    TimeAxis::Listed((0..LEN).map(at).collect())
}

fn no_axis_makes_a_built_in_library_crash() {
    let mut host = Host::discover(&HostOptions::default());
    assert!(host.refused().is_empty(), "{:?}", host.refused());
    let mut axes = Vec::new();
    for step in [
        1e-300,
        1e-12,
        1e-9,
        1e-6,
        1e-3,
        1.0,
        60.0,
        1e6,
        1e12,
        1e300,
        f64::NAN,
        0.0,
        -1.0,
    ] {
        axes.push(even(0.0, step));
    }
    for start in [-1e12, -1e-300, 1e9, 1e15, f64::INFINITY, f64::NAN] {
        axes.push(even(start, 1e-4));
    }
    // All at once, ever longer, in pairs, far apart after a long time, close together far away, backwards, missing.
    axes.push(listed(|_| 0.0));
    axes.push(listed(|i| (i as f64 / 40.0).exp()));
    axes.push(listed(|i| (i / 2) as f64 * 1e-3));
    axes.push(listed(|i| {
        i as f64 * 1e-4 + if i > LEN / 2 { 1e9 } else { 0.0 }
    }));
    axes.push(listed(|i| 1e12 + i as f64 * 1e-9));
    axes.push(listed(|i| -(i as f64)));
    axes.push(listed(|i| if i % 3 == 0 { f64::NAN } else { i as f64 }));
    axes.push(even(0.0, 1e-3).divided(1e308));
    axes.push(TimeAxis::Even {
        start_s: 0.0,
        step_s: 1e-3,
        len: 1,
    });
    axes.push(TimeAxis::Even {
        start_s: 0.0,
        step_s: 1e-3,
        len: 0,
    });
    for time in axes {
        let what = match &time {
            TimeAxis::Even {
                start_s,
                step_s,
                len,
            } => format!("from {start_s} by {step_s}, {len}"),
            TimeAxis::Listed(t) => format!("{:?} ...", &t[..4]),
        };
        let recording = recording(&host, time);
        let analysis = host.analyze_capture(&recording, &|_| Some(Settings::default()));
        let at_fault = analysis.not_run.iter().filter(|n| {
            !matches!(
                n.reason,
                AnalyzeError::Refused { .. }
                    | AnalyzeError::UnusableInput { .. }
                    | AnalyzeError::InputMissing { .. }
            )
        });
        let at_fault: Vec<String> = at_fault.map(|n| n.reason.to_string()).collect();
        assert!(at_fault.is_empty(), "{what}: {at_fault:#?}");
        let odd = analysis
            .findings
            .iter()
            .find(|f| f.value.is_some_and(f64::is_nan));
        assert!(odd.is_none(), "{what}: {odd:#?}");
    }
}
