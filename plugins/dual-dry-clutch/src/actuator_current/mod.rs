//! Actuator current: pulses, stalls, attempts and their absence, on the feed and on the actuators' own lines.

mod absence;

use crate::LIMITS;
use crate::clutch::is_clutch_actuation;
use plugin_sdk::signal::current::{CurrentPulse, CurrentRecord};
use plugin_sdk::{
    Analyzer, ChannelView, Declaration, Grade, Input, Limit, Limits, Observation, Output,
};

const CURRENTS: [&str; 5] = [
    "supply-current",
    "actuator-current-1",
    "actuator-current-2",
    "gear-motor-current-1",
    "gear-motor-current-2",
];

/// Arguments of a pulse.
const PULSE: &[&str] = &[
    "duration_s",
    "hold_s",
    "peak_at_s",
    "charge_as",
    "quiescent_a",
    "good_low",
    "good_high",
];

/// The analyzer.
pub struct ActuatorCurrent;

impl Analyzer for ActuatorCurrent {
    const DECLARATION: Declaration = Declaration {
        id: "actuator-current",
        name: "Actuator current",
        needs: &[
            "supply-current|actuator-current-1|actuator-current-2|gear-motor-current-1|gear-motor-current-2",
        ],
        uses: &["supply-voltage", "engine-speed"],
        inputs: crate::PULSES_AND_TRAINS,
        kinds: &[
            ("actuation", "A"),
            ("actuation-stall", "A"),
            ("actuation-absent", "count"),
            ("attempts", "count"),
            ("gave-up", "s"),
        ],
        messages: &[
            ("actuation-stall", PULSE),
            ("actuation-stall-unscaled", PULSE),
            ("actuation-clutch", PULSE),
            ("actuation-small", PULSE),
            ("actuation-unscaled", PULSE),
            ("attempts", &[]),
            ("gave-up", &["quiet_s"]),
            (
                "actuation-absent",
                &["listened_s", "woke_s", "detectable", "detectable_unit"],
            ),
            (
                "actuation-absent-unwatched",
                &["listened_s", "detectable", "detectable_unit"],
            ),
            (
                "actuation-absent-own-line",
                &["detectable", "detectable_unit"],
            ),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        for role in CURRENTS {
            let Some(channel) = input.channel(role) else {
                continue;
            };
            let Some(record) = input.pulses(role) else {
                continue;
            };
            events(channel, &record, &limits, out);
            if role == "supply-current" {
                absence::observe(input, channel, &record, &limits, out);
            }
        }
        absence::own_lines(input, &limits, out);
        Ok(())
    }
}

fn events(
    channel: &ChannelView<'_>,
    record: &CurrentRecord,
    limits: &Limits<'_>,
    out: &mut Output,
) {
    for pulse in &record.pulses {
        out.add(event(channel, record, pulse, limits));
    }
    let stalls: Vec<&CurrentPulse> = record.pulses.iter().filter(|h| h.stalled).collect();
    let Some(last) = stalls.last() else { return };
    out.add(
        Observation::new("attempts", "attempts")
            .about(channel.role)
            .span(stalls[0].start_s, last.end_s)
            // Counted: no uncertainty.
            .value(stalls.len() as f64, 0.0, "count")
            .grade(Grade::Abnormal),
    );
    let end = channel.time.at(channel.len() - 1);
    let nothing_follows = record
        .pulses
        .last()
        .is_some_and(|h| h.start_s <= last.start_s);
    // Shorter than an ordinary pause between two actuations says nothing.
    if nothing_follows && !last.cut && end - last.end_s > 0.5 {
        out.add(
            Observation::new("gave-up", "gave-up")
                .about(channel.role)
                .span(last.end_s, last.end_s)
                // The end is read from a 3 ms average: known to half of it either way (rectangular, GUM 4.3.7).
                .value(last.end_s, 0.003 / 12f64.sqrt(), "s")
                .arg("quiet_s", round(end - last.end_s))
                .grade(Grade::Abnormal),
        );
    }
}

fn event(
    channel: &ChannelView<'_>,
    record: &CurrentRecord,
    pulse: &CurrentPulse,
    limits: &Limits<'_>,
) -> Observation {
    let clutch = is_clutch_actuation(pulse, &record.pulses, channel.facts.calibrated, limits);
    let (kind, message) = match (pulse.stalled, channel.facts.calibrated) {
        (true, true) => ("actuation-stall", "actuation-stall"),
        (true, false) => ("actuation-stall", "actuation-stall-unscaled"),
        (false, true) if clutch => ("actuation", "actuation-clutch"),
        (false, true) => ("actuation", "actuation-small"),
        (false, false) => ("actuation", "actuation-unscaled"),
    };
    let mut o = Observation::new(kind, message)
        .about(channel.role)
        .span(pulse.start_s, pulse.end_s)
        .arg("duration_s", round(pulse.duration_s()))
        .arg("hold_s", round(pulse.hold_s))
        .arg("peak_at_s", round(pulse.peak_at_s));
    if channel.facts.calibrated {
        // The peak is the mean over a window of 3 ms.
        let samples = 0.003 / channel.time.mean_step(channel.len()).unwrap_or(1.0);
        let u = channel.uncertainty(
            limits.number("clamp-accuracy"),
            pulse.peak,
            record.noise,
            samples,
        );
        o = o
            .value(pulse.peak, u, "A")
            .arg("charge_as", round(pulse.charge))
            .arg("quiescent_a", round(pulse.quiescent));
        if clutch || pulse.stalled {
            // The report draws this range behind the trace.
            o = o
                .arg("good_low", limits.low("clutch-actuation-peak"))
                .arg("good_high", limits.high("clutch-actuation-peak"));
        }
    }
    if pulse.stalled {
        o = o.grade(Grade::Abnormal).limit(Limit {
            low: None,
            high: Some(limits.number("stall-hold")),
            unit: "s".into(),
            source: limits.limit("stall-hold").source,
        });
    }
    o
}

/// Three decimals are below every uncertainty here and keep the record readable.
fn round(v: f64) -> f64 {
    (v * 1000.0).round() / 1000.0
}
