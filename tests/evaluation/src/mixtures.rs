//! Two faults, or a fault and a decoy, at once at a standstill.

use crate::draft::{Draft, capture, codes, verdict};
use crate::measures::shaft_name;
use crate::params::Params;
use crate::scenario::Scenario;
use crate::standstill::{
    CLUTCHES, MAYBE, cause, drag_capture, drag_codes, idling, move_gears, which,
};
use simulator::actuator::ActuatorFault;
use simulator::sensor::SensorFault;

/// A clutch drags, the other shaft coasts down at first.
pub fn drag_and_coast(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let rpm = p.between("coasting from", 150.0, 450.0);
    let capture = drag_capture(&scenario, p, k, |bench| bench.spinning[1 - k] = rpm);
    let said = codes(p, &drag_codes(k));
    let causes = [cause("clutch", k, "drag")];
    Draft::new(capture, said, verdict(&MAYBE, &causes, "allowed"))
        .complete()
        .noted("the other shaft only coasts down")
}

/// A clutch drags, a tooth's edge of the other shaft trembles.
pub fn drag_and_dither(p: &mut Params) -> Draft {
    let (mut scenario, k) = (Scenario::standstill(p).with_hall(), which(p));
    let other = 1 - k;
    scenario.shaft[other].fault = SensorFault::Dither(p.between("trembling", 8.0, 40.0));
    let mut capture = drag_capture(&scenario, p, k, |_| {});
    capture
        .measures
        .retain(|m| m.subject.as_deref() != Some(shaft_name(other)));
    let said = codes(p, &drag_codes(k));
    let causes = [cause("clutch", k, "drag")];
    Draft::new(capture, said, verdict(&MAYBE, &causes, "allowed"))
        .complete()
        .noted("a tooth edge of the other shaft trembles")
}

/// A clutch drags and stalls, on a weak supply.
pub fn drag_and_weak_supply(p: &mut Params) -> Draft {
    let (mut scenario, k) = (Scenario::standstill(p), which(p));
    scenario.supply.source_resistance = p.between("weak resistance", 0.06, 0.1);
    let capture = drag_capture(&scenario, p, k, |_| {});
    let said = codes(p, &drag_codes(k));
    let causes = [cause("clutch", k, "drag"), "supply-weak".into()];
    Draft::new(capture, said, verdict(&MAYBE, &causes, "allowed"))
        .complete()
        .noted("two faults at once")
}

/// A clutch actuator jams on a weak supply; only the feed is clamped.
pub fn jam_and_weak_supply(p: &mut Params) -> Draft {
    let (mut scenario, k) = (Scenario::standstill(p), which(p));
    scenario.supply.source_resistance = p.between("weak resistance", 0.06, 0.1);
    let mut bench = scenario.bench(p, 0.0);
    bench.engine = idling(&scenario, p);
    bench.actuators[k].fault = ActuatorFault::Jammed;
    let at = move_gears(&mut bench, p, scenario.start_s + 0.7, 2);
    bench.order(at, CLUTCHES[k], 1.0);
    bench.order(at + 2.9, CLUTCHES[k], 1.0);
    bench.duration_s = at + 5.6 - scenario.start_s;
    let probes = scenario.plan(true, false);
    let capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    let said = codes(p, &[("P0810", "77")]);
    let causes = [
        "actuation-jam".to_string(),
        "clutch-actuator-jam".into(),
        "supply-weak".into(),
    ];
    Draft::new(capture, said, verdict(&MAYBE, &causes, "forbidden"))
        .complete()
        .noted("two faults at once")
}
