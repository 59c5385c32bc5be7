//! Stretches of a record without a train: rest, silence, or too little to tell.

use super::options::SensorKind;
use super::prepare::Waveform;
use super::read::Reader;
use super::reject::RejectReason;
use super::segments::{Capability, ProofOfLife, Segment, SegmentKind};
use super::train::ToothTrain;
use crate::detection::{ALPHA, critical_value};

/// Share of the samples on the rarer level from which on a signal toggles; judgement.
const LEAST_TOGGLED: f64 = 0.002;

impl Reader<'_> {
    pub(super) fn proof_of_life(&self, train: &ToothTrain) -> ProofOfLife {
        if train.turning().next().is_some() {
            return ProofOfLife::Pulsed;
        }
        let quiescent = |(low, high): &(f64, f64)| *low <= self.level && self.level <= *high;
        if train.edges.is_empty() && self.options.quiescent_levels.iter().any(quiescent) {
            return ProofOfLife::Quiescent(self.level);
        }
        // Spikes of a few samples, and steps smaller than the sensor's own, come from elsewhere.
        let swing = train.signal.high - train.signal.low;
        let toggles = train.signal.waveform == Waveform::TwoLevel
            && train.edges.len() > 1
            && swing >= self.options.least_amplitude
            && self.rarer > LEAST_TOGGLED;
        match toggles {
            true => ProofOfLife::Toggled,
            false => ProofOfLife::None,
        }
    }

    /// Fills what lies between the segments of pulses.
    pub(super) fn fill(&self, train: &mut ToothTrain) {
        let readable = !train
            .segments
            .iter()
            .any(|s| matches!(s.kind, SegmentKind::Unreadable(_)));
        let mut from = self.ends.0;
        let mut all = Vec::with_capacity(2 * train.segments.len() + 1);
        for &segment in &train.segments {
            all.extend(self.between(train, from, segment.start_s, readable));
            from = segment.end_s;
            all.push(segment);
        }
        all.extend(self.between(train, from, self.ends.1, readable));
        train.segments = merge(all);
    }

    /// Segments without a train from one to the next, cut at each stray edge. A pause that may still belong to the pulses
    /// before or after it (less than four of their periods) is too short to be told; one of about a pitch is left out.
    fn between(
        &self,
        train: &ToothTrain,
        start_s: f64,
        end_s: f64,
        readable: bool,
    ) -> Vec<Segment> {
        let first = train.edges.partition_point(|e| e.at_s <= start_s);
        let last = train.edges.partition_point(|e| e.at_s < end_s).max(first);
        let mut cuts = vec![start_s];
        cuts.extend(train.edges[first..last].iter().map(|e| e.at_s));
        cuts.push(end_s);
        let period = |k: usize| {
            let own = k.checked_sub(1).and_then(|j| train.edges.get(j..j + 2));
            own.map_or(0.0, |e| e[1].at_s - e[0].at_s)
        };
        let pause = |(j, cut): (usize, &[f64])| {
            let length_s = cut[1] - cut[0];
            // The periods before and after: of the edges that end it and those that it ends.
            let near = period((first + j).saturating_sub(1)).max(period(first + j + 1));
            let inside = cut[0] > self.ends.0 && cut[1] < self.ends.1;
            if length_s <= 1.5 * train.wheel.widest_pitch() * near && !(inside && length_s > 0.1)
                || length_s <= 0.0
            {
                return None;
            }
            let capability = self.capability(train, length_s);
            let kind = match length_s < 4.0 * near {
                true => SegmentKind::TooShort,
                false => self.state_between(train, &capability, readable),
            };
            Some(Segment {
                start_s: cut[0],
                end_s: cut[1],
                kind,
                first: first + j,
                last: first + j,
                motion: None,
                capability: Some(capability),
            })
        };
        cuts.windows(2).enumerate().filter_map(pause).collect()
    }

    fn capability(&self, train: &ToothTrain, length_s: f64) -> Capability {
        // Pitches of a wheel of few teeth may be unequal without the train showing it.
        let widest = match train.wheel.uneven_cycle() {
            Some(2..) => train.wheel.widest_pitch().max(1.5),
            _ => train.wheel.widest_pitch(),
        };
        let one_pitch = widest / length_s;
        let amplitude = self.detectable_amplitude();
        // A coil's amplitude tells how slow it may have turned unseen.
        let coil = self.quality.waveform == Waveform::Alternating;
        let unseen = train
            .amplitude_law
            .filter(|_| coil)
            .map_or(0.0, |law| amplitude / law.per_hz);
        let below_hz = one_pitch.max(unseen);
        Capability {
            amplitude,
            below_hz,
            below_rpm: train
                .wheel
                .positions_per_turn()
                .map(|n| super::rpm(below_hz, n)),
        }
    }

    /// Detectable amplitude: the threshold of an edge is the critical value, and the noise of its two extremes adds
    /// 1.645 standard deviations of their difference (IUPAC 1995, known standard deviation, beta 5 %).
    fn detectable_amplitude(&self) -> f64 {
        let noise = self.quality.noise.unwrap_or(0.0);
        self.quality.threshold + critical_value(2f64.sqrt() * noise, None, ALPHA)
    }

    fn state_between(
        &self,
        train: &ToothTrain,
        capability: &Capability,
        readable: bool,
    ) -> SegmentKind {
        let least_hz = match train.wheel.positions_per_turn() {
            Some(n) => self.options.least_rpm * f64::from(n) / 60.0,
            None => self.options.least_hz,
        };
        if let Some(samples) = self.alias() {
            return SegmentKind::Unreadable(RejectReason::Undersampled(samples));
        }
        let within = capability.below_hz <= self.options.rest_margin * least_hz;
        let coil = self.quality.waveform == Waveform::Alternating
            || self.options.sensor == Some(SensorKind::Coil);
        match train.alive {
            ProofOfLife::Pulsed | ProofOfLife::Quiescent(_) if within => SegmentKind::AtRest,
            ProofOfLife::Toggled if within && readable => SegmentKind::AtRest,
            ProofOfLife::Pulsed if coil && self.noise_hides(train, least_hz) => {
                SegmentKind::Unreadable(RejectReason::Noise(capability.below_hz))
            }
            ProofOfLife::Pulsed | ProofOfLife::Quiescent(_) => SegmentKind::TooShort,
            _ => SegmentKind::Silent,
        }
    }

    fn noise_hides(&self, train: &ToothTrain, least_hz: f64) -> bool {
        train.amplitude_law.is_some_and(|law| {
            self.detectable_amplitude() / law.per_hz > self.options.rest_margin * least_hz
        })
    }
}

/// Joins unreadable segments with what lies between them without being rest, and neighbours of one kind.
fn merge(segments: Vec<Segment>) -> Vec<Segment> {
    const NEAR_S: f64 = 0.5;
    let vague = |s: &Segment| matches!(s.kind, SegmentKind::Silent | SegmentKind::TooShort);
    let unreadable = |s: &Segment| matches!(s.kind, SegmentKind::Unreadable(_));
    let mut out: Vec<Segment> = Vec::with_capacity(segments.len());
    for s in segments {
        let same = |last: &Segment| last.kind == s.kind && vague(last) && vague(&s);
        let short = |last: &Segment| vague(last) && last.duration_s() < NEAR_S;
        let bridged = out.len() > 1
            && unreadable(&s)
            && short(&out[out.len() - 1])
            && unreadable(&out[out.len() - 2]);
        if bridged {
            out.pop();
        }
        match out.last_mut() {
            Some(last) if same(last) || unreadable(last) && unreadable(&s) => {
                last.end_s = s.end_s;
                last.last = s.last.max(last.last);
                last.capability = None;
            }
            _ => out.push(s),
        }
    }
    out
}
