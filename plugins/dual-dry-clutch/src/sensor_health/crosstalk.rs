//! Pick-up between the sensors' wires: a sensor whose shaft rests carries a small, coherent copy of another's signal.

use crate::one_source::one_source;
use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::ToothTrain;
use plugin_sdk::{ChannelView, Observation, Output};

/// One sensor's channel with its tooth train.
pub type Sensor<'a> = (&'a ChannelView<'a>, ToothTrain);

pub fn observe(sensors: &[Sensor<'_>], out: &mut Output) {
    for (own, record) in sensors {
        // A shaft that turns on its own account may be geared to the other.
        if record.turning().next().is_some() {
            continue;
        }
        let strongest = sensors
            .iter()
            .filter(|(other, _)| other.role != own.role)
            .flat_map(|(other, train)| train.turning().map(move |span| (*other, span)))
            .filter_map(|(other, span)| {
                let c = one_source(own, other, span.start_s, span.end_s, span.motion?.hz)?;
                Some((other, span, c))
            })
            .max_by(|a, b| a.2.value.total_cmp(&b.2.value));
        let Some((other, span, c)) = strongest else {
            continue;
        };
        let swing = |channel: &ChannelView<'_>| {
            let at = |t| channel.time.index_at(t, channel.len());
            let part = channel.part(at(span.start_s)..at(span.end_s));
            let q = |q| stats::sampled_quantile(&part, q, 50_000).unwrap_or(0.0);
            q(0.98) - q(0.02)
        };
        let share = 100.0 * swing(own) / swing(other).max(1e-9);
        out.add(
            Observation::new("crosstalk", "crosstalk")
                .about(own.role)
                .span(span.start_s, span.end_s)
                .value(c.value, c.stderr, "1")
                .arg("from", other.role)
                .arg("share_percent", share.round()),
        );
    }
}
