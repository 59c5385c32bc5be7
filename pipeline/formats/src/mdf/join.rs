//! Channel groups with a time each, brought onto one.

use model::{Channel, Problem, Samples};

/// The instants of a group.
pub(super) struct Time {
    /// Seconds, never decreasing.
    pub stamps: Vec<f64>,
    /// Resolution of the stamps, s.
    pub resolution: f64,
}

/// Content of one group, or of several once they are joined.
pub(super) struct Recording {
    pub time: Time,
    pub channels: Vec<Channel>,
}

impl Recording {
    /// Adds the channels of another group. Where its instants differ, each instant of this recording gets
    /// the other's latest value, and that is said.
    pub fn join(&mut self, other: Recording, file: &str, problems: &mut Vec<Problem>) {
        if other.channels.is_empty() {
            return;
        }
        let own = &self.time.stamps;
        let step = usual_step(own);
        let same = own.len() == other.time.stamps.len()
            && own
                .iter()
                .zip(&other.time.stamps)
                .all(|(a, b)| (a - b).abs() <= 0.01 * step);
        if same {
            self.channels.extend(other.channels);
            return;
        }
        let picks = latest(own, &other.time.stamps);
        let names: Vec<&str> = other.channels.iter().map(|c| c.name.as_str()).collect();
        problems.push(Problem {
            file: file.into(),
            place: Some(format!("channel(s) {}", names.join(", "))),
            message: format!(
                "recorded at other instants than the rest ({} samples of {}); each instant was given the latest \
                 value. Record all channels together where their timing matters",
                other.time.stamps.len(),
                own.len()
            ),
        });
        self.channels.extend(other.channels.into_iter().map(|c| {
            let held = |pick: &Option<usize>| pick.map_or(f32::NAN, |i| c.samples.raw(i) as f32);
            Channel {
                samples: Samples::F32(picks.iter().map(held).collect::<Vec<_>>().into()),
                ..c
            }
        }));
    }
}

fn usual_step(stamps: &[f64]) -> f64 {
    match (stamps.first(), stamps.last()) {
        (Some(first), Some(last)) if stamps.len() > 1 => (last - first) / (stamps.len() - 1) as f64,
        _ => 0.0,
    }
}

/// For each instant the index of the latest of the other stamps; `None` before the first of them, and
/// where the latest is older than two of their usual intervals.
fn latest(instants: &[f64], stamps: &[f64]) -> Vec<Option<usize>> {
    let step = usual_step(stamps);
    let mut next = 0;
    let pick = |t: &f64| {
        // Half a thousandth of an interval forgives rounding.
        while stamps.get(next).is_some_and(|s| *s <= t + 5e-4 * step) {
            next += 1;
        }
        let at = next.checked_sub(1)?;
        (t - stamps[at] <= 2.0 * step).then_some(at)
    };
    instants.iter().map(pick).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_latest_value_holds_until_the_next() {
        let picks = latest(&[0.0, 1.0, 2.0, 3.0, 4.0, 9.0], &[1.0, 2.5, 4.0]);
        assert_eq!(picks, [None, Some(0), Some(0), Some(1), Some(2), None]);
    }
}
