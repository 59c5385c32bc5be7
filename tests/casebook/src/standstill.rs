//! Faults and health at a standstill.

use crate::draft::{Draft, Shot, codes, shot, verdict};
use crate::measures::{self, shaft_name};
use crate::rig::Rig;
use model::job_file::Phase;
use simulator::actuator::ActuatorFault;
use simulator::bench::Bench;
use simulator::engine::EngineRun;
use simulator::noise::Noise;
use simulator::recorder::Probe;
use simulator::traces::Mechanism::{self, Clutch1, Clutch2, Gear1, Gear2};

/// The clutches' mechanisms.
pub const CLUTCHES: [Mechanism; 2] = [Clutch1, Clutch2];
/// The gear motors.
pub const GEARS: [Mechanism; 2] = [Gear1, Gear2];
/// Sure.
pub const SURE: [&str; 2] = ["established", "probable"];
/// Sure, or open where an answer was hard to have.
pub const MAYBE: [&str; 3] = ["established", "probable", "open"];

/// The cause `clutch-1-drag` and its like.
pub fn cause(before: &str, k: usize, after: &str) -> String {
    format!("{before}-{}-{after}", k + 1)
}

/// Gear motors move a few times from `at`, each to the other end; gives the time after.
pub fn gear_hits(bench: &mut Bench, dice: &mut Noise, mut at: f64, count: usize) -> f64 {
    for _ in 0..count {
        let gear = *dice.pick(&GEARS);
        let last = bench.commands.iter().rev().find(|c| c.mechanism == gear);
        let to = 1.0 - last.map_or(0.0, |c| c.position);
        bench.order(at, gear, to);
        at += dice.between(0.4, 0.75);
    }
    at
}

/// A clutch is applied and opened again from `at`; gives the time after.
pub fn press(bench: &mut Bench, dice: &mut Noise, at: f64, k: usize) -> f64 {
    bench.order(at, CLUTCHES[k], 1.0);
    let open = at + dice.between(0.7, 1.2);
    bench.order(open, CLUTCHES[k], 0.0);
    open + dice.between(0.6, 1.1)
}

/// A whole relearn from `at`: gear motors, clutch 1, clutch 2.
pub fn relearn(bench: &mut Bench, dice: &mut Noise, at: f64) -> f64 {
    let count = dice.whole(1, 3) as usize;
    let at = gear_hits(bench, dice, at, count);
    let at = press(bench, dice, at, 0);
    let at = press(bench, dice, at, 1);
    gear_hits(bench, dice, at, 1)
}

/// Attempts to move one mechanism that do not succeed; gives the time after the last.
pub fn attempts(bench: &mut Bench, dice: &mut Noise, mut at: f64, m: Mechanism, count: u64) -> f64 {
    for _ in 0..count {
        bench.order(at, m, 1.0);
        at += bench.actuators[m.index()].give_up + dice.between(0.7, 1.3);
    }
    at
}

/// The engine idles, or is started within the record; gives the time from which it runs.
pub fn with_engine(bench: &mut Bench, rig: &Rig, dice: &mut Noise) -> f64 {
    if dice.chance(0.35) {
        let at = rig.start_s + dice.between(0.5, 1.0);
        bench.engine = EngineRun::started(at, dice.between(0.6, 0.9), rig.idle);
        return at + 1.4;
    }
    bench.engine = EngineRun::idle(rig.idle);
    rig.start_s
}

fn with_drag(bench: &mut Bench, rig: &Rig, k: usize, share: f64) {
    bench.shafts[k].drag = bench.shafts[k].drag_for(share, rig.idle);
    if bench.engine.crank.is_none() {
        bench.spinning[k] = share * rig.idle;
    }
}

/// Codes of a clutch that does not part.
pub fn drag_codes(k: usize) -> [(&'static str, &'static str); 2] {
    [("P080A", "00"), [("P0716", "64"), ("P2766", "64")][k & 1]]
}

/// A dragging clutch whose actuator stalls, in a rig.
pub fn drag_shot(rig: &Rig, dice: &mut Noise, k: usize, extra: impl Fn(&mut Bench)) -> Shot {
    let mut bench = rig.bench(dice, 0.0);
    let begin = with_engine(&mut bench, rig, dice);
    let share = dice.between(0.25, 0.85);
    with_drag(&mut bench, rig, k, share);
    bench.actuators[k].fault = ActuatorFault::Jammed;
    bench.position[k] = 0.4;
    let count = dice.whole(0, 2) as usize;
    let pause = dice.between(0.5, 1.0);
    let at = gear_hits(&mut bench, dice, begin + pause, count);
    let number = dice.whole(1, 3);
    let end = attempts(&mut bench, dice, at, CLUTCHES[k], number);
    bench.duration_s = end - rig.start_s + dice.between(0.2, 0.8);
    extra(&mut bench);
    let (supply, engine) = (dice.chance(0.5), dice.chance(0.4));
    shot(rig, dice, &bench.run(), rig.plan(supply, engine), &[1 - k])
}

/// A clutch drags and its actuator stalls.
pub fn drag_stall(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let shot = drag_shot(&rig, dice, k, |_| {});
    let said = codes(dice, &drag_codes(k));
    Draft::new(
        shot,
        said,
        verdict(&SURE, &[cause("clutch", k, "drag")], "allowed"),
    )
}

/// A clutch that drags to 0.3 of the engine's speed; nothing stalls.
pub fn mild_shot(rig: &Rig, dice: &mut Noise, k: usize) -> Shot {
    let mut bench = rig.bench(dice, 0.0);
    let begin = with_engine(&mut bench, rig, dice);
    with_drag(&mut bench, rig, k, 0.3);
    let count = dice.whole(2, 4) as usize;
    let at = gear_hits(&mut bench, dice, begin + 0.8, count);
    bench.engine = bench.engine.with_blip(at + 0.3, 1.9 * rig.idle, 2.2);
    bench.duration_s = at + 4.5 - rig.start_s;
    let probes = rig.plan(dice.chance(0.5), true);
    shot(rig, dice, &bench.run(), probes, &[1 - k])
}

/// A clutch drags; nothing stalls.
pub fn drag_mild(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let shot = mild_shot(&rig, dice, k);
    let said = codes(dice, &drag_codes(k));
    Draft::new(
        shot,
        said,
        verdict(&MAYBE, &[cause("clutch", k, "drag")], "allowed"),
    )
    .noted("drag without a stall: 'open' is tolerated")
}

/// A healthy relearn.
pub fn healthy_shot(rig: &Rig, dice: &mut Noise) -> Shot {
    let mut bench = rig.bench(dice, 0.0);
    let begin = with_engine(&mut bench, rig, dice);
    let pause = dice.between(0.5, 1.0);
    let end = relearn(&mut bench, dice, begin + pause);
    bench.duration_s = end + dice.between(0.6, 1.2) - rig.start_s;
    let probes = rig.plan(dice.chance(0.5), dice.chance(0.3));
    shot(rig, dice, &bench.run(), probes, &[0, 1])
}

/// Nothing is wrong.
pub fn healthy(dice: &mut Noise, level: usize) -> Draft {
    let rig = Rig::standstill(dice, level);
    let shot = healthy_shot(&rig, dice);
    let said = codes(dice, &[]);
    Draft::new(shot, said, verdict(&["nothing-found"], &[], "forbidden"))
}

/// The supply or the ground is weak.
pub fn supply_weak(dice: &mut Noise, level: usize) -> Draft {
    let mut rig = Rig::standstill(dice, level);
    let ground = dice.chance(0.4);
    let ohm = dice.between(0.07, 0.16);
    if ground {
        rig.supply.ground_resistance = ohm;
    } else {
        rig.supply.source_resistance = ohm;
    }
    let mut bench = rig.bench(dice, 0.0);
    bench.engine = EngineRun::idle(rig.idle);
    let end = relearn(&mut bench, dice, rig.start_s + 0.7);
    bench.duration_s = end + 0.8 - rig.start_s;
    let mut probes = rig.plan(true, false);
    let traces = bench.run();
    if ground {
        probes.push(Probe::Ground(0.004));
    }
    let mut shot = shot(&rig, dice, &traces, probes, &[0, 1]);
    if ground {
        // The drop of the ground is the fault; the supply's own resistance is normal.
        let of_ground = measures::of_supply(&traces, ohm);
        shot.measures.extend(of_ground.map(|mut m| {
            m.subject = Some("ground-voltage".into());
            m
        }));
    }
    let said = codes(dice, &[("P0884", "00"), ("P0562", "00")]);
    Draft::new(
        shot,
        said,
        verdict(&SURE, &["supply-weak".into()], "forbidden"),
    )
}

/// The relearn stops half-way though everything moves as it should.
pub fn relearn_not_completed(dice: &mut Noise, level: usize) -> Draft {
    let rig = Rig::standstill(dice, level);
    let mut bench = rig.bench(dice, 0.0);
    bench.engine = EngineRun::idle(rig.idle);
    let at = gear_hits(&mut bench, dice, rig.start_s + 0.7, 2);
    let end = press(&mut bench, dice, at, 0);
    bench.duration_s = end + 3.0 - rig.start_s;
    let probes = rig.plan(dice.chance(0.5), false);
    let shot = shot(&rig, dice, &bench.run(), probes, &[0, 1]);
    let said = codes(dice, &[("P080A", "54")]);
    let states = ["open", "established", "probable"];
    Draft::new(
        shot,
        said,
        verdict(&states, &["relearn-not-completed".into()], "forbidden"),
    )
    .noted("clutch 2 is never tried: an abort, but why cannot be seen")
}

/// A drag before the repair, health after it.
pub fn after_repair(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let mut before = drag_shot(&rig, dice, k, |_| {});
    before.phase = Some(Phase::Before);
    let mut after = healthy_shot(&rig, dice);
    after.phase = Some(Phase::After);
    let mut said = codes(dice, &drag_codes(k));
    said.iter_mut()
        .for_each(|c| c.state = simulator::scan_words::CodeState::History);
    let states = ["established", "probable", "nothing-found"];
    let mut draft = Draft::new(
        before,
        said,
        verdict(&states, &[cause("clutch", k, "drag")], "forbidden"),
    );
    draft.shots.push(after);
    draft
        .complete()
        .noted("healthy after the repair: another teardown must not be advised")
}

/// A drag whose shaft has no sensor connected: the jam is seen, not whose.
pub fn one_shaft(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let mut shot = drag_shot(&rig, dice, k, |_| {});
    let missing = shaft_name(k);
    shot.recording.channels.retain(|c| c.role != missing);
    shot.measures
        .retain(|m| m.subject.as_deref() != Some(missing));
    let said = codes(dice, &[("P080A", "00"), ("P0810", "00")]);
    let causes = ["actuation-jam".to_string(), "clutch-actuator-jam".into()];
    let states = ["open", "probable", "established"];
    Draft::new(shot, said, verdict(&states, &causes, "forbidden"))
        .complete()
        .noted("the dragged shaft's sensor is not connected: which mechanism cannot be told")
}
