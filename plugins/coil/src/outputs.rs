//! Kinds of findings with their units, and messages with their arguments.

/// Kinds.
pub const KINDS: &[(&str, &str)] = &[
    ("coil-resistance", "ohm"),
    ("coil-inductance", "mH"),
    ("armature-move-time", "ms"),
    ("armature-silent", "%"),
    ("hold-current", "A|1"),
    ("chopper-rate", "Hz"),
    ("flyback-voltage", "V"),
    ("dwell-time", "ms"),
    ("current-limit", "A|1"),
    ("driver-drop", "V"),
    ("coil-no-current", "A"),
    ("coil-steady-current", "A"),
];

/// Messages.
pub const MESSAGES: &[(&str, &[&str])] = &[
    ("coil-resistance", &["reference"]),
    ("coil-resistance-alone", &[]),
    ("coil-resistance-low", &["reference"]),
    ("coil-resistance-high", &["reference"]),
    ("coil-resistance-unclear", &["reference"]),
    ("coil-resistance-unsettled", &["most"]),
    ("coil-resistance-below-others", &["reference"]),
    ("coil-resistance-above-others", &["reference"]),
    ("coil-inductance", &[]),
    ("coil-inductance-below-others", &["reference"]),
    ("armature-move-time", &["begins_ms", "actuations"]),
    ("armature-late", &["begins_ms", "actuations", "reference"]),
    (
        "armature-late-weak",
        &["begins_ms", "actuations", "reference"],
    ),
    ("armature-silent", &["actuations"]),
    (
        "armature-silent-beside-others",
        &["actuations", "reference"],
    ),
    ("armature-unclear", &["actuations", "reference"]),
    ("armature-none", &[]),
    ("hold-current", &["peak"]),
    ("current-without-pause", &[]),
    ("chopper-rate", &["ripple"]),
    ("flyback-voltage", &[]),
    ("dwell-time", &["actuations"]),
    ("current-limit", &["reached_ms"]),
    ("driver-drop", &[]),
    ("driver-drop-high", &[]),
    ("no-current-driven", &["pulls"]),
    ("no-current-not-driven", &["level"]),
    ("no-current-dead-feed", &["level"]),
    ("no-current-beside-others", &["working"]),
    ("no-current-unwitnessed", &[]),
    ("coil-always-on", &["level"]),
];
