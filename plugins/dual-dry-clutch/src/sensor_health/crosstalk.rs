//! Pick-up between the sensors' wires: a sensor whose shaft rests carries a small, coherent copy of another's signal.

use crate::one_source::{COPY_SHARE, one_source};
use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::ToothTrain;
use plugin_sdk::{ChannelView, Observation, Output};

/// One sensor's channel with its tooth train.
pub type Sensor<'a> = (&'a ChannelView<'a>, ToothTrain);

pub fn observe(sensors: &[Sensor<'_>], out: &mut Output) {
    for (own, train) in sensors {
        let strongest = sensors
            .iter()
            .filter(|(other, _)| other.role != own.role)
            .flat_map(|(other, train)| train.turning().map(move |segment| (*other, segment)))
            .filter_map(|(other, segment)| {
                let hz = segment.motion?.hz;
                let c = one_source(own, other, segment.start_s, segment.end_s, hz)?;
                Some((other, segment, c))
            })
            .max_by(|a, b| a.2.value.total_cmp(&b.2.value));
        let Some((other, segment, c)) = strongest else {
            continue;
        };
        let amplitude = |channel: &ChannelView<'_>| {
            let at = |t| channel.time.index_at(t, channel.len());
            let part = channel.part(at(segment.start_s)..at(segment.end_s));
            let q = |q| stats::sampled_quantile(&part, q, 50_000).unwrap_or(0.0);
            q(0.98) - q(0.02)
        };
        let share = amplitude(own) / amplitude(other).max(1e-9);
        // A shaft that turns on its own account may be geared to the other.
        if train.turning().next().is_some() && share > COPY_SHARE {
            continue;
        }
        out.add(
            Observation::new("crosstalk", "crosstalk")
                .about(own.role)
                .span(segment.start_s, segment.end_s)
                .value(c.value, c.stderr, "1")
                .arg("from", other.role)
                .arg("share_percent", (100.0 * share).round()),
        );
    }
}
