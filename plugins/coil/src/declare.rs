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
