//! All that the analyzers of this system give: kinds with units, messages with their arguments.

/// Outputs of one analyzer.
pub struct Outputs {
    /// Kinds of findings, each with the unit of its value; an empty one for kinds without a value.
    pub kinds: &'static [(&'static str, &'static str)],
    /// Messages, each with the names of its arguments.
    pub messages: &'static [(&'static str, &'static [&'static str])],
}

/// Battery and starter during a start attempt.
pub const START_ATTEMPT: Outputs = Outputs {
    kinds: &[
        ("rest-voltage", "V"),
        ("cranking-voltage-low", "V"),
        ("inrush-current", "A"),
        ("cranking-current", "A"),
        ("battery-resistance", "mohm"),
    ],
    messages: &[
        ("rest-voltage", &[]),
        ("rest-voltage-low", &[]),
        ("cranking-voltage", &["inrush_v"]),
        ("cranking-voltage-low", &["inrush_v"]),
        ("inrush-current", &[]),
        ("cranking-current", &["share_percent"]),
        ("cranking-current-raised", &["share_percent"]),
        ("cranking-current-high", &["share_percent"]),
        ("cranking-current-stalled", &["share_percent"]),
        ("cranking-current-alone", &[]),
        ("battery-resistance", &["bound"]),
        ("battery-resistance-high", &["bound"]),
        ("battery-resistance-size-unknown", &["bound"]),
        ("battery-resistance-cold", &["bound"]),
    ],
};

/// Resistance of the starter's feed and of the engine's ground.
pub const PATH_RESISTANCE: Outputs = Outputs {
    kinds: &[("ground-resistance", "mohm"), ("feed-resistance", "mohm")],
    messages: &[
        ("ground-resistance", DROP),
        ("ground-resistance-high", DROP),
        ("starter-feed-resistance", DROP),
        ("starter-feed-resistance-high", DROP),
    ],
};

/// Cylinders compared while the engine is cranked.
pub const CRANKING_COMPRESSION: Outputs = Outputs {
    kinds: &[
        ("cranking-speed", "rpm"),
        ("compression-rate", "Hz"),
        ("relative-compression", "%"),
    ],
    messages: &[
        ("cranking-speed", &["cylinders"]),
        ("cranking-speed-low", &["cylinders"]),
        ("compression-rate", &[]),
        ("compression-rate-low", &[]),
        ("relative-compression-even", COMPRESSION),
        ("relative-compression-low", COMPRESSION),
        ("relative-compression-unclear", COMPRESSION),
        ("relative-compression-short", COMPRESSION),
    ],
};

/// Charging voltage with the engine running.
pub const CHARGING: Outputs = Outputs {
    kinds: &[("charging-voltage", "V")],
    messages: &[
        ("charging-voltage", &["current_a"]),
        ("charging-voltage-low", &["current_a"]),
        ("charging-voltage-low-discharging", &["current_a"]),
        ("charging-voltage-none", &["current_a"]),
        ("charging-voltage-high", &["current_a"]),
        ("charging-voltage-at-times", &["current_a"]),
    ],
};

/// Ripple of the alternator by order analysis.
pub const ALTERNATOR_RIPPLE: Outputs = Outputs {
    kinds: &[("ripple", "V")],
    messages: &[
        ("ripple-even", RIPPLE),
        ("ripple-order-missing", RIPPLE),
        ("ripple-speed-unknown", RIPPLE),
        ("ripple-too-coarse", RIPPLE),
        ("ripple-large", RIPPLE),
        ("ripple-not-alternator", RIPPLE),
        ("ripple-none", &["least_v"]),
        ("ripple-not-recorded", &[]),
    ],
};

/// Staged shut-down and what remains.
pub const KEY_OFF_CURRENT: Outputs = Outputs {
    kinds: &[
        ("key-off-current", "A"),
        ("key-off-stage", "A"),
        ("sleep-time", "s"),
        ("wake-ups", "count"),
    ],
    messages: &[
        ("key-off-current", DRAIN),
        ("key-off-current-high", DRAIN),
        ("key-off-current-high-early", DRAIN),
        ("key-off-current-not-final", DRAIN),
        ("key-off-current-backwards", DRAIN),
        ("key-off-stage", &[]),
        ("sleep-time", &["stages", "off_seen"]),
        ("wake-ups", &["mean_a", "longest_s"]),
        ("wake-ups-draining", &["mean_a", "longest_s"]),
    ],
};

const DROP: &[&str] = &["drop_v", "current_a"];
const COMPRESSION: &[&str] = &["cylinders", "cycles", "weak", "basis", "each", "times"];
const RIPPLE: &[&str] = &["order_missing", "hz", "order"];
const DRAIN: &[&str] = &["ah_a_day", "days", "since_off_min"];
