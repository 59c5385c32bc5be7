//! Series that the library `recording` derives once from every channel, and their reading and writing.

use crate::{ColumnType, Form, Series, SeriesSpec, Values};
use ColumnType::{F64, I64, Text};
use signal::current::{CurrentRecord, Hit};
use signal::rotation::{Doubt, Ending, Plateau, ShaftRecord, Span, Waveform};

/// Finds a series of one channel by its name.
type Find<'a> = &'a dyn Fn(&str) -> Option<Series>;

/// Inputs of an analyzer that reads current pulses.
pub const PULSES: [&str; 2] = [CURRENT_LEVELS.name, CURRENT_PULSES.name];

/// Inputs of an analyzer that reads tooth trains.
pub const TRAIN: [&str; 4] = [
    TOOTH_TRAIN.name,
    TOOTH_EDGES.name,
    TOOTH_SEGMENTS.name,
    TOOTH_DROPOUTS.name,
];

/// State levels of a channel that is neither a current nor a tooth signal: one row, in the calibrated unit.
pub const LEVELS: SeriesSpec = SeriesSpec {
    name: "state-levels",
    form: Form::Table,
    columns: &[("low", "", F64), ("high", "", F64), ("noise", "", F64)],
};

/// Levels of a current: one row.
pub const CURRENT_LEVELS: SeriesSpec = SeriesSpec {
    name: "current-levels",
    form: Form::Table,
    columns: &[
        ("quiescent", "", F64),
        ("noise", "", F64),
        ("wake_s", "s", F64),
        ("wake_rise", "", F64),
        ("reversed", "", I64),
    ],
};

/// Pulses of a current, in the order of time.
pub const CURRENT_PULSES: SeriesSpec = SeriesSpec {
    name: "current-pulses",
    form: Form::Table,
    columns: &[
        ("start_s", "s", F64),
        ("end_s", "s", F64),
        ("peak", "", F64),
        ("peak_at_s", "s", F64),
        ("quiescent", "", F64),
        ("charge", "", F64),
        ("hold_s", "s", F64),
        ("stalled", "", I64),
        ("cut", "", I64),
    ],
};

/// What holds of a whole tooth train: one row.
pub const TOOTH_TRAIN: SeriesSpec = SeriesSpec {
    name: "tooth-train",
    form: Form::Table,
    columns: &[
        ("noise", "", F64),
        ("low", "", F64),
        ("high", "", F64),
        ("waveform", "", Text),
        ("flat", "", I64),
        ("doubled", "count", I64),
        ("wrapped", "count", I64),
    ],
};

/// Rising edges of a tooth train.
pub const TOOTH_EDGES: SeriesSpec = SeriesSpec {
    name: "tooth-edges",
    form: Form::Table,
    columns: &[("rising_s", "s", F64)],
};

/// Segments of turning, or of what looks like it, in the order of time.
pub const TOOTH_SEGMENTS: SeriesSpec = SeriesSpec {
    name: "tooth-segments",
    form: Form::Table,
    columns: &[
        ("start_s", "s", F64),
        ("end_s", "s", F64),
        ("first_edge", "", I64),
        ("last_edge", "", I64),
        ("rate", "Hz", F64),
        ("spread", "Hz", F64),
        ("jitter", "1", F64),
        ("acceleration", "Hz/s", F64),
        ("duty", "1", F64),
        ("amplitude", "", F64),
        ("samples_per_period", "1", F64),
        ("steady_start_s", "s", F64),
        ("steady_end_s", "s", F64),
        ("steady_rate", "Hz", F64),
        ("ending", "", Text),
        ("reject_reason", "", Text),
        ("reject_value", "", F64),
    ],
};

/// Dropouts of a steady tooth train.
pub const TOOTH_DROPOUTS: SeriesSpec = SeriesSpec {
    name: "tooth-dropouts",
    form: Form::Table,
    columns: &[("start_s", "s", F64), ("end_s", "s", F64)],
};

/// Tooth rate on a grid that all channels of a recording share; NaN where nothing turns or the train has a dropout.
pub const TOOTH_RATE: SeriesSpec = SeriesSpec {
    name: "tooth-rate",
    form: Form::Track,
    columns: &[("rate", "Hz", F64)],
};

/// State of the engine over the recording, segment by segment: see [`Conditions`](crate::Conditions).
pub const ENGINE_STATE: SeriesSpec = SeriesSpec {
    name: "engine-state",
    form: Form::Table,
    columns: &[
        ("start_s", "s", F64),
        ("end_s", "s", F64),
        ("state", "", Text),
        ("basis", "", Text),
    ],
};

/// State levels of a channel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StateLevels {
    /// Low state.
    pub low: f64,
    /// High state.
    pub high: f64,
    /// Standard deviation of the noise of one sample.
    pub noise: f64,
}

fn numbers<T>(all: &[T], number: impl Fn(&T) -> f64) -> Values {
    // A series holds no infinities: what is infinite was not measured.
    let finite = |v: f64| if v.is_infinite() { f64::NAN } else { v };
    Values::F64(all.iter().map(|v| finite(number(v))).collect())
}

fn counts<T>(all: &[T], count: impl Fn(&T) -> usize) -> Values {
    Values::I64(all.iter().map(|v| count(v) as i64).collect())
}

fn flags<T>(all: &[T], flag: impl Fn(&T) -> bool) -> Values {
    counts(all, |v| usize::from(flag(v)))
}

fn words<T>(all: &[T], word: impl Fn(&T) -> &'static str) -> Values {
    Values::Text(all.iter().map(|v| word(v).into()).collect())
}

/// Reads columns of one series, row by row.
struct Rows<'a>(&'a Series);

impl Rows<'_> {
    fn number(&self, column: &str, row: usize) -> Option<f64> {
        self.0.numbers(column)?.get(row).copied()
    }

    fn count(&self, column: &str, row: usize) -> Option<usize> {
        usize::try_from(*self.0.counts(column)?.get(row)?).ok()
    }

    fn flag(&self, column: &str, row: usize) -> Option<bool> {
        Some(self.count(column, row)? != 0)
    }

    fn word(&self, column: &str, row: usize) -> Option<&str> {
        Some(self.0.words(column)?.get(row)?.as_str())
    }
}

/// [`LEVELS`] of a channel.
pub fn levels_series(channel: u32, levels: &StateLevels) -> Series {
    let one = [*levels];
    let values = vec![
        numbers(&one, |l| l.low),
        numbers(&one, |l| l.high),
        numbers(&one, |l| l.noise),
    ];
    LEVELS.of(Some(channel), None, values)
}

pub(crate) fn levels_of(series: &Series) -> Option<StateLevels> {
    let row = Rows(series);
    Some(StateLevels {
        low: row.number("low", 0)?,
        high: row.number("high", 0)?,
        noise: row.number("noise", 0)?,
    })
}

/// [`CURRENT_LEVELS`] and [`CURRENT_PULSES`] of a channel.
pub fn pulses_series(channel: u32, record: &CurrentRecord) -> [Series; 2] {
    let (one, p) = ([record], &record.hits);
    let wake = |r: &&CurrentRecord| r.wake.unwrap_or((f64::NAN, f64::NAN));
    let levels = vec![
        numbers(&one, |r| r.quiescent),
        numbers(&one, |r| r.noise),
        numbers(&one, |r| wake(r).0),
        numbers(&one, |r| wake(r).1),
        flags(&one, |r| r.reversed),
    ];
    let pulses = vec![
        numbers(p, |p| p.start_s),
        numbers(p, |p| p.end_s),
        numbers(p, |p| p.peak),
        numbers(p, |p| p.peak_at_s),
        numbers(p, |p| p.quiescent),
        numbers(p, |p| p.charge),
        numbers(p, |p| p.hold_s),
        flags(p, |p| p.stalled),
        flags(p, |p| p.cut),
    ];
    [
        CURRENT_LEVELS.of(Some(channel), None, levels),
        CURRENT_PULSES.of(Some(channel), None, pulses),
    ]
}

pub(crate) fn pulses_of(find: Find<'_>) -> Option<CurrentRecord> {
    let (levels, pulses) = (find(CURRENT_LEVELS.name)?, find(CURRENT_PULSES.name)?);
    let (one, p) = (Rows(&levels), Rows(&pulses));
    let hits = (0..pulses.rows()).map(|i| {
        Some(Hit {
            start_s: p.number("start_s", i)?,
            end_s: p.number("end_s", i)?,
            peak: p.number("peak", i)?,
            peak_at_s: p.number("peak_at_s", i)?,
            quiescent: p.number("quiescent", i)?,
            charge: p.number("charge", i)?,
            hold_s: p.number("hold_s", i)?,
            stalled: p.flag("stalled", i)?,
            cut: p.flag("cut", i)?,
        })
    });
    let wake = (one.number("wake_s", 0)?, one.number("wake_rise", 0)?);
    Some(CurrentRecord {
        quiescent: one.number("quiescent", 0)?,
        noise: one.number("noise", 0)?,
        hits: hits.collect::<Option<_>>()?,
        wake: (!wake.0.is_nan()).then_some(wake),
        reversed: one.flag("reversed", 0)?,
    })
}

/// The series of [`TRAIN`] of a channel.
pub fn train_series(channel: u32, record: &ShaftRecord) -> [Series; 4] {
    let (one, s, d) = ([record], &record.spans, &record.dropouts);
    let train = vec![
        numbers(&one, |r| r.noise),
        numbers(&one, |r| r.low),
        numbers(&one, |r| r.high),
        words(&one, |r| waveform_word(r.waveform)),
        flags(&one, |r| r.flat),
        counts(&one, |r| r.glitches),
        counts(&one, |r| r.folded),
    ];
    let segments = vec![
        numbers(s, |s| s.start_s),
        numbers(s, |s| s.end_s),
        counts(s, |s| s.first),
        counts(s, |s| s.last),
        numbers(s, |s| s.hz),
        numbers(s, |s| s.spread_hz),
        numbers(s, |s| s.jitter),
        numbers(s, |s| s.acceleration_hz_s),
        numbers(s, |s| s.duty),
        numbers(s, |s| s.swing),
        numbers(s, |s| s.samples_per_period),
        numbers(s, |s| s.plateau.start_s),
        numbers(s, |s| s.plateau.end_s),
        numbers(s, |s| s.plateau.hz),
        words(s, |s| ending_word(s.ending)),
        words(s, |s| s.doubt.map_or("", |d| doubt_word(d).0)),
        numbers(s, |s| s.doubt.map_or(f64::NAN, |d| doubt_word(d).1)),
    ];
    let dropouts = vec![numbers(d, |d| d.0), numbers(d, |d| d.1)];
    let channel = Some(channel);
    [
        TOOTH_TRAIN.of(channel, None, train),
        TOOTH_EDGES.of(channel, None, vec![numbers(&record.rises, |t| *t)]),
        TOOTH_SEGMENTS.of(channel, None, segments),
        TOOTH_DROPOUTS.of(channel, None, dropouts),
    ]
}

pub(crate) fn train_of(find: Find<'_>) -> Option<ShaftRecord> {
    let [train, edges, segments, dropouts] = TRAIN.map(find);
    let (train, edges, segments, dropouts) = (train?, edges?, segments?, dropouts?);
    let (one, s, d) = (Rows(&train), Rows(&segments), Rows(&dropouts));
    let spans = (0..segments.rows()).map(|i| {
        Some(Span {
            start_s: s.number("start_s", i)?,
            end_s: s.number("end_s", i)?,
            first: s.count("first_edge", i)?,
            last: s.count("last_edge", i)?,
            hz: s.number("rate", i)?,
            spread_hz: s.number("spread", i)?,
            jitter: s.number("jitter", i)?,
            acceleration_hz_s: s.number("acceleration", i)?,
            duty: s.number("duty", i)?,
            swing: s.number("amplitude", i)?,
            samples_per_period: s.number("samples_per_period", i)?,
            plateau: Plateau {
                start_s: s.number("steady_start_s", i)?,
                end_s: s.number("steady_end_s", i)?,
                hz: s.number("steady_rate", i)?,
            },
            ending: ending_of(s.word("ending", i)?)?,
            doubt: doubt_of(s.word("reject_reason", i)?, s.number("reject_value", i)?),
        })
    });
    let dropouts =
        (0..dropouts.rows()).map(|i| Some((d.number("start_s", i)?, d.number("end_s", i)?)));
    Some(ShaftRecord {
        noise: one.number("noise", 0)?,
        low: one.number("low", 0)?,
        high: one.number("high", 0)?,
        waveform: waveform_of(one.word("waveform", 0)?)?,
        flat: one.flag("flat", 0)?,
        rises: edges.numbers("rising_s")?.into(),
        spans: spans.collect::<Option<_>>()?,
        dropouts: dropouts.collect::<Option<_>>()?,
        glitches: one.count("doubled", 0)?,
        folded: one.count("wrapped", 0)?,
    })
}

const WAVEFORMS: [(Waveform, &str); 2] = [
    (Waveform::TwoLevel, "two-level"),
    (Waveform::Alternating, "alternating"),
];

fn waveform_word(waveform: Waveform) -> &'static str {
    WAVEFORMS
        .into_iter()
        .find(|(w, _)| *w == waveform)
        .map_or("", |(_, word)| word)
}

fn waveform_of(word: &str) -> Option<Waveform> {
    WAVEFORMS
        .into_iter()
        .find(|(_, w)| *w == word)
        .map(|(w, _)| w)
}

const ENDINGS: [(Ending, &str); 3] = [
    (Ending::Decay, "decay"),
    (Ending::Sudden, "sudden"),
    (Ending::RecordEnd, "record-end"),
];

/// Word for how a segment ends: `decay`, `sudden`, `record-end`.
pub fn ending_word(ending: Ending) -> &'static str {
    ENDINGS
        .into_iter()
        .find(|(e, _)| *e == ending)
        .map_or("", |(_, word)| word)
}

fn ending_of(word: &str) -> Option<Ending> {
    ENDINGS
        .into_iter()
        .find(|(_, w)| *w == word)
        .map(|(e, _)| e)
}

fn doubt_word(doubt: Doubt) -> (&'static str, f64) {
    match doubt {
        Doubt::Undersampled(v) => ("undersampled", v),
        Doubt::Dithering(v) => ("dithering", v),
        Doubt::SmallSwing(v) => ("small-swing", v),
        Doubt::Spikes(v) => ("spikes", v),
        Doubt::TooRegular(v) => ("too-regular", v),
        Doubt::TooQuick(v) => ("too-quick", v),
    }
}

fn doubt_of(word: &str, value: f64) -> Option<Doubt> {
    match word {
        "undersampled" => Some(Doubt::Undersampled(value)),
        "dithering" => Some(Doubt::Dithering(value)),
        "small-swing" => Some(Doubt::SmallSwing(value)),
        "spikes" => Some(Doubt::Spikes(value)),
        "too-regular" => Some(Doubt::TooRegular(value)),
        "too-quick" => Some(Doubt::TooQuick(value)),
        _ => None,
    }
}
