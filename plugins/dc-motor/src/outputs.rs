//! All that the analyzers of this system give: kinds with units, messages with their arguments.

/// Kinds of findings, each with the unit of its value; an empty one for kinds without a value.
pub const KINDS: &[(&str, &str)] = &[
    ("inrush-current", "A"),
    ("running-current", "A"),
    ("motor-resistance", "mohm"),
    ("motor-start", "s"),
    ("motor-stall", "s"),
    ("motor-speed", "rpm"),
    ("commutation-rate", "Hz"),
    ("commutation-gap", "count"),
    ("wiring-resistance", "mohm"),
    ("electrical-rate", "Hz"),
    ("phase-imbalance", "%"),
    ("link-ripple", "%"),
];

/// Messages, each with the names of its arguments.
pub const MESSAGES: &[(&str, &[&str])] = &[
    ("motor-inrush", &[]),
    ("motor-runs", RUN),
    ("motor-runs-raised", RUN),
    ("motor-runs-hard", RUN),
    ("motor-runs-beyond-sheet", RUN),
    ("motor-runs-alone", &[]),
    ("motor-draws-nothing", &["volts"]),
    ("motor-draws-nothing-flat", &["volts"]),
    ("motor-resistance-start", &["current_a"]),
    ("motor-resistance-stall", &["current_a"]),
    ("motor-start", &["back_emf_percent"]),
    ("motor-stall", &["current_a"]),
    ("motor-stall-current-only", &["current_a"]),
    ("motor-stall-unclear", &["current_a"]),
    ("motor-speed", &["bars", "hz"]),
    ("motor-speed-low", &["bars", "hz"]),
    ("commutation-rate", &[]),
    ("commutation-gap", GAP),
    ("commutation-gap-none", GAP),
    ("commutation-gap-unclear", GAP),
    ("wiring-resistance", WIRING),
    ("wiring-resistance-high", WIRING),
    ("electrical-rate", &[]),
    ("phases-alike", PHASES),
    ("phases-unequal", PHASES),
    ("phase-missing", PHASES),
    ("phases-unclear", PHASES),
    ("link-ripple", &["hz"]),
    ("link-ripple-single-phase", &["hz"]),
];

const RUN: &[&str] = &["share_percent"];
const GAP: &[&str] = &["depth_percent", "hz", "turns"];
const WIRING: &[&str] = &["drop_v", "current_a"];
const PHASES: &[&str] = &["u_a", "v_a", "w_a", "missing"];
