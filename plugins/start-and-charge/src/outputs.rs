//! All that the analyzers of this system give: kinds with units, messages with their arguments.

/// Kinds of findings, each with the unit of its value; an empty one for kinds without a value.
pub const KINDS: &[(&str, &str)] = &[
    ("rest-voltage", "V"),
    ("cranking-voltage-low", "V"),
    ("inrush-current", "A"),
    ("cranking-current", "A"),
    ("battery-resistance", "mohm"),
    ("ground-resistance", "mohm"),
    ("feed-resistance", "mohm"),
    ("cranking-speed", "rpm"),
    ("compression-rate", "Hz"),
    ("relative-compression", "%"),
    ("charging-voltage", "V"),
    ("ripple", "V"),
    ("key-off-current", "A"),
    ("key-off-stage", "A"),
    ("sleep-time", "s"),
    ("wake-ups", "count"),
];

/// Messages, each with the names of its arguments.
pub const MESSAGES: &[(&str, &[&str])] = &[
    ("rest-voltage", &[]),
    ("rest-voltage-low", &[]),
    ("cranking-voltage", &["inrush_v"]),
    ("cranking-voltage-low", &["inrush_v"]),
    ("inrush-current", &[]),
    ("cranking-current", &["share_percent"]),
    ("cranking-current-high", &["share_percent"]),
    ("cranking-current-alone", &[]),
    ("battery-resistance", &["bound"]),
    ("battery-resistance-high", &["bound"]),
    ("ground-resistance", &["drop_v", "current_a"]),
    ("ground-resistance-high", &["drop_v", "current_a"]),
    ("feed-resistance", &["drop_v", "current_a"]),
    ("feed-resistance-high", &["drop_v", "current_a"]),
    ("cranking-speed", &["cylinders"]),
    ("cranking-speed-low", &["cylinders"]),
    ("compression-rate", &[]),
    ("relative-compression-even", COMPRESSION),
    ("relative-compression-low", COMPRESSION),
    ("relative-compression-unclear", COMPRESSION),
    ("relative-compression-short", COMPRESSION),
    ("charging-voltage", &["current_a"]),
    ("charging-voltage-low", &["current_a"]),
    ("charging-voltage-low-discharging", &["current_a"]),
    ("charging-voltage-high", &["current_a"]),
    ("ripple-even", RIPPLE),
    ("ripple-order-missing", RIPPLE),
    ("ripple-speed-unknown", RIPPLE),
    ("ripple-too-coarse", RIPPLE),
    ("ripple-not-alternator", RIPPLE),
    ("ripple-none", &["least_v"]),
    ("key-off-current", DRAIN),
    ("key-off-current-high", DRAIN),
    ("key-off-current-high-early", DRAIN),
    ("key-off-current-not-final", DRAIN),
    ("key-off-stage", &[]),
    ("sleep-time", &["stages", "off_seen"]),
    ("wake-ups", &["mean_a", "longest_s"]),
    ("wake-ups-draining", &["mean_a", "longest_s"]),
];

const COMPRESSION: &[&str] = &["cylinders", "cycles", "weak", "basis", "each"];
const RIPPLE: &[&str] = &["order_missing", "hz", "order"];
const DRAIN: &[&str] = &["ah_a_day", "days", "since_off_min"];
