//! Numbers of the spec sheet, with defaults for sheets that leave them out.

use crate::Limit;
use crate::settings::SpecNumber;
use std::collections::BTreeMap;

/// Numbers of the spec sheet by name.
#[derive(Debug, Clone, Copy)]
pub struct Spec<'a>(pub &'a BTreeMap<String, SpecNumber>);

/// Name, nominal, low, high, unit.
type Row = (
    &'static str,
    Option<f64>,
    Option<f64>,
    Option<f64>,
    &'static str,
);

/// Defaults. Common practice or reasoning, no source, unless the comment says otherwise; the sheets of a real unit
/// replace them.
const DEFAULTS: &[Row] = &[
    // A smaller event is ripple of the controller.
    ("least-hit-peak", Some(2.0), None, None, "A"),
    ("clutch-hit-peak", None, Some(9.0), Some(19.0), "A"),
    // A hit is over in 0.1 to 0.3 s.
    ("stall-hold", Some(0.4), None, None, "s"),
    ("stall-share", Some(0.7), None, None, "1"),
    ("quiescent-current", None, Some(-0.3), Some(2.8), "A"),
    ("clamp-accuracy", Some(1.5), None, None, "%"),
    ("least-turning-speed", Some(20.0), None, None, "rpm"),
    ("least-tooth-rate", Some(8.0), None, None, "Hz"),
    ("hall-swing", Some(2.5), None, None, "V"),
    // 250 N m of clutch torque on an input shaft with its clutch disc of 0.02 kg m2 (reasoning).
    ("most-acceleration", Some(120_000.0), None, None, "rpm/s"),
    ("parked-input-speed", None, None, Some(30.0), "rpm"),
    // How long a shaft must keep its speed to be driven, not coasting.
    ("steady-turning", Some(2.0), None, None, "s"),
    // How long after a clutch hit the clutch may still be applied by command.
    ("command-hold", Some(0.6), None, None, "s"),
    ("idle-speed", None, Some(550.0), Some(1100.0), "rpm"),
    // Training material quotes 0.1 to 0.5 V for one connection; more than 1 V is usually a fault.
    ("supply-sag", None, None, Some(1.5), "V"),
    ("ground-drop", None, None, Some(0.5), "V"),
    ("feed-resistance", None, None, Some(0.05), "ohm"),
    ("slip", None, None, Some(80.0), "rpm"),
    ("shift-time", None, None, Some(0.8), "s"),
    ("least-record", Some(1.0), None, None, "s"),
];

const DEFAULT_SOURCE: &str = "common practice, no source";

impl Spec<'_> {
    fn find(&self, name: &str) -> SpecNumber {
        if let Some(n) = self.0.get(name) {
            return n.clone();
        }
        let d = DEFAULTS.iter().find(|d| d.0 == name);
        d.map_or_else(SpecNumber::default, |d| SpecNumber {
            nominal: d.1,
            low: d.2,
            high: d.3,
            unit: d.4.into(),
            source: DEFAULT_SOURCE.into(),
        })
    }

    /// Whether the sheet or the defaults know the number.
    pub fn knows(&self, name: &str) -> bool {
        self.0.contains_key(name) || DEFAULTS.iter().any(|d| d.0 == name)
    }

    /// The nominal value, else the upper, else the lower end of the range; NaN for a name that neither the
    /// sheet nor the defaults know (a comparison with it is never true).
    pub fn number(&self, name: &str) -> f64 {
        let n = self.find(name);
        n.nominal.or(n.high).or(n.low).unwrap_or(f64::NAN)
    }

    /// The lower end of the range; negative infinity when there is none.
    pub fn low(&self, name: &str) -> f64 {
        self.find(name).low.unwrap_or(f64::NEG_INFINITY)
    }

    /// The upper end of the range; infinity when there is none.
    pub fn high(&self, name: &str) -> f64 {
        self.find(name).high.unwrap_or(f64::INFINITY)
    }

    /// The range as a finding's limit.
    pub fn limit(&self, name: &str) -> Limit {
        let n = self.find(name);
        Limit {
            low: n.low,
            high: n.high,
            unit: n.unit,
            source: n.source,
        }
    }
}
