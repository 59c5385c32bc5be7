//! Edge lists: what a logic analyser leaves behind, one line for every change of level.

use crate::noise::Noise;
use crate::traces::Rotation;
use crate::wheel::Wheel;
use std::fmt::Write;

/// A digital channel: its name, its level at the start, the times of its changes in s, ascending.
#[derive(Debug, Clone, PartialEq)]
pub struct EdgeChannel {
    /// Name in the file.
    pub name: String,
    /// Level before the first change.
    pub initial: bool,
    /// Times of the changes, s.
    pub changes: Vec<f64>,
}

/// Spikes beside the true edges, as unshielded wires and comparators without hysteresis give them.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Spikes {
    /// Share of the edges that bounce.
    pub share: f64,
    /// Longest spike, s.
    pub longest_s: f64,
}

/// Changes of level while a wheel turns before a two-level sensor. Between two samples of the rotation the angle is taken
/// as growing evenly; the rotation must not turn backwards.
pub fn changes(
    name: &str,
    wheel: &Wheel,
    of: &Rotation,
    rate_hz: f64,
    start_s: f64,
    spikes: Spikes,
    noise: &mut Noise,
) -> EdgeChannel {
    let edges: Vec<(f64, bool)> = wheel.changes().collect();
    let initial = of.turns.first().is_some_and(|&x| wheel.covers(x));
    let mut level = initial;
    let mut changes = Vec::new();
    for (i, pair) in of.turns.windows(2).enumerate() {
        let (a, b) = (pair[0], pair[1]);
        if b <= a {
            continue;
        }
        for turn in a.floor() as i64..=b.floor() as i64 {
            for &(angle, high) in &edges {
                let x = turn as f64 + angle;
                if x <= a || x > b || high == level {
                    continue;
                }
                let t = start_s + (i as f64 + (x - a) / (b - a)) / rate_hz;
                level = high;
                changes.push(t);
                if noise.chance(spikes.share) {
                    let gap = noise.between(0.2, 1.0) * spikes.longest_s;
                    let width = noise.between(0.1, 1.0) * spikes.longest_s;
                    changes.extend([t + gap, t + gap + width]);
                }
            }
        }
    }
    EdgeChannel {
        name: name.into(),
        initial,
        changes,
    }
}

/// The text of an edge list: a header without units, then a line for the start and one for each change, with the time in
/// seconds and the level of every channel.
pub fn write(channels: &[EdgeChannel], start_s: f64, digits: usize) -> String {
    let mut text = String::from("time");
    channels
        .iter()
        .for_each(|c| text += &format!(",{}", c.name));
    text.push('\n');
    let mut levels: Vec<bool> = channels.iter().map(|c| c.initial).collect();
    let mut all: Vec<(f64, usize)> = channels
        .iter()
        .enumerate()
        .flat_map(|(k, c)| c.changes.iter().map(move |&t| (t, k)))
        .collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut line = |t: f64, levels: &[bool]| {
        let _ = write!(text, "{t:.digits$}");
        levels
            .iter()
            .for_each(|&l| text += if l { ",1" } else { ",0" });
        text.push('\n');
    };
    line(start_s, &levels);
    for (t, k) in all {
        levels[k] = !levels[k];
        line(t, &levels);
    }
    text
}
