//! When samples were taken.

/// When samples were taken, s.
#[derive(Debug, Clone, Copy)]
pub enum Time<'a> {
    /// Sample `i` at `start_s + i * step_s`.
    Even {
        /// Time of the first sample, s.
        start_s: f64,
        /// Sample interval, s, greater than zero.
        step_s: f64,
    },
    /// Listed instants, s, never decreasing.
    Listed(&'a [f64]),
}

impl Time<'_> {
    /// Time of sample `i`, s. Panics when a listed axis is shorter.
    pub fn at(&self, i: usize) -> f64 {
        match self {
            Time::Even { start_s, step_s } => start_s + i as f64 * step_s,
            Time::Listed(t) => t[i],
        }
    }

    /// Time of the fractional index `x`, s, by linear interpolation.
    pub fn between(&self, x: f64) -> f64 {
        match self {
            Time::Even { start_s, step_s } => start_s + x * step_s,
            Time::Listed(t) => {
                let i = (x.max(0.0) as usize).min(t.len().saturating_sub(1));
                let j = (i + 1).min(t.len() - 1);
                t[i] + (x - i as f64) * (t[j] - t[i])
            }
        }
    }

    /// Index of the first sample at or after `t`, at most `len`.
    pub fn index_at(&self, t: f64, len: usize) -> usize {
        match self {
            Time::Even { start_s, step_s } => {
                (((t - start_s) / step_s - 1e-9).ceil().max(0.0) as usize).min(len)
            }
            Time::Listed(ts) => ts.partition_point(|&x| x < t).min(len),
        }
    }

    /// Mean sample interval over `len` samples, s; `None` with fewer than two.
    pub fn mean_step(&self, len: usize) -> Option<f64> {
        (len > 1).then(|| (self.at(len - 1) - self.at(0)) / (len - 1) as f64)
    }
}
