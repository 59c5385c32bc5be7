//! Mechanisms that cannot move and motors through which no current flows.

use crate::draft::{Draft, Shot, codes, shot, verdict};
use crate::measures;
use crate::rig::Rig;
use crate::standstill::{
    CLUTCHES, GEARS, MAYBE, SURE, attempts, cause, gear_hits, press, with_engine,
};
use simulator::actuator::ActuatorFault;
use simulator::noise::Noise;

/// A jam of a clutch actuator seen on the feed alone.
fn jam_shot(rig: &Rig, dice: &mut Noise, own: bool, k: usize) -> Shot {
    let mut bench = rig.bench(dice, 0.0);
    let begin = with_engine(&mut bench, rig, dice);
    bench.actuators[k].fault =
        *dice.pick(&[ActuatorFault::Jammed, ActuatorFault::JammedAfter(9.0)]);
    let count = dice.whole(0, 3) as usize;
    let pause = dice.between(0.5, 1.0);
    let at = gear_hits(&mut bench, dice, begin + pause, count);
    let number = dice.whole(1, 3);
    let end = attempts(&mut bench, dice, at, CLUTCHES[k], number);
    bench.duration_s = end + dice.between(0.2, 0.8) - rig.start_s;
    let mut probes = rig.plan(dice.chance(0.4), false);
    if own {
        probes.extend(rig.own(true));
    }
    shot(rig, dice, &bench.run(), probes, &[0, 1])
}

/// A clutch actuator jams; only the feed is clamped.
pub fn jam_feed(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let shot = jam_shot(&rig, dice, false, k);
    let said = codes(dice, &[("P0810", "77"), ("P080A", "00")]);
    let causes = ["actuation-jam".to_string(), "clutch-actuator-jam".into()];
    Draft::new(shot, said, verdict(&SURE, &causes, "forbidden"))
        .noted("one clamp on the feed: which mechanism jams cannot be told")
}

/// A clutch actuator jams; each clutch motor has its own clamp.
pub fn jam_own(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let shot = jam_shot(&rig, dice, true, k);
    let said = codes(dice, &[("P0810", "71")]);
    Draft::new(
        shot,
        said,
        verdict(&SURE, &[cause("clutch-actuator", k, "jam")], "either"),
    )
}

/// A gear motor jams; both have their own clamps.
pub fn gear_jam(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let mut bench = rig.bench(dice, 0.0);
    let begin = with_engine(&mut bench, &rig, dice);
    bench.actuators[GEARS[k].index()].fault = ActuatorFault::Jammed;
    bench.order(begin + 0.6, GEARS[1 - k], 1.0);
    let number = dice.whole(1, 3);
    let end = attempts(&mut bench, dice, begin + 1.3, GEARS[k], number);
    bench.duration_s = end + 0.5 - rig.start_s;
    let mut probes = rig.plan(false, false);
    probes.extend(rig.own(false));
    let shot = shot(&rig, dice, &bench.run(), probes, &[0, 1]);
    let said = codes(dice, &[("P0909", "71")]);
    Draft::new(
        shot,
        said,
        verdict(&SURE, &["gear-actuator-jam".into()], "either"),
    )
}

/// No current flows through a clutch actuator.
pub fn open_circuit(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let own = dice.chance(0.5);
    let mut bench = rig.bench(dice, 0.0);
    let begin = with_engine(&mut bench, &rig, dice);
    bench.actuators[k].fault = ActuatorFault::OpenCircuit;
    let mut at = gear_hits(&mut bench, dice, begin + 0.6, 2);
    if own {
        at = press(&mut bench, dice, at, 1 - k);
    }
    let end = attempts(&mut bench, dice, at, CLUTCHES[k], 2);
    bench.duration_s = end + 0.6 - rig.start_s;
    let mut probes = rig.plan(false, false);
    if own {
        probes.extend(rig.own(true));
    }
    let mut shot = shot(&rig, dice, &bench.run(), probes, &[0, 1]);
    shot.measures
        .push(measures::present("actuation-absent", None, true));
    let said = codes(dice, &[("P0900", "13"), ("P080A", "00")]);
    let states = if own { &SURE[..] } else { &MAYBE[..] };
    Draft::new(
        shot,
        said,
        verdict(states, &["actuator-open-circuit".into()], "forbidden"),
    )
}
