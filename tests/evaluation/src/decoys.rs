//! Decoys: recordings that look like a fault and show none.

use crate::draft::{Capture, Draft, capture, codes, verdict};
use crate::measures::{self, forbidden, shaft_name};
use crate::params::Params;
use crate::scenario::Scenario;
use crate::standstill::{
    CLUTCHES, apply_and_open, cause, healthy_in, idling, move_gears, relearn, which,
};
use model::job_file::{EngineState, Selector};
use simulator::bench::Bench;
use simulator::recorder::{Probe, Source};
use simulator::scan_text::ScanCode;
use simulator::sensor::SensorFault;

/// Nothing found is right, anything careful is tolerated.
const CAREFUL: [&str; 4] = ["nothing-found", "open", "probable", "established"];

/// A bench with a healthy gearbox and an idling engine.
pub fn idle_bench(scenario: &Scenario, p: &mut Params) -> Bench {
    let mut bench = scenario.bench(p, 0.0);
    bench.engine = idling(scenario, p);
    bench
}

/// Origin of what the wire of a resting shaft picks up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PickUp {
    /// The other shaft's sensor.
    Copy,
    /// The ignition.
    Ignition,
    /// A pulse-width modulated load.
    Pwm,
    /// The gearbox controller's own switching, which wanders as a shaft's speed does.
    Load,
    /// The alternator.
    Alternator,
}

fn source(p: &mut Params, of: PickUp, scenario: &Scenario, k: usize, activity: f64) -> Source {
    let span = scenario.shaft[k].levels().1 - scenario.shaft[k].levels().0;
    match of {
        PickUp::Copy => Source::OtherShaft {
            sensor: scenario.shaft[1 - k].clone(),
            share: p.between("picked-up share", 0.12, 0.5),
        },
        PickUp::Ignition => Source::Ignition {
            per_turn: p.pick("sparks per turn", &[1.5, 2.0, 2.0, 3.0]),
            height: span * p.between("picked-up share", 0.15, 0.8),
        },
        PickUp::Pwm => Source::Pwm {
            hz: p.between("switching", 80.0, 220.0),
            height: span * p.between("picked-up share", 0.15, 0.8),
        },
        PickUp::Alternator => Source::Alternator {
            // Six to eight pole pairs, three phases rectified or one phase, pulley ratio 2.2 to 3.
            per_turn: p.pick("alternator periods", &[6.0, 7.0, 8.0])
                * p.between("pulley ratio", 2.2, 3.0),
            height: span * p.between("picked-up share", 0.1, 0.5),
        },
        PickUp::Load => Source::Load {
            volts_per_amp: span * p.between("picked-up share", 0.8, 1.6) / activity,
        },
    }
}

/// A wire that picks up what belongs to another.
pub fn pick_up(p: &mut Params, of: PickUp) -> Draft {
    let scenario = Scenario::standstill(p);
    pick_up_in(&scenario, p, of, false)
}

/// A coil's wire of a resting shaft picks up the engine, the alternator or a switched load, at steady engine speed or with a
/// stab at the accelerator. A coil's own voltage would grow with its frequency; what is picked up keeps its height.
pub fn coil_pick_up(p: &mut Params, changing: bool) -> Draft {
    let scenario = Scenario::standstill(p).with_coils(p);
    let origins = [PickUp::Ignition, PickUp::Alternator, PickUp::Pwm];
    let of = p.pick("origin", &origins);
    let mut draft = pick_up_in(&scenario, p, of, changing);
    if !changing {
        draft.verdict.expected = "open".into();
        draft =
            draft.noted("steady engine: nothing parts pick-up from rotation, 'open' is expected");
    }
    draft
}

fn pick_up_in(scenario: &Scenario, p: &mut Params, of: PickUp, changing: bool) -> Draft {
    let k = which(p);
    let mut bench = idle_bench(scenario, p);
    if of == PickUp::Load {
        bench.controller.activity = p.between("controller activity", 0.15, 0.3);
        bench.controller.activity_hz = p.between("controller activity rate", 60.0, 200.0);
        bench.controller.wander = p.between("controller wander", 0.3, 0.9);
    }
    let at = move_gears(&mut bench, p, scenario.start_s + 0.6, 2);
    let mut at = apply_and_open(&mut bench, p, at, 1 - k);
    if changing {
        let factor = p.between("accelerated to", 1.6, 2.4);
        bench.engine = bench.engine.with_blip(at, factor * scenario.idle, 2.4);
        at += 2.8;
    }
    bench.duration_s = at + 1.6 - scenario.start_s;
    let source = source(p, of, scenario, k, bench.controller.activity);
    let mut probes = scenario.plan(false, changing || p.chance("engine recorded", 0.5));
    probes[1 + k] = Probe::PickUp(k, scenario.shaft[k].clone(), source);
    let mut capture = capture(scenario, p, &bench.run(), probes, &[0, 1]);
    capture
        .forbidden
        .push(forbidden("shaft-turning", Some(shaft_name(k))));
    let said = codes(p, &[("P080A", "00")]);
    let causes = [
        cause("shaft-sensor", k, "fault"),
        "relearn-not-completed".into(),
    ];
    Draft::new(capture, said, verdict(&CAREFUL, &causes, "forbidden"))
        .without_fault()
        .complete()
        .noted("pick-up on the wire of a shaft at rest")
}

/// Both shafts coast down.
pub fn coast(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p);
    let mut bench = idle_bench(&scenario, p);
    bench.spinning = [
        p.between("coasting from", 200.0, 600.0),
        p.between("coasting from", 200.0, 600.0),
    ];
    let end = relearn(&mut bench, p, scenario.start_s + 2.4);
    bench.duration_s = end + 0.8 - scenario.start_s;
    let probes = scenario.plan(false, false);
    let capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    let said = codes(p, &[]);
    let states = ["nothing-found", "open"];
    Draft::new(capture, said, verdict(&states, &[], "forbidden"))
        .noted("the shafts coast down after they were released")
}

/// A tooth's edge trembles before a sensor at rest.
pub fn dither(p: &mut Params) -> Draft {
    let (mut scenario, k) = (Scenario::standstill(p).with_hall(), which(p));
    scenario.shaft[k].fault = SensorFault::Dither(p.between("trembling", 8.0, 60.0));
    let mut bench = idle_bench(&scenario, p);
    let end = move_gears(&mut bench, p, scenario.start_s + 0.8, 3);
    bench.duration_s = end + 3.5 - scenario.start_s;
    let probes = scenario.plan(false, false);
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    capture
        .measures
        .retain(|m| m.subject.as_deref() != Some(shaft_name(k)));
    let said = codes(p, &[("P080A", "00")]);
    let causes = [
        cause("shaft-sensor", k, "fault"),
        "relearn-not-completed".into(),
    ];
    Draft::new(capture, said, verdict(&CAREFUL, &causes, "forbidden"))
        .without_fault()
        .complete()
        .noted("one tooth edge trembles in front of a sensor at rest")
}

/// A floating shaft creeps by a few teeth.
pub fn creep(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let mut bench = idle_bench(&scenario, p);
    let end = move_gears(&mut bench, p, scenario.start_s + 0.8, 2);
    let (from, rpm) = (scenario.start_s + 1.5, p.between("creep", 2.0, 7.0));
    bench.driven[k] = Some(vec![
        (from, 0.0),
        (from + 0.3, rpm),
        (from + 2.5, rpm),
        (from + 3.0, 0.0),
    ]);
    bench.duration_s = (end + 1.0 - scenario.start_s).max(6.0);
    let probes = scenario.plan(false, false);
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    capture
        .measures
        .retain(|m| m.subject.as_deref() != Some(shaft_name(k)));
    let said = codes(p, &[("P080A", "00")]);
    careful(capture, said)
        .complete()
        .noted("slow creep of a few teeth")
}

fn careful(capture: Capture, said: Vec<ScanCode>) -> Draft {
    let causes = ["relearn-not-completed".to_string()];
    Draft::new(capture, said, verdict(&CAREFUL, &causes, "forbidden")).without_fault()
}

/// The engine is off; the wheels turn a shaft.
pub fn engine_off(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let mut bench = scenario.bench(p, 7.5);
    move_gears(&mut bench, p, scenario.start_s + 0.5, 1);
    let rpm = p.between("turned by the wheels", 60.0, 180.0);
    let from = scenario.start_s + 1.2;
    bench.driven[k] = Some(vec![
        (from, 0.0),
        (from + 0.8, rpm),
        (from + 4.0, 0.8 * rpm),
        (from + 5.0, 0.0),
    ]);
    let probes = scenario.plan(false, true);
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    capture.selector = Some(Selector::N);
    capture.engine = Some(EngineState::Off);
    capture.forbidden.retain(|f| f.kind == "actuation-stall");
    let said = codes(p, &[("P080A", "00")]);
    careful(capture, said)
        .complete()
        .noted("engine off: the wheels turn the shaft")
}

/// The engine is off, the customer's vehicle does not move, and no clutch is tried: nothing is tested, nothing is cleared.
pub fn engine_off_complaint(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p);
    let mut bench = scenario.bench(p, 0.0);
    let count = p.whole("gear moves", 0, 3) as usize;
    let end = move_gears(&mut bench, p, scenario.start_s + 0.7, count);
    bench.duration_s = end + p.between("pause after", 1.5, 4.0) - scenario.start_s;
    let probes = scenario.plan(p.chance("supply recorded", 0.5), true);
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    capture.engine = Some(EngineState::Off);
    let said = codes(p, &[]);
    let mut draft = Draft::new(capture, said, verdict(&["open"], &[], "forbidden"))
        .complete()
        .noted("engine off, the clutches were never tried: neither a fault nor health is shown");
    draft.concern = "Invented complaint: the vehicle does not move.";
    draft.untested = ["drag", "slip"]
        .iter()
        .flat_map(|fault| [0, 1].map(|k| cause("clutch", k, fault)))
        .collect();
    draft
}

/// The engine is off and a charger holds the supply up; in N the wheels turn a shaft steadily, and nobody says what the
/// engine did.
pub fn charger(p: &mut Params) -> Draft {
    let (mut scenario, k) = (Scenario::standstill(p), which(p));
    scenario.supply.charger = Some(p.between("charger", 13.5, 14.4));
    let mut bench = scenario.bench(p, 8.5);
    move_gears(&mut bench, p, scenario.start_s + 0.5, 1);
    let rpm = p.between("turned by the wheels", 60.0, 180.0);
    let from = scenario.start_s + 1.2;
    bench.driven[k] = Some(vec![
        (from, 0.0),
        (from + 0.5, rpm),
        (from + 5.5, 1.05 * rpm),
        (from + 6.5, 0.0),
    ]);
    let probes = scenario.plan(true, false);
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    capture.selector = Some(Selector::N);
    capture.engine = None;
    capture
        .forbidden
        .retain(|f| f.kind == "shaft-turning-at-rest");
    let said = codes(p, &[("P080A", "00")]);
    let states = ["open", "nothing-found"];
    let mut draft = Draft::new(capture, said, verdict(&states, &[], "forbidden"));
    draft.live = false;
    draft.complete().noted(
        "engine off on a charger: the wheels turn the shaft, nobody says that the engine is off",
    )
}

/// The selector is in D: the shaft may turn.
pub fn selector_d(p: &mut Params) -> Draft {
    let (scenario, k) = (Scenario::standstill(p), which(p));
    let mut bench = idle_bench(&scenario, p);
    let at = move_gears(&mut bench, p, scenario.start_s + 0.6, 2);
    bench.order(at, CLUTCHES[k], 0.75);
    bench.duration_s = at + 4.0 - scenario.start_s;
    let probes = scenario.plan(false, p.chance("engine recorded", 0.5));
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    capture.selector = Some(Selector::D);
    let said = codes(p, &[("P080A", "00")]);
    careful(capture, said)
        .complete()
        .noted("selector in D: the shaft may turn")
}

/// Ordinary bus traffic lies beside a healthy recording: it holds no code.
pub fn bus_traffic(p: &mut Params) -> Draft {
    let scenario = Scenario::standstill(p).with_hall();
    let mut draft = healthy_in(&scenario, p).complete();
    let nodes = p.whole("bus nodes", 8, 40) as usize;
    let long = p.between("bus log", 2.0, 8.0);
    let frames = simulator::bus::traffic(long, nodes, &mut p.noise("bus"));
    let text = simulator::bus::write(&frames, 1_770_000_000);
    draft.beside.push(("bus.log".into(), text.into_bytes()));
    draft.codes.clear();
    draft.scan = false;
    draft.noted("ordinary bus traffic: nobody asks for codes, so there is none")
}

/// A question for codes and its answer stand in the bus traffic beside a healthy recording.
pub fn bus_answer(p: &mut Params) -> Draft {
    use simulator::bus::{DiagnosticCode, code_query, traffic, write};
    let mut draft = bus_traffic(p);
    // P0716-64 confirmed, P080A-00 confirmed, C0040-00 history: two bytes as SAE J2012 encodes them.
    let all = [
        (0x0716, 0x64, 0x2F, "P0716", Some("64"), "confirmed"),
        (0x080A, 0x00, 0x08, "P080A", None, "confirmed"),
        (0x4040, 0x00, 0x08, "C0040", None, "confirmed"),
    ];
    let count = p.whole("codes in the answer", 1, 3) as usize;
    let codes: Vec<DiagnosticCode> = all[..count]
        .iter()
        .map(|&(code, failure_type, status, ..)| DiagnosticCode {
            code,
            failure_type,
            status,
        })
        .collect();
    let nodes = p.whole("bus nodes, answer", 8, 30) as usize;
    let mut frames = traffic(3.0, nodes, &mut p.noise("bus"));
    frames.extend(code_query(1_200_000, 0x7E1, 0x7E9, &codes));
    draft.beside = vec![("bus.log".into(), write(&frames, 1_770_000_000).into_bytes())];
    draft.beside_codes = all[..count]
        .iter()
        .map(|&(.., code, ft, status)| crate::truth::TrueCode {
            code: code.into(),
            failure_type: ft.map(String::from),
            status: vec![status.into()],
            module: None,
            file: "bus.log".into(),
        })
        .collect();
    draft
        .verdict
        .states
        .extend(["open".into(), "probable".into()]);
    draft.verdict.causes = vec![
        "shaft-sensor-1-fault".into(),
        "relearn-not-completed".into(),
    ];
    draft.notes = vec!["the codes of the answer count, the traffic beside it does not".into()];
    draft
}

/// The shafts' sensors are healthy and their edges bounce: doubled edges are no teeth.
pub fn bouncing(p: &mut Params) -> Draft {
    let mut scenario = Scenario::standstill(p).with_hall();
    scenario.rate_hz = 8000.0;
    let share = p.between("bounce", 0.02, 0.3);
    scenario.shaft.iter_mut().for_each(|s| s.bounce = share);
    let mut bench = idle_bench(&scenario, p);
    bench.spinning = [p.between("coasting from", 200.0, 600.0), 0.0];
    let end = relearn(&mut bench, p, scenario.start_s + 2.4);
    bench.duration_s = end + 0.8 - scenario.start_s;
    let probes = scenario.plan(false, false);
    let mut capture = capture(&scenario, p, &bench.run(), probes, &[0, 1]);
    capture
        .forbidden
        .push(measures::forbidden("sensor-fault", None));
    let said = codes(p, &[]);
    let states = ["nothing-found", "open"];
    Draft::new(capture, said, verdict(&states, &[], "forbidden"))
        .complete()
        .noted("the edges bounce: a doubled edge is no tooth")
}
