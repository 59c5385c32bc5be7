//! Tooth trains as series.

use super::Find;
use super::columns::{Rows, counts, flags, numbers, options, words};
use super::words::{Word, life_word, read_life, read_segment, reject_word, segment_word};
use crate::{ColumnType, Form, Series, SeriesSpec};
use ColumnType::{F64, I64, Text};
use signal::teeth::{
    AmplitudeLaw, Capability, Dropout, Edge, EdgeChoice, Motion, Pattern, Plateau, Segment,
    SegmentKind, SignalQuality, ToothTrain, Turn, Wheel,
};

/// Inputs of an analyzer that reads tooth trains.
pub const TRAIN: [&str; 6] = [
    TOOTH_TRAIN.name,
    TOOTH_PATTERN.name,
    TOOTH_EDGES.name,
    TOOTH_TURNS.name,
    TOOTH_SEGMENTS.name,
    TOOTH_DROPOUTS.name,
];

/// Signal, wheel, amplitude law and proof of life of a whole tooth train: one row.
pub const TOOTH_TRAIN: SeriesSpec = SeriesSpec {
    name: "tooth-train",
    form: Form::Table,
    columns: &[
        ("waveform", "", Text),
        ("low", "", F64),
        ("high", "", F64),
        ("noise", "", F64),
        ("threshold", "", F64),
        ("step_s", "s", F64),
        ("level_changes", "", I64),
        ("averaged", "count", I64),
        ("wrapped", "count", I64),
        ("highest_rate", "Hz", F64),
        ("rising", "", I64),
        ("rising_scatter", "1", F64),
        ("falling_scatter", "1", F64),
        ("glitches", "count", I64),
        ("doubled", "count", I64),
        ("alive", "", Text),
        ("alive_level", "", F64),
        ("pattern", "", Text),
        ("pattern_edges", "count", I64),
        ("pattern_positions", "count", I64),
        ("pattern_missing", "count", I64),
        ("pattern_extra", "count", I64),
        ("pattern_cycles", "count", I64),
        ("pattern_explained", "1", F64),
        ("positions", "count", I64),
        ("positions_basis", "", Text),
        ("unstated_missing", "count", I64),
        ("amplitude_per_hz", "", F64),
        ("amplitude_exponent", "1", F64),
        ("amplitude_exponent_stderr", "1", F64),
        ("amplitude_scatter", "1", F64),
        ("amplitude_rate_range", "1", F64),
        ("amplitude_clamped", "1", F64),
    ],
};

/// Mean pitch at each edge of the wheel's pattern, against the local pitch.
pub const TOOTH_PATTERN: SeriesSpec = SeriesSpec {
    name: "tooth-pitches",
    form: Form::Table,
    columns: &[("pitch", "1", F64)],
};

/// Edges of a tooth train.
pub const TOOTH_EDGES: SeriesSpec = SeriesSpec {
    name: "tooth-edges",
    form: Form::Table,
    columns: &[
        ("at_s", "s", F64),
        ("step", "count", I64),
        ("amplitude", "", F64),
    ],
};

/// Revolutions within the segments of turning.
pub const TOOTH_TURNS: SeriesSpec = SeriesSpec {
    name: "tooth-turns",
    form: Form::Table,
    columns: &[
        ("start_s", "s", F64),
        ("end_s", "s", F64),
        ("speed", "rpm", F64),
    ],
};

/// Segments of turning, rest, silence and what cannot be read, in the order of time; they cover the record.
pub const TOOTH_SEGMENTS: SeriesSpec = SeriesSpec {
    name: "tooth-segments",
    form: Form::Table,
    columns: &[
        ("start_s", "s", F64),
        ("end_s", "s", F64),
        ("state", "", Text),
        ("reject_reason", "", Text),
        ("reject_value", "", F64),
        ("first_edge", "", I64),
        ("last_edge", "", I64),
        ("detectable_amplitude", "", F64),
        ("unseen_below", "Hz", F64),
        ("unseen_below_rpm", "rpm", F64),
        ("rate", "Hz", F64),
        ("speed", "rpm", F64),
        ("spread", "Hz", F64),
        ("first_rate", "Hz", F64),
        ("last_rate", "Hz", F64),
        ("lowest_rate", "Hz", F64),
        ("highest_rate", "Hz", F64),
        ("trend", "", Text),
        ("ending", "", Text),
        ("steady_start_s", "s", F64),
        ("steady_end_s", "s", F64),
        ("steady_rate", "Hz", F64),
        ("scatter", "1", F64),
        ("acceleration", "Hz/s", F64),
        ("duty", "1", F64),
        ("duty_scatter", "1", F64),
        ("amplitude", "", F64),
        ("samples_per_pitch", "1", F64),
        ("positions", "count", I64),
    ],
};

/// Interruptions within the segments of turning; `in_phase` is empty where it cannot be told.
pub const TOOTH_DROPOUTS: SeriesSpec = SeriesSpec {
    name: "tooth-dropouts",
    form: Form::Table,
    columns: &[
        ("start_s", "s", F64),
        ("end_s", "s", F64),
        ("lost", "count", I64),
        ("in_phase", "1", F64),
    ],
};

/// Tooth rate (pitch positions per second, over a revolution) on a grid that all channels of a recording share; NaN where
/// nothing turns or the train is interrupted.
pub const TOOTH_RATE: SeriesSpec = SeriesSpec {
    name: "tooth-rates",
    form: Form::Track,
    columns: &[("rate", "Hz", F64)],
};

/// The series of [`TRAIN`] of a channel.
pub fn train_series(channel: u32, train: &ToothTrain) -> [Series; 6] {
    let channel = Some(channel);
    let e = &train.edges;
    let edges = vec![
        numbers(e, |e| e.at_s),
        counts(e, |e| e.step as usize),
        numbers(e, |e| f64::from(e.amplitude)),
    ];
    let t = &train.turns;
    let turns = vec![
        numbers(t, |t| t.start_s),
        numbers(t, |t| t.end_s),
        numbers(t, |t| t.rpm),
    ];
    let d = &train.dropouts;
    let dropouts = vec![
        numbers(d, |d| d.start_s),
        numbers(d, |d| d.end_s),
        counts(d, |d| d.lost as usize),
        options(d, |d| d.in_phase.map(|kept| f64::from(u8::from(kept)))),
    ];
    let pitches = vec![numbers(&train.wheel.pattern.pitches, |p| *p)];
    [
        TOOTH_TRAIN.of(channel, None, train_columns(train)),
        TOOTH_PATTERN.of(channel, None, pitches),
        TOOTH_EDGES.of(channel, None, edges),
        TOOTH_TURNS.of(channel, None, turns),
        TOOTH_SEGMENTS.of(channel, None, segment_columns(&train.segments)),
        TOOTH_DROPOUTS.of(channel, None, dropouts),
    ]
}

fn train_columns(train: &ToothTrain) -> Vec<crate::Values> {
    let one = [train];
    let positions = |t: &&ToothTrain| t.wheel.positions;
    vec![
        words(&one, |t| t.signal.waveform.word()),
        numbers(&one, |t| t.signal.low),
        numbers(&one, |t| t.signal.high),
        options(&one, |t| t.signal.noise),
        numbers(&one, |t| t.signal.threshold),
        numbers(&one, |t| t.signal.step_s),
        flags(&one, |t| t.signal.level_changes),
        counts(&one, |t| t.signal.averaged),
        counts(&one, |t| t.signal.wrapped),
        numbers(&one, |t| t.signal.highest_hz),
        flags(&one, |t| t.choice.rising),
        options(&one, |t| t.choice.rising_scatter),
        options(&one, |t| t.choice.falling_scatter),
        counts(&one, |t| t.glitches),
        counts(&one, |t| t.doubled),
        words(&one, |t| life_word(t.alive).0),
        numbers(&one, |t| life_word(t.alive).1),
        words(&one, |t| t.wheel.pattern.kind.word()),
        counts(&one, |t| t.wheel.pattern.edges as usize),
        counts(&one, |t| t.wheel.pattern.positions as usize),
        counts(&one, |t| t.wheel.pattern.missing as usize),
        counts(&one, |t| t.wheel.pattern.extra as usize),
        counts(&one, |t| t.wheel.pattern.cycles as usize),
        numbers(&one, |t| t.wheel.pattern.explained),
        counts(&one, |t| positions(t).map_or(0, |p| p.0 as usize)),
        words(&one, |t| positions(t).map_or("", |p| p.1.word())),
        counts(&one, |t| t.wheel.unstated_missing as usize),
        options(&one, |t| t.amplitude_law.map(|l| l.per_hz)),
        options(&one, |t| t.amplitude_law.and_then(|l| l.exponent)),
        options(&one, |t| t.amplitude_law.map(|l| l.exponent_stderr)),
        options(&one, |t| t.amplitude_law.map(|l| l.scatter)),
        options(&one, |t| t.amplitude_law.map(|l| l.rate_range)),
        options(&one, |t| t.amplitude_law.map(|l| l.clamped)),
    ]
}

fn segment_columns(s: &[Segment]) -> Vec<crate::Values> {
    let reason = |s: &Segment| match s.kind {
        SegmentKind::Unreadable(reason) => reject_word(reason),
        _ => ("", f64::NAN),
    };
    let motion = |number: fn(&Motion) -> f64| options(s, move |s| s.motion.as_ref().map(number));
    let capability = |number: fn(&Capability) -> Option<f64>| {
        options(s, move |s| s.capability.as_ref().and_then(number))
    };
    vec![
        numbers(s, |s| s.start_s),
        numbers(s, |s| s.end_s),
        words(s, |s| segment_word(s.kind)),
        words(s, |s| reason(s).0),
        numbers(s, |s| reason(s).1),
        counts(s, |s| s.first),
        counts(s, |s| s.last),
        capability(|c| Some(c.amplitude)),
        capability(|c| Some(c.below_hz)),
        capability(|c| c.below_rpm),
        motion(|m| m.hz),
        options(s, |s| s.motion.and_then(|m| m.rpm)),
        motion(|m| m.spread_hz),
        motion(|m| m.first_hz),
        motion(|m| m.last_hz),
        motion(|m| m.lowest_hz),
        motion(|m| m.highest_hz),
        words(s, |s| s.motion.map_or("", |m| m.trend.word())),
        words(s, |s| s.motion.map_or("", |m| m.ending.word())),
        motion(|m| m.plateau.start_s),
        motion(|m| m.plateau.end_s),
        motion(|m| m.plateau.hz),
        motion(|m| m.scatter),
        motion(|m| m.acceleration_hz_s),
        motion(|m| m.duty),
        motion(|m| m.duty_scatter),
        motion(|m| m.amplitude),
        motion(|m| m.samples_per_pitch),
        counts(s, |s| s.motion.map_or(0, |m| m.positions as usize)),
    ]
}

pub(crate) fn read_train(find: Find<'_>) -> Option<ToothTrain> {
    let [train, pattern, edges, turns, segments, dropouts] = TRAIN.map(find);
    let (train, pattern, edges) = (train?, pattern?, edges?);
    let (turns, segments, dropouts) = (turns?, segments?, dropouts?);
    let one = Rows(&train);
    let (t, d) = (Rows(&turns), Rows(&dropouts));
    let turn = |i| {
        Some(Turn {
            start_s: t.number("start_s", i)?,
            end_s: t.number("end_s", i)?,
            rpm: t.number("speed", i)?,
        })
    };
    let dropout = |i| {
        Some(Dropout {
            start_s: d.number("start_s", i)?,
            end_s: d.number("end_s", i)?,
            lost: d.small("lost", i)?,
            in_phase: d.option("in_phase", i)?.map(|kept| kept > 0.5),
        })
    };
    Some(ToothTrain {
        signal: read_signal(&one)?,
        choice: EdgeChoice {
            rising: one.flag("rising", 0)?,
            rising_scatter: one.option("rising_scatter", 0)?,
            falling_scatter: one.option("falling_scatter", 0)?,
        },
        edges: read_edges(&edges)?,
        wheel: read_wheel(&one, pattern.numbers("pitch")?)?,
        turns: (0..turns.rows()).map(turn).collect::<Option<_>>()?,
        segments: read_segments(&segments)?,
        dropouts: (0..dropouts.rows()).map(dropout).collect::<Option<_>>()?,
        glitches: one.count("glitches", 0)?,
        doubled: one.count("doubled", 0)?,
        amplitude_law: read_law(&one)?,
        alive: read_life(one.word("alive", 0)?, one.number("alive_level", 0)?)?,
    })
}

/// Column by column: there may be a million of them.
fn read_edges(edges: &Series) -> Option<Vec<Edge>> {
    let (steps, amplitudes) = (edges.counts("step")?, edges.numbers("amplitude")?);
    let rows = edges.numbers("at_s")?.iter().zip(steps).zip(amplitudes);
    let edge = |((&at_s, &step), &amplitude): ((&f64, &i64), &f64)| {
        Some(Edge {
            at_s,
            step: step.try_into().ok()?,
            amplitude: amplitude as f32,
        })
    };
    rows.map(edge).collect()
}

/// Segments of a train from [`TOOTH_SEGMENTS`].
pub(super) fn read_segments(segments: &Series) -> Option<Vec<Segment>> {
    let rows = Rows(segments);
    (0..segments.rows())
        .map(|i| read_segment_row(&rows, i))
        .collect()
}

/// Positions per turn of a train's wheel, from [`TOOTH_TRAIN`]; the inner `None` where they are neither stated nor found.
pub(super) fn read_positions(train: &Series) -> Option<Option<u32>> {
    Some(read_wheel(&Rows(train), &[])?.positions_per_turn())
}

fn read_signal(one: &Rows<'_>) -> Option<SignalQuality> {
    Some(SignalQuality {
        waveform: Word::of_word(one.word("waveform", 0)?)?,
        low: one.number("low", 0)?,
        high: one.number("high", 0)?,
        noise: one.option("noise", 0)?,
        threshold: one.number("threshold", 0)?,
        step_s: one.number("step_s", 0)?,
        level_changes: one.flag("level_changes", 0)?,
        averaged: one.count("averaged", 0)?,
        wrapped: one.count("wrapped", 0)?,
        highest_hz: one.number("highest_rate", 0)?,
    })
}

fn read_wheel(one: &Rows<'_>, pitches: &[f64]) -> Option<Wheel> {
    let positions = match one.small("positions", 0)? {
        0 => None,
        n => Some((n, Word::of_word(one.word("positions_basis", 0)?)?)),
    };
    Some(Wheel {
        pattern: Pattern {
            kind: Word::of_word(one.word("pattern", 0)?)?,
            edges: one.small("pattern_edges", 0)?,
            positions: one.small("pattern_positions", 0)?,
            missing: one.small("pattern_missing", 0)?,
            extra: one.small("pattern_extra", 0)?,
            cycles: one.small("pattern_cycles", 0)?,
            explained: one.number("pattern_explained", 0)?,
            pitches: pitches.into(),
        },
        positions,
        unstated_missing: one.small("unstated_missing", 0)?,
    })
}

fn read_law(one: &Rows<'_>) -> Option<Option<AmplitudeLaw>> {
    let Some(per_hz) = one.option("amplitude_per_hz", 0)? else {
        return Some(None);
    };
    Some(Some(AmplitudeLaw {
        per_hz,
        exponent: one.option("amplitude_exponent", 0)?,
        exponent_stderr: one.number("amplitude_exponent_stderr", 0)?,
        scatter: one.number("amplitude_scatter", 0)?,
        rate_range: one.number("amplitude_rate_range", 0)?,
        clamped: one.number("amplitude_clamped", 0)?,
    }))
}

fn read_segment_row(s: &Rows<'_>, i: usize) -> Option<Segment> {
    let kind = read_segment(
        s.word("state", i)?,
        s.word("reject_reason", i)?,
        s.number("reject_value", i)?,
    )?;
    let capability = match s.option("detectable_amplitude", i)? {
        None => None,
        Some(amplitude) => Some(Capability {
            amplitude,
            below_hz: s.number("unseen_below", i)?,
            below_rpm: s.option("unseen_below_rpm", i)?,
        }),
    };
    Some(Segment {
        start_s: s.number("start_s", i)?,
        end_s: s.number("end_s", i)?,
        kind,
        first: s.count("first_edge", i)?,
        last: s.count("last_edge", i)?,
        motion: read_motion(s, i)?,
        capability,
    })
}

fn read_motion(s: &Rows<'_>, i: usize) -> Option<Option<Motion>> {
    let Some(hz) = s.option("rate", i)? else {
        return Some(None);
    };
    Some(Some(Motion {
        hz,
        rpm: s.option("speed", i)?,
        spread_hz: s.number("spread", i)?,
        first_hz: s.number("first_rate", i)?,
        last_hz: s.number("last_rate", i)?,
        lowest_hz: s.number("lowest_rate", i)?,
        highest_hz: s.number("highest_rate", i)?,
        trend: Word::of_word(s.word("trend", i)?)?,
        ending: Word::of_word(s.word("ending", i)?)?,
        plateau: Plateau {
            start_s: s.number("steady_start_s", i)?,
            end_s: s.number("steady_end_s", i)?,
            hz: s.number("steady_rate", i)?,
        },
        scatter: s.number("scatter", i)?,
        acceleration_hz_s: s.number("acceleration", i)?,
        duty: s.number("duty", i)?,
        duty_scatter: s.number("duty_scatter", i)?,
        amplitude: s.number("amplitude", i)?,
        samples_per_pitch: s.option("samples_per_pitch", i)?.unwrap_or(f64::INFINITY),
        positions: s.small("positions", i)?,
    }))
}
