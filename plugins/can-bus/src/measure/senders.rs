//! Levels by sender: what one node alone puts on the lines while it sends data and CRC.

use super::decode::Received;
use super::edges::Logic;
use super::frame::Identifier;
use super::levels::{Picked, State};
use plugin_sdk::signal::stats;
use std::collections::BTreeMap;

/// Share of a bit next to an edge that is left out.
const GUARD_BITS: f64 = 0.3;

/// Observations of the node that sends an identifier.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sender {
    /// Identifier.
    pub id: Identifier,
    /// Its frames.
    pub frames: usize,
    /// Levels of its dominant bits.
    pub dominant: State,
}

/// Levels of the dominant bits of each identifier, without arbitration and acknowledge, in which several nodes drive.
pub fn senders(
    high: &[f32],
    low: &[f32],
    logic: &Logic,
    bit: f64,
    frames: &[Received],
) -> Vec<Sender> {
    let n = high.len().min(low.len());
    let mut picked: BTreeMap<Identifier, (usize, Picked)> = BTreeMap::new();
    for frame in frames {
        let entry = picked.entry(frame.frame.id).or_default();
        entry.0 += 1;
        let first = logic.edges.partition_point(|e| e.at < frame.alone_from);
        for pair in logic.edges[first..].windows(2) {
            if pair[0].at > frame.alone_to {
                break;
            }
            if !pair[0].dominant {
                continue;
            }
            let from = (pair[0].at + GUARD_BITS * bit).ceil() as usize;
            let to = (pair[1].at.min(frame.alone_to) - GUARD_BITS * bit).floor();
            if to >= from as f64 && to < n as f64 {
                entry
                    .1
                    .take(&high[from..=to as usize], &low[from..=to as usize]);
            }
        }
    }
    picked
        .into_iter()
        .filter_map(|(id, (frames, picked))| {
            Some(Sender {
                id,
                frames,
                dominant: picked.state()?,
            })
        })
        .collect()
}

/// A node whose ground lies off that of the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offset {
    /// The identifier with the largest offset.
    pub id: Identifier,
    /// Common mode of its dominant bits less that of the others, V.
    pub volts: f64,
    /// Standard uncertainty (k = 1), V.
    pub uncertainty: f64,
    /// Number of identifiers that lie off alike.
    pub identifiers: usize,
    /// Number of identifiers compared.
    pub of: usize,
}

/// The identifier whose dominant common mode lies farthest from the others' median. `None` with fewer than two.
pub fn offset(senders: &[Sender]) -> Option<Offset> {
    let modes: Vec<f64> = senders.iter().map(|s| s.dominant.common_mode()).collect();
    // With two senders the one farther from the middle of a 5 V supply is off; with more, the median decides.
    let reference = match modes.len() {
        0 | 1 => return None,
        2 => *modes
            .iter()
            .min_by(|a, b| (*a - 2.5).abs().total_cmp(&(*b - 2.5).abs()))?,
        _ => stats::median(&modes)?,
    };
    let farthest = senders.iter().max_by(|a, b| {
        let off = |s: &Sender| (s.dominant.common_mode() - reference).abs();
        off(a).total_cmp(&off(b))
    })?;
    let volts = farthest.dominant.common_mode() - reference;
    let alike = modes
        .iter()
        .filter(|&&m| (m - reference) * volts.signum() > 0.6 * volts.abs())
        .count();
    let own = farthest.dominant;
    Some(Offset {
        id: farthest.id,
        volts,
        uncertainty: own.high.uncertainty.hypot(own.low.uncertainty) / 2.0,
        identifiers: alike,
        of: senders.len(),
    })
}
