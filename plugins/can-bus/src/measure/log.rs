//! Logged frames: load, periods, gaps, silent and flooding nodes.

use super::frame::{Fd, Frame, INTERMISSION, Identifier, length_code};
use plugin_sdk::signal::stats;
use std::collections::{BTreeMap, BTreeSet};

/// A frame of a log.
#[derive(Debug, Clone, PartialEq)]
pub struct Logged {
    /// Time, s.
    pub time_s: f64,
    /// Identifier.
    pub id: Identifier,
    /// Remote frame.
    pub remote: bool,
    /// The flags of a CAN FD frame.
    pub fd: Option<Fd>,
    /// Data.
    pub data: Vec<u8>,
}

/// Least number of intervals from which a period is taken.
const LEAST_INTERVALS: usize = 5;
/// Share of its intervals that lie within a quarter of the median: from `PERIODIC` on an identifier has a period, from
/// `REGULAR` on its absence says something.
const PERIODIC: f64 = 0.6;
const REGULAR: f64 = 0.9;
const NEAR_MEDIAN: f64 = 0.25;
/// Intervals longer than so many periods are gaps: a lost frame or two happen to any log.
const GAP_PERIODS: f64 = 3.5;
/// Share of an identifier's intervals that may be gaps: with more of them it sends in bursts by design.
const MOST_GAPS: f64 = 0.02;
/// Relative difference up to which two long intervals after one another are another period of the node, that of its idle state,
/// and no silences.
const SAME_PERIOD: f64 = 0.1;
/// Share of the other identifiers' frames that must go on within a gap; with fewer, the log or the bus paused.
const OTHERS_GO_ON: f64 = 0.5;
/// Window in which a flood is looked for, s.
const FLOOD_WINDOW_S: f64 = 0.05;
/// A flood: share of all frames in the window, least rate of one identifier, Hz (usual maps go to 100 Hz, some chassis
/// data to 200 Hz: common practice), and fewest other identifiers in the log.
const FLOOD_SHARE: f64 = 0.5;
const FLOOD_RATE_HZ: f64 = 450.0;
const FLOOD_OTHERS: usize = 2;

/// Traffic of one identifier.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// Identifier.
    pub id: Identifier,
    /// Frames.
    pub frames: usize,
    /// First and last frame, s.
    pub span: (f64, f64),
    /// Period, where it has one.
    pub period: Option<Period>,
    /// Stretches in which it fell silent while the others went on.
    pub gaps: Vec<Gap>,
    /// It went silent for good before the log's end while the others went on: since when, s.
    pub stopped: Option<f64>,
    /// Stretches in which it flooded the bus.
    pub floods: Vec<Flood>,
}

/// A period.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Period {
    /// Median interval, s.
    pub seconds: f64,
    /// Standard uncertainty (k = 1), s.
    pub uncertainty: f64,
    /// Share of intervals within a quarter of it.
    pub regular: f64,
}

/// A silence between two frames.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Last frame before it, s.
    pub from_s: f64,
    /// First frame after it, s.
    pub to_s: f64,
}

/// Frames of one identifier that crowd the bus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flood {
    /// First frame, s.
    pub from_s: f64,
    /// Last frame, s.
    pub to_s: f64,
    /// Rate within, Hz.
    pub rate_hz: f64,
    /// Share of all frames within, 0 to 1.
    pub share: f64,
}

/// A bus log.
#[derive(Debug, Clone, PartialEq)]
pub struct BusLog {
    /// First and last frame, s.
    pub span: (f64, f64),
    /// Frames.
    pub frames: usize,
    /// Identifiers in their order.
    pub nodes: Vec<Node>,
    /// Share of time for which frames occupied the bus, %: exact lengths with stuff bits and intermission. `None`
    /// without a bit rate, or with CAN FD frames that switch to a rate that is not stated.
    pub load: Option<f64>,
    /// False where the identifiers that stopped did so at different instants: several nodes shut down, as when the
    /// ignition is switched off.
    pub stopped_at_once: bool,
    /// Longest time without any frame, s.
    pub longest_pause: f64,
    /// Expected identifiers that never sent. Empty where none were expected.
    pub silent: Vec<Identifier>,
}

/// Measures a log. Frames in order of time. `bit_rate` in kbit/s. `None` without frames.
pub fn measure(
    frames: &[Logged],
    bit_rate: Option<f64>,
    expected: &[Identifier],
) -> Option<BusLog> {
    let (first, last) = (frames.first()?.time_s, frames.last()?.time_s);
    let mut by_id: BTreeMap<Identifier, Vec<f64>> = BTreeMap::new();
    for frame in frames {
        by_id.entry(frame.id).or_default().push(frame.time_s);
    }
    let all: Vec<f64> = frames.iter().map(|f| f.time_s).collect();
    let by_design = frames.iter().filter(|f| !is_diagnostic(f.id));
    let by_design: Vec<f64> = by_design.map(|f| f.time_s).collect();
    let crowd = by_id.len() > FLOOD_OTHERS;
    // Identifiers that nodes send by themselves, and not for a tester.
    let own: BTreeSet<Identifier> = by_id
        .iter()
        .filter(|&(&id, times)| !is_diagnostic(id) || is_scheduled(id, times, (first, last)))
        .map(|(id, _)| *id)
        .collect();
    let mut nodes: Vec<Node> = by_id
        .iter()
        .map(|(&id, times)| match own.contains(&id) {
            false => node(id, times),
            true => Node {
                floods: if crowd {
                    floods(times, &all)
                } else {
                    Vec::new()
                },
                ..with_gaps(node(id, times), times, &by_design)
            },
        })
        .collect();
    stops(&mut nodes, last, &own);
    let seen: BTreeSet<Identifier> = by_id.keys().copied().collect();
    let longest_pause = all.windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max);
    Some(BusLog {
        span: (first, last),
        frames: frames.len(),
        stopped_at_once: stopped_at_once(&nodes),
        nodes,
        load: load(frames, bit_rate),
        longest_pause,
        silent: expected
            .iter()
            .copied()
            .filter(|id| !seen.contains(id))
            .collect(),
    })
}

fn node(id: Identifier, times: &[f64]) -> Node {
    let intervals: Vec<f64> = times.windows(2).map(|w| w[1] - w[0]).collect();
    Node {
        id,
        frames: times.len(),
        span: (times[0], times[times.len() - 1]),
        period: period(&intervals),
        gaps: Vec::new(),
        stopped: None,
        floods: Vec::new(),
    }
}

fn with_gaps(node: Node, times: &[f64], all: &[f64]) -> Node {
    let gaps = node.period.map_or_else(Vec::new, |p| gaps(times, &p, all));
    Node { gaps, ..node }
}

/// True where all that stopped can have stopped at one instant: the latest last frame lies within a period, and its
/// scatter, of each.
fn stopped_at_once(nodes: &[Node]) -> bool {
    let stopped = || nodes.iter().filter(|n| n.stopped.is_some());
    let latest = stopped()
        .map(|n| n.span.1)
        .fold(f64::NEG_INFINITY, f64::max);
    stopped().all(|n| {
        let period = n.period.map_or(0.0, |p| p.seconds);
        latest - n.span.1 <= (1.0 + NEAR_MEDIAN) * period
    })
}

fn period(intervals: &[f64]) -> Option<Period> {
    if intervals.len() < LEAST_INTERVALS {
        return None;
    }
    let seconds = stats::median(intervals).filter(|&p| p > 0.0)?;
    let near = intervals
        .iter()
        .filter(|&&d| (d - seconds).abs() <= NEAR_MEDIAN * seconds)
        .count();
    let regular = near as f64 / intervals.len() as f64;
    let scatter = 1.4826 * stats::median_abs_deviation(intervals)?;
    (regular >= PERIODIC).then(|| Period {
        seconds,
        uncertainty: 1.25 * scatter / (intervals.len() as f64).sqrt(),
        regular,
    })
}

/// Frames of all identifiers between two instants, both not counted.
fn count_between(all: &[f64], from: f64, to: f64) -> usize {
    let first = all.partition_point(|&t| t <= from);
    let end = all.partition_point(|&t| t < to);
    end.saturating_sub(first)
}

fn gaps(times: &[f64], period: &Period, all: &[f64]) -> Vec<Gap> {
    let long: Vec<Gap> = times
        .windows(2)
        .filter(|w| w[1] - w[0] > GAP_PERIODS * period.seconds)
        .map(|w| Gap {
            from_s: w[0],
            to_s: w[1],
        })
        .collect();
    let long = without_slow_states(&long);
    let intervals = (times.len() - 1) as f64;
    let few = long.len() <= 1 || long.len() as f64 <= MOST_GAPS * intervals;
    if period.regular < REGULAR || !few {
        return Vec::new();
    }
    let whole = all[all.len() - 1] - all[0];
    let others = (all.len() - times.len()) as f64 / whole.max(f64::MIN_POSITIVE);
    long.into_iter()
        .filter(|gap| {
            let went_on = count_between(all, gap.from_s, gap.to_s) as f64;
            went_on >= OTHERS_GO_ON * others * (gap.to_s - gap.from_s) && went_on >= 3.0
        })
        .collect()
}

/// Gaps that are no intervals of a longer period: a node that has nothing to report may send by a slower clock for a while
/// (mixed transmission modes of AUTOSAR COM; from memory), and then several long intervals follow each other and are alike.
fn without_slow_states(long: &[Gap]) -> Vec<Gap> {
    let seconds = |g: &Gap| g.to_s - g.from_s;
    let alike = |a: &Gap, b: &Gap| {
        let adjacent = a.to_s == b.from_s;
        adjacent && (seconds(a) / seconds(b) - 1.0).abs() < SAME_PERIOD
    };
    let slow: Vec<bool> = (0..long.len())
        .map(|k| {
            let before = k > 0 && alike(&long[k - 1], &long[k]);
            let after = k + 1 < long.len() && alike(&long[k], &long[k + 1]);
            before || after
        })
        .collect();
    // What the end of the slow state cuts short belongs to it.
    let cut = |k: usize| {
        [k.wrapping_sub(1), k + 1].into_iter().any(|n| {
            let is_slow = n < long.len() && slow[n];
            let adjacent = || long[n].to_s == long[k].from_s || long[k].to_s == long[n].from_s;
            is_slow && adjacent() && seconds(&long[k]) < seconds(&long[n])
        })
    };
    let own = long
        .iter()
        .enumerate()
        .filter(|(k, _)| !slow[*k] && !cut(*k));
    own.map(|(_, gap)| *gap).collect()
}

/// Marks the identifiers that stop before the end while most others go on: when a vehicle falls asleep, all stop.
fn stops(nodes: &mut [Node], end: f64, own: &BTreeSet<Identifier>) {
    let quiet = |node: &Node| node.period.map(|p| (end - node.span.1) / p.seconds);
    let regular =
        |node: &Node| own.contains(&node.id) && node.period.is_some_and(|p| p.regular >= REGULAR);
    let periodic = nodes.iter().filter(|n| regular(n)).count();
    let going = nodes
        .iter()
        .filter(|n| regular(n) && quiet(n).is_some_and(|q| q <= 2.5))
        .count();
    if periodic < 3 || (going as f64) < 0.6 * periodic as f64 {
        return;
    }
    for node in nodes.iter_mut() {
        if regular(node) && quiet(node).is_some_and(|q| q > GAP_PERIODS) {
            node.stopped = Some(node.span.1);
        }
    }
}

/// Identifiers of diagnostics (ISO 15765-4): they come while a tester asks, blocks of data as fast as the bus allows, and
/// any other frame has precedence over them.
fn is_diagnostic(id: Identifier) -> bool {
    match id.extended {
        false => id.number >= 0x700,
        true => id.number >> 16 == 0x18DA || id.number >> 16 == 0x18DB,
    }
}

/// Longest period of a node that sends by design and not for a tester, s, and share of the log over which it must have sent:
/// testers ask some times a second and keep a session alive every second or two (common practice).
const SCHEDULED: (f64, f64) = (0.12, 0.5);
/// The same share of one that sends from the log's beginning on, within so many periods of it: it may have fallen silent.
const FROM_THE_BEGINNING: (f64, f64) = (0.25, 3.0);

/// True for an identifier of the range of diagnostics that a node sends by itself all the same: evenly, often, and through
/// most of the log.
fn is_scheduled(id: Identifier, times: &[f64], (first, last): (f64, f64)) -> bool {
    // Those that ISO 15765-4 names are a tester's whatever their rate.
    if id.extended || (0x7DF..=0x7EF).contains(&id.number) {
        return false;
    }
    let intervals: Vec<f64> = times.windows(2).map(|w| w[1] - w[0]).collect();
    period(&intervals).is_some_and(|p| {
        let often = p.seconds <= SCHEDULED.0 && p.regular >= REGULAR;
        let from_the_beginning = times[0] - first <= FROM_THE_BEGINNING.1 * p.seconds;
        let least = if from_the_beginning {
            FROM_THE_BEGINNING.0
        } else {
            SCHEDULED.1
        };
        often && times.len() as f64 * p.seconds >= least * (last - first)
    })
}

/// Windows in which one identifier sends more often than any node does by design and crowds the others out.
fn floods(times: &[f64], all: &[f64]) -> Vec<Flood> {
    let least = (FLOOD_RATE_HZ * FLOOD_WINDOW_S) as usize;
    let mut floods: Vec<Flood> = Vec::new();
    let mut begin = 0;
    while begin + least < times.len() {
        let (from, to) = (times[begin], times[begin + least]);
        if to - from > FLOOD_WINDOW_S {
            begin += 1;
            continue;
        }
        let mut end = begin + least;
        while end + 1 < times.len() && times[end + 1] - times[end + 1 - least] <= FLOOD_WINDOW_S {
            end += 1;
        }
        let (from, to) = (times[begin], times[end]);
        let own = (end - begin + 1) as f64;
        let share = own / (count_between(all, from, to) as f64 + 2.0);
        // Frames of one instant are those of a clock that stood: no bus carries more than all of its frames from one node.
        if (FLOOD_SHARE..=1.0).contains(&share) {
            floods.push(Flood {
                from_s: from,
                to_s: to,
                rate_hz: (own - 1.0) / (to - from).max(1e-6),
                share,
            });
        }
        begin = end + 1;
    }
    floods
}

/// Exact occupation of the bus.
fn load(frames: &[Logged], bit_rate: Option<f64>) -> Option<f64> {
    let bits_a_second = 1_000.0 * bit_rate.filter(|&r| r > 0.0)?;
    let span = frames.last()?.time_s - frames.first()?.time_s;
    let mut bits = 0usize;
    for logged in frames {
        if logged.fd.is_some_and(|fd| fd.switches_rate) {
            return None;
        }
        let frame = Frame {
            id: logged.id,
            remote: logged.remote,
            dlc: length_code(logged.data.len(), logged.fd.is_some())?,
            data: logged.data.clone(),
            fd: logged.fd,
        };
        bits += frame.bit_count().nominal + INTERMISSION;
    }
    (span > 0.0).then(|| 100.0 * bits as f64 / bits_a_second / span)
}
