//! Termination from the dominant differential voltage.
//!
//! A transceiver is a source behind its output resistance: V = V0 R / (R + Rd). Its data sheets give about 2.0 V at
//! 60 ohm (CAN high 3.5 V, CAN low 1.5 V) and 5 V less two diode drops without a load. Both differ from part to part,
//! so that only a mean over several senders carries a limit.

use super::senders::Sender;
use plugin_sdk::signal::stats;

/// Differential of a transceiver without a load, V: 5 V less a diode and a saturated transistor on either side
/// (structure of the output stage in TCAN1042-Q1, SLLSES9C; the drop from memory).
const SOURCE: f64 = 3.75;
/// Differential at 60 ohm, V: nominal levels 3.5 V and 1.5 V of ISO 11898-2.
const NOMINAL: f64 = 2.0;
/// The load of a bus with both terminators, ohm.
const LOAD: f64 = 60.0;
/// Output resistance of a transceiver that gives the nominal differential, ohm.
const OUTPUT: f64 = LOAD * (SOURCE - NOMINAL) / NOMINAL;
/// Relative spread of one transceiver's differential about the nominal one (judgement: the limits of data sheets, 1.5
/// to 3 V, are far wider than parts are).
const SPREAD: f64 = 0.12;
/// Relative uncertainty common to all, from supply and temperature and because the nodes of a bus often have one maker's
/// transceivers (judgement).
const COMMON: f64 = 0.07;
/// Resistance that a decay of 1 us shows at least, ohm: with 3 nF.
const LEAST_UNTERMINATED: f64 = 330.0;
/// Largest resistance that the levels can tell, ohm.
const MOST: f64 = 1_000.0;

/// Time constant of the decay from which neither end is terminated, s: 60 ohm with the largest usual capacitance, 3 nF
/// (30 nodes of 100 pF, ISO 11898-2 as data sheets quote it), give 0.2 us, 120 ohm 0.4 us.
pub const UNTERMINATED_S: f64 = 1e-6;

/// Basis of a termination.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// Dominant levels of senders that drive alone.
    Levels,
    /// The slow fall of the differential: the resistance is at least this.
    Decay,
}

/// A termination estimate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Termination {
    /// Resistance between the lines, ohm.
    pub ohm: f64,
    /// Standard uncertainty (k = 1), ohm.
    pub uncertainty: f64,
    /// Its basis.
    pub basis: Basis,
    /// Identifiers whose levels it rests on.
    pub senders: usize,
    /// Median differential of the senders, V.
    pub differential: f64,
    /// Relative standard uncertainty of the differential of sound transceivers at a given load.
    pub spread: f64,
}

impl Termination {
    /// Distance of the differential from that of a load, ohm, in standard deviations of sound transceivers: positive
    /// where the lines are farther apart.
    pub fn distance(&self, load: f64) -> f64 {
        let expected = SOURCE * load / (load + OUTPUT);
        (self.differential / expected - 1.0) / self.spread
    }
}

/// Estimates the termination. `None` without senders.
pub fn estimate(senders: &[Sender]) -> Option<Termination> {
    let each: Vec<f64> = senders
        .iter()
        .map(|s| s.dominant.differential.volts)
        .collect();
    let differential = stats::median(&each)?;
    if differential <= 0.0 {
        return None;
    }
    let rest = (SOURCE - differential).max(OUTPUT * differential / MOST);
    let ohm = OUTPUT * differential / rest;
    // dR / R = (dV / V) V0 / (V0 - V).
    let spread = (SPREAD / (distinct(&each) as f64).sqrt()).hypot(COMMON);
    Some(Termination {
        basis: Basis::Levels,
        ohm,
        uncertainty: ohm * spread * SOURCE / rest,
        senders: each.len(),
        differential,
        spread,
    })
}

/// The estimate for a bus whose differential falls so slowly that neither end is terminated: a lower bound.
pub fn unterminated(differential: f64) -> Termination {
    Termination {
        basis: Basis::Decay,
        ohm: LEAST_UNTERMINATED,
        uncertainty: LEAST_UNTERMINATED / 4.0,
        senders: 0,
        differential,
        spread: SPREAD,
    }
}

/// Number of nodes that the identifiers surely come from: levels that differ by more than 15 mV.
fn distinct(each: &[f64]) -> usize {
    let mut sorted = each.to_vec();
    sorted.sort_by(f64::total_cmp);
    1 + sorted.windows(2).filter(|w| w[1] - w[0] > 0.015).count()
}
