//! Relative compression: how evenly an engine's cylinders load the starter while it is cranked.
//!
//! Each compression stroke slows the starter and raises its current. A cylinder that does not compress leaves a low
//! hump. The current says nothing of which cylinder comes first; the one that compresses best is the yardstick.

mod humps;

pub use humps::{Cranking, cranking};

use crate::LIMITS;
use plugin_sdk::{Analyzer, ChannelView, Declaration, Grade, Input, Limits, Observation, Output};

/// Arguments of every message.
const CYCLES: &[&str] = &["cylinders", "cycles", "weak"];

/// The analyzer.
pub struct CrankingCompression;

impl Analyzer for CrankingCompression {
    const DECLARATION: Declaration = Declaration {
        id: "cranking-compression",
        name: "Relative compression",
        needs: &["other"],
        kinds: &[("cranking-speed", "rpm"), ("relative-compression", "%")],
        messages: &[
            ("cranking-speed", CYCLES),
            ("relative-compression-low", CYCLES),
            ("relative-compression-unclear", CYCLES),
            ("relative-compression-even", CYCLES),
            ("relative-compression-short", CYCLES),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let limits = LIMITS.with(&input.settings);
        let starters = input
            .channels
            .iter()
            .filter(|c| c.role == "other" && c.unit == "A");
        for channel in starters {
            if let Some(cranking) = cranking(&channel.values(), channel.time) {
                observe(channel, &cranking, &limits, out);
            }
        }
        Ok(())
    }
}

/// Fewest engine cycles from which cylinders are compared.
const FEWEST_CYCLES: usize = 3;

fn observe(channel: &ChannelView<'_>, cranking: &Cranking, limits: &Limits<'_>, out: &mut Output) {
    let said = limits.number("cylinders");
    let cylinders = if said >= 1.0 { said as usize } else { 4 };
    let cycles = cranking.heights.len() / cylinders;
    // In two turns every cylinder of a four-stroke engine compresses once.
    let speed = 120.0 / (cylinders as f64 * cranking.period_s);
    let about = |kind: &str, message: &str| {
        Observation::new(kind, message)
            .about(channel.role)
            .span(cranking.start_s, cranking.end_s)
            .arg("cylinders", cylinders)
            .arg("cycles", cycles)
    };
    let count = cranking.heights.len().max(1) as f64;
    out.add(about("cranking-speed", "cranking-speed").value(speed, speed / count, "rpm"));
    if cycles < FEWEST_CYCLES {
        out.add(about("relative-compression", "relative-compression-short").grade(Grade::Unusable));
        return;
    }
    let each: Vec<(f64, f64)> = (0..cylinders)
        .map(|slot| mean(cranking.heights.iter().skip(slot).step_by(cylinders)))
        .collect();
    let by_height = |a: &&(f64, f64), b: &&(f64, f64)| a.0.total_cmp(&b.0);
    let (Some(&best), Some(&worst)) =
        (each.iter().max_by(by_height), each.iter().min_by(by_height))
    else {
        return;
    };
    if best.0 <= 0.0 {
        return;
    }
    let share = 100.0 * worst.0 / best.0;
    // Independent contributions of both means (GUM).
    let uncertainty = (100.0 * worst.1 / best.0).hypot(share * best.1 / best.0);
    let low = limits.low("relative-compression");
    let (message, grade) = if share + 2.0 * uncertainty < low {
        ("relative-compression-low", Grade::Abnormal)
    } else if share - 2.0 * uncertainty < low {
        ("relative-compression-unclear", Grade::Unusable)
    } else {
        ("relative-compression-even", Grade::Normal)
    };
    let weak = each.iter().filter(|e| 100.0 * e.0 / best.0 < low).count();
    out.add(
        about("relative-compression", message)
            .value(share, uncertainty, "%")
            .limit(limits.limit("relative-compression"))
            .arg("weak", weak)
            .grade(grade),
    );
}

/// Mean and its standard uncertainty (k = 1).
fn mean<'a>(values: impl Iterator<Item = &'a f64>) -> (f64, f64) {
    let values: Vec<f64> = values.copied().collect();
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|v| (v - mean) * (v - mean)).sum();
    (mean, (squares / (n - 1.0).max(1.0) / n).sqrt())
}
