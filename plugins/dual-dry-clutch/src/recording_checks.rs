//! Fitness of a recording of the gearbox for a conclusion: the clamp on the feed, tooth counts, sample rate.

use crate::LIMITS;
use crate::clutch::{Commands, Selector};
use crate::drive_conditions::vehicle_moves;
use plugin_sdk::signal::current::{CurrentPulse, CurrentRecord};
use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::{RejectReason, Segment, SegmentKind, ToothTrain};
use plugin_sdk::{
    Analyzer, ChannelView, Declaration, Grade, Input, Limit, Limits, Observation, Output, Quantity,
};

/// The analyzer.
pub struct RecordingChecks;

/// Least samples a tooth at idle speed from which on a parked shaft's speed is believed: two by the theorem, and a
/// margin.
const LEAST_SAMPLES_A_TOOTH: f64 = 2.2;

impl Analyzer for RecordingChecks {
    const DECLARATION: Declaration = Declaration {
        id: "recording-checks",
        name: "Fitness of the recording",
        uses: &[
            "supply-current",
            "input-shaft-1",
            "input-shaft-2",
            "output-shaft",
            "engine-speed",
        ],
        inputs: crate::PULSES_AND_TRAINS,
        kinds: &[
            ("signal-quality", crate::QUALITY_UNITS),
            ("attribution-contradicted", ""),
        ],
        messages: &[
            ("quality-teeth-unknown", &[]),
            ("quality-reversed", &[]),
            ("quality-offset", &[]),
            ("quality-could-alias", &[]),
            ("attribution-feed", &["shaft"]),
            ("attribution-feed-steps", &[]),
            ("attribution-feed-swings", &[]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        if let Some(feed) = input.channel("supply-current") {
            zero_and_polarity(input, feed, &limits, out);
        }
        let commands = Commands::of(input, &limits);
        interchanged(input, &commands, out);
        let moves = vehicle_moves(input);
        let sensors = input.channels.iter();
        for sensor in sensors.filter(|c| c.quantity == Quantity::ToothSignal) {
            // Speeds of a moving vehicle are compared with each other; pulses without a tooth count cannot be.
            let positions = input
                .train(sensor.role)
                .and_then(|t| t.wheel.positions_per_turn());
            if moves && sensor.facts.teeth.or(positions).is_none() {
                out.add(quality("quality-teeth-unknown").about(sensor.role));
            }
            sampling(input, sensor, &commands, &limits, out);
        }
        Ok(())
    }
}

fn quality(message: &str) -> Observation {
    Observation::new("signal-quality", message).grade(Grade::Unusable)
}

/// A clamp that was not zeroed, or put on the wrong way round.
fn zero_and_polarity(
    input: &Input<'_>,
    feed: &ChannelView<'_>,
    limits: &Limits<'_>,
    out: &mut Output,
) {
    let (Some(r), Some((from, to))) = (input.pulses(feed.role), feed.span()) else {
        return;
    };
    if r.reversed {
        out.add(quality("quality-reversed").about(feed.role).span(from, to));
    } else if feed.facts.calibrated {
        let u = feed.uncertainty(
            limits.number("clamp-accuracy"),
            r.quiescent,
            r.noise,
            1000.0,
        );
        let (low, high) = (
            limits.low("quiescent-current"),
            limits.high("quiescent-current"),
        );
        if r.quiescent < low - 2.0 * u || r.quiescent > high + 2.0 * u {
            out.add(
                quality("quality-offset")
                    .about(feed.role)
                    .span(from, to)
                    .value(r.quiescent, u, "A")
                    .limit(limits.limit("quiescent-current")),
            );
        }
    }
}

/// A feed that switches or swings as a sensor does, or one without any actuation beside a shaft's line that changes its
/// level a few times as slowly as actuators are driven, or shows a stall: the leads of the two may be interchanged.
fn interchanged(input: &Input<'_>, commands: &Commands, out: &mut Output) {
    /// Shortest mean time from one rise to the next, s; actuations come at intervals of about a second.
    const SLOW_S: f64 = 0.2;
    /// Fewest rises: two attempts and one more. Noise passes the threshold now and then.
    const FEWEST: usize = 3;
    /// Amplitude of the rises, in thresholds, that noise does not reach.
    const CLEAR: f64 = 2.0;
    let Some(record) = &commands.feed else {
        return;
    };
    let Some(feed) = input.channel("supply-current") else {
        return;
    };
    let steps = rises_at_once(feed, record).then_some("attribution-feed-steps");
    let message =
        steps.or_else(|| swings_below_zero(feed, record).then_some("attribution-feed-swings"));
    if let Some(message) = message {
        out.add(
            Observation::new("attribution-contradicted", message)
                .about(feed.role)
                .grade(Grade::Unusable),
        );
    }
    if message.is_some() || !record.pulses.is_empty() {
        return;
    }
    for (shaft, role) in [(1, "input-shaft-1"), (2, "input-shaft-2")] {
        let Some(train) = input.train(role) else {
            continue;
        };
        let mut segments = train.segments.iter();
        let pulses =
            |s: &Segment| matches!(s.kind, SegmentKind::Turning | SegmentKind::Unreadable(_));
        let ends = train.edges.first().zip(train.edges.last());
        let slow =
            ends.is_some_and(|(a, b)| b.at_s - a.at_s >= SLOW_S * (train.edges.len() - 1) as f64);
        let least = CLEAR * train.signal.threshold;
        let clear = (train.edges.iter()).filter(|e| f64::from(e.amplitude) >= least);
        let few = slow && clear.count() >= FEWEST;
        let line = input.channel(role);
        let gradual = line.is_some_and(|line| shows_a_stall(line, train.signal.threshold));
        if (few || gradual) && !segments.any(pulses) {
            out.add(
                Observation::new("attribution-contradicted", "attribution-feed")
                    .about(role)
                    .arg("shaft", i64::from(shaft))
                    .grade(Grade::Unusable),
            );
        }
    }
}

/// Tells whether a line rises over ten milliseconds or longer, stays high for a tenth of a second, and falls back, as the
/// current of a motor does that is driven against a stop. A switching sensor's output takes microseconds, and a coil
/// holds no voltage.
fn shows_a_stall(line: &ChannelView<'_>, threshold: f64) -> bool {
    const RISE_S: f64 = 0.01;
    const HOLD_S: f64 = 0.1;
    /// Fewest samples of a rise: below, its shape is not known.
    const SAMPLES: usize = 8;
    /// Least swing, V: a coil that creeps gives less. Judgement.
    const LEAST_V: f64 = 2.0;
    let values = line.values();
    let quantile = |q| stats::sampled_quantile(&values, q, 100_000).unwrap_or(0.0);
    let (low, range) = (quantile(0.01), quantile(0.999) - quantile(0.01));
    if range < threshold.max(LEAST_V) {
        return false;
    }
    let (bottom, top) = ((low + 0.2 * range) as f32, (low + 0.8 * range) as f32);
    let time = |i: usize| line.time.at(i);
    let (mut left, mut reached) = (None, None);
    for (i, x) in values.iter().enumerate() {
        if *x <= bottom {
            if let (Some(left), Some(reached)) = (left, reached.take())
                && reached - left >= SAMPLES
                && time(reached) - time(left) >= RISE_S
                && time(i) - time(reached) >= HOLD_S
            {
                return true;
            }
            left = Some(i);
        } else if *x >= top && reached.is_none() {
            reached = Some(i);
        }
    }
    false
}

/// Tells whether every event of a feed current, three at least, rises from one sample to the next as a switching sensor's
/// output does. A motor's current cannot: its winding takes L/R, about a millisecond, for 63 % of the rise.
fn rises_at_once(feed: &ChannelView<'_>, record: &CurrentRecord) -> bool {
    /// Longest sampling step that tells, s.
    const STEP_S: f64 = 0.45e-3;
    /// Share of the rise from one sample to the next.
    const SHARE: f64 = 0.7;
    /// Time on either side of an event's beginning, s: the smoothing moves it.
    const AROUND_S: f64 = 0.005;
    const FEWEST: usize = 3;
    let len = feed.len();
    let fine = feed.time.mean_step(len).is_some_and(|s| s <= STEP_S);
    let begun: Vec<&CurrentPulse> = record.pulses.iter().filter(|p| !p.cut).collect();
    let at_once = |p: &&CurrentPulse| {
        let index = |t: f64| feed.time.index_at(t, len);
        let x = feed.part(index(p.start_s - AROUND_S)..index(p.start_s + AROUND_S) + 1);
        let steps = x.windows(2).map(|w| f64::from(w[1] - w[0]));
        steps.fold(0.0, f64::max) >= SHARE * p.rise()
    };
    fine && begun.len() >= FEWEST && begun.iter().all(at_once)
}

/// Tells whether the current goes up and down through the quiescent one again and again, as a coil's voltage does. A fuse
/// carries what its motors draw: a motor that is braked may return some of it, once.
fn swings_below_zero(feed: &ChannelView<'_>, record: &CurrentRecord) -> bool {
    /// Distance from the quiescent current that counts: share of the highest one, and multiple of the noise.
    const CLEAR: (f64, f64) = (0.2, 10.0);
    /// Fewest changes of side, with no more than a tenth of a second from one to the next.
    const CHANGES: usize = 8;
    const APART_S: f64 = 0.1;
    let values = feed.values();
    let highest = stats::sampled_quantile(&values, 0.999, 100_000).unwrap_or(record.quiescent);
    let clear = (CLEAR.0 * (highest - record.quiescent)).max(CLEAR.1 * record.noise);
    let mut last: Option<(f64, bool)> = None;
    let mut changes = 0;
    for (i, &x) in values.iter().enumerate() {
        let off = f64::from(x) - record.quiescent;
        // Not so for a value that is not a number: the recorder lost it.
        let is_clear = off.abs() > clear;
        if !is_clear {
            continue;
        }
        let (at_s, is_above) = (feed.time.at(i), off > 0.0);
        if let Some((before_s, was_above)) = last.replace((at_s, is_above)) {
            if at_s - before_s >= APART_S {
                changes = 0;
            } else if is_above != was_above {
                changes += 1;
            }
        }
        if changes >= CHANGES {
            return true;
        }
    }
    false
}

/// Samples a tooth that the sensor of a parked shaft would have at idle speed, where a speed read from so few would be
/// an alias. `None` where there are enough, the shaft is not one that the engine drives in P or N, or the channel holds
/// still.
pub fn alias(
    sensor: &ChannelView<'_>,
    train: &ToothTrain,
    commands: &Commands,
    limits: &Limits<'_>,
) -> Option<f64> {
    let parked = commands.selector == Selector::NoDrive && sensor.role != "output-shaft";
    // A train that is sampled so coarsely looks like noise.
    let swing = train.signal.high - train.signal.low;
    let moves = !train.edges.is_empty() || swing > limits.number("hall-swing");
    sensor
        .samples_per_tooth_at(limits.high("idle-speed"))
        .filter(|&n| parked && moves && n < LEAST_SAMPLES_A_TOOTH)
}

/// A tooth rate above half the sample rate looks like a slower one, so a recording that could not have shown idle
/// speed proves no speed at all.
fn sampling(
    input: &Input<'_>,
    sensor: &ChannelView<'_>,
    commands: &Commands,
    limits: &Limits<'_>,
    out: &mut Output,
) {
    let (Some(train), Some((from, to))) = (input.train(sensor.role), sensor.span()) else {
        return;
    };
    let Some(n) = alias(sensor, &train, commands, limits) else {
        return;
    };
    let undersampled = train.segments.iter().any(|s| {
        matches!(
            s.kind,
            SegmentKind::Unreadable(RejectReason::Undersampled(_))
        )
    });
    // What was seen to be undersampled is said already.
    if undersampled {
        return;
    }
    out.add(
        quality("quality-could-alias")
            .about(sensor.role)
            .span(from, to)
            // From the stated tooth count and the sample rate alone: exact.
            .value(n, 0.0, "count")
            .limit(Limit {
                low: Some(LEAST_SAMPLES_A_TOOTH),
                high: None,
                unit: "count".into(),
                source: "sampling theorem (Shannon 1949) with margin; common practice, no source"
                    .into(),
            }),
    );
}
