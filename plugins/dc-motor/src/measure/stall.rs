//! A motor that is driven and does not turn.

use super::run::Run;
use plugin_sdk::signal::Measured;
use plugin_sdk::signal::windows::{average, median};

/// A stretch at the current of a standing motor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stall {
    /// Duration, s, with its span.
    pub duration: Measured,
    /// Median current, A.
    pub current: f64,
    /// True where the current rose to its inrush over tenths of a second, as under a voltage that is raised gradually: then
    /// it is none of a standing motor, whose current takes some L/R, milliseconds.
    pub rose_slowly: bool,
}

/// Share of the inrush above which a motor stands.
const STANDS: f64 = 0.82;
/// Shortest stall, s.
const SHORTEST_S: f64 = 0.2;
/// Longest rise of an inrush from a fifth of it to [`STANDS`], s: 1.5 times an L/R of 60 ms, above that of any small motor.
/// Judgement.
const LONGEST_RISE_S: f64 = 0.1;

/// Finds the longest stretch at 0.82 of the inrush or more for 0.2 s or longer. A motor that starts leaves that level
/// within some of its time constants. `None` where there is none, or where the start was not recorded and no
/// inrush is known.
pub fn stall(current: &[f64], start_s: f64, step_s: f64, run: &Run, inrush: f64) -> Option<Stall> {
    let samples = |s: f64| ((s / step_s).round() as usize).max(1);
    let level = average(current.get(run.on..run.off)?, samples(0.01));
    let share = |of: f64| run.rest + of * (inrush - run.rest);
    let threshold = share(STANDS);
    let first = |least: f64| level.iter().position(|v| *v >= least);
    let rise = first(threshold).zip(first(share(0.2)));
    let rose_slowly = rise.is_some_and(|(to, from)| to - from > samples(LONGEST_RISE_S));
    let mut longest = (0, 0);
    let mut from = None;
    for i in 0..=level.len() {
        match (from, level.get(i).is_some_and(|v| *v >= threshold)) {
            (None, true) => from = Some(i),
            (Some(a), false) => {
                if i - a > longest.1 - longest.0 {
                    longest = (a, i);
                }
                from = None;
            }
            _ => {}
        }
    }
    let (from, to) = longest;
    let lasting = to - from >= samples(SHORTEST_S);
    lasting.then(|| Stall {
        duration: Measured {
            value: (to - from) as f64 * step_s,
            uncertainty: (0.005f64).max(step_s),
            from_s: start_s + (run.on + from) as f64 * step_s,
            to_s: start_s + (run.on + to) as f64 * step_s,
        },
        current: median(&current[run.on + from..run.on + to]).unwrap_or(f64::NAN),
        rose_slowly,
    })
}

/// Voltage that the motor gives just after it is switched off, as a share of that while it was on: back-EMF of one
/// that turned. `None` where the end was not recorded, or where the voltage falls at once, which a freewheeling
/// diode or a brake also makes it do.
pub fn back_emf_after_off(voltage: &[f64], step_s: f64, run: &Run) -> Option<f64> {
    let samples = |s: f64| ((s / step_s).round() as usize).max(1);
    let after = voltage.get(run.off + samples(0.004)..run.off + samples(0.014))?;
    let on = median(
        voltage
            .get(run.off.saturating_sub(samples(0.05))..run.off.saturating_sub(samples(0.005)))?,
    )?;
    let share = median(after)? / on;
    (on > 1.0 && (0.1..0.98).contains(&share)).then_some(share)
}
