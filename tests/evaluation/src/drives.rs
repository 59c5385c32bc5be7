//! Faults and health on the road.

use crate::draft::{Capture, Draft, FileKind, codes, verdict};
use crate::measures::{self, shaft_name};
use crate::params::Params;
use crate::scenario::{Scenario, actuators};
use crate::standstill::{MAYBE, SURE, cause, take_away, which};
use crate::truth::Measure;
use model::SensorKind;
use model::job_file::{EngineState, Selector};
use simulator::recorder::{Probe, record};
use simulator::road::Road;
use simulator::sensor::{SensorFault, SpeedSensor};

fn road(scenario: &Scenario, p: &mut Params) -> Road {
    let first = p.between("first ratio", 3.3, 3.9);
    let step = p.between("ratio step", 1.58, 1.7);
    let mut road = Road::new(scenario.rate_hz, p.between("drive", 9.5, 11.5));
    road.start_s = scenario.start_s;
    road.launch_s = scenario.start_s + p.between("move off", 0.6, 1.2);
    let third = first / step / p.between("third step", 1.4, 1.5);
    road.ratios = vec![first, first / step, third];
    road.demand = p.between("torque demand", 66.0, 84.0);
    road.in_gear_s = p.between("time in gear", 1.5, 1.9);
    road.inertia_phase_s = p.between("inertia phase", 0.26, 0.4);
    road.idle_rpm = scenario.idle;
    road.supply = scenario.supply;
    road.actuators = actuators(p);
    road
}

/// Records a drive. `slipping` and `blind` as in [`measures::of_drive`].
fn drive_capture(
    scenario: &Scenario,
    p: &mut Params,
    road: &Road,
    slipping: Option<usize>,
    blind: Option<usize>,
) -> Capture {
    let (traces, log) = road.run();
    let mut probes = scenario.plan(false, true);
    probes.push(Probe::Output(scenario.output.clone()));
    let mut found = measures::of_drive(&traces, &log, &road.ratios, slipping, blind);
    if let Some(k) = blind {
        found.push(measures::present(
            "sensor-fault",
            Some(shaft_name(k)),
            false,
        ));
    }
    let mut forbidden = measures::false_claims(&traces, &[]);
    forbidden.push(measures::forbidden("shaft-turning-at-rest", None));
    if blind.is_none() {
        forbidden.push(measures::forbidden("sensor-fault", None));
    }
    let plan = scenario.channels(probes);
    Capture {
        recording: record(&traces, &plan, &mut p.noise("recording")),
        phase: None,
        selector: Some(Selector::D),
        engine: Some(EngineState::Running),
        measures: found,
        forbidden,
        telling_names: scenario.telling_names(),
        file: FileKind::Any,
    }
}

/// A healthy drive, in a scenario.
pub fn healthy_in(scenario: &Scenario, p: &mut Params) -> Draft {
    let road = road(scenario, p);
    let capture = drive_capture(scenario, p, &road, None, None);
    let said = codes(p, &[]);
    Draft::new(capture, said, verdict(&["nothing-found"], &[], "forbidden"))
}

/// A healthy drive.
pub fn healthy(p: &mut Params) -> Draft {
    let scenario = Scenario::drive(p);
    healthy_in(&scenario, p)
}

/// A healthy drive whose shafts have coils: they fade when the vehicle moves off and when a gear is changed.
pub fn healthy_coils(p: &mut Params) -> Draft {
    let scenario = Scenario::drive(p).with_coils(p);
    healthy_in(&scenario, p)
        .complete()
        .noted("a coil gives nothing at low speed: that is no dropout")
}

/// A clutch slips, in a scenario.
pub fn slip_in(scenario: &Scenario, p: &mut Params, k: usize) -> Capture {
    let mut road = road(scenario, p);
    road.clutch_limit[k] = road.demand * p.between("slip torque", 0.5, 0.72);
    road.in_gear_s = p.between("time in gear, slipping", 2.2, 2.7);
    road.duration_s += 2.0;
    drive_capture(scenario, p, &road, Some(k), None)
}

/// A clutch slips.
pub fn slip(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::drive(p), which(p));
    let capture = slip_in(&scenario, p, k);
    let said = codes(p, &[[("P0811", "74"), ("P081E", "74")][k]]);
    let causes = [cause("clutch", k, "slip")];
    Draft::new(capture, said, verdict(&SURE, &causes, "allowed"))
}

/// A slipping clutch of whose drive a channel was not recorded: engine speed, the driven shaft, or the output shaft.
pub fn slip_without(p: &mut Params, role: &str) -> Draft {
    let (scenario, k) = (Scenario::drive(p), which(p));
    let mut capture = slip_in(&scenario, p, k);
    let role = if role == "input-shaft" {
        shaft_name(k)
    } else {
        role
    };
    take_away(&mut capture, role);
    let needs = |m: &crate::truth::Measure| match m.kinds[0].as_str() {
        "gear-ratio" => role == "output-shaft" || role.starts_with("input"),
        "slip" | "shift" => true,
        _ => false,
    };
    capture.measures.retain(|m| !needs(m));
    let said = codes(p, &[[("P0811", "74"), ("P081E", "74")][k]]);
    let slip = [cause("clutch", k, "slip")];
    // Without the output shaft a held gear is not shown, the slip is.
    let without_output = role == "output-shaft";
    let (states, causes) = if without_output {
        (&["open", "probable", "established"][..], &slip[..])
    } else {
        (&["open"][..], &[][..])
    };
    let mut draft = Draft::new(capture, said, verdict(states, causes, "forbidden"))
        .without_fault()
        .complete();
    if !without_output {
        draft.untested = slip.to_vec();
    }
    draft.noted("a slip whose engine, shaft or output was not recorded")
}

/// An input shaft's sensor gives nothing.
pub fn sensor_dead(p: &mut Params) -> Draft {
    let (mut scenario, k) = (Scenario::drive(p), which(p));
    let stuck = p.pick("stuck at", &[0.05, 0.98]);
    let coil = scenario.shaft[k].kind == SensorKind::Vr;
    scenario.shaft[k].fault = SensorFault::Dead(if coil { 0.0 } else { stuck });
    sensor_fault(&scenario, p, k, [("P0717", "31"), ("P2767", "31")][k])
}

/// An input shaft's sensor loses its signal now and then.
pub fn sensor_dropouts(p: &mut Params) -> Draft {
    let (mut scenario, k) = (Scenario::drive(p), which(p));
    scenario.shaft[k].fault = SensorFault::DropOuts(lost(&scenario, p));
    sensor_fault(&scenario, p, k, [("P0718", "1F"), ("P2768", "1F")][k])
}

/// A contact of an input shaft's sensor opens now and then.
pub fn sensor_contact(p: &mut Params) -> Draft {
    let (mut scenario, k) = (Scenario::drive(p), which(p));
    scenario.shaft[k].fault = SensorFault::ContactLost(lost(&scenario, p));
    sensor_fault(&scenario, p, k, [("P0718", "1F"), ("P2768", "1F")][k])
}

/// Some short stretches without a signal.
fn lost(scenario: &Scenario, p: &mut Params) -> Vec<(f64, f64)> {
    let mut at = scenario.start_s + 3.0;
    (0..p.whole("dropouts", 5, 12))
        .map(|_| {
            at += p.between("between dropouts", 0.15, 0.6);
            (at, at + p.between("dropout", 0.03, 0.12))
        })
        .collect()
}

/// A tooth of an input shaft's wheel has broken off.
pub fn broken_tooth(p: &mut Params) -> Draft {
    let (mut scenario, k) = (hall_drive(p), which(p));
    let count = scenario.shaft[k].wheel.count();
    scenario.shaft[k].wheel.break_off(p.index("tooth", count));
    wheel_fault(&scenario, p, k)
}

/// A tooth of an input shaft's wheel is notched and counts twice.
pub fn notched_tooth(p: &mut Params) -> Draft {
    let (mut scenario, k) = (hall_drive(p), which(p));
    let count = scenario.shaft[k].wheel.count();
    scenario.shaft[k].wheel.notch(p.index("tooth", count));
    let mut draft = wheel_fault(&scenario, p, k);
    // A wheel that is made with one tooth more looks the same: what is odd about it may be said without calling it a fault.
    let faults = |m: &&mut Measure| m.kinds.iter().any(|k| k == "sensor-fault");
    let measures = draft.captures.iter_mut().flat_map(|c| &mut c.measures);
    measures
        .filter(faults)
        .for_each(|m| m.also.push("tooth-wheel".into()));
    draft
}

/// A scenario whose input shafts have Hall sensors, sampled finely enough to tell the teeth apart.
pub fn hall_drive(p: &mut Params) -> Scenario {
    let mut scenario = Scenario::drive(p);
    scenario.rate_hz = 25_000.0;
    let wheel = scenario.shaft[0].wheel.clone();
    let hall = SpeedSensor {
        noise: scenario.output.noise,
        ..SpeedSensor::hall(wheel.positions).with_wheel(wheel)
    };
    scenario.shaft = [hall.clone(), hall];
    scenario
}

fn wheel_fault(scenario: &Scenario, p: &mut Params, k: usize) -> Draft {
    let mut draft = sensor_fault(scenario, p, k, [("P0716", "29"), ("P2766", "29")][k]);
    draft.verdict = verdict(&MAYBE, &[cause("shaft-sensor", k, "fault")], "forbidden");
    // The wheel's state needs its tooth count.
    draft
        .complete()
        .noted("one tooth of the wheel, the rest of the signal is good")
}

fn sensor_fault(
    scenario: &Scenario,
    p: &mut Params,
    k: usize,
    said: (&'static str, &'static str),
) -> Draft {
    let road = road(scenario, p);
    let capture = drive_capture(scenario, p, &road, None, Some(k));
    let said = codes(p, &[said]);
    let causes = [cause("shaft-sensor", k, "fault")];
    Draft::new(capture, said, verdict(&SURE, &causes, "forbidden"))
}

/// Both clutches carry in a shift.
pub fn double_engagement(p: &mut Params) -> Draft {
    let scenario = Scenario::drive(p);
    let mut road = road(&scenario, p);
    road.tie_up = Some((0, p.between("tie-up", 0.45, 0.7)));
    let capture = drive_capture(&scenario, p, &road, None, None);
    let said = codes(p, &[("P0893", "00")]);
    let causes = ["double-engagement".to_string()];
    Draft::new(capture, said, verdict(&MAYBE, &causes, "either"))
        .noted("tie-up in the first shift: both clutches carry, the output slows down")
}

/// A clutch slips and the other shaft's sensor loses its signal.
pub fn slip_and_dropouts(p: &mut Params) -> Draft {
    let mut scenario = Scenario::drive(p);
    let at = scenario.start_s + p.between("dropout at", 5.2, 6.2);
    scenario.shaft[0].fault = SensorFault::DropOuts(vec![(at, at + 0.1), (at + 0.4, at + 0.47)]);
    let mut road = road(&scenario, p);
    road.clutch_limit[1] = road.demand * 0.6;
    road.in_gear_s = 2.4;
    road.duration_s += 2.0;
    let capture = drive_capture(&scenario, p, &road, Some(1), Some(0));
    let said = codes(p, &[("P081E", "74"), ("P0718", "1F")]);
    let causes = ["clutch-2-slip".to_string(), "shaft-sensor-1-fault".into()];
    Draft::new(capture, said, verdict(&MAYBE, &causes, "either")).noted("two faults at once")
}
