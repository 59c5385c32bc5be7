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
        "coil-resistance",
        "ohm",
        &[
            ("coil-resistance", &["reference"]),
            ("coil-resistance-alone", &[]),
            ("coil-resistance-low", &["reference"]),
            ("coil-resistance-high", &["reference"]),
            ("coil-resistance-unclear", &["reference"]),
            ("coil-resistance-unsettled", &["most"]),
            ("coil-resistance-below-others", &["reference"]),
            ("coil-resistance-above-others", &["reference"]),
        ],
    ),
    kind(
        "coil-inductance",
        "mH",
        &[
            ("coil-inductance", &[]),
            ("coil-inductance-below-others", &["reference"]),
        ],
    ),
    kind(
        "armature-move-time",
        "ms",
        &[
            ("armature-move-time", &["begins_ms", "actuations"]),
            ("armature-late", &["begins_ms", "actuations", "reference"]),
            (
                "armature-late-weak",
                &["begins_ms", "actuations", "reference"],
            ),
        ],
    ),
    kind(
        "armature-silent",
        "%",
        &[
            ("armature-silent", &["actuations"]),
            (
                "armature-silent-beside-others",
                &["actuations", "reference"],
            ),
            ("armature-unclear", &["actuations", "reference"]),
            ("armature-none", &[]),
        ],
    ),
    kind("hold-current", "A", &[("hold-current", &["peak"])]),
    kind("chopper-rate", "Hz", &[("chopper-rate", &["ripple"])]),
    kind("flyback-voltage", "V", &[("flyback-voltage", &[])]),
    kind("dwell-time", "ms", &[("dwell-time", &["actuations"])]),
    kind("current-limit", "A", &[("current-limit", &["reached_ms"])]),
    kind(
        "driver-drop",
        "V",
        &[("driver-drop", &[]), ("driver-drop-high", &[])],
    ),
    kind(
        "coil-no-current",
        "A",
        &[
            ("no-current-driven", &["pulls"]),
            ("no-current-not-driven", &["level"]),
            ("no-current-dead-feed", &["level"]),
            ("no-current-beside-others", &["working"]),
            ("no-current-unwitnessed", &[]),
        ],
    ),
    kind(
        "coil-steady-current",
        "A",
        &[("coil-always-on", &["level"])],
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
