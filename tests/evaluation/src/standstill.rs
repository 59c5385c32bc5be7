//! Faults and health at a standstill.

use crate::draft::{Capture, Draft, capture, codes, verdict};
use crate::measures::{self, shaft_name};
use crate::params::Params;
use crate::scenario::Scenario;
use model::job_file::Phase;
use simulator::actuator::ActuatorFault;
use simulator::bench::Bench;
use simulator::engine::{EngineRun, Ripple};
use simulator::recorder::Probe;
use simulator::traces::Mechanism::{self, Clutch1, Clutch2, Gear1, Gear2};

/// The clutches' mechanisms.
pub const CLUTCHES: [Mechanism; 2] = [Clutch1, Clutch2];
/// The gear motors.
pub const GEARS: [Mechanism; 2] = [Gear1, Gear2];
/// An answer is expected.
pub const SURE: [&str; 2] = ["established", "probable"];
/// An answer is expected, open is tolerated.
pub const MAYBE: [&str; 3] = ["established", "probable", "open"];

/// The cause `clutch-1-drag` and its like.
pub fn cause(before: &str, k: usize, after: &str) -> String {
    format!("{before}-{}-{after}", k + 1)
}

/// Which of the two clutches, shafts or gear motors is concerned: 0 or 1.
pub fn which(p: &mut Params) -> usize {
    p.index("which", 2)
}

/// Gear motors move a few times from `at`, each to the other end; returns the time after.
pub fn move_gears(bench: &mut Bench, p: &mut Params, mut at: f64, count: usize) -> f64 {
    for _ in 0..count {
        let gear = p.pick("which gear motor", &GEARS);
        let last = bench.commands.iter().rev().find(|c| c.mechanism == gear);
        let to = 1.0 - last.map_or(0.0, |c| c.position);
        bench.order(at, gear, to);
        at += p.between("gear pause", 0.4, 0.75);
    }
    at
}

/// A clutch is applied and opened again from `at`; returns the time after.
pub fn apply_and_open(bench: &mut Bench, p: &mut Params, at: f64, k: usize) -> f64 {
    bench.order(at, CLUTCHES[k], 1.0);
    let open = at + p.between("clutch held", 0.7, 1.2);
    bench.order(open, CLUTCHES[k], 0.0);
    open + p.between("clutch pause", 0.6, 1.1)
}

/// A whole relearn from `at`: gear motors, clutch 1, clutch 2; returns the time after.
pub fn relearn(bench: &mut Bench, p: &mut Params, at: f64) -> f64 {
    let count = p.whole("gear moves before", 1, 3) as usize;
    let at = move_gears(bench, p, at, count);
    let at = apply_and_open(bench, p, at, 0);
    let at = apply_and_open(bench, p, at, 1);
    move_gears(bench, p, at, 1)
}

/// Attempts to move one mechanism that do not succeed; returns the time after the last.
pub fn attempts(bench: &mut Bench, p: &mut Params, mut at: f64, m: Mechanism, count: u64) -> f64 {
    for _ in 0..count {
        bench.order(at, m, 1.0);
        at += bench.actuators[m.index()].give_up + p.between("attempt pause", 0.7, 1.3);
    }
    at
}

/// The engine idles throughout.
pub fn idling(scenario: &Scenario, p: &mut Params) -> EngineRun {
    EngineRun {
        ripple: ripple(p),
        ..EngineRun::idle(scenario.idle)
    }
}

/// Speed ripple of three to six cylinders.
pub fn ripple(p: &mut Params) -> Ripple {
    Ripple {
        per_turn: p.pick("strokes per turn", &[1.5, 2.0, 2.0, 3.0]),
        at_800_rpm: p.between("speed ripple", 0.0, 0.04),
        ..Ripple::default()
    }
}

/// The engine idles, or is started within the record; returns the time from which it runs.
pub fn with_engine(bench: &mut Bench, scenario: &Scenario, p: &mut Params) -> f64 {
    if p.chance("engine started", 0.35) {
        let at = scenario.start_s + p.between("start at", 0.5, 1.0);
        let cranking = p.between("cranking", 0.6, 0.9);
        bench.engine = EngineRun {
            ripple: ripple(p),
            ..EngineRun::started(at, cranking, scenario.idle)
        };
        return at + 1.4;
    }
    bench.engine = idling(scenario, p);
    scenario.start_s
}

/// Clutch `k` drags its shaft to `share` of the engine's speed.
pub fn with_drag(bench: &mut Bench, scenario: &Scenario, k: usize, share: f64) {
    bench.shafts[k].drag = bench.shafts[k].drag_for(share, scenario.idle);
    if bench.engine.crank.is_none() {
        bench.spinning[k] = share * scenario.idle;
    }
}

/// Codes of a clutch that does not part.
pub fn drag_codes(k: usize) -> [(&'static str, &'static str); 2] {
    [("P080A", "00"), [("P0716", "64"), ("P2766", "64")][k & 1]]
}

/// A bench on which clutch `k` drags while its actuator stalls.
pub fn drag_bench(scenario: &Scenario, p: &mut Params, k: usize) -> Bench {
    let mut bench = scenario.bench(p, 0.0);
    let begin = with_engine(&mut bench, scenario, p);
    let share = p.between("drag share", 0.25, 0.85);
    with_drag(&mut bench, scenario, k, share);
    bench.actuators[k].fault = ActuatorFault::Jammed;
    bench.position[k] = 0.4;
    let count = p.whole("gear moves before", 0, 2) as usize;
    let at = begin + p.between("pause before", 0.5, 1.0);
    let at = move_gears(&mut bench, p, at, count);
    let number = p.whole("attempts", 1, 3);
    let end = attempts(&mut bench, p, at, CLUTCHES[k], number);
    bench.duration_s = end - scenario.start_s + p.between("pause after", 0.2, 0.8);
    bench
}

/// A dragging clutch whose actuator stalls.
pub fn drag_capture(
    scenario: &Scenario,
    p: &mut Params,
    k: usize,
    change: impl Fn(&mut Bench),
) -> Capture {
    let mut bench = drag_bench(scenario, p, k);
    change(&mut bench);
    let (supply, engine) = (
        p.chance("supply recorded", 0.5),
        p.chance("engine recorded", 0.4),
    );
    let probes = scenario.plan(supply, engine);
    capture(scenario, p, &bench.run(), probes, &[1 - k])
}

/// A clutch drags and its actuator stalls, in a scenario.
pub fn drag_stall_in(scenario: &Scenario, p: &mut Params) -> Draft {
    let k = which(p);
    let capture = drag_capture(scenario, p, k, |_| {});
    let said = codes(p, &drag_codes(k));
    let causes = [cause("clutch", k, "drag")];
    Draft::new(capture, said, verdict(&SURE, &causes, "allowed"))
}

/// A clutch drags and its actuator stalls.
pub fn drag_stall(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p);
    drag_stall_in(&scenario, p)
}

/// A clutch that drags to 0.3 of the engine's speed; nothing stalls.
pub fn mild_capture(scenario: &Scenario, p: &mut Params, k: usize) -> Capture {
    let mut bench = scenario.bench(p, 0.0);
    let begin = with_engine(&mut bench, scenario, p);
    with_drag(&mut bench, scenario, k, 0.3);
    let count = p.whole("gear moves", 2, 4) as usize;
    let at = move_gears(&mut bench, p, begin + 0.8, count);
    bench.engine = bench.engine.with_blip(at + 0.3, 1.9 * scenario.idle, 2.2);
    bench.duration_s = at + 4.5 - scenario.start_s;
    let probes = scenario.plan(p.chance("supply recorded", 0.5), true);
    capture(scenario, p, &bench.run(), probes, &[1 - k])
}

/// A clutch drags; nothing stalls.
pub fn drag_mild(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let capture = mild_capture(&scenario, p, k);
    let said = codes(p, &drag_codes(k));
    let causes = [cause("clutch", k, "drag")];
    Draft::new(capture, said, verdict(&MAYBE, &causes, "allowed"))
        .noted("drag without a stall: 'open' is tolerated")
}

/// A healthy relearn.
pub fn healthy_capture(scenario: &Scenario, p: &mut Params) -> Capture {
    let mut bench = scenario.bench(p, 0.0);
    let begin = with_engine(&mut bench, scenario, p);
    let at = begin + p.between("pause before", 0.5, 1.0);
    let end = relearn(&mut bench, p, at);
    bench.duration_s = end + p.between("pause after", 0.6, 1.2) - scenario.start_s;
    let probes = scenario.plan(
        p.chance("supply recorded", 0.5),
        p.chance("engine recorded", 0.3),
    );
    capture(scenario, p, &bench.run(), probes, &[0, 1])
}

/// Nothing is wrong, in a scenario.
pub fn healthy_in(scenario: &Scenario, p: &mut Params) -> Draft {
    let capture = healthy_capture(scenario, p);
    let said = codes(p, &[]);
    Draft::new(capture, said, verdict(&["nothing-found"], &[], "forbidden"))
}

/// Nothing is wrong.
pub fn healthy(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p);
    // A coil at rest gives no sign of life: that the shafts rest is then not tested.
    let coils = scenario.shaft[0].kind == model::SensorKind::Vr;
    let mut draft = healthy_in(&scenario, p);
    if coils {
        draft.verdict.states.push("open".into());
        draft = draft.noted("coils at rest prove nothing: 'open' is tolerated");
    }
    draft
}

/// The supply or the ground is weak.
pub fn supply_weak(p: &mut Params) -> Draft {
    let mut scenario = Scenario::standstill(p);
    let ground = p.chance("ground is weak", 0.4);
    let ohm = p.between("weak resistance", 0.07, 0.16);
    if ground {
        scenario.supply.ground_resistance = ohm;
    } else {
        scenario.supply.source_resistance = ohm;
    }
    let mut bench = scenario.bench(p, 0.0);
    bench.engine = idling(&scenario, p);
    let end = relearn(&mut bench, p, scenario.start_s + 0.7);
    bench.duration_s = end + 0.8 - scenario.start_s;
    let mut probes = scenario.plan(true, false);
    let traces = bench.run();
    if ground {
        probes.push(Probe::Ground(0.004));
    }
    let mut capture = capture(&scenario, p, &traces, probes, &[0, 1]);
    if ground {
        // The drop of the ground is the fault; the supply's own resistance is normal.
        let of_ground = measures::of_supply(&traces, ohm);
        capture.measures.extend(of_ground.map(|mut m| {
            m.subject = Some("ground-voltage".into());
            m
        }));
    }
    let said = codes(p, &[("P0884", "00"), ("P0562", "00")]);
    let causes = ["supply-weak".to_string()];
    Draft::new(capture, said, verdict(&SURE, &causes, "forbidden"))
}

/// The relearn stops half-way though everything moves as it should.
pub fn relearn_not_completed(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p);
    let mut bench = scenario.bench(p, 0.0);
    bench.engine = idling(&scenario, p);
    let at = move_gears(&mut bench, p, scenario.start_s + 0.7, 2);
    let end = apply_and_open(&mut bench, p, at, 0);
    bench.duration_s = end + 3.0 - scenario.start_s;
    let probes = scenario.plan(p.chance("supply recorded", 0.5), false);
    let capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    let said = codes(p, &[("P080A", "54")]);
    let states = ["open", "established", "probable"];
    let causes = ["relearn-not-completed".to_string()];
    Draft::new(capture, said, verdict(&states, &causes, "forbidden"))
        .noted("clutch 2 is never tried: an abort, but why cannot be seen")
}

/// A drag before the repair, health after it.
pub fn after_repair(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let mut before = drag_capture(&scenario, p, k, |_| {});
    before.phase = Some(Phase::Before);
    let mut after = healthy_capture(&scenario, p);
    after.phase = Some(Phase::After);
    let mut said = codes(p, &drag_codes(k));
    said.iter_mut()
        .for_each(|c| c.state = simulator::scan_words::CodeState::History);
    let states = ["established", "probable", "nothing-found"];
    let causes = [cause("clutch", k, "drag")];
    let mut draft = Draft::new(before, said, verdict(&states, &causes, "forbidden"));
    draft.captures.push(after);
    draft
        .complete()
        .noted("healthy after the repair: another teardown must not be advised")
}

/// Takes a channel out of a capture, with what could be found in it.
pub fn take_away(capture: &mut Capture, role: &str) {
    capture.recording.channels.retain(|c| c.role != role);
    capture
        .measures
        .retain(|m| m.subject.as_deref() != Some(role));
    if role == "supply-current" {
        let of_current = ["actuation", "actuation-stall", "attempts", "gave-up"];
        capture
            .measures
            .retain(|m| !m.kinds.iter().any(|k| of_current.contains(&k.as_str())));
        capture
            .measures
            .retain(|m| !m.kinds.iter().any(|k| k == "feed-resistance"));
    }
}

/// A drag whose shaft has no sensor connected: the jam is seen, not whose.
pub fn one_shaft(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let mut capture = drag_capture(&scenario, p, k, |_| {});
    take_away(&mut capture, shaft_name(k));
    let said = codes(p, &[("P080A", "00"), ("P0810", "00")]);
    let causes = ["actuation-jam".to_string(), "clutch-actuator-jam".into()];
    let states = ["open", "probable", "established"];
    let mut draft = Draft::new(capture, said, verdict(&states, &causes, "forbidden"))
        .complete()
        .noted("the dragged shaft's sensor is not connected: which mechanism cannot be told");
    draft.untested = vec![
        cause("clutch", k, "drag"),
        cause("shaft-sensor", k, "fault"),
    ];
    draft
}
