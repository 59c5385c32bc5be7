//! Electrical pick-up: a sensor line that carries another signal while its own shaft rests.

use super::{Context, Shaft};
use crate::clutch::Selector;
use crate::one_source::{COPY_SHARE, one_source};
use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::{
    AmplitudeLaw, Comparison, PatternKind, Relation, Runout, Segment, ToothTrain, TurnBasis,
    Waveform, Wheel, amplitude_runout, compare_trains, phase_lock,
};
use plugin_sdk::{Input, Quantity};

/// Least exponent of a coil's amplitude against its rate that only a turning wheel gives; pick-up keeps its amplitude.
/// Inductance and load make a coil's less than proportional (workshop data of a 60-2 sensor give 0.5).
const LEAST_EXPONENT: f64 = 0.4;

/// Change of a coil's rate, highest over lowest, from which on parting from the engine's shows a shaft of its own.
const LEAST_CHANGE: f64 = 1.1;

/// Half orders of the engine up to which ignition and injection pulse: two for each cylinder of up to eight, four-stroke.
const HIGHEST_HALF_ORDER: f64 = 8.0;

/// Pulses that ignition and injection repeat after: a working cycle of eight cylinders.
const MOST_CYLINDERS: u32 = 8;

/// Greatest distance of a rate from a half order, share: what a second of an idle's wander leaves of a locked rate.
const NEAR_ORDER: f64 = 0.005;

/// Highest firing rate of an idling engine, Hz: eight cylinders at 1,000 rpm, four-stroke.
const IDLE_FIRING_HZ: f64 = 70.0;

/// Shares of the period that the high level of a toothed wheel's switched sensor takes (data sheet ATS645: 43 to 63 %;
/// crank and cam sensors on engines: 21 to 60 %). The pulses of ignition and injectors are narrower.
const WHEEL_DUTY: std::ops::RangeInclusive<f64> = 0.18..=0.82;

/// Change of that share from pitch to pitch up to which it is a tooth's; a tooth that trembles before its sensor at the
/// engine's firing rate shows more. Judgement.
const WHEEL_DUTY_SCATTER: f64 = 0.03;

/// Message and detail where a segment's pulses are another signal's, or may be.
pub fn find(
    shaft: &Shaft<'_>,
    segment: &Segment,
    context: &Context<'_>,
) -> Option<(&'static str, String)> {
    let copied = || copied_from(shaft, segment, context.all);
    let current = || locked_to_current(shaft, segment, context.input);
    copied()
        .map(|from| ("rotation-refused-copy", from))
        .or_else(|| current().map(|from| ("rotation-refused-current", from)))
        .or_else(|| {
            may_be_pick_up(shaft, segment, context)
                .then(|| ("rotation-refused-steady", String::new()))
        })
}

/// The role that this segment's signal is a copy of, or `None`.
///
/// A copy keeps its place within the other signal's periods (mean phase vector near 1) and is much smaller than a
/// sensor's own signal at that tooth rate would be.
fn copied_from(shaft: &Shaft<'_>, segment: &Segment, all: &[Shaft<'_>]) -> Option<String> {
    let own = instants(shaft, segment.start_s, segment.end_s);
    all.iter()
        .filter(|o| o.channel.role != shaft.channel.role)
        .find(|other| {
            let whole = instants(other, f64::NEG_INFINITY, f64::INFINITY);
            let within = instants(other, segment.start_s, segment.end_s);
            let locked = |a: &[f64], b: &[f64]| phase_lock(a, b).is_some_and(|r| r > 0.9);
            (locked(&own, &whole) || locked(&within, &own)) && is_small(shaft, segment, other)
        })
        .map(|o| o.channel.role.to_string())
}

/// The current channel whose own alternation at the tooth rate this segment's signal follows, or `None`: a pulse-width
/// modulated load, not a shaft.
fn locked_to_current(shaft: &Shaft<'_>, segment: &Segment, input: &Input<'_>) -> Option<String> {
    let hz = segment.motion?.hz;
    input
        .channels
        .iter()
        .filter(|c| c.quantity == Quantity::Current)
        .find(|c| one_source(shaft.channel, c, segment.start_s, segment.end_s, hz).is_some())
        .map(|c| c.role.to_string())
}

/// True where pulses may as well be pick-up from engine or alternator: nothing in them shows a wheel, and the engine's
/// speed did not change so as to part the two. A wheel shows by its gaps, by a coil's amplitude that follows the speed, by
/// a switched sensor's pulses of about half a pitch. In a driving position a shaft may turn, and nothing is made of it.
fn may_be_pick_up(shaft: &Shaft<'_>, segment: &Segment, context: &Context<'_>) -> bool {
    let train = &shaft.train;
    if shows_wheel(&train.wheel) || context.commands.selector == Selector::Drive {
        return false;
    }
    let to_engine = compare_to_engine(shaft, segment, context);
    let parted = to_engine.is_some_and(|c| c.relation == Relation::Parted);
    match train.signal.waveform {
        // A clamped amplitude does not grow, and leaves it open. So does a rate that stays where it is while the engine's
        // changes: a load that is switched at its own rate does the same.
        Waveform::Alternating => {
            let follows = train.amplitude_law.is_some_and(|law| {
                let least = law.exponent.map(|n| n - 2.0 * law.exponent_stderr);
                least.is_some_and(|n| n > LEAST_EXPONENT)
            });
            let changes = segment
                .motion
                .is_some_and(|m| m.highest_hz > LEAST_CHANGE * m.lowest_hz);
            // Another source's rate may change by itself as well; its amplitude then stays, as a coil's does only where an
            // input clamps it. A stated switching sensor gives no small sine.
            let is_foreign = keeps_its_amplitude(shaft, segment) || is_no_switch(shaft, context);
            // A half order of the engine is what ignition and injection induce. It may grow with the engine's speed, and a
            // quick change of speed may part the two for as long as a speed is measured over.
            let is_order = to_engine.is_some_and(|c| is_half_order(c.ratio));
            let is_own = if is_order {
                follows && parted
            } else {
                follows || (parted && changes && !is_foreign)
            };
            let runout = amplitude_runout(train, segment);
            let turns = || shows_turns(train, runout, to_engine.map(|c| c.ratio));
            let is_wheel = is_own || (!is_foreign && turns());
            !is_wheel || lacks_runout(shaft, segment, runout)
        }
        Waveform::TwoLevel if parted => false,
        // Only where its turning would speak for a drag.
        Waveform::TwoLevel if context.commands.selector != Selector::NoDrive => false,
        Waveform::TwoLevel => match to_engine {
            // Whatever keeps its number of pulses a turn of the engine while that one's speed changes is driven by it; a
            // clutch that drags slips, and one that does not open at all turns its shaft like the engine.
            Some(c) => {
                let positions = train.wheel.positions_per_turn().map(f64::from);
                let as_engine = positions.is_some_and(|n| (c.ratio / n - 1.0).abs() < NEAR_ORDER);
                is_half_order(c.ratio) || (c.relation == Relation::Locked && !as_engine)
            }
            None => segment.motion.is_some_and(|m| {
                let teeth = WHEEL_DUTY.contains(&m.duty) && m.duty_scatter < WHEEL_DUTY_SCATTER;
                m.hz < IDLE_FIRING_HZ && !teeth
            }),
        },
    }
}

/// The amplitude stays while the rate changes, and nothing clamps it.
fn keeps_its_amplitude(shaft: &Shaft<'_>, segment: &Segment) -> bool {
    let most = |law: AmplitudeLaw| Some(law.exponent? + 2.0 * law.exponent_stderr);
    let law = shaft.train.amplitude_law.and_then(most);
    law.is_some_and(|n| n < LEAST_EXPONENT) && !is_clamped(shaft, segment)
}

/// A modulation whose period is the turn of the stated wheel, over many turns: run-out, which neither engine nor alternator
/// gives. `per_turn` are the pulses a turn of the engine, where it was recorded: a turn of the wheel that is a half order of
/// the engine's could be its working cycle.
fn shows_turns(train: &ToothTrain, runout: Option<Runout>, per_turn: Option<f64>) -> bool {
    /// Least run-out, %, and its least multiple of its standard uncertainty. Judgement.
    const LEAST: (f64, f64) = (1.0, 8.0);
    /// Fewest turns, and the angle by which the modulation may move against the wheel over all of them, rad: its period is
    /// the turn's to about a hundredth.
    const STANDS: (u32, f64) = (8, 1.0);
    let Some((positions, TurnBasis::Stated)) = train.wheel.positions else {
        return false;
    };
    let is_cycle = per_turn.is_some_and(|n| is_half_order(n / f64::from(positions)));
    positions > MOST_CYLINDERS
        && !is_cycle
        && runout.is_some_and(|r| {
            r.percent > LEAST.0.max(LEAST.1 * r.uncertainty)
                && r.turns >= STANDS.0
                && r.drift.abs() * f64::from(r.turns) < STANDS.1
        })
}

/// No wheel runs so true that its coil's amplitude would not show each turn (2 to 19 % on engines): it shows none, on a
/// record that would have shown one of half a percent, and nothing clamps it.
fn lacks_runout(shaft: &Shaft<'_>, segment: &Segment, runout: Option<Runout>) -> bool {
    /// Standard uncertainty below which the least run-out would be seen, %.
    const FINE: f64 = 0.125;
    /// Run-out that noise does not give, standard uncertainties.
    const CLEAR: f64 = 4.0;
    let none = runout.is_some_and(|r| r.uncertainty < FINE && r.percent < CLEAR * r.uncertainty);
    none && !is_clamped(shaft, segment)
}

/// The signal stands at its highest or at its lowest for more than a fifth of the time; a sine is near either for a tenth.
fn is_clamped(shaft: &Shaft<'_>, segment: &Segment) -> bool {
    /// Distance from the highest that is at it, share of the range.
    const NEAR: f64 = 0.03;
    let channel = shaft.channel;
    let at = |t| channel.time.index_at(t, channel.len());
    let part = channel.part(at(segment.start_s)..at(segment.end_s));
    let quantile = |q| stats::sampled_quantile(&part, q, 50_000).unwrap_or(0.0);
    let (low, high) = (quantile(0.01), quantile(0.99));
    let near = NEAR * (high - low);
    high - quantile(0.8) < near || quantile(0.2) - low < near
}

/// The sensor is stated to switch between two levels, and the signal alternates by less than any such sensor switches.
fn is_no_switch(shaft: &Shaft<'_>, context: &Context<'_>) -> bool {
    let signal = &shaft.train.signal;
    let stated = shaft.channel.facts.sensor.as_deref();
    stated == Some("hall") && signal.high - signal.low < context.limits.number("hall-swing")
}

/// True where the pattern of the train is a wheel's: that of the stated one, or one of more pulses than an engine has
/// cylinders. Pulses of ignition and injectors repeat with the working cycle, and unevenly where cylinders differ; a tooth
/// that trembles before its sensor leaves holes by chance.
fn shows_wheel(wheel: &Wheel) -> bool {
    let pattern = &wheel.pattern;
    let is_wheel = match wheel.positions {
        Some((stated, TurnBasis::Stated)) => pattern.lies_on(stated),
        _ => pattern.edges > MOST_CYLINDERS,
    };
    pattern.kind != PatternKind::Even && is_wheel
}

/// True where a rate per turn of the engine is one of its half orders.
fn is_half_order(per_turn: f64) -> bool {
    let half_orders = 2.0 * per_turn;
    let nearest = half_orders.round();
    (1.0..=HIGHEST_HALF_ORDER).contains(&nearest)
        && (half_orders / nearest - 1.0).abs() < NEAR_ORDER
}

/// Pulses against the engine's turns; `None` where the engine's speed was not recorded during the segment.
fn compare_to_engine(
    shaft: &Shaft<'_>,
    segment: &Segment,
    context: &Context<'_>,
) -> Option<Comparison> {
    let engine = context
        .all
        .iter()
        .find(|s| s.channel.role == "engine-speed")?;
    let positions = engine.train.wheel.positions_per_turn()?;
    compare_trains(&shaft.train, segment, &engine.train, positions)
}

/// Instants of the edges between two times, s.
fn instants(shaft: &Shaft<'_>, from_s: f64, to_s: f64) -> Vec<f64> {
    let within = |t: &f64| (from_s..=to_s).contains(t);
    let edges = shaft.train.edges.iter();
    edges.map(|e| e.at_s).filter(within).collect()
}

fn is_small(shaft: &Shaft<'_>, segment: &Segment, other: &Shaft<'_>) -> bool {
    let Some(own) = segment.motion else {
        return false;
    };
    let both_coils = [shaft, other]
        .iter()
        .all(|s| s.train.signal.waveform == Waveform::Alternating);
    let amplitude = other
        .train
        .segments
        .iter()
        .filter(|s| s.start_s < segment.end_s && s.end_s > segment.start_s)
        .filter_map(|s| s.motion)
        // A coil's voltage grows with the tooth rate.
        .map(|m| match both_coils && m.hz > 0.0 {
            true => m.amplitude * own.hz / m.hz,
            false => m.amplitude,
        })
        .fold(0.0, f64::max);
    own.amplitude < COPY_SHARE * amplitude
}
