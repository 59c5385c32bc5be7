//! Words that the series carry for states, reasons and kinds.

use signal::current::CurrentLife;
use signal::teeth::{
    Ending, PatternKind, ProofOfLife, RejectReason, SegmentKind, Trend, TurnBasis, Waveform,
};

/// A value that a series carries as a word.
pub trait Word: Copy + PartialEq + 'static {
    /// Every value with its word.
    const WORDS: &[(Self, &'static str)];

    /// Its word.
    fn word(self) -> &'static str {
        let known = Self::WORDS.iter().find(|(value, _)| *value == self);
        known.map_or("", |(_, word)| word)
    }

    /// Value of a word; `None` for one that is unknown.
    fn of_word(word: &str) -> Option<Self> {
        let known = Self::WORDS.iter().find(|(_, w)| *w == word);
        known.map(|(value, _)| *value)
    }
}

impl Word for Waveform {
    const WORDS: &[(Waveform, &'static str)] = &[
        (Waveform::TwoLevel, "two-level"),
        (Waveform::Alternating, "alternating"),
    ];
}

impl Word for Ending {
    const WORDS: &[(Ending, &'static str)] = &[
        (Ending::Decay, "decay"),
        (Ending::Sudden, "sudden"),
        (Ending::RecordEnd, "record-end"),
    ];
}

impl Word for Trend {
    const WORDS: &[(Trend, &'static str)] = &[
        (Trend::Steady, "steady"),
        (Trend::Rises, "rises"),
        (Trend::Falls, "falls"),
        (Trend::Varies, "varies"),
    ];
}

impl Word for PatternKind {
    const WORDS: &[(PatternKind, &'static str)] = &[
        (PatternKind::Even, "even"),
        (PatternKind::Gaps, "gaps"),
        (PatternKind::Extra, "extra"),
        (PatternKind::Uneven, "uneven"),
    ];
}

impl Word for TurnBasis {
    const WORDS: &[(TurnBasis, &'static str)] = &[
        (TurnBasis::Stated, "stated"),
        (TurnBasis::Contradicted, "contradicted"),
        (TurnBasis::Found, "found"),
    ];
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
    let all = [
        RejectReason::Undersampled,
        RejectReason::Dithering,
        RejectReason::Irregular,
        RejectReason::SmallAmplitude,
        RejectReason::Spikes,
        RejectReason::TooRegular,
        RejectReason::Hum,
        RejectReason::TooQuick,
        RejectReason::Noise,
    ];
    let mut all = all.into_iter().map(|reason| reason(value));
    all.find(|reason| reject_word(*reason).0 == word)
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
