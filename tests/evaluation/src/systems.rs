//! Classes of the further systems: what is looked at with the same clamp before a gearbox is accused. The physics is that of
//! the demo jobs (`simulator::systems`), with parameters drawn for each case.

use crate::draft::verdict;
use crate::evaluate::Evaluated;
use crate::params::Params;
use crate::render::Case;
use crate::score::Outcome;
use crate::table::Table;
use crate::truth::{Measure, SCHEMA, TrueVerdict, Truth, Wanted};
use model::job_file::{CaptureState, EngineState, UnitSection, VehicleSection};
use model::{JobFile, SensorKind};
use simulator::csv::CsvDialect;
use simulator::folder::JobFolder;
use simulator::noise::Noise;
use simulator::recorder::Recorded;
use simulator::sensor::{Coil, SpeedSensor};
use simulator::systems::can_bus::{self, Lines};
use simulator::systems::coil::Injector;
use simulator::systems::dc_motor::Motor;
use simulator::systems::invented::{channel, recording, with_job_file};
use simulator::systems::start_and_charge::{Alternator, Start, key_off};
use simulator::traces::Rotation;
use simulator::wheel::Wheel;

/// Makes a case of a class.
pub type Make = fn(&mut Params) -> SystemCase;

/// Every class by name: the system, and the fault or its absence.
pub const CLASSES: &[(&str, Make)] = &[
    ("start-and-charge healthy-start", |p| start(p, "")),
    ("start-and-charge battery-weak", |p| {
        start(p, "battery-weak")
    }),
    ("start-and-charge ground-resistance-high", |p| {
        start(p, "ground-resistance-high")
    }),
    ("start-and-charge feed-resistance-high", |p| {
        start(p, "feed-resistance-high")
    }),
    ("start-and-charge starter-drag", |p| {
        start(p, "starter-drag")
    }),
    ("start-and-charge cylinder-low-compression", |p| {
        start(p, "cylinder-low-compression")
    }),
    ("start-and-charge healthy-charging", |p| charging(p, "")),
    ("start-and-charge alternator-phase-fault", |p| {
        charging(p, "alternator-phase-fault")
    }),
    ("start-and-charge undercharging", |p| {
        charging(p, "undercharging")
    }),
    ("start-and-charge overcharging", |p| {
        charging(p, "overcharging")
    }),
    ("start-and-charge healthy-key-off", |p| parked(p, false)),
    ("start-and-charge key-off-drain", |p| parked(p, true)),
    ("dc-motor healthy", |p| motor(p, "")),
    ("dc-motor commutator-fault", |p| {
        motor(p, "commutator-fault")
    }),
    ("dc-motor motor-jammed", |p| motor(p, "motor-jammed")),
    ("dc-motor motor-wiring-resistance", |p| {
        motor(p, "motor-wiring-resistance")
    }),
    ("coil healthy", |p| injectors(p, "")),
    ("coil armature-sticking", |p| {
        injectors(p, "armature-sticking")
    }),
    ("coil coil-shorted-turns", |p| {
        injectors(p, "coil-shorted-turns")
    }),
    ("coil coil-wiring-resistance", |p| {
        injectors(p, "coil-wiring-resistance")
    }),
    ("speed-sensor healthy", |p| wheels(p, "")),
    ("speed-sensor tooth-ring-damaged", |p| {
        wheels(p, "tooth-ring-damaged")
    }),
    ("speed-sensor sensor-dead", |p| wheels(p, "sensor-dead")),
    ("speed-sensor air-gap-large", |p| wheels(p, "air-gap-large")),
    ("can-bus healthy", |p| bus(p, Lines::Whole, "")),
    ("can-bus termination-missing", |p| {
        bus(p, Lines::OneTerminator, "termination-missing")
    }),
    ("can-bus line-short-to-ground", |p| {
        bus(p, Lines::HighAtGround, "line-short-to-ground")
    }),
    ("can-bus lines-swapped", |p| {
        bus(p, Lines::Exchanged, "lines-swapped")
    }),
    ("can-bus healthy-log", |p| bus_log(p, false)),
    ("can-bus node-silent", |p| bus_log(p, true)),
];

/// The maker of a class; `None` for an unknown name.
pub fn class(name: &str) -> Option<Make> {
    CLASSES.iter().find(|c| c.0 == name).map(|c| c.1)
}

/// A job of one system.
pub struct SystemCase {
    folder: JobFolder,
    job: JobFile,
    verdict: TrueVerdict,
    measures: Vec<Measure>,
}

impl SystemCase {
    fn new(system: &str, cause: &str) -> SystemCase {
        let job = JobFile {
            vehicle: VehicleSection {
                make: Some("Invented make".into()),
                systems: vec![system.into()],
                ..Default::default()
            },
            ..Default::default()
        };
        let verdict = match cause {
            "" => verdict(&["nothing-found"], &[], "forbidden"),
            cause => verdict(&["established", "probable"], &[cause.into()], "forbidden"),
        };
        SystemCase {
            folder: JobFolder::default(),
            job,
            verdict,
            measures: Vec::new(),
        }
    }

    fn tolerates_open(mut self) -> SystemCase {
        self.verdict.states.push("open".into());
        self
    }

    fn record(
        &mut self,
        file: &str,
        rate_hz: f64,
        channels: Vec<Recorded>,
        engine: Option<EngineState>,
        state: Option<CaptureState>,
    ) {
        let r = recording(rate_hz, channels);
        let mut capture = self.folder.add_csv(file, &r, &CsvDialect::default());
        capture.engine = engine;
        capture.state = state;
        self.job.captures.push(capture);
    }

    fn measure(&mut self, kind: &str, file: &str, unit: &str, value: f64, tolerance: f64) {
        self.measures.push(Measure {
            kinds: vec![kind.into()],
            file: file.into(),
            fields: [("value".into(), Wanted::value(unit, value, tolerance))].into(),
            ..Default::default()
        });
    }

    /// The case with its job file.
    pub fn finish(self, name: &str, class: &str, p: &Params) -> Case {
        let cause = self.verdict.causes.first().cloned();
        Case {
            name: name.into(),
            folder: with_job_file(self.folder, &self.job),
            truth: Truth {
                schema: SCHEMA.into(),
                case: name.into(),
                class: class.into(),
                verdict: self.verdict,
                measures: self.measures,
                job_file: "full".into(),
                noise_level: 1,
                true_cause: cause,
                parameters: p.drawn().to_vec(),
                ..Default::default()
            },
        }
    }
}

fn start(p: &mut Params, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("start-and-charge", cause);
    let cylinders = p.pick("cylinders", &[4usize, 6]);
    let rating = p.between("rating", 480.0, 850.0);
    let size = rating / 720.0;
    let mut s = Start {
        emf: p.between("emf", 12.45, 12.8),
        battery: p.between("battery", 0.5, 0.8) * 4.6 / rating,
        feed: p.between("feed", 0.4e-3, 1.2e-3),
        ground: p.between("ground", 0.3e-3, 1.0e-3),
        starter: 7.5e-3 / size,
        constant: p.between("constant", 0.38, 0.46),
        friction: p.between("friction", 32.0, 50.0) * size,
        cylinders: vec![1.0; cylinders],
        ..Start::default()
    };
    for share in &mut s.cylinders {
        *share = p.between("compression", 0.95, 1.0);
    }
    match cause {
        "battery-weak" => s.battery = p.between("weak", 1.7, 2.8) * 5.45 / rating,
        "ground-resistance-high" => s.ground = p.between("bad ground", 4e-3, 14e-3),
        "feed-resistance-high" => s.feed = p.between("bad feed", 4e-3, 14e-3),
        "cylinder-low-compression" => s.cylinders[1] = p.between("weak cylinder", 0.1, 0.55),
        "starter-drag" => {
            let stall = s.constant * s.emf / (s.battery + s.feed + s.ground + s.starter);
            s.friction = p.between("held", 0.6, 0.8) * stall;
        }
        _ => {}
    }
    let rate = p.pick("rate", &[2_000.0, 5_000.0]);
    let traces = s.attempt(rate, 5.0, (0.8, 4.7));
    let noise = p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let volts = (20.0, 0.008 * noise);
    let channels = vec![
        channel(
            "Battery voltage",
            "battery-voltage",
            "V",
            &traces.battery_v,
            volts,
            random,
        ),
        channel(
            "Battery current",
            "battery-current",
            "A",
            &traces.battery_a,
            (1_500.0, 0.7 * noise),
            random,
        ),
        channel(
            "Engine ground",
            "ground-voltage",
            "V",
            &traces.ground_v,
            (10.0, 0.003 * noise),
            random,
        ),
        channel(
            "Starter feed",
            "feed-voltage-drop",
            "V",
            &traces.feed_v,
            (10.0, 0.003 * noise),
            random,
        ),
    ];
    let file = "start.csv";
    case.record(file, rate, channels, Some(EngineState::Cranking), None);
    case.job.unit = UnitSection {
        battery_cca_a: Some(rating),
        cylinders: Some(cylinders as u32),
        ..Default::default()
    };
    case.measure(
        "ground-resistance",
        file,
        "ohm",
        s.ground,
        0.06 * s.ground + 1e-4,
    );
    case.measure(
        "battery-resistance",
        file,
        "ohm",
        s.battery,
        0.1 * s.battery + 2e-4,
    );
    match cause {
        "starter-drag" | "cylinder-low-compression" => case.tolerates_open(),
        _ => case,
    }
}

fn charging(p: &mut Params, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("start-and-charge", cause);
    let (poles, pulley) = (12, p.between("pulley ratio", 2.3, 3.0));
    let rpm = p.between("engine speed", 680.0, 1_100.0);
    let alternator = Alternator {
        held_v: match cause {
            "undercharging" => p.between("low", 11.7, 12.1),
            "overcharging" => p.between("high", 15.7, 17.0),
            _ => p.between("held", 13.8, 14.6),
        },
        electrical_hz: rpm / 60.0 * pulley * f64::from(poles) / 2.0,
        ripple_share: match cause {
            "undercharging" => 0.0,
            _ => p.between("ripple", 0.03, 0.08),
        },
        open_diode: cause == "alternator-phase-fault",
    };
    let rate = 20_000.0;
    let volts = alternator.voltage(rate, 2.0);
    let noise = 0.004 * p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let volts = channel(
        "Battery voltage",
        "battery-voltage",
        "V",
        &volts,
        (20.0, noise),
        random,
    );
    let file = "charging.csv";
    case.record(file, rate, vec![volts], Some(EngineState::Running), None);
    case.job.unit = UnitSection {
        alternator_poles: Some(poles),
        pulley_ratio: Some((100.0 * pulley).round() / 100.0),
        ..Default::default()
    };
    case
}

fn parked(p: &mut Params, drains: bool) -> SystemCase {
    let mut case = SystemCase::new(
        "start-and-charge",
        if drains { "key-off-drain" } else { "" },
    );
    let remains = match drains {
        true => p.between("drain", 0.12, 1.5),
        false => p.between("asleep", 0.01, 0.035),
    };
    let until = p.between("last stage", 300.0, 900.0);
    let stages = [
        (0.05 * until, remains + 9.0),
        (0.4 * until, remains + 3.0),
        (until, remains + 0.9),
    ];
    let amps = key_off(2.0, 3_000.0, &stages, remains);
    let random = &mut p.noise("probes");
    let amps = channel(
        "Battery current",
        "battery-current",
        "A",
        &amps,
        (20.0, 0.003),
        random,
    );
    let file = "parked.csv";
    case.record(
        file,
        2.0,
        vec![amps],
        Some(EngineState::Off),
        Some(CaptureState::KeyOff),
    );
    // Steps of the recorder, 20 A over 2048.
    case.measure("key-off-current", file, "A", remains, 0.01 + 0.05 * remains);
    case
}

fn motor(p: &mut Params, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("dc-motor", cause);
    let emf = p.between("source", 12.0, 14.2);
    let bars = p.pick("bars", &[8, 10, 11, 12, 14]);
    let resistance = p.between("resistance", 0.3, 1.2);
    let speed = p.between("speed", 2_500.0, 4_500.0) * std::f64::consts::TAU / 60.0;
    let share = p.between("load", 0.12, 0.25);
    let constant = emf * (1.0 - share) / speed;
    let torque = constant * share * emf / resistance;
    let mut m = Motor {
        resistance,
        inductance: 4e-4 * resistance,
        constant,
        inertia: p.between("start", 0.03, 0.08) * constant * constant / resistance,
        friction: 0.4 * torque,
        fan: 0.6 * torque / speed / speed,
        bars,
        open_bar: cause == "commutator-fault",
        feed: p.between("feed", 0.01, 0.03) * resistance,
    };
    match cause {
        "motor-jammed" => m.inertia = 1e6,
        "motor-wiring-resistance" => m.feed = p.between("bad feed", 0.35, 0.8) * resistance,
        _ => {}
    }
    let rate = 20_000.0;
    let (amps, volts) = m.run(rate, 2.0, emf, (0.2, 1.8));
    let noise = p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let top = 1.15 * emf / resistance;
    let source = vec![emf; amps.len()];
    let channels = vec![
        channel(
            "Motor current",
            "motor-current",
            "A",
            &amps,
            (top, 5e-4 * noise * top),
            random,
        ),
        channel(
            "Motor voltage",
            "motor-voltage",
            "V",
            &volts,
            (20.0, 0.008 * noise),
            random,
        ),
        channel(
            "Source",
            "supply-voltage",
            "V",
            &source,
            (20.0, 0.008 * noise),
            random,
        ),
    ];
    let file = "motor.csv";
    case.record(file, rate, channels, Some(EngineState::Off), None);
    case.job.unit = UnitSection {
        motor_bars: Some(bars),
        ..Default::default()
    };
    case
}

fn injectors(p: &mut Params, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("coil", cause);
    let volts = p.between("supply", 12.8, 14.4);
    let ohm = p.between("resistance", 11.5, 15.5);
    let time = p.between("time constant", 0.7e-3, 1.0e-3);
    let bad = p.index("which", 4);
    let (rate, cycle, length) = (50_000.0, 0.12, 6.0e-3);
    let samples = (0.5 * rate) as usize;
    let noise = 0.003 * p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let roles = [
        "coil-current-1",
        "coil-current-2",
        "coil-current-3",
        "coil-current-4",
    ];
    let mut channels = Vec::new();
    for (k, role) in roles.into_iter().enumerate() {
        let own = ohm * p.between("spread", 0.985, 1.015);
        let mut valve = Injector {
            resistance: own,
            inductance: time * own,
            ratio: 1.5,
            pull_in: 0.45 * volts / ohm,
            stroke_time: 0.4e-3,
            sticks: false,
            clamp: 60.0,
        };
        if k == bad {
            match cause {
                "armature-sticking" => valve.sticks = true,
                "coil-shorted-turns" => {
                    let left = p.between("turns left", 0.45, 0.7);
                    valve.resistance *= left;
                    valve.inductance *= left * left;
                }
                "coil-wiring-resistance" => {
                    valve.resistance += ohm * p.between("more", 0.5, 1.2);
                }
                _ => {}
            }
        }
        let from = 0.02 + k as f64 * cycle / 4.0;
        let on = |t: f64| t >= from && (t - from).rem_euclid(cycle) < length;
        let amps = valve.run(rate, samples, volts - 0.2, on);
        let name = format!("Injector {}", k + 1);
        channels.push(channel(&name, role, "A", &amps, (3.0, noise), random));
    }
    let supply = vec![volts; samples];
    channels.push(channel(
        "Supply",
        "supply-voltage",
        "V",
        &supply,
        (20.0, 0.02),
        random,
    ));
    case.record("idle.csv", rate, channels, Some(EngineState::Running), None);
    case.job.unit = UnitSection {
        coil_ohm: Some((10.0 * ohm).round() / 10.0),
        ..Default::default()
    };
    case
}

/// A wheel that rolls away, holds its speed and slows down.
fn rolls(top: f64, rate: f64, seconds: f64) -> Rotation {
    let mut of = Rotation::default();
    let mut turns = 0.2;
    for i in 0..(seconds * rate) as usize {
        let t = i as f64 / rate;
        let smooth = |x: f64| x * x * (3.0 - 2.0 * x);
        let up = smooth(((t - 0.5) / 2.0).clamp(0.0, 1.0));
        let down = smooth(((seconds - 0.4 - t) / 1.5).clamp(0.0, 1.0));
        let rpm = top * up * down * (1.0 + 0.01 * (1.7 * t).sin());
        turns += rpm / 60.0 / rate;
        of.push(rpm, turns);
    }
    of
}

fn wheels(p: &mut Params, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("speed-sensor", cause);
    let teeth = p.pick("teeth", &[43u32, 44, 47, 48, 52]);
    let (rate, seconds) = (10_000.0, 7.0);
    let top = p.between("speed", 120.0, 260.0);
    let bad = p.index("which", 3);
    let noise = 0.003 * p.between("noise", 0.5, 2.0);
    let random = &mut p.noise("probes");
    let roles = ["wheel-speed-1", "wheel-speed-2", "wheel-speed-3"];
    let mut channels = Vec::new();
    for (k, role) in roles.into_iter().enumerate() {
        let of = rolls(top * (1.0 + 0.003 * k as f64), rate, seconds);
        let mut ring = Wheel::even(teeth, 0.5);
        let mut level = p.between("level", 1.6, 2.4);
        if k == bad {
            match cause {
                "tooth-ring-damaged" => ring.break_off(p.index("tooth", 40) + 1),
                "air-gap-large" => level *= p.between("gap", 0.15, 0.3),
                _ => {}
            }
        }
        let sensor = SpeedSensor {
            level,
            noise: 0.0,
            coil: Coil {
                run_out: 0.04,
                ..Coil::default()
            },
            ..SpeedSensor::reluctance(teeth).with_wheel(ring)
        };
        let mut volts = sensor.signal(&of, rate, 0.0, random);
        if k == bad && cause == "sensor-dead" {
            volts.fill(0.0);
        }
        let name = format!("Wheel {}", k + 1);
        let mut recorded = channel(&name, role, "V", &volts, (2.0, noise), random);
        recorded.section.sensor = Some(SensorKind::Vr);
        channels.push(recorded);
    }
    case.record("rolls away.csv", rate, channels, None, None);
    case.job.unit = UnitSection {
        teeth: Some(teeth),
        missing_teeth: Some(0),
        ..Default::default()
    };
    if cause == "tooth-ring-damaged" {
        case.measure("tooth-fault", "rolls away.csv", "count", 1.0, 0.1);
    }
    case
}

fn bus(p: &mut Params, lines: Lines, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("can-bus", cause);
    let rate = p.pick("rate", &[2_500_000.0, 5_000_000.0, 10_000_000.0]);
    let noise = 0.01 * p.between("noise", 0.5, 2.0);
    let random: &mut Noise = &mut p.noise("probes");
    let recorded = can_bus::lines(lines, rate, 0.02, noise, random);
    let channels = recorded.channels;
    case.record(
        "lines.csv",
        rate,
        channels,
        Some(EngineState::Running),
        None,
    );
    if matches!(lines, Lines::Whole | Lines::OneTerminator) {
        case.measure("bit-rate", "lines.csv", "kbit/s", 250.0, 2.5);
    }
    case
}

fn bus_log(p: &mut Params, silent: bool) -> SystemCase {
    let mut case = SystemCase::new("can-bus", if silent { "node-silent" } else { "" });
    let seconds = p.between("length", 8.0, 20.0);
    let from = p.between("from", 0.2, 0.5) * seconds;
    let to = from + p.between("for", 0.1, 0.4) * seconds;
    let node = p.index("which", 4);
    let log = can_bus::log(seconds, silent.then_some((node, from, to)));
    case.folder.files.insert("bus.log".into(), log.into_bytes());
    case
}

/// Outcomes by system and by class, in Markdown.
pub fn markdown(all: &[Evaluated]) -> String {
    let system = |e: &Evaluated| {
        e.truth
            .class
            .split(' ')
            .next()
            .unwrap_or_default()
            .to_owned()
    };
    let mut text = String::from("## Verdicts by system\n\n");
    text += &outcomes("system", all, system).markdown();
    text += "\n## Verdicts by class\n\n";
    text += &outcomes("class", all, |e| e.truth.class.clone()).markdown();
    let numbers: Vec<bool> = all
        .iter()
        .flat_map(|e| e.numbers.iter().map(|n| n.within))
        .collect();
    let within = numbers.iter().filter(|w| **w).count();
    text + &format!(
        "\nMeasured values within their tolerance: {within} of {}.\n",
        numbers.len()
    )
}

fn outcomes(first: &str, all: &[Evaluated], key: impl Fn(&Evaluated) -> String) -> Table {
    let headings = Outcome::ALL.map(Outcome::heading);
    let mut table = Table::new(&[&[first, "cases"], &headings[..]].concat());
    let mut names: Vec<String> = all.iter().map(&key).collect();
    names.sort();
    names.dedup();
    for name in names {
        let of: Vec<&Evaluated> = all.iter().filter(|e| key(e) == name).collect();
        let counts = Outcome::ALL.map(|o| of.iter().filter(|e| e.outcome == o).count().to_string());
        table.row(
            [name, of.len().to_string()]
                .into_iter()
                .chain(counts)
                .collect(),
        );
    }
    table
}
