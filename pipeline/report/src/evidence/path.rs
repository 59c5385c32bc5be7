//! A trace as the path of an SVG.

use signal::envelope::Runs;
use std::fmt::Write;

/// The path data of a trace between two instants and two values, in a box of `width` by `height`. Values
/// beyond the range, over-range marks among them, are drawn at its edge.
pub(crate) fn svg_path(
    runs: &Runs,
    (from, to): (f64, f64),
    (low, high): (f64, f64),
    (width, height): (f64, f64),
) -> String {
    let mut path = String::new();
    let x = |t: f64| width * (t - from) / (to - from);
    let y = |v: f64| (height * (high - v) / (high - low)).clamp(0.0, height);
    for run in runs {
        for (i, &(t, v)) in run.iter().enumerate() {
            let letter = if i == 0 { 'M' } else { 'L' };
            // Writing to a string does not fail.
            let _ = write!(path, "{letter}{:.1} {:.1}", x(t), y(v));
        }
        if run.len() == 1 {
            path.push_str("h0.5");
        }
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn runs_become_strokes_inside_the_box() {
        let runs = vec![
            vec![(0.0, 0.0), (1.0, 5.0), (2.0, f64::INFINITY)],
            vec![(4.0, 10.0)],
        ];
        let path = svg_path(&runs, (0.0, 4.0), (0.0, 10.0), (1000.0, 100.0));
        assert_eq!(path, "M0.0 100.0L250.0 50.0L500.0 0.0M1000.0 0.0h0.5");
    }
}
