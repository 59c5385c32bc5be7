//! Curves that healthy units drew.

use crate::job_file::EngineState;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Range of a channel's curve over the known-good units of a shop, aligned at the onset of an event.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KnownGoodCurve {
    /// Kind of the findings at whose start it is aligned.
    pub kind: String,
    /// Message of those findings; `None` for all of the kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub message: Option<String>,
    /// Role of the channel, which is the subject of the findings.
    pub subject: String,
    /// State of the engine in the recordings; `None` where it was not stated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub engine: Option<EngineState>,
    /// Unit of the curve.
    pub unit: String,
    /// Time of the first point after the onset, s; negative before it.
    pub start_s: f64,
    /// Time from point to point, s.
    pub step_s: f64,
    /// 5 % quantile over the vehicles at each point, in `unit`.
    pub low: Vec<f64>,
    /// 95 % quantile at each point, in `unit`.
    pub high: Vec<f64>,
    /// Number of vehicles, each counted once.
    pub vehicles: usize,
}

impl KnownGoodCurve {
    /// Pieces of the curve for an event that begins at `onset_s`, in the recording's own time: from, until, lowest and
    /// highest good value.
    pub fn pieces(&self, onset_s: f64) -> impl Iterator<Item = (f64, f64, f64, f64)> + '_ {
        let ends = self.low.iter().zip(&self.high).enumerate();
        ends.map(move |(i, (low, high))| {
            let middle = onset_s + self.start_s + i as f64 * self.step_s;
            let half = self.step_s / 2.0;
            (middle - half, middle + half, *low, *high)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_follow_each_other_without_a_gap() {
        let curve = KnownGoodCurve {
            kind: "run".into(),
            message: None,
            subject: "motor".into(),
            engine: None,
            unit: "A".into(),
            start_s: -0.1,
            step_s: 0.1,
            low: vec![0.0, 1.0, 2.0],
            high: vec![1.0, 2.0, 3.0],
            vehicles: 20,
        };
        let pieces: Vec<_> = curve.pieces(5.0).collect();
        assert_eq!(pieces.len(), 3);
        assert!((pieces[0].0 - 4.85).abs() < 1e-9 && (pieces[2].1 - 5.15).abs() < 1e-9);
        assert!(pieces.windows(2).all(|p| (p[0].1 - p[1].0).abs() < 1e-9));
        assert_eq!((pieces[1].2, pieces[1].3), (1.0, 2.0));
    }
}
