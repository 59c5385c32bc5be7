//! Faults and health on the road.

use crate::draft::{Draft, Shot, codes, verdict};
use crate::measures::{self, shaft_name};
use crate::rig::{Rig, actuators};
use crate::standstill::{MAYBE, SURE, cause};
use model::job_file::{EngineState, Selector};
use simulator::noise::Noise;
use simulator::recorder::{Probe, record};
use simulator::road::Road;
use simulator::sensor::SensorFault;

fn road(rig: &Rig, dice: &mut Noise) -> Road {
    let first = dice.between(3.3, 3.9);
    let step = dice.between(1.58, 1.7);
    let mut road = Road::new(rig.rate_hz, dice.between(9.5, 11.5));
    road.start_s = rig.start_s;
    road.launch_s = rig.start_s + dice.between(0.6, 1.2);
    road.ratios = vec![first, first / step, first / step / dice.between(1.4, 1.5)];
    road.demand = dice.between(66.0, 84.0);
    road.in_gear_s = dice.between(1.5, 1.9);
    road.inertia_phase_s = dice.between(0.26, 0.4);
    road.idle_rpm = rig.idle;
    road.supply = rig.supply;
    road.actuators = actuators(dice);
    road
}

/// Records a drive. `slipping` and `blind` as in [`measures::of_drive`].
fn drive_shot(
    rig: &Rig,
    dice: &mut Noise,
    road: &Road,
    slipping: Option<usize>,
    blind: Option<usize>,
) -> Shot {
    let (traces, log) = road.run();
    let mut probes = rig.plan(false, true);
    probes.push(Probe::Output(rig.output.clone()));
    let mut found = measures::of_drive(&traces, &log, &road.ratios, slipping, blind);
    if let Some(k) = blind {
        found.push(measures::present(
            "sensor-fault",
            Some(shaft_name(k)),
            false,
        ));
    }
    let mut forbidden = measures::false_claims(&traces, &[]);
    forbidden.push(crate::truth::Forbidden {
        kind: "shaft-turning-at-rest".into(),
        subject: None,
        file: String::new(),
    });
    Shot {
        recording: record(&traces, &rig.channels(probes), dice),
        phase: None,
        selector: Some(Selector::D),
        engine: Some(EngineState::Running),
        measures: found,
        forbidden,
        telling_names: rig.telling_names(),
    }
}

/// A healthy drive.
pub fn healthy(dice: &mut Noise, level: usize) -> Draft {
    let rig = Rig::drive(dice, level);
    let road = road(&rig, dice);
    let shot = drive_shot(&rig, dice, &road, None, None);
    let said = codes(dice, &[]);
    Draft::new(shot, said, verdict(&["nothing-found"], &[], "forbidden"))
}

fn slip_shot(rig: &Rig, dice: &mut Noise, k: usize) -> Shot {
    let mut road = road(rig, dice);
    road.clutch_limit[k] = road.demand * dice.between(0.5, 0.72);
    road.in_gear_s = dice.between(2.2, 2.7);
    road.duration_s += 2.0;
    drive_shot(rig, dice, &road, Some(k), None)
}

/// A clutch slips.
pub fn slip(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::drive(dice, level), dice.whole(0, 1) as usize);
    let shot = slip_shot(&rig, dice, k);
    let said = codes(dice, &[[("P0811", "74"), ("P081E", "74")][k]]);
    Draft::new(
        shot,
        said,
        verdict(&SURE, &[cause("clutch", k, "slip")], "allowed"),
    )
}

/// An input shaft's sensor gives nothing.
pub fn sensor_dead(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (Rig::drive(dice, level), dice.whole(0, 1) as usize);
    let stuck = if rig.shaft[k].kind == model::SensorKind::Vr {
        0.0
    } else {
        *dice.pick(&[0.05, 0.98])
    };
    rig.shaft[k].fault = SensorFault::Dead(stuck);
    sensor_fault(&rig, dice, k, [("P0717", "31"), ("P2767", "31")][k])
}

/// An input shaft's sensor loses its signal now and then.
pub fn sensor_drop_outs(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (Rig::drive(dice, level), dice.whole(0, 1) as usize);
    rig.shaft[k].fault = SensorFault::DropOuts(lost(&rig, dice));
    sensor_fault(&rig, dice, k, [("P0718", "1F"), ("P2768", "1F")][k])
}

/// A contact of an input shaft's sensor opens now and then.
pub fn sensor_contact(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (Rig::drive(dice, level), dice.whole(0, 1) as usize);
    rig.shaft[k].fault = SensorFault::ContactLost(lost(&rig, dice));
    sensor_fault(&rig, dice, k, [("P0718", "1F"), ("P2768", "1F")][k])
}

/// Some short stretches without a signal.
fn lost(rig: &Rig, dice: &mut Noise) -> Vec<(f64, f64)> {
    let mut at = rig.start_s + 3.0;
    (0..dice.whole(5, 12))
        .map(|_| {
            at += dice.between(0.15, 0.6);
            (at, at + dice.between(0.03, 0.12))
        })
        .collect()
}

/// A tooth of an input shaft's wheel has broken off.
pub fn broken_tooth(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (hall_drive(dice, level), dice.whole(0, 1) as usize);
    let last = u64::from(rig.shaft[k].teeth) - 1;
    rig.shaft[k].broken = vec![dice.whole(0, last) as u32];
    wheel_fault(&rig, dice, k)
}

/// A tooth of an input shaft's wheel is notched and counts twice.
pub fn notched_tooth(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (hall_drive(dice, level), dice.whole(0, 1) as usize);
    let last = u64::from(rig.shaft[k].teeth) - 1;
    rig.shaft[k].notched = vec![dice.whole(0, last) as u32];
    wheel_fault(&rig, dice, k)
}

/// A rig whose input shafts have Hall sensors, sampled finely enough to tell the teeth apart.
fn hall_drive(dice: &mut Noise, level: usize) -> Rig {
    let mut rig = Rig::drive(dice, level);
    rig.rate_hz = 25_000.0;
    let hall = simulator::sensor::SpeedSensor {
        noise: rig.output.noise,
        ..simulator::sensor::SpeedSensor::hall(rig.shaft[0].teeth)
    };
    rig.shaft = [hall.clone(), hall];
    rig
}

fn wheel_fault(rig: &Rig, dice: &mut Noise, k: usize) -> Draft {
    let mut draft = sensor_fault(rig, dice, k, [("P0716", "29"), ("P2766", "29")][k]);
    draft.verdict = verdict(&MAYBE, &[cause("shaft-sensor", k, "fault")], "forbidden");
    // The wheel's state needs its tooth count.
    draft
        .complete()
        .noted("one tooth of the wheel, the rest of the signal is good")
}

fn sensor_fault(
    rig: &Rig,
    dice: &mut Noise,
    k: usize,
    said: (&'static str, &'static str),
) -> Draft {
    let road = road(rig, dice);
    let shot = drive_shot(rig, dice, &road, None, Some(k));
    let said = codes(dice, &[said]);
    Draft::new(
        shot,
        said,
        verdict(&SURE, &[cause("shaft-sensor", k, "fault")], "forbidden"),
    )
}

/// Both clutches carry in a shift.
pub fn double_engagement(dice: &mut Noise, level: usize) -> Draft {
    let rig = Rig::drive(dice, level);
    let mut road = road(&rig, dice);
    road.tie_up = Some((0, dice.between(0.45, 0.7)));
    let shot = drive_shot(&rig, dice, &road, None, None);
    let said = codes(dice, &[("P0893", "00")]);
    Draft::new(
        shot,
        said,
        verdict(&MAYBE, &["double-engagement".into()], "either"),
    )
    .noted("tie-up in the first shift: both clutches carry, the output slows down")
}

/// A clutch slips and the other shaft's sensor loses its signal.
pub fn slip_and_drop_outs(dice: &mut Noise, level: usize) -> Draft {
    let mut rig = Rig::drive(dice, level);
    let at = rig.start_s + dice.between(5.2, 6.2);
    rig.shaft[0].fault = SensorFault::DropOuts(vec![(at, at + 0.1), (at + 0.4, at + 0.47)]);
    let mut road = road(&rig, dice);
    road.clutch_limit[1] = road.demand * 0.6;
    road.in_gear_s = 2.4;
    road.duration_s += 2.0;
    let shot = drive_shot(&rig, dice, &road, Some(1), Some(0));
    let said = codes(dice, &[("P081E", "74"), ("P0718", "1F")]);
    let causes = ["clutch-2-slip".to_string(), "shaft-sensor-1-fault".into()];
    Draft::new(shot, said, verdict(&MAYBE, &causes, "either")).noted("two faults at once")
}
