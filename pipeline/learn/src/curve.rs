//! Curves of known-good units: what a channel does around an event, over the vehicles of a shop.

use crate::statistics::{median, quantile};
use model::KnownGoodCurve;
use model::job_file::EngineState;

/// Points of a curve.
pub const POINTS: usize = 96;

/// Fewest vehicles of which a curve is made: one in twenty lies outside 5 and 95 %.
pub const LEAST_VEHICLES: usize = 20;

/// Part of the span that lies before the onset.
const BEFORE: f64 = 0.15;

/// Places of the points of a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grid {
    /// Time of the first point after the onset, s.
    pub start_s: f64,
    /// Time from point to point, s.
    pub step_s: f64,
}

impl Grid {
    /// Grid for events of these durations, s: it shows nine of ten whole, with what comes before and after.
    pub fn new(mut durations: Vec<f64>) -> Option<Grid> {
        durations.retain(|d| d.is_finite() && *d > 0.0);
        durations.sort_by(f64::total_cmp);
        let long = quantile(&durations, 0.9);
        let span = 1.5 * long;
        (span > 0.0).then(|| Grid {
            start_s: -BEFORE * span,
            step_s: span / (POINTS - 1) as f64,
        })
    }

    /// Times of the points after an onset, s.
    pub fn times(self, onset_s: f64) -> impl Iterator<Item = f64> {
        (0..POINTS).map(move |i| onset_s + self.start_s + i as f64 * self.step_s)
    }
}

/// One event's values at the points of a grid; NaN where the recording does not reach.
pub type Shape = Vec<f64>;

/// Ranges from 5 to 95 % at each point, and the number of vehicles; `None` for fewer than [`LEAST_VEHICLES`]. Each
/// vehicle is the point-wise median of its events.
pub fn ranges(vehicles: &[Vec<Shape>]) -> Option<(Vec<f64>, Vec<f64>, usize)> {
    let typical: Vec<Shape> = vehicles
        .iter()
        .filter(|events| !events.is_empty())
        .map(|events| {
            (0..POINTS)
                .map(|i| median(finite(events.iter().map(|e| e[i]))))
                .collect()
        })
        .collect();
    let mut low = Vec::with_capacity(POINTS);
    let mut high = Vec::with_capacity(POINTS);
    for i in 0..POINTS {
        let mut at = finite(typical.iter().map(|v| v[i]));
        if at.len() < LEAST_VEHICLES {
            return None;
        }
        at.sort_by(f64::total_cmp);
        low.push(rounded(quantile(&at, 0.05)));
        high.push(rounded(quantile(&at, 0.95)));
    }
    Some((low, high, typical.len()))
}

fn finite(values: impl Iterator<Item = f64>) -> Vec<f64> {
    values.filter(|v| v.is_finite()).collect()
}

/// Six significant digits: more than any probe has, and a sheet that can be read.
fn rounded(value: f64) -> f64 {
    format!("{value:.5e}").parse().unwrap_or(value)
}

/// Subject of a curve: kind and message of the findings, their subject, the engine's state, the unit.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Subject {
    /// Kind of the findings.
    pub kind: String,
    /// Message of them; `None` for all of the kind.
    pub message: Option<String>,
    /// Role of the channel.
    pub role: String,
    /// Unit of the values.
    pub unit: String,
}

/// Puts ranges into a curve; `None` as in [`ranges`].
pub fn curve(
    subject: &Subject,
    engine: Option<EngineState>,
    grid: Grid,
    vehicles: &[Vec<Shape>],
) -> Option<KnownGoodCurve> {
    let (low, high, vehicles) = ranges(vehicles)?;
    Some(KnownGoodCurve {
        kind: subject.kind.clone(),
        message: subject.message.clone(),
        subject: subject.role.clone(),
        engine,
        unit: subject.unit.clone(),
        start_s: rounded(grid.start_s),
        step_s: rounded(grid.step_s),
        low,
        high,
        vehicles,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_odd_vehicle_does_not_draw_the_range() {
        let shape = |level: f64| vec![level; POINTS];
        let mut vehicles: Vec<Vec<Shape>> = (0..30)
            .map(|i| {
                vec![
                    shape(10.0 + 0.1 * f64::from(i)),
                    shape(10.0 + 0.1 * f64::from(i)),
                ]
            })
            .collect();
        // Twenty events of one vehicle count as one vehicle.
        vehicles.push(vec![shape(100.0); 20]);
        let (low, high, n) = ranges(&vehicles).expect("enough vehicles");
        assert_eq!(n, 31);
        assert!(
            (low[5] - 10.15).abs() < 1e-9 && high[5] < 13.0,
            "{} {}",
            low[5],
            high[5]
        );
        assert!(ranges(&vehicles[..19]).is_none());
    }

    #[test]
    fn a_grid_shows_what_comes_before_and_after() {
        let grid = Grid::new(vec![0.2; 40]).expect("a grid");
        let times: Vec<f64> = grid.times(5.0).collect();
        assert!((times[0] - 4.955).abs() < 1e-9 && (times[POINTS - 1] - 5.255).abs() < 1e-9);
        assert_eq!(Grid::new(vec![f64::NAN]), None);
    }
}
