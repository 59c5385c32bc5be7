//! Mechanisms that cannot move and motors through which no current flows.

use crate::draft::{Capture, Draft, capture, codes, verdict};
use crate::measures;
use crate::params::Params;
use crate::scenario::Scenario;
use crate::standstill::{
    CLUTCHES, GEARS, MAYBE, SURE, apply_and_open, attempts, cause, move_gears, which, with_engine,
};
use simulator::actuator::ActuatorFault;

/// A jam of a clutch actuator, on the feed and, on request, on the clutch motors' own leads.
pub fn jam_capture(scenario: &Scenario, p: &mut Params, own: bool, k: usize) -> Capture {
    let mut bench = scenario.bench(p, 0.0);
    let begin = with_engine(&mut bench, scenario, p);
    let faults = [ActuatorFault::Jammed, ActuatorFault::JammedAfter(9.0)];
    bench.actuators[k].fault = p.pick("jam", &faults);
    let count = p.whole("gear moves before", 0, 3) as usize;
    let at = begin + p.between("pause before", 0.5, 1.0);
    let at = move_gears(&mut bench, p, at, count);
    let number = p.whole("attempts", 1, 3);
    let end = attempts(&mut bench, p, at, CLUTCHES[k], number);
    bench.duration_s = end + p.between("pause after", 0.2, 0.8) - scenario.start_s;
    let mut probes = scenario.plan(p.chance("supply recorded", 0.4), false);
    if own {
        probes.extend(scenario.own(true));
    }
    capture(scenario, p, &bench.run(), probes, &[0, 1])
}

/// A clutch actuator jams, in a scenario; only the feed is clamped.
pub fn jam_feed_in(scenario: &Scenario, p: &mut Params) -> Draft {
    let k = which(p);
    let capture = jam_capture(scenario, p, false, k);
    let said = codes(p, &[("P0810", "77"), ("P080A", "00")]);
    let causes = ["actuation-jam".to_string(), "clutch-actuator-jam".into()];
    Draft::new(capture, said, verdict(&SURE, &causes, "forbidden"))
        .noted("one clamp on the feed: which mechanism jams cannot be told")
}

/// A clutch actuator jams; only the feed is clamped.
pub fn jam_feed(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p);
    jam_feed_in(&scenario, p)
}

/// A clutch actuator jams; each clutch motor has its own clamp.
pub fn jam_own(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let capture = jam_capture(&scenario, p, true, k);
    let said = codes(p, &[("P0810", "71")]);
    let causes = [cause("clutch-actuator", k, "jam")];
    Draft::new(capture, said, verdict(&SURE, &causes, "either"))
}

/// A gear motor jams; both have their own clamps.
pub fn gear_jam(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let mut bench = scenario.bench(p, 0.0);
    let begin = with_engine(&mut bench, &scenario, p);
    bench.actuators[GEARS[k].index()].fault = ActuatorFault::Jammed;
    bench.order(begin + 0.6, GEARS[1 - k], 1.0);
    let number = p.whole("attempts", 1, 3);
    let end = attempts(&mut bench, p, begin + 1.3, GEARS[k], number);
    bench.duration_s = end + 0.5 - scenario.start_s;
    let mut probes = scenario.plan(false, false);
    probes.extend(scenario.own(false));
    let capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    let said = codes(p, &[("P0909", "71")]);
    let causes = ["gear-actuator-jam".to_string()];
    Draft::new(capture, said, verdict(&SURE, &causes, "either"))
}

/// No current flows through a clutch actuator.
pub fn open_circuit(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let own = p.chance("own clamps", 0.5);
    let mut bench = scenario.bench(p, 0.0);
    let begin = with_engine(&mut bench, &scenario, p);
    bench.actuators[k].fault = ActuatorFault::OpenCircuit;
    let mut at = move_gears(&mut bench, p, begin + 0.6, 2);
    if own {
        at = apply_and_open(&mut bench, p, at, 1 - k);
    }
    let end = attempts(&mut bench, p, at, CLUTCHES[k], 2);
    bench.duration_s = end + 0.6 - scenario.start_s;
    let mut probes = scenario.plan(false, false);
    if own {
        probes.extend(scenario.own(true));
    }
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    capture
        .measures
        .push(measures::present("actuation-absent", None, true));
    let said = codes(p, &[("P0900", "13"), ("P080A", "00")]);
    let states = if own { &SURE[..] } else { &MAYBE[..] };
    let causes = ["actuator-open-circuit".to_string()];
    Draft::new(capture, said, verdict(states, &causes, "forbidden"))
}
