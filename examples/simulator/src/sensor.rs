//! Speed sensors: the voltage on the wire while a tooth wheel turns in front of the sensor.

use crate::noise::Noise;
use crate::traces::Rotation;
use crate::wheel::Wheel;
use model::SensorKind;
use std::f64::consts::TAU;

/// A tooth wheel and the sensor in front of it.
#[derive(Debug, Clone, PartialEq)]
pub struct SpeedSensor {
    /// Working principle.
    pub kind: SensorKind,
    /// The wheel.
    pub wheel: Wheel,
    /// Hall: high level, V. Coil: amplitude at 1000 rpm, V. Current loop: sense resistor, ohm.
    pub level: f64,
    /// Low and high current of a two-wire sensor, A.
    pub loop_current: (f64, f64),
    /// Properties of a coil and of the input it is wired to.
    pub coil: Coil,
    /// Share of the level changes that bounce back for one sample, as contacts and slow edges do.
    pub bounce: f64,
    /// Noise on the wire, V (standard deviation).
    pub noise: f64,
    /// Defect of the sensor or its wiring.
    pub fault: SensorFault,
}

/// Coil properties. The open-circuit voltage is `level * rpm / 1000` (Faraday: EMF = -N dPhi/dt).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coil {
    /// The leads are interchanged.
    pub reversed: bool,
    /// Direct voltage that the control unit's input puts on the wire, V.
    pub bias: f64,
    /// Lowest and highest voltage that the input's protection lets pass, V.
    pub clamp: Option<(f64, f64)>,
    /// Run-out of the wheel: the amplitude is multiplied by exp(run_out * cos(angle)). The field of a periodic
    /// array falls off exponentially with distance (Laplace's equation), so a sine of the air gap acts so.
    pub run_out: f64,
    /// Tooth rate at which the coil's inductance against the input's resistance has taken 3 dB, Hz.
    pub corner_hz: f64,
    /// The recorder sits behind a signal conditioner with these thresholds.
    pub conditioner: Option<Conditioner>,
}

/// An integrated conditioner for coil sensors: armed by a positive peak, it gives one pulse of fixed length at the next
/// negative-going zero crossing. Below the arming threshold there is no pulse (data sheet LM1815, TI SNOSBU8F:
/// arming 30/45/60 mV at least and 40/80/90 % of the peak before, pulse 70/100/130 us).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditioner {
    /// Least positive peak that arms, V.
    pub arming: f64,
    /// Length of a pulse, s.
    pub pulse_s: f64,
    /// High level of the pulse, V.
    pub high: f64,
}

impl Default for Conditioner {
    fn default() -> Self {
        Conditioner {
            arming: 0.045,
            pulse_s: 100e-6,
            high: 5.0,
        }
    }
}

impl Default for Coil {
    fn default() -> Self {
        Coil {
            reversed: false,
            bias: 0.0,
            clamp: None,
            run_out: 0.0,
            corner_hz: f64::INFINITY,
            conditioner: None,
        }
    }
}

/// Defect of a speed sensor's signal though its shaft turns as the model says.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum SensorFault {
    /// None.
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

/// Low and high current of a two-wire sensor, A (vehicle makers' workshop manuals: 5.9/7/8.4 and 11.8/14/16.8 mA).
pub const LOOP_CURRENT: (f64, f64) = (0.007, 0.014);

impl SpeedSensor {
    /// A three-wire Hall sensor with a 5 V pull-up before an even wheel.
    pub fn hall(teeth: u32) -> Self {
        SpeedSensor {
            kind: SensorKind::Hall,
            wheel: Wheel::even(teeth, 0.5),
            level: 5.0,
            loop_current: LOOP_CURRENT,
            coil: Coil::default(),
            bounce: 0.0,
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

    /// The same sensor before another wheel.
    pub fn with_wheel(mut self, wheel: Wheel) -> Self {
        self.wheel = wheel;
        self
    }

    /// Low and high level on the wire, V; for a coil, minus and plus its amplitude at 1000 rpm.
    pub fn levels(&self) -> (f64, f64) {
        match self.kind {
            SensorKind::Hall => (0.06 * self.level, 0.985 * self.level),
            SensorKind::Vr => (-self.level, self.level),
            SensorKind::CurrentLoop => (
                self.loop_current.0 * self.level,
                self.loop_current.1 * self.level,
            ),
        }
    }

    /// Level of a wire on which nothing happens, V.
    pub fn quiet(&self) -> f64 {
        match (self.kind, self.coil.conditioner) {
            (SensorKind::Vr, None) => self.coil.bias,
            (SensorKind::Vr, Some(_)) => 0.0,
            _ => self.levels().0,
        }
    }

    /// Voltage while the wheel stands at `turns` and goes at `rpm`, V, without noise, clamp or conditioner.
    pub fn ideal(&self, turns: f64, rpm: f64) -> f64 {
        match self.kind {
            SensorKind::Vr => self.coil_voltage(turns, rpm),
            _ if self.wheel.covers(turns) => self.levels().1,
            _ => self.levels().0,
        }
    }

    fn coil_voltage(&self, turns: f64, rpm: f64) -> f64 {
        let c = &self.coil;
        let rate = rpm / 60.0 * f64::from(self.wheel.positions) / c.corner_hz;
        let run_out = if c.run_out == 0.0 {
            1.0
        } else {
            (c.run_out * (TAU * turns).cos()).exp()
        };
        let sign = if c.reversed { -1.0 } else { 1.0 };
        let amplitude = self.level * rpm / 1000.0 * run_out / (1.0 + rate * rate).sqrt();
        sign * amplitude * self.wheel.flux_change(turns)
    }

    /// Voltage at each sample, V.
    pub fn signal(&self, of: &Rotation, rate_hz: f64, start_s: f64, noise: &mut Noise) -> Vec<f64> {
        let clean = match (self.kind, self.coil.conditioner) {
            (SensorKind::Vr, Some(c)) => self.conditioned(of, rate_hz, c),
            (SensorKind::Vr, None) => self.coil_input(of),
            _ => self.levels_seen(of, noise),
        };
        let (low, high) = self.levels();
        let mut trembling = false;
        let samples = clean.into_iter().zip(&of.rpm).enumerate();
        samples
            .map(|(i, (v, &rpm))| {
                let t = start_s + i as f64 / rate_hz;
                let within = |spans: &[(f64, f64)]| spans.iter().any(|s| t >= s.0 && t < s.1);
                let v = match &self.fault {
                    SensorFault::Dead(share) => share * high,
                    SensorFault::DropOuts(lost) if within(lost) => self.quiet(),
                    SensorFault::ContactLost(open) if within(open) => high + 0.6 * (high - low),
                    SensorFault::Dither(changes) if rpm.abs() < 1.0 => {
                        trembling ^= noise.chance((changes / rate_hz).min(1.0));
                        if trembling { high } else { low }
                    }
                    _ => v,
                };
                v + self.noise * noise.normal()
            })
            .collect()
    }

    /// The two levels, with edges that bounce.
    fn levels_seen(&self, of: &Rotation, noise: &mut Noise) -> Vec<f64> {
        let (low, high) = self.levels();
        let (mut before, mut bounces) = (None, 0);
        let covered = of.turns.iter().map(|&x| self.wheel.covers(x));
        covered
            .map(|on| {
                if self.bounce > 0.0 && before.is_some_and(|b| b != on) {
                    bounces = if noise.chance(self.bounce) { 2 } else { 0 };
                }
                before = Some(on);
                bounces = (bounces - 1).max(-1);
                if on != (bounces == 0) { high } else { low }
            })
            .collect()
    }

    /// A coil as the control unit's input leaves it.
    fn coil_input(&self, of: &Rotation) -> Vec<f64> {
        let (low, high) = self
            .coil
            .clamp
            .unwrap_or((f64::NEG_INFINITY, f64::INFINITY));
        let samples = of.turns.iter().zip(&of.rpm);
        samples
            .map(|(&x, &n)| (self.coil.bias + self.coil_voltage(x, n)).clamp(low, high))
            .collect()
    }

    /// A coil behind a conditioner.
    fn conditioned(&self, of: &Rotation, rate_hz: f64, c: Conditioner) -> Vec<f64> {
        let length = (c.pulse_s * rate_hz).round().max(1.0) as usize;
        let (mut peak, mut last_peak, mut left, mut before) = (0.0_f64, 0.0_f64, 0, 0.0);
        let samples = of.turns.iter().zip(&of.rpm);
        samples
            .map(|(&x, &n)| {
                let v = self.coil_voltage(x, n);
                peak = peak.max(v);
                if before > 0.0 && v <= 0.0 {
                    if peak > c.arming.max(0.5 * last_peak) {
                        left = length;
                        last_peak = peak;
                    } else {
                        // The threshold that follows the peaks decays while none passes it.
                        last_peak *= 0.5;
                    }
                    peak = 0.0;
                }
                before = v;
                let high = left > 0;
                left = left.saturating_sub(1);
                if high { c.high } else { 0.0 }
            })
            .collect()
    }
}
