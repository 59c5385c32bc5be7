//! A gearbox and a recorder: every case gets its own.

use crate::params::Params;
use model::SensorKind;
use simulator::actuator::Actuator;
use simulator::bench::Bench;
use simulator::recorder::{ChannelPlan, Clamp, Probe};
use simulator::sensor::{Coil, Conditioner, SpeedSensor};
use simulator::supply::Supply;
use simulator::traces::Mechanism::{Clutch1, Clutch2, Gear1, Gear2};
use simulator::wheel::Wheel;

/// A gearbox and a recorder.
#[derive(Debug, Clone)]
pub struct Scenario {
    /// Samples per second.
    pub rate_hz: f64,
    /// Time of the first sample, s.
    pub start_s: f64,
    /// Idle speed, rpm.
    pub idle: f64,
    /// Sensors of the two input shafts.
    pub shaft: [SpeedSensor; 2],
    /// Sensor of the output shaft.
    pub output: SpeedSensor,
    /// Engine speed sensor.
    pub engine: SpeedSensor,
    /// Clamp around the feed.
    pub clamp: Clamp,
    /// Supply of the gearbox.
    pub supply: Supply,
    /// 0 quiet, 1 usual, 2 rough.
    pub level: usize,
    names: usize,
}

/// Noise of the levels, as a multiple of the usual.
const LEVELS: [f64; 3] = [0.3, 1.0, 2.5];

impl Scenario {
    /// A scenario for a test at standstill.
    pub fn standstill(p: &mut Params) -> Self {
        let rates = [2500.0, 3200.0, 4000.0, 5000.0, 8000.0];
        Scenario::new(p, &rates, (17, 34))
    }

    /// A scenario for a drive, whose shafts are quicker.
    pub fn drive(p: &mut Params) -> Self {
        Scenario::new(p, &[8000.0, 10_000.0, 12_500.0], (14, 26))
    }

    fn new(p: &mut Params, rates: &[f64], teeth: (u64, u64)) -> Self {
        let level = p.index("noise level", 3);
        let noise = LEVELS[level];
        let count = p.whole("shaft teeth", teeth.0, teeth.1) as u32;
        let mut sensor = match p.index("shaft sensor", 10) {
            0 | 1 => coil(p, count),
            2 => current_loop(p, count),
            _ => SpeedSensor::hall(count),
        };
        if sensor.kind == SensorKind::Hall {
            sensor.level = p.pick("shaft pull-up", &[5.0, 5.0, 5.0, 12.0]);
        }
        let duty = p.between("shaft tooth width", 0.44, 0.56);
        sensor.wheel = Wheel::even(count, duty);
        sensor.noise = 0.004 * (sensor.levels().1 - sensor.levels().0) * noise;
        let other = |teeth: u64| SpeedSensor {
            noise: 0.02 * noise,
            ..SpeedSensor::hall(teeth as u32)
        };
        Scenario {
            rate_hz: p.pick("sample rate", rates),
            start_s: p.pick("first sample", &[0.0, 0.0, 0.0, -1.0, -2.5, 3.0]),
            idle: p.between("idle speed", 680.0, 890.0),
            shaft: [sensor.clone(), sensor],
            output: other(p.whole("output teeth", 20, 36)),
            engine: other(p.whole("engine teeth", 4, 10)),
            clamp: Clamp {
                amps_per_volt: p.pick("clamp", &[1.0, 10.0, 20.0, 50.0, 100.0]),
                range: p.pick("clamp range", &[60.0, 100.0, 150.0]),
                noise: 0.11 * noise,
                gain: p.between("clamp gain", 0.985, 1.015),
                ..Default::default()
            },
            supply: Supply {
                battery: p.between("battery", 12.3, 12.7),
                charging: p.between("charging", 13.7, 14.5),
                source_resistance: p.between("source resistance", 0.007, 0.02),
                ripple: 0.02 * noise,
                ..Default::default()
            },
            level,
            names: p.index("channel names", 4),
        }
    }

    /// Both shafts get Hall sensors before their wheels, where a class needs levels at rest.
    pub fn with_hall(mut self) -> Self {
        for s in &mut self.shaft {
            if s.kind == SensorKind::Vr {
                let hall = SpeedSensor::hall(s.wheel.positions);
                *s = hall.with_wheel(s.wheel.clone());
            }
        }
        self
    }

    /// Both shafts get coils before their wheels.
    pub fn with_coils(mut self, p: &mut Params) -> Self {
        let mut sensor = coil(p, self.shaft[0].wheel.positions);
        sensor = sensor.with_wheel(self.shaft[0].wheel.clone());
        sensor.noise = 0.006 * LEVELS[self.level];
        self.shaft = [sensor.clone(), sensor];
        self
    }

    /// A bench with this scenario's gearbox.
    pub fn bench(&self, p: &mut Params, duration_s: f64) -> Bench {
        let mut bench = Bench::new(self.rate_hz, duration_s);
        bench.start_s = self.start_s;
        bench.supply = self.supply;
        bench.actuators = actuators(p);
        bench.controller.quiescent = p.between("quiescent current", 0.35, 1.1);
        bench.controller.activity = 0.06 * LEVELS[self.level];
        bench.controller.activity_hz = p.between("controller rhythm", 20.0, 110.0);
        bench
    }

    /// A channel, named from this scenario's set of names.
    pub fn channel(&self, number: usize, probe: Probe) -> ChannelPlan {
        let name = match self.names {
            0 => format!("Input {number}"),
            set => NAMES[set - 1][role_index(probe.role())].to_string(),
        };
        let milli = match &probe {
            Probe::Feed(c) | Probe::Own(_, c) => c.amps_per_volt >= 50.0 && self.names % 2 == 1,
            Probe::Ground(_) => true,
            _ => false,
        };
        ChannelPlan {
            milli,
            ..ChannelPlan::new(&name, probe)
        }
    }

    /// The usual channels: feed and both shafts; supply voltage or engine speed on request.
    pub fn plan(&self, supply: bool, engine: bool) -> Vec<Probe> {
        let mut probes = vec![
            Probe::Feed(self.clamp.clone()),
            Probe::Input(0, self.shaft[0].clone()),
            Probe::Input(1, self.shaft[1].clone()),
        ];
        if supply {
            probes.push(Probe::Supply(0.012 * LEVELS[self.level]));
        }
        if engine {
            probes.push(Probe::Engine(self.engine.clone()));
        }
        probes
    }

    /// A clamp around each clutch's or gear motor's own lead.
    pub fn own(&self, clutches: bool) -> Vec<Probe> {
        let of = if clutches {
            [Clutch1, Clutch2]
        } else {
            [Gear1, Gear2]
        };
        of.map(|m| Probe::Own(m, self.clamp.clone())).to_vec()
    }

    /// Names and numbers the channels.
    pub fn channels(&self, probes: Vec<Probe>) -> Vec<ChannelPlan> {
        probes
            .into_iter()
            .enumerate()
            .map(|(i, p)| self.channel(i + 1, p))
            .collect()
    }

    /// Returns true when the names tell what the channels measure.
    pub fn telling_names(&self) -> bool {
        self.names > 0
    }
}

/// A coil sensor on the input of a control unit, as recordings of real ones show it: amplitude in proportion to speed, some
/// run-out, either polarity, a bias, clamped by the input's protection or not.
pub fn coil(p: &mut Params, teeth: u32) -> SpeedSensor {
    let clamp = p.pick(
        "coil clamp",
        &[None, None, Some((-0.7, 4.3)), Some((-1.5, 8.6))],
    );
    SpeedSensor {
        level: p.between("coil amplitude", 2.0, 10.0),
        coil: Coil {
            reversed: p.chance("coil reversed", 0.5),
            bias: p.pick("coil bias", &[0.0, 0.0, 1.5, 2.4]),
            clamp,
            run_out: p.between("coil run-out", 0.0, 0.19),
            corner_hz: p.between("coil corner", 1500.0, 6000.0),
            conditioner: None,
        },
        ..SpeedSensor::reluctance(teeth)
    }
}

/// The conditioner's recorder side of a coil: a logic signal that stops below the arming threshold.
pub fn conditioned(p: &mut Params, teeth: u32) -> SpeedSensor {
    let mut sensor = coil(p, teeth);
    sensor.coil.conditioner = Some(Conditioner {
        arming: p.between("arming threshold", 0.03, 0.45),
        pulse_s: p.between("conditioner pulse", 300e-6, 900e-6),
        high: 5.0,
    });
    sensor
}

/// A two-wire sensor within its tolerances (workshop manuals: 5.9 to 8.4 and 11.8 to 16.8 mA; ratio 1.9 at least).
pub fn current_loop(p: &mut Params, teeth: u32) -> SpeedSensor {
    let low = p.between("loop current", 0.0059, 0.0084);
    SpeedSensor {
        level: p.pick("loop resistor", &[50.0, 100.0, 115.0]),
        loop_current: (low, low * p.between("loop ratio", 1.9, 2.1)),
        ..SpeedSensor::current_loop(teeth)
    }
}

/// Actuators that differ a little from one gearbox to the next.
pub fn actuators(p: &mut Params) -> [Actuator; 4] {
    let mut vary = |mut a: Actuator, which: &str| {
        let mut factor = |what: &str, low, high| p.between(&format!("{which} {what}"), low, high);
        a.motor.resistance *= factor("resistance", 0.94, 1.08);
        a.motor.inductance *= factor("inductance", 0.7, 1.4);
        a.motor.inertia *= factor("inertia", 0.94, 1.06);
        a.stroke *= factor("stroke", 0.9, 1.12);
        a.soft_start *= factor("soft start", 0.95, 1.08);
        a.give_up *= factor("time-out", 0.75, 1.4);
        a
    };
    let (clutch, gear) = (
        vary(Actuator::clutch(), "clutch motor"),
        vary(Actuator::gear(), "gear motor"),
    );
    [clutch, clutch, gear, gear]
}

/// Names of the channels by role: English, German, French.
const NAMES: [[&str; 11]; 3] = [
    [
        "Gearbox fuse",
        "Gearbox supply",
        "Gearbox ground drop",
        "Shaft 1 sensor",
        "Shaft 2 sensor",
        "Output shaft sensor",
        "Engine speed",
        "Clutch 1 motor",
        "Clutch 2 motor",
        "Gear motor 1",
        "Gear motor 2",
    ],
    [
        "Strom Getriebesicherung",
        "Spannung Getriebe",
        "Masseabfall Getriebe",
        "Sensor Welle 1",
        "Sensor Welle 2",
        "Sensor Abtrieb",
        "Motordrehzahl",
        "Strom Kupplung 1",
        "Strom Kupplung 2",
        "Strom Schaltmotor 1",
        "Strom Schaltmotor 2",
    ],
    [
        "Courant fusible",
        "Tension alim",
        "Chute masse",
        "Arbre entrée 1",
        "Arbre entrée 2",
        "Arbre sortie",
        "Régime moteur",
        "Courant embrayage 1",
        "Courant embrayage 2",
        "Moteur vitesses 1",
        "Moteur vitesses 2",
    ],
];

fn role_index(role: &'static str) -> usize {
    match role {
        "supply-current" => 0,
        "supply-voltage" => 1,
        "ground-voltage" => 2,
        "input-shaft-1" => 3,
        "input-shaft-2" => 4,
        "output-shaft" => 5,
        "engine-speed" => 6,
        "actuator-current-1" => 7,
        "actuator-current-2" => 8,
        "gear-motor-current-1" => 9,
        _ => 10,
    }
}
