//! Growing pauses between attempts.

use backon::{BackoffBuilder, ExponentialBuilder};
use std::time::Duration;

/// Pauses that double from the first one up to the longest, without an end.
#[derive(Debug)]
pub struct Backoff {
    longest: Duration,
    pauses: backon::ExponentialBackoff,
}

impl Backoff {
    /// Begins with a pause of `first`, at most `longest`.
    pub fn new(first: Duration, longest: Duration) -> Backoff {
        let pauses = ExponentialBuilder::new()
            .with_min_delay(first.min(longest))
            .with_max_delay(longest)
            .with_factor(2.0)
            .without_max_times()
            .build();
        Backoff { longest, pauses }
    }

    /// Returns the next pause.
    pub fn next_pause(&mut self) -> Duration {
        self.pauses.next().unwrap_or(self.longest)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pauses_double_up_to_the_longest() {
        let mut backoff = Backoff::new(Duration::from_secs(1), Duration::from_secs(5));
        let pauses: Vec<u64> = (0..5).map(|_| backoff.next_pause().as_secs()).collect();
        assert_eq!(pauses, [1, 2, 4, 5, 5]);
    }
}
