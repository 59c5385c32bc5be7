//! The four levels, the differential, and where the ground lies.

use super::{Clock, grade};
use crate::measure::levels::{Level, State};
use crate::measure::lines::Condition;
use crate::measure::senders::offset;
use crate::measure::waveform::Waveform;
use plugin_sdk::Limits;
use plugin_sdk::signal::stats;
use plugin_sdk::{Grade, Observation, Output};

/// Standard uncertainty of the ratio of two levels of one recorder, whose gain cancels and whose offset does not
/// (common practice: 0.5 % of the range).
const SYMMETRY_ACCURACY: f64 = 0.01;

/// Adds the findings.
pub fn observe(waveform: &Waveform, clock: &Clock, spec: &Limits<'_>, out: &mut Output) {
    let (from, to) = clock.span();
    let about = |kind: &str, message: &str, level: Level| {
        Observation::new(kind, message)
            .span(from, to)
            .value(level.volts, level.uncertainty, "V")
            .limit(spec.limit(kind))
            .grade(grade(spec, kind, level.volts, level.uncertainty))
    };
    let mut lines = |state: &State, word: &str| {
        for (line, level) in [("high", state.high), ("low", state.low)] {
            out.add(
                about(&format!("{word}-{line}"), "can-level", level)
                    .about(&format!("can-{line}"))
                    .arg("line", line)
                    .arg("state", word),
            );
        }
    };
    let levels = &waveform.levels;
    if let Some(state) = &levels.recessive {
        lines(state, "recessive");
    }
    if let Some(state) = &levels.dominant {
        lines(state, "dominant");
        // Nodes that send alone; several at once drive the lines farther apart.
        let alone: Vec<f64> = waveform
            .senders
            .iter()
            .map(|s| s.dominant.differential.volts)
            .collect();
        let level = match stats::median(&alone) {
            Some(volts) => Level {
                volts,
                uncertainty: state.differential.uncertainty,
                samples: state.differential.samples,
            },
            None => state.differential,
        };
        out.add(
            about("differential-dominant", "differential-dominant", level)
                .arg("senders", alone.len()),
        );
    }
    let sound = waveform
        .wires
        .is_some_and(|w| w.condition == Condition::Sound);
    let frames = waveform
        .reading
        .as_ref()
        .is_ok_and(|r| !r.traffic.frames.is_empty());
    if !sound || !frames {
        return;
    }
    if let Some((recessive, dominant)) = levels.recessive.as_ref().zip(levels.dominant.as_ref()) {
        let percent = 100.0 * dominant.common_mode() / recessive.common_mode();
        let uncertainty = SYMMETRY_ACCURACY * percent;
        let symmetric = grade(spec, "symmetry", percent, uncertainty);
        out.add(
            Observation::new("symmetry", "symmetry")
                .span(from, to)
                .value(percent, uncertainty, "%")
                .limit(spec.limit("symmetry"))
                .grade(symmetric),
        );
        let level = Level {
            volts: recessive.common_mode(),
            uncertainty: recessive.high.uncertainty.hypot(recessive.low.uncertainty) / 2.0,
            samples: recessive.high.samples,
        };
        let common_mode = about("common-mode", "common-mode", level);
        // A shifted ground moves both states alike.
        let is_ground = symmetric == Grade::Normal || common_mode.grade == Grade::Normal;
        out.add(match is_ground {
            true => common_mode,
            false => common_mode.grade(Grade::Unusable),
        });
    }
    if let Some(offset) = offset(&waveform.senders) {
        let level = Level {
            volts: offset.volts,
            uncertainty: offset.uncertainty,
            samples: 0,
        };
        let id = offset.id.to_string();
        out.add(
            about("common-mode-offset", "common-mode-offset", level)
                .about(&id)
                .arg("identifier", id.as_str())
                .arg("identifiers", offset.identifiers)
                .arg("of", offset.of),
        );
    }
}
