//! Kinds of findings with their units, and messages with their arguments.

/// Outputs of one analyzer.
pub struct Outputs {
    /// Kinds, each with the unit of its value.
    pub kinds: &'static [(&'static str, &'static str)],
    /// Messages, each with the names of its arguments.
    pub messages: &'static [(&'static str, &'static [&'static str])],
}

/// Findings from the voltages of the two lines.
pub const LINES: Outputs = Outputs {
    kinds: &[
        ("bit-rate", "kbit/s"),
        ("recessive-high", "V"),
        ("recessive-low", "V"),
        ("dominant-high", "V"),
        ("dominant-low", "V"),
        ("differential-dominant", "V"),
        ("symmetry", "%"),
        ("common-mode", "V"),
        ("common-mode-offset", "V"),
        ("wire-condition", "V"),
        ("termination", "ohm"),
        ("ringing", "%"),
        FRAMES,
        ("frame-errors", "count"),
        IDENTIFIERS,
        BUS_LOAD,
    ],
    messages: &[
        ("bit-rate", &["samples_a_bit"]),
        ("bit-rate-fd", &["samples_a_bit", "data_phase"]),
        ("bit-rate-differs", &["samples_a_bit", "stated"]),
        ("sampling-too-slow", &["sample_rate", "needed"]),
        ("bit-rate-no-traffic", &[]),
        ("bit-rate-no-grid", &[]),
        ("can-level", &["line", "state"]),
        ("differential-dominant", &["senders"]),
        ("symmetry", &[]),
        ("common-mode", &[]),
        ("common-mode-offset", &["identifier", "identifiers", "of"]),
        ("wires-sound", &[]),
        ("wires-reversed", &["share"]),
        ("wires-reversed-partly", &["share"]),
        ("wire-at-ground", &["line"]),
        ("wire-at-supply", &["line"]),
        ("wires-together", &[]),
        ("wire-open", &["line", "pulses"]),
        ("wires-stuck-dominant", &[]),
        ("wires-probe-off", &["line"]),
        ("wires-quiet", &["detectable"]),
        ("wires-quiet-at-ground", &["detectable"]),
        ("wires-low-speed-bus", &[]),
        ("wires-single-wire-bus", &[]),
        ("wires-unclear", &[]),
        ("termination", &["basis", "senders"]),
        ("termination-high", &["basis", "senders"]),
        ("termination-low", &["basis", "senders"]),
        ("termination-unclear", &["basis", "senders"]),
        ("termination-at-least", &["basis", "senders"]),
        ("ringing", &["settling_ns", "detectable"]),
        ("frames", &["remote", "fd", "overload"]),
        ("frame-errors-none", &["frames"]),
        (
            "frame-errors-data-phase",
            &["unread", "sample_rate", "needed"],
        ),
        (
            "frame-errors",
            &["share", "error", "field", "identifier", "of_identifier"],
        ),
        (
            "frame-errors-unacknowledged",
            &["share", "identifier", "of_identifier"],
        ),
        ("frame-errors-coarse", &["samples_a_bit"]),
        ("frame-errors-noisy", &[]),
        ("frame-errors-of", &["identifier", "error", "field", "bit"]),
        ("identifiers", &[]),
        ("bus-load", &["longest_pause_ms"]),
    ],
};

/// Findings from a log of frames.
pub const LOG: Outputs = Outputs {
    kinds: &[
        FRAMES,
        IDENTIFIERS,
        BUS_LOAD,
        ("node-period", "ms"),
        ("node-gap", "s"),
        ("node-flood", "Hz"),
    ],
    messages: &[
        ("frames-logged", &[]),
        ("identifiers", &[]),
        ("identifiers-silent", &["silent", "missing"]),
        ("bus-load", &["longest_pause_ms"]),
        ("node-period", &["frames", "regular"]),
        ("node-gap", &["duration_s", "periods"]),
        ("node-stopped", &["duration_s", "periods"]),
        ("node-stopped-as-others", &["duration_s", "periods"]),
        ("node-flood", &["share", "duration_s"]),
    ],
};

const FRAMES: (&str, &str) = ("frames", "count");
const IDENTIFIERS: (&str, &str) = ("identifiers", "count");
const BUS_LOAD: (&str, &str) = ("bus-load", "%");
