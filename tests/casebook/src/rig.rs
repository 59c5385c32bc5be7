//! A gearbox and a recorder as chance has them: every case gets its own.

use model::SensorKind;
use simulator::actuator::Actuator;
use simulator::bench::Bench;
use simulator::noise::Noise;
use simulator::recorder::{ChannelPlan, Clamp, Probe};
use simulator::sensor::SpeedSensor;
use simulator::supply::Supply;
use simulator::traces::Mechanism::{Clutch1, Clutch2, Gear1, Gear2};

/// A gearbox and a recorder.
#[derive(Debug, Clone)]
pub struct Rig {
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
    /// What feeds the gearbox.
    pub supply: Supply,
    /// 0 quiet, 1 usual, 2 rough.
    pub level: usize,
    names: usize,
}

/// Noise of the levels, as a multiple of the usual.
const LEVELS: [f64; 3] = [0.3, 1.0, 2.5];

impl Rig {
    /// A rig for a test at standstill.
    pub fn standstill(dice: &mut Noise, level: usize) -> Self {
        let rates = [2500.0, 3200.0, 4000.0, 5000.0, 8000.0];
        Rig::new(dice, level, &rates, (17, 34))
    }

    /// A rig for a drive, whose shafts are quicker.
    pub fn drive(dice: &mut Noise, level: usize) -> Self {
        Rig::new(dice, level, &[8000.0, 10_000.0, 12_500.0], (14, 26))
    }

    fn new(dice: &mut Noise, level: usize, rates: &[f64], teeth: (u64, u64)) -> Self {
        let noise = LEVELS[level.min(2)];
        let count = dice.whole(teeth.0, teeth.1) as u32;
        let mut sensor = match dice.whole(0, 9) {
            0 | 1 => SpeedSensor::reluctance(count),
            2 => SpeedSensor::current_loop(count),
            _ => SpeedSensor::hall(count),
        };
        if sensor.kind == SensorKind::Hall && dice.chance(0.3) {
            sensor.level = 12.0;
        }
        sensor.duty = dice.between(0.44, 0.56);
        sensor.noise = 0.004 * (sensor.levels().1 - sensor.levels().0) * noise;
        let other = |teeth: u64| SpeedSensor {
            noise: 0.02 * noise,
            ..SpeedSensor::hall(teeth as u32)
        };
        let amps_per_volt = *dice.pick(&[1.0, 10.0, 20.0, 50.0, 100.0]);
        Rig {
            rate_hz: *dice.pick(rates),
            start_s: *dice.pick(&[0.0, 0.0, 0.0, -1.0, -2.5, 3.0]),
            idle: dice.between(680.0, 890.0),
            shaft: [sensor.clone(), sensor],
            output: other(dice.whole(20, 36)),
            engine: other(dice.whole(4, 10)),
            clamp: Clamp {
                amps_per_volt,
                range: *dice.pick(&[60.0, 100.0, 150.0]),
                noise: 0.11 * noise,
                gain: dice.between(0.985, 1.015),
                ..Default::default()
            },
            supply: Supply {
                battery: dice.between(12.3, 12.7),
                charging: dice.between(13.7, 14.5),
                source_resistance: dice.between(0.007, 0.02),
                ripple: 0.02 * noise,
                ..Default::default()
            },
            level,
            names: dice.whole(0, 3) as usize,
        }
    }

    /// A bench with this rig's gearbox.
    pub fn bench(&self, dice: &mut Noise, duration_s: f64) -> Bench {
        let mut bench = Bench::new(self.rate_hz, duration_s);
        bench.start_s = self.start_s;
        bench.supply = self.supply;
        bench.actuators = actuators(dice);
        bench.controller.quiescent = dice.between(0.35, 1.1);
        bench.controller.activity = 0.06 * LEVELS[self.level.min(2)];
        bench.controller.activity_hz = dice.between(20.0, 110.0);
        bench
    }

    /// A channel; its name comes from this rig's set of names.
    pub fn channel(&self, number: usize, probe: Probe) -> ChannelPlan {
        let name = match self.names {
            0 => format!("CH{number}"),
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

    /// The usual channels: feed and both shafts; the supply's voltage or the engine's speed on request.
    pub fn plan(&self, supply: bool, engine: bool) -> Vec<Probe> {
        let mut probes = vec![
            Probe::Feed(self.clamp.clone()),
            Probe::Input(0, self.shaft[0].clone()),
            Probe::Input(1, self.shaft[1].clone()),
        ];
        if supply {
            probes.push(Probe::Supply(0.012 * LEVELS[self.level.min(2)]));
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

    /// Whether the names say what the channels measure.
    pub fn telling_names(&self) -> bool {
        self.names > 0
    }
}

/// Actuators that differ a little from one gearbox to the next.
pub fn actuators(dice: &mut Noise) -> [Actuator; 4] {
    let mut vary = |mut a: Actuator| {
        a.motor.resistance *= dice.between(0.94, 1.08);
        a.motor.inductance *= dice.between(0.7, 1.4);
        a.motor.inertia *= dice.between(0.94, 1.06);
        a.stroke *= dice.between(0.9, 1.12);
        a.soft_start *= dice.between(0.95, 1.08);
        a.give_up *= dice.between(0.75, 1.4);
        a
    };
    let (clutch, gear) = (vary(Actuator::clutch()), vary(Actuator::gear()));
    [clutch, clutch, gear, gear]
}

/// Names of the channels by role: English, German, French.
const NAMES: [[&str; 11]; 3] = [
    [
        "Feed current",
        "Gearbox supply",
        "Gearbox ground drop",
        "N input 1",
        "N input 2",
        "N output",
        "Engine speed",
        "Clutch 1 current",
        "Clutch 2 current",
        "Gear motor 1",
        "Gear motor 2",
    ],
    [
        "Strom Sicherung",
        "Klemme 30 Getriebe",
        "Masseabfall",
        "Drehzahl EW1",
        "Drehzahl EW2",
        "Drehzahl Abtrieb",
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
