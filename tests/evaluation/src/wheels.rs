//! Tooth wheels and sensors as real recordings show them: patterns, coils, conditioners, loops, edge lists.

use crate::draft::{Draft, FileKind};
use crate::drives;
use crate::measures::forbidden;
use crate::params::Params;
use crate::scenario::{Scenario, conditioned, current_loop};
use crate::standstill::{MAYBE, cause, which};
use crate::standstill::{drag_bench, drag_codes, drag_stall_in, healthy_in, with_engine};
use simulator::edges::{Spikes, changes};
use simulator::sensor::SpeedSensor;
use simulator::wheel::Wheel;

/// Any of the wheels that are in use: even, N-1, N-2, N-2-1, N-2-2-2, narrow and wide, four uneven, N plus 1.
pub fn any_wheel(p: &mut Params) -> Wheel {
    let duty = p.between("tooth width", 0.25, 0.6);
    match p.index("wheel", 9) {
        0 => Wheel::even(p.whole("teeth", 2, 60) as u32, duty),
        1 => Wheel::missing(36, 1, duty),
        2 => Wheel::missing(60, 2, duty),
        3 => Wheel::missing(p.whole("positions", 20, 48) as u32, 1, duty),
        4 => Wheel::with_gaps(36, &[(12, 2), (35, 1)], duty),
        5 => Wheel::with_gaps(36, &[(10, 2), (22, 2), (34, 2)], duty),
        6 => Wheel::narrow_and_wide(24),
        7 => Wheel::four_uneven(),
        _ => Wheel::plus_one(12),
    }
}

/// Samples a second that show the wheel's narrowest feature at `rpm`, at least `least`.
fn rate_for(wheel: &Wheel, rpm: f64, least: f64) -> f64 {
    let per_second = rpm / 60.0 * f64::from(wheel.positions.max(13));
    (25.0 * per_second).max(least).min(50_000.0).round()
}

fn with_any_wheel(p: &mut Params, least_rate: f64, rpm: f64, mut s: Scenario) -> Scenario {
    let wheel = any_wheel(p);
    s.rate_hz = rate_for(&wheel, rpm, least_rate);
    for sensor in &mut s.shaft {
        sensor.wheel = wheel.clone();
    }
    s
}

/// A drag on shafts with any of the wheels, level sensors.
pub fn pattern_drag(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p).with_hall();
    let scenario = with_any_wheel(p, 4000.0, 800.0, scenario);
    drag_stall_in(&scenario, p)
        .complete()
        .noted("the wheel's pattern must be found")
}

/// A drag on shafts with any of the wheels, of which job.toml says nothing.
pub fn pattern_untold(p: &mut Params) -> Draft {
    let mut draft = pattern_drag(p);
    for c in &mut draft.captures[0].recording.channels {
        (c.section.teeth, c.section.missing_teeth) = (None, None);
    }
    for m in &mut draft.captures[0].measures {
        m.fields.retain(|_, w| w.unit.as_deref() != Some("rpm"));
    }
    draft.captures[0].measures.retain(|m| !m.fields.is_empty());
    draft.verdict.states.push("open".into());
    draft.noted("nobody tells the teeth: speeds cannot be known")
}

/// A healthy drive whose wheels have gaps: a hole that comes once a turn is the wheel.
pub fn pattern_drive(p: &mut Params) -> Draft {
    let scenario = drives::hall_drive(p);
    let duty = p.between("tooth width", 0.35, 0.6);
    let wheel = match p.index("wheel", 4) {
        0 => Wheel::missing(36, 1, duty),
        1 => Wheel::missing(36, 2, duty),
        2 => Wheel::with_gaps(36, &[(12, 2), (35, 1)], duty),
        _ => Wheel::with_gaps(36, &[(10, 2), (22, 2), (34, 2)], duty),
    };
    let mut scenario = scenario;
    for sensor in &mut scenario.shaft {
        sensor.wheel = wheel.clone();
    }
    drives::healthy_in(&scenario, p)
        .complete()
        .noted("the wheel's gaps are no dropouts")
}

/// A drag on shafts with coils, before even wheels or wheels with a gap.
pub fn coil_drag(p: &mut Params) -> Draft {
    let mut scenario = Scenario::standstill(p).with_coils(p);
    if p.chance("wheel with gaps", 0.5) {
        let wheel = [
            Wheel::missing(36, 1, 0.5),
            Wheel::missing(60, 2, 0.5),
            Wheel::with_gaps(36, &[(12, 2), (35, 1)], 0.5),
        ];
        let wheel = p.pick("coil's wheel", &wheel);
        scenario.rate_hz = rate_for(&wheel, 800.0, 5000.0);
        for sensor in &mut scenario.shaft {
            sensor.wheel = wheel.clone();
        }
    }
    let mut draft = drag_stall_in(&scenario, p).complete();
    draft.verdict.states.push("open".into());
    draft.noted("coils: amplitude grows with speed; the resting one proves nothing")
}

/// A drag on shafts with coils behind a conditioner: a logic signal that stops below the arming threshold.
pub fn conditioned_drag(p: &mut Params) -> Draft {
    let mut scenario = Scenario::standstill(p);
    let mut sensor = conditioned(p, scenario.shaft[0].wheel.positions);
    sensor.noise = 0.02;
    scenario.rate_hz = 10_000.0;
    scenario.shaft = [sensor.clone(), sensor];
    let mut draft = drag_stall_in(&scenario, p).complete();
    draft.verdict.states.push("open".into());
    draft.noted("a conditioner's pulses stop below its arming threshold")
}

/// A drag on shafts with two-wire sensors at the ends of their tolerance.
pub fn loop_drag(p: &mut Params) -> Draft {
    let mut scenario = Scenario::standstill(p);
    let mut sensor = current_loop(p, scenario.shaft[0].wheel.positions);
    sensor.noise = 0.004;
    scenario.shaft = [sensor.clone(), sensor];
    drag_stall_in(&scenario, p).complete()
}

/// A drag on shafts whose edges bounce: the doubled edges are no speed of their own.
pub fn bouncing_drag(p: &mut Params) -> Draft {
    let mut scenario = Scenario::standstill(p).with_hall();
    scenario.rate_hz = 10_000.0;
    let share = p.between("bounce", 0.02, 0.3);
    scenario.shaft.iter_mut().for_each(|s| s.bounce = share);
    drag_stall_in(&scenario, p)
        .complete()
        .noted("the edges bounce: a doubled edge is no tooth")
}

/// The shafts come as an edge list of a logic analyser, with or without a drag; the feed is not recorded.
fn edge_list(p: &mut Params, drags: bool) -> Draft {
    let mut scenario = Scenario::standstill(p).with_hall();
    scenario.start_s = 0.0;
    scenario.rate_hz = 4000.0;
    let wheel = any_wheel(p);
    for sensor in &mut scenario.shaft {
        *sensor = SpeedSensor::hall(wheel.positions).with_wheel(wheel.clone());
    }
    let k = which(p);
    let traces = if drags {
        drag_bench(&scenario, p, k).run()
    } else {
        let mut bench = scenario.bench(p, 6.0);
        with_engine(&mut bench, &scenario, p);
        bench.run()
    };
    let resting: Vec<usize> = if drags { vec![1 - k] } else { vec![0, 1] };
    let probes = scenario.plan(false, true)[1..].to_vec();
    let plan = scenario.channels(probes.clone());
    let mut capture = crate::draft::capture(&scenario, p, &traces, probes, &resting);
    let spikes = Spikes {
        share: p.pick("spikes", &[0.0, 0.0, 0.02, 0.1]),
        longest_s: p.between("longest spike", 1e-6, 50e-6),
    };
    let mut noise = p.noise("edges");
    let of = [
        (&wheel, &traces.input[0]),
        (&wheel, &traces.input[1]),
        (&scenario.engine.wheel, &traces.engine),
    ];
    let channels = plan
        .iter()
        .zip(of)
        .map(|(c, (w, r))| changes(&c.name, w, r, traces.rate_hz, 0.0, spikes, &mut noise));
    capture.file = FileKind::Edges(channels.collect());
    capture.forbidden.push(forbidden("sensor-fault", None));
    // A channel without an edge shows neither life nor rest.
    let rest = |m: &crate::truth::Measure| m.kinds.iter().any(|k| k == "shaft-at-rest");
    capture.measures.retain(|m| !rest(m));
    let drag = [cause("clutch", k, "drag")];
    let mut draft = if drags {
        let said = crate::draft::codes(p, &drag_codes(k));
        let verdict = crate::draft::verdict(&MAYBE, &drag, "allowed");
        Draft::new(capture, said, verdict)
    } else {
        let said = crate::draft::codes(p, &[]);
        let verdict = crate::draft::verdict(&["open", "nothing-found"], &[], "forbidden");
        Draft::new(capture, said, verdict)
    };
    draft.untested = [
        "actuation-jam",
        "clutch-actuator-jam",
        "actuator-open-circuit",
    ]
    .map(String::from)
    .to_vec();
    draft.complete()
}

/// A drag in an edge list.
pub fn edge_list_drag(p: &mut Params) -> Draft {
    edge_list(p, true).noted("time and level of every edge; no current was recorded")
}

/// Health in an edge list: the shafts' channels have no edge.
pub fn edge_list_rest(p: &mut Params) -> Draft {
    edge_list(p, false).noted("no edge on the shafts, no current recorded: little was tested")
}

/// A relearn in good health on shafts with any of the wheels.
pub fn pattern_healthy(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p).with_hall();
    let scenario = with_any_wheel(p, 4000.0, 800.0, scenario);
    healthy_in(&scenario, p).complete()
}
