//! Recordings made up for the checks: plausible shapes, nothing measured.

use crate::info::{Description, alternatives};
use model::{Capture, Channel, Role, RoleSource, Samples, TimeAxis};
use std::f64::consts::TAU;

/// What a made-up recording is like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Channels without samples.
    Empty,
    /// Two seconds at 10 kHz.
    Plain,
    /// The same with missing values and over-range marks strewn in.
    Odd,
}

const SAMPLES: usize = 20_000;
const STEP_S: f64 = 1e-4;

/// A recording with every role that the plugin needs or uses.
pub(super) fn capture(plugin: &Description, kind: Kind) -> Capture {
    let named = plugin
        .needs
        .iter()
        .chain(&plugin.uses)
        .flat_map(|need| alternatives(need));
    let mut roles: Vec<Role> = named
        .filter_map(|name| Role::ALL.into_iter().find(|r| r.name() == name))
        .collect();
    roles.sort();
    roles.dedup();
    let len = if kind == Kind::Empty { 0 } else { SAMPLES };
    Capture {
        file: "synthetic.csv".into(),
        started: None,
        time: TimeAxis::Even {
            start_s: 0.0,
            step_s: STEP_S,
            len,
        },
        channels: roles
            .iter()
            .enumerate()
            .map(|(i, &role)| channel(i, role, kind, len))
            .collect(),
        problems: Vec::new(),
        read_as: "made up".into(),
    }
}

/// Sample formats take turns, so that a plugin with several channels meets them all.
fn channel(number: usize, role: Role, kind: Kind, len: usize) -> Channel {
    let value = |i: usize| match kind {
        Kind::Odd if i % 97 == 5 => f64::NAN,
        Kind::Odd if i % 101 == 7 => f64::INFINITY,
        Kind::Odd if i % 103 == 9 => f64::NEG_INFINITY,
        _ => shape(role, i as f64 * STEP_S),
    };
    // An integer has no missing values: only the plain recording may hold integers.
    let (samples, scale) = match number % 3 {
        1 if kind != Kind::Odd => {
            let counts = (0..len)
                .map(|i| (value(i) * 100.0).round() as i16)
                .collect();
            (Samples::I16(counts), 0.01)
        }
        2 => (Samples::F64((0..len).map(value).collect()), 1.0),
        _ => (
            Samples::F32((0..len).map(|i| value(i) as f32).collect()),
            1.0,
        ),
    };
    Channel {
        name: format!("channel {number}"),
        unit: Some(role.unit().into()),
        role: Some(role),
        role_source: RoleSource::JobFile,
        scale,
        offset: 0.0,
        calibrated: true,
        samples,
    }
}

fn shape(role: Role, t: f64) -> f64 {
    let ripple = 0.05 * (TAU * 137.0 * t).sin();
    if role.is_speed_sensor() {
        // A square wave that speeds up.
        let turns = 150.0 * t + 40.0 * t * t;
        if turns.fract() < 0.5 {
            5.0 + ripple
        } else {
            ripple
        }
    } else if role.is_current() {
        // A burst twice a second that decays.
        let since = t % 0.5;
        let burst = if since < 0.2 {
            15.0 * (-since / 0.08).exp()
        } else {
            0.0
        };
        2.0 + burst + ripple
    } else {
        12.6 + ripple
    }
}

/// Settings that say something about each channel, and for a job about the findings and codes.
pub(super) fn settings(capture: Option<&Capture>) -> String {
    let channels: Vec<_> = capture
        .map(|c| c.channels.as_slice())
        .unwrap_or_default()
        .iter()
        .map(|c| {
            let speed = c.role.is_some_and(Role::is_speed_sensor);
            serde_json::json!({
                "sensor": speed.then_some("hall"),
                "teeth": speed.then_some(30),
                "accuracy_percent": 1.0,
                "calibrated": true,
            })
        })
        .collect();
    let mut all = serde_json::json!({
        "selector": {"value": "P", "source": "made up"},
        "engine": {"value": "running", "source": "made up"},
        "channels": channels,
    });
    if capture.is_none() {
        all["findings"] = serde_json::json!([{
            "id": "f1", "plugin": "made-up", "file": "synthetic.csv", "kind": "shaft-at-rest",
            "subject": "input-shaft-1", "value": 0.0, "uncertainty": 0.0, "unit": "rpm",
            "grade": "normal", "message": "made-up",
        }]);
        all["codes"] = serde_json::json!([{
            "code": "P0894", "status": ["confirmed"], "file": "made-up.txt",
        }]);
    }
    all.to_string()
}
