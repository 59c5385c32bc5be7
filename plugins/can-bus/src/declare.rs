//! What the analyzers give: kinds with their units, messages with their arguments.

/// One kind of finding.
#[derive(Debug, Clone, Copy)]
pub struct Kind {
    /// Machine name.
    pub name: &'static str,
    /// Unit of the value; empty where there is none.
    pub unit: &'static str,
    /// Messages and their arguments.
    pub messages: &'static [(&'static str, &'static [&'static str])],
}

const fn kind(
    name: &'static str,
    unit: &'static str,
    messages: &'static [(&'static str, &'static [&'static str])],
) -> Kind {
    Kind {
        name,
        unit,
        messages,
    }
}

/// All kinds.
pub const KINDS: &[Kind] = &[
    kind(
        "bit-rate",
        "kbit/s",
        &[
            ("bit-rate", &["samples_a_bit"]),
            ("bit-rate-fd", &["samples_a_bit", "data_phase"]),
            ("bit-rate-differs", &["samples_a_bit", "stated"]),
            ("sampling-too-slow", &["sample_rate", "needed"]),
            ("bit-rate-no-traffic", &[]),
            ("bit-rate-no-grid", &[]),
        ],
    ),
    kind("recessive-high", "V", &[("can-level", &["line", "state"])]),
    kind("recessive-low", "V", &[("can-level", &["line", "state"])]),
    kind("dominant-high", "V", &[("can-level", &["line", "state"])]),
    kind("dominant-low", "V", &[("can-level", &["line", "state"])]),
    kind(
        "differential-dominant",
        "V",
        &[("differential-dominant", &["senders"])],
    ),
    kind("common-mode", "V", &[("common-mode", &[])]),
    kind(
        "common-mode-offset",
        "V",
        &[("common-mode-offset", &["identifier", "identifiers", "of"])],
    ),
    kind(
        "wire-condition",
        "V",
        &[
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
            ("wires-unclear", &[]),
        ],
    ),
    kind(
        "termination",
        "ohm",
        &[
            ("termination", &["basis", "senders"]),
            ("termination-high", &["basis", "senders"]),
            ("termination-low", &["basis", "senders"]),
            ("termination-unclear", &["basis", "senders"]),
            ("termination-at-least", &["basis", "senders"]),
        ],
    ),
    kind(
        "recessive-fall",
        "ns",
        &[("recessive-fall", &["detectable"])],
    ),
    kind(
        "ringing",
        "%",
        &[("ringing", &["settling_ns", "detectable"])],
    ),
    kind(
        "frames",
        "count",
        &[
            ("frames", &["remote", "fd", "overload"]),
            ("frames-logged", &[]),
        ],
    ),
    kind(
        "frame-errors",
        "count",
        &[
            ("frame-errors-none", &["frames"]),
            (
                "frame-errors",
                &["share", "error", "field", "identifier", "of_identifier"],
            ),
            (
                "frame-errors-unacknowledged",
                &["share", "identifier", "of_identifier"],
            ),
            ("frame-errors-coarse", &["samples_a_bit"]),
            ("frame-errors-of", &["identifier", "error", "field", "bit"]),
        ],
    ),
    kind(
        "identifiers",
        "count",
        &[
            ("identifiers", &[]),
            ("identifiers-silent", &["silent", "missing"]),
        ],
    ),
    kind("bus-load", "%", &[("bus-load", &["longest_pause_ms"])]),
    kind(
        "node-period",
        "ms",
        &[("node-period", &["frames", "regular"])],
    ),
    kind(
        "node-gap",
        "s",
        &[
            ("node-gap", &["duration_s", "periods"]),
            ("node-stopped", &["duration_s", "periods"]),
        ],
    ),
    kind(
        "node-flood",
        "Hz",
        &[("node-flood", &["share", "duration_s"])],
    ),
];

/// Kinds with their units, as the interface takes them.
pub const KIND_UNITS: [(&str, &str); KINDS.len()] = {
    let mut all = [("", ""); KINDS.len()];
    let mut i = 0;
    while i < KINDS.len() {
        all[i] = (KINDS[i].name, KINDS[i].unit);
        i += 1;
    }
    all
};

/// Messages with their arguments, each once.
pub const MESSAGES: [(&str, &[&str]); MESSAGE_COUNT] = {
    let mut all: [(&str, &[&str]); MESSAGE_COUNT] = [("", &[]); MESSAGE_COUNT];
    let (mut kind, mut n) = (0, 0);
    while kind < KINDS.len() {
        let mut i = 0;
        while i < KINDS[kind].messages.len() {
            if is_first(kind, i) {
                all[n] = KINDS[kind].messages[i];
                n += 1;
            }
            i += 1;
        }
        kind += 1;
    }
    all
};

const MESSAGE_COUNT: usize = {
    let (mut kind, mut n) = (0, 0);
    while kind < KINDS.len() {
        let mut i = 0;
        while i < KINDS[kind].messages.len() {
            if is_first(kind, i) {
                n += 1;
            }
            i += 1;
        }
        kind += 1;
    }
    n
};

/// True for the first place at which a message is declared.
const fn is_first(kind: usize, message: usize) -> bool {
    let name = KINDS[kind].messages[message].0.as_bytes();
    let mut k = 0;
    while k <= kind {
        let mut i = 0;
        while i < KINDS[k].messages.len() {
            if k == kind && i == message {
                return true;
            }
            if is_same(name, KINDS[k].messages[i].0.as_bytes()) {
                return false;
            }
            i += 1;
        }
        k += 1;
    }
    true
}

const fn is_same(a: &[u8], b: &[u8]) -> bool {
    if a.len() != b.len() {
        return false;
    }
    let mut i = 0;
    while i < a.len() {
        if a[i] != b[i] {
            return false;
        }
        i += 1;
    }
    true
}
