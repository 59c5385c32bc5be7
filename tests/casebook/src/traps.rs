//! Recordings that look like a fault and are none, and recordings that cannot carry a decision.

use crate::draft::{Draft, Shot, codes, shot, verdict};
use crate::measures::{self, shaft_name};
use crate::rig::Rig;
use crate::standstill::{cause, drag_codes, gear_hits, mild_shot, press, relearn};
use model::job_file::{EngineState, Selector};
use simulator::engine::EngineRun;
use simulator::noise::Noise;
use simulator::recorder::{Clamp, Probe, Source};
use simulator::sensor::SensorFault;

/// Nothing found is right, anything careful is tolerated.
const CAREFUL: [&str; 4] = ["nothing-found", "open", "probable", "established"];

fn idle(rig: &Rig, dice: &mut Noise) -> simulator::bench::Bench {
    let mut bench = rig.bench(dice, 0.0);
    bench.engine = EngineRun::idle(rig.idle);
    bench
}

/// What the wire of a resting shaft picks up.
#[derive(Debug, Clone, Copy)]
pub enum PickUp {
    /// The other shaft's sensor.
    Copy,
    /// The ignition.
    Ignition,
    /// A pulse-width modulated load.
    Pwm,
    /// The gearbox controller's own switching, which wanders as a shaft's speed does.
    Load,
}

/// A wire that picks up what belongs to another.
pub fn pick_up(dice: &mut Noise, level: usize, of: PickUp) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let mut bench = idle(&rig, dice);
    if matches!(of, PickUp::Load) {
        bench.controller.activity = dice.between(0.15, 0.3);
        bench.controller.activity_hz = dice.between(60.0, 200.0);
        bench.controller.wander = dice.between(0.3, 0.9);
    }
    let mut at = gear_hits(&mut bench, dice, rig.start_s + 0.6, 2);
    at = press(&mut bench, dice, at, 1 - k);
    bench.duration_s = at + 1.6 - rig.start_s;
    let span = rig.shaft[k].levels().1 - rig.shaft[k].levels().0;
    let source = match of {
        PickUp::Copy => Source::OtherShaft {
            sensor: rig.shaft[1 - k].clone(),
            share: dice.between(0.12, 0.5),
        },
        PickUp::Ignition => Source::Ignition {
            per_turn: 2.0,
            height: span * dice.between(0.15, 0.8),
        },
        PickUp::Pwm => Source::Pwm {
            hz: dice.between(80.0, 220.0),
            height: span * dice.between(0.15, 0.8),
        },
        PickUp::Load => Source::Load {
            volts_per_amp: span * dice.between(0.8, 1.6) / bench.controller.activity,
        },
    };
    let mut probes = rig.plan(false, dice.chance(0.5));
    probes[1 + k] = Probe::PickUp(k, rig.shaft[k].clone(), source);
    let mut shot = shot(&rig, dice, &bench.run(), probes, &[0, 1]);
    shot.forbidden.push(crate::truth::Forbidden {
        kind: "shaft-turning".into(),
        subject: Some(shaft_name(k).into()),
        file: String::new(),
    });
    let said = codes(dice, &[("P080A", "00")]);
    let causes = [
        cause("shaft-sensor", k, "fault"),
        "relearn-not-completed".into(),
    ];
    let mut draft = Draft::new(shot, said, verdict(&CAREFUL, &causes, "forbidden"));
    draft.true_cause = None;
    draft
        .complete()
        .noted("pick-up on the wire of a shaft at rest")
}

/// Both shafts coast down.
pub fn coast(dice: &mut Noise, level: usize) -> Draft {
    let rig = Rig::standstill(dice, level);
    let mut bench = idle(&rig, dice);
    bench.spinning = [dice.between(200.0, 600.0), dice.between(200.0, 600.0)];
    let end = relearn(&mut bench, dice, rig.start_s + 2.4);
    bench.duration_s = end + 0.8 - rig.start_s;
    let shot = shot(&rig, dice, &bench.run(), rig.plan(false, false), &[0, 1]);
    let said = codes(dice, &[]);
    Draft::new(
        shot,
        said,
        verdict(&["nothing-found", "open"], &[], "forbidden"),
    )
    .noted("the shafts coast down after they were released")
}

/// A tooth's edge trembles before a sensor at rest.
pub fn dither(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    if rig.shaft[k].kind == model::SensorKind::Vr {
        let hall = simulator::sensor::SpeedSensor::hall(rig.shaft[k].teeth);
        rig.shaft = [hall.clone(), hall];
    }
    rig.shaft[k].fault = SensorFault::Dither(dice.between(8.0, 60.0));
    let mut bench = idle(&rig, dice);
    let end = gear_hits(&mut bench, dice, rig.start_s + 0.8, 3);
    bench.duration_s = end + 3.5 - rig.start_s;
    let mut shot = shot(&rig, dice, &bench.run(), rig.plan(false, false), &[0, 1]);
    shot.measures
        .retain(|m| m.subject.as_deref() != Some(shaft_name(k)));
    let said = codes(dice, &[("P080A", "00")]);
    let causes = [
        cause("shaft-sensor", k, "fault"),
        "relearn-not-completed".into(),
    ];
    let mut draft = Draft::new(shot, said, verdict(&CAREFUL, &causes, "forbidden"));
    draft.true_cause = None;
    draft
        .complete()
        .noted("one tooth edge trembles in front of a sensor at rest")
}

/// A floating shaft creeps by a few teeth.
pub fn creep(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let mut bench = idle(&rig, dice);
    let end = gear_hits(&mut bench, dice, rig.start_s + 0.8, 2);
    let (from, rpm) = (rig.start_s + 1.5, dice.between(2.0, 7.0));
    bench.driven[k] = Some(vec![
        (from, 0.0),
        (from + 0.3, rpm),
        (from + 2.5, rpm),
        (from + 3.0, 0.0),
    ]);
    bench.duration_s = (end + 1.0 - rig.start_s).max(6.0);
    let mut shot = shot(&rig, dice, &bench.run(), rig.plan(false, false), &[0, 1]);
    shot.measures
        .retain(|m| m.subject.as_deref() != Some(shaft_name(k)));
    let said = codes(dice, &[("P080A", "00")]);
    careful(shot, said)
        .complete()
        .noted("slow creep of a few teeth")
}

fn careful(shot: Shot, said: Vec<simulator::scan_text::ScanCode>) -> Draft {
    let causes = ["relearn-not-completed".to_string()];
    let mut draft = Draft::new(shot, said, verdict(&CAREFUL, &causes, "forbidden"));
    draft.true_cause = None;
    draft
}

/// The engine is off; the wheels turn a shaft.
pub fn engine_off(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let mut bench = rig.bench(dice, 7.5);
    gear_hits(&mut bench, dice, rig.start_s + 0.5, 1);
    let (from, rpm) = (rig.start_s + 1.2, dice.between(60.0, 180.0));
    bench.driven[k] = Some(vec![
        (from, 0.0),
        (from + 0.8, rpm),
        (from + 4.0, 0.8 * rpm),
        (from + 5.0, 0.0),
    ]);
    let mut shot = shot(&rig, dice, &bench.run(), rig.plan(false, true), &[0, 1]);
    shot.selector = Some(Selector::N);
    shot.engine = Some(EngineState::Off);
    shot.forbidden.retain(|f| f.kind == "actuation-stall");
    let said = codes(dice, &[("P080A", "00")]);
    careful(shot, said)
        .complete()
        .noted("engine off: the wheels turn the shaft")
}

/// The engine is off and a charger holds the supply up; in N the wheels turn a shaft steadily, and nobody says what the
/// engine did.
pub fn charger(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    rig.supply.charger = Some(dice.between(13.5, 14.4));
    let mut bench = rig.bench(dice, 8.5);
    gear_hits(&mut bench, dice, rig.start_s + 0.5, 1);
    let (from, rpm) = (rig.start_s + 1.2, dice.between(60.0, 180.0));
    bench.driven[k] = Some(vec![
        (from, 0.0),
        (from + 0.5, rpm),
        (from + 5.5, 1.05 * rpm),
        (from + 6.5, 0.0),
    ]);
    let mut shot = shot(&rig, dice, &bench.run(), rig.plan(true, false), &[0, 1]);
    shot.selector = Some(Selector::N);
    shot.engine = None;
    shot.forbidden.retain(|f| f.kind == "shaft-turning-at-rest");
    let said = codes(dice, &[("P080A", "00")]);
    let mut draft = unusable(shot, said, &["open", "nothing-found"], &[]);
    draft.live = false;
    draft.noted(
        "engine off on a charger: the wheels turn the shaft, nobody says that the engine is off",
    )
}

/// The selector is in D: the shaft may turn.
pub fn selector_d(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let mut bench = idle(&rig, dice);
    let at = gear_hits(&mut bench, dice, rig.start_s + 0.6, 2);
    bench.order(at, crate::standstill::CLUTCHES[k], 0.75);
    bench.duration_s = at + 4.0 - rig.start_s;
    let probes = rig.plan(false, dice.chance(0.5));
    let mut shot = shot(&rig, dice, &bench.run(), probes, &[0, 1]);
    shot.selector = Some(Selector::D);
    let said = codes(dice, &[("P080A", "00")]);
    careful(shot, said)
        .complete()
        .noted("selector in D: the shaft may turn")
}

/// A clamp that lies.
#[derive(Debug, Clone, Copy)]
pub enum ClampFault {
    /// Not zeroed.
    Offset,
    /// The wrong way round.
    Reversed,
    /// Beyond the recorder's range.
    Clipped,
}

/// A healthy relearn through a clamp that lies.
pub fn clamp(dice: &mut Noise, level: usize, fault: ClampFault) -> Draft {
    let mut rig = Rig::standstill(dice, level);
    match fault {
        ClampFault::Offset => {
            let sign = if dice.chance(0.5) { 1.0 } else { -1.0 };
            rig.clamp.offset = sign * dice.between(4.0, 15.0);
        }
        ClampFault::Reversed => rig.clamp.reversed = true,
        ClampFault::Clipped => {
            rig.clamp = Clamp {
                range: dice.between(5.0, 9.0),
                noise: 0.03,
                ..rig.clamp
            };
        }
    }
    let mut bench = idle(&rig, dice);
    let end = relearn(&mut bench, dice, rig.start_s + 0.7);
    bench.duration_s = end + 0.8 - rig.start_s;
    let mut shot = shot(&rig, dice, &bench.run(), rig.plan(false, false), &[]);
    shot.measures = vec![measures::present(
        "signal-quality",
        Some("supply-current"),
        true,
    )];
    shot.forbidden.clear();
    let said = codes(dice, &[("P0810", "00")]);
    unusable(
        shot,
        said,
        &["open", "nothing-found", "probable"],
        &["relearn-not-completed".into()],
    )
    .noted("a recording problem: 'open' is expected, the true answer is tolerated")
}

fn unusable(
    shot: Shot,
    said: Vec<simulator::scan_text::ScanCode>,
    states: &[&str],
    causes: &[String],
) -> Draft {
    Draft::new(shot, said, verdict(states, causes, "forbidden")).complete()
}

/// A drag that is sampled so slowly that the teeth cannot be counted.
pub fn undersampled(dice: &mut Noise, level: usize) -> Draft {
    let (mut rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    // Less than two samples in a tooth's period at the drag's speed.
    let teeth_hz = 0.3 * rig.idle / 60.0 * rig.shaft[k].teeth as f64;
    rig.rate_hz = (1.6 * teeth_hz).floor();
    let mut shot = mild_shot(&rig, dice, k);
    shot.measures.clear();
    shot.forbidden.retain(|f| f.kind == "shaft-turning-at-rest");
    let said = codes(dice, &drag_codes(k));
    unusable(
        shot,
        said,
        &["open", "probable"],
        &[cause("clutch", k, "drag")],
    )
    .noted("the tooth rate is beyond half the sample rate: no speed may be claimed")
}

/// Too short a record, in which nothing happens.
pub fn short(dice: &mut Noise, level: usize) -> Draft {
    let rig = Rig::standstill(dice, level);
    let mut bench = idle(&rig, dice);
    bench.duration_s = dice.between(0.2, 0.5);
    let mut shot = shot(&rig, dice, &bench.run(), rig.plan(false, false), &[0, 1]);
    shot.measures = vec![measures::present("signal-quality", None, true)];
    let said = codes(dice, &[("P080A", "00")]);
    unusable(shot, said, &["open"], &[]).noted("less than half a second, nothing happens in it")
}

/// A shaft turns, but nobody says whether the engine runs or where the selector stands.
pub fn nothing_known(dice: &mut Noise, level: usize) -> Draft {
    let (rig, k) = (Rig::standstill(dice, level), dice.whole(0, 1) as usize);
    let mut bench = idle(&rig, dice);
    bench.shafts[k].drag = bench.shafts[k].drag_for(0.3, rig.idle);
    bench.spinning[k] = 0.3 * rig.idle;
    bench.duration_s = 7.0;
    let mut shot = shot(&rig, dice, &bench.run(), rig.plan(false, false), &[1 - k]);
    shot.selector = None;
    shot.engine = None;
    let said = codes(dice, &[("P080A", "00")]);
    let mut draft = unusable(shot, said, &["open"], &[]);
    draft.live = false;
    draft.noted("neither engine nor selector is known: turning alone proves nothing")
}
