//! Figures of a worker and of the queue, as OpenMetrics text.

use crate::QueueFigures;
use prometheus_client::encoding::text::encode;
use prometheus_client::metrics::counter::Counter;
use prometheus_client::metrics::family::Family;
use prometheus_client::metrics::gauge::Gauge;
use prometheus_client::metrics::histogram::{Histogram, exponential_buckets};
use prometheus_client::registry::{Registry, Unit};
use std::sync::atomic::AtomicU64;

type Labels = [(&'static str, String); 1];

/// Figures of a worker.
#[derive(Debug)]
pub struct Metrics {
    registry: Registry,
    jobs: Family<Labels, Counter>,
    stages: Family<Labels, Histogram>,
    queue: Family<Labels, Gauge>,
    oldest: Family<Labels, Gauge<f64, AtomicU64>>,
}

impl Default for Metrics {
    fn default() -> Self {
        let mut registry = Registry::with_prefix("baybrief");
        let jobs: Family<Labels, Counter> = Family::default();
        // Zero from the start: a rate needs a first value.
        for result in ["done", "outdated", "retried", "failed"] {
            let _ = jobs.get_or_create(&[("result", result.into())]);
        }
        registry.register(
            "jobs",
            "Claims that ended: done, outdated, retried, failed",
            jobs.clone(),
        );
        let stages: Family<Labels, Histogram> =
            Family::new_with_constructor(|| Histogram::new(exponential_buckets(0.01, 2.0, 14)));
        registry.register_with_unit(
            "stage",
            "Time by stage: fetch, work, put, finish",
            Unit::Seconds,
            stages.clone(),
        );
        let queue = Family::default();
        registry.register("queue_jobs", "Jobs by state, of all shops", queue.clone());
        let oldest = Family::default();
        registry.register_with_unit(
            "queue_oldest",
            "Time since the oldest job of a state was queued",
            Unit::Seconds,
            oldest.clone(),
        );
        Metrics {
            registry,
            jobs,
            stages,
            queue,
            oldest,
        }
    }
}

impl Metrics {
    /// Counts the end of a claim.
    pub(crate) fn ended(&self, how: &'static str) {
        self.jobs.get_or_create(&[("result", how.into())]).inc();
    }

    /// Notes the time that a stage took, s.
    pub(crate) fn took(&self, stage: &'static str, seconds: f64) {
        self.stages
            .get_or_create(&[("stage", stage.into())])
            .observe(seconds);
    }

    /// The figures as OpenMetrics text, with those of the queue.
    pub fn text(&self, queue: &[QueueFigures]) -> String {
        for state in ["waiting", "running", "failed"] {
            let of = queue.iter().find(|f| f.state == state);
            let label = || [("state", state.to_owned())];
            self.queue
                .get_or_create(&label())
                .set(of.map_or(0, |f| f.jobs));
            self.oldest
                .get_or_create(&label())
                .set(of.and_then(|f| f.oldest_s).unwrap_or(0.0));
        }
        let mut text = String::new();
        // Writing into a string cannot fail.
        let _ = encode(&mut text, &self.registry);
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// OpenMetrics 1.0 (from memory): counters end in `_total`, the text in `# EOF`.
    #[test]
    fn figures_as_text() {
        let metrics = Metrics::default();
        metrics.ended("done");
        metrics.took("work", 0.3);
        let text = metrics.text(&[QueueFigures {
            state: "waiting".into(),
            jobs: 7,
            oldest_s: Some(1.5),
        }]);
        for line in [
            "baybrief_jobs_total{result=\"done\"} 1",
            "baybrief_queue_jobs{state=\"waiting\"} 7",
            "baybrief_queue_jobs{state=\"failed\"} 0",
            "baybrief_queue_oldest_seconds{state=\"waiting\"} 1.5",
            "baybrief_stage_seconds_count{stage=\"work\"} 1",
            "# EOF",
        ] {
            assert!(text.lines().any(|l| l == line), "{line} in\n{text}");
        }
    }
}
