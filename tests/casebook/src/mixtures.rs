//! Two things at once at a standstill.

use crate::draft::{Draft, codes, shot, verdict};
use crate::measures::shaft_name;
use crate::rig::Rig;
use crate::standstill::{CLUTCHES, MAYBE, cause, drag_codes, drag_shot, gear_hits};
use simulator::actuator::ActuatorFault;
use simulator::engine::EngineRun;
use simulator::noise::Noise;
use simulator::sensor::SensorFault;

/// A clutch drags, the other shaft coasts down at first.
pub fn drag_and_coast(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let rpm = dice.between(150.0, 450.0);
    let shot = drag_shot(&rig, dice, k, |bench| bench.spinning[1 - k] = rpm);
    let said = codes(dice, &drag_codes(k));
    Draft::new(
        shot,
        said,
        verdict(&MAYBE, &[cause("clutch", k, "drag")], "allowed"),
    )
    .complete()
    .noted("the other shaft only coasts down")
}

/// A clutch drags, a tooth's edge of the other shaft trembles.
pub fn drag_and_dither(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let other = 1 - k;
    if rig.shaft[other].kind == model::SensorKind::Vr {
        let hall = simulator::sensor::SpeedSensor::hall(rig.shaft[other].teeth);
        rig.shaft = [hall.clone(), hall];
    }
    rig.shaft[other].fault = SensorFault::Dither(dice.between(8.0, 40.0));
    let mut shot = drag_shot(&rig, dice, k, |_| {});
    shot.measures
        .retain(|m| m.subject.as_deref() != Some(shaft_name(other)));
    let said = codes(dice, &drag_codes(k));
    Draft::new(
        shot,
        said,
        verdict(&MAYBE, &[cause("clutch", k, "drag")], "allowed"),
    )
    .complete()
    .noted("a tooth edge of the other shaft trembles")
}

/// A clutch drags and stalls, on a weak supply.
pub fn drag_and_weak_supply(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    rig.supply.source_resistance = dice.between(0.06, 0.1);
    let shot = drag_shot(&rig, dice, k, |_| {});
    let said = codes(dice, &drag_codes(k));
    let causes = [cause("clutch", k, "drag"), "supply-weak".into()];
    Draft::new(shot, said, verdict(&MAYBE, &causes, "allowed"))
        .complete()
        .noted("two faults at once")
}

/// A clutch actuator jams on a weak supply; only the feed is clamped.
pub fn jam_and_weak_supply(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    rig.supply.source_resistance = dice.between(0.06, 0.1);
    let mut bench = rig.bench(dice, 0.0);
    bench.engine = EngineRun::idle(rig.idle);
    bench.actuators[k].fault = ActuatorFault::Jammed;
    let at = gear_hits(&mut bench, dice, rig.start_s + 0.7, 2);
    bench.order(at, CLUTCHES[k], 1.0);
    bench.order(at + 2.9, CLUTCHES[k], 1.0);
    bench.duration_s = at + 5.6 - rig.start_s;
    let shot = shot(&rig, dice, &bench.run(), rig.plan(true, false), &[0, 1]);
    let said = codes(dice, &[("P0810", "77")]);
    let causes = [
        "actuation-jam".to_string(),
        "clutch-actuator-jam".into(),
        "supply-weak".into(),
    ];
    Draft::new(shot, said, verdict(&MAYBE, &causes, "forbidden"))
        .complete()
        .noted("two faults at once")
}
