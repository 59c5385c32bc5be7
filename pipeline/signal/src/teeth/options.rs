//! Facts that the caller states about a sensor and its wheel.

/// Working principle of a speed sensor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SensorKind {
    /// Switches between two voltage levels; works down to standstill.
    Hall,
    /// Switches between two (or more) supply currents; never without current.
    CurrentLoop,
    /// Coil before a toothed wheel (variable reluctance): alternates, amplitude proportional to speed.
    Coil,
}

/// Facts about the sensor and its wheel, and bounds of what counts as turning.
#[derive(Debug, Clone)]
pub struct Options {
    /// Working principle; the signal decides when `None`, and where it contradicts the statement.
    pub sensor: Option<SensorKind>,
    /// Pitch positions per turn (36 on a 36-1 wheel).
    pub teeth: Option<u32>,
    /// Positions without a tooth (1 on a 36-1 wheel).
    pub missing_teeth: Option<u32>,
    /// Slowest speed that counts as turning, rpm.
    pub least_rpm: f64,
    /// Slowest tooth rate that counts as turning where the positions per turn are not known, Hz.
    pub least_hz: f64,
    /// Fastest speed that the shaft can have, rpm. A record that is sampled too coarsely for it is not read at all: what
    /// looks like a slow train may be the alias of a fast one. `None` where nothing is known.
    pub highest_rpm: Option<f64>,
    /// Fastest speed that may hide behind "at rest", as a multiple of the slowest that counts as turning.
    pub rest_margin: f64,
    /// Smallest amplitude (peak to peak) that can be a two-level sensor's, in the signal's unit.
    pub least_amplitude: f64,
    /// Greatest acceleration that the shaft's inertia allows, rpm/s; infinite for no bound.
    pub max_acceleration: f64,
    /// Levels at which a living sensor of this kind must stand at rest, in the signal's unit: ranges from low to high.
    /// Empty where a level proves nothing (a coil's or a pull-up's).
    pub quiescent_levels: Vec<(f64, f64)>,
}

impl Default for Options {
    fn default() -> Self {
        Options {
            sensor: None,
            teeth: None,
            missing_teeth: None,
            least_rpm: 20.0,
            least_hz: 8.0,
            highest_rpm: None,
            rest_margin: 3.0,
            least_amplitude: 0.0,
            max_acceleration: f64::INFINITY,
            quiescent_levels: Vec::new(),
        }
    }
}
