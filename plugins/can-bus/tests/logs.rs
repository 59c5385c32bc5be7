//! Bus logs: load, periods, gaps, silent and flooding nodes.

mod bus_model;

use baybrief_plugin_can_bus::measure::frame::Identifier;
use baybrief_plugin_can_bus::measure::log::{BusLog, Logged, measure};
use bus_model::seeded;

fn id(number: u32) -> Identifier {
    Identifier {
        number,
        extended: false,
    }
}

/// A log of periodic nodes with jitter; `sends` says whether a node sends at a time.
fn log(nodes: &[(u32, f64)], seconds: f64, sends: impl Fn(u32, f64) -> bool) -> Vec<Logged> {
    let mut random = seeded(7);
    let mut frames = Vec::new();
    for &(number, period) in nodes {
        let phase = random.between(0.0, period);
        for k in 0..(seconds / period) as usize {
            let time_s = phase + k as f64 * period + random.between(0.0, 0.001);
            if sends(number, time_s) {
                let data = vec![0x55; (number % 9) as usize];
                frames.push(Logged {
                    time_s,
                    id: id(number),
                    remote: false,
                    fd: None,
                    data,
                });
            }
        }
    }
    frames.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
    frames
}

const NODES: [(u32, f64); 6] = [
    (0x0C1, 0.01),
    (0x120, 0.02),
    (0x230, 0.02),
    (0x350, 0.1),
    (0x4A0, 0.1),
    (0x610, 0.5),
];

fn node(log: &BusLog, number: u32) -> &baybrief_plugin_can_bus::measure::log::Node {
    log.nodes.iter().find(|n| n.id == id(number)).unwrap()
}

#[test]
fn periods_are_those_of_the_nodes() {
    let log = measure(&log(&NODES, 12.0, |_, _| true), Some(500.0), &[]).unwrap();
    for (number, period) in NODES {
        let found = node(&log, number).period.unwrap();
        assert!(
            (found.seconds / period - 1.0).abs() < 0.02,
            "{number:X} {found:?}"
        );
        assert!(node(&log, number).gaps.is_empty() && node(&log, number).floods.is_empty());
    }
}

/// 100 frames a second of 0x2AA without data: 46 bits (the string in tests/bit_strings.rs) and three of intermission at
/// 500 kbit/s are 0.98 %.
#[test]
fn load_counts_the_bits_that_are_sent() {
    let frames: Vec<Logged> = (0..1_001)
        .map(|k| Logged {
            time_s: f64::from(k) * 0.01,
            id: id(0x2AA),
            remote: false,
            fd: None,
            data: vec![],
        })
        .collect();
    let load = measure(&frames, Some(500.0), &[]).unwrap().load.unwrap();
    assert!((load - 0.98).abs() < 0.002, "{load}");
    assert_eq!(measure(&frames, None, &[]).unwrap().load, None);
}

#[test]
fn a_node_that_falls_silent_is_found_with_its_gap() {
    let frames = log(&NODES, 12.0, |n, t| n != 0x350 || !(4.0..4.9).contains(&t));
    let log = measure(&frames, Some(500.0), &[]).unwrap();
    let gap = node(&log, 0x350).gaps[0];
    assert!((gap.to_s - gap.from_s - 0.95).abs() < 0.11, "{gap:?}");
    let others = log.nodes.iter().filter(|n| n.id != id(0x350));
    assert!(others.into_iter().all(|n| n.gaps.is_empty()));
}

#[test]
fn a_pause_of_the_whole_log_is_no_silent_node() {
    let frames = log(&NODES, 12.0, |_, t| !(4.0..5.5).contains(&t));
    let log = measure(&frames, Some(500.0), &[]).unwrap();
    assert!(
        log.nodes
            .iter()
            .all(|n| n.gaps.is_empty() && n.stopped.is_none())
    );
    assert!(log.longest_pause > 1.4);
}

#[test]
fn a_node_that_stops_is_found_and_a_bus_that_falls_asleep_is_none() {
    let stops = log(&NODES, 12.0, |n, t| n != 0x120 || t < 8.0);
    let found = measure(&stops, None, &[]).unwrap();
    assert!((node(&found, 0x120).stopped.unwrap() - 8.0).abs() < 0.05);
    let asleep = log(&NODES, 12.0, |n, t| t < 8.0 || n == 0x610);
    let found = measure(&asleep, None, &[]).unwrap();
    assert!(found.nodes.iter().all(|n| n.stopped.is_none()));
}

#[test]
fn a_flood_is_found_and_a_block_of_diagnostics_is_none() {
    for (number, flood) in [(0x001, true), (0x7E8, false)] {
        let mut frames = log(&NODES, 6.0, |_, _| true);
        frames.extend((0..800).map(|k| Logged {
            time_s: 2.0 + f64::from(k) * 0.0005,
            id: id(number),
            remote: false,
            fd: None,
            data: vec![0; 8],
        }));
        frames.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
        let log = measure(&frames, Some(500.0), &[]).unwrap();
        let floods = &node(&log, number).floods;
        assert_eq!(floods.len(), usize::from(flood), "{number:X}");
        if let Some(found) = floods.first() {
            assert!(
                (found.rate_hz - 2_000.0).abs() < 20.0 && found.share > 0.8,
                "{found:?}"
            );
        }
    }
}

#[test]
fn expected_identifiers_that_never_come_are_named() {
    let frames = log(&NODES, 12.0, |_, _| true);
    let expected = [id(0x0C1), id(0x777), Identifier::parse("18DAF110").unwrap()];
    let log = measure(&frames, None, &expected).unwrap();
    assert_eq!(log.silent, expected[1..]);
    assert!(measure(&[], None, &expected).is_none());
}

/// 29-bit and 11-bit identifiers of one number are two.
#[test]
fn identifiers_are_read_as_logs_write_them() {
    for text in ["0C1", "7FF", "000000C1", "1FFFFFFF"] {
        assert_eq!(Identifier::parse(text).unwrap().to_string(), text);
    }
    for text in ["", "C1", "800", "20000000", "0C1R", "+C1", "0000000G"] {
        assert_eq!(Identifier::parse(text), None, "{text}");
    }
}

/// A node of the range of diagnostics that sends every 50 ms by itself, and falls silent.
#[test]
fn a_node_among_the_identifiers_of_diagnostics_is_found_with_its_gap() {
    let with_node: Vec<(u32, f64)> = NODES.into_iter().chain([(0x7A8, 0.05)]).collect();
    let sends = |number: u32, t: f64| number != 0x7A8 || !(5.0..7.0).contains(&t);
    let log = measure(&log(&with_node, 12.0, sends), None, &[]).unwrap();
    let gap = node(&log, 0x7A8).gaps[0];
    assert!((gap.to_s - gap.from_s - 2.0).abs() < 0.11, "{gap:?}");
}

/// A tester that asks five times a second and stops is no node that falls silent (ISO 15765-4: 7E0, 7E8).
#[test]
fn a_tester_that_leaves_is_no_silent_node() {
    let with_tester: Vec<(u32, f64)> = NODES
        .into_iter()
        .chain([(0x7E0, 0.2), (0x7E8, 0.2)])
        .collect();
    let asks = |number: u32, t: f64| number < 0x700 || t < 6.0 && !(2.0..3.5).contains(&t);
    let log = measure(&log(&with_tester, 12.0, asks), None, &[]).unwrap();
    for tester in [0x7E0, 0x7E8] {
        let found = node(&log, tester);
        assert!(
            found.stopped.is_none() && found.gaps.is_empty(),
            "{found:?}"
        );
    }
}

/// With the ignition off one node after the other shuts down; a node that fails takes all its identifiers at once.
#[test]
fn nodes_that_shut_down_one_after_the_other_are_told_from_one_that_stops() {
    let ends = |at: [f64; 2]| {
        let sends = move |number: u32, t: f64| match number {
            0x120 => t < at[0],
            0x230 => t < at[1],
            _ => true,
        };
        measure(&log(&NODES, 12.0, sends), None, &[]).unwrap()
    };
    let (shut_down, failed) = (ends([7.0, 7.4]), ends([7.0, 7.0]));
    assert!(!shut_down.stopped_at_once && failed.stopped_at_once);
    for log in [shut_down, failed] {
        assert!(node(&log, 0x120).stopped.is_some() && node(&log, 0x230).stopped.is_some());
    }
}

/// A node that sends by a slower clock for a while falls silent no more than one that always does; one that stays away does.
#[test]
fn a_slower_period_is_no_silence() {
    let slow = |number: u32, t: f64| {
        let idle = number == 0x120 && (4.0..9.0).contains(&t);
        !idle || t.rem_euclid(1.0) < 0.02
    };
    let found = measure(&log(&NODES, 20.0, slow), Some(500.0), &[]).unwrap();
    assert_eq!(node(&found, 0x120).gaps, [], "{found:?}");
    // The slow state ends within one of its periods.
    let cut = |number: u32, t: f64| {
        let idle = number == 0x120 && (4.0..8.7).contains(&t);
        !idle || t.rem_euclid(1.0) < 0.02
    };
    let found = measure(&log(&NODES, 20.0, cut), Some(500.0), &[]).unwrap();
    assert_eq!(node(&found, 0x120).gaps, [], "{found:?}");
    let away = |number: u32, t: f64| number != 0x120 || !(4.0..9.0).contains(&t);
    let found = measure(&log(&NODES, 20.0, away), Some(500.0), &[]).unwrap();
    assert_eq!(node(&found, 0x120).gaps.len(), 1, "{found:?}");
}

/// Frames that a clock which stood puts into one instant are no flood.
#[test]
fn frames_of_one_instant_are_no_flood() {
    let mut frames = log(&NODES, 16.0, |_, _| true);
    for frame in frames
        .iter_mut()
        .filter(|f| f.time_s > 7.0 && f.time_s < 12.0)
    {
        frame.time_s = 7.0;
    }
    frames.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
    let found = measure(&frames, Some(500.0), &[]).unwrap();
    assert!(found.nodes.iter().all(|n| n.floods.is_empty()), "{found:?}");
}
