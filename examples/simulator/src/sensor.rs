//! Speed sensors: what a tooth wheel's rotation looks like on the wire.

use crate::noise::Noise;
use crate::traces::Rotation;
use model::SensorKind;

/// A tooth wheel and the sensor in front of it.
#[derive(Debug, Clone, PartialEq)]
pub struct SpeedSensor {
    /// Working principle.
    pub kind: SensorKind,
    /// Pitch positions per turn.
    pub teeth: u32,
    /// Positions without a tooth, at the end of the turn.
    pub missing: u32,
    /// Hall: high level, V. Variable reluctance: amplitude at 1000 rpm, V. Current loop: sense resistor, ohm.
    pub level: f64,
    /// Positions whose tooth has broken off.
    pub broken: Vec<u32>,
    /// Positions whose tooth is notched, so that it counts twice.
    pub notched: Vec<u32>,
    /// Share of a pitch that a tooth takes.
    pub duty: f64,
    /// Noise on the wire, V (standard deviation).
    pub noise: f64,
    /// What is wrong with it.
    pub fault: SensorFault,
}

/// What can be wrong with a speed sensor's signal though its shaft turns as the model says.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum SensorFault {
    /// Nothing.
    #[default]
    None,
    /// It rests at one level whatever the shaft does: a share of the high level.
    Dead(f64),
    /// The signal is lost from time to time: (from, until) in s; it then rests at the low level.
    DropOuts(Vec<(f64, f64)>),
    /// A contact opens from time to time: (from, until) in s; the line then floats beyond its levels.
    ContactLost(Vec<(f64, f64)>),
    /// The shaft stands with a tooth's edge before the sensor, which trembles: changes per second.
    Dither(f64),
}

/// Low and high current of a two-wire sensor, A.
pub const LOOP_CURRENT: (f64, f64) = (0.007, 0.014);

impl SpeedSensor {
    /// A three-wire Hall sensor with a 5 V pull-up.
    pub fn hall(teeth: u32) -> Self {
        SpeedSensor {
            kind: SensorKind::Hall,
            teeth,
            missing: 0,
            broken: Vec::new(),
            notched: Vec::new(),
            level: 5.0,
            duty: 0.5,
            noise: 0.02,
            fault: SensorFault::None,
        }
    }

    /// A coil: 3 V amplitude at 1000 rpm.
    pub fn reluctance(teeth: u32) -> Self {
        SpeedSensor {
            kind: SensorKind::Vr,
            level: 3.0,
            ..SpeedSensor::hall(teeth)
        }
    }

    /// A two-wire sensor read across 115 ohm.
    pub fn current_loop(teeth: u32) -> Self {
        SpeedSensor {
            kind: SensorKind::CurrentLoop,
            level: 115.0,
            ..SpeedSensor::hall(teeth)
        }
    }

    /// Low and high level on the wire, V; for a coil, minus and plus its amplitude at 1000 rpm.
    pub fn levels(&self) -> (f64, f64) {
        match self.kind {
            SensorKind::Hall => (0.06 * self.level, 0.985 * self.level),
            SensorKind::Vr => (-self.level, self.level),
            SensorKind::CurrentLoop => (LOOP_CURRENT.0 * self.level, LOOP_CURRENT.1 * self.level),
        }
    }

    /// Level of a wire on which nothing happens, V.
    pub fn quiet(&self) -> f64 {
        if self.kind == SensorKind::Vr {
            0.0
        } else {
            self.levels().0
        }
    }

    /// Voltage of a wheel at `turns` that goes at `rpm`, V, without noise.
    pub fn ideal(&self, turns: f64, rpm: f64) -> f64 {
        let pitch = turns.rem_euclid(1.0) * self.teeth as f64;
        let place = (pitch as u32).min(self.teeth.saturating_sub(1));
        let toothless =
            place >= self.teeth.saturating_sub(self.missing) || self.broken.contains(&place);
        // The middle third of a notched tooth is gone.
        let within = pitch.fract() / self.duty;
        let gap = self.notched.contains(&place) && (0.33..0.67).contains(&within);
        let (low, high) = self.levels();
        match self.kind {
            SensorKind::Vr if toothless => 0.0,
            SensorKind::Vr => self.level * rpm / 1000.0 * (std::f64::consts::TAU * pitch).sin(),
            _ if !toothless && !gap && pitch.fract() < self.duty => high,
            _ => low,
        }
    }

    /// Voltage at each sample, V.
    pub fn signal(&self, of: &Rotation, rate_hz: f64, start_s: f64, noise: &mut Noise) -> Vec<f64> {
        let (low, high) = self.levels();
        let mut trembling = false;
        let samples = of.turns.iter().zip(&of.rpm).enumerate();
        samples
            .map(|(i, (&turns, &rpm))| {
                let t = start_s + i as f64 / rate_hz;
                let v = match &self.fault {
                    SensorFault::Dead(share) => share * high,
                    SensorFault::DropOuts(lost)
                        if lost.iter().any(|&(from, to)| t >= from && t < to) =>
                    {
                        self.quiet()
                    }
                    SensorFault::ContactLost(open)
                        if open.iter().any(|&(from, to)| t >= from && t < to) =>
                    {
                        high + 0.6 * (high - low)
                    }
                    SensorFault::Dither(changes) if rpm.abs() < 1.0 => {
                        trembling ^= noise.chance((changes / rate_hz).min(1.0));
                        if trembling { high } else { low }
                    }
                    _ => self.ideal(turns, rpm),
                };
                v + self.noise * noise.normal()
            })
            .collect()
    }
}
