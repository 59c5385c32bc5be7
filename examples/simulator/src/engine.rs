//! The engine's speed as a given course.

/// Course of the engine during a recording at standstill.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EngineRun {
    /// Corner points (s, rpm) of the course, in order of time; constant before the first and after the last.
    pub course: Vec<(f64, f64)>,
    /// Slow wandering of the speed, rpm peak.
    pub wander: f64,
    /// From and until when the starter turns the engine, s.
    pub crank: Option<(f64, f64)>,
    /// Ripple of the speed within a turn.
    pub ripple: Ripple,
}

/// Speed ripple of a piston engine within a turn: each working stroke quickens it, each compression slows it down.
///
/// The energy that a stroke takes and gives is the same at every speed, so the coefficient of fluctuation
/// dE / (J w^2) falls with the square of speed (flywheel sizing in textbooks of machine design, Shigley).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ripple {
    /// Working strokes per turn: half the number of cylinders of a four-stroke engine.
    pub per_turn: f64,
    /// Peak ripple at 800 rpm, share of the mean speed.
    pub at_800_rpm: f64,
    /// Peak ripple at low speed, share of the mean speed.
    pub most: f64,
}

impl Default for Ripple {
    fn default() -> Self {
        Ripple {
            per_turn: 2.0,
            at_800_rpm: 0.0,
            most: 0.15,
        }
    }
}

impl Ripple {
    /// Factor on the mean speed `rpm` at an angle of the crankshaft, turns.
    pub fn factor(&self, rpm: f64, turns: f64) -> f64 {
        if self.at_800_rpm == 0.0 || rpm <= 0.0 {
            return 1.0;
        }
        let peak = (self.at_800_rpm * (800.0 / rpm).powi(2)).min(self.most);
        1.0 + peak * (std::f64::consts::TAU * self.per_turn * turns).sin()
    }
}

impl EngineRun {
    /// The engine stands still.
    pub fn off() -> Self {
        EngineRun::default()
    }

    /// The engine idles throughout.
    pub fn idle(rpm: f64) -> Self {
        EngineRun {
            course: vec![(0.0, rpm)],
            wander: 8.0,
            ..EngineRun::default()
        }
    }

    /// The engine is started at `at_s`: the starter turns it for `crank_s`, it flares and settles at `rpm`.
    pub fn started(at_s: f64, crank_s: f64, rpm: f64) -> Self {
        let up = at_s + crank_s;
        let course = vec![
            (at_s, 0.0),
            (at_s + 0.08, 210.0),
            (up, 230.0),
            (up + 0.35, rpm * 1.35),
            (up + 1.1, rpm),
        ];
        EngineRun {
            course,
            wander: 8.0,
            crank: Some((at_s, up)),
            ..EngineRun::default()
        }
    }

    /// A stab at the accelerator: up to `rpm` and back to the speed before, within `long_s`.
    pub fn with_blip(mut self, at_s: f64, rpm: f64, long_s: f64) -> Self {
        let idle = self.course.last().map_or(0.0, |p| p.1);
        self.course.extend([
            (at_s, idle),
            (at_s + 0.3 * long_s, rpm),
            (at_s + 0.55 * long_s, rpm),
            (at_s + long_s, idle),
        ]);
        self
    }

    /// Returns true when it turns at any time.
    pub fn runs(&self) -> bool {
        self.course.iter().any(|p| p.1 > 0.0)
    }

    /// Mean speed at `t`, rpm.
    pub fn rpm(&self, t: f64) -> f64 {
        let base = interpolate(&self.course, t);
        let cranking = self.crank.is_some_and(|(_, to)| t < to);
        if base <= 0.0 || cranking {
            return base;
        }
        let w = std::f64::consts::TAU * t;
        base + self.wander * (0.6 * (0.9 * w + 0.4).sin() + 0.4 * (2.3 * w + 1.1).sin())
    }
}

/// Straight lines between corner points in order of their first number; constant outside; 0 without points.
pub fn interpolate(points: &[(f64, f64)], x: f64) -> f64 {
    let after = points.partition_point(|p| p.0 <= x);
    match (after.checked_sub(1).map(|i| points[i]), points.get(after)) {
        (Some(a), Some(&b)) => a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0),
        (Some(a), None) => a.1,
        (None, Some(&b)) => b.1,
        (None, None) => 0.0,
    }
}
