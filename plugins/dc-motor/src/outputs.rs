//! All that the analyzers of this system give: kinds with units, messages with their arguments.

/// Outputs of one analyzer.
pub struct Outputs {
    /// Kinds of findings, each with the unit of its value; an empty one for kinds without a value.
    pub kinds: &'static [(&'static str, &'static str)],
    /// Messages, each with the names of its arguments.
    pub messages: &'static [(&'static str, &'static [&'static str])],
}

/// Start, steady run and stall of a motor.
pub const MOTOR_RUN: Outputs = Outputs {
    kinds: &[
        ("inrush-current", "A"),
        ("running-current", "A"),
        ("motor-resistance", "mohm"),
        ("motor-start", "s"),
        ("motor-stall", "s"),
    ],
    messages: &[
        ("motor-inrush", &[]),
        ("motor-runs", SHARE),
        ("motor-runs-raised", SHARE),
        ("motor-runs-hard", SHARE),
        ("motor-runs-beyond-sheet", SHARE),
        ("motor-runs-alone", &[]),
        ("motor-draws-nothing", &["volts"]),
        ("motor-draws-nothing-flat", &["volts"]),
        ("motor-resistance-start", &["current_a"]),
        ("motor-resistance-stall", &["current_a"]),
        ("motor-start", &["back_emf_percent"]),
        ("motor-stall", &["current_a"]),
        ("motor-stall-current-only", &["current_a"]),
        ("motor-stall-later", &["current_a"]),
        ("motor-stall-unclear", &["current_a"]),
    ],
};

/// Commutation ripple and its gaps.
pub const MOTOR_SPEED: Outputs = Outputs {
    kinds: &[
        ("motor-speed", "rpm"),
        ("commutation-rate", "Hz"),
        ("commutation-gap", "count"),
        ("load-variation", "%"),
    ],
    messages: &[
        ("motor-speed", &["bars", "hz"]),
        ("motor-speed-low", &["bars", "hz"]),
        ("commutation-rate", &[]),
        ("commutation-gap", GAP),
        ("commutation-gap-none", GAP),
        ("commutation-gap-unclear", GAP),
        ("commutation-gap-not-tested", &[]),
        ("commutation-rate-unclear", &["hz", "rpm"]),
        ("commutation-uneven", UNEVEN),
        ("commutation-uneven-unclear", UNEVEN),
        ("load-even", &["turn_hz"]),
        ("load-uneven", &["turn_hz"]),
        ("load-uneven-unclear", &["turn_hz"]),
        ("load-not-tested", &["least_percent"]),
    ],
};

/// Resistance of feed and ground of a motor.
pub const WIRING_RESISTANCE: Outputs = Outputs {
    kinds: &[("wiring-resistance", "mohm")],
    messages: &[
        ("wiring-resistance", &["drop_v", "current_a"]),
        ("wiring-resistance-high", &["drop_v", "current_a"]),
    ],
};

/// Electrical rate and balance of the phases of a motor behind an inverter.
pub const THREE_PHASE: Outputs = Outputs {
    kinds: &[
        ("electrical-rate", "Hz"),
        ("phase-imbalance", "%"),
        ("link-ripple", "%"),
    ],
    messages: &[
        ("electrical-rate", &[]),
        ("phases-alike", PHASES),
        ("phases-unequal", PHASES),
        ("phase-missing", PHASES),
        ("phases-unclear", PHASES),
        ("link-ripple", &["hz"]),
        ("link-ripple-single-phase", &["hz"]),
    ],
};

const SHARE: &[&str] = &["share_percent"];
const GAP: &[&str] = &["depth_percent", "hz", "turns"];
const UNEVEN: &[&str] = &["swing_percent", "hz", "turns"];
const PHASES: &[&str] = &["u_a", "v_a", "w_a", "missing"];
