//! Condition of the wires, termination and ringing.

use super::{Clock, Facts};
use crate::measure::lines::{Condition, Line, Wires};
use crate::measure::other_bus::OtherBus;
use crate::measure::termination::{Basis, Termination};
use crate::measure::waveform::Waveform;
use plugin_sdk::Limits;
use plugin_sdk::{Grade, Observation, Output};

/// Both lines below it are at ground: asleep, or shorted, V.
const AT_GROUND: f64 = 0.5;
/// Share of reversed dominant bits from which all nodes are reversed, and not one of them.
const ALL: f64 = 0.8;

/// Adds the findings.
pub fn observe(
    waveform: &Waveform,
    clock: &Clock,
    facts: &Facts,
    spec: &Limits<'_>,
    out: &mut Output,
) {
    let (from, to) = clock.span();
    if let Some(wires) = &waveform.wires {
        out.add(condition(wires, facts).span(from, to));
    }
    if let Some(termination) = &waveform.termination {
        let (message, grade) = judge(termination, spec);
        let basis = match termination.basis {
            Basis::Levels => "dominant-levels",
            Basis::Decay => "recessive-fall",
        };
        let observation = Observation::new("termination", message)
            .span(from, to)
            .value(termination.ohm, termination.uncertainty, "ohm")
            .grade(grade)
            .arg("basis", basis)
            .arg("senders", termination.senders);
        // The limits are those of an ohmmeter: an estimate within its uncertainty of them is no doubt of its own.
        out.add(match grade {
            Grade::Abnormal => observation.limit(spec.limit("termination")),
            _ => observation,
        });
    }
    let nanoseconds = |samples: f64| 1e9 * samples / clock.rate_hz;
    if let Some(ringing) = &waveform.ringing {
        out.add(
            Observation::new("ringing", "ringing")
                .span(from, to)
                .value(ringing.undershoot, ringing.detectable / 2.0, "%")
                .arg("settling_ns", nanoseconds(ringing.settling))
                .arg("detectable", ringing.detectable),
        );
    }
}

/// Load of a bus with one terminator, and with three, ohm; and the standard deviations by which the levels must part from those
/// of sound nodes there to rule it out (93 % and 98 %, one-sided: a lost terminator moves the levels by more, and rings).
const ONE: (f64, f64) = (120.0, 1.5);
const THREE: (f64, f64) = (40.0, 2.0);

/// Holds an estimate against the limits: more than two standard deviations beyond what sound nodes show at the limit it
/// is wrong. It is right where nodes at one terminator or at three would show other levels; strong drivers at three look like
/// usual ones at two.
fn judge(termination: &Termination, spec: &Limits<'_>) -> (&'static str, Grade) {
    let beyond = termination.distance(spec.high("termination"));
    let short = -termination.distance(spec.low("termination"));
    match termination.basis {
        Basis::Decay => ("termination-at-least", Grade::Abnormal),
        Basis::Levels if beyond > 2.0 => ("termination-high", Grade::Abnormal),
        Basis::Levels if short > 2.0 => ("termination-low", Grade::Abnormal),
        Basis::Levels
            if termination.distance(THREE.0) > THREE.1 && termination.distance(ONE.0) < -ONE.1 =>
        {
            ("termination", Grade::Normal)
        }
        Basis::Levels => ("termination-unclear", Grade::Unusable),
    }
}

fn condition(wires: &Wires, facts: &Facts) -> Observation {
    let kind = |message: &str| Observation::new("wire-condition", message);
    let fault = |message: &str| kind(message).grade(Grade::Abnormal);
    let of_line = |observation: Observation, line: Line| {
        let (role, word, volts) = match line {
            Line::High => ("can-high", "high", wires.high),
            Line::Low => ("can-low", "low", wires.low),
        };
        observation
            .about(role)
            .arg("line", word)
            .value(volts, 0.01 * volts.abs() + 0.01, "V")
    };
    match wires.condition {
        Condition::Sound => kind("wires-sound"),
        Condition::Reversed { share } => {
            let message = if share > ALL {
                "wires-reversed"
            } else {
                "wires-reversed-partly"
            };
            fault(message).arg("share", 100.0 * share)
        }
        Condition::ShortToGround(line) => of_line(fault("wire-at-ground"), line),
        Condition::ShortToSupply(line) => of_line(fault("wire-at-supply"), line),
        Condition::ShortTogether => fault("wires-together"),
        Condition::Open { line, pulses, .. } => {
            of_line(fault("wire-open"), line).arg("pulses", pulses)
        }
        Condition::StuckDominant => fault("wires-stuck-dominant"),
        Condition::ProbeOff(line) => of_line(kind("wires-probe-off"), line).grade(Grade::Unusable),
        Condition::Quiet if facts.awake && wires.high.abs().max(wires.low.abs()) < AT_GROUND => {
            fault("wires-quiet-at-ground").arg("detectable", wires.detectable)
        }
        Condition::Quiet => kind("wires-quiet")
            .grade(Grade::Unusable)
            .arg("detectable", wires.detectable),
        Condition::OtherBus(other) => kind(match other {
            OtherBus::LowSpeed => "wires-low-speed-bus",
            OtherBus::SingleWire => "wires-single-wire-bus",
        })
        .grade(Grade::Unusable),
        Condition::Unclear => kind("wires-unclear").grade(Grade::Unusable),
    }
}
