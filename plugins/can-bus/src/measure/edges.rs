//! The logic signal behind a voltage: edges between recessive and dominant.

/// An edge, in samples from the record's first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Crossing of the middle between both thresholds, in samples, interpolated.
    pub at: f64,
    /// True where the bus becomes dominant.
    pub dominant: bool,
}

/// A logic signal: its edges, alternating.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Logic {
    /// Edges in order.
    pub edges: Vec<Edge>,
    /// True where the record begins dominant.
    pub starts_dominant: bool,
    /// Number of samples.
    pub samples: usize,
}

/// Thresholds of a comparator, V: dominant from `dominant` on, recessive again from `recessive` on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thresholds {
    /// At or below it the signal is recessive.
    pub recessive: f64,
    /// At or above it the signal is dominant.
    pub dominant: f64,
}

/// The receiver of ISO 11898-2: differential at least 0.9 V is dominant, at most 0.5 V recessive (data sheets TCAN4420
/// and SN65HVD23x, which cite the standard).
pub const RECEIVER: Thresholds = Thresholds {
    recessive: 0.5,
    dominant: 0.9,
};

impl Logic {
    /// Slices the samples. Values that are not finite keep the state that was.
    pub fn slice(values: impl IntoIterator<Item = f64>, thresholds: Thresholds) -> Logic {
        let mid = (thresholds.recessive + thresholds.dominant) / 2.0;
        let mut logic = Logic::default();
        let mut dominant = false;
        let mut known = false;
        // The last crossing of the middle while the signal is between the thresholds.
        let mut crossing = 0.0;
        let mut before = f64::NAN;
        let mut index = 0usize;
        for v in values {
            if v.is_finite() {
                if before.is_finite() && (before < mid) != (v < mid) {
                    crossing = index as f64 - (v - mid) / (v - before);
                }
                let next = if v >= thresholds.dominant {
                    true
                } else if v <= thresholds.recessive {
                    false
                } else {
                    dominant
                };
                if !known {
                    dominant = v > mid;
                    logic.starts_dominant = dominant;
                    known = true;
                } else if next != dominant {
                    logic.edges.push(Edge {
                        at: crossing,
                        dominant: next,
                    });
                    dominant = next;
                }
                before = v;
            }
            index += 1;
        }
        logic.samples = index;
        logic
    }

    /// Edges that become dominant: distances between them are whole bits however slowly the bus becomes recessive.
    pub fn dominant_edges(&self) -> impl Iterator<Item = f64> + '_ {
        self.edges.iter().filter(|e| e.dominant).map(|e| e.at)
    }
}
