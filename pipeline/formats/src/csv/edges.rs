//! Edge lists: a row whenever a level changes, as logic recorders write them, instead of a row per sample.

use model::TimeAxis;

/// Rows that must be there before they are taken for an edge list.
const LEAST_ROWS: usize = 4;

/// Whether the rows are an edge list: nothing but noughts and ones, and hardly a row without a change.
pub(super) fn is_list(columns: &[Vec<f32>]) -> bool {
    let rows = columns.first().map_or(0, Vec::len);
    if rows < LEAST_ROWS || columns.iter().flatten().any(|v| *v != 0.0 && *v != 1.0) {
        return false;
    }
    let changes = (1..rows)
        .filter(|i| columns.iter().any(|c| c[*i] != c[i - 1]))
        .count();
    changes * 10 >= (rows - 1) * 9
}

/// Writes an edge list out as samples: each level lasts until the next edge, so every edge becomes two samples at its
/// own instant, the old level and the new one.
pub(super) fn steps(time: &TimeAxis, columns: &[Vec<f32>]) -> (TimeAxis, Vec<Vec<f32>>) {
    let rows = time.len();
    let twice = |i: usize| if i == 0 { 1 } else { 2 };
    let instants: Vec<f64> = (0..rows)
        .flat_map(|i| std::iter::repeat_n(time.at(i), twice(i)))
        .collect();
    let levels = |c: &Vec<f32>| {
        let mut out = Vec::with_capacity(2 * rows);
        for (i, v) in c.iter().enumerate() {
            if i > 0 {
                out.push(c[i - 1]);
            }
            out.push(*v);
        }
        out
    };
    (
        TimeAxis::Listed(instants.into()),
        columns.iter().map(levels).collect(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_edge_becomes_two_samples_at_its_instant() {
        let columns = vec![vec![0.0, 1.0, 0.0, 0.0, 1.0], vec![0.0, 0.0, 0.0, 1.0, 1.0]];
        assert!(is_list(&columns));
        let time = TimeAxis::Listed([0.0, 0.1, 0.25, 0.3, 0.5].into());
        let (time, levels) = steps(&time, &columns);
        let TimeAxis::Listed(t) = time else { panic!() };
        assert_eq!(t.to_vec(), [0.0, 0.1, 0.1, 0.25, 0.25, 0.3, 0.3, 0.5, 0.5]);
        assert_eq!(levels[0], [0.0, 0.0, 1.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0]);
        assert_eq!(levels[1], [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0]);
    }

    #[test]
    fn samples_are_no_edge_list() {
        let square: Vec<f32> = (0..40).map(|i| (i / 4 % 2) as f32).collect();
        assert!(!is_list(&[square]));
        assert!(!is_list(&[vec![0.0, 1.0, 0.0, 5.0, 0.0, 1.0]]));
        assert!(!is_list(&[vec![0.0, 1.0]]));
        assert!(!is_list(&[]));
    }
}
