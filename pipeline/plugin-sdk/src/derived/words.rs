//! Words that the series carry for states, reasons and kinds.

use signal::current::CurrentLife;
use signal::teeth::{
    Ending, PatternKind, ProofOfLife, RejectReason, SegmentKind, Trend, TurnBasis, Waveform,
};

/// Word of a value in a table of words.
fn word_of<T: PartialEq>(table: &[(T, &'static str)], value: &T) -> &'static str {
    let known = table.iter().find(|(v, _)| v == value);
    known.map_or("", |(_, word)| word)
}

/// Value of a word in a table of words.
fn value_of<T: Copy>(table: &[(T, &'static str)], word: &str) -> Option<T> {
    let known = table.iter().find(|(_, w)| *w == word);
    known.map(|(value, _)| *value)
}

const WAVEFORMS: [(Waveform, &str); 2] = [
    (Waveform::TwoLevel, "two-level"),
    (Waveform::Alternating, "alternating"),
];

const ENDINGS: [(Ending, &str); 3] = [
    (Ending::Decay, "decay"),
    (Ending::Sudden, "sudden"),
    (Ending::RecordEnd, "record-end"),
];

const TRENDS: [(Trend, &str); 4] = [
    (Trend::Steady, "steady"),
    (Trend::Rises, "rises"),
    (Trend::Falls, "falls"),
    (Trend::Varies, "varies"),
];

const PATTERNS: [(PatternKind, &str); 4] = [
    (PatternKind::Even, "even"),
    (PatternKind::Gaps, "gaps"),
    (PatternKind::Extra, "extra"),
    (PatternKind::Uneven, "uneven"),
];

const BASES: [(TurnBasis, &str); 3] = [
    (TurnBasis::Stated, "stated"),
    (TurnBasis::Contradicted, "contradicted"),
    (TurnBasis::Found, "found"),
];

/// Word for the form of a signal: `two-level`, `alternating`.
pub fn waveform_word(waveform: Waveform) -> &'static str {
    word_of(&WAVEFORMS, &waveform)
}

pub fn read_waveform(word: &str) -> Option<Waveform> {
    value_of(&WAVEFORMS, word)
}

/// Word for the end of a segment: `decay`, `sudden`, `record-end`.
pub fn ending_word(ending: Ending) -> &'static str {
    word_of(&ENDINGS, &ending)
}

pub fn read_ending(word: &str) -> Option<Ending> {
    value_of(&ENDINGS, word)
}

/// Word for the course of a speed: `steady`, `rises`, `falls`, `varies`.
pub fn trend_word(trend: Trend) -> &'static str {
    word_of(&TRENDS, &trend)
}

pub fn read_trend(word: &str) -> Option<Trend> {
    value_of(&TRENDS, word)
}

/// Word for a wheel's pattern: `even`, `gaps`, `extra`, `uneven`.
pub fn pattern_word(kind: PatternKind) -> &'static str {
    word_of(&PATTERNS, &kind)
}

pub fn read_pattern(word: &str) -> Option<PatternKind> {
    value_of(&PATTERNS, word)
}

/// Word for the source of a tooth count: `stated`, `contradicted`, `found`.
pub fn basis_word(basis: TurnBasis) -> &'static str {
    word_of(&BASES, &basis)
}

pub fn read_basis(word: &str) -> Option<TurnBasis> {
    value_of(&BASES, word)
}

/// Word and number of a reason why pulses are no readable train: `undersampled`, `dithering`, `irregular`,
/// `small-swing`, `spikes`, `too-regular`, `hum`, `too-quick`, `noise`.
pub fn reject_word(reason: RejectReason) -> (&'static str, f64) {
    match reason {
        RejectReason::Undersampled(v) => ("undersampled", v),
        RejectReason::Dithering(v) => ("dithering", v),
        RejectReason::Irregular(v) => ("irregular", v),
        RejectReason::SmallAmplitude(v) => ("small-swing", v),
        RejectReason::Spikes(v) => ("spikes", v),
        RejectReason::TooRegular(v) => ("too-regular", v),
        RejectReason::Hum(v) => ("hum", v),
        RejectReason::TooQuick(v) => ("too-quick", v),
        RejectReason::Noise(v) => ("noise", v),
    }
}

fn read_reason(word: &str, value: f64) -> Option<RejectReason> {
    match word {
        "undersampled" => Some(RejectReason::Undersampled(value)),
        "dithering" => Some(RejectReason::Dithering(value)),
        "irregular" => Some(RejectReason::Irregular(value)),
        "small-swing" => Some(RejectReason::SmallAmplitude(value)),
        "spikes" => Some(RejectReason::Spikes(value)),
        "too-regular" => Some(RejectReason::TooRegular(value)),
        "hum" => Some(RejectReason::Hum(value)),
        "too-quick" => Some(RejectReason::TooQuick(value)),
        "noise" => Some(RejectReason::Noise(value)),
        _ => None,
    }
}

/// Word of a segment's state: `turning`, `at-rest`, `silent`, `unreadable`, `too-short`.
pub fn segment_word(kind: SegmentKind) -> &'static str {
    match kind {
        SegmentKind::Turning => "turning",
        SegmentKind::AtRest => "at-rest",
        SegmentKind::Silent => "silent",
        SegmentKind::Unreadable(_) => "unreadable",
        SegmentKind::TooShort => "too-short",
    }
}

/// A segment's state from its word and, where unreadable, the word and number of the reason.
pub fn read_segment(word: &str, reason: &str, value: f64) -> Option<SegmentKind> {
    match word {
        "turning" => Some(SegmentKind::Turning),
        "at-rest" => Some(SegmentKind::AtRest),
        "silent" => Some(SegmentKind::Silent),
        "unreadable" => read_reason(reason, value).map(SegmentKind::Unreadable),
        "too-short" => Some(SegmentKind::TooShort),
        _ => None,
    }
}

/// Word of a proof of life, and the level that it stands at: `pulsed`, `toggled`, `quiescent`, `none`.
pub fn life_word(alive: ProofOfLife) -> (&'static str, f64) {
    match alive {
        ProofOfLife::Pulsed => ("pulsed", f64::NAN),
        ProofOfLife::Toggled => ("toggled", f64::NAN),
        ProofOfLife::Quiescent(level) => ("quiescent", level),
        ProofOfLife::None => ("none", f64::NAN),
    }
}

pub fn read_life(word: &str, level: f64) -> Option<ProofOfLife> {
    match word {
        "pulsed" => Some(ProofOfLife::Pulsed),
        "toggled" => Some(ProofOfLife::Toggled),
        "quiescent" => Some(ProofOfLife::Quiescent(level)),
        "none" => Some(ProofOfLife::None),
        _ => None,
    }
}

/// Word of a current channel's proof of life, and the level that it stands at: `pulsed`, `woke`, `quiescent`, `none`.
pub fn current_life_word(alive: CurrentLife) -> (&'static str, f64) {
    match alive {
        CurrentLife::Pulsed => ("pulsed", f64::NAN),
        CurrentLife::Woke => ("woke", f64::NAN),
        CurrentLife::Quiescent(level) => ("quiescent", level),
        CurrentLife::None => ("none", f64::NAN),
    }
}

pub fn read_current_life(word: &str, level: f64) -> Option<CurrentLife> {
    match word {
        "pulsed" => Some(CurrentLife::Pulsed),
        "woke" => Some(CurrentLife::Woke),
        "quiescent" => Some(CurrentLife::Quiescent(level)),
        "none" => Some(CurrentLife::None),
        _ => None,
    }
}
