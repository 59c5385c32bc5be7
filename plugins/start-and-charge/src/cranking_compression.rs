//! Relative compression and cranking speed: how evenly an engine's cylinders load the starter.
//!
//! Each compression stroke slows the starter and raises its current. A cylinder that does not compress leaves a low
//! hump. The current says nothing of which cylinder comes first; the one that compresses best is the yardstick.

use crate::limits;
use crate::measure::compression::{self, Compression};
use crate::measure::humps::{Humps, humps};
use crate::outputs;
use crate::start_attempt::{LOADS, found};
use plugin_sdk::{
    Analyzer, Declaration, Grade, Input, Observation, Output, Record, Settings, Side, unit_fact,
};

/// Cylinders compared while the engine is cranked.
pub struct CrankingCompression;

impl Analyzer for CrankingCompression {
    const DECLARATION: Declaration = Declaration {
        id: "cranking-compression",
        name: "Relative compression",
        needs: &["battery-voltage|battery-current|starter-current"],
        uses: &["battery-voltage", "battery-current", "starter-current"],
        kinds: outputs::CRANKING_COMPRESSION.kinds,
        messages: outputs::CRANKING_COMPRESSION.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let volts = Record::of(input, &["battery-voltage"]);
        let current = Record::of(input, LOADS);
        let Some(record) = current.as_ref().or(volts.as_ref()) else {
            return Ok(());
        };
        // Of a voltage, the depth of its fall: it follows the current.
        let load: Vec<f64> = match current {
            Some(_) => record.values.clone(),
            None => record.values.iter().map(|v| -v).collect(),
        };
        let stated = unit_fact(&input.settings, "cylinders").map(|n| n as usize);
        let stated = stated.filter(|n| *n >= 2);
        for attempt in found(volts.as_ref(), current.as_ref(), &input.settings) {
            if let Some(humps) = humps(&load, record.start_s, record.step_s, &attempt, stated) {
                observe(record, &humps, stated, &input.settings, out);
            }
        }
        Ok(())
    }
}

fn observe(
    record: &Record,
    humps: &Humps,
    stated: Option<usize>,
    settings: &Settings,
    out: &mut Output,
) {
    let compared = compression::compare(humps, stated);
    let found = compared.as_ref().and_then(|c| c.cylinders);
    let about = |kind: &str, message: &str| {
        Observation::new(kind, message)
            .about(&record.role)
            .span(humps.from_s, humps.to_s)
    };
    let relative_error = humps.period_error_s / humps.period_s;
    match stated.or(found) {
        Some(n) => {
            // In two turns every cylinder of a four-stroke engine compresses once.
            let rpm = 120.0 / (n as f64 * humps.period_s);
            let u = (rpm * relative_error).max(0.005 * rpm);
            let limit = limits(settings).limit("cranking-speed");
            let low = Side::of(rpm, u, &limit) == Side::Below;
            let message = if low {
                "cranking-speed-low"
            } else {
                "cranking-speed"
            };
            out.add(
                about("cranking-speed", message)
                    .value(rpm, u, "rpm")
                    .limit(limit)
                    .grade(if low { Grade::Abnormal } else { Grade::Normal })
                    .arg("cylinders", n),
            );
        }
        None => {
            let hz = 1.0 / humps.period_s;
            let u = (relative_error * hz).max(0.005 * hz);
            let limit = limits(settings).limit("compression-rate");
            let low = Side::of(hz, u, &limit) == Side::Below;
            let message = if low {
                "compression-rate-low"
            } else {
                "compression-rate"
            };
            out.add(
                about("compression-rate", message)
                    .value(hz, u, "Hz")
                    .limit(limit)
                    .grade(if low { Grade::Abnormal } else { Grade::Normal }),
            );
        }
    }
    let Some(c) = compared else {
        let cylinders = stated.unwrap_or(0);
        out.add(
            about("relative-compression", "relative-compression-short")
                .grade(Grade::NotTested)
                .arg("cylinders", cylinders)
                .arg("cycles", humps.heights.len() / cylinders.max(1)),
        );
        return;
    };
    out.add(compression_of(&c, about, stated.is_some(), settings));
}

fn compression_of(
    c: &Compression,
    about: impl Fn(&str, &str) -> Observation,
    stated: bool,
    settings: &Settings,
) -> Observation {
    let limit = limits(settings).limit("relative-compression");
    let low = limit.low.unwrap_or(0.0);
    // What else makes humps differ a little: valve timing, the engine gathering speed.
    let u = c.uncertainty.hypot(1.5);
    let (message, grade) = if c.weakest + 2.0 * u < low {
        ("relative-compression-low", Grade::Abnormal)
    } else if c.weakest - 2.0 * u < low {
        ("relative-compression-unclear", Grade::Unusable)
    } else {
        ("relative-compression-even", Grade::Normal)
    };
    // Without a number that fits, a weak one may be scatter.
    let grade = if c.cylinders.is_none() && grade == Grade::Abnormal {
        Grade::Unusable
    } else {
        grade
    };
    let message = if grade == Grade::Unusable {
        "relative-compression-unclear"
    } else {
        message
    };
    let listed = |values: &[f64]| {
        let texts: Vec<String> = values.iter().map(|v| format!("{v:.0}")).collect();
        texts.join(" ")
    };
    about("relative-compression", message)
        .value(c.weakest, u, "%")
        .limit(limit)
        .grade(grade)
        .arg("cylinders", c.cylinders.unwrap_or(0))
        .arg("cycles", c.cycles)
        .arg("weak", c.each.iter().filter(|e| **e < low).count())
        .arg("basis", if stated { "stated" } else { "found" })
        .arg("each", listed(&c.each))
        .arg("times", listed(&c.times))
}
